//! `next_opening`: which book of a run to open next.

use super::error::Refusal;
use crate::since::{Evidence, Plan, next_opening};

pub(super) fn answer(ask: &Evidence) -> Result<Plan, Refusal> {
    Ok(next_opening(ask)?)
}
