//! Reading the job that was kept, and writing it. Both are a later part: whoever comes for the first time has none, and has
//! done nothing yet.

use super::later::{Missing, wasm_split};
use crate::app::{Saved, State, read_saved, write_saved};

/// What is said where the part is not there.
const NOT_LOADED: &str = "the part of Backmark for it could not be loaded. Load the page again";

/// Reads a kept job.
///
/// # Errors
/// Why it can't be read, as part of a sentence.
pub async fn read(text: &str) -> Result<Saved, String> {
    reader().await.map_err(|_| NOT_LOADED.to_owned())?(text)
}

/// Writes a job as it is kept.
///
/// # Errors
/// Why it can't be written, as part of a sentence.
pub async fn write(state: &State) -> Result<String, String> {
    Ok(writer().await.map_err(|_| NOT_LOADED.to_owned())?(state))
}

type Reader = fn(&str) -> Result<Saved, String>;
type Writer = fn(&State) -> String;

#[wasm_split(saved, fallible)]
fn reader() -> Result<Reader, Missing> {
    Ok(|text| read_saved(text).map_err(|why| why.to_string()))
}

#[wasm_split(saved, fallible)]
fn writer() -> Result<Writer, Missing> {
    Ok(|state| write_saved(&state.job, &state.look))
}
