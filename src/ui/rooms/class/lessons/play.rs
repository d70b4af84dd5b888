//! A lesson in use: what to do, the bench, what came of it, and where it leads on.

use super::laid::{Own, has_book, laid, on_bench};
use super::show::{self, Showing, use_showing};
use super::{book, causes, run, sheet};
use crate::practice::lesson::{AT_A_MACHINE, Goal, Lesson, OnBench};
use crate::ui::rooms::class::stand::use_stand;
use crate::ui::widgets::words;
use gloo_events::{EventListener, EventListenerOptions, EventListenerPhase};
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlElement, KeyboardEvent};
use yew::prelude::*;

/// What a lesson needs.
#[derive(Clone, PartialEq, Properties)]
pub struct Props {
    /// Its number from 1, and of how many.
    pub number: u8,
    /// How many there are.
    pub of: u8,
    /// The lesson.
    pub lesson: Rc<Lesson>,
    /// Whether the window is narrow.
    pub narrow: bool,
    /// Whether it is the last one.
    pub last: bool,
    /// It was finished.
    pub finish: Callback<()>,
    /// On to the next lesson.
    pub on: Callback<()>,
    /// Back to the list.
    pub leave: Callback<()>,
}

/// What a step is done at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum At {
    Sheet,
    Book,
    Run,
}

fn done_at(goal: &Goal) -> At {
    match goal {
        Goal::RightBook(_) | Goal::BookWith(_) | Goal::Explained => At::Book,
        Goal::Bracketed | Goal::HeldAll => At::Run,
        _ => At::Sheet,
    }
}

#[component]
pub fn Play(props: &Props) -> Html {
    let lesson = &props.lesson;
    let step = use_state_eq(|| 0usize);
    let done = use_state_eq(|| false);
    let finished = use_state_eq(|| false);
    let own = use_state_eq(|| laid(&lesson.start, lesson.title).1);
    let showing = use_state_eq(|| None as Showing);
    let now_step = lesson.steps.get(*step).or(lesson.steps.last());
    let goal = now_step.map_or(Goal::Folds(0), |s| s.goal.clone());
    let at = done_at(&goal);
    let stand = use_stand(|| laid(&lesson.start, lesson.title).0, at == At::Sheet);
    let finds = now_step.is_some_and(|s| s.finds);
    {
        let hide = stand.hide.clone();
        use_effect_with((finds, *step), move |(finds, _)| hide.emit(*finds));
    }
    let now = on_bench(&lesson.start, &stand.state, stand.bench.as_deref(), &own);
    let reached = now.as_ref().is_some_and(|now| goal.reached(now));
    {
        let (done, showing) = (done.clone(), showing.clone());
        use_effect_with((*step, reached, showing.is_some()), move |(_, reached, shows)| {
            // What is shown is shown to its end.
            if *reached && !*shows {
                done.set(true);
                showing.set(None);
            }
        });
    }
    use_showing(&show::Props {
        lesson,
        step: *step,
        now: now.as_ref(),
        stand: &stand,
        own: own.setter(),
        showing: showing.clone(),
    });
    // What lay there when it was at rest last: sentences stay while the sheet moves.
    let rested = use_mut_ref(|| lesson.start.clone());
    if let Some(now) = &now {
        *rested.borrow_mut() = now.clone();
    }
    let goes_to = |to: usize| {
        let (step, done, showing, finished) = (step.setter(), done.setter(), showing.setter(), finished.setter());
        move || {
            showing.set(None);
            done.set(false);
            finished.set(false);
            step.set(to);
        }
    };
    let advance = {
        let (go, last) = (goes_to(*step + 1), *step + 1 >= lesson.steps.len());
        let (finish, finished) = (props.finish.clone(), finished.setter());
        Callback::from(move |()| {
            if last {
                finish.emit(());
                finished.set(true);
            } else {
                go();
            }
        })
    };
    let onward = if *finished { if props.last { props.leave.clone() } else { props.on.clone() } } else { advance };
    let can_go_on = *done || *finished;
    use_enter(can_go_on, &onward);
    let back = {
        let (to, lesson, stand, own) = (step.saturating_sub(1), lesson.clone(), stand.clone(), own.setter());
        let go = goes_to(to);
        Callback::from(move |_: MouseEvent| {
            show::begin(&lesson, to, &stand, &own);
            go();
        })
    };
    let again = {
        let (lesson, stand, own, go) = (lesson.clone(), stand.clone(), own.setter(), goes_to(0));
        Callback::from(move |_: MouseEvent| {
            show::begin(&lesson, 0, &stand, &own);
            go();
        })
    };
    let show_me = {
        let (lesson, stand, own, step) = (lesson.clone(), stand.clone(), own.setter(), *step);
        let (showing, done) = (showing.clone(), done.setter());
        Callback::from(move |_: MouseEvent| {
            if showing.is_some() {
                showing.set(None);
                return;
            }
            done.set(false);
            show::begin(&lesson, step, &stand, &own);
            showing.set(Some((0, false)));
        })
    };
    let change = {
        let own = own.setter();
        Callback::from(move |said: Own| own.set(said))
    };
    let view = match at {
        At::Sheet => html! {
            <sheet::SheetView stand={stand.clone()} narrow={props.narrow} book={has_book(&lesson.start)} />
        },
        At::Book => html! {
            <book::BookView stand={stand.clone()} narrow={props.narrow} goal={goal.clone()} own={(*own).clone()} change={change.clone()} />
        },
        At::Run => html! {
            <run::RunView narrow={props.narrow} goal={goal.clone()} own={(*own).clone()} change={change.clone()} />
        },
    };
    let asks_cause = matches!(goal, Goal::CausesFit(_) | Goal::Proven | Goal::Looked);
    let answers = if asks_cause {
        causes::causes(&causes::Props { start: &lesson.start, goal: &goal, own: &own, change })
    } else {
        Html::default()
    };
    let says = sentence(lesson, *step, *done, *finished, &rested.borrow());
    let does = if *finished {
        format!("“{}” is finished.", lesson.title)
    } else {
        now_step.map_or_else(String::new, |s| s.does.to_owned())
    };
    let onclick = onward.reform(|_: MouseEvent| ());
    let next_name = match (*finished, props.last) {
        (true, true) => "All lessons",
        (true, false) => "Next lesson",
        _ if *step + 1 >= lesson.steps.len() => "Finish",
        _ => "Next step",
    };
    let machine = lesson.note == AT_A_MACHINE;
    html! {
        <section class={classes!("lesson", match at { At::Sheet => "at-sheet", At::Book => "at-book", At::Run => "at-run" })}
            aria-label={format!("Lesson {}: {}", props.number, lesson.title)} data-step={(*step + 1).to_string()}
            data-done={can_go_on.to_string()}>
            <div class="lesson-head">
                <button type="button" class="plain" onclick={props.leave.reform(|_: MouseEvent| ())}>{ "All lessons" }</button>
                <h2>{ words(&format!("{} of {}. {}", props.number, props.of, lesson.title)) }</h2>
                <p class="quiet lesson-count">{ words(&format!("Step {} of {}", *step + 1, lesson.steps.len())) }</p>
            </div>
            <p class="lesson-does">{ words(&does) }</p>
            <div class="lesson-place">{ view }</div>
            <div class="lesson-foot">
                <div class="lesson-answers" hidden={!asks_cause || *finished}>{ answers }</div>
                <p class={classes!("lesson-says", can_go_on.then_some("shows"))} aria-live="polite">{ words(&says) }</p>
                <div class="class-row">
                    <button type="button" class="button slip onward" hidden={!can_go_on} {onclick} title="Enter">{ next_name }</button>
                    <button type="button" class="button show-me" hidden={*finished} onclick={show_me} aria-pressed={showing.is_some().to_string()}>
                        { "Show me" }
                    </button>
                    <button type="button" class="button" hidden={*step == 0 || *finished} onclick={back}>{ "Step back" }</button>
                    <button type="button" class="button" hidden={*step == 0 && !*done} onclick={again}>{ "Begin again" }</button>
                </div>
                <p class={classes!("quiet", "lesson-note", machine.then_some("machine"))}>
                    { lesson.note }
                    <span class="lesson-keys" hidden={at != At::Sheet || asks_cause}>{ format!(" {}", sheet::KEYS) }</span>
                </p>
            </div>
        </section>
    }
}

