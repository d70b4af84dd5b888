//! What an answer is worth.

use crate::fold::misfold::{FoundPage, PrintedPage};
use crate::fold::{Course, Direction};
use serde::Serialize;

/// One thing that is marked.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Item {
    /// What is marked, as in "Side A, row 1, column 2: the number".
    pub what: String,
    /// What was given; empty where nothing was.
    pub given: String,
    /// What is right; of several right ones the one nearest to what was given.
    pub right: String,
    /// Half marks given.
    pub got: u32,
    /// Half marks that there are.
    pub of: u32,
    /// Why, in a sentence; empty where there is nothing to say.
    pub says: String,
}

/// Where what was answered first departs from what is right.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Departs {
    /// The place in the folded section or the book, counted from 1 at the front.
    pub place: u32,
    /// What would be read there: a number, or nothing.
    pub reads: Option<u32>,
    /// What is right there.
    pub right: Option<u32>,
    /// It in a sentence.
    pub says: String,
}

/// What the answer would make, so that it can be put on the bench beside what is right.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Shown {
    /// The sheet and the folds as answered.
    pub course: Course,
    /// Side A as printed, row by row.
    pub side_a: Vec<Vec<Option<PrintedPage>>>,
    /// Side B as printed, as seen after turning the sheet left to right.
    pub side_b: Vec<Vec<Option<PrintedPage>>>,
    /// What would be read from front to back.
    pub pages: Vec<FoundPage>,
}

/// A marked answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Marked {
    /// What was marked.
    pub items: Vec<Item>,
    /// Half marks given, the cost of hints taken off.
    pub got: u32,
    /// Half marks that there are.
    pub of: u32,
    /// Half marks that hints cost.
    pub hints_cost: u32,
    /// The answer, folded or gathered, where it is wrong and can be.
    pub shown: Option<Shown>,
    /// Where it first departs from what is right.
    pub departs: Option<Departs>,
    /// The whole in sentences, as a teacher would tell it.
    pub says: Vec<String>,
}

/// Half marks as text: `7½`.
#[must_use]
pub fn halves(count: u32) -> String {
    match (count / 2, count % 2) {
        (0, 1) => "½".into(),
        (whole, 0) => whole.to_string(),
        (whole, _) => format!("{whole}½"),
    }
}

impl Item {
    /// An item that is right or not at all.
    pub(super) fn new(what: impl Into<String>, given: impl Into<String>, right: impl Into<String>, of: u32) -> Self {
        Self { what: what.into(), given: given.into(), right: right.into(), got: 0, of, says: String::new() }
    }

    /// The same with so many half marks.
    pub(super) fn worth(self, got: u32) -> Self {
        Self { got: got.min(self.of), ..self }
    }

    /// The same with a sentence.
    pub(super) fn saying(self, says: impl Into<String>) -> Self {
        Self { says: says.into(), ..self }
    }
}

impl Marked {
    /// Adds up items, without hints.
    pub(super) fn of_items(items: Vec<Item>) -> Self {
        let got = items.iter().map(|item| item.got).sum();
        let of = items.iter().map(|item| item.of).sum();
        Self { items, got, of, hints_cost: 0, shown: None, departs: None, says: Vec::new() }
    }

    /// Whether everything was right, hints or not.
    #[must_use]
    pub fn all_right(&self) -> bool {
        self.items.iter().all(|item| item.got == item.of)
    }
}

/// An arrow in a word: where a head points.
pub(super) const fn head_word(head: Direction) -> &'static str {
    match head {
        Direction::Up => "up",
        Direction::Right => "right",
        Direction::Down => "down",
        Direction::Left => "left",
    }
}
