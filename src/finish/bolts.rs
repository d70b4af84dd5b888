//! The three-knife trimmer: which bolts it opens, and which it leaves.

use super::creep::CreepModel;
use super::leaves::{Bolt, Edge, Leaves};
use crate::paper::{Length, Trims};

/// A bolt and what its knife does to it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct BoltCut {
    /// The bolt.
    pub bolt: Bolt,
    /// The least trim that opens it.
    pub needs: Length,
    /// The trim at its edge.
    pub trim: Length,
}

impl BoltCut {
    /// Whether the knife opens it. A trim of nothing is no cut.
    #[must_use]
    pub fn opened(&self) -> bool {
        self.trim > Length::ZERO && self.needs <= self.trim
    }
}

/// The edge of a leaf that a knife does not reach.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct EdgeCut {
    /// The leaf, counted from 1.
    pub leaf: u32,
    /// The edge.
    pub edge: Edge,
    /// How far it lies inside the cut.
    pub inside: Length,
}

/// A section after the three-knife trimmer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Trimmed {
    /// Every bolt, in the order of [`Leaves::bolts`].
    pub bolts: Vec<BoltCut>,
    /// Edges of leaves that the knives do not reach.
    pub missed: Vec<EdgeCut>,
    /// Leaves that no crease holds at the spine.
    pub loose: Vec<u32>,
    /// Of those, the leaves that hang on others by a bolt that stays closed.
    pub hanging: Vec<u32>,
}

impl Trimmed {
    /// The bolts that the knife at an edge opens.
    pub fn opened(&self, edge: Edge) -> impl Iterator<Item = &BoltCut> {
        self.bolts.iter().filter(move |b| b.bolt.edge == edge && b.opened())
    }

    /// The bolts at an edge that stay closed.
    pub fn closed(&self, edge: Edge) -> impl Iterator<Item = &BoltCut> {
        self.bolts.iter().filter(move |b| b.bolt.edge == edge && !b.opened())
    }
}

/// What is taken off at an edge.
#[must_use]
pub const fn trim_at(trims: &Trims, edge: Edge) -> Length {
    match edge {
        Edge::Head => trims.head,
        Edge::Tail => trims.foot,
        Edge::ForeEdge => trims.fore_edge,
    }
}

/// What the knives do to a section whose leaves are `caliper` thick.
///
/// A knife stands its trim inside the usual edge of the section ([`Leaves::usual`]). To open a bolt it has to pass
/// behind the whole fold: so far as the bolt lies within the usual edge, as the bolts around it press it inwards (round
/// folds, [`CreepModel::Round`], to be on the safe side), and one thickness for the fold itself. That creep at the spine
/// pushes an inner bolt of the fore-edge outwards, towards the knife, is not counted. Geometry; no source.
#[must_use]
pub fn trimmed(leaves: &Leaves, trims: &Trims, caliper: Length) -> Trimmed {
    let needs = |bolt: &Bolt| CreepModel::Round.creep(caliper, bolt.around) + caliper - bolt.stands_out;
    let bolts: Vec<BoltCut> =
        leaves.bolts.iter().map(|b| BoltCut { bolt: *b, needs: needs(b), trim: trim_at(trims, b.edge) }).collect();
    let mut missed = Vec::new();
    for leaf in &leaves.leaves {
        for edge in Edge::ALL.into_iter().filter(|e| trim_at(trims, *e) > Length::ZERO) {
            let inside = -(leaves.stands_out(leaf, edge) + trim_at(trims, edge));
            if inside > Length::ZERO {
                missed.push(EdgeCut { leaf: leaf.number, edge, inside });
            }
        }
    }
    let loose = leaves.loose();
    let left: Vec<u32> =
        bolts.iter().filter(|b| !b.opened()).flat_map(|b| [b.bolt.leaves.0, b.bolt.leaves.1]).collect();
    let hanging = loose.iter().copied().filter(|l| left.contains(l)).collect();
    Trimmed { bolts, missed, loose, hanging }
}
