//! Where no scheme prints a sheet: the one change that makes one fit.

use super::printed::Printed;
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

pub(super) fn changes(printed: &Printed, budget: &mut Budget) -> Vec<Near> {
    let mut near = Vec::new();
    let turned = printed.with(|faces| {
        let half = faces.len() / 2;
        if let Some(side_b) = faces.get_mut(half..) {
            side_b.reverse();
            side_b.iter_mut().for_each(|known| known.head = known.head.map(Direction::opposite));
        }
    });
    if turned != *printed {
        add(&mut near, &Change::SecondSideTurnedRound, &turned, budget);
    }
    // A leaf whose pages can't be one leaf must be touched by the change, or nothing fits.
    let Some(broken) = printed.broken() else { return near };
    let touched = |places: &[usize]| broken.iter().all(|leaf| places.iter().any(|at| printed.leaf(*at) == *leaf));
    let known: Vec<(usize, u32)> =
        printed.known().iter().enumerate().filter_map(|(i, known)| Some((i, known.page?))).collect();
    for (at, page) in known.iter().filter(|(at, _)| touched(&[*at])) {
        let other = printed.with(|faces| {
            if let Some(known) = faces.get_mut(*at) {
                known.head = known.head.map(Direction::opposite);
            }
        });
        if other != *printed {
            add(&mut near, &Change::PageHeadDown { page: *page }, &other, budget);
        }
    }
    for (i, (at, a)) in known.iter().enumerate() {
        for (there, b) in known.iter().skip(i + 1).filter(|(there, _)| touched(&[*at, *there])) {
            let other = printed.with(|faces| {
                for (place, page) in [(at, b), (there, a)] {
                    if let Some(known) = faces.get_mut(*place) {
                        known.page = Some(*page);
                    }
                }
            });
            let pages = [*a.min(b), *a.max(b)];
            add(&mut near, &Change::PagesExchanged { pages }, &other, budget);
            if budget.cut {
                return near;
            }
        }
    }
    near
}

fn add(near: &mut Vec<Near>, change: &Change, printed: &Printed, budget: &mut Budget) {
    if near.len() >= MOST {
        budget.cut = true;
    }
    if !budget.allows(u64::from(printed.pages())) {
        return;
    }
    let found = schemes(printed, MOST - near.len(), budget);
    near.extend(found.into_iter().map(|scheme| Near { change: change.clone(), scheme }));
}
