//! The Gather room.

use crate::app::State;
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
    /// Opens the dialog of the book and its marks.
    pub show_book: Callback<()>,
    /// Whether the window is narrow.
    pub narrow: bool,
}

/// The Gather room.
#[component]
pub fn GatherRoom(props: &Props) -> Html {
    html! { <main class="room-gather">{ props.state.job.title.clone() }</main> }
}
