//! `read_spine`: what a row of back marks says.

use super::error::Refusal;
use crate::marks::{self, Design, Reading, Seen};
use serde::Deserialize;

/// The request.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Ask {
    sections: u32,
    marks: Design,
    seen: Vec<Seen>,
}

pub(super) fn answer(ask: &Ask) -> Result<Reading, Refusal> {
    marks::read_spine(ask.sections, &ask.marks, &ask.seen).map_err(Refusal::from)
}
