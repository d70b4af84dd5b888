//! The Trace room: what was found in a wrong section, and what would make it so.

use crate::app::State;
use crate::ui::bench::OnBench;
use crate::ui::browser::checker::Checker;
use crate::ui::later::{Later, Missing, wasm_split};
use crate::ui::store::Act;
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
    Ok(|props| html! { <TraceRoom ..props /> })
}

/// The Trace room.
#[component]
fn TraceRoom(props: &Props) -> Html {
    html! { <main class="room-trace"><p>{ props.state.job.title.clone() }</p></main> }
}
