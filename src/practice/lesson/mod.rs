//! A path of lessons: short, on the bench, each step a thing to do with a goal that can be checked.
//!
//! ```text
//! Lesson ─ start: OnBench ─ Step ─┬─ does    what to do            OnBench + Deed ─ OnBench
//!                                 ├─ goal ── reached(OnBench)      Step + OnBench ─ answer (what a doing made)
//!                                 └─ shows   said once it is done
//! ```
//!
//! | file | what it does |
//! | --- | --- |
//! | `bench` | what lies on the bench, as far as lessons look at it |
//! | `deed` | what is done there |
//! | `goal` | what has to have come about |
//! | `answer` | what is said of a doing that did not lead there: what it made |
//! | `run` | books of a run by their counter numbers, opened one by one |
//! | `path` | the lessons |
//!
//! Every step names deeds that reach its goal, for whoever wants to be shown; tests play all lessons through by them.

mod answer;
mod bench;
mod deed;
mod goal;
mod path;
mod run;

pub use bench::{OnBench, Ticks};
pub use deed::Deed;
pub use goal::Goal;
pub use path::lessons;
pub use run::Run;

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
    /// Whether the folds are to be found. Then nothing on the bench may give them away, neither the rule nor a mark at the
    /// crease that comes next.
    pub finds: bool,
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

impl Lesson {
    /// What lies on the bench when a step begins, counted from 0, if all before it were done as their deeds say.
    #[must_use]
    pub fn before(&self, step: usize) -> OnBench {
        let deeds = self.steps.iter().take(step).flat_map(|step| &step.deeds);
        deeds.fold(self.start.clone(), |bench, deed| bench.after(deed))
    }
}
