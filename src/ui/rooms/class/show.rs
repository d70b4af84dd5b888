//! The bench before a class.

use super::PartProps;
use yew::prelude::*;

/// The part.
#[component]
pub fn Show(props: &PartProps) -> Html {
    html! { <p>{ props.desk.said.clone() }</p> }
}
