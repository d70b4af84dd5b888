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

const fn one() -> u32 {
    1
}

pub(super) fn answer(ask: &Ask) -> Result<Explained, Refusal> {
    let outside = || format!("pages are numbered from 1 to {MAX_PAGE}");
    if !(1..=MAX_PAGE).contains(&ask.first_page) {
        return Err(Refusal::new("first_page", outside()));
    }
    let bad = |p: &FoundPage| p.page.is_some_and(|n| !(1..=MAX_PAGE).contains(&n));
    if let Some(at) = ask.pages.iter().position(bad) {
        return Err(Refusal::new(format!("pages[{at}].page"), outside()));
    }
    misfold::explain(&ask.scheme, ask.first_page, ask.fold_at, &ask.pages).map_err(|why| match why {
        NotExplained::Fold(why) => Refusal::fold("scheme", &why),
        why => {
            let at = why.place().map_or_else(|| "pages".into(), |place| format!("scheme.{}", place.path()));
            Refusal::new(at, why.to_string())
        }
    })
}
