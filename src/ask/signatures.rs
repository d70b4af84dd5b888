//! `signatures`: how the sections of a book are signed.

use super::error::Refusal;
use crate::book::{Alphabet, Doubling, Signing, Start, signatures};
use serde::{Deserialize, Serialize};

/// The request.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Ask {
    sections: u32,
    alphabet: Alphabet,
    #[serde(default)]
    start: Start,
    #[serde(default)]
    doubling: Doubling,
}

/// The answer.
#[derive(Serialize)]
pub(super) struct Signatures {
    signatures: Vec<String>,
}

pub(super) fn answer(ask: &Ask) -> Result<Signatures, Refusal> {
    let signing = Signing { alphabet: ask.alphabet, start: ask.start, doubling: ask.doubling };
    Ok(Signatures { signatures: signatures(ask.sections, &signing)? })
}
