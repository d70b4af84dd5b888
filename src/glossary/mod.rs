//! Trade words: what they mean, what they are called elsewhere, and what to draw beside them.
//!
//! - `words.txt` holds the entries, `read.rs` reads them. Each says where its meaning comes from, or that it is from memory;
//!   so does each word of another language (`from memory` where no source stands in brackets). What was not certain is
//!   left out.
//! - [`find`] finds the words in a sentence, so that a page can link them where they are used; [`search`] finds entries by any
//!   of their words, in any language, with accents or without.
//! - A [`Picture`] names what the engine is to draw: nothing here is a stored picture.
//!
//! The vocabulary to align with is ISO 12637-4, Graphic technology - Vocabulary - Part 4: Postpress terms. Only excerpts of it were
//! read, so no definition is taken from it: all are worded here.
//!
//! # How `words.txt` is read
//!
//! An entry begins with `= ` and its word, and ends with an empty line. A line that begins with `#` is left out.
//!
//! | line | holds |
//! | --- | --- |
//! | `also:` | other English words for it, parted by commas; `(US)` or `(UK)` behind one that is used there |
//! | `forms:` | other forms of it that stand in sentences |
//! | `de:`, `fr:`, `ja:` | words of German, French and Japanese; a reading in round brackets, a source in square ones |
//! | `says:` | what it means |
//! | `source:` | where that comes from |
//! | `see:` | entries that belong to it |
//! | `draw:` | what to draw; see [`Picture`] |
//! | `verb` | it has the forms of a verb, too |
//! | `quiet` | an everyday word as well, so that a page does well not to link it wherever it stands |

mod find;
mod forms;
mod picture;
mod plain;
mod read;
mod search;

pub use find::{Found, find};
pub use picture::{Picture, Spoilt};
pub use read::NotRead;
pub use search::{found_by, search};

use std::sync::OnceLock;

/// A word in some language.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Word {
    /// The word.
    pub text: &'static str,
    /// How it is read in Latin letters, or where it is used (`US`, `UK`).
    pub note: Option<&'static str>,
    /// Where it comes from.
    pub source: &'static str,
}

/// An entry.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// The word. Two entries of the same word have what they are about in brackets.
    pub term: &'static str,
    /// Other English words for it.
    pub also: Vec<Word>,
    /// Other forms of it that stand in sentences.
    pub forms: Vec<&'static str>,
    /// German words.
    pub german: Vec<Word>,
    /// French words.
    pub french: Vec<Word>,
    /// Japanese words.
    pub japanese: Vec<Word>,
    /// What it means, in whole sentences.
    pub says: &'static str,
    /// Where that comes from, or that it is from memory.
    pub source: &'static str,
    /// Terms of other entries that belong to it.
    pub see: Vec<&'static str>,
    /// What to draw, if a picture helps.
    pub picture: Option<Picture>,
    /// Whether it has the forms of a verb.
    pub verb: bool,
    /// Whether it is an everyday word as well.
    pub quiet: bool,
}

impl Entry {
    /// The word without what stands behind it in brackets.
    #[must_use]
    pub fn word(&self) -> &'static str {
        self.term.split_once(" (").map_or(self.term, |(word, _)| word)
    }
}

const WORDS: &str = include_str!("words.txt");

/// All entries, by their terms in alphabetical order.
#[must_use]
pub fn entries() -> &'static [Entry] {
    static READ: OnceLock<Vec<Entry>> = OnceLock::new();
    // A test holds that the file can be read.
    READ.get_or_init(|| read::read(WORDS).unwrap_or_default())
}

/// The entry of a term.
#[must_use]
pub fn entry(term: &str) -> Option<&'static Entry> {
    entries().iter().find(|e| e.term == term)
}

#[cfg(test)]
mod tests;
