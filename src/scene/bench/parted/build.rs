//! The benches of a course: one for the whole sheet, one for each part that goes on.

use super::{Finish, Laid, Lane, Parted, SlitApart, Ways};
use crate::fold::{Branch, BranchEnd, Course, Crease, FoldError, Folding, Lands, Layer, Packet, Part, Scheme, Worked};
use crate::scene::bench::places::Places;
use crate::scene::bench::{Bench, closed_edges};
use crate::scene::item::Item;
use crate::scene::moment::Rule;
use crate::scene::pose::At;
use crate::scene::printing::Printing;
use kurbo::{Rect, Vec2};
use std::collections::BTreeSet;
use std::rc::Rc;

/// Between two parts that are led aside, as a share of a panel's shorter side.
const APART: f64 = 0.22;

impl Bench {
    /// Works a sheet with `printing` by a course. `section` (from 0) is the one of the sheet's sections that is opened in
    /// the end.
    ///
    /// # Errors
    /// When the sheet has no panel or too many. A course that can't be carried out is shown as far as its first slit.
    pub fn of_course(printing: Printing, course: &Course, section: usize) -> Result<Self, FoldError> {
        let head = crate::fold::Direction::Up;
        let folds = course.steps.folds.clone();
        let trunk = || Scheme { rows: course.rows, columns: course.columns, folds, head, reads: course.reads };
        let whole = course.scheme();
        let worked = Worked::in_the_making(course).ok().filter(|_| whole.is_none());
        let Some(worked) = worked else { return Self::new(printing, &whole.unwrap_or_else(trunk)) };
        let faces = printing.faces().map(|face| printing.items(&face).into()).collect();
        let sheet = Sheet {
            printing,
            faces,
            pieces: pieces_on(&worked),
            slit_apart: slit_apart(&worked.trunk),
            worked: &worked,
        };
        let flat = vec![At::default(); worked.trunk.folding.flat.layers.len()];
        let mut bench = sheet.bench(&worked.trunk, flat);
        let steps = bench.steps_to_pieces();
        bench.finish = sheet.finish(&bench, section).map(Rc::new);
        let (insets, leaves) = bench.finish.as_ref().map_or((0, 0), |f| (f.insets.len(), f.bench.rule.leaves));
        bench.rule = Rule { folds: steps + insets, leaves };
        if let Some(finish) = &bench.finish {
            (bench.section, bench.slits) = (finish.bench.section.clone(), finish.bench.slits.clone());
        }
        Ok(bench)
    }
}

/// The piece that each panel belongs to, row by row.
fn pieces_on(worked: &Worked) -> Rc<[u16]> {
    let columns = worked.course.columns;
    let mut pieces = vec![u16::MAX; (worked.course.rows * columns) as usize];
    for (number, piece) in (0u16..).zip(&worked.pieces) {
        for (x, y) in piece.packet.layers.iter().flat_map(|l| l.area.cells()) {
            if let Some(slot) = pieces.get_mut((y.unsigned_abs() * columns + x.unsigned_abs()) as usize) {
                *slot = number;
            }
        }
    }
    pieces.into()
}

/// What was slit apart and then laid together again: one piece, and yet not one paper.
fn slit_apart(trunk: &Branch) -> SlitApart {
    let mut apart = BTreeSet::new();
    let mut open = vec![trunk];
    while let Some(branch) = open.pop() {
        let (crease, at) = match &branch.end {
            BranchEnd::Piece(_) => continue,
            BranchEnd::Apart { parts, .. } => {
                open.extend(parts.iter());
                continue;
            }
            BranchEnd::Laid { crease, at, then, .. } => {
                open.push(then);
                (*crease, *at)
            }
        };
        for layer in &branch.folding.last().layers {
            let (lies, area) = (layer.footprint(), layer.area);
            let (x, y) = layer.placement.sheet_from_packet(at, at);
            match crease {
                Crease::Vertical if lies.x0 < at && at < lies.x1 => {
                    apart.extend((area.y0..area.y1).map(|y| ((x - 1, y), (x, y))));
                }
                Crease::Horizontal if lies.y0 < at && at < lies.y1 => {
                    apart.extend((area.x0..area.x1).map(|x| ((x, y - 1), (x, y))));
                }
                _ => {}
            }
        }
    }
    apart.into()
}

/// What all benches of a sheet share.
pub(super) struct Sheet<'a> {
    printing: Printing,
    faces: Vec<Rc<[Item]>>,
    pieces: Rc<[u16]>,
    slit_apart: SlitApart,
    pub(super) worked: &'a Worked,
}

