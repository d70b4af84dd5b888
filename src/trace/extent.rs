//! Which books: one, a block, from a moment on, every so many, the whole run. From the counters of the books that were
//! judged, and from the leftovers.
//!
//! Each pattern has a likelihood between 0 and 1 in the light of what is known; a cause is weighed by those it makes. The
//! numbers are this program's own choice and only order the patterns.

use super::case::Case;
use super::told::{Extent, Pattern};
use super::words::{capital, counter, many, numbers};

/// A likelihood for each pattern, in the order of [`Pattern::ALL`].
pub(super) type Likely = [f64; 7];

/// Books so close together are one burst (from memory: a restart spoils a handful).
pub(super) const BURST: u32 = 12;
/// A pattern below this part of the likeliest one is out of the question.
const NONE: f64 = 0.3;

/// A book with its counter number, judged.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Counted {
    /// What the counter showed.
    pub counter: u32,
    /// Whether it is bad.
    pub bad: bool,
}

/// What is known of the extent.
#[derive(Clone, Debug)]
pub(super) struct Known {
    /// As numbers.
    pub extent: Extent,
    /// How likely each pattern is; all 1 where nothing is known.
    pub likely: Likely,
    /// Whether any book with a counter was bad.
    pub known: bool,
}

/// The patterns by the books alone. `uncounted` bad books have no counter number.
pub(super) fn extent(case: &Case, counted: &[Counted], uncounted: u32) -> Known {
    let pick = |bad: bool| {
        let mut all = counted.iter().filter(|c| c.bad == bad).map(|c| c.counter).collect::<Vec<_>>();
        all.sort_unstable();
        all.dedup();
        all
    };
    let (bad, good) = (pick(true), pick(false));
    let (Some(&first), Some(&last)) = (bad.first(), bad.last()) else {
        let likely = if uncounted > 1 { [0.0, 0.6, 1.0, 0.8, 0.3, 0.8, 0.5] } else { [1.0; 7] };
        return Known { extent: Extent::default(), likely, known: false };
    };
    let seen = Seen {
        before: good.iter().copied().filter(|g| *g < first).max(),
        after: good.iter().copied().filter(|g| *g > last).min(),
        between: good.iter().any(|g| (first..=last).contains(g)),
        several: bad.len() > 1 || uncounted > 0,
        first,
        last,
    };
    let every = every(&bad, &good);
    let likely = [
        seen.one(),
        seen.burst(bad.len()),
        seen.block(case),
        seen.from(case),
        seen.every(bad.len(), every),
        seen.whole(case),
        seen.scattered(every),
    ];
    let (pattern, or, sure) = judge(&likely);
    let extent = Extent {
        pattern,
        sure,
        or,
        last_good: seen.before,
        first_bad: Some(first),
        last_bad: Some(last),
        good_again: seen.after,
        every: every.filter(|_| pattern == Some(Pattern::EveryMth)),
        tally: None,
        books: None,
    };
    Known { extent, likely, known: true }
}

/// The likeliest pattern, others that go with what is known, and whether there are none.
pub(super) fn judge(likely: &Likely) -> (Option<Pattern>, Vec<Pattern>, bool) {
    let best = likely.iter().copied().fold(0.0, f64::max);
    if best <= 0.0 {
        return (None, Vec::new(), false);
    }
    let mut ranked = Pattern::ALL.iter().zip(likely).map(|(p, l)| (*p, *l / best)).collect::<Vec<_>>();
    ranked.sort_by(|(_, a), (_, b)| b.total_cmp(a));
    let pattern = ranked.first().map(|(p, _)| *p);
    let or = ranked.iter().skip(1).filter(|(_, l)| *l >= NONE).map(|(p, _)| *p).collect::<Vec<_>>();
    let sure = or.is_empty();
    (pattern, or, sure)
}

/// What the opened books show around the bad ones.
struct Seen {
    before: Option<u32>,
    after: Option<u32>,
    between: bool,
    several: bool,
    first: u32,
    last: u32,
}

impl Seen {
    fn sides(&self) -> usize {
        usize::from(self.before.is_some()) + usize::from(self.after.is_some())
    }

    /// Good books right beside the bad ones.
    fn tight(&self) -> bool {
        self.before == self.first.checked_sub(1) && self.after == self.last.checked_add(1)
    }

    fn one(&self) -> f64 {
        match self.several {
            true => 0.0,
            false if self.tight() => 1.0,
            false => [0.5, 0.4, 0.4][self.sides()],
        }
    }

