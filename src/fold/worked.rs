//! The course of a sheet carried out: every packet on the way, the pieces, and where the pages land.

use super::course::{Course, End, MAX_PIECES, Nest, Parted, Steps};
use super::error::FoldError;
use super::folding::{Folding, refusal};
use super::geometry::Side;
use super::landing::Landing;
use super::packet::Packet;
use super::scheme::{Crease, Fold, Lands, Part, Scheme};
use super::section::{Ends, Section};
use thiserror::Error;

/// What was folded between two slits.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Branch {
    /// The folds. It begins with the flat sheet, or with what came from the slit, at the place where it lay.
    pub folding: Folding,
    /// What comes after them.
    pub end: BranchEnd,
}

/// How a branch ends.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum BranchEnd {
    /// With this piece.
    Piece(usize),
    /// It was slit, and each part goes on.
    Apart {
        /// Which way the slit runs.
        crease: Crease,
        /// Its line in the packet.
        at: i32,
        /// The left or upper part, and the other one.
        parts: Box<[Branch; 2]>,
    },
    /// It was slit, and one part laid on or under the other.
    Laid {
        /// Which way the slit runs.
        crease: Crease,
        /// Its line in the packet.
        at: i32,
        /// The part that was slid.
        moves: Part,
        /// Where it came to lie.
        lands: Lands,
        /// How many layers stayed. They come first in the list when it landed over.
        stayed: usize,
        /// How they go on.
        then: Box<Branch>,
    },
}

/// A piece that is folded down to a page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Piece {
    /// The section that it is, in the panels of the whole sheet.
    pub section: Section,
    /// The packet that it ends in, at its place on the bench.
    pub packet: Packet,
    /// What was done to it, from the whole sheet on.
    done: Vec<Done>,
    /// How much of that was done after the last slit.
    own: usize,
}

/// A fold as it was done: the part that moves, the line in the packet, and where it landed. A slid part is not one sheet
/// with the rest any more.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Done {
    Folded { moves: Part, at: i32, lands: Lands },
    Slid,
}

/// A course carried out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Worked {
    /// The course.
    pub course: Course,
    /// What is done to the whole sheet, and all that follows.
    pub trunk: Branch,
    /// The pieces in their order.
    pub pieces: Vec<Piece>,
    /// Pieces that are no section yet, and why: they are still larger than a page, or have no fold. Their sections are
    /// empty.
    pub unfinished: Vec<(usize, FoldError)>,
}

/// Why a course can't be carried out, and at which of its steps.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[error("{why}")]
pub struct CourseError {
    /// The path to the step, as in `steps[1].left[0].after`.
    pub at: String,
    /// Why.
    pub why: CourseFault,
}

/// Why a course can't be carried out.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum CourseFault {
    /// A fold can't be made, or a piece can't be read.
    #[error("{0}")]
    Fold(#[from] FoldError),
    /// The slit lies on or beyond the edge.
    #[error("the slit would lie after {after} panels, but the packet is then {size} {} and a slit lies inside it",
        if *.vertical { "wide" } else { "high" })]
    SlitOutside {
        /// Where it was asked for.
        after: u32,
        /// How large the packet is across it.
        size: u32,
        /// Whether it runs from top to bottom.
        vertical: bool,
    },
    /// The part that is slid does not lie beside such a slit.
    #[error("the slit does not part {} from the rest", .moves.word())]
    PartBesideOtherSlit {
        /// The part.
        moves: Part,
    },
    /// More pieces than the program takes.
    #[error("a sheet is slit into {MAX_PIECES} pieces at the most")]
    TooManyPieces,
    /// No section, or one without a piece.
    #[error("no piece is put here")]
    NoPiece,
    /// A piece that is not there.
    #[error("there is no piece {piece}; the pieces are numbered from 0 to {}", .count - 1)]
    NoSuchPiece {
        /// The number asked for.
        piece: usize,
        /// How many there are.
        count: usize,
    },
    /// A piece that stands somewhere already.
    #[error("piece {piece} has its place already")]
    PieceTwice {
        /// Its number.
        piece: usize,
    },
    /// Nothing can be laid into the middle of it.
    #[error("piece {piece} has {leaves} leaves, so there is no middle to lay another piece in")]
    NoMiddle {
        /// Its number.
        piece: usize,
        /// Its leaves.
        leaves: usize,
    },
}

