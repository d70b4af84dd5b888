//! Which sheet each section of the book comes from, the pages before it, and which of them is on the bench.

use super::job::Job;
use super::sheet::Sheet;
use super::state::State;
use crate::fold::{Course, End, Landing, Measure, Scheme, Section};
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

/// Sections that are made otherwise than the others: from a sheet of their own.
#[derive(Clone, Debug, PartialEq)]
pub struct Otherwise {
    /// The first section that comes from it, from 1. The sheet gives as many, one after another, as it gives sections.
    pub first: u32,
    /// The sheet.
    pub sheet: Sheet,
}

impl Otherwise {
    /// Whether a section comes from this sheet.
    #[must_use]
    pub fn holds(&self, section: u32) -> bool {
        section.checked_sub(self.first).is_some_and(|at| at < self.sheet.per_sheet())
    }
}

/// The most sheets that are worked otherwise than the others.
pub const MAX_OTHERWISE: usize = 20;

impl Job {
    /// The sheet that a section comes from otherwise than the others, if it does.
    fn other_sheet(&self, section: u32) -> Option<&Otherwise> {
        self.otherwise.iter().find(|other| other.holds(section))
    }

    /// Which sheet a section comes from: the first section of one that is made otherwise, or `None` for the usual one.
    #[must_use]
    pub fn kind(&self, section: u32) -> Option<u32> {
        self.other_sheet(section).map(|other| other.first)
    }

    /// The sheet of a kind.
    #[must_use]
    pub fn sheet_of_kind(&self, kind: Option<u32>) -> &Sheet {
        self.otherwise.iter().find(|other| Some(other.first) == kind).map_or(&self.sheet, |other| &other.sheet)
    }

    /// The same to be changed.
    pub(super) fn sheet_mut(&mut self, kind: Option<u32>) -> &mut Sheet {
        match self.otherwise.iter_mut().find(|other| Some(other.first) == kind) {
            Some(other) => &mut other.sheet,
            None => &mut self.sheet,
        }
    }

    /// All kinds of sheets, the usual one first.
    pub fn sheets(&self) -> impl Iterator<Item = &Sheet> {
        std::iter::once(&self.sheet).chain(self.otherwise.iter().map(|other| &other.sheet))
    }

    /// The sheet that a section comes from.
    #[must_use]
    pub fn sheet_of(&self, section: u32) -> &Sheet {
        self.other_sheet(section).map_or(&self.sheet, |other| &other.sheet)
    }

    /// How many sections before this one are not made otherwise.
    fn usual_before(&self, section: u32) -> u32 {
        (1..section).filter(|s| self.other_sheet(*s).is_none()).count() as u32
    }

    /// Which section of its sheet a section of the book is, from 0.
    #[must_use]
    pub fn on_sheet(&self, section: u32) -> usize {
        match self.other_sheet(section) {
            Some(other) => (section - other.first) as usize,
            None => (self.usual_before(section) % self.sheet.per_sheet()) as usize,
        }
    }

    /// The sections that come from the same sheet as this one, in the order of the sheet. The last sheet may give more than
    /// the book has.
    #[must_use]
    pub fn from_one_sheet(&self, section: u32) -> Vec<u32> {
        let at = self.on_sheet(section);
        if let Some(other) = self.other_sheet(section) {
            return (other.first..other.first + other.sheet.per_sheet()).collect();
        }
        let usual = |s: &u32| self.other_sheet(*s).is_none();
        let mut before: Vec<u32> = (1..section).rev().filter(usual).take(at).collect();
        before.reverse();
        let on = (section..).filter(usual).take(self.sheet.per_sheet() as usize - at);
        before.into_iter().chain(on).collect()
    }

    /// The pages of the first so many sections, each.
    #[must_use]
    pub fn pages_each(&self, sections: u32) -> Vec<u32> {
        let usual = self.sheet.pages();
        let others: Vec<Vec<u32>> = self.otherwise.iter().map(|other| other.sheet.pages()).collect();
        let mut next = usual.iter().cycle();
        let pages = |section: u32| match self.otherwise.iter().zip(&others).find(|(other, _)| other.holds(section)) {
            Some((other, pages)) => nth_of(pages, section - other.first),
            None => next.next().copied().unwrap_or(0),
        };
        (1..=sections).map(pages).collect()
    }