    fn burst(&self, bad: usize) -> f64 {
        let wide = self.last - self.first >= BURST;
        match (self.several, wide) {
            (false, _) if self.tight() => 0.0,
            (false, _) => 0.3,
            (true, true) => 0.02,
            (true, false) if self.between => 0.6,
            (true, false) if bad > 1 && self.sides() == 2 => {
                let near = |a: u32, b: Option<u32>| b.is_some_and(|b| a.abs_diff(b) <= 2 * BURST);
                if near(self.first, self.before) && near(self.last, self.after) { 1.0 } else { 0.4 }
            }
            (true, false) => 0.25,
        }
    }

    fn block(&self, case: &Case) -> f64 {
        match (self.several, self.sides()) {
            _ if self.between => 0.0,
            (false, 2) if self.tight() => 0.0,
            (false, sides) => [0.5, 0.6, 0.6][sides],
            // No lift is as long as half a run.
            (true, 0) if self.most_of(case) => 0.05,
            (true, sides) => [0.4, 0.6, 1.0][sides],
        }
    }

    /// Whether the bad books lie over half of the run or more.
    fn most_of(&self, case: &Case) -> bool {
        case.line_known() && (self.last - self.first) >= case.line.books() / 2
    }

    fn from(&self, case: &Case) -> f64 {
        let to_the_end = case.line_known() && case.line.last.saturating_sub(self.last) <= BURST;
        match (self.after, self.between, self.before) {
            (Some(_), ..) | (_, true, _) => 0.0,
            (None, false, Some(_)) if to_the_end => 1.0,
            (None, false, Some(_)) if self.several => 0.8,
            (None, false, Some(_)) => 0.5,
            (None, false, None) if case.line_known() && self.first.saturating_sub(case.line.first) <= BURST => 0.1,
            (None, false, None) => 0.3,
        }
    }

    fn every(&self, bad: usize, every: Option<u32>) -> f64 {
        match (every, self.between) {
            (Some(_), true) if bad > 2 => 1.0,
            (Some(_), true) => 0.25,
            (Some(_), false) if bad > 2 => 0.2,
            _ if self.several => 0.0,
            _ if self.tight() => 0.2,
            _ => 0.1,
        }
    }

    fn whole(&self, case: &Case) -> f64 {
        if self.sides() > 0 || self.between {
            return 0.0;
        }
        match self.several {
            true if self.most_of(case) => 1.0,
            true => 0.6,
            false => 0.4,
        }
    }

    fn scattered(&self, every: Option<u32>) -> f64 {
        match (self.between, every) {
            (true, Some(_)) => 0.4,
            (true, None) => 1.0,
            (false, _) if self.several => 0.05,
            (false, _) => 0.25,
        }
    }
}

/// The step at which bad books come, where all of them do and no good one is at such a place between them.
fn every(bad: &[u32], good: &[u32]) -> Option<u32> {
    let (first, last) = (*bad.first()?, *bad.last()?);
    let step = bad.windows(2).fold(0, |step, two| match two {
        [a, b] => gcd(step, b - a),
        _ => step,
    });
    let free = good.iter().filter(|g| (first..=last).contains(*g)).all(|g| step > 0 && (g - first) % step != 0);
    (step > 1 && free).then_some(step)
}

fn gcd(a: u32, b: u32) -> u32 {
    if b == 0 { a } else { gcd(b, a % b) }
}

/// The working in sentences.
pub(super) fn reasoning(extent: &Extent) -> Vec<String> {
    let mut said = Vec::new();
    if let (Some(Pattern::Scattered | Pattern::EveryMth), Some(first), Some(last)) =
        (extent.pattern, extent.first_bad, extent.last_bad)
    {
        said.push(format!(
            "From book {} to book {} there are wrong books and good ones.",
            counter(first),
            counter(last)
        ));
        said.extend(
            extent
                .every
                .map(|every| format!("The wrong ones lie {} apart, or a multiple of that.", many(every, "book"))),
        );
        said.extend(extent.tally.map(|tally| format!("By the leftovers it is {}.", many(tally, "book"))));
        return said;
    }
    match (extent.last_good, extent.first_bad) {
        (Some(good), Some(bad)) if good + 1 == bad => said.push(format!(
            "Book {} is good and book {} is wrong, so it began with book {}.",
            counter(good),
            counter(bad),
            counter(bad)
        )),
        (Some(good), Some(bad)) => said.push(format!(
            "Book {} is the last good one before book {}, which is wrong: it began in between.",
            counter(good),
            counter(bad)
        )),
        (None, Some(bad)) => {
            said.push(format!("Book {} is wrong, and no good book before it was opened.", counter(bad)));
        }
        _ => {}
    }
    match (extent.last_bad, extent.good_again) {
        (Some(bad), Some(good)) => said.push(format!(
            "Book {} is wrong, and book {} is good again: it ended in between.",
            counter(bad),
            counter(good)
        )),
        (Some(_), None) => said.push("No good book behind the last wrong one was opened.".to_owned()),
        _ => {}
    }
    if let Some(tally) = extent.tally {
        said.push(format!("By the leftovers it is {}.", many(tally, "book")));
    }
    if let Some(books) = books(extent).filter(|_| extent.pattern != Some(Pattern::OneBook)) {
        said.push(format!("That is {books}."));
    }
    said
}

