//! What a section of a slit sheet is made of: read from the course of the sheet.

use super::half::HalfSheets;
use crate::fold::{Course, CourseError, Nest, Scheme, Worked};
use thiserror::Error;

/// The most panels of a sheet that is carried out for the causes of a wrong section. A bound on work, not on paper.
pub const MAX_SHEET: u32 = 512;

/// What a section is made of, and what else comes from its sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MadeOf {
    /// Its pieces as sheets of their own, the outermost first.
    pub pieces: Vec<Scheme>,
    /// Every section of the sheet, in the order of the book.
    pub lanes: Vec<Lane>,
    /// Which of them this one is, from 0.
    pub lane: usize,
    /// What comes of the sheet backed up wrong, where one forme prints both its sides.
    pub halves: Option<HalfSheets>,
}

/// A section that comes from the sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lane {
    /// Its pages.
    pub pages: u32,
    /// Its pieces as sheets of their own; none where one of them was laid together from parts.
    pub pieces: Vec<Scheme>,
}

/// Why that can't be said.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum NotMade {
    /// The course can't be carried out.
    #[error("{0}")]
    Course(#[from] CourseError),
    /// The sheet is too large.
    #[error("sheets of at most {MAX_SHEET} panels are traced")]
    TooLarge,
    /// There is no such section.
    #[error("the sheet gives sections 1 to {0}")]
    NoSection(usize),
    /// A piece is no sheet of its own.
    #[error("this section was laid together from parts of the sheet, and what may go wrong with those is not tried")]
    LaidTogether,
}

impl MadeOf {
    /// What section number `section` (from 0) of a sheet is made of; it begins with page `first`.
    ///
    /// # Errors
    /// When the sheet can't be folded so, is too large, has no such section, or the section was laid together from parts.
    pub fn of(course: &Course, section: usize, first: u32) -> Result<Self, NotMade> {
        if course.rows.saturating_mul(course.columns) > MAX_SHEET {
            return Err(NotMade::TooLarge);
        }
        let worked = Worked::of(course)?;
        let sections = course.copies.first().map(Vec::as_slice).unwrap_or_default();
        let nest = sections.get(section).ok_or(NotMade::NoSection(sections.len()))?;
        let own = |piece: &usize| worked.own_sheet(*piece).map(|own| own.scheme);
        let pieces = |nest: &Nest| nest.iter().map(own).collect::<Option<Vec<_>>>();
        let lane = |nest: &Nest| Lane { pages: worked.pages_of(nest), pieces: pieces(nest).unwrap_or_default() };
        let lanes = sections.iter().map(lane).collect();
        let pieces = pieces(nest).ok_or(NotMade::LaidTogether)?;
        Ok(Self { pieces, lanes, lane: section, halves: HalfSheets::of(course, section, first) })
    }
}
