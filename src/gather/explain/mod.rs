//! Explains a gathered book: which fewest faults make a right book into the one that was found.
//!
//! Stations 1 to n give sections 1 to n. Faults of a single station (missing, double, wrong section, foreign, no
//! mark; one a station) and acts on the whole row (exchanged, moved, reversed) are counted alike, and each section
//! that does not lie right is one fault more, whatever else is said of it. All explanations with the fewest faults
//! are found, up to three; a book that needs more is not explained.
//!
//! Acts are told in the order they happen: moves, exchanges, the reversal. A move names the block as the row stands
//! just then, an exchange what two stations hold.
//!
//! | file | what it does |
//! | --- | --- |
//! | `straight` | stations in right order against the backs |
//! | `fill` | rearranged rows that leave so many station faults |
//! | `row`, `order` | rows, and every way to rearrange a right one into a given one |
//! | `search` | shares the faults out, fewest first |
//! | `odds`, `words` | ranking, and what to look at next |
//! | `account`, `remedy` | why one ranks before another, what would be seen if it were so, and how the book is mended |
//! | `work` | the bound on the work |
//!
//! A test applies every list of up to three faults to small books and compares everything; `tests/explain_oracle.rs`
//! does so once more by a search of its own.

mod account;
mod fill;
mod odds;
mod order;
mod remedy;
mod row;
mod search;
mod straight;
#[cfg(test)]
mod tests;
mod words;
mod work;

use serde::Serialize;

use self::row::Act;
use self::search::Story;
use self::work::Work;
use super::fault::Fault;
use crate::marks::{Found, Lies, MOST_SECTIONS, Refusal};

pub use account::{Account, Also, Farther, accounts, farther};
pub use odds::{Figure, LEAST_ODDS, MOST_ODDS, Odds};
pub(crate) use words::CAUTION;

/// The most faults an explanation has.
pub const MOST_FAULTS: usize = 3;
/// The most explanations that are shown.
pub const MOST_SHOWN: usize = 400;
/// Steps for each part of the search; all parts together took a third of a second at most in a release build.
const STEPS: u64 = 40_000_000;

/// One way the book can have come about.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Explanation {
    /// The faults: acts on the row in the order they happen, then stations, then how sections lie.
    pub faults: Vec<Fault>,
    /// Other names for the same order.
    pub same_order_as: Vec<Vec<Fault>>,
    /// The share among the explanations shown, 0 to 1.
    pub odds: f64,
    /// Sections more (or less) than in a good book.
    pub bulk: i32,
    /// What to look at next.
    pub next_check: String,
    /// What to mind while looking at a machine; empty where no machine is to be looked at.
    pub caution: String,
}

/// All explanations of a book.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Explained {
    /// The likeliest first; all have the same number of faults. Empty for a right book, and for one that needs more
    /// than three faults.
    pub explanations: Vec<Explanation>,
    /// False when more than three faults are needed, when the list was cut, or when the search was.
    pub complete: bool,
    /// True when the search was cut because it took too many steps: fewer faults, or other ones, may explain the book.
    pub cut: bool,
}

impl Explained {
    /// Is the book as it should be?
    pub fn right(&self) -> bool {
        self.complete && self.explanations.is_empty()
    }
}

/// Explains what was found in a book of `sections` sections, from front to back.
pub fn explain(sections: u32, found: &[Found]) -> Result<Explained, Refusal> {
    explain_with(&Odds::default(), sections, found)
}

/// As [`explain()`], ranked by other odds. They change nothing but the order and the shares.
///
/// # Errors
/// As [`explain()`], and where a figure of the odds is out of bounds (`odds.missing`).
pub fn explain_with(odds: &Odds, sections: u32, found: &[Found]) -> Result<Explained, Refusal> {
    odds.check().map_err(|why| Refusal::new(format!("odds.{}", why.at), why.says))?;
    explain_bounded(odds, sections, found, MOST_FAULTS, STEPS, MOST_SHOWN)
}

/// As [`explain_with()`], and the list is cut at `shown` explanations in place of [`MOST_SHOWN`].
///
/// # Errors
/// As [`explain_with()`].
pub fn explain_shown(odds: &Odds, sections: u32, found: &[Found], shown: usize) -> Result<Explained, Refusal> {
    odds.check().map_err(|why| Refusal::new(format!("odds.{}", why.at), why.says))?;
    explain_bounded(odds, sections, found, MOST_FAULTS, STEPS, shown)
}

/// As [`explain()`], with at most `most` faults and so many steps for each part of the search.
pub(crate) fn explain_within(sections: u32, found: &[Found], most: usize, steps: u64) -> Result<Explained, Refusal> {
    explain_bounded(&Odds::default(), sections, found, most, steps, MOST_SHOWN)
}

