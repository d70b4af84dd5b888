//! `tell_book`: a gathered book read, explained and told in plain words.

use super::error::Refusal;
use crate::gather::{Told, check_backs, check_found};
use crate::marks::{BackMarks, Found, SeenBack};
use serde::Deserialize;

/// The request: either the marks and what was seen, or what was found some other way.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Ask {
    sections: u32,
    marks: Option<BackMarks>,
    seen: Option<Vec<SeenBack>>,
    found: Option<Vec<Found>>,
}

pub(super) fn answer(ask: &Ask) -> Result<Told, Refusal> {
    let checked = match (&ask.marks, &ask.seen, &ask.found) {
        (Some(marks), Some(seen), None) => check_backs(ask.sections, marks, seen),
        (None, None, Some(found)) => check_found(ask.sections, found),
        _ => return Err(Refusal::new("", "give either `marks` and `seen`, or `found`")),
    };
    Ok(checked?.into())
}
