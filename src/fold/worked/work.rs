//! Carrying a course out, branch by branch.

use super::error::{CourseError, CourseFault};
use super::way::{AfterFolds, Way};
use super::{Done, Piece, Unfinished};
use crate::fold::course::{Course, End, MAX_PIECES, Parted, Steps};
use crate::fold::error::FoldError;
use crate::fold::geometry::Direction;
use crate::fold::packet::Packet;
use crate::fold::scheme::{Crease, Fold, Lands, Part, Scheme};
use crate::fold::section::{Ends, Section};
use std::collections::BTreeSet;

/// A panel of the sheet by column and row.
type Panel = (i32, i32);

/// What is gone through while a course is carried out.
pub(super) struct Work<'a> {
    pub(super) course: &'a Course,
    pub(super) pieces: Vec<Piece>,
    done: Vec<Done>,
    /// Slits above the branch that is worked on. They bound the recursion.
    slits: usize,
    /// Neighbours on the sheet that a slit has parted although both went on in one piece, the left or upper one first.
    parted: BTreeSet<(Panel, Panel)>,
    pub(super) unfinished: Vec<Unfinished>,
}

impl<'a> Work<'a> {
    /// Before the first fold.
    pub(super) fn begin(course: &'a Course) -> Result<Self, CourseError> {
        let size = Scheme {
            rows: course.rows,
            columns: course.columns,
            folds: Vec::new(),
            head: Direction::Up,
            reads: course.reads,
        };
        size.check_size().map_err(|why| CourseError { at: why.place().path(), why: why.into() })?;
        let (pieces, done, unfinished) = (Vec::new(), Vec::new(), Vec::new());
        Ok(Self { course, pieces, done, slits: 0, parted: BTreeSet::new(), unfinished })
    }

    pub(super) fn branch<W: Way>(
        &mut self,
        packet: Packet,
        steps: &Steps,
        path: &str,
    ) -> Result<W::Whole, CourseError> {
        let before = self.done.len();
        let done = &mut self.done;
        let tell = |fold: &Fold, at: i32| done.push(Done::Folded { moves: fold.moves, at, lands: fold.lands });
        let folding = W::fold(packet, self.course, &steps.folds, tell).map_err(|why| {
            let place = why.place().path();
            let at = place.strip_prefix("folds").map_or_else(|| place.clone(), |rest| format!("{path}{rest}"));
            CourseError { at, why: why.into() }
        })?;
        let here = format!("{path}[{}]", steps.folds.len());
        let end = match &steps.end {
            End::Piece { head } => {
                let section = self.section(folding.last(), *head).unwrap_or_else(|why| {
                    let on_head = matches!(why, FoldError::HeadOnSpine { .. });
                    let at = if on_head { here.clone() + ".head" } else { path.into() };
                    self.unfinished.push(Unfinished { piece: self.pieces.len(), at, why });
                    self.no_section(*head)
                });
                let packet = folding.last().clone();
                let piece = Piece { section, packet, done: self.done.clone(), own: steps.folds.len() };
                if self.pieces.len() >= MAX_PIECES {
                    return Err(CourseError { at: path.into(), why: CourseFault::TooManyPieces });
                }
                self.pieces.push(piece);
                AfterFolds::Piece(self.pieces.len() - 1)
            }
            End::Slit(slit) => {
                let vertical = slit.crease == Crease::Vertical;
                let Some((at, [low, high])) = folding.last().slit(slit.crease, slit.after) else {
                    let extent = folding.last().extent();
                    let size = if vertical { extent.width() } else { extent.height() }.unsigned_abs();
                    let why = CourseFault::SlitOutside { after: slit.after, size, vertical };
                    return Err(CourseError { at: here + ".after", why });
                };
                if self.slits >= MAX_PIECES {
                    return Err(CourseError { at: here, why: CourseFault::TooManyPieces });
                }
                self.slits += 1;
                if matches!(slit.then, Parted::Laid { .. }) {
                    self.part(folding.last(), slit.crease, at);
                }
                let end = self.parted::<W>(slit.crease, at, [low, high], &slit.then, &here)?;
                self.slits -= 1;
                end
            }
        };
        self.done.truncate(before);
        Ok(folding.whole(end))
    }

