//! The Gather room: piles, the stack and its spine, and the check that reads the spine as a checker would.
//!
//! - `asking`: the acts of the hand, and what they ask (no web)
//! - `backs`: what each back shows and is called (no web)
//! - `route`: the way of the thread (no web)
//! - `piles`, `stack`: the two pictures; `space` looks up how much room they have
//! - `verdict`, `run_box`: the words beside them
//! - `acts`, `asker`, `tapping`: the foot of the room
//! - `thread`: lays the thread over all of it

mod acts;
mod asked;
mod asker;
mod asking;
mod backs;
mod piles;
mod route;
mod run_box;
mod space;
mod stack;
mod tapping;
mod thread;
mod verdict;

use crate::app::{Action, Evidence, Job, Room, State};
use crate::gather::stack::What;
use crate::gather::{Found, run::print_run};
use crate::marks::{Design, Lies};
use crate::scene::{PilesLay, StackLay};
use crate::ui::browser::checker::Checker;
use crate::ui::store::Act;
use crate::ui::widgets::words;
use acts::Acts;
use asked::{Check, use_check};
use asker::Asker;
use asking::{Answer, Ask, Hand, Pick};
use backs::{Shows, backs, begins, found_words};
use piles::Piles;
use run_box::RunBox;
use space::use_spaces;
use stack::{Gesture, StackView};
use std::rc::Rc;
use tapping::Tapping;
use thread::Thread;
use verdict::use_verdict;
use web_sys::{HtmlElement, KeyboardEvent};
use yew::prelude::*;

/// How far the picked row is drawn out.
const OUT: f64 = 14.0;

/// What the room needs.
#[derive(Clone, PartialEq, Properties)]
pub struct Props {
    /// The state.
    pub state: Rc<State>,
    /// How to say what happened.
    pub act: Act,
    /// Who reads the spine.
    pub checker: Checker,
    /// Opens the dialog of the book and its marks.
    pub show_book: Callback<()>,
    /// Whether the window is narrow.
    pub narrow: bool,
}

