//! The printer of this browser, kept beside the job: it belongs to the desk, and not to the book. Where the browser keeps
//! nothing, it is known until the page is closed.

use crate::app::{printer_json, read_printer};
use crate::json::Json;
use crate::print::Printer;
use gloo_utils::window;
use std::cell::RefCell;

/// What is known of the printer, and what a teacher set last.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Kept {
    /// The printer.
    pub printer: Printer,
    /// Whether its test page was made.
    pub tested: bool,
    /// The seed of the next worksheets.
    pub seed: Option<u32>,
}

const NAME: &str = "backmark-printer";

thread_local! {
    static KNOWN: RefCell<Option<Kept>> = const { RefCell::new(None) };
}

/// What is kept.
pub fn kept() -> Kept {
    if let Some(known) = KNOWN.with(|known| known.borrow().clone()) {
        return known;
    }
    let text = window().local_storage().ok().flatten().and_then(|store| store.get_item(NAME).ok().flatten());
    let kept = text.and_then(|text| Json::parse(&text).ok()).map(|json| read(&json)).unwrap_or_default();
    KNOWN.with(|known| known.replace(Some(kept.clone())));
    kept
}

/// Keeps it.
pub fn keep(kept: &Kept) {
    KNOWN.with(|known| known.replace(Some(kept.clone())));
    let mut members =
        vec![("printer".to_owned(), printer_json(&kept.printer)), ("tested".to_owned(), kept.tested.into())];
    members.extend(kept.seed.map(|seed| ("seed".to_owned(), seed.into())));
    if let Ok(Some(store)) = window().local_storage() {
        let _ = store.set_item(NAME, &Json::Object(members).write());
    }
}

/// What can't be read is as if nothing had been kept.
fn read(json: &Json) -> Kept {
    Kept {
        printer: json.get("printer").and_then(|p| read_printer(p).ok()).unwrap_or_default(),
        tested: json.get("tested") == Some(&Json::Bool(true)),
        seed: match json.get("seed") {
            Some(Json::Number(n)) if *n >= 0.0 && *n <= f64::from(u32::MAX) => Some(*n as u32),
            _ => None,
        },
    }
}
