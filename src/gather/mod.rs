//! Sections taken in order, the faults in a gathered book, and their explanation.
//!
//! A book comes in as what was [`Found`] on each back, from front to back: read from marks
//! ([`crate::marks::read_spine`]), typed as a run, or seen on a [`Stack`] that a person spoiled. [`explain()`] finds the
//! fewest [`Fault`]s that make a right book into it. Places, stations and sections count from 1.
//!
//! | file | what it does |
//! | --- | --- |
//! | `fault` | the kinds of fault |
//! | `explain` | the fewest faults for a book, and every way to have so few; how they are ranked, and accounted for |
//! | `places` | a list of faults told over: the book it makes, and where each station came to lie |
//! | `run` | the typed run, read and written |
//! | `stack` | the book on the bench, spoiled by hand, and what a checker sees of it |
//! | `blind` | what the marks of a design can't show in a book, found by acting everything out |
//! | `verdict`, `tell`, `say` | the words: verdict, a line a fault, phrases |
//!
//! Nothing here knows a press or a folder: a section that shows no mark is only said to be folded wrongly or turned
//! away.

pub mod blind;
pub mod explain;
mod fault;
mod places;
pub mod run;
pub(crate) mod say;
pub mod stack;
mod tell;
mod verdict;

pub use crate::marks::{Found, Lies, Refusal};
pub(crate) use explain::CAUTION;
pub use explain::{Account, Explained, Explanation, Odds, explain, explain_with};
pub use fault::Fault;
pub use places::retold;
pub use stack::Stack;
pub use verdict::{
    Checked, Line, Told, Verdict, check, check_backs, check_backs_with, check_found, check_found_with, verdict,
};
