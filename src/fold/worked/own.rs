//! A piece as a sheet of its own: a rectangle of the whole sheet, and the folds that it would need by itself.

use super::{Done, Piece};
use crate::fold::course::Course;
use crate::fold::folding::Folding;
use crate::fold::geometry::{Placement, Rect};
use crate::fold::packet::{Layer, Packet};
use crate::fold::scheme::{Crease, Fold, Part, Scheme};

/// A piece as a sheet of its own.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OwnSheet {
    /// The panels of the whole sheet that it is, columns and rows.
    pub area: Rect,
    /// How it is folded by itself. Its faces are those of the piece, moved by the corner of the area.
    pub scheme: Scheme,
    /// Folds of the scheme that were made before the last slit.
    pub before: usize,
    /// Whether the packet of the course lies mirrored left to right, and top to bottom, to that of the scheme after
    /// those folds.
    pub turned: (bool, bool),
}

impl OwnSheet {
    /// The folds after the last slit, as the course has them, for another scheme of this piece. `None` where that scheme
    /// does not begin with the folds made before the slit, or can't be folded.
    #[must_use]
    pub fn folds_after_slit(&self, scheme: &Scheme) -> Option<Vec<Fold>> {
        let before = self.scheme.folds.get(..self.before)?;
        let folding = Folding::of(scheme).ok().filter(|f| f.stopped.is_none())?;
        let rest = scheme.folds.strip_prefix(before)?;
        let as_in_course = |(i, fold): (usize, &Fold)| {
            let extent = folding.packet(self.before + i).extent();
            let (turned, size) = match fold.crease {
                Crease::Vertical => (self.turned.0, extent.width()),
                Crease::Horizontal => (self.turned.1, extent.height()),
            };
            let over = self.turned.0 != self.turned.1;
            Fold {
                crease: fold.crease,
                after: if turned { size.unsigned_abs().saturating_sub(fold.after) } else { fold.after },
                moves: if turned { fold.moves.other() } else { fold.moves },
                lands: if over { fold.lands.other() } else { fold.lands },
            }
        };
        Some(rest.iter().enumerate().map(as_in_course).collect())
    }
}

impl Piece {
    /// The folds of a rectangle of the sheet by itself, as they were done to it within the whole.
    ///
    /// A fold whose crease misses it either leaves it where it lies or turns it over as a whole. What follows is then
    /// seen from its other side: every place below is that of the packet in the whole sheet, and `turned` says how
    /// the packet that is folded alone lies to it.
    ///
    /// `None` where the spine is no crease of the piece: the last fold of the whole then missed it.
    pub(super) fn by_itself(&self, area: Rect, course: &Course) -> Option<OwnSheet> {
        let mut packet = Packet::of(vec![Layer { area, placement: Placement::FLAT }]);
        let (mut turned_x, mut turned_y) = (false, false);
        let (mut folds, mut before) = (Vec::new(), 0);
        for (i, done) in self.done.iter().enumerate() {
            if i + self.own == self.done.len() {
                before = folds.len();
            }
            let Done::Folded { moves, at, lands } = *done else { continue };
            let extent = packet.extent();
            let vertical = moves.crease() == Crease::Vertical;
            let (low, high) = if vertical { (extent.x0, extent.x1) } else { (extent.y0, extent.y1) };
            let moves_low = matches!(moves, Part::Left | Part::Top);
            if low < at && at < high {
                let fold = Fold::new(at.abs_diff(low), moves, lands);
                let turned = if vertical { turned_x } else { turned_y };
                let after = if turned { high.abs_diff(at) } else { at.abs_diff(low) };
                let over = turned_x != turned_y;
                let lands = if over { lands.other() } else { lands };
                folds.push(Fold::new(after, if turned { moves.other() } else { moves }, lands));
                if let Some((after, _)) = packet.fold(&fold) {
                    packet = after;
                }
            } else if (at >= high) == moves_low {
                packet = packet.mirrored(moves.crease(), at);
                if vertical {
                    turned_x = !turned_x;
                } else {
                    turned_y = !turned_y;
                }
            }
        }
        if self.own == 0 {
            before = folds.len();
        }
        let is_section = !self.section.faces.is_empty();
        let spine = folds.last().map(|fold: &Fold| fold.moves.direction().mirrored(turned_x, turned_y));
        if is_section && spine.is_some_and(|spine| spine != self.section.spine) {
            return None;
        }
        let scheme = Scheme {
            rows: area.height().unsigned_abs(),
            columns: area.width().unsigned_abs(),
            folds,
            head: self.section.head.mirrored(turned_x, turned_y),
            reads: course.reads,
        };
        Some(OwnSheet { area, scheme, before, turned: (turned_x, turned_y) })
    }
}
