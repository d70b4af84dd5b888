//! The report to hand in: what was wrong with a run of books, how many, where they are, what was done.
//!
//! A [`Report`] is a value: what a person wrote and what the rest of the program found. [`Report::sheet`] makes the sheet
//! from it, line by line; the same lines are shown on the screen, drawn for print ([`crate::scene::report_sheet`]) and
//! written as a table ([`csv`]). Nothing here knows the day: the date is a text like the others.
//!
//! | file | what it does |
//! | --- | --- |
//! | `vocabulary` | kinds of fault, and their names in two published vocabularies |
//! | `filled` | the report, its bounds, and what it takes from the books that are held |
//! | `sheet` | the lines of the sheet |
//! | `table` | the sheet as comma-separated values |

mod filled;
mod sheet;
mod table;
mod vocabulary;

pub use crate::marks::Refusal;
pub use filled::{Counts, MOST_LINES, MOST_TEXT, Report};
pub use sheet::{Row, Sheet};
pub use table::csv;
pub use vocabulary::{Grade, NOTICE_SOURCE, Notice, What};
