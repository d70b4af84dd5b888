//! `look_alikes`: which causes make the same wrong section of a scheme.

use super::error::Refusal;
use super::explain_section::{check_first, one, refusal};
use crate::fold::Scheme;
use crate::fold::misfold::{self, Alikes};
use serde::Deserialize;

/// The request.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Ask {
    scheme: Scheme,
    #[serde(default = "one")]
    first_page: u32,
}

pub(super) fn answer(ask: &Ask) -> Result<Alikes, Refusal> {
    check_first(ask.first_page)?;
    misfold::look_alikes(&ask.scheme, ask.first_page).map_err(|why| refusal(&why))
}
