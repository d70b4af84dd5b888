//! How a fault is spread over the run, as far as the opened books tell.

use super::{Books, Bracket, Judged, Line, Opened, Pattern, brackets, in_order};
use crate::words::{grouped, how_many};
use serde::Serialize;

/// How sure it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Sure {
    /// Books as they were opened would lie so in at most one of 20 arrangements if it were chance.
    Likely,
    /// It fits, and others fit as well.
    Possible,
}

/// A way in which the fault may be spread.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Reading {
    /// The way.
    pub pattern: Pattern,
    /// How sure it is.
    pub sure: Sure,
    /// Why, in a sentence or two.
    pub why: String,
    /// Books that would decide it, to be opened.
    pub open: Vec<u32>,
    /// What they would decide.
    pub decides: String,
}

/// What the opened books say about how the fault is spread.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Patterns {
    /// What fits, the likeliest first; none as long as no bad book was opened.
    pub readings: Vec<Reading>,
    /// What does not fit, each with the reason.
    pub ruled_out: Vec<(Pattern, String)>,
}

/// The largest distance that is looked for: as many grippers or stations as a line has at the most (from memory).
const MOST_EVERY: u32 = 400;

/// Reads how the fault is spread from the opened books.
#[must_use]
pub fn patterns(line: &Line, opened: &[Opened]) -> Patterns {
    let (order, _) = in_order(opened);
    let blocks = brackets(line, opened, None).blocks;
    let (Some(front), Some(back)) = (blocks.first(), blocks.last()) else { return Patterns::default() };
    let seen = Seen { line, order: &order, blocks: &blocks, front, back };
    let mut out = Patterns::default();
    for reading in [seen.whole(), seen.moment(), seen.one(), seen.every(), seen.block(), seen.scattered()] {
        match reading {
            Ok(reading) => out.readings.push(reading),
            Err(ruled_out) => out.ruled_out.push(ruled_out),
        }
    }
    // Those that are likely before those that are only possible; otherwise the simpler first.
    out.readings.sort_by_key(|r| r.sure == Sure::Possible);
    out
}

struct Seen<'a> {
    line: &'a Line,
    order: &'a [Opened],
    blocks: &'a [Bracket],
    front: &'a Bracket,
    back: &'a Bracket,
}

type Read = Result<Reading, (Pattern, String)>;

