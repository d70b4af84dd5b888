//! Sections taken in order, the faults in a gathered book, and their explanation.
//!
//! A book comes in as what was [`Found`] on each back, from front to back: read from marks
//! ([`crate::marks::read_spine`]), typed as a run, or seen on a [`Stack`] that a person spoiled. [`explain`] finds the
//! fewest [`Fault`]s that make a right book into it. Places, stations and sections count from 1.

mod blind;
pub mod explain;
mod fault;
mod places;
pub mod run;
mod say;
pub mod stack;
mod tell;
mod verdict;

pub use crate::marks::{Found, Lies, Refusal};
pub use explain::{Explained, Explanation, explain};
pub use fault::Fault;
pub use places::retold;
pub use stack::Stack;
pub use verdict::{Checked, Line, Verdict, check, check_found, verdict};
