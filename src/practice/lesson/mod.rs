//! A path of lessons: short, on the bench, each step a thing to do with a goal that can be checked.
//!
//! `path.rs` has the lessons; `bench.rs` what a goal looks at, and the deeds that reach it. Every step names deeds that
//! reach its goal, for whoever wants to be shown; tests play all lessons through by them.

mod bench;
mod path;

pub use bench::{Deed, Goal, OnBench};
pub use path::lessons;

/// Said where nothing is done at a machine. Classroom rule, from memory.
pub const BY_HAND: &str = "This is a hand exercise: no machine, a bone folder at the most.";

/// Said where a step sends someone to a machine. Safety at printing and bookbinding machines: common practice; the
/// guidance of health and safety authorities says the same of jams and setting up.
pub const AT_A_MACHINE: &str = "Before you look at a machine it is stopped, isolated and run down. Guards stay shut, and \
     only trained people open it.";

/// One thing to do.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// What to do, in a sentence or two.
    pub does: &'static str,
    /// What has come about when it is done.
    pub goal: Goal,
    /// One way of doing it.
    pub deeds: Vec<Deed>,
    /// What it shows, said once it is done.
    pub shows: &'static str,
}

/// A lesson.
#[derive(Clone, Debug, PartialEq)]
pub struct Lesson {
    /// Its name.
    pub title: &'static str,
    /// [`BY_HAND`] or [`AT_A_MACHINE`].
    pub note: &'static str,
    /// What lies on the bench to begin with.
    pub start: OnBench,
    /// The steps in order.
    pub steps: Vec<Step>,
}
