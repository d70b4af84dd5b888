//! `weigh_book`: a gathered book explained and told with the reasons: why each explanation ranks where it does, what
//! speaks against the next ones, how the book is mended, and by which odds they were ranked.

use super::error::Refusal;
use super::tell_book::checked;
use crate::gather::explain::{Account, Farther, Figure, accounts, farther};
use crate::gather::{Odds, Told};
use crate::marks::{BackMarks, Found, SeenBack};
use serde::{Deserialize, Serialize};

/// The most explanations that are accounted for.
const MOST_SHOWN: usize = 100;
/// Explanations with more faults than the fewest that are named.
const FARTHER_SHOWN: usize = 3;

/// The request: that of `tell_book`, the odds, and how many explanations to account for.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Ask {
    sections: u32,
    marks: Option<BackMarks>,
    seen: Option<Vec<SeenBack>>,
    found: Option<Vec<Found>>,
    #[serde(default)]
    odds: Odds,
    #[serde(default = "ten")]
    shown: usize,
}

const fn ten() -> usize {
    10
}

/// The answer: that of `tell_book`, and the reasons.
#[derive(Serialize)]
pub(super) struct Weighed {
    #[serde(flatten)]
    told: Told,
    explanations: Vec<Account>,
    farther: Vec<Farther>,
    complete: bool,
    cut: bool,
    figures: Vec<Figure>,
}

pub(super) fn answer(ask: &Ask) -> Result<Weighed, Refusal> {
    if !(1..=MOST_SHOWN).contains(&ask.shown) {
        return Err(Refusal::new("shown", format!("from 1 to {MOST_SHOWN} explanations are shown")));
    }
    let checked = checked(&ask.odds, ask.sections, &ask.marks, &ask.seen, &ask.found)?;
    let (found, explained) = (&checked.reading.found, &checked.explained);
    Ok(Weighed {
        explanations: accounts(&ask.odds, ask.sections, found, explained, ask.shown),
        farther: farther(&ask.odds, ask.sections, found, explained, FARTHER_SHOWN),
        complete: explained.complete,
        cut: explained.cut,
        figures: ask.odds.figures(),
        told: checked.into(),
    })
}
