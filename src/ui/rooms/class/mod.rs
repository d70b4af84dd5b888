//! The room Class: can I do it myself? Exercises, lessons, the logbook, paper, and the bench before a class.
//!
//! - `desk`: the learner's desk ([`crate::class`]) behind a hook, kept in the browser beside the job
//! - `stand`: a bench of its own, so that what is done here leaves the job as it is
//! - `from_link`: an exercise that came in a link, and the one on the desk as a link
//! - `practise`: an exercise, its answer, its marks; `practise/answers` has a way of answering for each kind
//! - `lessons`, `logbook`, `paper`, `show`: the other parts

mod desk;
mod from_link;
mod lessons;
mod logbook;
mod paper;
mod practise;
mod show;
mod stand;

use crate::app::State;
use crate::ui::browser::checker::Checker;
use crate::ui::later::{Later, Missing, wasm_split};
use crate::ui::links::Linked;
use crate::ui::store::Act;
use desk::{Desk, use_desk};
use from_link::use_from_link;
use std::rc::Rc;
use yew::prelude::*;

/// What the room needs.
#[derive(Clone, PartialEq, Properties)]
pub struct Props {
    /// The state.
    pub state: Rc<State>,
    /// How to say what happened.
    pub act: Act,
    /// Who makes papers and long searches.
    pub checker: Checker,
    /// An exercise that came in a link, and what is handed on in one: `links.set(link_of_exercise(kind, level, seed))`.
    pub links: UseStateHandle<Linked>,
    /// Whether the window is narrow.
    pub narrow: bool,
}

/// The way to the room Class, which is a later part.
#[wasm_split(class, fallible)]
pub fn way() -> Result<Later<Props>, Missing> {
    Ok(|props| html! { <ClassRoom ..props /> })
}

/// What each part needs.
#[derive(Clone, PartialEq, Properties)]
pub struct PartProps {
    /// What the room needs.
    room: Props,
    /// The learner’s desk.
    desk: Desk,
    /// Opens another part.
    open: Callback<Part>,
}

/// A part of the room.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// An exercise.
    Practise,
    /// Lessons on the bench.
    Lessons,
    /// What was handed in.
    Logbook,
    /// What is printed.
    Paper,
    /// The bench before a class.
    Show,
}

const PARTS: [(Part, &str); 5] = [
    (Part::Practise, "Practise"),
    (Part::Lessons, "Lessons"),
    (Part::Logbook, "Logbook"),
    (Part::Paper, "Paper"),
    (Part::Show, "Show"),
];

/// The room.
#[component]
fn ClassRoom(props: &Props) -> Html {
    let part = use_state_eq(|| Part::Practise);
    let desk = use_desk();
    let open = {
        let part = part.setter();
        Callback::from(move |to: Part| part.set(to))
    };
    let pick = |(to, name): (Part, &'static str)| {
        let onclick = open.reform(move |_: MouseEvent| to);
        html! {
            <button type="button" class="plain part" aria-pressed={(*part == to).to_string()} {onclick}>{ name }</button>
        }
    };
    let of_part = PartProps { room: props.clone(), desk: desk.clone(), open: open.clone() };
    let from_link = use_from_link(&of_part);
    let hand_on = from_link::hand_on(&of_part, *part);
    let view = match *part {
        _ if !desk.ready => html! { <p class="later" role="status">{ "Loading…" }</p> },
        Part::Practise => html! { <practise::Practise ..of_part /> },
        Part::Lessons => html! { <lessons::Lessons ..of_part /> },
        Part::Logbook => html! { <logbook::LogbookPage ..of_part /> },
        Part::Paper => html! { <paper::Paper ..of_part /> },
        Part::Show => html! { <show::Show ..of_part /> },
    };
    html! {
        <main class="room-class">
            <h1 class="unseen" hidden={!props.narrow}>{ "Class" }</h1>
            <div class="parts" role="group" aria-label="Parts of the class">
                { for PARTS.into_iter().map(pick) }
                { hand_on }
            </div>
            { from_link }
            <p class="class-said" role="status" hidden={desk.said.is_empty()}>{ desk.said.clone() }</p>
            <div class="class-part">{ view }</div>
        </main>
    }
}
