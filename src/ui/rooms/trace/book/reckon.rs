//! Since when, how many and which books to hold, as this room needs it: the evidence about the extent, gathered from the
//! case and from what was told of its books.

use crate::app::{BookCause, CaseTold};
use crate::since::{Evidence, Hold, Judged, Opened, Pattern, Plan, Refusal, hold, next_opening};
use crate::trace::Case;
use crate::words::capital;

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
        pattern: told.and_then(spread),
        ..Evidence::of(case.line.clone())
    })
}

/// How the wrong books lie, as the check takes it to be likeliest, where that bounds which books to hold.
fn spread(told: &CaseTold) -> Option<Pattern> {
    match told.pattern.as_str() {
        "block" => Some(Pattern::Block),
        "from_a_moment" => Some(Pattern::FromAMoment),
        "whole_run" => Some(Pattern::WholeRun),
        _ => None,
    }
}

/// What follows from the extent.
#[derive(Clone, Debug, PartialEq)]
pub struct Reckoned {
    /// Which book to open next, or why nothing can be said.
    pub plan: Result<Plan, String>,
    /// Which books to hold, where the run and a bad book of it are known.
    pub hold: Option<Hold>,
    /// What would have to be held as long as nobody decides how the books lie, where that is more.
    pub strictly: Option<String>,
}

/// Reckons which book to open next, and which to hold.
#[must_use]
pub fn reckon(evidence: Option<&Evidence>) -> Reckoned {
    let Some(evidence) = evidence else {
        let why = "Say first which books the run had: its first and its last counter number.";
        return Reckoned { plan: Err(why.into()), hold: None, strictly: None };
    };
    let sentence = |why: Refusal| capital(&format!("{}.", why.says.trim_end_matches('.')));
    let bad = evidence.opened.iter().any(|o| o.judged == Judged::Bad);
    let hold_by = |evidence: &Evidence| if bad { hold(evidence).ok() } else { None };
    let undecided = Evidence { pattern: None, ..evidence.clone() };
    let strict = hold_by(&undecided);
    let taken = hold_by(evidence).or_else(|| strict.clone());
    let count = |hold: &Option<Hold>| hold.as_ref().map_or(0, |hold| hold.safe_count);
    Reckoned {
        // What is opened decides how they lie; it is not decided beforehand.
        plan: next_opening(&undecided).map_err(sentence),
        strictly: strict
            .as_ref()
            .filter(|_| count(&strict) > count(&taken))
            .and_then(|hold| hold.says.first().cloned()),
        hold: taken,
    }
}

impl Reckoned {
    /// The books that the sentence about them names, from the first to the last of each range: what log, lift and
    /// leftovers point at, or else all that may be bad.
    #[must_use]
    pub fn held(&self) -> Vec<(u32, u32)> {
        let named = |hold: &'_ Hold| if hold.likely.is_empty() { hold.safe.clone() } else { hold.likely.clone() };
        let all = self.hold.iter().flat_map(named);
        all.map(|held| (held.books.from, held.books.to)).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::{Job, stories};

    #[test]
    fn a_lift_between_good_books_is_held_and_nothing_else() {
        let (_, case) = stories(&Job::default()).remove(0);
        let reckoned = reckon(evidence(&case, None, None).as_ref());
        assert_eq!(reckoned.held(), [(1_421, 1_500)]);
        assert_eq!(reckoned.hold.unwrap().says[0], "Hold books 1,421 to 1,500: 80 books.");
        // From one book on: all behind the last good one, and strictly all that were not opened.
        let (_, case) = stories(&Job::default()).remove(4);
        let told = CaseTold { pattern: "from_a_moment".into(), ..CaseTold::default() };
        let reckoned = reckon(evidence(&case, Some(&told), None).as_ref());
        assert_eq!(reckoned.held(), [(1_204, 2_000)]);
        let nothing = reckon(evidence(&Case::default(), None, None).as_ref());
        assert!(nothing.hold.is_none() && nothing.plan.unwrap_err().contains("counter number"));
    }
}
