//! How much space the pictures have: looked up after each render and when the window changes.

use crate::scene::Space;
use crate::ui::browser::media;
use gloo_events::EventListener;
use gloo_utils::window;
use web_sys::HtmlElement;
use yew::prelude::*;

/// The window from which everything is larger, as in the style sheets.
const PROJECTOR: &str = "(min-width: 1700px)";

/// The space of the piles and of the stack.
#[derive(Clone, Copy, PartialEq)]
pub struct Spaces {
    /// The piles.
    pub piles: Space,
    /// The stack.
    pub stack: Space,
}

/// Looks the space up. Until the page was laid out once, a desk is guessed.
#[hook]
pub fn use_spaces(piles: &NodeRef, stack: &NodeRef, narrow: bool) -> Spaces {
    let guess = Space { width: 640.0, height: Some(480.0), scale: 1.0 };
    let spaces = use_state_eq(|| Spaces { piles: Space { width: 1196.0, ..guess }, stack: guess });
    let (piles, stack, set) = (piles.clone(), stack.clone(), spaces.setter());
    use_effect(move || {
        let measure = move || {
            let (Some(p), Some(s)) = (piles.cast::<HtmlElement>(), stack.cast::<HtmlElement>()) else { return };
            let scale = if media::holds(PROJECTOR) { 1.45 } else { 1.0 };
            let (width, height) = (f64::from(s.client_width()), f64::from(s.client_height()));
            let stack = Space { width, height: (!narrow).then_some(height), scale };
            set.set(Spaces { piles: Space { width: f64::from(p.client_width()), height: None, scale }, stack });
        };
        measure();
        let resized = EventListener::new(&window(), "resize", move |_| measure());
        move || drop(resized)
    });
    *spaces
}
