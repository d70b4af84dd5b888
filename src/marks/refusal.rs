//! Why an input can't be worked with.

use serde::Serialize;

/// A refused input: where it is wrong, and why, in words.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, thiserror::Error)]
#[error("{says}")]
pub struct Refusal {
    /// A path into the input, lists counted from 0: `found[3].section`.
    pub at: String,
    /// One or two sentences for a binder.
    pub says: String,
}

impl Refusal {
    /// A refusal of what stands at the path `at`.
    pub fn new(at: impl Into<String>, says: impl Into<String>) -> Self {
        Self {
            at: at.into(),
            says: says.into(),
        }
    }
}
