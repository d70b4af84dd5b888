//! Air that a folded packet traps, and the crease to perforate so that it gets out.

use super::made::MadeFold;
use crate::fold::Crease;

/// A crease that wants slitting or perforating.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Perforate {
    /// The fold whose crease it is, as [`MadeFold::number`] counts.
    pub fold: u32,
    /// Which way it runs.
    pub crease: Crease,
    /// The fold at right angles to it that follows, in which the air would be trapped.
    pub before: u32,
    /// Layers that it closes.
    pub layers: u32,
}

/// What the folds of a piece do with the air between its leaves.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Air {
    /// Right-angle folds, with the first: three in a sixteen of which each fold lies across the one before.
    pub right_angles: u32,
    /// Closed folds that a later fold lies across, in order: there the packet is shut.
    pub shut: Vec<Perforate>,
    /// Of those, the ones that want a perforation.
    pub perforate: Vec<Perforate>,
    /// Whether the last two folds are parallel and the piece has 32 pages or more.
    pub parallel_32: bool,
}

/// More right-angle folds than these want slitting or perforating. M. T. Roberts and D. Etherington, *Bookbinding and the
/// Conservation of Books* (1982), "folding".
pub const UNPERFORATED: u32 = 2;

/// What the folds of a piece of so many leaves do with the air.
///
/// Each fold at right angles to the one before shuts the packet across its end: what lies between the layers can only
/// leave at the other one. From the third right-angle fold on ([`UNPERFORATED`]) the crease before it is to be opened.
#[must_use]
pub fn air(folds: &[MadeFold], leaves: u32) -> Air {
    let turns = folds.windows(2).filter_map(|pair| match pair {
        [a, b] if a.crease != b.crease => {
            Some(Perforate { fold: a.number, crease: a.crease, before: b.number, layers: a.layers })
        }
        _ => None,
    });
    let shut: Vec<Perforate> = turns.collect();
    let right_angles = if folds.is_empty() { 0 } else { shut.len() as u32 + 1 };
    // The first turn begins the second right-angle fold.
    let perforate = shut.iter().skip(UNPERFORATED.saturating_sub(1) as usize).copied().collect();
    let parallel = matches!(folds, [.., a, b] if a.crease == b.crease);
    Air { right_angles, shut, perforate, parallel_32: parallel && leaves >= 16 }
}