/// The wrong books with their number, as far as they can be reckoned: `books 1,421 to 1,500: 80 books`.
pub(super) fn books(extent: &Extent) -> Option<String> {
    let [first, last] = extent.books?;
    if first == last {
        return Some(span(first, last));
    }
    let all = many(last.saturating_sub(first).saturating_add(1), "book");
    // Between the good books on either side there may be fewer.
    let bracket = extent.last_good.is_some_and(|good| good.saturating_add(1) == first)
        && extent.good_again.is_some_and(|good| good == last.saturating_add(1));
    let found = extent.first_bad == Some(first) && extent.last_bad == Some(last);
    let most = if bracket && !found && extent.tally.is_none() { "at the most " } else { "" };
    Some(format!("{most}{}: {all}", span(first, last)))
}

/// `books 1,421 to 1,500`, or `book 7`.
pub(super) fn span(first: u32, last: u32) -> String {
    if first == last {
        format!("book {}", counter(first))
    } else {
        format!("books {} to {}", counter(first), counter(last))
    }
}

/// What opening further books would decide.
pub(super) fn look(extent: &Extent) -> Option<String> {
    let (first, last) = (extent.first_bad?, extent.last_bad?);
    let near = |n: u32| numbers(&[n]);
    if let Some([_, end]) = extent.books
        && last < end
        && extent.good_again.is_none_or(|good| good > end + 1)
        && extent.tally.is_some()
    {
        return Some(format!(
            "Open books {} and {}: the first of the two should be wrong, the other good.",
            near(end),
            near(end.saturating_add(1))
        ));
    }
    let mut look = Vec::new();
    match extent.last_good {
        None if first > 1 => look.push(format!("open a book well before book {}", near(first))),
        Some(good) if good + 1 < first => {
            look.push(format!("open the books between {} and {}, the middle one first", near(good), near(first)));
        }
        _ => {}
    }
    match extent.good_again {
        None => look.push(format!("open a book well behind book {}", near(last))),
        Some(good) if last + 1 < good && extent.pattern != Some(Pattern::OneBook) => {
            look.push(format!("open the books between {} and {}, the middle one first", near(last), near(good)));
        }
        _ => {}
    }
    if look.is_empty() { None } else { Some(format!("{}.", capital(&look.join("; ")))) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(bad: &[u32], good: &[u32]) -> Extent {
        let judged =
            |counters: &[u32], bad| counters.iter().map(move |&counter| Counted { counter, bad }).collect::<Vec<_>>();
        let case = Case { line: crate::since::Line::of(1, 5000), ..Case::default() };
        extent(&case, &[judged(bad, true), judged(good, false)].concat(), 0).extent
    }

    /// Extent and cause as common practice puts them, no source.
    #[test]
    fn patterns() {
        assert_eq!(of(&[700], &[699, 701]).pattern, Some(Pattern::OneBook));
        assert!(of(&[700], &[699, 701]).sure);
        assert_eq!(of(&[700, 703, 705], &[690, 702, 712]).pattern, Some(Pattern::Scattered));
        assert_eq!(of(&[700, 701, 702], &[690, 712]).or[..1], [Pattern::Block]);
        assert_eq!(of(&[1421, 1460, 1499], &[1420, 1501]).pattern, Some(Pattern::Block));
        assert_eq!(of(&[1421, 2500, 4999], &[1000, 1420]).pattern, Some(Pattern::FromAMoment));
        assert_eq!(of(&[3, 2500, 4990], &[]).pattern, Some(Pattern::WholeRun));
        let every = of(&[10, 22, 28, 40], &[11, 15, 23, 39]);
        assert_eq!((every.pattern, every.every), (Some(Pattern::EveryMth), Some(6)));
        assert_eq!(of(&[10, 22, 28, 40], &[11, 16]).pattern, Some(Pattern::Scattered));
        assert_eq!(of(&[], &[5]).pattern, None);
    }
}