impl Seen<'_> {
    fn bad(&self) -> u32 {
        self.blocks.iter().map(|b| b.found_bad).sum()
    }

    fn good(&self) -> u32 {
        self.order.len() as u32 - self.bad()
    }

    fn judged(&self, counter: u32) -> Option<Judged> {
        self.order.binary_search_by_key(&counter, |o| o.counter).ok().and_then(|i| self.order.get(i)).map(|o| o.judged)
    }

    /// Those of some books that are of the run and not opened.
    fn closed(&self, some: &[u32]) -> Vec<u32> {
        let whole = Books::all(self.line);
        let mut closed: Vec<u32> =
            some.iter().copied().filter(|n| whole.has(*n) && self.judged(*n).is_none()).collect();
        closed.dedup();
        closed
    }

    /// Whether the bad books would lie among the opened ones in one of so many ways by chance in at most 1 of 20 cases,
    /// and the sentence on it.
    fn chance(&self, ways: u64) -> (Sure, String) {
        let (of, bad) = (self.order.len() as u64, u64::from(self.bad()));
        let mut all: u64 = 1;
        for i in 0..bad.min(of - bad) {
            // Exact at each step, since a product of consecutive numbers holds each divisor.
            all = all.saturating_mul(of - i).checked_div(i + 1).unwrap_or(u64::MAX);
            if all > 1_000_000_000 {
                break;
            }
        }
        let sure = if ways.saturating_mul(20) <= all { Sure::Likely } else { Sure::Possible };
        let told = if all > 1_000_000 { "more than a million".to_owned() } else { grouped(all as u32) };
        let says = format!(
            "{} among {} opened can lie in {told} {}, and in {} of them they lie so.",
            how_many(bad as u32, "bad book"),
            grouped(of as u32),
            if all == 1 { "way" } else { "ways" },
            grouped(ways.min(all) as u32)
        );
        (sure, says)
    }

    fn whole(&self) -> Read {
        let pattern = Pattern::WholeRun;
        if let Some(good) = self.order.iter().find(|o| o.judged == Judged::Good) {
            return Err((pattern, format!("Book {} is good.", grouped(good.counter))));
        }
        let ends = [self.line.first, self.line.last];
        let open = self.closed(&ends);
        let sure = if open.is_empty() && self.bad() > 2 { Sure::Likely } else { Sure::Possible };
        let why = format!("All {} opened books are bad.", grouped(self.bad()));
        let decides = if open.is_empty() {
            "One more from the middle: if it is good, it is not the whole run.".to_owned()
        } else {
            "The first and the last book of the run: if one of them is good, it is not the whole run.".to_owned()
        };
        let middle = self.line.first.midpoint(self.line.last);
        Ok(Reading { pattern, sure, why, open: if open.is_empty() { self.closed(&[middle]) } else { open }, decides })
    }

    fn moment(&self) -> Read {
        let pattern = Pattern::FromAMoment;
        if let Some(good) = self.front.first_good {
            let says = format!(
                "Book {} is good, and it stands after the bad book {}.",
                grouped(good),
                grouped(self.front.last_bad)
            );
            return Err((pattern, says));
        }
        let (sure, chance) = self.chance(1);
        // Unless the last book of the run is known to be bad, a block may have ended by then.
        let last_bad = self.back.last_bad == self.line.last;
        let sure = if last_bad { sure } else { Sure::Possible };
        let open = self.closed(&[self.line.last]);
        let why = format!("From book {} on no book was found good. {chance}", grouped(self.front.first_bad));
        let decides =
            "The last book of the run: if it is good, it was a block; if it is bad, the fault went on to the end.";
        Ok(Reading { pattern, sure, why, open, decides: decides.into() })
    }

    fn one(&self) -> Read {
        let pattern = Pattern::OneBook;
        if self.bad() > 1 {
            return Err((pattern, format!("{} are bad.", how_many(self.bad(), "book"))));
        }
        let n = self.front.first_bad;
        let alone = self.front.most == 1;
        let why = if alone {
            format!("Book {} is bad, and the books on both sides of it are not.", grouped(n))
        } else {
            format!("Only book {} was found bad; up to {} may be.", grouped(n), how_many(self.front.most, "book"))
        };
        let open = self.closed(&[n.saturating_sub(1), n.saturating_add(1)]);
        let decides = "The books next to it: if they are good, it is one book, or single ones here and there.";
        // A book alone is likelier a single one than one of many, but it takes a sample to know.
        let sure = if alone { Sure::Likely } else { Sure::Possible };
        Ok(Reading { pattern, sure, why, open, decides: decides.into() })
    }

    fn block(&self) -> Read {
        let pattern = Pattern::Block;
        if let [a, b, ..] = self.blocks {
            let good = a.first_good.unwrap_or(a.last_bad);
            let says = format!(
                "Book {} is good and stands between the bad books {} and {}.",
                grouped(good),
                grouped(a.last_bad),
                grouped(b.first_bad)
            );
            return Err((pattern, says));
        }
        if self.good() == 0 && self.front.least == self.line.books() {
            return Err((pattern, "The first and the last book of the run are bad.".into()));
        }
        if self.bad() == 1 && self.front.most == 1 {
            return Err((pattern, "The books on both sides of the bad one are not bad.".into()));
        }
        let ways = (self.order.len() as u64 + 1).saturating_sub(u64::from(self.bad()));
        let (sure, chance) = self.chance(ways);
        // As long as no book after it was found good, it may go on.
        let sure = if self.front.first_good.is_none() && self.bad() > 0 { Sure::Possible } else { sure };
        let why = format!("No good book was found between the bad ones. {chance}");
        let (inner, outer) = (self.front.inner(), self.front.outer(self.line));
        let middle = inner.from.midpoint(inner.to);
        let mut open = self.closed(&[middle]);
        if open.is_empty() {
            open =
                self.closed(&[inner.from.saturating_sub(1).max(outer.from), inner.to.saturating_add(1).min(outer.to)]);
        }
        let decides = "If a book between bad ones is good, it is not one block; where the neighbours of the bad ones are bad, too, single books are unlikely.";
        Ok(Reading { pattern, sure, why, open, decides: decides.into() })
    }

    fn every(&self) -> Read {
        let fits = self.distance();
        let Some(every) = fits else {
            let says = if self.bad() < 2 {
                "It takes two bad books at least to see a distance.".to_owned()
            } else {
                format!("No distance up to {MOST_EVERY} fits the bad books and leaves out the good ones.")
            };
            return Err((Pattern::EveryNth { every: 0 }, says));
        };
        let pattern = Pattern::EveryNth { every };
        // Any distance up to this one, beginning anywhere, would have been called the same.
        let ways = u64::from(every) * (u64::from(every) + 1) / 2;
        let (sure, chance) = self.chance(ways);
        let sure = if self.bad() > 2 { sure } else { Sure::Possible };
        let why =
            format!("The bad books lie {} or a multiple of it apart, and no good book does. {chance}", grouped(every));
        let (first, last) = (self.front.first_bad, self.back.last_bad);
        let back = first.checked_sub(every).unwrap_or(first);
        let open = self.closed(&[last.saturating_add(every), back, last.saturating_add(1)]);
        let decides = "The books one distance further on should be bad, and the book next to a bad one good.";
        Ok(Reading { pattern, sure, why, open, decides: decides.into() })
    }

    /// The largest distance by which all bad books lie apart, if good books lie between them and none at such a distance.
    fn distance(&self) -> Option<u32> {
        if self.blocks.len() < 2 {
            return None;
        }
        let first = self.front.first_bad;
        let bad = self.order.iter().filter(|o| o.judged == Judged::Bad);
        let common = bad.fold(0, |g, o| gcd(g, o.counter - first));
        let clear = |every: u32| {
            let same = |o: &&Opened| o.counter.abs_diff(first).is_multiple_of(every);
            self.order.iter().filter(same).all(|o| o.judged == Judged::Bad)
        };
        (2..=common.min(MOST_EVERY)).rev().find(|m| common.is_multiple_of(*m) && clear(*m))
    }

    fn scattered(&self) -> Read {
        let pattern = Pattern::Scattered;
        if self.good() == 0 {
            return Err((pattern, "No opened book is good.".into()));
        }
        // What is left when nothing with an order fits.
        let no_order = self.blocks.len() > 1 && self.distance().is_none();
        let sure = if no_order && self.blocks.len() > 2 { Sure::Likely } else { Sure::Possible };
        let why = if no_order {
            "Good books lie between the bad ones, at no even distance.".to_owned()
        } else {
            "Single books here and there always fit, too.".to_owned()
        };
        let (n, outer) = (self.front.first_bad, self.front.outer(self.line));
        let open = self.closed(&[n.saturating_sub(1).max(outer.from), n.saturating_add(1).min(outer.to)]);
        Ok(Reading {
            pattern,
            sure,
            why,
            open,
            decides: "If the books next to a bad one are good, single books are likelier.".into(),
        })
    }
}

