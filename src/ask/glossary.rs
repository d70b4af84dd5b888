//! placeholder
use super::error::Refusal;
#[derive(serde::Deserialize)]
pub(super) struct Ask {}
pub(super) fn answer(_: &Ask) -> Result<u32, Refusal> { Ok(1) }