    /// The pages of a section, from 1.
    #[must_use]
    pub fn pages_of(&self, section: u32) -> u32 {
        let at = self.other_sheet(section).map_or_else(|| self.usual_before(section), |other| section - other.first);
        nth_of(&self.sheet_of(section).pages(), at)
    }

    /// The pages of the book before a section.
    #[must_use]
    pub fn pages_before(&self, section: u32) -> u32 {
        // Nothing can be asked of a section far behind the end.
        let before = section.saturating_sub(1).min(2 * crate::marks::MOST_SECTIONS);
        self.pages_each(before).iter().fold(0, |sum, pages| sum.saturating_add(*pages))
    }

    /// The pages of the whole book.
    #[must_use]
    pub fn pages(&self) -> u32 {
        self.pages_before(self.sections + 1)
    }

    /// The section that a page of the book is in, and the page in it, both from 1.
    #[must_use]
    pub fn section_of_page(&self, page: u32) -> Option<(u32, u32)> {
        let mut rest = page.checked_sub(1)?;
        for (section, pages) in (1u32..).zip(self.pages_each(self.sections)) {
            if rest < pages {
                return Some((section, rest + 1));
            }
            rest -= pages;
        }
        None
    }

    /// The pieces of a section, the outermost first.
    #[must_use]
    pub fn pieces_of(&self, section: u32) -> Vec<usize> {
        self.sheet_of(section).pieces(self.on_sheet(section))
    }

    /// How the outermost piece of a section is folded, as a sheet of its own. A sheet in the making may be unfinished.
    #[must_use]
    pub fn scheme_of(&self, section: u32) -> Option<Scheme> {
        self.sheet_of(section).scheme(self.on_sheet(section))
    }

    /// A finished section and its landing on the whole sheet, unless the sheet is unfinished.
    #[must_use]
    pub fn section(&self, section: u32) -> Option<(Section, Landing)> {
        self.sheet_of(section).section(self.on_sheet(section))
    }

    /// The scheme with the folds made by hand, where they are others.
    #[must_use]
    pub fn tried_scheme(&self) -> Option<Scheme> {
        let tried = self.tried.as_ref()?;
        self.sheet_of_kind(tried.kind).tried_scheme(tried)
    }

    /// Whether sections made otherwise can be: in their order, on the book, none on two sheets.
    ///
    /// # Errors
    /// A sentence.
    pub(super) fn check_otherwise(&self) -> Result<(), String> {
        if self.otherwise.len() > MAX_OTHERWISE {
            return Err(format!("At most {MAX_OTHERWISE} sheets are worked otherwise than the others."));
        }
        let mut free = 1;
        for Otherwise { first, sheet } in &self.otherwise {
            if *first < free {
                return Err(format!("Section {} can’t come from two sheets.", free - 1));
            }
            free = first.saturating_add(sheet.per_sheet());
            if free > self.sections + 1 {
                return Err(format!(
                    "The sheet of section {first} gives {} sections, and the book ends with section {}.",
                    sheet.per_sheet(),
                    self.sections
                ));
            }
        }
        Ok(())
    }
}

/// The pages of a section of a sheet; they come again and again, and an unfinished sheet has one for all of its sections.
fn nth_of(pages: &[u32], at: u32) -> u32 {
    pages.get(at as usize % pages.len().max(1)).copied().unwrap_or(0)
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

    /// Which sheet is on the bench.
    #[must_use]
    pub fn kind(&self) -> Option<u32> {
        self.job.kind(self.section_on_bench())
    }

    /// The sheet on the bench.
    #[must_use]
    pub fn sheet(&self) -> &Sheet {
        self.job.sheet_of(self.section_on_bench())
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
        let sheet = self.sheet();
        if sheet.is_whole() {
            return None;
        }
        let worked = sheet.making()?;
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
        let sheet = self.sheet();
        sheet.scheme_on_bench(self.piece()).unwrap_or_else(|| sheet.trunk())
    }

    /// The scheme of the section on the bench by itself, as causes of a wrong section are told by it.
    #[must_use]
    pub fn section_scheme(&self) -> Scheme {
        self.job.scheme_of(self.section_on_bench()).unwrap_or_else(|| self.sheet().trunk())
    }

    /// The scheme with the folds made by hand, where they are others, if they are those of what is on the bench.
    #[must_use]
    pub fn tried_scheme(&self) -> Option<Scheme> {
        let tried = self.job.tried.as_ref()?;
        if (tried.kind, tried.piece) == (self.kind(), self.piece()) { self.job.tried_scheme() } else { None }
    }
}
