//! Where no scheme prints a sheet: the one change that makes one fit.

use super::printed::{Known, Printed};
use super::search::{Budget, schemes};
use crate::fold::{Direction, Scheme};
use serde::Serialize;

/// A change of the print.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum Change {
    /// Two pages put in each other's place.
    PagesExchanged {
        /// The two, the smaller one first.
        pages: [u32; 2],
    },
    /// A page turned head to tail.
    PageHeadDown {
        /// The page.
        page: u32,
    },
    /// Side B turned half round.
    SecondSideTurnedRound,
}

/// A change, and a scheme that then fits.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Near {
    /// The change.
    pub change: Change,
    /// The scheme.
    pub scheme: Scheme,
}

/// How many are given, and how many schemes are looked for under one change.
const MOST: usize = 20;

/// The changes that make a scheme fit, of a sheet that none fits as it is.
///
/// Side B first, then heads, then pages that are both seen, then pages of which one is seen: the other one then stands
/// where nothing is known.
pub(super) fn changes(printed: &Printed, budget: &mut Budget) -> Vec<Near> {
    let Some(seen) = printed.seen() else { return Vec::new() };
    let mut found = Found { all: Vec::new(), budget };
    let turned = printed.with(|faces| {
        let half = faces.len() / 2;
        if let Some(side_b) = faces.get_mut(half..) {
            side_b.reverse();
            side_b.iter_mut().for_each(turn);
        }
    });
    if turned != *printed {
        found.look(Change::SecondSideTurnedRound, &turned);
    }
    for &(at, page) in seen.iter().filter(|(at, _)| printed.known().get(*at).is_some_and(|known| known.head.is_some()))
    {
        found.look(Change::PageHeadDown { page }, &printed.with(|faces| faces.get_mut(at).map_or((), turn)));
    }
    let fronts = Fronts::of(printed, &seen);
    let broken = printed.broken();
    let touched = |places: &[usize]| broken.iter().all(|panel| places.iter().any(|at| printed.panel(*at) == *panel));
    let put = |pages: &[(usize, u32)]| {
        printed.with(|faces| {
            for (at, page) in pages {
                if let Some(known) = faces.get_mut(*at) {
                    known.page = Some(*page);
                }
            }
        })
    };
    for (i, &(at, a)) in seen.iter().enumerate() {
        for &(there, b) in seen.iter().skip(i + 1) {
            let agree = if a % 2 == b % 2 { fronts.agree(&[]) } else { fronts.agree(&[at, there]) };
            if agree && touched(&[at, there]) {
                let pages = [a.min(b), a.max(b)];
                if !found.look(Change::PagesExchanged { pages }, &put(&[(at, b), (there, a)])) {
                    return found.shared();
                }
            }
        }
    }
    let hidden = (1..=printed.pages()).filter(|page| seen.iter().all(|(_, known)| known != page));
    for b in hidden {
        for &(at, a) in &seen {
            let agree = if a % 2 == b % 2 { fronts.agree(&[]) } else { fronts.agree(&[at]) };
            if agree && touched(&[at]) {
                let pages = [a.min(b), a.max(b)];
                if !found.look(Change::PagesExchanged { pages }, &put(&[(at, b)])) {
                    return found.shared();
                }
            }
        }
    }
    found.shared()
}

/// Turns a page head to tail.
fn turn(known: &mut Known) {
    known.head = known.head.map(Direction::opposite);
}

/// Which way each page that is seen would turn the sheet: all must agree which side of the first panel faces the front
/// (see [`Facts`](super::facts::Facts)). A page put in the place of one that is even where it is odd turns it the other
/// way.
struct Fronts {
    /// By place; `None` where no page is seen.
    side_a: Vec<Option<bool>>,
    /// How many say that it is side B, and how many say side A.
    counts: [usize; 2],
}

impl Fronts {
    fn of(printed: &Printed, seen: &[(usize, u32)]) -> Self {
        let mut fronts = Self { side_a: vec![None; printed.known().len()], counts: [0; 2] };
        for &(at, page) in seen {
            let front = printed.side_a_to_front(at, page);
            if let Some(slot) = fronts.side_a.get_mut(at) {
                *slot = Some(front);
            }
            fronts.counts[usize::from(front)] += 1;
        }
        fronts
    }

    /// Whether all agree when those in `places` are put the other way.
    fn agree(&self, places: &[usize]) -> bool {
        let mut counts = self.counts;
        for front in places.iter().filter_map(|at| self.side_a.get(*at).copied().flatten()) {
            counts[usize::from(front)] -= 1;
            counts[usize::from(!front)] += 1;
        }
        counts.contains(&0)
    }
}

/// What was found under each change.
struct Found<'a> {
    all: Vec<(Change, Vec<Scheme>)>,
    budget: &'a mut Budget,
}

impl Found<'_> {
    /// Looks for schemes that print the changed sheet. False when no more can be looked for.
    fn look(&mut self, change: Change, printed: &Printed) -> bool {
        if !self.budget.allows(u64::from(printed.pages())) {
            return false;
        }
        let schemes = schemes(printed, MOST, self.budget);
        if !schemes.is_empty() {
            if self.all.len() == MOST {
                self.budget.cut = true;
                return false;
            }
            self.all.push((change, schemes));
        }
        true
    }

    /// As many as are given: of each change one scheme, then of each a second one, and so on.
    fn shared(self) -> Vec<Near> {
        let mut left = MOST;
        let mut shares = vec![0; self.all.len()];
        for round in 1..=MOST {
            for (share, _) in shares.iter_mut().zip(&self.all).filter(|(_, (_, schemes))| schemes.len() >= round) {
                if left == 0 {
                    self.budget.cut = true;
                    break;
                }
                *share = round;
                left -= 1;
            }
        }
        let given = self.all.into_iter().zip(shares);
        let near = given.flat_map(|((change, schemes), share)| {
            schemes.into_iter().take(share).map(move |scheme| Near { change: change.clone(), scheme })
        });
        near.collect()
    }
}
