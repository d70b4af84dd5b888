//! The ways in which a fault may be spread, in words.

use crate::words::grouped;
use serde::{Deserialize, Serialize};

/// How a fault is spread.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
pub enum Pattern {
    /// One book.
    OneBook,
    /// Books that follow one another, and right ones before and after.
    Block,
    /// Every book from one on.
    FromAMoment,
    /// One book in so many, at even distances.
    EveryNth {
        /// The distance.
        every: u32,
    },
    /// Single books without an order.
    Scattered,
    /// Every book of the run.
    WholeRun,
}

impl Pattern {
    /// In a few words: `a block`.
    #[must_use]
    pub fn words(self) -> String {
        match self {
            Self::OneBook => "one book".into(),
            Self::Block => "a block".into(),
            Self::FromAMoment => "from a moment on".into(),
            Self::EveryNth { every: 0 | 1 } => "every so many books".into(),
            Self::EveryNth { every } => format!("every {}", nth(every)),
            Self::Scattered => "scattered books".into(),
            Self::WholeRun => "the whole run".into(),
        }
    }

    /// What usually spreads a fault so (common practice, no source).
    #[must_use]
    pub const fn comes_from(self) -> &'static str {
        match self {
            Self::OneBook => {
                "One book comes from a single feed that went wrong, or from a book filled by hand, most often next to a stop."
            }
            Self::Block => {
                "A block as large as a lift comes from the lift: what was loaded, and which way it lay. A short one next to a stop comes from starting again."
            }
            Self::FromAMoment => {
                "A fault from a moment on comes from what was changed then: a plate, a pile turned, a setting, a division that slipped."
            }
            Self::EveryNth { .. } => {
                "Every so many books comes from one of so many grippers, or from one lane of sections slit or printed side by side."
            }
            Self::Scattered => "Scattered books come from feeding: weak suckers, static, a caliper that is off.",
            Self::WholeRun => "The whole run comes from setting up: what is in which station, and which way it lies.",
        }
    }
}

/// `second`, `4th`, `21st`.
fn nth(n: u32) -> String {
    match (n, n % 10, n % 100) {
        (2, ..) => "second book".into(),
        (_, 1, r) if r != 11 => format!("{}st book", grouped(n)),
        (_, 2, r) if r != 12 => format!("{}nd book", grouped(n)),
        (_, 3, r) if r != 13 => format!("{}rd book", grouped(n)),
        _ => format!("{}th book", grouped(n)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_of_order() {
        let all = [2, 3, 4, 11, 12, 13, 21, 22, 1_001].map(nth);
        assert_eq!(all[..3], ["second book", "3rd book", "4th book"]);
        assert_eq!(all[3..], ["11th book", "12th book", "13th book", "21st book", "22nd book", "1,001st book"]);
    }
}
