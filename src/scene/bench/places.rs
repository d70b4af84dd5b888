//! Where the layers lie, in drawn units: the whole-numbered packets with the sizes of their panels put in.
//!
//! Panels of one column are as wide as each other, whatever the sheet, and a fold mirrors all layers about one line; so a
//! layer's place is that of its sheet, mirrored as its placement says, and moved by what the lines of the folds add up to.

use super::Bench;
use crate::fold::{Crease, Folding, Layer, Packet, Turn};
use crate::scene::pose::{At, Sheet};
use crate::scene::printing::Printing;
use kurbo::Rect;

/// The places of the layers of every packet of a folding, and the lines of its creases.
#[derive(Clone, Debug, Default)]
pub(super) struct Places {
    flat: Vec<At>,
    steps: Vec<(f64, Vec<At>)>,
}

impl Places {
    /// Follows a folding from the places of its first packet on.
    pub(super) fn of(folding: &Folding, flat: Vec<At>, printing: &Printing) -> Self {
        let mut places = Self { flat, steps: Vec::with_capacity(folding.steps.len()) };
        for (made, step) in folding.steps.iter().enumerate() {
            let before = places.packet(made);
            let line = crease_line(folding.packet(made), before, printing, step.turn.fold.crease, step.turn.at);
            let after = (0..step.after.layers.len()).map(|i| turned(&step.turn, i, before, line)).collect();
            places.steps.push((line, after));
        }
        places
    }

    /// The places of the layers after so many folds.
    pub(super) fn packet(&self, made: usize) -> &[At] {
        match made.min(self.steps.len()).checked_sub(1).and_then(|i| self.steps.get(i)) {
            Some((_, places)) => places,
            None => &self.flat,
        }
    }

    /// The places at the end.
    pub(super) fn last(&self) -> &[At] {
        self.packet(self.steps.len())
    }

    /// The line of the crease of fold `step`, from 0.
    pub(super) fn crease(&self, step: usize) -> f64 {
        self.steps.get(step).map_or(0.0, |s| s.0)
    }
}

/// The rectangle that a layer covers.
pub(super) fn rect(layer: &Layer, at: At, printing: &Printing) -> Rect {
    let line = |v: i32| v.unsigned_abs();
    let (x0, x1) = (printing.line_x(line(layer.area.x0)), printing.line_x(line(layer.area.x1)));
    let (y0, y1) = (printing.line_y(line(layer.area.y0)), printing.line_y(line(layer.area.y1)));
    let ends = |mirrored: bool, low: f64, high: f64| if mirrored { (-high, -low) } else { (low, high) };
    let ((x0, x1), (y0, y1)) = (ends(layer.placement.mirror_x, x0, x1), ends(layer.placement.mirror_y, y0, y1));
    Rect::new(x0 + at.dx, y0 + at.dy, x1 + at.dx, y1 + at.dy)
}

/// Where the line between two panels of a packet runs: as the lowest layer has it that it goes through. (Where panels don't
/// fit each other the others' lines lie elsewhere, and the misfit is told.)
pub(super) fn crease_line(packet: &Packet, places: &[At], printing: &Printing, crease: Crease, at: i32) -> f64 {
    let vertical = crease == Crease::Vertical;
    let spans = |layer: &Layer| {
        let r = layer.footprint();
        if vertical { r.x0 < at && at < r.x1 } else { r.y0 < at && at < r.y1 }
    };
    let through = packet.layers.iter().zip(places).find(|(layer, _)| spans(layer));
    through.map_or(0.0, |(layer, place)| {
        let (x, y) = layer.placement.sheet_from_packet(at, at);
        let signed = |mirrored: bool, v: f64| if mirrored { -v } else { v };
        if vertical {
            signed(layer.placement.mirror_x, printing.line_x(x.unsigned_abs())) + place.dx
        } else {
            signed(layer.placement.mirror_y, printing.line_y(y.unsigned_abs())) + place.dy
        }
    })
}

fn turned(turn: &Turn, i: usize, before: &[At], line: f64) -> At {
    let at = turn.parents.get(i).and_then(|p| before.get(*p as usize)).copied().unwrap_or_default();
    match turn.fold.crease {
        _ if !turn.moved(i) => at,
        Crease::Vertical => At { dx: 2.0 * line - at.dx, ..at },
        Crease::Horizontal => At { dy: 2.0 * line - at.dy, ..at },
    }
}

impl Bench {
    /// What the packet covers after so many folds.
    pub(super) fn span(&self, made: usize) -> Rect {
        let layers = self.folding.packet(made).layers.iter().zip(self.places.packet(made));
        layers.map(|(l, at)| rect(l, *at, &self.printing)).reduce(|a, b| a.union(b)).unwrap_or(Rect::ZERO)
    }

    /// Where a line between two panels of the packet runs after so many folds.
    pub(super) fn line_in(&self, made: usize, crease: Crease, at: i32) -> f64 {
        crease_line(self.folding.packet(made), self.places.packet(made), &self.printing, crease, at)
    }

    /// Layer `i` after fold `step`, as it lay before.
    pub(super) fn before_fold(&self, step: usize, i: usize) -> Option<Sheet> {
        let made = self.folding.steps.get(step)?;
        let layer = made.after.layers.get(i)?;
        let parent = *made.turn.parents.get(i)? as usize;
        let at = *self.places.packet(step).get(parent)?;
        Some(Sheet::Layer(if made.turn.moved(i) { layer.flat_again(&made.turn) } else { *layer }, at))
    }

    /// The size of an upright page: the largest of its leaves.
    pub(super) fn page_size(&self) -> (f64, f64) {
        let Some(section) = &self.section else { return self.printing.panel() };
        let leaves = section.faces.iter().step_by(2).map(|found| {
            let (w, h) = self.printing.size(&found.face);
            if found.head.is_sideways() { (h, w) } else { (w, h) }
        });
        leaves.reduce(|a, b| (a.0.max(b.0), a.1.max(b.1))).unwrap_or_else(|| self.printing.panel())
    }

    /// Whether all panels are alike.
    pub(super) fn is_even(&self) -> bool {
        let even = |n: u32, line: &dyn Fn(u32) -> f64| {
            let first = line(1) - line(0);
            (1..n).all(|i| (line(i + 1) - line(i) - first).abs() < 0.01)
        };
        even(self.printing.columns, &|i| self.printing.line_x(i))
            && even(self.printing.rows, &|i| self.printing.line_y(i))
    }
}