/// A piece as a sheet of its own.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OwnSheet {
    /// The panels of the whole sheet that it is, columns and rows.
    pub area: super::geometry::Rect,
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

impl Worked {
    /// Carries out a course.
    ///
    /// # Errors
    /// When a step can't be made, a piece is not down to one panel, or the pieces are put together as they can't be.
    /// Where, is a path into the steps as the ask protocol writes them.
    pub fn of(course: &Course) -> Result<Self, CourseError> {
        Self::carried_out(course, false)
    }

    /// The same for a course in the making, whose pieces may still be larger than a page.
    ///
    /// # Errors
    /// When a step can't be made, or the pieces are put together as they can't be.
    pub fn in_the_making(course: &Course) -> Result<Self, CourseError> {
        Self::carried_out(course, true)
    }

    fn carried_out(course: &Course, in_the_making: bool) -> Result<Self, CourseError> {
        let mut work = Work::begin(course, in_the_making)?;
        let flat = Packet::flat(course.rows, course.columns);
        let trunk = work.branch::<Kept>(flat, &course.steps, "steps")?;
        let Work { pieces, unfinished, .. } = work;
        check_copies(course, &pieces)?;
        Ok(Self { course: course.clone(), trunk, pieces, unfinished })
    }

    /// The numbers of a section, counted from 1 in it, on the panels of the whole sheet. Copies and sections count from 0.
    #[must_use]
    pub fn landing(&self, copy: usize, section: usize) -> Option<Landing> {
        let nest = self.course.copies.get(copy)?.get(section)?;
        Some(Landing::of_section(&nested(&self.pieces, nest)?))
    }

    /// A nest of pieces read as one section. Spine, head and front are those of the outermost piece.
    #[must_use]
    pub fn nested(&self, nest: &Nest) -> Option<Section> {
        nested(&self.pieces, nest)
    }

    /// The pages of a section.
    #[must_use]
    pub fn pages_of(&self, nest: &Nest) -> u32 {
        nest.iter().filter_map(|i| self.pieces.get(*i)).map(|p| p.section.faces.len() as u32).sum()
    }

    /// A piece as a sheet of its own; `None` where it is no rectangle, or was laid together from parts.
    #[must_use]
    pub fn own_sheet(&self, piece: usize) -> Option<OwnSheet> {
        let found = self.pieces.get(piece)?;
        let area = found.packet.layers.iter().map(|l| l.area).reduce(|a, b| a.union(&b))?;
        let panels: i32 = found.packet.layers.iter().map(|l| l.area.width() * l.area.height()).sum();
        if panels != area.width() * area.height() || found.done.contains(&Done::Slid) {
            return None;
        }
        Some(found.by_itself(area, &self.course))
    }

    /// The side that carries the first page of a section.
    #[must_use]
    pub fn outer_forme(&self, copy: usize, section: usize) -> Option<Side> {
        Some(self.landing(copy, section)?.outer_forme())
    }
}

/// The pieces of a course, for a caller who does not want the way to them: every packet of a long accordion kept would
/// be hundreds of megabytes.
///
/// # Errors
/// As [`Worked::of`].
pub fn pieces_of(course: &Course) -> Result<Vec<Piece>, CourseError> {
    let mut work = Work::begin(course, false)?;
    work.branch::<Passing>(Packet::flat(course.rows, course.columns), &course.steps, "steps")?;
    check_copies(course, &work.pieces)?;
    Ok(work.pieces)
}

/// A nest of pieces read as one section. Spine, head and front are those of the outermost piece.
#[must_use]
pub fn nested(pieces: &[Piece], nest: &Nest) -> Option<Section> {
    let mut sections = nest.iter().rev().map(|i| pieces.get(*i).map(|p| &p.section));
    let mut inner: Section = sections.next()??.clone();
    for outer in sections {
        let outer = outer?;
        let middle = outer.held.len() / 2;
        let mut all = outer.clone();
        all.faces.splice(2 * middle..2 * middle, inner.faces);
        all.held.splice(middle..middle, inner.held);
        inner = all;
    }
    Some(inner)
}

