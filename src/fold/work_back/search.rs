//! The search through all folds of all layers.

use super::nearest::{self, Near};
use super::facts::Facts;
use super::piles::Piles;
use super::printed::Printed;
use super::room::has_room;
use crate::fold::{Direction, Fold, Lands, Part, Reads, Scheme};

/// The most panels of a sheet that is worked back. A bound on work.
pub const MAX_WORKED_BACK: u32 = 128;

/// The panels that may be looked at before a search is cut.
const MAX_WORK: u64 = 5_000_000;

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
        self.cut |= self.work > MAX_WORK;
        !self.cut
    }
}

/// Up to `most` schemes that print a sheet.
pub(super) fn schemes(printed: &Printed, most: usize, budget: &mut Budget) -> Vec<Scheme> {
    let Some(facts) = Facts::of(printed) else { return Vec::new() };
    let flat = Piles::flat(&facts);
    let mut search = Search { facts: &facts, most, budget, folds: Vec::new(), found: Vec::new(), spare: Vec::new() };
    search.step(&flat);
    search.found
}

struct Search<'a> {
    facts: &'a Facts,
    most: usize,
    budget: &'a mut Budget,
    folds: Vec<Fold>,
    found: Vec<Scheme>,
    /// Packets that are done with; their memory is used again.
    spare: Vec<Piles>,
}

impl Search<'_> {
    fn step(&mut self, packet: &Piles) {
        if packet.piles.len() == 1 {
            self.finish(packet);
            return;
        }
        let mut next = self.spare.pop().unwrap_or_default();
        let creases = |part: Part, size: usize| (1..size as u32).map(move |after| (part, after));
        for (part, after) in creases(Part::Right, packet.width).chain(creases(Part::Bottom, packet.height)) {
            for lands in [Lands::Over, Lands::Under] {
                let fold = Fold::new(after, part, lands);
                let fits = packet.fold(&fold, &mut next);
                if !self.budget.allows(1 + next.piles.len() as u64) {
                    return;
                }
                if fits && self.head_allows(&next) && has_room(&next) {
                    self.folds.push(fold);
                    self.step(&next);
                    self.folds.pop();
                }
            }
        }
        self.spare.push(next);
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
    fn finish(&mut self, packet: &Piles) {
        let Some(last) = self.folds.last() else { return };
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
                if !self.budget.allows(1 + self.folds.len() as u64) {
                    return;
                }
                if self.found.len() == self.most || (self.found.len() + 1) * self.folds.len() > MAX_FOLDS {
                    self.budget.cut = true;
                    return;
                }
                let (rows, columns) = (self.facts.rows as u32, self.facts.columns as u32);
                self.found.push(Scheme { rows, columns, folds: self.folds.clone(), head, reads });
            }
        }
    }
}
