//! What is printed for a class.

use super::PartProps;
use yew::prelude::*;

/// The part.
#[component]
pub fn Paper(props: &PartProps) -> Html {
    html! { <p>{ props.desk.said.clone() }</p> }
}
