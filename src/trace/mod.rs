//! What went wrong with a whole book.
//!
//! A checker has one or several books that are out of order, and what else was noted: openings, bulk, counts, leftovers,
//! the log of the line. [`trace()`] brings it together and works through the questions of an experienced checker, in
//! their order:
//!
//! 1. Does each leaf carry its own two pages? If not, look at the press: no fold and no gathering parts the two sides of a
//!    leaf.
//! 2. Is the disorder inside one section, or between whole sections?
//! 3. Are bulk and section count less, the same, or more?
//! 4. Which books: one, a block, from a moment on, every so many, the whole run? What looks the same in one book may have
//!    causes that differ in this.
//!
//! ```text
//! Case ─ Read (spine, openings, inside, bulk, count -> one row) ─ Stories (faults that make the row)
//!      ─ Extent (counters, judgements, leftovers, log) ┴─ Drafts (machines and hands that do that) ─ weighed ─ Cause
//! ```
//!
//! Nothing is recognised by its look: faults are acted out, and what comes of it is held against each piece of evidence.
//! Pieces that can't be brought together are said, and a rival cause is refused by the first place at which its book is
//! another one.
//!
//! | file | what it does |
//! | --- | --- |
//! | `case` | the evidence, and its bounds |
//! | `letters`, `opening`, `inside`, `read` | one book: signatures, openings, pages inside a section, all of it as one row |
//! | `pieces`, `story`, `tried` | pieces of evidence, and the faults that give them |
//! | `plates` | plates and wraps |
//! | `extent`, `tally` | which books: the patterns, and how likely each is; what leftovers say |
//! | `causes` | drafts of causes, weighed and ranked |
//! | `questions`, `contradict` | the four questions, and evidence that contradicts itself |
//! | `trace` | all of it in order |
//! | `odds` | the weights, which a person may change |
//! | `told` | the answer as values |
//! | `words` | numbers and lists in words |

mod case;
mod causes;
mod contradict;
mod extent;
mod inside;
mod letters;
mod odds;
mod opening;
mod pieces;
mod plates;
mod questions;
mod read;
mod story;
mod tally;
mod told;
#[allow(clippy::module_inception, reason = "the folder is named after what this file does")]
mod trace;
mod tried;
mod words;

pub use case::{Case, Inside, LONGEST, MOST_BOOKS, SeenBook, Spine, Stopped, Stopper};
pub use letters::read_run;
pub use odds::{Figure, Odds};
pub use told::{Answered, BookRead, Cause, Contradiction, Extent, InsideCause, Pattern, Stage, Traced};
pub use trace::trace;
