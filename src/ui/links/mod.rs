//! Links on the page: what came in one, and what is handed on in one.
//!
//! ```text
//! address ─ arrived ─ opening ─┬─ a scene: looked at, one's own job put by (Do::Visit)
//!                              ├─ a job: asked about first
//!                              ├─ an exercise: the room Class
//!                              └─ refused, with the reason
//! HandOn ─ hand_on ─ address, what it holds, QR code
//! ```
//!
//! All of it is a later part: it is fetched when an address has something behind its `#`, or when something is handed on.
//! The root keeps what arrived or what is handed on ([`Linked`]).
//!
//! - `opening`: what is to be done with a link that was read
//! - `arrived`: what is said of it, and what a person can do then
//! - `hand_on`: the dialog with the address
//! - `code`: the QR code, small and as large as the window
//! - `address`: the address in the window

mod address;
mod arrived;
mod code;
mod hand_on;
mod opening;

pub use address::arrived as in_address;

use crate::app::State;
use crate::link::Exercise;
use crate::ui::bench::OnBench;
use crate::ui::later::{Later, Missing, wasm_split};
use crate::ui::store::{Act, Store};
use arrived::Arrived;
use hand_on::Hand;
use std::rc::Rc;
use yew::prelude::*;

/// What the root keeps of links, one thing at a time. Whoever has its setter hands something on:
/// `links.set(Linked::HandOn(HandOn::Job))` opens the dialog with the link.
#[derive(Clone, Debug, PartialEq)]
pub enum Linked {
    /// Nothing.
    Nothing,
    /// What stood behind the `#` of the address, and is still to be read.
    Arrived(AttrValue),
    /// The dialog in which this is handed on.
    HandOn(HandOn),
    /// An exercise that came in a link, for the room Class to set.
    Set(Exercise),
}

/// What is handed on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HandOn {
    /// What lies on the bench, as it lies there.
    Bench,
    /// The whole job.
    Job,
    /// An exercise, without its answer.
    Exercise(Exercise),
}

/// The dialog in which an exercise is handed on: its kind and level, each by its number, and the number that it is made from.
#[must_use]
pub const fn link_of_exercise(kind: u8, level: u8, seed: u64) -> Linked {
    Linked::HandOn(HandOn::Exercise(Exercise { kind, level, seed }))
}

/// What the part needs.
#[derive(Clone, PartialEq, Properties)]
pub struct Props {
    /// The state: one's own, or what is looked at.
    pub state: Rc<State>,
    /// One's own, while something else is looked at.
    pub own: Option<Rc<State>>,
    /// How to say what happened.
    pub act: Act,
    /// How to look at something, and to leave it.
    pub store: UseReducerDispatcher<Store>,
    /// What the root keeps of links.
    pub links: UseStateHandle<Linked>,
    /// Takes what was put on the bench away.
    pub put: Callback<Option<Rc<OnBench>>>,
    /// Whether something lies on the bench in place of the sheet.
    pub on_bench: bool,
}

impl Props {
    /// What is handed on.
    fn handing(&self) -> Option<HandOn> {
        match *self.links {
            Linked::HandOn(what) => Some(what),
            _ => None,
        }
    }
}

/// The way to the part.
#[wasm_split(links, fallible)]
pub fn way() -> Result<Later<Props>, Missing> {
    Ok(|props| {
        html! {
            <>
                <Arrived ..props.clone() />
                <Hand ..props />
            </>
        }
    })
}
