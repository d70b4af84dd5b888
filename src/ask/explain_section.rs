//! `explain_section`: what was done to the sheet of a section whose pages are wrong.

use super::error::Refusal;
use crate::fold::Scheme;
use crate::fold::misfold::{self, Explained, FoldAt, FoundPage, NotExplained};
use serde::Deserialize;

/// The highest page number, so that a slip of the finger is told as one.
pub(super) const MAX_PAGE: u32 = 1_000_000;

/// The request.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Ask {
    scheme: Scheme,
    #[serde(default = "one")]
    first_page: u32,
    #[serde(default)]
    fold_at: FoldAt,
    pages: Vec<FoundPage>,
}

pub(super) const fn one() -> u32 {
    1
}

pub(super) fn answer(ask: &Ask) -> Result<Explained, Refusal> {
    check_first(ask.first_page)?;
    check_pages(&ask.pages)?;
    misfold::explain(&ask.scheme, ask.first_page, ask.fold_at, &ask.pages).map_err(|why| refusal(&why))
}

/// Refuses a first page that is no page.
pub(super) fn check_first(page: u32) -> Result<(), Refusal> {
    if (1..=MAX_PAGE).contains(&page) { Ok(()) } else { Err(Refusal::new("first_page", outside())) }
}

/// Refuses numbers that are no pages.
pub(super) fn check_pages(pages: &[FoundPage]) -> Result<(), Refusal> {
    let bad = |p: &FoundPage| p.page.is_some_and(|n| !(1..=MAX_PAGE).contains(&n));
    match pages.iter().position(bad) {
        Some(at) => Err(Refusal::new(format!("pages[{at}].page"), outside())),
        None => Ok(()),
    }
}

fn outside() -> String {
    format!("pages are numbered from 1 to {MAX_PAGE}")
}

/// Names the place in a request with `scheme`, `first_page`, `pages` and `cause`.
pub(super) fn refusal(why: &NotExplained) -> Refusal {
    let at = match (why, why.place()) {
        (_, Some(place)) => format!("scheme.{}", place.path()),
        (NotExplained::FirstPage(_), _) => "first_page".into(),
        (NotExplained::Cause { at, .. }, _) if at.is_empty() => "cause".into(),
        (NotExplained::Cause { at, .. }, _) => format!("cause.{at}"),
        _ => "pages".into(),
    };
    Refusal::new(at, why.to_string())
}