/// As [`explain_shown()`], with at most `most` faults and so many steps for each part of the search.
pub(crate) fn explain_bounded(
    odds: &Odds,
    sections: u32,
    found: &[Found],
    most: usize,
    steps: u64,
    shown: usize,
) -> Result<Explained, Refusal> {
    check(sections, found)?;
    let lying = found.iter().filter_map(|found| match *found {
        Found::Section { section, lies } if lies != Lies::Right => Some(Fault::Lies { section, lies }),
        _ => None,
    });
    let lying = lying.collect::<Vec<_>>();
    let nothing = |cut| Explained { explanations: Vec::new(), complete: false, cut };
    let Some(rest) = most.checked_sub(lying.len()) else {
        return Ok(nothing(false));
    };
    let mut work = Work::new(steps);
    let stories = search::stories(sections as usize, found, rest, &mut work);
    let right_order = stories.first().is_some_and(|story| story.acts.is_empty() && story.stations.is_empty());
    if right_order && lying.is_empty() {
        return Ok(Explained { explanations: Vec::new(), complete: true, cut: false });
    }
    if stories.is_empty() {
        return Ok(nothing(work.cut));
    }
    let mut weighed = stories
        .into_iter()
        .map(|story| (odds::weight(odds, &story), told(sections, &story, &lying)))
        .collect::<Vec<_>>();
    // Equal weights keep the order of the faults, so the list is the same on every machine.
    weighed
        .sort_by(|(weight, told), (other, also)| other.total_cmp(weight).then_with(|| told.faults.cmp(&also.faults)));
    let complete = !work.cut && weighed.len() <= shown;
    weighed.truncate(shown);
    let sum = weighed.iter().map(|(weight, _)| weight).sum::<f64>();
    let explanations = weighed.into_iter().map(|(weight, told)| Explanation { odds: weight / sum, ..told });
    Ok(Explained { explanations: explanations.collect(), complete, cut: work.cut })
}

/// Refuses what can't be a find of this book.
fn check(sections: u32, found: &[Found]) -> Result<(), Refusal> {
    if sections == 0 || sections > MOST_SECTIONS {
        return Err(Refusal::new("sections", format!("A book here has 1 to {MOST_SECTIONS} sections.")));
    }
    if found.len() > MOST_SECTIONS as usize {
        return Err(Refusal::new("found", format!("At most {MOST_SECTIONS} backs are read.")));
    }
    for (at, found) in found.iter().enumerate() {
        if let Found::Section { section, .. } = *found
            && !(1..=sections).contains(&section)
        {
            return Err(Refusal::new(
                format!("found[{at}].section"),
                format!("There is no section {section} in a book of {sections}. A section of another job is foreign."),
            ));
        }
    }
    Ok(())
}

/// A story as an explanation, its odds still to come.
fn told(sections: u32, story: &Story, lying: &[Fault]) -> Explanation {
    let mut rest = story.stations.clone();
    rest.sort_by_key(|fault| match *fault {
        Fault::Missing { section } | Fault::Double { section } => section,
        Fault::WrongSection { at, .. } | Fault::Foreign { at } | Fault::NoMark { at } => at,
        _ => 0,
    });
    rest.extend_from_slice(lying);
    let acts = story.acts.iter().map(|act| match *act {
        Act::Moved { block, after, .. } => Fault::Moved { sections: block, after },
        Act::Exchanged(sections) => Fault::Exchanged { sections },
        Act::Reversed => Fault::Reversed,
    });
    let acts = acts.collect::<Vec<_>>();
    let bulk = story.stations.iter().map(|fault| match fault {
        Fault::Double { .. } => 1,
        Fault::Missing { .. } => -1,
        _ => 0,
    });
    let mut same_order_as = Vec::new();
    for (index, act) in story.acts.iter().enumerate() {
        let after = match *act {
            Act::Moved { whole, .. } => whole,
            // Two sections exchanged are a book of two, divided wrong.
            Act::Exchanged(_) if sections == 2 => Some(1),
            _ => None,
        };
        if let Some(after) = after {
            let mut also = acts.clone();
            also[index] = Fault::DividedWrong { after };
            also.extend_from_slice(&rest);
            same_order_as.push(also);
        }
    }
    let faults = [acts, rest].concat();
    Explanation {
        next_check: words::next_check(&faults, !same_order_as.is_empty()),
        caution: words::caution(&faults),
        faults,
        same_order_as,
        odds: 0.0,
        bulk: bulk.sum(),
    }
}