/// What is kept of the folds between two slits.
trait Way {
    /// What is kept of the whole course.
    type Whole;

    /// Makes the folds, telling the line of each.
    fn fold(packet: Packet, course: &Course, folds: &[Fold], tell: impl FnMut(&Fold, i32)) -> Result<Self, FoldError>
    where
        Self: Sized;

    /// The packet that they end in.
    fn last(&self) -> &Packet;

    /// What is kept, with what comes after it.
    fn whole(self, end: AfterFolds<Self::Whole>) -> Self::Whole;
}

/// How a branch ends, whatever is kept of it.
enum AfterFolds<W> {
    Piece(usize),
    Apart { crease: Crease, at: i32, parts: Box<[W; 2]> },
    Laid { crease: Crease, at: i32, moves: Part, lands: Lands, stayed: usize, then: Box<W> },
}

/// Every packet on the way.
struct Kept(Folding);

impl Way for Kept {
    type Whole = Branch;

    fn fold(
        packet: Packet,
        course: &Course,
        folds: &[Fold],
        mut tell: impl FnMut(&Fold, i32),
    ) -> Result<Self, FoldError> {
        let folding = Folding::from_packet(packet, course.rows, course.columns, folds);
        if let Some(why) = folding.stopped {
            return Err(why);
        }
        folding.steps.iter().for_each(|s| tell(&s.turn.fold, s.turn.at));
        Ok(Self(folding))
    }

    fn last(&self) -> &Packet {
        self.0.last()
    }

    fn whole(self, end: AfterFolds<Branch>) -> Branch {
        let end = match end {
            AfterFolds::Piece(piece) => BranchEnd::Piece(piece),
            AfterFolds::Apart { crease, at, parts } => BranchEnd::Apart { crease, at, parts },
            AfterFolds::Laid { crease, at, moves, lands, stayed, then } => {
                BranchEnd::Laid { crease, at, moves, lands, stayed, then }
            }
        };
        Branch { folding: self.0, end }
    }
}

/// The last packet alone.
struct Passing(Packet);

impl Way for Passing {
    type Whole = ();

    fn fold(
        mut packet: Packet,
        _: &Course,
        folds: &[Fold],
        mut tell: impl FnMut(&Fold, i32),
    ) -> Result<Self, FoldError> {
        let mut spare = Vec::new();
        for (number, fold) in folds.iter().enumerate() {
            match packet.fold_in_place(fold, &mut spare) {
                Some(at) => tell(fold, at),
                None => return Err(refusal(&packet, fold, number)),
            }
        }
        Ok(Self(packet))
    }

    fn last(&self) -> &Packet {
        &self.0
    }

    fn whole(self, _: AfterFolds<()>) {}
}

/// What is gone through while a course is carried out.
struct Work<'a> {
    course: &'a Course,
    pieces: Vec<Piece>,
    done: Vec<Done>,
    /// Slits above the branch that is worked on. They bound the recursion.
    slits: usize,
    /// Whether pieces may be unfinished.
    in_the_making: bool,
    unfinished: Vec<(usize, FoldError)>,
}

impl<'a> Work<'a> {
    /// Before the first fold.
    fn begin(course: &'a Course, in_the_making: bool) -> Result<Self, CourseError> {
        let size = Scheme {
            rows: course.rows,
            columns: course.columns,
            folds: Vec::new(),
            head: super::geometry::Direction::Up,
            reads: course.reads,
        };
        size.check_size().map_err(|why| CourseError { at: why.place().path(), why: why.into() })?;
        let (pieces, done, unfinished) = (Vec::new(), Vec::new(), Vec::new());
        Ok(Self { course, pieces, done, slits: 0, in_the_making, unfinished })
    }

