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
//! The root keeps what arrived and what is handed on.
//!
//! - `root`: what is there before the part is
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
mod root;

pub use root::use_links;

use crate::app::State;
use crate::link::Exercise;
use crate::ui::bench::OnBench;
use crate::ui::later::{Later, Missing, wasm_split};
use crate::ui::store::{Act, Do};
use arrived::Arrived;
use hand_on::Hand;
use std::rc::Rc;
use yew::prelude::*;

/// What is handed on. Whoever has a callback of this opens the dialog with the link.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HandOn {
    /// What lies on the bench, as it lies there.
    Bench,
    /// The whole job.
    Job,
    /// An exercise, without its answer.
    Exercise(Exercise),
}

/// What is handed on for an exercise: its kind and level, each by its number, and the number that it is made from.
#[must_use]
pub const fn link_of_exercise(kind: u8, level: u8, seed: u64) -> HandOn {
    HandOn::Exercise(Exercise { kind, level, seed })
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
    pub tell: Callback<Do>,
    /// A link that is to be opened, and who keeps it until it is.
    pub arrived: UseStateHandle<Option<AttrValue>>,
    /// Opens the room Class with an exercise.
    pub exercise: Callback<Exercise>,
    /// What is handed on, and who keeps that.
    pub handing: UseStateHandle<Option<HandOn>>,
    /// Takes what was put on the bench away.
    pub put: Callback<Option<Rc<OnBench>>>,
    /// What lies on the bench in place of the sheet.
    pub on_bench: bool,
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
