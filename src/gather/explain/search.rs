//! The fewest faults that explain a book, and every way to have so few.
//!
//! Tried with no fault, one, two and three; the first count that explains the book is the answer. A count is shared
//! out between acts on the whole row and faults of single stations in every way.

use super::fill::Fill;
use super::order;
use super::row::Act;
use super::straight::Straight;
use super::work::{A_WAY, Work};
use crate::gather::fault::Fault;
use crate::marks::Found;

/// The most breaks one act can make.
const BREAKS_AN_ACT: usize = 4;

/// One way a book can have come about.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Story {
    /// Acts on the row, in the order they happen.
    pub acts: Vec<Act>,
    /// Faults of single stations, in the order of the row.
    pub stations: Vec<Fault>,
}

/// All stories with the fewest faults, at most `most`; empty when there is none. `found` names sections 1 to
/// `stations` only; how they lie is not looked at.
pub(super) fn stories(
    stations: usize,
    found: &[Found],
    most: usize,
    work: &mut Work,
) -> Vec<Story> {
    let mut backwards = found.to_vec();
    backwards.reverse();
    let [straight, reversed] = [found, &backwards].map(|found| Straight::new(stations, found));
    for faults in 0..=most {
        let mut stories = Vec::new();
        work.begin();
        stories.extend(
            straight
                .ways(faults, work)
                .into_iter()
                .map(|stations| Story {
                    acts: Vec::new(),
                    stations,
                }),
        );
        rearranged(stations, found, faults, work, &mut stories);
        // A single section backwards is itself.
        if faults > 0 && stations > 1 {
            let mut turned = Vec::new();
            work.begin();
            turned.extend(
                reversed
                    .ways(faults - 1, work)
                    .into_iter()
                    .map(|stations| Story {
                        acts: Vec::new(),
                        stations,
                    }),
            );
            rearranged(stations, &backwards, faults - 1, work, &mut turned);
            stories.extend(turned.into_iter().map(|mut story| {
                story.acts.push(Act::Reversed);
                story
            }));
        }
        if !stories.is_empty() {
            return once_each(stories);
        }
    }
    Vec::new()
}

/// The stories with exactly `faults` faults, one act or more among them, and no reversal.
fn rearranged(
    stations: usize,
    found: &[Found],
    faults: usize,
    work: &mut Work,
    stories: &mut Vec<Story>,
) {
    for acts in 1..=faults {
        work.begin();
        for (row, stations) in
            Fill::rows(stations, found, faults - acts, BREAKS_AN_ACT * acts, work)
        {
            for acts in order::ways(&row, acts, work) {
                if !work.spend(A_WAY) {
                    return;
                }
                stories.push(Story {
                    acts,
                    stations: stations.clone(),
                });
            }
        }
    }
}

/// Drops stories that name the same faults in another order. The first one stays, but one in which a move shifts the
/// whole row goes before one in which the same words mean less.
fn once_each(mut stories: Vec<Story>) -> Vec<Story> {
    let shifts = |act: &Act| matches!(act, Act::Moved { whole: Some(_), .. });
    stories.sort_by_key(|story| !story.acts.iter().any(shifts));
    let mut known = std::collections::BTreeSet::new();
    stories
        .into_iter()
        .filter(|story| {
            let mut named = story.clone();
            for act in &mut named.acts {
                if let Act::Moved { whole, .. } = act {
                    *whole = None;
                }
            }
            named.acts.sort_unstable();
            named.stations.sort_unstable();
            known.insert(named)
        })
        .collect()
}
