//! The packet: layers with exact places, bottom to top. A fold turns one part of it over; unfolding turns it back.

use super::geometry::{Face, Placement, Rect, Side};
use super::scheme::{Crease, Fold, Lands, Part};

/// One rectangle of the sheet, lying flat in the packet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Layer {
    /// The rectangle, on the sheet seen from side A.
    pub area: Rect,
    /// Where it lies.
    pub placement: Placement,
}

impl Layer {
    /// The rectangle it covers in the packet.
    #[must_use]
    pub fn footprint(&self) -> Rect {
        self.placement.rect_in_packet(&self.area)
    }

    /// The face that is up at the packet's panel `(x, y)`, which must lie in the footprint.
    #[must_use]
    pub fn face_up(&self, x: i32, y: i32) -> Face {
        // A mirrored panel begins on the sheet where it ends in the packet.
        let (x, y) = (x + i32::from(self.placement.mirror_x), y + i32::from(self.placement.mirror_y));
        let (column, row) = self.placement.sheet_from_packet(x, y);
        Face { side: self.placement.side_up(), row: row.unsigned_abs(), column: column.unsigned_abs() }
    }

    /// The face that is down at the packet's panel `(x, y)`, which must lie in the footprint.
    #[must_use]
    pub fn face_down(&self, x: i32, y: i32) -> Face {
        self.face_up(x, y).back()
    }

    /// What of it lies on one side of a crease or a slit, if anything does.
    pub(super) fn beside(&self, part: Part, at: i32) -> Option<Self> {
        let first = matches!(part, Part::Left | Part::Top);
        // Mirrored, what lies left in the packet is right on the sheet.
        let cut = |at: i32, mirrored: bool, low: i32, high: i32| {
            if first == mirrored { (at.max(low), high) } else { (low, at.min(high)) }
        };
        let (x, y) = self.placement.sheet_from_packet(at, at);
        let Rect { x0, y0, x1, y1 } = self.area;
        let area = match part.crease() {
            Crease::Vertical => {
                let (x0, x1) = cut(x, self.placement.mirror_x, x0, x1);
                Rect { x0, y0, x1, y1 }
            }
            Crease::Horizontal => {
                let (y0, y1) = cut(y, self.placement.mirror_y, y0, y1);
                Rect { x0, y0, x1, y1 }
            }
        };
        (area.width() > 0 && area.height() > 0).then_some(Self { area, ..*self })
    }

    /// The place of a layer that moved in `turn`, as it lay before it moved.
    #[must_use]
    pub fn flat_again(&self, turn: &Turn) -> Self {
        self.turned_about(turn.fold.crease, turn.at)
    }

    fn turned_about(&self, crease: Crease, at: i32) -> Self {
        let placement = match crease {
            Crease::Vertical => self.placement.mirrored_about_x(at),
            Crease::Horizontal => self.placement.mirrored_about_y(at),
        };
        Self { placement, ..*self }
    }
}

/// A folded (or flat) sheet on the bench.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Packet {
    /// Layers from the bottom to the top.
    pub layers: Vec<Layer>,
    /// What they cover together.
    extent: Rect,
}

/// What a fold did to the layers: enough to undo it, and to draw it half done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Turn {
    /// The fold as it was asked for.
    pub fold: Fold,
    /// The line of the crease in the packet: `x` of a vertical one, `y` of a horizontal one.
    pub at: i32,
    /// For each layer after the fold, the number (from 0) of the layer before it that it is a part of.
    pub parents: Vec<u32>,
    /// How many of the layers after the fold are those that stayed. They come first in the list when the fold lands
    /// over, last when it lands under.
    pub stayed: usize,
}

impl Turn {
    /// Whether layer `i` after the fold is one that moved.
    #[must_use]
    pub fn moved(&self, i: usize) -> bool {
        match self.fold.lands {
            Lands::Over => i >= self.stayed,
            Lands::Under => i < self.parents.len() - self.stayed,
        }
    }
}

impl Packet {
    /// The flat sheet, side A up.
    #[must_use]
    pub fn flat(rows: u32, columns: u32) -> Self {
        let area = Rect { x0: 0, y0: 0, x1: columns.cast_signed(), y1: rows.cast_signed() };
        Self::of(vec![Layer { area, placement: Placement::FLAT }])
    }

