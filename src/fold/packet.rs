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
        let on_sheet = self.placement.rect_on_sheet(&Rect { x0: x, y0: y, x1: x + 1, y1: y + 1 });
        Face { side: self.placement.side_up(), row: on_sheet.y0.unsigned_abs(), column: on_sheet.x0.unsigned_abs() }
    }

    /// The face that is down at the packet's panel `(x, y)`, which must lie in the footprint.
    #[must_use]
    pub fn face_down(&self, x: i32, y: i32) -> Face {
        self.face_up(x, y).back()
    }

    /// The parts left of (above) and right of (below) a crease. One of them is `None` where the crease misses it.
    fn split(&self, crease: Crease, at: i32) -> (Option<Self>, Option<Self>) {
        let r = self.footprint();
        let (lo, hi) = match crease {
            Crease::Vertical => (r.x0, r.x1),
            Crease::Horizontal => (r.y0, r.y1),
        };
        if hi <= at {
            return (Some(*self), None);
        }
        if lo >= at {
            return (None, Some(*self));
        }
        let (before, after) = match crease {
            Crease::Vertical => (Rect { x1: at, ..r }, Rect { x0: at, ..r }),
            Crease::Horizontal => (Rect { y1: at, ..r }, Rect { y0: at, ..r }),
        };
        let part = |r: Rect| Some(Self { area: self.placement.rect_on_sheet(&r), ..*self });
        (part(before), part(after))
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
        Self { layers: vec![Layer { area, placement: Placement::FLAT }] }
    }

    /// The rectangle that the packet covers on the bench.
    #[must_use]
    pub fn extent(&self) -> Rect {
        let mut layers = self.layers.iter().map(Layer::footprint);
        let first = layers.next().unwrap_or(Rect { x0: 0, y0: 0, x1: 0, y1: 0 });
        layers.fold(first, |all, r| all.union(&r))
    }

    /// Makes a fold. `None` when the crease lies outside the packet or the part does not lie beside it.
    ///
    /// Work and memory grow with the number of layers, which at most doubles.
    #[must_use]
    pub fn fold(&self, fold: &Fold) -> Option<(Self, Turn)> {
        let extent = self.extent();
        let (start, size) = match fold.crease {
            Crease::Vertical => (extent.x0, extent.width()),
            Crease::Horizontal => (extent.y0, extent.height()),
        };
        let after = i32::try_from(fold.after).ok()?;
        if after == 0 || after >= size || fold.moves.crease() != fold.crease {
            return None;
        }
        let at = start + after;
        let mut stays = Vec::with_capacity(self.layers.len());
        let mut moves = Vec::with_capacity(self.layers.len());
        for (i, layer) in (0u32..).zip(&self.layers) {
            let (before, after) = layer.split(fold.crease, at);
            let (stay, go) = match fold.moves {
                Part::Left | Part::Top => (after, before),
                Part::Right | Part::Bottom => (before, after),
            };
            stays.extend(stay.map(|l| (l, i)));
            moves.extend(go.map(|l| (l.turned_about(fold.crease, at), i)));
        }
        moves.reverse();
        let stayed = stays.len();
        let all = match fold.lands {
            Lands::Over => [stays, moves],
            Lands::Under => [moves, stays],
        };
        let (layers, parents) = all.into_iter().flatten().unzip();
        Some((Self { layers }, Turn { fold: *fold, at, parents, stayed }))
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
        Self { layers: before.into_iter().flatten().collect() }
    }

    /// The packet turned over left to right, as a whole.
    #[must_use]
    pub fn turned_over(&self) -> Self {
        Self { layers: self.layers.iter().rev().map(|l| l.turned_about(Crease::Vertical, 0)).collect() }
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
