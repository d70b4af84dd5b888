//! `simulate`: a gathering line played from a seed, with planted faults.

use super::error::Refusal;
use crate::line::{Played, Run, play};

pub(super) fn answer(ask: &Run) -> Result<Played, Refusal> {
    Ok(play(ask)?)
}
