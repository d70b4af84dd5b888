//! The course of a sheet carried out: every packet on the way, the pieces, and where the pages land.

mod branch;
mod error;
mod gathered;
mod own;
#[cfg(test)]
mod tests;
mod way;
mod work;

pub use branch::{Branch, BranchEnd};
pub use error::{CourseError, CourseFault};
pub use own::OwnSheet;

use super::course::{Course, Nest};
use super::error::FoldError;
use super::geometry::Side;
use super::landing::Landing;
use super::packet::Packet;
use super::scheme::{Lands, Part};
use super::section::Section;
use gathered::{check_copies, check_finished};
use way::{Kept, Passing};
use work::Work;

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

/// A piece that is no section, as it is still larger than a page or has no fold.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unfinished {
    /// Its number.
    pub piece: usize,
    /// The path to its steps.
    pub at: String,
    /// Why it is none.
    pub why: FoldError,
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
    /// Pieces that are no section: they are waste, or still in the making. Their sections are empty.
    pub unfinished: Vec<Unfinished>,
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
        let mut work = Work::begin(course)?;
        let flat = Packet::flat(course.rows, course.columns);
        let trunk = work.branch::<Kept>(flat, &course.steps, "steps")?;
        let Work { pieces, unfinished, .. } = work;
        check_copies(course, &pieces)?;
        if !in_the_making {
            check_finished(course, &unfinished)?;
        }
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

    /// A piece as a sheet of its own; `None` where it is no rectangle, was laid together from parts, or has its spine
    /// where the last fold missed it.
    #[must_use]
    pub fn own_sheet(&self, piece: usize) -> Option<OwnSheet> {
        let found = self.pieces.get(piece)?;
        let area = found.packet.layers.iter().map(|l| l.area).reduce(|a, b| a.union(&b))?;
        let panels: i32 = found.packet.layers.iter().map(|l| l.area.width() * l.area.height()).sum();
        if panels != area.width() * area.height() || found.done.contains(&Done::Slid) {
            return None;
        }
        found.by_itself(area, &self.course)
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
    let mut work = Work::begin(course)?;
    work.branch::<Passing>(Packet::flat(course.rows, course.columns), &course.steps, "steps")?;
    check_copies(course, &work.pieces)?;
    check_finished(course, &work.unfinished)?;
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
