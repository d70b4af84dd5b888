//! The Trace room: what went wrong with a book, where, since when, and how many.
//!
//! It has two subjects, and shows one at a time:
//!
//! - `book`: a whole wrong book, or several of a run; the first question of the room
//! - `section`: one wrong section, as it is opened from a cause that lies inside a section

pub(in crate::ui::rooms) mod book;
pub(in crate::ui::rooms) mod section;

use crate::app::{State, Subject};
use crate::ui::bench::OnBench;
use crate::ui::browser::checker::Checker;
use crate::ui::later::{Later, Missing, wasm_split};
use crate::ui::store::Act;
use book::BookRoom;
pub use book::report_of;
use section::SectionRoom;
use std::rc::Rc;
use yew::prelude::*;

/// What the room needs.
#[derive(Clone, PartialEq, Properties)]
pub struct Props {
    /// The state.
    pub state: Rc<State>,
    /// How to say what happened.
    pub act: Act,
    /// Who finds the causes.
    pub checker: Checker,
    /// Puts a sheet on the bench of the Fold room, or the job's own again.
    pub put: Callback<Option<Rc<OnBench>>>,
    /// Whether the window is narrow.
    pub narrow: bool,
}

/// The way to the Trace room, which is a later part.
#[wasm_split(trace, fallible)]
pub fn way() -> Result<Later<Props>, Missing> {
    Ok(|props| match props.state.look.trace.subject {
        Subject::Book => html! { <BookRoom ..props /> },
        Subject::Section => html! { <SectionRoom ..props /> },
    })
}
