//! Pressing a word: anything with a `data-term` leads to that entry, wherever it stands.

use crate::glossary::entry;
use gloo_events::{EventListener, EventListenerOptions, EventListenerPhase};
use gloo_utils::document;
use std::cell::{Cell, RefCell};
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::spawn_local;
use web_sys::{Element, Event, HtmlElement, KeyboardEvent};
use yew::Callback;

thread_local! {
    /// The entry that the list is to begin with.
    static ASKED: Cell<Option<&'static str>> = const { Cell::new(None) };
    /// The list, while it is open.
    static OPEN: RefCell<Option<Callback<&'static str>>> = const { RefCell::new(None) };
}

/// Listens to presses from now on.
pub(super) fn listen() {
    EventListener::new(&document(), "click", |e| _ = pressed(e, "[data-term]")).forget();
    // Before the page's own keys: what Enter does to the sheet, it does not do from a word.
    let options = EventListenerOptions { phase: EventListenerPhase::Capture, passive: false };
    EventListener::new_with_options(&document(), "keydown", options, |e| {
        let key = e.dyn_ref::<KeyboardEvent>().map(KeyboardEvent::key);
        if matches!(key.as_deref(), Some("Enter" | " ")) && pressed(e, ".word") {
            e.prevent_default();
            e.stop_propagation();
        }
    })
    .forget();
}

/// The entry that was asked for before the list was there.
pub(super) fn asked() -> Option<&'static str> {
    ASKED.take()
}

/// Whom presses are told while the list is open.
pub(super) fn tell(open: Option<Callback<&'static str>>) {
    OPEN.set(open);
}

fn pressed(e: &Event, what: &str) -> bool {
    let target = e.target().and_then(|t| t.dyn_into::<Element>().ok());
    let word = target.and_then(|t| t.closest(what).ok().flatten());
    let Some(entry) = word.and_then(|w| entry(&w.get_attribute("data-term")?)) else { return false };
    match OPEN.with_borrow(Clone::clone) {
        Some(open) => open.emit(entry.term),
        None => {
            ASKED.set(Some(entry.term));
            // As if "Words" itself were pressed; the focus stays where it is, and comes back there. Afterwards, since it is a
            // press like this one, which is still listened to.
            spawn_local(async {
                let words = document().query_selector(".words-open").ok().flatten();
                if let Some(words) = words.and_then(|w| w.dyn_into::<HtmlElement>().ok()) {
                    words.click();
                }
            });
        }
    }
    true
}
