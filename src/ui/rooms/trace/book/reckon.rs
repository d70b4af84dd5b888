//! Since when, how many and which books to hold, as this room needs it: the evidence about the extent, gathered from the
//! case and from what was told of its books.

use crate::app::{BookCause, CaseTold};
use crate::since::{Evidence, Judged, Opened, Plan, next_opening};
use crate::trace::Case;

/// What is known of the extent. `None` while the run's books are not known.
#[must_use]
pub fn evidence(case: &Case, told: Option<&CaseTold>, cause: Option<&BookCause>) -> Option<Evidence> {
    if !case.line_known() {
        return None;
    }
    let judged = |(at, book): (usize, &crate::trace::SeenBook)| {
        // A book that nobody judged is as good as what was seen of it.
        let seen = || told.and_then(|told| told.books.get(at)?.right);
        let judged = book.judged.or_else(|| seen().map(|right| if right { Judged::Good } else { Judged::Bad }))?;
        Some(Opened { counter: book.counter?, judged })
    };
    let inside = |o: &Opened| (case.line.first..=case.line.last).contains(&o.counter);
    Some(Evidence {
        opened: case.books.iter().enumerate().filter_map(judged).filter(inside).collect(),
        log: case.log.clone(),
        left: case.left.clone(),
        station: cause.and_then(|cause| cause.station),
        ..Evidence::of(case.line.clone())
    })
}

/// Which book to open next; `Err` says why nothing can be said.
///
/// # Errors
/// A sentence.
pub fn plan(evidence: Option<&Evidence>) -> Result<Plan, String> {
    let Some(evidence) = evidence else {
        return Err("Say first which books the run had: its first and its last counter number.".into());
    };
    next_opening(evidence).map_err(|why| super::finds::capital(&format!("{}.", why.says.trim_end_matches('.'))))
}

/// The books to hold: from the first to the last number of each range.
#[must_use]
pub fn held(told: Option<&CaseTold>, cause: Option<&BookCause>) -> Vec<(u32, u32)> {
    let of = cause.and_then(|cause| cause.counters).or_else(|| told.and_then(|told| told.wrong));
    of.into_iter().collect()
}
