//! A sheet: what is done to it, and the sizes of its panels. And what it gives: sections, and their pieces.

use super::job::Tried;
use super::sections::{leaf_of, measure_of_leaf, usual_measure};
use crate::fold::{Course, Crease, Direction, End, Landing, Measure, OwnSheet, Scheme, Section, Worked, courses};
use crate::paper::Length;

/// A sheet as it is worked.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// What is done to it. It may be unfinished while it is being made.
    pub course: Course,
    /// Sizes of its panels.
    pub measure: Measure,
}

impl Sheet {
    /// A sheet whose leaves are as large as a demy octavo.
    #[must_use]
    pub fn usual(course: Course) -> Self {
        Self { measure: usual_measure(&course), course }
    }

    /// A sheet of a course at hand, whose pages may be wider than high; its leaves are as usual.
    #[must_use]
    pub fn at_hand(course: Course, oblong: bool) -> Self {
        let usual = Self::usual(course);
        let (width, height) = usual.leaf();
        if (width > height) == oblong {
            return usual;
        }
        Self { measure: measure_of_leaf(&usual.course, (height, width)), ..usual }
    }

    /// The trade name of what is done to it, if that is at hand.
    #[must_use]
    pub fn trade_name(&self) -> Option<&'static str> {
        let (width, height) = self.leaf();
        let here = courses().into_iter().filter(|n| n.course == self.course);
        // The same folds have two names where the pages lie.
        here.min_by_key(|n| n.oblong != (width > height)).map(|n| n.name)
    }

    /// The size of an untrimmed leaf, width and height as it is read.
    #[must_use]
    pub fn leaf(&self) -> (Length, Length) {
        leaf_of(&self.course, &self.measure)
    }

    /// The course carried out, unless it is unfinished.
    #[must_use]
    pub fn worked(&self) -> Option<Worked> {
        Worked::of(&self.course).ok()
    }

    /// The course carried out as far as it goes: pieces in the making may still be larger than a page.
    #[must_use]
    pub fn making(&self) -> Option<Worked> {
        Worked::in_the_making(&self.course).ok()
    }

    /// Whether the sheet is folded whole, and not slit.
    #[must_use]
    pub fn is_whole(&self) -> bool {
        matches!(self.course.steps.end, End::Piece { .. })
    }

    /// What is done to the whole sheet, up to a slit if there is one. The head lies at the top, if it may.
    #[must_use]
    pub fn trunk(&self) -> Scheme {
        self.course.scheme().unwrap_or_else(|| {
            let folds = self.course.steps.folds.clone();
            let upright = folds.last().is_none_or(|f| f.crease == Crease::Vertical);
            let head = if upright { Direction::Up } else { Direction::Right };
            Scheme { rows: self.course.rows, columns: self.course.columns, folds, head, reads: self.course.reads }
        })
    }

    /// How many sections of the book come from one sheet.
    #[must_use]
    pub fn per_sheet(&self) -> u32 {
        (self.course.sections() as u32).max(1)
    }

    /// The pages of every section that one sheet gives. An unfinished sheet counts as one section.
    #[must_use]
    pub fn pages(&self) -> Vec<u32> {
        let worked = if self.is_whole() { None } else { self.worked() };
        match (worked, self.course.copies.first()) {
            (Some(worked), Some(sections)) => sections.iter().map(|nest| worked.pages_of(nest)).collect(),
            _ => vec![2 * self.course.rows * self.course.columns],
        }
    }

    /// The pieces of one of its sections (from 0), the outermost first.
    #[must_use]
    pub fn pieces(&self, section: usize) -> Vec<usize> {
        self.course.copies.first().and_then(|all| all.get(section)).cloned().unwrap_or_default()
    }

    /// The outermost piece of one of its sections (from 0) as a sheet of its own.
    #[must_use]
    pub fn own_sheet(&self, section: usize) -> Option<OwnSheet> {
        self.making()?.own_sheet(*self.pieces(section).first()?)
    }

    /// How the outermost piece of one of its sections (from 0) is folded, as a sheet of its own. A sheet in the making may
    /// be unfinished.
    #[must_use]
    pub fn scheme(&self, section: usize) -> Option<Scheme> {
        if self.is_whole() { self.course.scheme() } else { self.own_sheet(section).map(|own| own.scheme) }
    }

    /// How the piece that is laid into one of its sections (from 0) is folded, if there is one.
    #[must_use]
    pub fn inset(&self, section: usize) -> Option<Scheme> {
        Some(self.worked()?.own_sheet(*self.pieces(section).get(1)?)?.scheme)
    }

    /// One of its sections (from 0), finished, and its landing on the whole sheet, unless the sheet is unfinished.
    #[must_use]
    pub fn section(&self, section: usize) -> Option<(Section, Landing)> {
        let section = self.worked()?.nested(&self.pieces(section))?;
        let landing = Landing::of_section(&section);
        Some((section, landing))
    }

    /// How what lies on the bench is folded: a piece as a sheet of its own, or the whole sheet up to a slit.
    #[must_use]
    pub fn scheme_on_bench(&self, piece: Option<usize>) -> Option<Scheme> {
        match piece {
            None => Some(self.trunk()),
            Some(piece) => Some(self.making()?.own_sheet(piece)?.scheme),
        }
    }

    /// The scheme with folds made by hand. The head lies along the last crease, at the top if that can be.
    #[must_use]
    pub fn tried_scheme(&self, tried: &Tried) -> Option<Scheme> {
        let base = self.scheme_on_bench(tried.piece)?;
        let folds = tried.folds.clone();
        let upright = folds.last().is_none_or(|f| f.crease == Crease::Vertical);
        let head = match base.head {
            head if head.is_sideways() != upright => head,
            _ if upright => Direction::Up,
            _ => Direction::Right,
        };
        Some(Scheme { folds, head, ..base })
    }
}