    fn branch<W: Way>(&mut self, packet: Packet, steps: &Steps, path: &str) -> Result<W::Whole, CourseError> {
        let before = self.done.len();
        let done = &mut self.done;
        let tell = |fold: &Fold, at: i32| done.push(Done::Folded { moves: fold.moves, at, lands: fold.lands });
        let folding = W::fold(packet, self.course, &steps.folds, tell).map_err(|why| {
            let at = why.place().path().replacen("folds", path, 1);
            CourseError { at, why: why.into() }
        })?;
        let here = format!("{path}[{}]", steps.folds.len());
        let end = match &steps.end {
            End::Piece { head } => {
                let section = match self.section(folding.last(), *head) {
                    Err(why) if self.in_the_making => {
                        self.unfinished.push((self.pieces.len(), why));
                        self.no_section(*head)
                    }
                    section => section.map_err(|why| {
                        let on_head = matches!(why, FoldError::HeadOnSpine { .. });
                        let at = if on_head { here.clone() + ".head" } else { path.into() };
                        CourseError { at, why: why.into() }
                    })?,
                };
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
                let end = self.parted::<W>(slit.crease, at, [low, high], &slit.then, &here)?;
                self.slits -= 1;
                end
            }
        };
        self.done.truncate(before);
        Ok(folding.whole(end))
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
    fn no_section(&self, head: super::geometry::Direction) -> Section {
        let (rows, columns) = (self.course.rows, self.course.columns);
        let spine = head.clockwise().opposite();
        Section { rows, columns, faces: Vec::new(), held: Vec::new(), spine, head, front_up: true }
    }

    fn section(&self, packet: &Packet, head: super::geometry::Direction) -> Result<Section, FoldError> {
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
        let holds = |x, y| place(x, y).and_then(|i| own.get(i)).is_some_and(|own| *own);
        Section::read_packet(packet, &ends, [self.course.rows, self.course.columns], holds)
    }
}

impl Piece {
    /// The folds of a rectangle of the sheet by itself, as they were done to it within the whole.
    ///
    /// A fold whose crease misses it either leaves it where it lies or turns it over as a whole. What follows is then
    /// seen from its other side: every place below is that of the packet in the whole sheet, and `turned` says how
    /// the packet that is folded alone lies to it.
    fn by_itself(&self, area: super::geometry::Rect, course: &Course) -> OwnSheet {
        let mut packet = Packet::of(vec![super::packet::Layer { area, placement: super::geometry::Placement::FLAT }]);
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
        let scheme = Scheme {
            rows: area.height().unsigned_abs(),
            columns: area.width().unsigned_abs(),
            folds,
            head: self.section.head.mirrored(turned_x, turned_y),
            reads: course.reads,
        };
        OwnSheet { area, scheme, before, turned: (turned_x, turned_y) }
    }
}

fn check_copies(course: &Course, pieces: &[Piece]) -> Result<(), CourseError> {
    let mut placed = vec![false; pieces.len()];
    for (copy, sections) in course.copies.iter().enumerate() {
        if sections.is_empty() {
            return Err(CourseError { at: gather_path(copy), why: CourseFault::NoPiece });
        }
        for (i, nest) in sections.iter().enumerate() {
            let single = nest.len() == 1;
            let at = |k: usize| {
                let section = format!("{}[{i}]", gather_path(copy));
                if single { section } else { format!("{section}.inset[{k}]") }
            };
            if nest.is_empty() {
                return Err(CourseError { at: at(0), why: CourseFault::NoPiece });
            }
            for (k, &piece) in nest.iter().enumerate() {
                let fault = |why| Err(CourseError { at: at(k), why });
                let (Some(found), Some(placed)) = (pieces.get(piece), placed.get_mut(piece)) else {
                    return fault(CourseFault::NoSuchPiece { piece, count: pieces.len() });
                };
                if std::mem::replace(placed, true) {
                    return fault(CourseFault::PieceTwice { piece });
                }
                let leaves = found.section.held.len();
                if k + 1 < nest.len() && leaves % 2 == 1 {
                    return fault(CourseFault::NoMiddle { piece, leaves });
                }
            }
        }
    }
    if course.copies.is_empty() {
        return Err(CourseError { at: gather_path(0), why: CourseFault::NoPiece });
    }
    Ok(())
}

fn gather_path(copy: usize) -> String {
    if copy == 0 { "gather".into() } else { format!("copies[{copy}]") }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fold::course::Slit;
    use crate::fold::{Direction, Reads, library};

    fn over(after: u32, moves: Part) -> Fold {
        Fold::new(after, moves, Lands::Over)
    }

    fn apart(crease: Crease, after: u32, first: Steps, second: Steps) -> End {
        End::Slit(Box::new(Slit { crease, after, then: Parted::Apart { first, second } }))
    }

    #[test]
    fn a_sheet_folded_whole_lands_as_its_scheme() {
        for named in library() {
            let worked = Worked::of(&Course::of_scheme(&named.scheme)).unwrap();
            assert_eq!(worked.landing(0, 0), Landing::of(&named.scheme).ok(), "{}", named.name);
            let own = worked.own_sheet(0).unwrap();
            assert_eq!(own.scheme, named.scheme);
        }
    }

    /// The common twelves of J. B. Nicholson, *A Manual of the Art of Bookbinding* (1878), pp. 36-37: the off-cut is 9 to
    /// 16 and goes into the middle of an octavo.
    #[test]
    fn an_off_cut_is_inset() {
        let off_cut = Steps::piece(vec![over(2, Part::Right), over(1, Part::Right)], Direction::Up);
        let octavo = Steps::piece(vec![over(2, Part::Right), over(1, Part::Top), over(1, Part::Right)], Direction::Up);
        let end = apart(Crease::Horizontal, 1, off_cut, octavo);
        let steps = Steps { folds: vec![], end };
        let course = Course { rows: 3, columns: 4, steps, copies: vec![vec![vec![1, 0]]], reads: Reads::LeftToRight };
        let worked = Worked::of(&course).unwrap();
        let landing = worked.landing(0, 0).unwrap();
        assert_eq!(landing.pages.len(), 24);
        for page in &landing.pages {
            assert_eq!(page.face.row == 0, (9..=16).contains(&page.page), "{page:?}");
            assert_eq!(page.conjugate, Some(25 - page.page), "twelves: 25 across the back");
        }
    }

    /// Two folds of the whole, then slit: each part is what it would be slit first and folded by itself.
    #[test]
    fn a_piece_slit_after_folding_is_a_sheet_of_its_own() {
        let last = |head| Steps::piece(vec![over(1, Part::Right)], head);
        let folds = vec![over(4, Part::Right), over(1, Part::Bottom), over(2, Part::Left)];
        let end = apart(Crease::Horizontal, 1, last(Direction::Up), last(Direction::Down));
        let course = Course {
            rows: 3,
            columns: 8,
            steps: Steps { folds, end },
            copies: vec![vec![vec![0], vec![1]]],
            reads: Reads::LeftToRight,
        };
        let worked = Worked::of(&course).unwrap();
        for (i, piece) in worked.pieces.iter().enumerate() {
            let own = worked.own_sheet(i);
            let Some(own) = own else { continue };
            let alone = Landing::of(&own.scheme).unwrap();
            for (page, found) in (1u32..).zip(&piece.section.faces) {
                let at = alone.page(page).unwrap();
                assert_eq!(at.face.side, found.face.side);
                assert_eq!(at.face.row.cast_signed() + own.area.y0, found.face.row.cast_signed());
                assert_eq!(at.face.column.cast_signed() + own.area.x0, found.face.column.cast_signed());
                assert_eq!(at.head, found.head);
            }
        }
        assert!(worked.own_sheet(0).is_some() || worked.own_sheet(1).is_some());
    }

    #[test]
    fn what_cannot_be_is_refused_where_it_stands() {
        let leaf = || Steps::piece(vec![], Direction::Up);
        let course = |end, copies| Course {
            rows: 1,
            columns: 2,
            steps: Steps { folds: vec![], end },
            copies,
            reads: Reads::LeftToRight,
        };
        let why = |c: &Course| Worked::of(c).unwrap_err();
        let slit = |after| apart(Crease::Vertical, after, leaf(), leaf());
        assert_eq!(why(&course(slit(2), vec![vec![vec![0]]])).at, "steps[0].after");
        assert_eq!(why(&course(slit(1), vec![vec![vec![0], vec![2]]])).at, "gather[1]");
        assert_eq!(why(&course(slit(1), vec![vec![vec![0, 1]]])).at, "gather[0].inset[0]");
        let two = worked_pages(&course(slit(1), vec![vec![vec![0], vec![1]]]));
        assert_eq!(two, [2, 2], "single leaves are sections of two pages");
    }

    fn worked_pages(course: &Course) -> Vec<u32> {
        let worked = Worked::of(course).unwrap();
        course.copies[0].iter().map(|nest| worked.pages_of(nest)).collect()
    }
}