    /// Takes down what a slit parts.
    fn part(&mut self, packet: &Packet, crease: Crease, at: i32) {
        for layer in &packet.layers {
            let (footprint, area) = (layer.footprint(), layer.area);
            let (x, y) = layer.placement.sheet_from_packet(at, at);
            match crease {
                Crease::Vertical if footprint.x0 < at && at < footprint.x1 => {
                    self.parted.extend((area.y0..area.y1).map(|y| ((x - 1, y), (x, y))));
                }
                Crease::Horizontal if footprint.y0 < at && at < footprint.y1 => {
                    self.parted.extend((area.x0..area.x1).map(|x| ((x, y - 1), (x, y))));
                }
                _ => {}
            }
        }
    }

    fn parted<W: Way>(
        &mut self,
        crease: Crease,
        at: i32,
        [low, high]: [Packet; 2],
        then: &Parted,
        here: &str,
    ) -> Result<AfterFolds<W::Whole>, CourseError> {
        let vertical = crease == Crease::Vertical;
        match then {
            Parted::Apart { first, second } => {
                let names = if vertical { ["left", "right"] } else { ["top", "bottom"] };
                let first = self.branch::<W>(low, first, &format!("{here}.{}", names[0]))?;
                let second = self.branch::<W>(high, second, &format!("{here}.{}", names[1]))?;
                Ok(AfterFolds::Apart { crease, at, parts: Box::new([first, second]) })
            }
            Parted::Laid { moves, lands, then } => {
                if moves.crease() != crease {
                    let why = CourseFault::PartBesideOtherSlit { moves: *moves };
                    return Err(CourseError { at: format!("{here}.moves"), why });
                }
                let moves_low = matches!(moves, Part::Left | Part::Top);
                let (moving, staying) = if moves_low { (low, high) } else { (high, low) };
                // What is slid is knocked up to the same left or top edge.
                let (from, to) = (moving.extent(), staying.extent());
                let (dx, dy) = if vertical { (to.x0 - from.x0, 0) } else { (0, to.y0 - from.y0) };
                let moving = moving.slid(dx, dy);
                let stayed = staying.layers.len();
                let packet = match lands {
                    Lands::Over => [staying.layers, moving.layers].concat(),
                    Lands::Under => [moving.layers, staying.layers].concat(),
                };
                self.done.push(Done::Slid);
                let then = self.branch::<W>(Packet::of(packet), then, &format!("{here}.then"))?;
                let (moves, lands, then) = (*moves, *lands, Box::new(then));
                Ok(AfterFolds::Laid { crease, at, moves, lands, stayed, then })
            }
        }
    }

    /// The section of a piece that is none yet.
    fn no_section(&self, head: Direction) -> Section {
        let (rows, columns) = (self.course.rows, self.course.columns);
        let spine = head.clockwise().opposite();
        Section { rows, columns, faces: Vec::new(), held: Vec::new(), spine, head, front_up: true }
    }

    fn section(&self, packet: &Packet, head: Direction) -> Result<Section, FoldError> {
        let last = self.done.iter().rev().find_map(|d| match d {
            Done::Folded { moves, .. } => Some(*moves),
            Done::Slid => None,
        });
        if last.is_none() && self.course.rows * self.course.columns == 1 {
            return Err(FoldError::NoFold);
        }
        let columns = self.course.columns as usize;
        let mut own = vec![false; columns * self.course.rows as usize];
        let place = |x: i32, y: i32| {
            let (x, y) = (usize::try_from(x).ok()?, usize::try_from(y).ok()?);
            (x < columns).then_some(y * columns + x)
        };
        for (x, y) in packet.layers.iter().flat_map(|l| l.area.cells()) {
            if let Some(slot) = place(x, y).and_then(|i| own.get_mut(i)) {
                *slot = true;
            }
        }
        let ends = Ends { last, head, reads: self.course.reads };
        let holds = |panel: Panel, beside: Panel| {
            let is_own = place(beside.0, beside.1).and_then(|i| own.get(i)).is_some_and(|own| *own);
            is_own && !self.parted.contains(&(panel.min(beside), panel.max(beside)))
        };
        Section::read_packet(packet, &ends, [self.course.rows, self.course.columns], holds)
    }
}
