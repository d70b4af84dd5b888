//! Sizes: of the leaf, of the page after the cut, and of leaves that differ.

use super::leaves::{Leaf, Leaves};
use crate::fold::{Lip, Measure, Measured, Worked, whole_span};
use crate::paper::{Length, Trims};

/// A size, the side at right angles to the spine first.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Size {
    /// From the spine to the fore-edge.
    pub width: Length,
    /// From head to tail.
    pub height: Length,
}

/// A half of the section that stands out at the fore-edge, by which a machine takes hold of it.
///
/// Aim for 3/8 in (9.5 mm); 1/4 to 5/8 in (6.4 to 15.9 mm) will do (bindagraphics.com, "Saddle stitching";
/// alliedbindery.com).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LipFound {
    /// The longer half.
    pub lip: Lip,
    /// By how much.
    pub by: Length,
}

impl LipFound {
    /// 3/8 in.
    pub const AIM: Length = Length::from_nm(9_525_000);
    /// 1/4 in.
    pub const LEAST: Length = Length::from_nm(6_350_000);
    /// 5/8 in.
    pub const MOST: Length = Length::from_nm(15_875_000);
}

/// A leaf of another size than most.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Uneven {
    /// The leaf, counted from 1.
    pub leaf: u32,
    /// How much wider it is; negative: narrower.
    pub wider: Length,
    /// How much higher it is; negative: lower.
    pub higher: Length,
}

/// The sizes of a section.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sizes {
    /// Most leaves, before the cut.
    pub leaf: Size,
    /// The page after it.
    pub page: Size,
    /// Leaves of another size.
    pub uneven: Vec<Uneven>,
    /// The half that stands out, if one does.
    pub lip: Option<LipFound>,
}

/// Leaves that differ by less are taken as equal: what is left over in dividing a sheet is a few nanometres.
const ALIKE: Length = Length::from_um(1);

/// The sizes of a section and its page. A trim is taken off the leaf that most are like ([`Leaves::usual`]).
#[must_use]
pub fn sizes(leaves: &Leaves, trims: &Trims) -> Sizes {
    let usual = leaves.usual;
    let leaf = Size { width: usual.fore_edge - usual.spine, height: usual.tail - usual.head };
    let page = Size { width: leaf.width - trims.fore_edge, height: leaf.height - trims.head - trims.foot };
    let uneven = |l: &Leaf| {
        let (wider, higher) = (l.width() - leaf.width, l.height() - leaf.height);
        let differs = wider.abs() > ALIKE || higher.abs() > ALIKE;
        differs.then_some(Uneven { leaf: l.number, wider, higher })
    };
    let uneven = leaves.leaves.iter().filter_map(uneven).collect();
    Sizes { leaf, page, uneven, lip: lip(&leaves.leaves) }
}

fn lip(leaves: &[Leaf]) -> Option<LipFound> {
    let (front, back) = leaves.split_at(leaves.len() / 2);
    let least = |half: &[Leaf]| half.iter().map(|l| l.lies.fore_edge).min();
    let most = |half: &[Leaf]| half.iter().map(|l| l.lies.fore_edge).max();
    let longer = |long: &[Leaf], short: &[Leaf]| Some(least(long)? - most(short)?).filter(|by| *by > ALIKE);
    let front_by = longer(front, back).map(|by| LipFound { lip: Lip::LowFolio, by });
    front_by.or_else(|| longer(back, front).map(|by| LipFound { lip: Lip::HighFolio, by }))
}

/// How large a piece is as it lies after its last fold, from left to right and from top to bottom: that of a page, or
/// more in a course that is still being made.
#[must_use]
pub fn piece_size(worked: &Worked, piece: usize, measure: &Measure) -> Option<Size> {
    let layers = &worked.pieces.get(piece)?.packet.layers;
    let measured = Measured::of(&worked.trunk, measure);
    let places = super::leaves::places_of(&worked.trunk, &measured, piece)?;
    let whole = whole_span(layers, &places, measure)?;
    Some(Size { width: whole.width(), height: whole.height() })
}
