//! What a person can do with the finds of a wrong book.

use crate::since::{Judged, Logged};
use crate::trace::{Case, Inside, Spine, Stopped};

/// A change of the case. Books count from 0 here, in the order in which they were added.
#[derive(Clone, Debug, PartialEq)]
pub enum CaseAct {
    /// Look at another book, of which nothing is known yet.
    AddBook,
    /// Put a book aside.
    DropBook(usize),
    /// Note something about a book. The first book is there once something is noted about it.
    Note(usize, Find),
    /// Take the backs of the book that was gathered here, as they are seen, for the spine of a book.
    Gathered(usize),
    /// The bulk of a good book, in mm.
    GoodBulk(Option<f64>),
    /// The first and the last book of the run.
    Ends(Option<(u32, u32)>),
    /// Books made in an hour.
    PerHour(Option<u32>),
    /// Books between the last station and the counter; each station before it has one more, as on a line that fills one
    /// book at each place.
    Behind(Option<u32>),
    /// Something happened on the line.
    Log(Logged),
    /// Take back an entry of the log, from 0.
    Unlog(usize),
    /// What is left over at a station, or short; nothing takes the note away.
    Left(u32, Option<i32>),
    /// A book was opened and judged: its counter number.
    Judge(u32, Judged),
    /// State the odds of a cause otherwise, by its name; nothing is as stated by the program.
    Odds(String, Option<f64>),
    /// All odds as the program states them.
    OddsAsStated,
    /// Write something into the report of wrong books: which line, and what; nothing clears it.
    Write(&'static str, String),
    /// Read this case instead.
    Put(Box<Case>),
}

/// One thing that was found of a book. Nothing takes a find away.
#[derive(Clone, Debug, PartialEq)]
pub enum Find {
    /// What the counter showed.
    Counter(Option<u32>),
    /// The spine.
    Spine(Spine),
    /// Openings as printed.
    Openings(String),
    /// The pages of one section.
    Inside(Option<Inside>),
    /// How thick it is, in mm.
    Bulk(Option<f64>),
    /// How many sections were counted.
    Count(Option<u32>),
    /// What stopped the line at it.
    Stopped(Option<Stopped>),
    /// Good or bad.
    Judged(Option<Judged>),
    /// The pages behind which plates were found.
    Plates(Option<String>),
    /// The sections round which wraps were found.
    Wraps(Option<String>),
}
