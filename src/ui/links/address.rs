//! The address in the window: what stands behind its `#`, and the address without it.

use super::Linked;
use gloo_utils::{document, window};
use wasm_bindgen::JsValue;

/// What stands behind the `#` of the address, if it has one; nothing else is looked at before the part is there.
///
/// The page has no places of its own that an address could point at: whatever stands there was meant as a link, and if it is
/// none, that has to be said.
pub fn arrived() -> Linked {
    let address = document().url().unwrap_or_default();
    address.split_once('#').map_or(Linked::Nothing, |(_, link)| Linked::Arrived(link.to_owned().into()))
}

/// The address without it.
pub(super) fn own() -> String {
    let address = document().url().unwrap_or_default();
    address.split_once('#').map_or(address.clone(), |(own, _)| own.to_owned())
}

/// Takes a link that was read out of the address, without a step in the history: what the page shows when it is loaded again is
/// what is kept, and the same link opens anew when it is followed once more.
pub(super) fn forget() {
    if let Ok(history) = window().history() {
        // A browser that allows it not leaves the link there; then it opens again when the page is loaded again.
        let _ = history.replace_state_with_url(&JsValue::NULL, "", Some(&own()));
    }
}
