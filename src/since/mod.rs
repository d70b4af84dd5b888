//! Since when, how many, and where they are now: the books of a run by their counter numbers.
//!
//! A checker has opened some books of a run and judged each good or bad; there may be a log of stops, jams and reloads,
//! and a count of the sections left over at each station. From these the folder says between which books the fault
//! began and ended, which book to open next, how many books there are, and which to hold.
//!
//! **Counter numbers.** One counter stands where finished books leave the line, and a book's number is what it shows when
//! that book has passed. [`Line`] says how many books lie between each station and the counter, and so which number a
//! book will get that is at a station now. Books, stations and sections count from 1.
//!
//! | file | what it does |
//! | --- | --- |
//! | `books` | books from one number to another, lists of them, numbers as text |
//! | `line` | the run: its counter numbers, the books between each station and the counter, the speed |
//! | `opened` | the opened books |
//! | `log` | stops, jams and reloads; leftovers |
//! | `bracket` | between which opened books the fault lies |
//! | `halve` | which book parts the cases best |
//! | `lifts` | into which books the sections of a lift went |
//! | `spread` | the ways in which a fault may be spread |
//! | `pattern` | which of them fit the opened books |
//! | `evidence` | all that is known, as one value |
//! | `plan` | which book to open next |
//! | `hold` | which books to hold, and which to release |
//! | `sample` | samples, and what they prove |
//! | `left` | what leftovers say, and what each kind of fault would leave |

mod books;
mod bracket;
mod evidence;
mod halve;
mod hold;
mod left;
mod lifts;
mod line;
mod log;
mod opened;
mod pattern;
mod plan;
mod sample;
mod spread;

pub use crate::marks::Refusal;
pub use books::{Books, count, joined, list_says, without};
pub use bracket::{Bracket, Brackets, brackets, in_order};
pub use evidence::{Evidence, GUARD};
pub use halve::{bound, open_next, parts};
pub use hold::{Held, Hold, hold};
pub use left::{Reckoned, Reconciled, Takes, agrees, leaves, reconcile};
pub use lifts::{Lift, Lifts, UNKNOWN_AHEAD, counter_after, lifts, made_before};
pub use line::{Line, MOST_COUNTER, MOST_STATIONS};
pub use log::{Fed, Happened, Left, Logged, MOST_LIFT, MOST_LOGGED, Stopper, check_left, check_log};
pub use opened::{Judged, MOST_OPENED, Opened, check_opened};
pub use pattern::{Patterns, Reading, Sure, patterns};
pub use plan::{MOST_PLANNED, Plan, next_opening};
pub use sample::{draw, most_bad, proves, sample_size};
pub use spread::Pattern;
