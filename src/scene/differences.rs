//! Two benches compared: the same sheet folded, or printed, in two ways.

use super::bench::Bench;
use super::uppermost::{from_upright, in_packet};
use crate::fold::{Direction, Face};

/// Faces of two benches that differ.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Differences {
    /// Those of the first bench.
    pub first: Vec<Face>,
    /// Those of the second one.
    pub second: Vec<Face>,
}

/// A place in two finished sections where different pages are read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ReadsOtherwise {
    /// The place, counted from 1: where page 1, 2, … of a right section is.
    pub place: u32,
    /// The face that is there in the first section, if that goes so far.
    pub first: Option<Face>,
    /// The face that is there in the second one.
    pub second: Option<Face>,
}

/// What shows on a face as it lies: the page, and the way its head points.
type Shows = Option<(u32, Option<Direction>)>;

/// The faces that differ after `step` folds: at the same place of the packet, counted from its upper left corner, and
/// the same depth from the top, something else is printed there, or the same page with its head another way. Where one
/// packet reaches farther or is thicker than the other, all that is printed there differs. Blank faces are alike.
#[must_use]
pub fn differences(a: &Bench, b: &Bench, step: usize) -> Differences {
    let (pa, pb) = (Pile::of(a, step), Pile::of(b, step));
    let mut found = Differences::default();
    for y in 0..pa.rows.max(pb.rows) {
        for x in 0..pa.columns.max(pb.columns) {
            let (here, there) = (pa.at(x, y), pb.at(x, y));
            for depth in 0..here.len().max(there.len()) {
                let (one, other) = (here.get(depth), there.get(depth));
                if one.and_then(|f| f.1) != other.and_then(|f| f.1) {
                    found.first.extend(one.map(|f| f.0));
                    found.second.extend(other.map(|f| f.0));
                }
            }
        }
    }
    found
}

/// The places at which two finished sections read differently: another page, none, or one with its head another way.
#[must_use]
pub fn reading_differences(a: &Bench, b: &Bench) -> Vec<ReadsOtherwise> {
    let read = |bench: &Bench| -> Vec<(Face, Shows)> {
        let faces = bench.section.iter().flat_map(|s| &s.faces);
        faces.map(|f| (f.face, shows(bench, &f.face, |head| from_upright(f.head, head)))).collect()
    };
    let (a, b) = (read(a), read(b));
    let mut found = Vec::new();
    for (i, place) in (0..a.len().max(b.len())).zip(1u32..) {
        let (first, second) = (a.get(i), b.get(i));
        if first.and_then(|f| f.1) != second.and_then(|f| f.1) {
            found.push(ReadsOtherwise { place, first: first.map(|f| f.0), second: second.map(|f| f.0) });
        }
    }
    found
}

fn shows(bench: &Bench, face: &Face, lying: impl Fn(Direction) -> Direction) -> Shows {
    let figure = bench.printing.figure(face)?;
    Some((figure.page, figure.head.map(lying)))
}

/// The faces of a packet, panel by panel from the top down.
struct Pile {
    rows: u32,
    columns: u32,
    panels: Vec<Vec<(Face, Shows)>>,
}

impl Pile {
    fn of(bench: &Bench, step: usize) -> Self {
        let packet = bench.folding.packet(step);
        let r = packet.extent();
        let (rows, columns) = (r.height().unsigned_abs(), r.width().unsigned_abs());
        let mut panels = vec![Vec::new(); (rows * columns) as usize];
        for layer in packet.layers.iter().rev() {
            for (x, y) in layer.footprint().cells() {
                let Some(panel) = panels.get_mut(((y - r.y0) * r.width() + x - r.x0).unsigned_abs() as usize) else {
                    continue;
                };
                let faces = [layer.face_up(x, y), layer.face_down(x, y)];
                panel.extend(faces.map(|f| (f, shows(bench, &f, |head| in_packet(layer, &f, head)))));
            }
        }
        Self { rows, columns, panels }
    }

    fn at(&self, x: u32, y: u32) -> &[(Face, Shows)] {
        let inside = x < self.columns && y < self.rows;
        let panel = inside.then(|| self.panels.get((y * self.columns + x) as usize)).flatten();
        panel.map_or(&[], Vec::as_slice)
    }
}
