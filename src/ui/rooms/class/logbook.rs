//! The logbook.

use super::PartProps;
use yew::prelude::*;

/// The part.
#[component]
pub fn LogbookPage(props: &PartProps) -> Html {
    html! { <p>{ props.desk.said.clone() }</p> }
}
