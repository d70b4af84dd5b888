//! Creep: leaves within a section stand out beyond those around them, since the fold around them takes up paper.

use super::leaves::{Edge, Leaves};
use crate::paper::{Length, Trims};
use std::collections::BTreeMap;

/// How much one folded sheet pushes out those that lie in it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CreepModel {
    /// One thickness: the fold is sharp. "What is Creep?", colorvisionprinting.com: each folded sheet nested in another
    /// stands out by one sheet thickness more, 0.005, 0.010, 0.015 in for paper of 0.005 in.
    Flat,
    /// π/2 thicknesses: the fold is round, and each sheet goes half a circle around those within. Geometry; no source.
    Round,
}

impl CreepModel {
    /// The factor of the thickness.
    #[must_use]
    pub const fn factor(self) -> f64 {
        match self {
            Self::Flat => 1.0,
            Self::Round => std::f64::consts::FRAC_PI_2,
        }
    }

    /// How far a sheet stands out, or is pressed in, that has `around` others around it: factor × thickness × others.
    #[must_use]
    pub fn creep(self, caliper: Length, around: u32) -> Length {
        let flat = caliper.times(i64::from(around));
        match self {
            Self::Flat => flat,
            Self::Round => Length::from_mm(flat.mm() * self.factor()),
        }
    }
}

/// The creep of a leaf.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Creep {
    /// The leaf, counted from 1.
    pub leaf: u32,
    /// Folded sheets around it.
    pub around: u32,
    /// How far it stands out beyond the outermost leaf if folds are sharp.
    pub flat: Length,
    /// The same if they are round.
    pub round: Length,
}

/// The creep of every leaf, from front to back.
#[must_use]
pub fn creep(leaves: &Leaves, caliper: Length) -> Vec<Creep> {
    let one = |leaf: &super::leaves::Leaf| {
        let [flat, round] = [CreepModel::Flat, CreepModel::Round].map(|m| m.creep(caliper, leaf.around));
        Creep { leaf: leaf.number, around: leaf.around, flat, round }
    };
    leaves.leaves.iter().map(one).collect()
}

/// What the cut leaves of the margins of the two pages of a leaf.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PageMargins {
    /// The leaf, counted from 1.
    pub leaf: u32,
    /// From the type to the fore-edge if folds are sharp.
    pub outer_flat: Length,
    /// The same if they are round.
    pub outer_round: Length,
    /// How far the bolts around its own one press the leaf towards the tail; negative: towards the head. Round folds.
    pub pressed_down: Length,
    /// How far a picture that runs off the page reaches beyond the cut at the head; negative: white shows.
    pub bleed_head: Length,
    /// The same at the tail.
    pub bleed_tail: Length,
    /// The same at the fore-edge, where creep only ever carries it farther out (sharp folds).
    pub bleed_fore_edge: Length,
}

/// The margins of every leaf after the cut, if all pages are printed at the same distance from the back so that
/// `margin` remains at the fore-edge of the outermost leaf.
///
/// The knife cuts all leaves at one line, and a leaf that stands out loses so much more of its margin: margin − creep.
#[must_use]
pub fn margins(leaves: &Leaves, trims: &Trims, caliper: Length, margin: Length) -> Vec<PageMargins> {
    let mut pressed: BTreeMap<u32, Length> = BTreeMap::new();
    for bolt in leaves.bolts.iter().filter(|b| b.edge != Edge::ForeEdge) {
        let by = CreepModel::Round.creep(caliper, bolt.around);
        for leaf in [bolt.leaves.0, bolt.leaves.1] {
            *pressed.entry(leaf).or_default() += if bolt.edge == Edge::Head { by } else { -by };
        }
    }
    let one = |c: Creep| {
        let pressed_down = pressed.get(&c.leaf).copied().unwrap_or_default();
        PageMargins {
            leaf: c.leaf,
            outer_flat: margin - c.flat,
            outer_round: margin - c.round,
            pressed_down,
            bleed_head: trims.bleed - pressed_down.max(Length::ZERO),
            bleed_tail: trims.bleed - (-pressed_down).max(Length::ZERO),
            bleed_fore_edge: trims.bleed + c.flat,
        }
    };
    creep(leaves, caliper).into_iter().map(one).collect()
}
