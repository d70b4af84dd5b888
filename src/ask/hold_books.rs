//! `hold_books`: which books of a run to hold, and which to release.

use super::error::Refusal;
use crate::since::{Evidence, Hold, hold};

pub(super) fn answer(ask: &Evidence) -> Result<Hold, Refusal> {
    Ok(hold(ask)?)
}