/// The Gather room.
#[component]
pub fn GatherRoom(props: &Props) -> Html {
    let (state, act, job) = (&props.state, &props.act, &props.state.job);
    let check = use_check(&props.checker, job);
    let shown: Rc<Rc<[Shows]>> = use_memo(job.clone(), |job| backs(job).into());
    let row = use_state_eq(|| 1u32);
    let caret = use_state_eq(|| job.design.middle_mm(1));
    let ask = use_state_eq(|| None::<Ask>);
    let refused = use_state_eq(|| None::<&'static str>);
    let (piles_box, stack_box, stack_node) = (use_node_ref(), use_node_ref(), use_node_ref());
    let spaces = use_spaces(&piles_box, &stack_box, props.narrow);

    let on_stack = job.evidence == Evidence::Stack;
    let tapping = matches!(job.evidence, Evidence::Tapped(_));
    let count = shown.len() as u32;
    let place = if on_stack { state.look.place } else { (*row).clamp(1, count.max(1)) };
    let found: Rc<[Found]> = match &*check {
        Some(Ok(told)) => told.found.as_slice().into(),
        _ => Rc::from([]),
    };
    let lay =
        use_memo((spaces.stack, count, job.design.spine_mm), |&(space, count, mm)| StackLay::new(space, count, mm));
    let piles = use_memo((spaces.piles, job.sections), |&(space, sections)| PilesLay::new(space, sections));
    let picked_pile = section_of(&found, place);
    let out = if tapping { 0.0 } else { OUT * spaces.stack.scale };

    let asked = *ask;
    // What follows from an answer, or from an act that has just begun.
    let settle = {
        let (act, ask, refused, node) = (act.clone(), ask.setter(), refused.setter(), stack_node.clone());
        Callback::from(move |answer: Answer| match answer {
            Answer::Do(spoil) => {
                if asked.is_some() {
                    focus(&node);
                }
                ask.set(None);
                refused.set(None);
                act.emit(Action::Spoil(spoil));
            }
            Answer::Ask(next) => {
                ask.set(Some(next));
                refused.set(None);
            }
            Answer::No(why) => refused.set(Some(why)),
        })
    };
    let answer = {
        let settle = settle.clone();
        Callback::from(move |pick: Pick| {
            if let Some(ask) = asked {
                settle.emit(ask.answer(pick));
            }
        })
    };
    let begin = settle.reform(move |hand: Hand| hand.begin(place));
    let give_up = {
        let (ask, node) = (ask.setter(), stack_node.clone());
        Callback::from(move |()| {
            ask.set(None);
            focus(&node);
        })
    };
    let escape = {
        let give_up = give_up.clone();
        Callback::from(move |e: KeyboardEvent| {
            if e.key() == "Escape" && asked.is_some() {
                give_up.emit(());
            }
        })
    };
    let hand = {
        let (act, row, caret, answer, job) = (act.clone(), row.setter(), caret.setter(), answer.clone(), job.clone());
        Callback::from(move |gesture: Gesture| match gesture {
            Gesture::Row(to) if on_stack => act.emit(Action::Pick(to)),
            Gesture::Row(to) => row.set(to),
            Gesture::Choose(to) => answer.emit(Pick::row(to, section_in_stack(&job, to))),
            Gesture::Caret(to, mm) => {
                row.set(to);
                caret.set(mm);
            }
            Gesture::Tap(to, mm) => {
                row.set(to);
                caret.set(mm);
                act.emit(Action::Tap { place: to, mm });
            }
        })
    };
    let pile = {
        let (act, row, answer, job, found) = (act.clone(), row.setter(), answer, job.clone(), found.clone());
        Callback::from(move |section: u32| {
            let at = if on_stack { place_in_stack(&job, section) } else { place_of(&found, section) };
            match at {
                _ if asked.is_some() => answer.emit(Pick::pile(section, at)),
                Some(place) if on_stack => act.emit(Action::Pick(place)),
                Some(place) => row.set(place),
                None => act.emit(Action::Say(format!("Section {section} is not in the stack."))),
            }
        })
    };
    let tap = {
        let sections = job.sections;
        act.reform(move |_: MouseEvent| Action::Look(Evidence::Tapped(vec![Vec::new(); sections as usize])))
    };
    // A spine on which nothing was tapped yet is no book to be told of.
    let waiting = tapping && shown.iter().all(|back| *back == Shows::Bars(Vec::new()));
    let names: Rc<[AttrValue]> = (1u32..).zip(shown.iter()).map(|(p, back)| name(&found, p, back).into()).collect();
    let due: Rc<[Option<f64>]> = (1..=count).map(|p| due(job, found.get(p as usize - 1))).collect();
    let extents: Rc<[Option<(f64, f64)>]> =
        shown.iter().zip(due.iter()).map(|(back, due)| extent(&lay, job, back, *due)).collect();
    let lines: Rc<[(Vec<u32>, Option<u32>)]> = if waiting { Rc::from([]) } else { lines(&check) };
    let verdict = use_verdict(&check, waiting, &props.show_book);
    let foot = match asked {
        Some(ask) => html! {
            <Asker {ask} refused={refused.map(AttrValue::from)} folds={job.scheme.folds.clone()} narrow={props.narrow}
                answer={settle.reform(move |pick: Pick| ask.answer(pick))} {give_up} />
        },
        None if on_stack => html! { <Acts {place} placed={state.placed()} hand={begin} {tap} narrow={props.narrow} /> },
        None => html! {
            <Tapping backs={count} {tapping} stack={stack_marks(job)} act={act.clone()} {tap} />
        },
    };
    html! {
        <main class="room-gather" onkeydown={escape}>
            <h1 class="unseen" hidden={!props.narrow}>{ "Gather" }</h1>
            <div class="station"><div ref={piles_box}><Piles lay={piles.clone()} picked={picked_pile.unwrap_or(0)} pick={pile} /></div></div>
            <Title state={state.clone()} {count} show_book={props.show_book.clone()} />
            <div ref={stack_box} class="stack-box">
                <StackView lay={lay.clone()} backs={(*shown).clone()} {names} {due} design={job.design} picked={(place, out)}
                    caret={tapping.then_some(*caret)} asking={asked.is_some()} {hand} node={stack_node} />
            </div>
            <div class="words">
                { verdict }
                <About {place} back={shown.get(place as usize - 1).cloned()} found={found.get(place as usize - 1).copied()}
                    design={job.design} caret={tapping.then_some(*caret)} {on_stack} act={act.clone()} />
                <RunBox run={run(&check, job)} act={act.clone()} />
            </div>
            <div class="foot">{ foot }</div>
            <Table {found} />
            <Thread {lines} stack={lay} {extents} out={(place, out)} {piles} picked={picked_pile.unwrap_or(0)} narrow={props.narrow} />
        </main>
    }
}

fn focus(node: &NodeRef) {
    if let Some(element) = node.cast::<HtmlElement>() {
        let _ = element.focus();
    }
}

fn section_of(found: &[Found], place: u32) -> Option<u32> {
    match found.get((place as usize).checked_sub(1)?)? {
        Found::Section { section, .. } => Some(*section),
        _ => None,
    }
}

fn place_of(found: &[Found], section: u32) -> Option<u32> {
    (1..=found.len() as u32).find(|place| section_of(found, *place) == Some(section))
}

fn section_in_stack(job: &Job, place: u32) -> Option<u32> {
    match job.stack.placed().get((place as usize).checked_sub(1)?)?.what {
        What::Ours(section) => Some(section),
        What::Foreign => None,
    }
}

fn place_in_stack(job: &Job, section: u32) -> Option<u32> {
    (1..=job.stack.placed().len() as u32).find(|place| section_in_stack(job, *place) == Some(section))
}

fn stack_marks(job: &Job) -> Vec<Vec<f64>> {
    job.seen().into_iter().map(|s| s.marks_mm.unwrap_or_default()).collect()
}

/// From where to where a back bears anything in the picture.
fn extent(lay: &StackLay, job: &Job, back: &Shows, due: Option<f64>) -> Option<(f64, f64)> {
    let letter_mm = 9.0 * lay.scale / lay.face.width() * lay.spine_mm;
    let due = due.and_then(|due| Shows::Bars(vec![due]).extent(&job.design, 0.0));
    let (from, to) = match (back.extent(&job.design, letter_mm), due) {
        (Some(a), Some(b)) => (a.0.min(b.0), a.1.max(b.1)),
        (a, b) => a.or(b)?,
    };
    Some((lay.x(from), lay.x(to)))
}

/// Where the mark of a section that lies head to tail was due.
fn due(job: &Job, found: Option<&Found>) -> Option<f64> {
    match found {
        Some(Found::Section { section, lies: Lies::HeadToTail }) => Some(job.design.middle_mm(*section)),
        _ => None,
    }
}

/// The places each line of the verdict points at, and the section whose pile is left over.
fn lines(check: &Check) -> Rc<[(Vec<u32>, Option<u32>)]> {
    let Some(Ok(told)) = check else { return Rc::from([]) };
    let line = |line: &crate::gather::Line| {
        let missing = line.section.filter(|section| told.missing.contains(section));
        (line.places.clone(), missing)
    };
    told.verdict.lines.iter().map(line).collect()
}

fn run(check: &Check, job: &Job) -> String {
    match (check, &job.evidence) {
        (Some(Ok(told)), _) => print_run(&told.found),
        (_, Evidence::Typed(run)) => run.clone(),
        (_, _) => String::new(),
    }
}

/// What a row is called: the word on it, if it bears one, and what that means.
fn name(found: &[Found], place: u32, back: &Shows) -> String {
    let what = found.get(place as usize - 1).map_or_else(|| "not read".into(), |f| found_words(*f));
    match back {
        Shows::Word(word, _) => format!("Place {place}: {word}, {what}"),
        _ => format!("Place {place}: {what}"),
    }
}

#[derive(Clone, PartialEq, Properties)]
struct TitleProps {
    state: Rc<State>,
    count: u32,
    show_book: Callback<()>,
}

/// "The Quillmere Almanac, 17 of 18 sections", which opens the book.
#[component]
fn Title(props: &TitleProps) -> Html {
    let job = &props.state.job;
    let how = match job.evidence {
        Evidence::Stack => "",
        Evidence::Tapped(_) => ", as tapped",
        Evidence::Typed(_) => ", as typed",
    };
    let says = format!("{} of {} sections{how}", props.count, job.sections);
    html! {
        <p class="stack-title">
            <button type="button" class="plain" onclick={props.show_book.reform(|_: MouseEvent| ())}
                aria-label={format!("{}: the book and its marks", job.title)}>{ job.title.clone() }{ "," }</button>
            <span class="quiet">{ " " }{ words(&says) }</span>
        </p>
    }
}

#[derive(Clone, PartialEq, Properties)]
struct AboutProps {
    place: u32,
    back: Option<Shows>,
    found: Option<Found>,
    design: Design,
    caret: Option<f64>,
    on_stack: bool,
    act: Act,
}

/// What the picked row shows, and the way to the bench.
#[component]
fn About(props: &AboutProps) -> Html {
    let begins = props.back.as_ref().and_then(|back| begins(&props.design, back));
    let begins = begins.map(|mm| format!(", mark from {mm}")).unwrap_or_default();
    let caret = props.caret.map(|mm| format!(" Here: {mm} mm from the head.")).unwrap_or_default();
    let what = props.found.map_or_else(|| "not read".into(), found_words);
    let says = format!("Place {}: {what}{begins}.{caret}", props.place);
    let (act, place) = (props.act.clone(), props.place);
    let open = Callback::from(move |_: MouseEvent| {
        act.emit(Action::Pick(place));
        act.emit(Action::Go(Room::Fold));
    });
    html! {
        <div class="about-row">
            <p aria-live="polite">{ words(&says) }</p>
            <button type="button" class="button" hidden={!props.on_stack} onclick={open}>{ "Open on the bench" }</button>
        </div>
    }
}

#[derive(Clone, PartialEq, Properties)]
struct TableProps {
    found: Rc<[Found]>,
}

/// What the marks say at each place, for those who don't see the picture.
#[component]
fn Table(props: &TableProps) -> Html {
    let row = |(place, found): (u32, &Found)| html! { <tr><th scope="row">{ place }</th><td>{ found_words(*found) }</td></tr> };
    html! {
        <div class="unseen"><table>
            <caption>{ "What the marks say, from front to back" }</caption>
            <thead><tr><th scope="col">{ "place" }</th><th scope="col">{ "what" }</th></tr></thead>
            <tbody>{ for (1u32..).zip(props.found.iter()).map(row) }</tbody>
        </table></div>
    }
}
