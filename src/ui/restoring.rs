//! Reading the job that was kept. It is a later part: whoever comes for the first time has none.

use super::later::{Missing, wasm_split};
use crate::app::{Saved, read_saved};

/// Reads a kept job.
///
/// # Errors
/// Why it can't be read, as part of a sentence.
pub async fn read(text: &str) -> Result<Saved, String> {
    match reader().await {
        Ok(read) => read(text),
        Err(_) => Err("the part of Backmark that reads it could not be loaded. Load the page again".into()),
    }
}

type Reader = fn(&str) -> Result<Saved, String>;

#[wasm_split(saved, fallible)]
fn reader() -> Result<Reader, Missing> {
    Ok(|text| read_saved(text).map_err(|why| why.to_string()))
}
