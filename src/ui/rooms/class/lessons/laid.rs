//! What a lesson looks at, and what lies on the page: the one made of the other.
//!
//! Sheet and book are the [`State`] of a stand; what is named, opened and held has no place there and is [`Own`].

use crate::app::{Job, Look, Room, Sheet, State, Tried};
use crate::fold::misfold::Cause;
use crate::fold::{Course, Lay};
use crate::gather::stack::{Placed, Stack, What};
use crate::gather::{Fault, Found};
use crate::marks::Lies;
use crate::practice::lesson::{OnBench, Run};
use crate::scene::{Bench, Stage};
use std::rc::Rc;

/// What a learner said and opened.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Own {
    /// What is wrong with the book.
    pub named: Option<Fault>,
    /// What was done to the sheet.
    pub causes: Vec<Cause>,
    /// Whether the lay ticks were looked at.
    pub looked: bool,
    /// The run, with the books that were opened.
    pub run: Option<Run>,
    /// How many books are held.
    pub held: Option<u32>,
}

/// Whether a lesson has a book, and not a sheet alone.
pub fn has_book(start: &OnBench) -> bool {
    start.sections > 0 && start.course.is_none()
}

/// A state and what was said, as a lesson has it.
pub fn laid(bench: &OnBench, title: &str) -> (State, Own) {
    let course = bench.course.clone().unwrap_or_else(|| Course::of_scheme(&bench.printed));
    let sections = bench.sections.max(1);
    let stack = if has_book(bench) {
        Stack::try_from(bench.row.iter().map(placed).collect::<Vec<_>>()).unwrap_or_default()
    } else {
        Stack::good(sections)
    };
    let made = if bench.course.is_some() { bench.done } else { bench.made.len() };
    let open = if bench.open_at > 0 { 2 + bench.open_at as usize } else { 0 };
    let tried = (!bench.printed.folds.starts_with(&bench.made) && bench.course.is_none()).then(|| Tried {
        kind: None,
        piece: None,
        folds: bench.made.clone(),
    });
    let job = Job { title: title.into(), sections, sheet: Sheet::usual(course), stack, tried, ..Job::default() };
    let (followed, place) = bench.followed.map_or((None, 1), |page| {
        let found = job.section_of_page(page);
        (found.map(|(_, page)| page), found.map_or(1, |(section, _)| section))
    });
    let look = Look {
        room: Room::Class,
        at: (made + open) as f64,
        lay: Lay { over: bench.turned_over, quarters: 0 },
        followed,
        place,
        ..Look::default()
    };
    let own = Own {
        named: bench.named,
        causes: bench.named_causes.clone(),
        looked: bench.looked,
        run: bench.run.clone(),
        held: bench.held,
    };
    (State { job: Rc::new(job), look, ..State::default() }, own)
}

/// A section as it was found, laid on a stack.
fn placed(found: &Found) -> Placed {
    match found {
        Found::Section { section, lies } => Placed { lies: *lies, ..Placed::good(*section) },
        _ => Placed { what: What::Foreign, ..Placed::good(1) },
    }
}

/// A section on a stack as it is found.
fn found(placed: &Placed) -> Found {
    match placed.what {
        What::Foreign => Found::Foreign,
        // Turned with its fold away from the back it shows nothing there.
        What::Ours(_) if matches!(placed.lies, Lies::TurnedInPlane | Lies::SideToSide) => Found::NoMark,
        What::Ours(section) => Found::Section { section, lies: placed.lies },
    }
}

/// The row of a book as it lies.
pub fn row(state: &State) -> Vec<Found> {
    state.job.stack.placed().iter().map(found).collect()
}

/// What lies on the bench, as a lesson looks at it. `None` while the sheet is on the move.
pub fn on_bench(start: &OnBench, state: &State, bench: Option<&Bench>, own: &Own) -> Option<OnBench> {
    let at = state.look.at;
    let bench = bench.filter(|_| at == at.floor())?;
    let folds = bench.rule.folds;
    let (made, open_at) = match bench.rule.stage(at) {
        Stage::Fold { made, .. } => (made, 0),
        Stage::Leaf { turned, .. } => (folds, turned as u32),
        _ => (folds, 0),
    };
    let whole = start.course.is_none();
    let made_of = || state.folded_scheme().folds.into_iter().take(made).collect();
    Some(OnBench {
        done: if whole { 0 } else { made },
        made: if whole { made_of() } else { Vec::new() },
        turned_over: state.look.lay.over,
        followed: state.look.followed.map(|page| page + state.shift()),
        open_at,
        row: if has_book(start) { row(state) } else { Vec::new() },
        named: own.named,
        named_causes: own.causes.clone(),
        looked: own.looked,
        run: own.run.clone(),
        held: own.held,
        ..start.clone()
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::practice::lesson::lessons;

    /// Everything a lesson can lead to is laid out on the page, and looked at again the same.
    #[test]
    fn what_is_laid_out_is_what_a_lesson_looks_at() {
        for lesson in lessons() {
            for (k, step) in lesson.steps.iter().enumerate() {
                for mut there in step.way(&lesson.before(k)) {
                    let (state, own) = laid(&there, lesson.title);
                    let bench = state.bench();
                    let seen = on_bench(&lesson.start, &state, bench.as_ref(), &own);
                    // A sheet that is not down to a page has no leaf to be open at.
                    if there.reads().is_none() {
                        there.open_at = 0;
                    }
                    assert_eq!(seen, Some(there), "{} {k}", lesson.title);
                }
            }
        }
    }
}
