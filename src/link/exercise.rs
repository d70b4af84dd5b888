//! A link to an exercise: its kind, its level and the number from which it is made. The answer is not in it: it is worked
//! out anew.

use super::refused::{Refused, holds};

/// An exercise.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Exercise {
    /// Which kind, by its number.
    pub kind: u8,
    /// Which level, from 1.
    pub level: u8,
    /// The number from which it is made.
    pub seed: u64,
}

/// The highest level.
pub const MOST_LEVELS: u8 = 9;

impl Exercise {
    /// What the link holds, in a sentence.
    #[must_use]
    pub fn says(&self) -> String {
        format!("It sets exercise number {} of level {}. The answer is not in it.", self.seed, self.level)
    }

    pub(super) fn body(&self) -> Vec<u8> {
        let mut body = vec![self.kind, self.level];
        let mut left = self.seed;
        // Seven bits a byte, the lowest first.
        while left >= 128 {
            body.push((left & 127) as u8 | 128);
            left >>= 7;
        }
        body.push(left as u8);
        body
    }

    pub(super) fn read(body: &[u8]) -> Result<Self, Refused> {
        let Some(([kind, level], seed)) = body.split_first_chunk() else { return holds("it sets no exercise.") };
        if *level == 0 || *level > MOST_LEVELS {
            return holds(format!("exercises have levels 1 to {MOST_LEVELS}."));
        }
        match number(seed) {
            Some(seed) => Ok(Self { kind: *kind, level: *level, seed }),
            None => holds("the number of its exercise can't be read."),
        }
    }
}

/// A number of seven bits a byte, in as few bytes as it takes.
pub(super) fn number(bytes: &[u8]) -> Option<u64> {
    let (last, before) = bytes.split_last()?;
    if *last >= 128 || (*last == 0 && !before.is_empty()) || before.iter().any(|b| *b < 128) {
        return None;
    }
    bytes.iter().rev().try_fold(0_u64, |all, b| all.checked_mul(128)?.checked_add(u64::from(b & 127)))
}
