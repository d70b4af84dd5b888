//! One thing that can be wrong with a book, those among them that no mark shows.

use serde::{Deserialize, Serialize};

use crate::gather::fault::Fault;
use crate::gather::say;

/// One thing that is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(untagged)]
pub enum Wrong {
    /// A fault that an explanation can name.
    Fault(Fault),
    /// One that it can't.
    More(More),
}

/// What no explanation of backs names.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
pub enum More {
    /// The station held a section of another job that is marked as ours is.
    ForeignAlike {
        /// The station.
        at: u32,
    },
    /// The pages of the section are printed wrongly; the sheet is folded as it should be.
    Press {
        /// The section.
        section: u32,
    },
    /// An inner sheet of the section is not there.
    InnerMissing {
        /// The section.
        section: u32,
    },
    /// An inner sheet of the section is there twice.
    InnerTwice {
        /// The section.
        section: u32,
    },
    /// An inner sheet of the section is that of the next section (of the first one, in the last).
    InnerOfOther {
        /// The section.
        section: u32,
    },
    /// An inner sheet of the section lies head to tail.
    InnerTurned {
        /// The section.
        section: u32,
    },
}

impl Wrong {
    /// It as a half-sentence.
    pub(super) fn says(&self) -> String {
        match *self {
            Self::Fault(fault) => say::faults(&[fault]),
            Self::More(More::ForeignAlike { at }) => {
                format!("a section of another book marked alike at station {at}")
            }
            Self::More(More::Press { section }) => format!("section {section} printed wrongly"),
            Self::More(More::InnerMissing { section }) => format!("the inner sheet of section {section} missing"),
            Self::More(More::InnerTwice { section }) => format!("the inner sheet of section {section} twice"),
            Self::More(More::InnerOfOther { section }) => {
                format!("the inner sheet of another section in section {section}")
            }
            Self::More(More::InnerTurned { section }) => format!("the inner sheet of section {section} head to tail"),
        }
    }
}

impl From<Fault> for Wrong {
    fn from(fault: Fault) -> Self {
        Self::Fault(fault)
    }
}

impl From<More> for Wrong {
    fn from(more: More) -> Self {
        Self::More(more)
    }
}
