//! The packet cut through, as layers in order: which page lies on which, and which layers are one piece of paper.
//!
//! A cut along a row is seen from the lower edge of the packet as it lies, its left at the left. A cut along a column is
//! seen from the right edge, as if the packet had first been turned a quarter clockwise: its lower edge is at the left.
//! Either way *away* is the side that the eye looks towards.

use super::bench::Bench;
use crate::fold::{Crease, Direction, Face, Layer, Rect};

/// One layer where the cut goes through it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct InsideLayer {
    /// The layer of the packet, counted from 0 at the bottom.
    pub layer: usize,
    /// Panels between the left end of the packet and that of the layer, as the cut shows them.
    pub from: u32,
    /// The faces on its upper side, from left to right.
    pub upper: Vec<Face>,
    /// The faces on its lower side, from left to right.
    pub lower: Vec<Face>,
    /// The row, counted from 0 at the top, that it hangs together with at its left end.
    pub joined_left: Option<usize>,
    /// The same at its right end.
    pub joined_right: Option<usize>,
    /// Whether its left end was closed before the bolts were slit.
    pub slit_left: bool,
    /// The same at its right end.
    pub slit_right: bool,
}

impl InsideLayer {
    /// Panels that the cut goes through.
    #[must_use]
    pub const fn panels(&self) -> u32 {
        self.upper.len() as u32
    }
}

/// The layers that a cut goes through, from the top down.
///
/// `step` counts the folds that are down. `slit` says whether the bolts are slit, which only a finished section's can
/// be. `index` counts the rows (columns) of the packet as it then lies, from the top (left); one beyond the last is
/// the last.
#[must_use]
pub fn inside_rows(bench: &Bench, step: usize, slit: bool, along: Crease, index: u32) -> Vec<InsideLayer> {
    let packet = bench.folding.packet(step);
    let cut = Cut::of(&packet.extent(), along, index);
    let slit = slit && bench.section.is_some() && step >= bench.folding.steps.len();
    let all = bench.joins(&packet.layers);
    let mut there: Vec<usize> = (0..packet.layers.len()).collect();
    there.retain(|i| packet.layers.get(*i).is_some_and(|l| cut.goes_through(&l.footprint())));
    there.reverse();
    let row_of = |layer: usize| there.iter().position(|i| *i == layer);
    let end = |i: usize, edge: Direction| {
        let join = all.iter().find(|j| j.edge == edge && (j.low == i || j.high == i));
        let other = join.and_then(|j| row_of(if j.low == i { j.high } else { j.low }));
        if other.is_some() && slit && bench.slits().contains(&edge) { (None, true) } else { (other, false) }
    };
    let row = |i: &usize| {
        let layer = packet.layers.get(*i)?;
        let cells = cut.cells(&layer.footprint());
        let ((joined_left, slit_left), (joined_right, slit_right)) =
            (end(*i, cut.left()), end(*i, cut.left().opposite()));
        Some(InsideLayer {
            layer: *i,
            from: cut.from(&layer.footprint()),
            upper: cells.iter().map(|(x, y)| layer.face_up(*x, *y)).collect(),
            lower: cells.iter().map(|(x, y)| layer.face_down(*x, *y)).collect(),
            joined_left,
            joined_right,
            slit_left,
            slit_right,
        })
    };
    there.iter().filter_map(row).collect()
}

/// How many rows (columns) of the packet there are to be cut along after `step` folds.
#[must_use]
pub fn inside_count(bench: &Bench, step: usize, along: Crease) -> u32 {
    let extent = bench.folding.packet(step).extent();
    if along == Crease::Horizontal { extent.height() } else { extent.width() }.unsigned_abs()
}

/// A cut through a packet.
#[derive(Clone, Copy, Debug)]
pub(super) struct Cut {
    along: Crease,
    /// The row or column of panels, in the packet's own count.
    at: i32,
    extent: Rect,
}

impl Cut {
    pub(super) fn of(extent: &Rect, along: Crease, index: u32) -> Self {
        let (start, end) = match along {
            Crease::Horizontal => (extent.y0, extent.y1),
            Crease::Vertical => (extent.x0, extent.x1),
        };
        let at = i32::try_from(index).ok().and_then(|i| start.checked_add(i)).unwrap_or(end).min(end - 1);
        Self { along, at, extent: *extent }
    }

    /// Panels from the left end of the packet to the right one.
    pub(super) const fn panels(&self) -> u32 {
        match self.along {
            Crease::Horizontal => self.extent.width(),
            Crease::Vertical => self.extent.height(),
        }
        .unsigned_abs()
    }

    fn goes_through(&self, r: &Rect) -> bool {
        match self.along {
            Crease::Horizontal => (r.y0..r.y1).contains(&self.at),
            Crease::Vertical => (r.x0..r.x1).contains(&self.at),
        }
    }

    fn from(&self, r: &Rect) -> u32 {
        match self.along {
            Crease::Horizontal => r.x0 - self.extent.x0,
            Crease::Vertical => self.extent.y1 - r.y1,
        }
        .unsigned_abs()
    }

    /// The panels of a layer that the cut goes through, from left to right.
    fn cells(&self, r: &Rect) -> Vec<(i32, i32)> {
        match self.along {
            Crease::Horizontal => (r.x0..r.x1).map(|x| (x, self.at)).collect(),
            Crease::Vertical => (r.y0..r.y1).rev().map(|y| (self.at, y)).collect(),
        }
    }

    /// The edge of the packet that is at the left of the picture.
    const fn left(&self) -> Direction {
        match self.along {
            Crease::Horizontal => Direction::Left,
            Crease::Vertical => Direction::Down,
        }
    }

    /// A direction in the packet as the picture shows it: away from the eye is up.
    pub(super) const fn seen(&self, d: Direction) -> Direction {
        match self.along {
            Crease::Horizontal => d,
            Crease::Vertical => d.clockwise(),
        }
    }

    /// A direction given in a face's own view, as the picture shows it once the face lies in a layer.
    pub(super) const fn of_face(&self, layer: &Layer, face: &Face, own: Direction) -> Direction {
        self.seen(super::uppermost::in_packet(layer, face, own))
    }
}
