//! Which book to open next.
//!
//! A fault that began at a moment and went on is found by halving, and so are the two ends of a block of which one bad
//! book is known. Where nothing is in order behind an opened book, halving says nothing: a block must first be hit, every
//! so many books need neighbours, and single books need a sample. Each [`Plan`] says which of these it is and why.
//!
//! | file | what it does |
//! | --- | --- |
//! | `ends` | halving: the beginning, and the end of a block |
//! | `search` | what is done where halving won't work |

mod ends;
mod search;

use super::{Evidence, Judged, Opened, Pattern, Patterns, Refusal, Sure, in_order, lifts, patterns};
use crate::words::grouped;
use serde::Serialize;

/// The most books of an order that a plan lists.
pub const MOST_PLANNED: usize = 2_000;

/// What to open next, and why.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Plan {
    /// How the fault is supposed to be spread; none as long as no bad book is known and nobody decided.
    pub pattern: Option<Pattern>,
    /// The book to open next; none where there is nothing more to find.
    pub open: Option<u32>,
    /// Where it does not depend on what is found: all books to open, in order.
    pub order: Vec<u32>,
    /// At the most so many openings, this one among them, until the end that is looked for is known (halving), or until
    /// the order is through.
    pub at_most: u32,
    /// Whether this is halving.
    pub halving: bool,
    /// What to do and why, in sentences; the first one can stand alone.
    pub says: Vec<String>,
    /// What it means if the book is good.
    pub if_good: Option<String>,
    /// What it means if the book is bad.
    pub if_bad: Option<String>,
}

impl Plan {
    fn done(pattern: Option<Pattern>, says: Vec<String>) -> Self {
        let (order, at_most, halving) = (Vec::new(), 0, false);
        Self { pattern, open: None, order, at_most, halving, says, if_good: None, if_bad: None }
    }

    /// A plan by an order of books; nothing to open if there are none.
    fn in_order(pattern: Option<Pattern>, order: Vec<u32>, mut says: Vec<String>) -> Self {
        let Some(open) = order.first().copied() else { return Self::done(pattern, says) };
        says.insert(0, format!("Open book {}.", grouped(open)));
        let at_most = order.len() as u32;
        let order = order.into_iter().take(MOST_PLANNED).collect();
        Self { pattern, open: Some(open), order, at_most, halving: false, says, if_good: None, if_bad: None }
    }
}

/// What the parts of this folder look at.
struct Known<'a> {
    evidence: &'a Evidence,
    order: Vec<Opened>,
    read: Patterns,
}

impl Known<'_> {
    fn is_opened(&self, counter: u32) -> bool {
        self.order.binary_search_by_key(&counter, |o| o.counter).is_ok()
    }

    fn bad(&self) -> impl Iterator<Item = u32> {
        self.order.iter().filter(|o| o.judged == Judged::Bad).map(|o| o.counter)
    }

    fn good(&self) -> impl Iterator<Item = u32> {
        self.order.iter().filter(|o| o.judged == Judged::Good).map(|o| o.counter)
    }

    /// How many sections are loaded at once: as it was given, or the smallest lift of the log.
    fn lift(&self) -> Option<u32> {
        let logged = || self.lifts().into_iter().map(|l| l.sections).min();
        self.evidence.lift.or_else(logged)
    }

    /// The lifts of the station that is suspected, or of all.
    fn lifts(&self) -> Vec<super::Lift> {
        let mut found = lifts(&self.evidence.line, &self.evidence.log).lifts;
        found.retain(|l| self.evidence.station.is_none_or(|s| s == l.station));
        found
    }
}

/// Which book to open next.
///
/// # Errors
/// Where the evidence can't be worked with.
pub fn next_opening(evidence: &Evidence) -> Result<Plan, Refusal> {
    evidence.check()?;
    let (order, _) = in_order(&evidence.opened);
    let read = patterns(&evidence.line, &evidence.opened);
    let known = Known { evidence, order, read };
    let first = known.read.readings.first();
    let likely = first.filter(|r| r.sure == Sure::Likely).map(|r| r.pattern);
    Ok(match evidence.pattern.or(likely) {
        Some(Pattern::FromAMoment) => ends::moment(&known),
        Some(Pattern::Block) => match known.bad().next() {
            Some(_) => ends::block(&known, Some(Pattern::Block)),
            None => search::hit(&known, Some(Pattern::Block)),
        },
        Some(Pattern::OneBook) => search::neighbours(&known),
        Some(Pattern::EveryNth { every }) => search::every(&known, every),
        Some(Pattern::Scattered) => search::sample(&known),
        Some(Pattern::WholeRun) => search::whole(&known),
        None if known.bad().next().is_none() => search::undecided(&known),
        // A bad book in hand and nothing decided: its neighbours and the last book tell most at first.
        None => match search::decide(&known) {
            Some(plan) => plan,
            None if first.is_some_and(|r| r.pattern == Pattern::FromAMoment) => ends::moment(&known),
            None => ends::block(&known, first.map(|r| r.pattern)),
        },
    })
}
