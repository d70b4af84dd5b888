//! What can be set.

use serde::{Deserialize, Serialize};
use thiserror::Error;

/// How many levels every kind has; they count from 1.
pub const LEVELS: u8 = 5;

/// A kind of exercise.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Kind {
    /// Number a blank sheet from its folds.
    NumberSheet,
    /// Set the heads on a sheet whose numbers are given.
    SetHeads,
    /// Find the folds from the layout.
    FindFolds,
    /// Say what was done wrong to a section, from its pages.
    WrongSheet,
    /// Say which section is wrong in a book, from its backs.
    WrongBook,
    /// Make a book up in sections.
    MakeUp,
    /// Lay out back marks.
    BackMarks,
    /// Say which bolts the trim opens.
    Bolts,
}

/// Why there is no such exercise.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum NoExercise {
    /// The level is none.
    #[error("Exercises have levels 1 to {LEVELS}.")]
    Level,
    /// The kind is none.
    #[error("There is no such kind of exercise.")]
    Kind,
    /// The dice gave nothing that can be set. It does not happen with the kinds at hand; a test tries many.
    #[error("Nothing could be set from this number. Take another one.")]
    NotMade,
}

impl NoExercise {
    /// The field that is to blame.
    #[must_use]
    pub const fn at(&self) -> &'static str {
        match self {
            Self::Level => "level",
            Self::Kind => "kind",
            Self::NotMade => "seed",
        }
    }
}

impl Kind {
    /// All, in the order in which they are learnt. Links and codes name a kind by its place here: only append.
    pub const ALL: [Self; 8] = [
        Self::NumberSheet,
        Self::SetHeads,
        Self::FindFolds,
        Self::WrongSheet,
        Self::WrongBook,
        Self::MakeUp,
        Self::BackMarks,
        Self::Bolts,
    ];

    /// Its number in links and codes, from 1.
    #[must_use]
    pub fn number(self) -> u8 {
        Self::ALL.iter().zip(1..).find_map(|(kind, number)| (*kind == self).then_some(number)).unwrap_or(0)
    }

    /// The kind of a number.
    #[must_use]
    pub fn of_number(number: u8) -> Option<Self> {
        Self::ALL.get(usize::from(number).checked_sub(1)?).copied()
    }

    /// What is asked, in a few words.
    #[must_use]
    pub const fn title(self) -> &'static str {
        match self {
            Self::NumberSheet => "Number the blank sheet",
            Self::SetHeads => "Set the heads",
            Self::FindFolds => "Find the folds",
            Self::WrongSheet => "What was done to this sheet?",
            Self::WrongBook => "Which section is wrong?",
            Self::MakeUp => "Make the book up in sections",
            Self::BackMarks => "Lay out the back marks",
            Self::Bolts => "Which bolts does the trim open?",
        }
    }

    /// What is asked, in whole sentences.
    #[must_use]
    pub const fn asks(self) -> &'static str {
        match self {
            Self::NumberSheet => {
                "Fold a blank sheet as it is told here, number its pages from front to back, and open it: which number \
                 stands where on both sides, and which way does its head point? Side B is seen after turning the sheet \
                 left to right."
            }
            Self::SetHeads => "The numbers stand on the sheet. Say of each page which way its head points.",
            Self::FindFolds => {
                "Both sides of a printed sheet are given. Say the folds, in order, that bring its pages into order."
            }
            Self::WrongSheet => {
                "The pages of a folded section are told from front to back. Say what was done to the sheet, and what to \
                 look at next."
            }
            Self::WrongBook => {
                "The backs of a gathered book are told from front to back. Say which section is wrong, what happened, and \
                 what to look at next."
            }
            Self::MakeUp => "Say the sections of this book from front to back, each by its number of pages.",
            Self::BackMarks => {
                "Lay out the back marks of this book: where the first one begins, how long each is, how far the steps \
                 are, and how many levels there are."
            }
            Self::Bolts => {
                "Say of each leaf at its head, tail and fore-edge whether there is no bolt, whether the trim opens the \
                 bolt, or whether it stays closed."
            }
        }
    }
}