    /// A packet of layers, from the bottom to the top.
    #[must_use]
    pub fn from_layers(layers: Vec<Layer>) -> Self {
        Self::of(layers)
    }

    pub(super) fn of(layers: Vec<Layer>) -> Self {
        let mut covered = layers.iter().map(Layer::footprint);
        let first = covered.next().unwrap_or(Rect { x0: 0, y0: 0, x1: 0, y1: 0 });
        let extent = covered.fold(first, |all, r| all.union(&r));
        Self { layers, extent }
    }

    /// The rectangle that the packet covers on the bench.
    #[must_use]
    pub const fn extent(&self) -> Rect {
        self.extent
    }

    /// Makes a fold. `None` when the crease lies outside the packet or the part does not lie beside it.
    ///
    /// Work and memory grow with the number of layers, which at most doubles.
    #[must_use]
    pub fn fold(&self, fold: &Fold) -> Option<(Self, Turn)> {
        let (at, extent) = self.crease_of(fold)?;
        let most = 2 * self.layers.len();
        let (mut layers, mut parents) = (Vec::with_capacity(most), Vec::with_capacity(most));
        let stayed = fold_layers(&self.layers, fold, at, |layer, parent| {
            layers.push(layer);
            parents.push(parent as u32);
        });
        Some((Self { layers, extent }, Turn { fold: *fold, at, parents, stayed }))
    }

    /// Makes a fold like [`Packet::fold`] in place of this packet, without an account of it. What `spare` holds is lost;
    /// it is room for the layers that the next fold can use again. Returns the line of the crease; `None` leaves everything
    /// as it was.
    pub(super) fn fold_in_place(&mut self, fold: &Fold, spare: &mut Vec<Layer>) -> Option<i32> {
        let (at, extent) = self.crease_of(fold)?;
        spare.clear();
        fold_layers(&self.layers, fold, at, |layer, _| spare.push(layer));
        std::mem::swap(&mut self.layers, spare);
        self.extent = extent;
        Some(at)
    }

    /// The line of the crease of a fold, and what the packet covers after it, if the fold can be made.
    fn crease_of(&self, fold: &Fold) -> Option<(i32, Rect)> {
        let mut extent = self.extent;
        let (start, end) = match fold.crease {
            Crease::Vertical => (&mut extent.x0, &mut extent.x1),
            Crease::Horizontal => (&mut extent.y0, &mut extent.y1),
        };
        let after = i32::try_from(fold.after).ok()?;
        if after == 0 || after >= *end - *start || fold.moves.crease() != fold.crease {
            return None;
        }
        let at = *start + after;
        // The part that moves comes to lie on the other side of the crease, as far from it as it lay.
        (*start, *end) = match fold.moves {
            Part::Left | Part::Top => (at, (2 * at - *start).max(*end)),
            Part::Right | Part::Bottom => ((2 * at - *end).min(*start), at),
        };
        Some((at, extent))
    }

    /// Undoes a fold: the packet as it was before `turn` made this one.
    #[must_use]
    pub fn unfold(&self, turn: &Turn) -> Self {
        let count = turn.parents.iter().max().map_or(0, |&p| p as usize + 1);
        let mut before: Vec<Option<Layer>> = vec![None; count];
        for (i, (layer, &parent)) in self.layers.iter().zip(&turn.parents).enumerate() {
            let back = if turn.moved(i) { layer.flat_again(turn) } else { *layer };
            if let Some(slot) = before.get_mut(parent as usize) {
                *slot = Some(match slot {
                    Some(part) => Layer { area: part.area.union(&back.area), ..back },
                    None => back,
                });
            }
        }
        Self::of(before.into_iter().flatten().collect())
    }

