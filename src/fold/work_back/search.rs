//! The search through all folds of all layers.

use super::nearest::{self, Near};
use super::printed::Printed;
use crate::fold::{Direction, Fold, Folding, Landing, Lands, Layer, Packet, Part, Reads, Scheme, Section, Side, Turn};

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
    if printed.broken().is_none_or(|broken| !broken.is_empty()) {
        return Vec::new();
    }
    let mut search = Search { printed, most, budget, folds: Vec::new(), found: Vec::new() };
    search.step(&Packet::flat(printed.rows, printed.columns));
    search.found
}

struct Search<'a> {
    printed: &'a Printed,
    most: usize,
    budget: &'a mut Budget,
    folds: Vec<Fold>,
    found: Vec<Scheme>,
}

impl Search<'_> {
    fn step(&mut self, packet: &Packet) {
        let extent = packet.extent();
        if extent.width() == 1 && extent.height() == 1 {
            self.finish();
            return;
        }
        let creases = |part: Part, size: i32| (1..size.unsigned_abs()).map(move |after| (part, after));
        for (part, after) in creases(Part::Right, extent.width()).chain(creases(Part::Bottom, extent.height())) {
            for lands in [Lands::Over, Lands::Under] {
                if !self.budget.allows(u64::from(self.printed.pages())) {
                    return;
                }
                let fold = Fold::new(after, part, lands);
                let Some((next, turn)) = packet.fold(&fold) else { continue };
                if self.touching_pages_follow(&next, &turn) {
                    self.folds.push(fold);
                    self.step(&next);
                    self.folds.pop();
                }
            }
        }
    }

    /// Whether the faces that a fold brought together may lie together.
    fn touching_pages_follow(&self, packet: &Packet, turn: &Turn) -> bool {
        let extent = packet.extent();
        let split = if turn.fold.lands == Lands::Over { turn.stayed } else { packet.layers.len() - turn.stayed };
        let (lower, upper) = packet.layers.split_at(split);
        let width = extent.width().unsigned_abs() as usize;
        let nearest = |layers: &mut dyn Iterator<Item = &Layer>| {
            let mut there: Vec<Option<Layer>> = vec![None; width * extent.height().unsigned_abs() as usize];
            for layer in layers {
                for (x, y) in layer.footprint().cells() {
                    let at = (y - extent.y0).unsigned_abs() as usize * width + (x - extent.x0).unsigned_abs() as usize;
                    if let Some(slot) = there.get_mut(at) {
                        slot.get_or_insert(*layer);
                    }
                }
            }
            there
        };
        let (below, above) = (nearest(&mut lower.iter().rev()), nearest(&mut upper.iter()));
        extent.cells().zip(below.iter().zip(&above)).all(|((x, y), pair)| match pair {
            (Some(below), Some(above)) => {
                let (one, other) = (below.face_up(x, y), above.face_down(x, y));
                let (known, met) = (self.printed.at(&one), self.printed.at(&other));
                let lies = |layer: &Layer, side: Side, head: Direction| {
                    layer.placement.direction(if side == Side::A { head } else { head.turned_over() })
                };
                let heads = known.head.zip(met.head);
                heads.is_none_or(|(a, b)| lies(below, one.side, a) == lies(above, other.side, b))
                    && self.printed.may_touch(known.page, met.page)
            }
            _ => true,
        })
    }

    /// The packet is one panel large: which head end and which front print what is known?
    fn finish(&mut self) {
        let Some(last) = self.folds.last() else { return };
        let heads = match last.moves {
            Part::Left | Part::Right => [Direction::Up, Direction::Down],
            Part::Top | Part::Bottom => [Direction::Left, Direction::Right],
        };
        let (rows, columns) = (self.printed.rows, self.printed.columns);
        let mut scheme = Scheme { rows, columns, folds: self.folds.clone(), head: heads[0], reads: Reads::LeftToRight };
        if !self.budget.allows(self.folds.len() as u64 * u64::from(scheme.leaves())) {
            return;
        }
        let Ok(folding) = Folding::end_of(&scheme) else { return };
        for reads in [Reads::LeftToRight, Reads::RightToLeft] {
            for head in heads {
                (scheme.head, scheme.reads) = (head, reads);
                let fits = Section::of(&scheme, &folding).is_ok_and(|s| self.printed.agrees(&Landing::of_section(&s)));
                if !self.budget.allows(u64::from(self.printed.pages())) {
                    return;
                }
                let full = self.found.len() == self.most || (self.found.len() + 1) * self.folds.len() > MAX_FOLDS;
                if fits && full {
                    self.budget.cut = true;
                    return;
                }
                if fits {
                    self.found.push(scheme.clone());
                }
            }
        }
    }
}
