//! Worksheets on paper: the exercises with the blanks that they need, and the key with the right answers in the same places.
//!
//! ```text
//! Worksheet (practice) ─ variant ─┬─ head, exercise, exercise …       sheet
//!                                 └─ head, exercise filled in …       key
//! ```
//!
//! An exercise is a block of its own and is never cut. The same code draws it blank and filled in, so that answers stand in the
//! key where they stand on the sheet. What is right is asked of the exercise when the key is made, and nowhere else.
//!
//! | file | what it draws |
//! | --- | --- |
//! | `heading` | what stands at the head of a variant: names, outcomes, cautions, codes |
//! | `exercise` | the frame of an exercise: number, code, what is asked, marks |
//! | `asks` | what is asked, in words for paper |
//! | `told` | a sheet and its folds in words |
//! | `grid` | both sides of a sheet, blank or filled |
//! | `on_sheet` | exercises about a sheet: to number, heads, folds, bolts |
//! | `section` | a wrong section: its pages in a row |
//! | `spines` | a wrong book: its backs in a row |
//! | `book` | a book made up, and its back marks |
//! | `boxes` | boxes to tick and to write in |

mod asks;
mod book;
mod boxes;
mod exercise;
mod grid;
mod heading;
mod on_sheet;
mod section;
mod spines;
mod told;

use super::document::{Document, Page};
use super::flow::{Block, document, headed, pages, room};
use super::printer::Paper;
use crate::marks::Refusal;
use crate::practice::{Answer, Exercise, Marked, Worksheet};

/// How a worksheet is printed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct WorksheetLook {
    /// What stands at its head; `Worksheet` where it is empty.
    pub title: String,
    /// The class or course; a line to write on where it is empty.
    pub class: String,
    /// The date; a line to write on where it is empty.
    pub date: String,
    /// The paper.
    pub paper: Paper,
    /// Printed on both sides of the paper, each variant begins on a leaf of its own.
    pub both_sides: bool,
}

/// Longer titles and dates are cut.
const MOST_LETTERS: usize = 60;

/// A printed worksheet.
#[derive(Clone, Debug, PartialEq)]
pub struct PrintedWorksheet {
    /// The sheets to be handed out, variant after variant.
    pub sheet: Document,
    /// How many pages each variant takes.
    pub pages: Vec<usize>,
}

/// A variant that is being laid out.
struct Variant<'a> {
    /// Its number, from 1.
    number: usize,
    exercises: &'a [Exercise],
    /// The number that the seeds were rolled from.
    seed: Option<u64>,
    look: &'a WorksheetLook,
    /// Whether it is filled in.
    key: bool,
    /// Half marks that there are in all.
    total: u32,
}

/// What is marked of an exercise, and what is right, in the key alone. Searching for it takes longer than drawing it, so it is
/// done once.
struct Solved {
    right: Option<Answer>,
    marked: Marked,
}

impl Solved {
    fn of(exercise: &Exercise, key: bool) -> Self {
        let right = key.then(|| exercise.right());
        let marked = exercise.mark(right.as_ref().unwrap_or(&Answer::Nothing), 0);
        Self { right, marked }
    }
}

/// The sheets, blank.
///
/// # Errors
/// When they would take more pages than a document has.
pub fn worksheet(sheet: &Worksheet, look: &WorksheetLook) -> Result<PrintedWorksheet, Refusal> {
    printed(sheet, look, false)
}

/// The key: the same sheets filled in.
///
/// # Errors
/// When it would take more pages than a document has.
pub fn worksheet_key(sheet: &Worksheet, look: &WorksheetLook) -> Result<PrintedWorksheet, Refusal> {
    printed(sheet, look, true)
}

fn printed(sheet: &Worksheet, look: &WorksheetLook, key: bool) -> Result<PrintedWorksheet, Refusal> {
    let look = &WorksheetLook {
        title: cut(if look.title.trim().is_empty() { "Worksheet" } else { &look.title }),
        class: cut(&look.class),
        date: cut(&look.date),
        ..*look
    };
    let (mut all, mut counts): (Vec<Page>, Vec<usize>) = (Vec::new(), Vec::new());
    for (number, exercises) in (1..).zip(&sheet.variants) {
        let solved: Vec<Solved> = exercises.iter().map(|exercise| Solved::of(exercise, key)).collect();
        let total = solved.iter().map(|one| one.marked.of).sum();
        let own = Variant { number, exercises, seed: sheet.seed, look, key, total }.pages(solved);
        counts.push(own.len());
        all.extend(own);
        if look.both_sides && !key && all.len() % 2 == 1 && number < sheet.variants.len() {
            let (width_mm, height_mm) = look.paper.size_mm();
            all.push(Page { width_mm, height_mm, drawn: Vec::new() });
        }
    }
    let title = if key { format!("{}: key", look.title) } else { look.title.clone() };
    Ok(PrintedWorksheet { sheet: document(title, all)?, pages: counts })
}

fn cut(words: &str) -> String {
    words.trim().chars().take(MOST_LETTERS).collect()
}

impl Variant<'_> {
    fn pages(&self, solved: Vec<Solved>) -> Vec<Page> {
        let paper = self.look.paper;
        let head = heading::heading(self);
        // What an exercise may take, so that the first one has room below the head.
        let high = room(paper).1 - head.high - 4.0;
        let mut blocks: Vec<Block> = vec![head];
        let mut before: Option<&Exercise> = None;
        for (number, (exercise, solved)) in (1..).zip(self.exercises.iter().zip(solved)) {
            blocks.push(exercise::block(self, (number, exercise), solved, before, high));
            before = Some(exercise);
        }
        let name = if self.key { format!("Key · {}", self.look.title) } else { self.look.title.clone() };
        let code = self.exercises.first().and_then(Exercise::code).unwrap_or_default();
        headed(pages(blocks, paper), &format!("{name} · variant {} · code {code}", self.number), paper)
    }
}