    /// The two parts of a packet that is slit `after` so many panels from its left or top edge, and the line of the slit:
    /// what lies left of it or above it, and the rest. `None` when the slit lies outside the packet.
    #[must_use]
    pub fn slit(&self, crease: Crease, after: u32) -> Option<(i32, [Self; 2])> {
        let (moves, rest) = match crease {
            Crease::Vertical => (Part::Left, Part::Right),
            Crease::Horizontal => (Part::Top, Part::Bottom),
        };
        let (at, _) = self.crease_of(&Fold::new(after, moves, Lands::Over))?;
        let part = |part: Part| Self::of(self.layers.iter().filter_map(|l| l.beside(part, at)).collect());
        Some((at, [part(moves), part(rest)]))
    }

    /// The packet slid on the bench.
    #[must_use]
    pub fn slid(&self, dx: i32, dy: i32) -> Self {
        let slid = |l: &Layer| {
            let placement = Placement { dx: l.placement.dx + dx, dy: l.placement.dy + dy, ..l.placement };
            Layer { placement, ..*l }
        };
        Self::of(self.layers.iter().map(slid).collect())
    }

    /// The packet turned over left to right, as a whole.
    #[must_use]
    pub fn turned_over(&self) -> Self {
        self.mirrored(Crease::Vertical, 0)
    }

    /// The packet turned over as a whole about a line.
    #[must_use]
    pub fn mirrored(&self, crease: Crease, at: i32) -> Self {
        Self::of(self.layers.iter().rev().map(|l| l.turned_about(crease, at)).collect())
    }

    /// The faces that can be seen from above, one for each panel of the extent, row by row; `None` where no layer lies.
    #[must_use]
    pub fn uppermost(&self) -> Vec<Vec<Option<Face>>> {
        self.seen(self.layers.iter().rev(), Layer::face_up)
    }

    /// The faces that can be seen from beneath, in the same order of places as [`Packet::uppermost`].
    #[must_use]
    pub fn undermost(&self) -> Vec<Vec<Option<Face>>> {
        self.seen(self.layers.iter(), Layer::face_down)
    }

    fn seen<'a>(
        &self,
        nearest_first: impl Iterator<Item = &'a Layer>,
        face: impl Fn(&Layer, i32, i32) -> Face,
    ) -> Vec<Vec<Option<Face>>> {
        let extent = self.extent();
        let mut grid =
            vec![vec![None; extent.width().unsigned_abs() as usize]; extent.height().unsigned_abs() as usize];
        for layer in nearest_first {
            for (x, y) in layer.footprint().cells() {
                let (r, c) = ((y - extent.y0).unsigned_abs() as usize, (x - extent.x0).unsigned_abs() as usize);
                if let Some(slot) = grid.get_mut(r).and_then(|row| row.get_mut(c)) {
                    slot.get_or_insert_with(|| face(layer, x, y));
                }
            }
        }
        grid
    }

    /// All faces at the panel `(x, y)` of the packet, from the top down: up face and down face of each layer there.
    #[must_use]
    pub fn faces_at(&self, x: i32, y: i32) -> Vec<Face> {
        let there = self.layers.iter().rev().filter(|l| l.footprint().holds(x, y));
        there.flat_map(|l| [l.face_up(x, y), l.face_down(x, y)]).collect()
    }

    /// Whether side `side` of the sheet is uppermost anywhere.
    #[must_use]
    pub fn shows(&self, side: Side) -> bool {
        self.uppermost().iter().flatten().flatten().any(|f| f.side == side)
    }
}

/// Gives `lay` the layers after a fold from the bottom to the top, each with the number of the layer that it is a part
/// of, and returns how many of them stayed.
fn fold_layers(layers: &[Layer], fold: &Fold, at: i32, mut lay: impl FnMut(Layer, usize)) -> usize {
    let mut stayed = 0;
    // What stays lies as it lay; what moves is turned over, the lowest uppermost.
    for stays in [fold.lands == Lands::Over, fold.lands == Lands::Under] {
        if stays {
            for (i, layer) in layers.iter().enumerate() {
                if let Some(part) = layer.beside(fold.moves.other(), at) {
                    lay(part, i);
                    stayed += 1;
                }
            }
        } else {
            for (i, layer) in layers.iter().enumerate().rev() {
                if let Some(part) = layer.beside(fold.moves, at) {
                    lay(part.turned_about(fold.crease, at), i);
                }
            }
        }
    }
    stayed
}
