//! Steps back and on by keys: of the answer, and never of the job.

use crate::class::DeskAct;
use gloo_events::{EventListener, EventListenerOptions, EventListenerPhase};
use gloo_utils::document;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlInputElement, KeyboardEvent};
use yew::prelude::*;

/// Hears Ctrl+Z and its like before anybody else does.
#[hook]
pub fn use_steps_by_keys(act: &Callback<DeskAct>) {
    let act = act.clone();
    use_effect_with((), move |()| {
        let first = EventListenerOptions { phase: EventListenerPhase::Capture, passive: false };
        let listener = EventListener::new_with_options(&document(), "keydown", first, move |e| {
            let Some(e) = e.dyn_ref::<KeyboardEvent>().filter(|e| (e.ctrl_key() || e.meta_key()) && !e.alt_key())
            else {
                return;
            };
            let step = match e.key().as_str() {
                "z" | "Z" if e.shift_key() => DeskAct::Redo,
                "z" | "Z" => DeskAct::Undo,
                "y" | "Y" => DeskAct::Redo,
                _ => return,
            };
            // What is just being typed is the field's own to take back.
            if is_being_typed(e) {
                return;
            }
            act.emit(step);
            e.prevent_default();
            e.stop_propagation();
        });
        move || drop(listener)
    });
}

/// Whether a field holds something that is no answer yet. A field of an answer says what it holds in `data-kept`.
fn is_being_typed(e: &KeyboardEvent) -> bool {
    let Some(target) = e.target() else { return false };
    if target.dyn_ref::<Element>().is_some_and(|t| t.closest("dialog").ok().flatten().is_some()) {
        return true;
    }
    let Some(input) = target.dyn_ref::<HtmlInputElement>() else { return false };
    match input.get_attribute("data-kept") {
        Some(kept) => kept != input.value(),
        None => input.type_() == "text",
    }
}