impl Sheet<'_> {
    /// A packet that nothing is folded of any more.
    pub(super) fn lying(&self, packet: Packet, places: Vec<At>) -> Bench {
        let (rows, columns) = (self.worked.course.rows, self.worked.course.columns);
        self.folded(Folding { rows, columns, flat: packet, steps: Vec::new(), stopped: None }, places)
    }

    pub(super) fn folded(&self, folding: Folding, flat: Vec<At>) -> Bench {
        Bench {
            rule: Rule { folds: folding.steps.len(), leaves: 0 },
            places: Places::of(&folding, flat, &self.printing),
            folding,
            section: None,
            printing: self.printing.clone(),
            faces: self.faces.clone(),
            slits: Vec::new(),
            pieces: Some(self.pieces.clone()),
            slit_apart: self.slit_apart.clone(),
            parted: None,
            finish: None,
        }
    }

    fn bench(&self, branch: &Branch, flat: Vec<At>) -> Bench {
        let mut bench = self.folded(branch.folding.clone(), flat);
        bench.parted = match &branch.end {
            BranchEnd::Piece(_) => None,
            BranchEnd::Apart { crease, at, parts } => Some(self.apart(&bench, *crease, *at, parts)),
            BranchEnd::Laid { crease, at, moves, lands, then, .. } => {
                Some(self.laid(&bench, (*crease, *at), *moves, *lands, then))
            }
        }
        .map(Rc::new);
        bench
    }

    fn lane(&self, branch: &Branch, flat: Vec<At>) -> Lane {
        let bench = self.bench(branch, flat);
        let piece = if let BranchEnd::Piece(piece) = branch.end { Some(piece) } else { None };
        Lane { covers: covers(&bench), bench, aside: (0.0, 0.0), piece }
    }

    fn apart(&self, whole: &Bench, crease: Crease, at: i32, parts: &[Branch; 2]) -> Parted {
        let [first, second] = parts;
        let [low, high] = sides(crease).map(|part| beside(whole, part, at));
        let (mut first, mut second) = (self.lane(first, low), self.lane(second, high));
        let (w, h) = self.printing.panel();
        let gap = APART * w.min(h);
        // Neither ever reaches into the other's way.
        match crease {
            Crease::Vertical => {
                let by = (first.covers.x1 - second.covers.x0 + gap).max(gap) / 2.0;
                (first.aside.0, second.aside.0) = (-by, by);
            }
            Crease::Horizontal => {
                let by = (first.covers.y1 - second.covers.y0 + gap).max(gap) / 2.0;
                (first.aside.1, second.aside.1) = (-by, by);
            }
        }
        Parted { ways: Ways::of_slit_sheets(), crease, at, laid: None, lanes: vec![first, second] }
    }

    fn laid(&self, whole: &Bench, (crease, at): (Crease, i32), moves: Part, lands: Lands, then: &Branch) -> Parted {
        let packet = whole.folding.last();
        let extent = packet.extent();
        let after = at - if crease == Crease::Vertical { extent.x0 } else { extent.y0 };
        let [moving_at, staying_at] = [moves, moves.other()].map(|part| beside(whole, part, at));
        let mut flat = Vec::new();
        let laid = packet.slit(crease, after.unsigned_abs()).map(|(_, [low, high])| {
            let moves_low = matches!(moves, Part::Left | Part::Top);
            let (moving, staying) = if moves_low { (low, high) } else { (high, low) };
            let (moves, stays) = (self.lying(moving, moving_at), self.lying(staying, staying_at));
            // What is slid is knocked up to the same left or top edge.
            let (from, to) = (moves.span(0), stays.span(0));
            let by = match crease {
                Crease::Vertical => (to.x0 - from.x0, 0.0),
                Crease::Horizontal => (0.0, to.y0 - from.y0),
            };
            let (staying, moving) = (&stays.folding.flat, &moves.folding.flat);
            let counts = (staying.layers.len(), moving.layers.len());
            let levels = |part: &Packet, first: usize| {
                let was = |l: &Layer| packet.layers.iter().position(|p| p.area.holds(l.area.x0, l.area.y0));
                let level = |(i, l): (usize, &Layer)| (was(l).unwrap_or(i), first + i);
                part.layers.iter().enumerate().map(level).collect()
            };
            let levels = match lands {
                Lands::Over => [levels(staying, 0), levels(moving, counts.0)],
                Lands::Under => [levels(staying, counts.1), levels(moving, 0)],
            };
            let slid = moves.places.last().iter().map(|at| At { dx: at.dx + by.0, dy: at.dy + by.1 });
            let stayed = stays.places.last().iter().copied();
            flat = match lands {
                Lands::Over => stayed.chain(slid).collect(),
                Lands::Under => slid.chain(stayed).collect(),
            };
            Laid { stays, moves, by, lands, layers_before: packet.layers.len(), levels }
        });
        Parted { ways: Ways::of_slit_sheets(), crease, at, laid, lanes: vec![self.lane(then, flat)] }
    }

    fn finish(&self, trunk: &Bench, section: usize) -> Option<Finish> {
        let pieces = self.worked.course.copies.first()?.get(section)?.clone();
        let lies = |piece: usize| aside_of(trunk, piece, (0.0, 0.0));
        let aside = lies(*pieces.first()?)?;
        let (mut bench, insets) = self.nested(trunk, &pieces, &lies)?;
        let found = self.worked.nested(&pieces).filter(|s| !s.faces.is_empty())?;
        bench.rule = Rule { folds: 0, leaves: found.held.len() };
        bench.slits = closed_edges(&found, &bench);
        bench.section = Some(found);
        // In front of all pieces, in their middle.
        let all = covers(trunk);
        let (w, h) = self.printing.panel();
        let front = ((all.x0 + all.x1) / 2.0, all.y1 + 1.2 * w.max(h));
        Some(Finish { pieces, insets, bench, aside, front })
    }
}