const fn gcd(a: u32, b: u32) -> u32 {
    let (mut a, mut b) = (a, b);
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Opened books, `+` before good ones.
    fn read(last: u32, opened: &[i64]) -> Patterns {
        let one = |n: &i64| if *n > 0 { Opened::bad(*n as u32) } else { Opened::good(n.unsigned_abs() as u32) };
        patterns(&Line::of(1, last), &opened.iter().map(one).collect::<Vec<_>>())
    }

    fn best(last: u32, opened: &[i64]) -> (Pattern, Sure) {
        let found = read(last, opened);
        (found.readings[0].pattern, found.readings[0].sure)
    }

    #[test]
    fn each_kind_is_seen() {
        assert_eq!(best(2000, &[1, 900, 2000]), (Pattern::WholeRun, Sure::Likely));
        assert_eq!(best(2000, &[-1, -500, -900, -1100, 1200, 1500, 2000]), (Pattern::FromAMoment, Sure::Likely));
        assert_eq!(best(2000, &[-1000, 1001, -1002]), (Pattern::OneBook, Sure::Likely));
        let block = [-1, -500, -900, -1100, 1200, 1220, 1230, 1250, -1400, -1600, -2000];
        assert_eq!(best(2000, &block), (Pattern::Block, Sure::Likely));
        let every = [103, -104, -105, -106, 107, -108, -109, -110, 111, -112, 515, -513];
        assert_eq!(best(2000, &every), (Pattern::EveryNth { every: 4 }, Sure::Likely));
        assert_eq!(best(2000, &[-1, 5, -9, 30, -31, 77, -80, 200]), (Pattern::Scattered, Sure::Likely));
        assert_eq!(read(2000, &[-4, -8]), Patterns::default());
    }

    #[test]
    fn a_single_bad_book_decides_nothing_and_says_what_would() {
        let found = read(2000, &[1421]);
        assert!(found.readings.iter().all(|r| r.sure == Sure::Possible));
        let open = |p: Pattern| found.readings.iter().find(|r| r.pattern == p).unwrap().open.clone();
        assert_eq!(open(Pattern::OneBook), [1420, 1422]);
        assert_eq!(open(Pattern::FromAMoment), [2000]);
        assert_eq!(open(Pattern::WholeRun), [1, 2000]);
    }

    #[test]
    fn what_does_not_fit_has_a_reason() {
        let found = read(2000, &[-5, 9, -12, 20]);
        let why = |p: Pattern| found.ruled_out.iter().find(|(q, _)| *q == p).unwrap().1.clone();
        assert_eq!(why(Pattern::WholeRun), "Book 5 is good.");
        assert_eq!(why(Pattern::FromAMoment), "Book 12 is good, and it stands after the bad book 9.");
        assert_eq!(why(Pattern::Block), "Book 12 is good and stands between the bad books 9 and 20.");
        assert_eq!(why(Pattern::OneBook), "2 books are bad.");
    }
}
