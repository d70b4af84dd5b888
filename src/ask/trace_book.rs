//! `trace_book`: what went wrong with a whole book.

use super::error::Refusal;
use crate::book::Book;
use crate::fold::Scheme;
use crate::marks::Design;
use crate::trace::{Case, Odds, Traced, trace};
use serde::Deserialize;

/// The request.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Ask {
    book: Book,
    marks: Option<Design>,
    #[serde(default)]
    schemes: Vec<Scheme>,
    case: Case,
    odds: Option<Odds>,
}

pub(super) fn answer(ask: &Ask) -> Result<Traced, Refusal> {
    let odds = ask.odds.clone().unwrap_or_default();
    Ok(trace(&ask.book, ask.marks.as_ref(), &ask.schemes, &ask.case, &odds)?)
}
