//! A cause before it is weighed.

use super::super::extent::Likely;
use super::super::told::{InsideCause, Stage};
use crate::gather::Fault;

/// What the log of the line should show near the first wrong book.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(in crate::trace) enum Wish {
    /// Nothing.
    Nothing,
    /// One of these stations was reloaded.
    Reload(Vec<u32>),
    /// The line stopped, or jammed.
    Stop,
}

/// A cause before it is weighed.
#[derive(Clone, Debug)]
pub(in crate::trace) struct Draft {
    /// Its name among the odds.
    pub kind: &'static str,
    /// Where in the shop.
    pub stage: Stage,
    /// The station, if it is about one.
    pub station: Option<u32>,
    /// The section, if it is about one.
    pub section: Option<u32>,
    /// What happened.
    pub title: String,
    /// The next physical check.
    pub check: String,
    /// What is done about the books.
    pub remedy: String,
    /// How readily it makes each pattern of books, 0 to 1. From memory, after what each cause does.
    pub likes: Likely,
    /// What it does to the row.
    pub faults: Vec<Fault>,
    /// What the log should show.
    pub wish: Wish,
    /// What else is to be said for it.
    pub notes: Vec<String>,
    /// What else is to be said against it; then it does not fit.
    pub refused: Vec<String>,
    /// How it is opened on the bench.
    pub inside: Option<InsideCause>,
    /// A part of its weight that is not among the odds.
    pub weight: f64,
}

impl Draft {
    /// A cause of one kind that does this to the row.
    pub fn new(kind: &'static str, stage: Stage, faults: &[Fault], title: String) -> Self {
        Self {
            kind,
            stage,
            station: None,
            section: None,
            title,
            check: String::new(),
            remedy: String::new(),
            likes: [0.5; 7],
            faults: faults.to_vec(),
            wish: Wish::Nothing,
            notes: Vec::new(),
            refused: Vec::new(),
            inside: None,
            weight: 1.0,
        }
    }

    /// At a station.
    pub fn at(mut self, station: u32) -> Self {
        self.station = Some(station);
        self
    }

    /// About a section.
    pub fn of(mut self, section: u32) -> Self {
        self.section = Some(section);
        self
    }

    /// With the next check.
    pub fn check(mut self, check: impl Into<String>) -> Self {
        self.check = check.into();
        self
    }

    /// With the remedy.
    pub fn remedy(mut self, remedy: impl Into<String>) -> Self {
        self.remedy = remedy.into();
        self
    }

    /// With the patterns it makes: one book, a burst, a block, from a moment on, every so many, the whole run, scattered.
    pub const fn likes(mut self, likes: Likely) -> Self {
        self.likes = likes;
        self
    }

    /// With what the log should show.
    pub fn wish(mut self, wish: Wish) -> Self {
        self.wish = wish;
        self
    }

    /// With something to be said for it.
    pub fn note(mut self, note: impl Into<String>) -> Self {
        self.notes.push(note.into());
        self
    }
}

/// The patterns of things that happen in the shop, each from memory and common practice.
pub(in crate::trace) mod likes {
    use crate::trace::extent::Likely;

    /// A feed that fails once.
    pub const FEED: Likely = [1.0, 0.4, 0.03, 0.03, 0.1, 0.02, 0.3];
    /// A feed that fails again and again.
    pub const WEAK: Likely = [0.1, 1.0, 0.2, 0.3, 0.3, 0.1, 1.0];
    /// A stop, and hands.
    pub const STOP: Likely = [0.8, 1.0, 0.05, 0.02, 0.02, 0.01, 0.2];
    /// Hands, once.
    pub const ONCE: Likely = [1.0, 0.3, 0.03, 0.02, 0.02, 0.01, 0.5];
    /// A lift that was loaded wrongly; its end may not have been seen yet.
    pub const LIFT: Likely = [0.2, 0.3, 1.0, 0.6, 0.02, 0.02, 0.05];
    /// A pallet or a bundle.
    pub const PALLET: Likely = [0.03, 0.05, 0.8, 0.6, 0.02, 0.2, 0.05];
    /// A set-up: the whole run, or since the machine was set again.
    pub const SET_UP: Likely = [0.06, 0.03, 0.1, 0.6, 0.01, 1.0, 0.01];
    /// A set-up of the line that is seen soon.
    pub const FROM_THE_START: Likely = [0.05, 0.05, 0.2, 0.3, 0.01, 1.0, 0.01];
    /// Deliveries of a slit sheet in one pile.
    pub const MIXED: Likely = [0.3, 0.2, 0.4, 0.1, 1.0, 0.1, 0.9];
    /// A slip that is carried on until somebody sees it.
    pub const SLIP: Likely = [0.2, 0.2, 0.3, 1.0, 0.02, 0.5, 0.03];
    /// A detector that is off.
    pub const OFF: Likely = [0.05, 0.5, 0.3, 0.8, 0.2, 0.6, 1.0];
    /// A pile at the press.
    pub const PRESS_PILE: Likely = [0.15, 0.1, 0.7, 1.0, 0.02, 1.0, 0.05];
    /// A plate at the press.
    pub const PLATE: Likely = [0.1, 0.05, 0.3, 1.0, 0.02, 1.0, 0.02];
    /// A single sheet.
    pub const SHEET: Likely = [1.0, 0.4, 0.1, 0.05, 0.05, 0.02, 0.9];
}
