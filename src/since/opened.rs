//! Books that were opened, and what was found.

use super::{Line, Refusal};
use serde::{Deserialize, Serialize};

/// The most opened books.
pub const MOST_OPENED: usize = 10_000;

/// What the checker found in a book.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Judged {
    /// The fault is not in it.
    Good,
    /// It has the fault.
    Bad,
}

/// An opened book.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Opened {
    /// Its counter number.
    pub counter: u32,
    /// What was found.
    pub judged: Judged,
}

impl Opened {
    /// A book found good.
    #[must_use]
    pub const fn good(counter: u32) -> Self {
        Self { counter, judged: Judged::Good }
    }

    /// A book found bad.
    #[must_use]
    pub const fn bad(counter: u32) -> Self {
        Self { counter, judged: Judged::Bad }
    }
}

/// Whether the opened books are of the run. Paths begin with the number in the list: `[3].counter`.
///
/// # Errors
/// Where a book is not of the run, or where there are too many.
pub fn check_opened(line: &Line, opened: &[Opened]) -> Result<(), Refusal> {
    if opened.len() > MOST_OPENED {
        return Err(Refusal::new("", format!("at the most {MOST_OPENED} opened books are read")));
    }
    match opened.iter().position(|o| !(line.first..=line.last).contains(&o.counter)) {
        Some(i) => {
            let says = format!("the books of this run have counter numbers from {} to {}", line.first, line.last);
            Err(Refusal::new(format!("[{i}].counter"), says))
        }
        None => Ok(()),
    }
}
