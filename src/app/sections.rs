//! What a sheet gives: its sections and their pieces, and which of them is on the bench.

use super::job::{Job, Tried};
use super::state::State;
use crate::fold::{Course, Crease, Direction, End, Landing, Measure, OwnSheet, Scheme, Section, Worked};
use crate::gather::stack::What;
use crate::paper::Length;

/// An untrimmed leaf of the first job: a demy octavo (216 by 138 mm trimmed; from memory) with 3 mm at head, tail and
/// fore-edge.
const LEAF: (Length, Length) = (Length::from_whole_mm(141), Length::from_whole_mm(222));

/// Panels for a course whose leaves are all as large as a demy octavo, upright or lying.
#[must_use]
pub fn usual_measure(course: &Course) -> Measure {
    measure_of_leaf(course, LEAF)
}

/// Equal panels for leaves of a size, width and height as they are read.
#[must_use]
pub fn measure_of_leaf(course: &Course, leaf: (Length, Length)) -> Measure {
    let sideways = heads_lie_sideways(course);
    let (w, h) = if sideways { (leaf.1, leaf.0) } else { leaf };
    let (rows, columns) = (i64::from(course.rows), i64::from(course.columns));
    // A sheet of thousands of panels has small ones.
    let (width, height) = (w.times(columns).min(LARGEST), h.times(rows).min(LARGEST));
    Measure::equal(course.rows, course.columns, width, height)
}

/// The largest sheet: no press takes one of 5 m (a bound on numbers, not on paper).
const LARGEST: Length = Length::from_whole_mm(5_000);

/// Whether panels have sizes that can be, and are as many as the course has.
///
/// # Errors
/// A sentence without its first words, "The sizes".
pub(super) fn check_measure(course: &Course, measure: &Measure) -> Result<(), String> {
    if measure.columns.len() != course.columns as usize || measure.rows.len() != course.rows as usize {
        return Err("are not as many as there are rows and columns".into());
    }
    if !measure.columns.iter().chain(&measure.rows).all(|l| *l >= Length::MM && *l <= LARGEST) {
        return Err("must each be 1 mm or more".into());
    }
    if measure.width() > LARGEST || measure.height() > LARGEST {
        return Err("make a sheet larger than 5 m".into());
    }
    Ok(())
}

/// Whether the heads run along the width of the sheet: those of the first piece do for all.
#[must_use]
pub fn heads_lie_sideways(course: &Course) -> bool {
    course.steps.pieces().first().is_some_and(|steps| match steps.end {
        End::Piece { head } => head.is_sideways(),
        End::Slit(_) => false,
    })
}

/// The size of an untrimmed leaf, width and height as it is read: the first panel's.
#[must_use]
pub(super) fn leaf_of(course: &Course, measure: &Measure) -> (Length, Length) {
    let first = |all: &[Length]| all.first().copied().unwrap_or_default();
    let (w, h) = (first(&measure.columns), first(&measure.rows));
    if heads_lie_sideways(course) { (h, w) } else { (w, h) }
}

impl Job {
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

    /// Which section of its sheet a section of the book is, from 0.
    #[must_use]
    pub fn on_sheet(&self, section: u32) -> usize {
        (section.saturating_sub(1) % self.per_sheet()) as usize
    }

    /// The pages of every section that one sheet gives. An unfinished sheet counts as one section.
    fn pages_on_sheet(&self) -> Vec<u32> {
        let worked = if self.is_whole() { None } else { self.worked() };
        match (worked, self.course.copies.first()) {
            (Some(worked), Some(sections)) => sections.iter().map(|nest| worked.pages_of(nest)).collect(),
            _ => vec![2 * self.course.rows * self.course.columns],
        }
    }

    /// The pages of a section, from 1.
    #[must_use]
    pub fn pages_of(&self, section: u32) -> u32 {
        let all = self.pages_on_sheet();
        all.get(section.saturating_sub(1) as usize % all.len().max(1)).copied().unwrap_or(0)
    }

    /// The pages of the book before a section.
    #[must_use]
    pub fn pages_before(&self, section: u32) -> u32 {
        let all = self.pages_on_sheet();
        let (before, n) = (section.saturating_sub(1), all.len().max(1) as u32);
        let rest: u32 = all.iter().take((before % n) as usize).sum();
        (before / n).saturating_mul(all.iter().sum()).saturating_add(rest)
    }

    /// The pages of the whole book.
    #[must_use]
    pub fn pages(&self) -> u32 {
        self.pages_before(self.sections + 1)
    }

