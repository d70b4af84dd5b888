//! `tell_book`: a gathered book read, explained and told in plain words.

use super::error::Refusal;
use crate::gather::{Checked, Odds, Told, check_backs_with, check_found_with};
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
    Ok(checked(&Odds::default(), ask.sections, &ask.marks, &ask.seen, &ask.found)?.into())
}

/// Reads a book from its marks, or takes what was found, and tells it.
pub(super) fn checked(
    odds: &Odds,
    sections: u32,
    marks: &Option<BackMarks>,
    seen: &Option<Vec<SeenBack>>,
    found: &Option<Vec<Found>>,
) -> Result<Checked, Refusal> {
    Ok(match (marks, seen, found) {
        (Some(marks), Some(seen), None) => check_backs_with(odds, sections, marks, seen)?,
        (None, None, Some(found)) => check_found_with(odds, sections, found)?,
        _ => return Err(Refusal::new("", "give either `marks` and `seen`, or `found`")),
    })
}
