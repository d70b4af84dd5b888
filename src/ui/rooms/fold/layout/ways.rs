//! The ways of folding that print a layout, or what would mend it; one after the other they fold on the bench.

use super::Props;
use crate::app::{
    Action, Change, Layout, Task, WorkedBack, read_worked_back, scheme_in_words, trade_name, worked_bench,
};
use crate::fold::{Direction, Reads, Scheme};
use crate::scene::Bench;
use crate::ui::bench::OnBench;
use crate::ui::browser::checker::NOBODY;
use crate::ui::shared::Shared;
use crate::ui::widgets::words;
use std::rc::Rc;
use yew::prelude::*;

/// What is known of the answer: for which layout, and what it is.
type Answer = Option<(Layout, Result<Rc<WorkedBack>, String>)>;

/// What was found.
#[component]
pub fn Ways(props: &Props) -> Html {
    let layout = props.state.job.layout.clone();
    let chosen = use_state_eq(|| 0usize);
    let answer = use_answer(props, &layout);
    {
        let chosen = chosen.setter();
        use_effect_with(layout.clone(), move |_| chosen.set(0));
    }
    let fresh = answer.as_ref().filter(|(of, _)| *of == layout).map(|(_, answer)| answer.clone());
    let found = fresh.clone().and_then(Result::ok);
    let way = found.as_ref().and_then(|f| f.way(*chosen)).map(|(scheme, change)| (scheme.clone(), change));
    // On the bench: the way that is chosen, or else the sheet with what is known on it.
    {
        let (put, act) = (props.put.clone(), props.act.clone());
        use_effect_with((layout.clone(), way.clone()), move |(layout, way)| {
            let bench = match way {
                Some((scheme, change)) => worked_bench(scheme, *change),
                None => Bench::new(layout.printing(), &unfolded(layout)).ok(),
            };
            put.emit(bench.map(|bench| {
                Rc::new(OnBench { bench: Shared::new(bench), beside: None, says: says(layout, way), free: false })
            }));
            if let Some((scheme, _)) = way {
                act.emit(Action::Play(scheme.folds.len() as u32));
            }
        });
    }
    {
        let put = props.put.clone();
        use_effect_with((), move |()| move || put.emit(None));
    }
    let finding = match &fresh {
        _ if layout.known() == 0 => START.to_owned(),
        None => "Looking for the folds.".to_owned(),
        Some(Ok(found)) => found.says(),
        Some(Err(why)) => why.clone(),
    };
    let ways = found.as_ref().map_or(0, |f| f.ways());
    let step = |by: isize| {
        let (chosen, to) = (chosen.setter(), (*chosen).saturating_add_signed(by));
        Callback::from(move |_: MouseEvent| {
            if to < ways {
                chosen.set(to);
            }
        })
    };
    let keep = {
        let (act, scheme) = (props.act.clone(), way.as_ref().map(|w| w.0.clone()));
        Callback::from(move |_: MouseEvent| {
            if let Some(scheme) = scheme.clone() {
                act.emit(Action::Take(crate::fold::Course::of_scheme(&scheme)));
            }
        })
    };
    let again = {
        let (act, folds) = (props.act.clone(), way.as_ref().map_or(0, |w| w.0.folds.len() as u32));
        Callback::from(move |_: MouseEvent| act.emit(Action::Play(folds)))
    };
    let press = |action: fn() -> Action| props.act.reform(move |_: MouseEvent| action());
    let this = way.as_ref().map(|(scheme, change)| in_words(scheme, *change)).unwrap_or_default();
    html! {
        <div class="worked">
            <p class="finding" aria-live="polite">{ words(&finding) }</p>
            <div class="way" hidden={ways == 0}>
                <span class="steps" hidden={ways < 2}>
                    <button type="button" class="button" aria-disabled={(*chosen == 0).to_string()} onclick={step(-1)}>{ "Before" }</button>
                    <span class="n">{ *chosen + 1 }</span>{ " of " }<span class="n">{ ways }</span>
                    <button type="button" class="button" aria-disabled={(*chosen + 1 >= ways).to_string()} onclick={step(1)}>{ "Next" }</button>
                </span>
                <p aria-live="polite">{ words(&this) }</p>
            </div>
            <div class="way-acts">
                <button type="button" class="button slip" hidden={ways == 0} onclick={keep}>{ "Keep this scheme" }</button>
                <button type="button" class="button" hidden={ways == 0} onclick={again}>{ "Fold it again" }</button>
                <button type="button" class="button copy" onclick={press(|| Action::LayoutOfScheme)}>{ "Write down this book’s sheet" }</button>
                <button type="button" class="button" hidden={layout.known() == 0} onclick={press(|| Action::LayoutClear)}>{ "Clear" }</button>
                <button type="button" class="plain" onclick={press(|| Action::Task(Task::Fold))}>{ "Done" }</button>
            </div>
        </div>
    }
}

/// What stands there before anything was written.
const START: &str = "Write what is printed where, on both sides, heads as you see them. Leave out what you can’t see.";

fn unfolded(layout: &Layout) -> Scheme {
    let (rows, columns) = (layout.rows, layout.columns);
    Scheme { rows, columns, folds: Vec::new(), head: Direction::Up, reads: Reads::LeftToRight }
}

fn in_words(scheme: &Scheme, change: Option<Change>) -> String {
    let folds = scheme_in_words(scheme);
    let name = trade_name(scheme).map(|name| format!("{name}: ")).unwrap_or_default();
    match change {
        Some(change) => format!("{}, and it folds so: {name}{folds}.", change.says()),
        None => format!("{name}{folds}."),
    }
}

fn says(layout: &Layout, way: &Option<(Scheme, Option<Change>)>) -> AttrValue {
    match way {
        None if layout.known() > 0 => "The sheet as it is written down.".into(),
        None => "A blank sheet.".into(),
        Some((_, Some(change))) => format!("{} first. ", change.says()).into(),
        _ => AttrValue::default(),
    }
}

/// The answer to the newest layout; until it comes, the one before.
#[hook]
fn use_answer(props: &Props, layout: &Layout) -> Answer {
    let answer = use_state(|| None);
    let (checker, set) = (props.checker.clone(), answer.setter());
    use_effect_with(layout.clone(), move |layout| {
        let heard = {
            let (set, layout) = (set.clone(), layout.clone());
            Callback::from(move |text: String| {
                set.set(Some((layout.clone(), read_worked_back(&text).map(Rc::new))));
            })
        };
        let asked = layout.question().map(|line| checker.ask(&line, heard));
        if matches!(asked, Some(None)) {
            set.set(Some((layout.clone(), Err(NOBODY.into()))));
        }
        move || drop(asked)
    });
    (*answer).clone()
}
