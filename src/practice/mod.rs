//! Exercises: set from a seed, answered on the bench, marked as a teacher marks.
//!
//! ```text
//! Kind + Level + seed ─ Exercise ─┬─ Task     what is set; nothing of the answer is in it
//!                                 ├─ right    a right answer, worked out by the engine when it is asked for
//!                                 ├─ hints    three, each of which costs marks
//!                                 └─ mark(Answer) ─ Marked (items in half marks, sentences, what the answer would read)
//! Exercise ─ code (to type in from paper)         Entry … ─ Logbook ─ Next (what to practise, and by which rule)
//! ```
//!
//! - The same kind, level and seed set the same exercise on every machine; a link or a code holds these three and no more.
//! - No answer is stored. Layouts come from folding, wrong sections from acting faults out, right causes from the searches of
//!   [`crate::fold::misfold`] and [`crate::gather`]: whatever explains what is seen is accepted, not only what was planted.
//! - Marks are counted in halves, so that they are exact.
//!
//! | file | what it does |
//! | --- | --- |
//! | `kind`, `exercise` | what can be set, and how it is set |
//! | `task`, `answer`, `marked` | the values: what is set, what is given, what it is worth |
//! | `make` | makes tasks from dice |
//! | `judge` | right answers, and marking |
//! | `unanswered` | what of an answer is still empty |
//! | `hint` | three hints to every exercise |
//! | `lesson` | a path of lessons on the bench, with goals that can be checked |
//! | `outcome` | published learning outcomes that an exercise serves |
//! | `logbook` | what was practised, what to practise next and by which rule, as a table |
//! | `code` | an exercise as seven signs |

mod answer;
mod code;
mod exercise;
mod hint;
mod judge;
mod kind;
pub mod lesson;
mod logbook;
mod make;
mod marked;
mod outcome;
mod task;
mod unanswered;

pub use answer::{Answer, AtEdge, Cell, LeafEdges, Pointed, SheetCells};
pub use code::{CODE_SIGNS, MOST_CODED, NotACode, code, exercise_of};
pub use exercise::Exercise;
pub use hint::Hint;
pub use judge::{HINTS_COST, fault_words, fold_words};
pub use kind::{Kind, LEVELS, NoExercise};
pub use logbook::{Entry, Logbook, MOST_ENTRIES, Next, NotKept, RULES, Total};
pub use marked::{Departs, Item, Marked, Shown, halves};
pub use outcome::{OUTCOMES, Outcome, outcomes};
pub use task::{PrintedCell, Task};
