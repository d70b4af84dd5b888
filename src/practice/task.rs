//! What is set. Nothing here says what is right: that is worked out from it when it is asked for.

use crate::book::Job;
use crate::finish::Size;
use crate::fold::misfold::{Cause, FoldAt, FoundPage, PrintedPage};
use crate::fold::{Course, Scheme};
use crate::marks::{Backs, Found};
use crate::paper::{Length, Trims};

/// A place of a printed sheet; `None` where nothing is printed.
pub type PrintedCell = Option<PrintedPage>;

/// What is set.
#[derive(Clone, Debug, PartialEq)]
pub enum Task {
    /// A blank sheet is to be numbered.
    NumberSheet {
        /// What the trade calls it.
        name: String,
        /// The sheet, its folds and slits.
        course: Course,
        /// The number of its first page.
        first_page: u32,
    },
    /// The heads are to be set.
    SetHeads {
        /// What the trade calls it.
        name: String,
        /// The sheet, its folds and slits.
        course: Course,
        /// The number of its first page.
        first_page: u32,
        /// The numbers on side A, row by row.
        side_a: Vec<Vec<u32>>,
        /// The numbers on side B, as seen after turning the sheet left to right.
        side_b: Vec<Vec<u32>>,
    },
    /// The folds are to be found.
    FindFolds {
        /// Side A, row by row.
        side_a: Vec<Vec<PrintedCell>>,
        /// Side B, as seen after turning the sheet left to right.
        side_b: Vec<Vec<PrintedCell>>,
        /// How many folds there are.
        folds: u32,
    },
    /// What was done to a sheet is to be found.
    WrongSheet {
        /// What the trade calls it.
        name: String,
        /// The sheet and its folds, as they should be.
        scheme: Scheme,
        /// The number of its first page.
        first_page: u32,
        /// The pages found, front to back.
        pages: Vec<FoundPage>,
        /// The edge where the last fold is found.
        fold_at: FoldAt,
        /// How many things were done wrong.
        wrong: u32,
        /// What can be said to have been done wrong.
        menu: Vec<Cause>,
        /// What can be looked at next.
        checks: Vec<String>,
    },
    /// What is wrong with a book is to be found.
    WrongBook {
        /// The sections of the book.
        sections: u32,
        /// What is found on each back, front to back.
        found: Vec<Found>,
        /// How many things went wrong.
        wrong: u32,
        /// What can be looked at next.
        checks: Vec<String>,
    },
    /// A book is to be made up.
    MakeUp {
        /// The book, its paper and its run.
        job: Job,
    },
    /// Back marks are to be laid out.
    BackMarks {
        /// The sections of the book.
        sections: u32,
        /// Length of the spine before the cut, mm.
        spine_mm: f64,
        /// The backs: trims and folds.
        backs: Backs,
    },
    /// Opened bolts are to be named.
    Bolts {
        /// What the trade calls it.
        name: String,
        /// The sheet, its folds and slits.
        course: Course,
        /// The sheet as it lies.
        sheet: Size,
        /// What the knives take off.
        trims: Trims,
        /// Thickness of one leaf.
        caliper: Length,
    },
}
