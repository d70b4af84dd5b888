//! Right answers, worked out by the engine, and marking.
//!
//! What is worth how much, in halves: a number 2, a head 1, a fold 4, a cause 4, a next check 2 (usual weights of teachers of the
//! trade, from memory: number 1, head a half, fold order 2, cause 2, next check 1).

mod bolts;
mod book;
mod folds;
mod make_up;
mod sheet;
mod spine;
mod wrong_sheet;

use super::answer::Answer;
use super::marked::{Marked, halves};
use super::task::Task;

pub use book::fault_words;
pub(super) use book::faults;
pub use folds::fold_words;
pub(super) use make_up::plans;
pub(super) use sheet::{landing, printed_side};
pub(super) use spine::design;
pub(super) use wrong_sheet::causes;

/// A number, in half marks.
const NUMBER: u32 = 2;
/// A head.
const HEAD: u32 = 1;
/// A fold in its place.
const FOLD: u32 = 4;
/// A cause.
const CAUSE: u32 = 4;
/// The next check.
const CHECK: u32 = 2;

/// What the hints of an exercise cost, in half marks, in order.
pub const HINTS_COST: [u32; 3] = [1, 2, 3];

/// A right answer.
pub(super) fn right(task: &Task) -> Option<Answer> {
    match task {
        Task::NumberSheet { course, first_page, .. } | Task::SetHeads { course, first_page, .. } => {
            Some(Answer::Sheet(sheet::right(course, *first_page)?))
        }
        Task::FindFolds { side_a, side_b, folds } => {
            folds::right(side_a, side_b, *folds as usize).map(|scheme| Answer::Folds(scheme.folds))
        }
        Task::WrongSheet { .. } => wrong_sheet::right(task),
        Task::WrongBook { sections, found, wrong, checks } => book::right(*sections, found, *wrong as usize, checks),
        Task::MakeUp { job } => Some(Answer::MakeUp(plans(job)?.plans.first()?.pages_of_sections())),
        Task::BackMarks { sections, spine_mm, backs } => design(*sections, *spine_mm, backs).map(Answer::BackMarks),
        Task::Bolts { course, sheet, trims, caliper, .. } => {
            bolts::right(course, *sheet, trims, *caliper).map(Answer::Bolts)
        }
    }
}

/// Marks an answer.
pub(super) fn mark(task: &Task, answer: &Answer, hints: u32) -> Marked {
    let marked = match task {
        Task::NumberSheet { course, first_page, .. } => {
            sheet::mark(course, *first_page, if let Answer::Sheet(cells) = answer { Some(cells) } else { None }, true)
        }
        Task::SetHeads { course, first_page, .. } => {
            sheet::mark(course, *first_page, if let Answer::Sheet(cells) = answer { Some(cells) } else { None }, false)
        }
        Task::FindFolds { side_a, side_b, folds } => {
            let given: &[_] = if let Answer::Folds(folds) = answer { folds } else { &[] };
            folds::mark(side_a, side_b, *folds as usize, given)
        }
        Task::WrongSheet { .. } => wrong_sheet::mark(task, answer),
        Task::WrongBook { sections, found, wrong, checks } => {
            let (given, check): (&[_], _) =
                if let Answer::WrongBook { faults, check } = answer { (faults, *check) } else { (&[], None) };
            book::mark(*sections, found, *wrong as usize, checks, given, check)
        }
        Task::MakeUp { job } => make_up::mark(job, if let Answer::MakeUp(sections) = answer { sections } else { &[] }),
        Task::BackMarks { sections, spine_mm, backs } => {
            let given = if let Answer::BackMarks(design) = answer { Some(design) } else { None };
            spine::mark(*sections, *spine_mm, backs, given)
        }
        Task::Bolts { course, sheet, trims, caliper, .. } => {
            let given: &[_] = if let Answer::Bolts(leaves) = answer { leaves } else { &[] };
            bolts::mark(course, *sheet, trims, *caliper, given)
        }
    };
    told(marked.unwrap_or_else(|| Marked::of_items(Vec::new())), hints)
}

/// Takes off what hints cost, and sums up in words.
fn told(mut marked: Marked, hints: u32) -> Marked {
    let whole = marked.got;
    marked.hints_cost = HINTS_COST.iter().take(hints as usize).sum::<u32>().min(whole);
    marked.got = whole - marked.hints_cost;
    let mut says = vec![format!("{} of {} marks.", halves(marked.got), halves(marked.of))];
    if marked.hints_cost > 0 {
        says.push(format!("Hints took {} off.", halves(marked.hints_cost)));
    }
    if marked.all_right() {
        says.push("Everything is right.".into());
    }
    says.extend(marked.departs.iter().map(|d| d.says.clone()));
    let reasons = marked.items.iter().map(|item| &item.says).filter(|s| !s.is_empty());
    for reason in reasons {
        if !says.contains(reason) {
            says.push(reason.clone());
        }
    }
    says.append(&mut marked.says);
    marked.says = says;
    marked
}

/// Whether a person gave anything for an item, or why there is nothing to say.
fn not_given(given: bool, otherwise: String) -> String {
    if given { otherwise } else { String::new() }
}