    /// The section that a page of the book is in, and the page in it, both from 1.
    #[must_use]
    pub fn section_of_page(&self, page: u32) -> Option<(u32, u32)> {
        let all = self.pages_on_sheet();
        let sheet: u32 = all.iter().sum();
        let before = page.checked_sub(1)?;
        let (sheets, mut rest) = (before.checked_div(sheet)?, before.checked_rem(sheet)?);
        for (i, pages) in (0u32..).zip(&all) {
            if rest < *pages {
                let section = sheets * all.len() as u32 + i + 1;
                return (section <= self.sections).then_some((section, rest + 1));
            }
            rest -= pages;
        }
        None
    }

    /// The pieces of a section, the outermost first.
    #[must_use]
    pub fn pieces_of(&self, section: u32) -> Vec<usize> {
        let sections = self.course.copies.first();
        sections.and_then(|all| all.get(self.on_sheet(section))).cloned().unwrap_or_default()
    }

    /// The outermost piece of a section as a sheet of its own.
    #[must_use]
    pub fn own_sheet_of(&self, section: u32) -> Option<OwnSheet> {
        self.making()?.own_sheet(*self.pieces_of(section).first()?)
    }

    /// How the outermost piece of a section is folded, as a sheet of its own. A sheet in the making may be unfinished.
    #[must_use]
    pub fn scheme_of(&self, section: u32) -> Option<Scheme> {
        if self.is_whole() { self.course.scheme() } else { self.own_sheet_of(section).map(|own| own.scheme) }
    }

    /// How the piece that is laid into a section is folded, if there is one.
    #[must_use]
    pub fn inset_of(&self, section: u32) -> Option<Scheme> {
        Some(self.worked()?.own_sheet(*self.pieces_of(section).get(1)?)?.scheme)
    }

    /// A finished section and its landing on the whole sheet, unless the sheet is unfinished.
    #[must_use]
    pub fn section(&self, section: u32) -> Option<(Section, Landing)> {
        let worked = self.worked()?;
        let section = worked.nested(&self.pieces_of(section))?;
        let landing = Landing::of_section(&section);
        Some((section, landing))
    }

    /// The scheme with the folds made by hand, where they are others. The head lies along the last crease, at the top if
    /// that can be.
    #[must_use]
    pub fn tried_scheme(&self) -> Option<Scheme> {
        let Tried { piece, folds } = self.tried.clone()?;
        let base = self.scheme_on_bench(piece)?;
        let upright = folds.last().is_none_or(|f| f.crease == Crease::Vertical);
        let head = match base.head {
            head if head.is_sideways() != upright => head,
            _ if upright => Direction::Up,
            _ => Direction::Right,
        };
        Some(Scheme { folds, head, ..base })
    }

    /// How what lies on the bench is folded: a piece as a sheet of its own, or the whole sheet up to a slit.
    #[must_use]
    pub fn scheme_on_bench(&self, piece: Option<usize>) -> Option<Scheme> {
        match piece {
            None => Some(self.trunk()),
            Some(piece) => Some(self.making()?.own_sheet(piece)?.scheme),
        }
    }
}

impl State {
    /// The section of our book that a place of the stack is judged by: its own, or for one of another book the place's.
    #[must_use]
    pub fn section_on_bench(&self) -> u32 {
        match self.placed().what {
            What::Ours(section) => section,
            What::Foreign => self.look.place,
        }
    }

    /// The pages before the section on the bench.
    #[must_use]
    pub fn shift(&self) -> u32 {
        self.job.pages_before(self.section_on_bench())
    }

    /// The piece that lies on the bench alone. `None` where the whole sheet does. A section that was misfolded in the
    /// stack lies there by itself.
    #[must_use]
    pub fn piece(&self) -> Option<usize> {
        if self.job.is_whole() {
            return None;
        }
        let worked = self.job.making()?;
        let misfolded = || {
            self.placed().misfold?;
            self.job.pieces_of(self.section_on_bench()).first().copied()
        };
        let piece = self.look.piece.map(|p| p as usize).or_else(misfolded)?;
        worked.own_sheet(piece).map(|_| piece)
    }

    /// How what lies on the bench is folded by its scheme: the whole sheet (up to a slit), or the piece.
    #[must_use]
    pub fn scheme(&self) -> Scheme {
        self.job.scheme_on_bench(self.piece()).unwrap_or_else(|| self.job.trunk())
    }

    /// The scheme of the section on the bench by itself, as causes of a wrong section are told by it.
    #[must_use]
    pub fn section_scheme(&self) -> Scheme {
        self.job.scheme_of(self.section_on_bench()).unwrap_or_else(|| self.job.trunk())
    }

    /// The scheme with the folds made by hand, where they are others, if they are those of what is on the bench.
    #[must_use]
    pub fn tried_scheme(&self) -> Option<Scheme> {
        let tried = self.job.tried.as_ref()?;
        if tried.piece == self.piece() { self.job.tried_scheme() } else { None }
    }
}
