//! What comes out of a run.

use crate::since::{Left, Line, Logged, Stopper};
use serde::Serialize;

/// A stop with its reason.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Stopped {
    /// What the counter showed.
    pub counter: u32,
    /// The book that was being filled, which was put right.
    pub book: u32,
    /// The station.
    pub station: u32,
    /// What stopped it.
    pub by: Stopper,
}

/// A book that is not as it should be.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct WrongBook {
    /// Its number.
    pub counter: u32,
    /// What it holds, from front to back, as a typed run.
    pub run: String,
}

/// A run that was played.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Played {
    /// The run by its counter numbers.
    pub line: Line,
    /// Books made.
    pub books: u32,
    /// Wrong books among them.
    pub wrong: u32,
    /// The first of them, as many as were asked for.
    pub wrong_books: Vec<WrongBook>,
    /// The numbers of wrong books as spans that have no right book in them, first and last; the first thousand.
    pub spans: Vec<[u32; 2]>,
    /// How often the line stopped.
    pub stops: u32,
    /// How often a station jammed.
    pub jams: u32,
    /// How often a station was reloaded.
    pub reloads: u32,
    /// Stops, jams and reloads in the order of the counter; the first thousand.
    pub log: Vec<Logged>,
    /// Why the line stopped each time; the first thousand.
    pub stopped: Vec<Stopped>,
    /// The stations at which something is over or short.
    pub left: Vec<Left>,
    /// What remains behind the last book where books were divided wrong, as a typed run.
    pub rest: String,
    /// Were all wrong books, spans, stops, jams and reloads listed?
    pub complete: bool,
    /// A number from everything that was played, listed or not: the same run has the same on every machine.
    pub digest: String,
    /// The run in a few sentences.
    pub says: Vec<String>,
}
