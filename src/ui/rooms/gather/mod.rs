//! The Gather room: piles, the stack and its spine, and the check that reads the spine as a checker would.
//!
//! - `asking`: the acts of the hand, and what they ask (no web)
//! - `backs`, `reading`: what each back shows and is called, and what was read (no web)
//! - `route`: the way of the thread (no web)
//! - `piles`, `stack`: the two pictures; `spine` draws the stack; `space` looks up how much room they have
//! - `verdict`, `about`, `run_box`: the words beside them
//! - `acts`, `asker`, `tapping`: the foot of the room
//! - `thread`: lays the thread over all of it

mod about;
mod acts;
mod asked;
pub(super) mod asker;
pub(super) mod asking;
pub(super) mod backs;
pub(super) mod piles;
pub(super) mod reading;
mod route;
mod run_box;
pub(super) mod space;
mod spine;
pub(super) mod stack;
mod tapping;
mod thread;
mod verdict;

use crate::app::{Action, Evidence, State};
use crate::gather::Found;
use crate::scene::{PilesLay, StackLay};
use crate::ui::browser::checker::Checker;
use crate::ui::later::{Later, Missing, wasm_split};
use crate::ui::store::Act;
use about::{AboutProps, about, table, title};
use acts::use_acts;
use asked::use_check;
use asker::Asker;
use asking::{Answer, Ask, Hand, Pick};
use backs::{Shows, backs};
use piles::use_piles;
use reading::{due, extent, lines, name, place_in_stack, place_of, run, section_in_stack, section_of, stack_marks};
use run_box::use_run_box;
use space::use_spaces;
use stack::{Gesture, use_stack};
use std::rc::Rc;

use thread::use_thread;
use verdict::use_verdict;
use web_sys::{HtmlElement, KeyboardEvent};
use yew::prelude::*;

/// How far the picked row stands out at the tail.
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

/// The way to the Gather room, which is a later part.
#[wasm_split(gather, fallible)]
pub fn way() -> Result<Later<Props>, Missing> {
    Ok(|props| html! { <GatherRoom ..props /> })
}

/// The Gather room.
#[component]
fn GatherRoom(props: &Props) -> Html {
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
    let lay = use_memo((spaces.stack, count, job.design.stairs.spine_mm), |&(space, count, mm)| {
        StackLay::new(space, count, mm)
    });
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
    let waiting = tapping && shown.iter().all(|back| *back == Shows::bars(Vec::new()));
    let names: Rc<[AttrValue]> = (1u32..).zip(shown.iter()).map(|(p, back)| name(&found, p, back).into()).collect();
    let due: Rc<[Option<f64>]> = (1..=count).map(|p| due(job, found.get(p as usize - 1))).collect();
    let extents: Rc<[Option<(f64, f64)>]> =
        shown.iter().zip(due.iter()).map(|(back, due)| extent(&lay, job, back, *due)).collect();
    let lines: Rc<[(Vec<u32>, Option<u32>)]> = if waiting { Rc::from([]) } else { lines(&check) };
    let verdict = use_verdict(&check, waiting, &props.show_book);
    let picked = picked_pile.unwrap_or(0);
    let caret_mm = tapping.then_some(*caret);
    let acts =
        use_acts(&acts::Props { place, placed: state.placed(), hand: begin, tap: tap.clone(), narrow: props.narrow });
    let row_of_piles = use_piles(&piles::Props { lay: piles.clone(), picked, pick: pile });
    let back = shown.get(place as usize - 1).cloned();
    let about_row = about(&AboutProps {
        place,
        back,
        found: found.get(place as usize - 1).copied(),
        design: job.design.clone(),
        caret: caret_mm,
        on_stack,
        act: act.clone(),
    });
    let spine = use_stack(&stack::Props {
        lay: lay.clone(),
        backs: (*shown).clone(),
        names,
        due,
        design: job.design.clone(),
        picked: (place, out),
        caret: caret_mm,
        asking: asked.is_some(),
        hand,
        node: stack_node,
    });
    let run_box = use_run_box(&run_box::Props { run: run(&check, job).into(), act: act.clone() });
    let thread = use_thread(&thread::Props { lines, stack: lay, extents, piles, picked, narrow: props.narrow });
    let foot = match asked {
        Some(ask) => {
            let folds = if let Ask::Fold { place } = ask { job.folds_at_place(place) } else { Vec::new() };
            html! {
            <Asker {ask} refused={refused.map(AttrValue::from)} {folds} narrow={props.narrow}
                answer={settle.reform(move |pick: Pick| ask.answer(pick))} {give_up} />
            }
        }
        None if on_stack => acts,
        None => {
            let stack = stack_marks(job);
            tapping::tapping(&tapping::Props { backs: count, tapping, stack, act: act.clone(), tap })
        }
    };
    html! {
        <main class="room-gather" onkeydown={escape}>
            <h1 class="unseen" hidden={!props.narrow}>{ "Gather" }</h1>
            <div class="station"><div ref={piles_box}>{ row_of_piles }</div></div>
            { title(state, count, &props.show_book) }
            <div ref={stack_box} class="stack-box">{ spine }</div>
            <div class="words">{ verdict }{ about_row }{ run_box }</div>
            <div class="foot">{ foot }</div>
            { table(&found) }
            { thread }
        </main>
    }
}

fn focus(node: &NodeRef) {
    if let Some(element) = node.cast::<HtmlElement>() {
        let _ = element.focus();
    }
}
