//! What can be done with a sheet that was folded otherwise than its scheme says, and which piece of a slit one lies here.

use super::pieces;
use crate::app::{Action, State};
use crate::ui::bench::OnBench;
use crate::ui::later::{Later, Missing, wasm_split};
use crate::ui::store::Act;
use std::rc::Rc;
use yew::prelude::*;

/// What the buttons need.
pub struct Props {
    /// The state.
    pub state: Rc<State>,
    /// How to say what happened.
    pub act: Act,
    /// Whether what lies on the bench is folded otherwise than by the scheme.
    pub otherwise: bool,
    /// Whether it was put there from another room.
    pub from_elsewhere: bool,
    /// Whether it is folded down to a section.
    pub finished: bool,
    /// Puts a sheet on the bench, or the job's own again.
    pub put: Callback<Option<Rc<OnBench>>>,
}

/// The way to the buttons, which are a later part.
#[wasm_split(dialogs, fallible)]
pub fn way() -> Result<Later<Props>, Missing> {
    Ok(|props| by_hand(&props))
}

fn by_hand(props: &Props) -> Html {
    let Props { state, act, otherwise, from_elsewhere, finished, put } = props;
    let (otherwise, from_elsewhere) = (*otherwise, *from_elsewhere);
    let button = |name: &'static str, hidden: bool, action: Action| {
        let hidden = hidden || !otherwise;
        let onclick = act.reform(move |_: MouseEvent| action.clone());
        html! { <button type="button" class="plain" {hidden} {onclick}>{ name }</button> }
    };
    html! {
        <>
            { pieces::chooser(state, act) }
            { button("Back to the scheme", from_elsewhere, Action::ByScheme) }
            { button("Beside the scheme", from_elsewhere || state.look.compare, Action::Compare(true)) }
            { button("Print it so", from_elsewhere, Action::PrintForTried) }
            { button("Read it as found", from_elsewhere || !finished, Action::ReadTried) }
            <button type="button" class="plain" hidden={!from_elsewhere} onclick={put.reform(|_: MouseEvent| None)}>
                { "Take it off the bench" }
            </button>
        </>
    }
}
