//! Trade words on the page: pressed in a sentence, or looked up in a list of all.
//!
//! It is a later part, which the root fetches when a person leaves the flat sheet, goes to another room or presses "Words".
//! Rooms are fetched together with it (`www/later.js`), so that their sentences have their words from the beginning.
//!
//! - `linked`: a sentence with its trade words
//! - `press`: pressing one
//! - `list`: all entries with a search field, and the chosen one
//! - `entry`: one entry
//! - `drawn`: its picture, which comes with the dialogs

mod drawn;
mod entry;
mod linked;
mod list;
mod press;

use super::later::{Later, Missing, wasm_split};
pub use list::Props;
use list::Words;
use yew::prelude::*;

/// The way to the list of words, which is a later part. Once it is there, sentences have their trade words.
#[wasm_split(words, fallible)]
pub fn way() -> Result<Later<Props>, Missing> {
    if linked::begin() {
        press::listen();
    }
    Ok(|props| html! { <Words ..props /> })
}