/// The two sides of a slit.
const fn sides(crease: Crease) -> [Part; 2] {
    match crease {
        Crease::Vertical => [Part::Left, Part::Right],
        Crease::Horizontal => [Part::Top, Part::Bottom],
    }
}

/// The places of the layers on one side of a slit.
fn beside(whole: &Bench, part: Part, at: i32) -> Vec<At> {
    let layers = whole.folding.last().layers.iter().zip(whole.places.last());
    let there = |layer: &crate::fold::Layer| {
        let r = layer.footprint();
        match part {
            Part::Left => r.x0 < at,
            Part::Right => r.x1 > at,
            Part::Top => r.y0 < at,
            Part::Bottom => r.y1 > at,
        }
    };
    layers.filter(|(layer, _)| there(layer)).map(|(_, place)| *place).collect()
}

/// All that a bench and its parts ever cover, mm, downwards on the sheet.
pub(super) fn covers(bench: &Bench) -> Rect {
    let own = (0..=bench.folding.steps.len()).map(|k| bench.span(k));
    let lanes = bench.parted.iter().flat_map(|p| &p.lanes);
    let lanes = lanes.map(|lane| lane.covers + Vec2::new(lane.aside.0, lane.aside.1));
    own.chain(lanes).reduce(|a, b| a.union(b)).unwrap_or(Rect::ZERO)
}

/// The bench of a piece, with its folds.
pub(super) fn bench_of(bench: &Bench, piece: usize) -> Option<&Bench> {
    let lanes = &bench.parted.as_ref()?.lanes;
    lanes.iter().find_map(
        |lane| {
            if lane.piece == Some(piece) { Some(&lane.bench) } else { bench_of(&lane.bench, piece) }
        },
    )
}

/// How far aside a piece lies in the end.
fn aside_of(bench: &Bench, piece: usize, from: (f64, f64)) -> Option<(f64, f64)> {
    let lanes = &bench.parted.as_ref()?.lanes;
    lanes.iter().find_map(|lane| {
        let aside = (from.0 + lane.aside.0, from.1 + lane.aside.1);
        if lane.piece == Some(piece) { Some(aside) } else { aside_of(&lane.bench, piece, aside) }
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fold::courses;

    fn apart(bench: &Bench, name: &str) {
        let Some(parted) = &bench.parted else { return };
        let places: Vec<Rect> = parted.lanes.iter().map(|l| l.covers + Vec2::new(l.aside.0, l.aside.1)).collect();
        for (i, a) in places.iter().enumerate() {
            for b in places.iter().skip(i + 1) {
                assert!(a.intersect(*b).area() <= 0.0, "{name}: {a:?} {b:?}");
            }
        }
        parted.lanes.iter().for_each(|lane| apart(&lane.bench, name));
    }

    /// Two leaves side by side, slit, one laid on the other, and both folded at once: two folios in each other, with no
    /// bolt anywhere, though panels that were neighbours lie at one edge.
    #[test]
    fn what_was_slit_apart_and_laid_together_has_no_bolt() {
        use crate::fold::{Direction, End, Fold, Parted, Reads, Slit, Steps};
        let then = Steps::piece(vec![Fold::new(1, Part::Right, Lands::Over)], Direction::Up);
        let then = Parted::Laid { moves: Part::Right, lands: Lands::Over, then };
        let end = End::Slit(Box::new(Slit { crease: Crease::Vertical, after: 2, then }));
        let steps = Steps { folds: vec![], end };
        let course = Course { rows: 1, columns: 4, steps, copies: vec![vec![vec![0]]], reads: Reads::LeftToRight };
        let bench = Bench::of_course(Printing::blank(1, 4), &course, 0).unwrap();
        assert_eq!(bench.rule, Rule { folds: 2, leaves: 4 });
        assert_eq!(bench.slits(), []);
        let finish = bench.finish.as_ref().unwrap();
        let joins = finish.bench.joins(&finish.bench.folding.last().layers);
        assert!(joins.iter().all(|j| j.edge == Direction::Right) && joins.len() == 2, "{joins:?}");
    }

    #[test]
    fn no_part_ever_reaches_into_the_place_of_another() {
        let mut slit = 0;
        for named in courses() {
            let printing = Printing::blank(named.course.rows, named.course.columns);
            let bench = Bench::of_course(printing, &named.course, 0).unwrap();
            slit += usize::from(bench.parted.is_some());
            apart(&bench, named.name);
        }
        assert!(slit > 30);
    }
}
