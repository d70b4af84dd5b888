//! Where the keyboard goes: to the fields of a find that was opened, and to the kinds when they are offered.

use super::kind::Kind;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlElement};
use yew::prelude::*;

/// Leads the focus after what was opened.
#[hook]
pub fn use_focus(room: &NodeRef, changed: Option<Kind>, adding: bool) {
    let first = use_mut_ref(|| true);
    let room = room.clone();
    use_effect_with((changed, adding), move |(changed, adding)| {
        // Whoever enters the room begins at its beginning.
        if first.replace(false) {
            return;
        }
        let css = match (changed, adding) {
            (Some(kind), _) => format!("[data-find={}] .find-fields input", kind.word()),
            (None, true) => ".adder .button:not([hidden])".to_owned(),
            (None, false) => return,
        };
        let found = room.cast::<Element>().and_then(|room| room.query_selector(&css).ok().flatten());
        if let Some(field) = found.and_then(|e| e.dyn_into::<HtmlElement>().ok()) {
            let _ = field.focus();
        }
    });
}
