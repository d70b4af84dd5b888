//! Three hints to every exercise, each of which leads further; only the last one gives a piece of the answer away.

use super::answer::{Answer, AtEdge};
use super::exercise::Exercise;
use super::judge::{self, HINTS_COST};
use super::marked::{halves, head_word};
use super::task::Task;
use crate::fold::misfold::Stage;
use crate::fold::{Crease, Landing, PageAt, Side, fold_name};
use crate::marks::Found;
use crate::units::mm;

/// A hint.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hint {
    /// What it says.
    pub says: String,
    /// What it costs, in half marks.
    pub costs: u32,
    /// What it costs, in words.
    pub price: String,
}

impl Exercise {
    /// The three hints, in the order in which they are taken.
    #[must_use]
    pub fn hints(&self) -> Vec<Hint> {
        let says = says(self).unwrap_or_default();
        let hint = |(says, costs): (String, u32)| {
            let price = format!("This hint costs {} {}.", halves(costs), if costs > 2 { "marks" } else { "mark" });
            Hint { says, costs, price }
        };
        says.into_iter().zip(HINTS_COST).map(hint).collect()
    }
}

fn place(landing: &Landing, page: &PageAt) -> String {
    let side = if page.face.side == Side::A { "A" } else { "B" };
    format!("side {side}, row {}, column {}", page.face.row + 1, page.face.column_seen(landing.columns) + 1)
}

fn says(exercise: &Exercise) -> Option<[String; 3]> {
    let right = exercise.right();
    Some(match (&exercise.task, &right) {
        (Task::NumberSheet { course, first_page, .. }, _) => {
            let landing = judge::landing(course)?;
            let (first, last) = (landing.page(1)?, landing.pages.last()?);
            let number = |page: &PageAt| page.page + first_page - 1;
            [
                format!("The section runs from page {} to page {}, and every leaf has two.", first_page, number(last)),
                format!(
                    "Page {} stands on side {}.",
                    number(first),
                    if first.face.side == Side::A { "A" } else { "B" }
                ),
                format!(
                    "Page {} stands on {}, its head pointing {}; page {} stands on {}.",
                    number(first),
                    place(&landing, first),
                    head_word(first.head),
                    number(last),
                    place(&landing, last)
                ),
            ]
        }
        (Task::SetHeads { course, first_page, .. }, _) => {
            let landing = judge::landing(course)?;
            let first = landing.page(1)?;
            let same = landing.pages.iter().filter(|p| p.head == first.head).count();
            [
                "Two pages that meet at a fold across the heads stand head to head or tail to tail.".into(),
                format!("{same} of the {} heads point as that of page {first_page} does.", landing.pages.len()),
                format!("The head of page {first_page} points {}.", head_word(first.head)),
            ]
        }
        (Task::FindFolds { .. }, Answer::Folds(folds)) => {
            let (first, last) = (folds.first()?, folds.last()?);
            let runs = if last.crease == Crease::Vertical { "top to bottom" } else { "left to right" };
            [
                "The last fold is the spine: pages that lie beside each other across it add up to one more than there are \
                 pages."
                    .into(),
                format!("In one way of folding it, the last crease runs from {runs}."),
                format!("In that way, the first fold is: {}.", fold_name(first)),
            ]
        }
        (Task::WrongSheet { first_page, pages, .. }, Answer::WrongSheet { causes, .. }) => {
            let wrong = (*first_page..).zip(pages).position(|(due, found)| found.page != Some(due))?;
            let stage = match causes.first()?.stage() {
                Stage::Press => "at the press",
                Stage::Folder => "at the folder",
                Stage::Gathering => "after folding",
            };
            [
                format!("Place {} from the front is the first that has another page than it should.", wrong + 1),
                format!("One cause that fits lies {stage}."),
                format!("That cause: {}", causes.first()?.title()),
            ]
        }
        (Task::WrongBook { sections, found, .. }, Answer::WrongBook { faults, .. }) => {
            let wrong = (1..).zip(found).position(|(due, back)| *back != Found::right(due)).unwrap_or(found.len());
            let named = faults.first()?.section?;
            [
                format!("Count: the book has {sections} sections, and {} backs are seen.", found.len()),
                format!("Place {} from the front is the first that is not as it should be.", wrong + 1),
                format!("Look at section {named}."),
            ]
        }
        (Task::MakeUp { job }, Answer::MakeUp(sections)) => {
            let largest = sections.iter().max()?;
            [
                format!(
                    "{} pages are {} times {largest}, and {} over.",
                    job.extent,
                    job.extent / largest,
                    job.extent % largest
                ),
                format!("{} sections are enough.", sections.len()),
                format!(
                    "The last section has {} pages, the one before it {}.",
                    sections.last()?,
                    sections.iter().rev().nth(1).unwrap_or(largest)
                ),
            ]
        }
        (Task::BackMarks { spine_mm, backs, sections }, Answer::BackMarks(design)) => [
            format!("Folds are out by a little: steps of less than {} mm are not safe.", mm(backs.least_step_mm())),
            format!(
                "Between the trims {} mm are left for {sections} marks.",
                mm(spine_mm - backs.head_trim_mm.unwrap_or(0.0) - backs.foot_trim_mm.unwrap_or(0.0))
            ),
            format!("With steps of {} mm it can be done.", mm(design.step_mm)),
        ],
        (Task::Bolts { .. }, Answer::Bolts(leaves)) => {
            let closed = leaves.iter().flat_map(|l| [l.head, l.tail, l.fore_edge]);
            let (mut bolts, mut shut) = (0, 0);
            for at in closed.flatten() {
                bolts += u32::from(at != AtEdge::Free);
                shut += u32::from(at == AtEdge::Closed);
            }
            [
                "Every fold but the last one makes bolts, at the edge where it comes to lie.".into(),
                format!("{bolts} edges of leaves hang in a bolt."),
                format!("{shut} of them stay closed."),
            ]
        }
        _ => return None,
    })
}
