//! The search through all folds of all layers.

use super::facts::Facts;
use super::nearest::{self, Near};
use super::piles::{Pile, Piles};
use super::printed::Printed;
use super::room::Room;
use crate::fold::{Direction, Fold, Lands, Part, Reads, Scheme};
use std::collections::BTreeSet;

/// The most panels of a sheet that is worked back. A bound on work.
pub const MAX_WORKED_BACK: u32 = 128;

/// The piles that may be looked at before a search is cut.
const MAX_WORK: u64 = 15_000_000;

/// How many times as much work it is to look whether a pile has room.
const ROOM: usize = 16;

/// The schemes listed at the most.
const MAX_SCHEMES: usize = 2000;

/// The folds listed at the most in all of them, so that an answer stays within a megabyte or two.
const MAX_FOLDS: usize = 16_000;

/// What a printed sheet says of its folds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WorkedBack {
    /// Every scheme that prints it, the part that moves always the right or the bottom one.
    pub schemes: Vec<Scheme>,
    /// Where there is none: the smallest changes that make one fit.
    pub nearest: Vec<Near>,
    /// Whether all was searched and is listed.
    pub complete: bool,
}

/// Finds the schemes that print a sheet.
#[must_use]
pub fn work_back(printed: &Printed) -> WorkedBack {
    let mut budget = Budget { work: 0, cut: false };
    if printed.rows.saturating_mul(printed.columns) > MAX_WORKED_BACK {
        return WorkedBack { schemes: Vec::new(), nearest: Vec::new(), complete: false };
    }
    let schemes = schemes(printed, MAX_SCHEMES, &mut budget);
    let nearest = if schemes.is_empty() && !budget.cut { nearest::changes(printed, &mut budget) } else { Vec::new() };
    WorkedBack { schemes, nearest, complete: !budget.cut }
}

/// What may still be done.
pub(super) struct Budget {
    work: u64,
    /// Whether something was left out.
    pub(super) cut: bool,
}

impl Budget {
    /// Whether so much more may be done.
    pub(super) fn allows(&mut self, more: u64) -> bool {
        self.work = self.work.saturating_add(more);
        let allows = self.work <= MAX_WORK;
        self.cut |= !allows;
        allows
    }
}

/// Up to `most` schemes that print a sheet.
pub(super) fn schemes(printed: &Printed, most: usize, budget: &mut Budget) -> Vec<Scheme> {
    let Some(facts) = Facts::of(printed) else { return Vec::new() };
    let flat = Piles::flat(&facts);
    let mut search = Search {
        facts: &facts,
        most,
        budget,
        folds: Vec::new(),
        found: Vec::new(),
        vain: BTreeSet::new(),
        room: Room::default(),
        spare: Vec::new(),
    };
    if search.room.is_left(&flat) {
        // However the search ended, the budget knows whether something was left out.
        let _: Result<(), Ended> = search.step(&flat);
    }
    search.found
}

/// The work or the list is at its end.
struct Ended;

struct Search<'a> {
    facts: &'a Facts,
    most: usize,
    budget: &'a mut Budget,
    folds: Vec<Fold>,
    found: Vec<Scheme>,
    /// Packets from which nothing fits, by their [`key`].
    vain: BTreeSet<Key>,
    room: Room,
    /// Packets that are done with; their memory is used again.
    spare: Vec<Piles>,
}

impl Search<'_> {
    /// Finds every way to fold on.
    fn step(&mut self, packet: &Piles) -> Result<(), Ended> {
        if packet.piles.len() == 1 {
            return self.finish(packet);
        }
        let mut next = self.spare.pop().unwrap_or_default();
        let creases = |part: Part, size: u32| (1..size).map(move |after| (part, after));
        for (part, after) in creases(Part::Right, packet.width).chain(creases(Part::Bottom, packet.height)) {
            for lands in [Lands::Over, Lands::Under] {
                let fold = Fold::new(after, part, lands);
                let fits = packet.fold(&fold, &mut next);
                self.allows(1 + next.piles.len())?;
                if fits && self.head_allows(&next) {
                    self.allows(ROOM * next.piles.len())?;
                    if !self.room.is_left(&next) {
                        continue;
                    }
                    let key = key(&next);
                    if self.vain.contains(&key) {
                        continue;
                    }
                    let found = self.found.len();
                    self.folds.push(fold);
                    self.step(&next)?;
                    self.folds.pop();
                    if self.found.len() == found {
                        self.vain.insert(key);
                    }
                }
            }
        }
        self.spare.push(next);
        Ok(())
    }

    fn allows(&mut self, more: usize) -> Result<(), Ended> {
        if self.budget.allows(more as u64) { Ok(()) } else { Err(Ended) }
    }

    /// The spine is the last crease, and heads don't point to it: a known head says which way the last crease runs.
    fn head_allows(&self, packet: &Piles) -> bool {
        match self.facts.head {
            Some(head) if head.is_sideways() => packet.height > 1 || packet.width == 1,
            Some(_) => packet.width > 1 || packet.height == 1,
            None => true,
        }
    }

    /// The packet is one pile: which head ends and which fronts print what is known?
    fn finish(&mut self, packet: &Piles) -> Result<(), Ended> {
        let Some(last) = self.folds.last() else { return Ok(()) };
        let heads = match last.moves {
            Part::Left | Part::Right => [Direction::Up, Direction::Down],
            Part::Top | Part::Bottom => [Direction::Left, Direction::Right],
        };
        let spine = last.moves.direction();
        for reads in [Reads::LeftToRight, Reads::RightToLeft] {
            for head in heads {
                // As a reader has it: spine at the left from the front, or at the right.
                let front_up = (spine.clockwise() == head) == (reads == Reads::LeftToRight);
                if self.facts.side_a_to_front.is_some() && front_up != packet.front_up
                    || self.facts.head.is_some_and(|known| known != packet.on_corner(head))
                {
                    continue;
                }
                self.allows(1 + self.folds.len())?;
                if self.found.len() == self.most || (self.found.len() + 1) * self.folds.len() > MAX_FOLDS {
                    self.budget.cut = true;
                    return Err(Ended);
                }
                let (rows, columns) = (self.facts.rows, self.facts.columns);
                self.found.push(Scheme { rows, columns, folds: self.folds.clone(), head, reads });
            }
        }
        Ok(())
    }
}

/// The width of a packet and its piles, row by row.
type Key = (u32, Vec<Pile>);

/// What decides whether a packet can be folded on: its piles, be it turned over or round. Which side is up doesn't
/// matter, since each fold may land over or under.
fn key(packet: &Piles) -> Key {
    let (width, height) = (packet.width as usize, packet.height as usize);
    let seen = |(mirror_x, mirror_y): (bool, bool)| {
        (0..width * height).filter_map(move |at| {
            let (x, y) = (at % width, at / width);
            let (x, y) = (if mirror_x { width - 1 - x } else { x }, if mirror_y { height - 1 - y } else { y });
            packet.piles.get(y * width + x).copied()
        })
    };
    let mut least = (false, false);
    for other in [(true, false), (false, true), (true, true)] {
        if seen(other).lt(seen(least)) {
            least = other;
        }
    }
    (packet.width, seen(least).collect())
}
