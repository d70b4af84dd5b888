//! What lies on the bench, as far as lessons look at it.

use super::run::Run;
use crate::fold::misfold::{Cause, act_out};
use crate::fold::{BackMark, Course, End, Face, Fold, Folding, Landing, Parted, Scheme, Showing, Steps, Worked};
use crate::gather::Fault;
use crate::marks::Found;

/// Where the lay ticks of an open sheet lie: short lines that were printed at the two edges by which the press held it.
///
/// A sheet is to be laid in the folder by the same two edges (common practice, no source), so ticks elsewhere tell that it
/// was laid in another way.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ticks {
    /// At the edges that lay at the folder's guides.
    AtGuides,
    /// At other edges.
    Elsewhere,
}

/// What lies on the bench. A program of any kind can fill it in.
#[derive(Clone, Debug, PartialEq)]
pub struct OnBench {
    /// The sheet as it is printed: its layout is that of this scheme.
    pub printed: Scheme,
    /// The course of a sheet that is slit on its way. It is followed step by step, and the folds of `printed` don't count.
    pub course: Option<Course>,
    /// Steps of the course that are done.
    pub done: usize,
    /// The folds that were really made.
    pub made: Vec<Fold>,
    /// Whether the packet, or the sheet, was turned over.
    pub turned_over: bool,
    /// The page that is followed.
    pub followed: Option<u32>,
    /// The leaf at which the folded section is open, from 1; 0 while it is closed.
    pub open_at: u32,
    /// Sections of the book on the bench; 0 for none.
    pub sections: u32,
    /// The backs of that book as far as it was laid, front to back.
    pub row: Vec<Found>,
    /// What was said to be wrong with the book.
    pub named: Option<Fault>,
    /// What was said to have been done to the sheet, the last thing last.
    pub named_causes: Vec<Cause>,
    /// Where the lay ticks lie on the sheets of this pile, if that can be looked at.
    pub ticks: Option<Ticks>,
    /// Whether they were looked at.
    pub looked: bool,
    /// The run that the book comes from.
    pub run: Option<Run>,
    /// How many books of it are to be held, as it was said.
    pub held: Option<u32>,
}

impl OnBench {
    /// A sheet, flat, with nothing else.
    #[must_use]
    pub const fn sheet(printed: Scheme) -> Self {
        Self {
            printed,
            course: None,
            done: 0,
            made: Vec::new(),
            turned_over: false,
            followed: None,
            open_at: 0,
            sections: 0,
            row: Vec::new(),
            named: None,
            named_causes: Vec::new(),
            ticks: None,
            looked: false,
            run: None,
            held: None,
        }
    }

    /// How many steps the course has: folds and slits of its longest branch, then laying pieces into one another.
    #[must_use]
    pub fn course_steps(&self) -> usize {
        let Some(course) = &self.course else { return 0 };
        let nested = course.copies.iter().flatten().map(|nest| nest.len().saturating_sub(1)).max();
        depth(&course.steps) + nested.unwrap_or(0)
    }

    /// The sheet with the folds that were made.
    pub(super) fn folded(&self) -> Scheme {
        Scheme { folds: self.made.clone(), ..self.printed.clone() }
    }

    /// The pages from front to back, if it is folded down to a page. Of a slit sheet those of its first section.
    #[must_use]
    pub fn reads(&self) -> Option<Vec<u32>> {
        if let Some(course) = &self.course {
            let nest = course.copies.first()?.first()?;
            let pages = Worked::of(course).ok()?.pages_of(nest);
            return (self.done >= self.course_steps()).then(|| (1..=pages).collect());
        }
        let numbers = Landing::of(&self.printed).ok()?;
        let lies = Landing::of(&self.folded()).ok()?;
        lies.pages.iter().map(|p| numbers.page_on(&p.face)).collect()
    }

    /// The pages on top of the packet and beneath it, as it lies.
    #[must_use]
    pub fn outsides(&self) -> Option<[Vec<u32>; 2]> {
        if self.course.is_some() {
            return None;
        }
        let numbers = Landing::of(&self.printed).ok()?;
        let folding = Folding::of(&self.folded()).ok().filter(|f| f.stopped.is_none())?;
        let last = folding.last();
        let pages = |faces: Vec<Vec<Option<Face>>>| -> Vec<u32> {
            faces.into_iter().flatten().flatten().filter_map(|f| numbers.page_on(&f)).collect()
        };
        let (top, beneath) = (pages(last.uppermost()), pages(last.undermost()));
        Some(if self.turned_over { [beneath, top] } else { [top, beneath] })
    }

    /// The two pages that face each other where it is open. The last one has none beside it.
    #[must_use]
    pub fn facing(&self) -> Option<[u32; 2]> {
        let pages = self.reads()?;
        let at = (self.open_at as usize).saturating_mul(2);
        Some([*pages.get(at.checked_sub(1)?)?, *pages.get(at)?])
    }

    /// Where the back mark of the sheet, folded as it is, comes to stand.
    #[must_use]
    pub fn back_mark(&self) -> Option<Showing> {
        BackMark::printed_and_folded(&self.printed, &self.folded()).ok().flatten()
    }

    /// The pages that a cause makes of this sheet, front to back.
    #[must_use]
    pub fn made_by(&self, cause: &Cause) -> Option<Vec<Option<u32>>> {
        let acted = act_out(&self.printed, 1, cause).ok()?;
        Some(acted.pages.iter().map(|page| page.page).collect())
    }

    /// Whether a cause makes the section that lies there.
    #[must_use]
    pub fn is_made_by(&self, cause: &Cause) -> bool {
        let Some(pages) = self.reads() else { return false };
        self.made_by(cause).is_some_and(|made| made.into_iter().eq(pages.into_iter().map(Some)))
    }
}

/// The most steps on one way through a course.
fn depth(steps: &Steps) -> usize {
    let then = match &steps.end {
        End::Piece { .. } => 0,
        End::Slit(slit) => {
            1 + match &slit.then {
                Parted::Apart { first, second } => depth(first).max(depth(second)),
                Parted::Laid { then, .. } => depth(then),
            }
        }
    };
    steps.folds.len() + then
}
