//! A finished packet read as a section: which faces follow each other from front to back.

use super::error::FoldError;
use super::folding::{Folding, end_of};
use super::geometry::{Direction, Face, Rect, Side};
use super::packet::{Layer, Packet};
use super::scheme::{Fold, Part, Reads, Scheme};

/// A face as it is found in the section.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FoundFace {
    /// The face.
    pub face: Face,
    /// The way that the head of the section points on the flat sheet, in the view of the face's own side.
    pub head: Direction,
    /// The way to the spine on the flat sheet, in the view of the face's own side.
    pub spine: Direction,
}

/// A finished packet as its reader holds it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Section {
    /// Rows of the sheet.
    pub rows: u32,
    /// Columns of the sheet.
    pub columns: u32,
    /// The faces from front to back. Two that follow each other, 2k and 2k + 1 counted from 0, are one leaf.
    pub faces: Vec<FoundFace>,
    /// Whether the crease at the spine holds leaf k (counted from 0).
    pub held: Vec<bool>,
    /// The edge of the packet, as it lies on the bench, where the spine is.
    pub spine: Direction,
    /// The edge of the packet, as it lies on the bench, where the head is.
    pub head: Direction,
    /// Whether the front is up as the packet lies.
    pub front_up: bool,
}

/// What else has to be known to read a packet.
pub(super) struct Ends {
    /// The part that moved in the last fold, if there was one.
    pub(super) last: Option<Part>,
    /// The edge of the packet that the heads point to.
    pub(super) head: Direction,
    /// The reading direction.
    pub(super) reads: Reads,
}

impl Section {
    /// Reads a finished folding.
    ///
    /// The spine is the last crease. The front is the face that has the spine at the reader's left (or right, as
    /// `reads` says) when the head points up.
    ///
    /// # Errors
    /// When the folding stopped early, has no fold, is not down to one panel, or the head lies at spine or fore-edge.
    pub fn of(scheme: &Scheme, folding: &Folding) -> Result<Self, FoldError> {
        if let Some(why) = &folding.stopped {
            return Err(why.clone());
        }
        let last = folding.steps.last().map(|step| &step.turn.fold);
        Self::read(scheme, folding.last(), last, [folding.rows, folding.columns])
    }

    /// Folds a scheme and reads the section, for a caller who does not want the way to it.
    ///
    /// # Errors
    /// When the sheet has no panel or too many, and as [`Section::of`].
    pub(super) fn of_scheme(scheme: &Scheme) -> Result<Self, FoldError> {
        Self::read(scheme, &end_of(scheme)?, scheme.folds.last(), [scheme.rows, scheme.columns])
    }

    fn read(
        scheme: &Scheme,
        packet: &Packet,
        last: Option<&Fold>,
        [rows, columns]: [u32; 2],
    ) -> Result<Self, FoldError> {
        let Some(last) = last else { return Err(FoldError::NoFold) };
        let sheet = Rect { x0: 0, y0: 0, x1: columns.cast_signed(), y1: rows.cast_signed() };
        let ends = Ends { last: Some(last.moves), head: scheme.head, reads: scheme.reads };
        Self::read_packet(packet, &ends, [rows, columns], |_, (x, y)| sheet.holds(x, y))
    }

    /// Reads a finished packet of a sheet of `rows` and `columns`. `holds` says whether one of its panels and one
    /// beside it on the sheet, each given as column and row, are one paper.
    ///
    /// A single panel without a crease is a leaf that lies before its reader as it lies on the bench.
    pub(super) fn read_packet(
        packet: &Packet,
        ends: &Ends,
        [rows, columns]: [u32; 2],
        holds: impl Fn((i32, i32), (i32, i32)) -> bool,
    ) -> Result<Self, FoldError> {
        let extent = packet.extent();
        if extent.width() != 1 || extent.height() != 1 {
            let (rows, columns) = (extent.height().unsigned_abs(), extent.width().unsigned_abs());
            return Err(FoldError::Unfinished { rows, columns });
        }
        let Ends { last, head, reads } = *ends;
        // The moving part came from this side of the crease, so the crease is now that edge of the packet.
        let spine = match (last, reads) {
            (Some(moves), _) => moves.direction(),
            (None, Reads::LeftToRight) => head.clockwise().opposite(),
            (None, Reads::RightToLeft) => head.clockwise(),
        };
        if head.is_sideways() == spine.is_sideways() {
            return Err(FoldError::HeadOnSpine { vertical: spine.is_sideways() });
        }
        let spine_at_left_from_above = spine.clockwise() == head;
        let front_up = spine_at_left_from_above == (reads == Reads::LeftToRight);

        let mut faces = Vec::with_capacity(2 * packet.layers.len());
        let mut held = Vec::with_capacity(packet.layers.len());
        let leaf = |layer: &Layer| {
            let up = layer.face_up(extent.x0, extent.y0);
            let (head, spine) = (layer.placement.direction(head), layer.placement.direction(spine));
            let found = |side: Side| {
                let seen = |d: Direction| if side == Side::A { d } else { d.turned_over() };
                FoundFace { face: Face { side, ..up }, head: seen(head), spine: seen(spine) }
            };
            let front = if front_up { up.side } else { up.side.other() };
            faces.extend([found(front), found(front.other())]);
            let (dx, dy) = spine.step();
            let (x, y) = (up.column.cast_signed(), up.row.cast_signed());
            held.push(holds((x, y), (x + dx, y + dy)));
        };
        if front_up {
            packet.layers.iter().rev().for_each(leaf);
        } else {
            packet.layers.iter().for_each(leaf);
        }
        Ok(Self { rows, columns, faces, held, spine, head, front_up })
    }
}
