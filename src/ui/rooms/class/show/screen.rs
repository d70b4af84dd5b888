//! The whole screen, where the browser allows it, and the page behind, which keeps still meanwhile.

use gloo_events::EventListener;
use gloo_utils::{document, window};
use std::cell::Cell;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlElement};
use yew::prelude::*;

/// The size of the window, kept up to date.
#[hook]
pub fn use_window_size() -> (f64, f64) {
    let size = use_state_eq(window_size);
    {
        let size = size.setter();
        use_effect_with((), move |()| {
            let listener = EventListener::new(&window(), "resize", move |_| size.set(window_size()));
            move || drop(listener)
        });
    }
    *size
}

fn window_size() -> (f64, f64) {
    let number = |v: Result<wasm_bindgen::JsValue, wasm_bindgen::JsValue>, or: f64| {
        v.ok().and_then(|v| v.as_f64()).unwrap_or(or)
    };
    (number(window().inner_width(), 1280.0), number(window().inner_height(), 800.0))
}

/// Whether something fills the screen.
pub fn is_full() -> bool {
    document().fullscreen_element().is_some()
}

/// Lets an element fill the screen. Where that is not allowed, it goes on filling the window.
pub fn fill(element: &Element) {
    let _ = element.request_fullscreen();
}

thread_local! {
    /// Whether the screen is given back because we asked for it.
    static OURS: Cell<bool> = const { Cell::new(false) };
}

/// Back to the window.
pub fn unfill() {
    if is_full() {
        OURS.set(true);
        document().exit_fullscreen();
    }
}

/// While it is shown, an element has the focus and all of the page: what lies behind can't be reached. `left` is called when the browser itself ends the whole screen.
#[hook]
pub fn use_whole_page(node: &NodeRef, left: Callback<()>) {
    let node = node.clone();
    use_effect_with((), move |()| {
        let still = node.cast::<HtmlElement>().map(|shown| {
            let still = others(&shown);
            for other in &still {
                let _ = other.set_attribute("inert", "");
            }
            let _ = shown.focus();
            fill(&shown);
            still
        });
        let full = Cell::new(false);
        let listener = EventListener::new(&document(), "fullscreenchange", move |_| {
            // The browser takes Escape for itself then; it means the same.
            if full.replace(is_full()) && !is_full() && !OURS.take() {
                left.emit(());
            }
        });
        move || {
            drop(listener);
            unfill();
            for other in still.iter().flatten() {
                let _ = other.remove_attribute("inert");
            }
        }
    });
}

/// Who has the focus.
pub fn focused() -> Option<HtmlElement> {
    document().active_element()?.dyn_into().ok()
}

/// All elements beside the way from an element up to the page that are not kept still already.
fn others(shown: &HtmlElement) -> Vec<Element> {
    let mut found = Vec::new();
    let mut at: Element = shown.clone().into();
    while let Some(parent) = at.parent_element().filter(|_| at.tag_name() != "BODY") {
        let children = parent.children();
        let beside = (0..children.length()).filter_map(|i| children.item(i));
        found.extend(beside.filter(|e| *e != at && e.tag_name() != "SCRIPT" && !e.has_attribute("inert")));
        at = parent;
    }
    found
}
