//! Lessons on the bench.

use super::PartProps;
use yew::prelude::*;

/// The part.
#[component]
pub fn Lessons(props: &PartProps) -> Html {
    html! { <p>{ props.desk.said.clone() }</p> }
}
