//! `explain_book`: which fewest faults made a gathered book what it is.

use super::error::Refusal;
use crate::gather::{self, Explained};
use crate::marks::Found;
use serde::Deserialize;

/// The request.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Ask {
    sections: u32,
    found: Vec<Found>,
}

pub(super) fn answer(ask: &Ask) -> Result<Explained, Refusal> {
    gather::explain(ask.sections, &ask.found).map_err(Refusal::from)
}
