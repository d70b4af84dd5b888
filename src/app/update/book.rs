//! What is said of the book as a whole.

use super::{change, forget_lost_misfolds, sentence, settle};
use crate::app::action::Effect;
use crate::app::book_act::BookAct;
use crate::app::job::{Evidence, Job, MAX_SECTIONS, MAX_TITLE};
use crate::app::sections::{Otherwise, measure_of_leaf};
use crate::app::sheet::Sheet;
use crate::app::state::State;
use crate::fold::{Course, Worked};
use crate::gather::Stack;

pub(super) fn act(state: &mut State, act: BookAct, effects: &mut Vec<Effect>) -> Result<(), String> {
    match act {
        BookAct::Title(title) => change(state, |job| {
            let title = title.trim();
            if title.is_empty() || title.chars().count() > MAX_TITLE {
                return Err(format!("A title has 1 to {MAX_TITLE} characters."));
            }
            job.title = title.into();
            Ok(())
        }),
        BookAct::Runs(runs) => change(state, |job| {
            job.runs = runs;
            job.check_book()
        }),
        BookAct::Added(added) => change(state, |job| {
            job.added = added;
            job.check_book()
        }),
        BookAct::Signing(signing) => change(state, |job| {
            job.signing = signing;
            Ok(())
        }),
        BookAct::Planning(planning) => change(state, |job| {
            planning.check()?;
            job.planning = planning;
            Ok(())
        }),
        BookAct::Casing(casing) => change(state, |job| {
            casing.check()?;
            job.casing = casing;
            Ok(())
        }),
        BookAct::Marks(design) => change(state, |job| {
            design.check(job.sections).map_err(|why| why.to_string())?;
            // Marks that were tapped beyond the end of a shorter spine go with the rest of it.
            if let Evidence::Tapped(backs) = &mut job.evidence {
                backs.iter_mut().for_each(|back| back.retain(|mm| *mm <= design.stairs.spine_mm));
            }
            job.design = *design;
            Ok(())
        }),
        BookAct::Sections(sections) => make_up(state, effects, |job| {
            job.otherwise.retain(|other| other.first + other.sheet.per_sheet() <= sections.saturating_add(1));
            job.sections = sections;
            Ok(())
        }),
        BookAct::Otherwise { section, course } => make_up(state, effects, |job| {
            if section == 0 || section > job.sections {
                return Err(format!("The book has sections 1 to {}.", job.sections));
            }
            // Another sheet of its own takes the place of the one it had.
            job.otherwise.retain(|other| !other.holds(section));
            if let Some(course) = course {
                let sheet = job.sheet_like(course)?;
                job.otherwise.push(Otherwise { first: section, sheet });
                job.otherwise.sort_by_key(|other| other.first);
            }
            Ok(())
        }),
        BookAct::MadeUp { sections, course, otherwise } => make_up(state, effects, |job| {
            job.sheet = job.sheet_like(*course)?;
            job.otherwise.clear();
            for (first, course) in otherwise {
                let sheet = job.sheet_like(course)?;
                job.otherwise.push(Otherwise { first, sheet });
            }
            job.sections = sections;
            Ok(())
        }),
    }
}

/// Changes what the sections are made from. Another number of sections is another book, which is gathered afresh.
fn make_up(
    state: &mut State,
    effects: &mut Vec<Effect>,
    f: impl FnOnce(&mut Job) -> Result<(), String>,
) -> Result<(), String> {
    change(state, |job| {
        let before = job.sections;
        f(job)?;
        if job.sections == 0 || job.sections > MAX_SECTIONS {
            return Err(format!("A book has 1 to {MAX_SECTIONS} sections."));
        }
        job.check_otherwise()?;
        job.fit_marks();
        job.design.check(job.sections).map_err(|why| why.to_string())?;
        job.check_book()?;
        job.tried = None;
        if job.sections != before {
            job.stack = Stack::good(job.sections);
            job.evidence = Evidence::Stack;
        }
        Ok(())
    })?;
    state.look.place = state.look.place.clamp(1, state.job.stack.placed().len().max(1) as u32);
    forget_lost_misfolds(state);
    state.look.piece = None;
    settle(state, effects);
    Ok(())
}

impl Job {
    /// A sheet that is worked by a course, whose leaves are as large as those of the book.
    fn sheet_like(&self, course: Course) -> Result<Sheet, String> {
        Worked::of(&course).map_err(|why| sentence(&why.to_string()))?;
        Ok(Sheet { measure: measure_of_leaf(&course, self.sheet.leaf()), course })
    }

    /// More sections than marks fit on the spine begin again at the head.
    fn fit_marks(&mut self) {
        if self.design.check(self.sections).is_err() {
            let fit = self.design.stairs.levels_that_fit();
            self.design.stairs.levels = self.design.stairs.levels.min(fit).max(1);
        }
    }
}
