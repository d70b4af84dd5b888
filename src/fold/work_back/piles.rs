//! A packet as far as working back needs it: at each place a pile, and of each pile its height and its first leaf.
//!
//! A fold lays whole piles on whole piles, and nothing comes between faces that touch. So the leaves of a pile follow
//! each other in the finished section without a gap, whatever is folded later: a pile of height `h` is the leaves
//! `f ..= f + h - 1` for one `f`, and as soon as one of its leaves is known, `f` is, and with it the number of every
//! panel in the pile. Where pile `a` comes in front of pile `b`, `f(a) + h(a) = f(b)`: if one of them is known, the
//! other becomes known, and must find its numbers free.
//!
//! The leaves of a pile are meant from front to back and not from bottom to top, so that turning a pile over changes
//! nothing. Neighbours end face to face (see [`Facts`]), hence the front is up in every other place, as on a
//! chessboard. A fold keeps that pattern: where a place falls `x` becomes `2 at - 1 - x`, which is even where `x` is
//! odd, and its pile is turned over.

use super::facts::Facts;
use crate::fold::{Crease, Direction, Fold, Lands};

/// The leaves that lie at one place.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Pile {
    /// How many.
    pub(super) height: u8,
    /// The number of the first one, from 1 at the front of the section; 0 where it isn't known.
    pub(super) first: u8,
}

/// The leaves `first ..= first + height - 1` as bits, the first leaf as the lowest.
pub(super) const fn bits(pile: Pile) -> u128 {
    if pile.height == 0 || pile.first == 0 { 0 } else { (u128::MAX >> (128 - pile.height)) << (pile.first - 1) }
}

/// A packet of piles.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Piles {
    /// Places from left to right.
    pub(super) width: u32,
    /// Places from top to bottom.
    pub(super) height: u32,
    /// The piles, row by row.
    pub(super) piles: Vec<Pile>,
    /// Leaves of the section.
    pub(super) leaves: u8,
    /// The leaves whose pile is known, as [`bits`].
    pub(super) taken: u128,
    /// Whether the front is up at the top left place.
    pub(super) front_up: bool,
    /// The place where the first panel of the sheet lies, and whether it is mirrored, in `x` and in `y`.
    corner: [(u32, bool); 2],
}

impl Piles {
    /// The flat sheet.
    pub(super) fn flat(facts: &Facts) -> Self {
        let piles: Vec<Pile> = facts.leaves.iter().map(|first| Pile { height: 1, first: *first }).collect();
        let taken = piles.iter().fold(0, |all, pile| all | bits(*pile));
        let front_up = facts.side_a_to_front.unwrap_or(true);
        let leaves = u8::try_from(piles.len()).unwrap_or(u8::MAX);
        Self { width: facts.columns, height: facts.rows, piles, leaves, taken, front_up, corner: [(0, false); 2] }
    }

    /// A direction in the packet as it points on the first panel of the sheet, seen from side A.
    pub(super) const fn on_corner(&self, direction: Direction) -> Direction {
        direction.mirrored(self.corner[0].1, self.corner[1].1)
    }

    fn pile(&self, x: u32, y: u32) -> Option<Pile> {
        if x < self.width && y < self.height { self.piles.get((y * self.width + x) as usize).copied() } else { None }
    }

    /// Folds the right or the bottom part into `next`. False where piles would meet that can't lie together.
    pub(super) fn fold(&self, fold: &Fold, next: &mut Self) -> bool {
        let after = fold.after;
        let vertical = fold.crease == Crease::Vertical;
        let size = if vertical { self.width } else { self.height };
        // How far the part that moves reaches out beyond the left or top edge.
        let beyond = size.saturating_sub(2 * after);
        let now = after + beyond;
        (next.width, next.height) = if vertical { (now, self.height) } else { (self.width, now) };
        (next.leaves, next.taken, next.corner) = (self.leaves, self.taken, self.corner);
        // The front at the place that was at the top left, by the pattern of the chessboard.
        next.front_up = self.front_up != (beyond % 2 == 1);
        if let Some((at, mirrored)) = next.corner.get_mut(usize::from(!vertical)) {
            let moved = *at >= after;
            *mirrored ^= moved;
            *at = if moved { 2 * after + beyond - 1 - *at } else { *at + beyond };
        }
        next.piles.clear();
        let over = fold.lands == Lands::Over;
        for y in 0..next.height {
            for x in 0..next.width {
                let along = if vertical { x } else { y };
                // A place left of the packet wraps round to a number too large to be one.
                let stays = along.wrapping_sub(beyond);
                let moves = (2 * after + beyond - 1).wrapping_sub(along);
                let there = |along: u32| if vertical { self.pile(along, y) } else { self.pile(x, along) };
                let stayed = if stays < after { there(stays) } else { None };
                let pile = match (stayed, there(moves)) {
                    (Some(stays), Some(moves)) => {
                        let front_up = next.front_up != ((x + y) % 2 == 1);
                        let joined = if over == front_up {
                            join(moves, stays, &mut next.taken, self.leaves)
                        } else {
                            join(stays, moves, &mut next.taken, self.leaves)
                        };
                        match joined {
                            Some(pile) => pile,
                            None => return false,
                        }
                    }
                    (Some(pile), None) | (None, Some(pile)) => pile,
                    (None, None) => return false,
                };
                next.piles.push(pile);
            }
        }
        true
    }
}

/// The pile of two, the first one in front. `None` where they can't follow each other, or what becomes known is taken.
fn join(front: Pile, back: Pile, taken: &mut u128, leaves: u8) -> Option<Pile> {
    let height = front.height + back.height;
    let new = match (front.first, back.first) {
        (0, 0) => return Some(Pile { height, first: 0 }),
        (0, first) => Pile { first: first.checked_sub(front.height).filter(|first| *first > 0)?, ..front },
        (first, 0) => Pile { first: first + front.height, ..back },
        (first, then) => return (first + front.height == then).then_some(Pile { height, first }),
    };
    if new.first + new.height - 1 > leaves || *taken & bits(new) != 0 {
        return None;
    }
    *taken |= bits(new);
    Some(Pile { height, first: if front.first == 0 { new.first } else { front.first } })
}
