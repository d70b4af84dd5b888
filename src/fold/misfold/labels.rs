//! Faults of single pages on the forme, read off the difference between what should be found and what was found.

use super::cause::Cause;
use super::explain::FoundPage;
use crate::fold::Direction;

/// A page as it would be found, with the number printed; `None` where nothing is printed.
pub(super) type Shown = Option<(i64, bool)>;

/// How what is shown is held against what was found.
pub(super) type Agrees = fn(&Shown, &FoundPage) -> bool;

/// Whether what is shown is what was found. A head that was not looked at fits both ways.
pub(super) fn same(shown: &Shown, found: &FoundPage) -> bool {
    match (shown, found.page) {
        (None, None) => true,
        (Some((page, up)), Some(number)) => {
            *page == i64::from(number)
                && found.head.is_none_or(|h| h == if *up { Direction::Up } else { Direction::Down })
        }
        _ => false,
    }
}

/// Everything that up to `most` faults of single pages can make of a reading to get what was found: the faults, and the
/// pages with them. `own` holds the numbers of the section; `copies` sheets carry the same faults.
pub(super) fn faults(
    shown: &[Shown],
    found: &[FoundPage],
    most: usize,
    own: &std::ops::Range<i64>,
    copies: usize,
    agrees: Agrees,
) -> Vec<(Vec<Cause>, Vec<Shown>)> {
    let mut out = Vec::new();
    Search { found, own, copies, agrees }.step(shown, most, &[], &mut out);
    out
}

struct Search<'a> {
    found: &'a [FoundPage],
    own: &'a std::ops::Range<i64>,
    copies: usize,
    agrees: Agrees,
}

impl Search<'_> {
    fn step(&self, shown: &[Shown], most: usize, so_far: &[Cause], out: &mut Vec<(Vec<Cause>, Vec<Shown>)>) {
        // An exchange sets two places right on each sheet; one place more and the rest can't be reached.
        let limit = 2 * self.copies * most;
        let wrong: Vec<usize> = (0..)
            .zip(shown)
            .zip(self.found)
            .filter(|((_, s), f)| !(self.agrees)(s, f))
            .map(|((i, _), _)| i)
            .take(limit + 1)
            .collect();
        if wrong.is_empty() {
            let known =
                out.iter().any(|(other, _)| other.len() == so_far.len() && so_far.iter().all(|c| other.contains(c)));
            if !known {
                out.push((so_far.to_vec(), shown.to_vec()));
            }
            return;
        }
        if wrong.len() > limit {
            return;
        }
        for at in wrong {
            let (Some(Some((page, _))), Some(number)) = (shown.get(at), self.found.get(at).and_then(|f| f.page)) else {
                return;
            };
            let (page, number) = (*page, i64::from(number));
            let (fault, next) = if page == number {
                (head_down(page), turned(shown, page))
            } else if self.own.contains(&number) || shown.iter().flatten().any(|(p, _)| *p == number) {
                (exchanged(page, number), swapped(shown, page, number, so_far))
            } else {
                return;
            };
            if let Some(fault) = fault.filter(|f| !so_far.contains(f)) {
                self.step(&next, most - 1, &[so_far, &[fault]].concat(), out);
            }
        }
    }
}

fn head_down(page: i64) -> Option<Cause> {
    Some(Cause::PageHeadDown { page: u32::try_from(page).ok()? })
}

fn exchanged(a: i64, b: i64) -> Option<Cause> {
    Some(Cause::PagesExchanged { pages: [u32::try_from(a.min(b)).ok()?, u32::try_from(a.max(b)).ok()?] })
}

fn turned(shown: &[Shown], page: i64) -> Vec<Shown> {
    shown.iter().map(|s| s.map(|(p, up)| (p, up != (p == page)))).collect()
}

/// Exchanges two numbers; one that stands head down goes on doing so.
fn swapped(shown: &[Shown], a: i64, b: i64, so_far: &[Cause]) -> Vec<Shown> {
    let down = |p: i64| head_down(p).is_some_and(|c| so_far.contains(&c));
    let turns = down(a) != down(b);
    let swap = |(p, up): (i64, bool)| match p {
        p if p == a => (b, up != turns),
        p if p == b => (a, up != turns),
        p => (p, up),
    };
    shown.iter().map(|s| s.map(swap)).collect()
}
