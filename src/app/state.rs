//! The state of the program, and what can be read off it.

use super::job::Job;
use super::look::Look;
use crate::gather::stack::Placed;
use std::rc::Rc;

/// How many steps back undo goes.
pub(super) const UNDO_DEPTH: usize = 500;

/// Everything the program knows.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct State {
    /// The job as it is.
    pub job: Rc<Job>,
    /// Where the person stands.
    pub look: Look,
    /// Jobs before, oldest first.
    pub past: Vec<Rc<Job>>,
    /// Jobs undone, the next to be redone last.
    pub future: Vec<Rc<Job>>,
    /// The last thing said to the person: a refusal, a finding, a confirmation.
    pub said: Option<String>,
}

impl State {
    /// What lies at the place that is on the bench.
    #[must_use]
    pub fn placed(&self) -> Placed {
        let at = (self.look.place as usize).saturating_sub(1);
        self.job.stack.placed().get(at).copied().unwrap_or(Placed::good(1))
    }
}
