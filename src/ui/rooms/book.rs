//! The book and its marks, and the job as a file.

use crate::app::State;
use crate::ui::store::Act;
use crate::ui::widgets::Dialog;
use std::rc::Rc;
use yew::prelude::*;

/// The dialog.
#[derive(Clone, PartialEq, Properties)]
pub struct Props {
    /// Whether it is open.
    pub open: bool,
    /// The state.
    pub state: Rc<State>,
    /// How to say what happened.
    pub act: Act,
    /// Called when it was closed.
    pub close: Callback<()>,
}

/// What the book is.
#[component]
pub fn BookDialog(props: &Props) -> Html {
    html! { <Dialog open={props.open} title="The book" close={props.close.clone()}><p>{ props.state.job.title.clone() }</p></Dialog> }
}
