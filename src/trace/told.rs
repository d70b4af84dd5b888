//! The answer: what was read, the four questions, what contradicts itself, and the causes, ranked. Everything is a sentence
//! that can be shown as it is, with the numbers beside it.

use super::odds::Figure;
use crate::fold::Scheme;
use crate::fold::misfold::Happened;
use crate::gather::Fault;
use crate::marks::Found;
use serde::Serialize;

/// Where in the shop a cause lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Stage {
    /// Printing.
    Press,
    /// Folding, with the feeding of the sheet and the bundles that come of it.
    Folder,
    /// Plates and wraps put to their sections.
    Tipping,
    /// Gathering.
    Gathering,
    /// Dividing and sewing.
    Sewing,
    /// Hands, away from the machines.
    Hand,
}

impl Stage {
    /// What it is called, as a title.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Press => "Press",
            Self::Folder => "Folder",
            Self::Tipping => "Plates and wraps",
            Self::Gathering => "Gathering",
            Self::Sewing => "Sewing",
            Self::Hand => "By hand",
        }
    }
}

/// How the wrong books lie in the run.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Pattern {
    /// One book.
    OneBook,
    /// A few books close together.
    Burst,
    /// A block of books one after the other, with good ones before and behind.
    Block,
    /// From a moment on, every book.
    FromAMoment,
    /// Every second, third, … book.
    EveryMth,
    /// The whole run.
    WholeRun,
    /// Here and there.
    Scattered,
}

impl Pattern {
    /// All, in the order of tables.
    pub const ALL: [Self; 7] =
        [Self::OneBook, Self::Burst, Self::Block, Self::FromAMoment, Self::EveryMth, Self::WholeRun, Self::Scattered];

    /// In a few words.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::OneBook => "one book",
            Self::Burst => "a few books close together",
            Self::Block => "a block of books",
            Self::FromAMoment => "every book from a moment on",
            Self::EveryMth => "every so many books",
            Self::WholeRun => "the whole run",
            Self::Scattered => "books here and there",
        }
    }
}

/// How many books are wrong, and since when.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Extent {
    /// The likeliest pattern; `null` where no books with a counter were judged.
    pub pattern: Option<Pattern>,
    /// Whether nothing else goes with what is known.
    pub sure: bool,
    /// Other patterns that go with it.
    pub or: Vec<Pattern>,
    /// The last good book before the first bad one.
    pub last_good: Option<u32>,
    /// The first book found bad.
    pub first_bad: Option<u32>,
    /// The last book found bad.
    pub last_bad: Option<u32>,
    /// The first good book behind the last bad one.
    pub good_again: Option<u32>,
    /// Every so many books one is bad, where the pattern is that.
    pub every: Option<u32>,
    /// How many books are wrong by the leftovers, where they tell.
    pub tally: Option<u32>,
    /// The books from this to that number are wrong, as far as can be reckoned.
    pub books: Option<[u32; 2]>,
}

/// One book, read.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BookRead {
    /// Its place in the case, from 1.
    pub book: u32,
    /// What the counter showed.
    pub counter: Option<u32>,
    /// In words: `The book at counter 1,430`.
    pub name: String,
    /// What was seen, each in a sentence.
    pub finds: Vec<String>,
    /// The row of sections that spine and openings give together; empty where nobody saw it.
    pub row: Vec<Found>,
    /// The same, typed.
    pub run: String,
    /// What is wrong with it in one sentence, or that nothing is.
    pub says: String,
    /// Good, as far as it was seen; `null` where that is not known.
    pub right: Option<bool>,
}

/// One of the four questions, answered.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Answered {
    /// Which one, from 1.
    pub number: u32,
    /// The question.
    pub asks: String,
    /// The answer in a few words.
    pub answer: String,
    /// Whether the evidence answers it.
    pub known: bool,
    /// The evidence that was used, each in a sentence.
    pub evidence: Vec<String>,
    /// The working, each step in a sentence.
    pub reasoning: Vec<String>,
    /// What that rules out.
    pub rules_out: Vec<String>,
    /// What to look at where evidence lacks.
    pub look: Option<String>,
}

/// Pieces of evidence that can't all be right.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Contradiction {
    /// The book, from 1, where it is about one.
    pub book: Option<u32>,
    /// What does not go together, naming each piece.
    pub says: String,
}

/// A cause inside a section, as the check of a section gives it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct InsideCause {
    /// The section of the book.
    pub section: u32,
    /// The number of its first page, in the numbering in which its pages were typed.
    pub first_page: u32,
    /// The pages found, typed in that numbering; `tell_section` takes it as `typed`.
    pub typed: String,
    /// Whether its fold was at the fore-edge.
    pub fore_edge: bool,
    /// How it should be folded.
    pub scheme: Option<Scheme>,
    /// What was done to it; `tell_section` takes it in `made`.
    pub cause: Option<Happened>,
}

/// A cause.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Cause {
    /// Its name among the odds.
    pub kind: String,
    /// Where in the shop.
    pub stage: Stage,
    /// The same as a title.
    pub place: String,
    /// The station of the gathering line, where it is about one.
    pub station: Option<u32>,
    /// The section it is about, where it is about one.
    pub section: Option<u32>,
    /// What happened, in one sentence.
    pub title: String,
    /// Whether it gives everything that was seen.
    pub fits: bool,
    /// Its share among the causes that fit, 0 to 1; 0 where it does not fit.
    pub share: f64,
    /// What it does to the row of sections.
    pub faults: Vec<Fault>,
    /// The book it makes, from front to back; empty where the row stays right.
    pub row: Vec<Found>,
    /// The same, typed.
    pub run: String,
    /// The first places, from 1, at which that book is not a right one.
    pub places: Vec<u32>,
    /// The books of the case that it gives, from 1.
    pub books: Vec<u32>,
    /// The counter numbers it makes wrong, where they can be reckoned.
    pub counters: Option<[u32; 2]>,
    /// Why it ranks here: each reason in a sentence.
    pub why: Vec<String>,
    /// What speaks against it, each in a sentence.
    pub against: Vec<String>,
    /// What to look at next.
    pub next_check: String,
    /// What to mind while looking; empty where no machine is looked at.
    pub caution: String,
    /// What is done about the books.
    pub remedy: String,
    /// How it is opened on the bench, where it lies inside a section.
    pub inside: Option<InsideCause>,
}

/// Everything about a case.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Traced {
    /// The books, in the order of the case.
    pub books: Vec<BookRead>,
    /// The four questions, in order.
    pub questions: Vec<Answered>,
    /// What contradicts itself.
    pub contradictions: Vec<Contradiction>,
    /// The causes: those that fit, the likeliest first; then those a person may think of that do not.
    pub causes: Vec<Cause>,
    /// The extent as numbers.
    pub extent: Extent,
    /// What can't be told, or was not looked at.
    pub cannot_tell: Vec<String>,
    /// Everything that was looked at is right.
    pub right: bool,
    /// The odds that the causes were ranked by, with their sources.
    pub odds: Vec<Figure>,
}