/// What is said: what a doing made, or once it is done what it shows.
fn sentence(lesson: &Lesson, step: usize, done: bool, finished: bool, now: &OnBench) -> String {
    let Some(here) = lesson.steps.get(step) else { return String::new() };
    if finished {
        let shown = lesson.steps.last().map_or("", |s| s.shows);
        return shown.to_owned();
    }
    if done { here.shows.to_owned() } else { here.answer(&lesson.before(step), now) }
}

/// Enter goes on, wherever it is pressed, unless it is pressed on something that takes it.
#[hook]
fn use_enter(can: bool, onward: &Callback<()>) {
    let onward = onward.clone();
    let latest = use_mut_ref(|| onward.clone());
    *latest.borrow_mut() = onward;
    use_effect_with(can, move |can| {
        // Before the keys of the bench, where Enter chooses a crease.
        let first = EventListenerOptions { phase: EventListenerPhase::Capture, passive: false };
        let listener = can.then(|| {
            EventListener::new_with_options(&gloo_utils::window(), "keydown", first, move |e| {
                let Some(e) = e.dyn_ref::<KeyboardEvent>().filter(|e| e.key() == "Enter" && !e.repeat()) else {
                    return;
                };
                let target = e.target().and_then(|t| t.dyn_into::<Element>().ok());
                let takes = |t: Element| t.closest("button, a, input, select, textarea").ok().flatten().is_some();
                if target.is_some_and(takes) {
                    return;
                }
                e.prevent_default();
                e.stop_propagation();
                let onward = latest.borrow().clone();
                onward.emit(());
                keep_focus();
            })
        });
        move || drop(listener)
    });
}

/// Keys go on working where nothing has the focus; what has gone takes the focus with it.
fn keep_focus() {
    let document = gloo_utils::document();
    if document.active_element().is_none_or(|e| e.tag_name() == "BODY")
        && let Some(canvas) = document.query_selector(".lesson canvas").ok().flatten()
        && let Ok(canvas) = canvas.dyn_into::<HtmlElement>()
    {
        let _ = canvas.focus();
    }
}
