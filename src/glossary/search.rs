//! Searching the entries by any of their words.

use super::find::is_form_of;
use super::plain::plain;
use super::{Entry, Word, entries};

/// Entries that have to do with what is asked for, the nearest first: the word itself in any language, words that begin so, words
/// that hold it, and last those whose meaning speaks of it. Nothing is found for nothing.
#[must_use]
pub fn search(asked: &str) -> Vec<&'static Entry> {
    let asked = plain(asked.trim());
    if asked.is_empty() {
        return Vec::new();
    }
    let mut ranked: Vec<(u32, &Entry)> = entries().iter().filter_map(|e| Some((rank(e, &asked)?, e))).collect();
    // They lie in order of their terms, and stay so within a rank.
    ranked.sort_by_key(|(rank, _)| *rank);
    ranked.into_iter().map(|(_, entry)| entry).collect()
}

/// The word of another language, or the other English one, by which an entry is found, and its language (`de`, `fr`, `ja`,
/// `en`). `None` where its own word is what was asked for.
#[must_use]
pub fn found_by(entry: &'static Entry, asked: &str) -> Option<(&'static str, &'static Word)> {
    let asked = plain(asked.trim());
    if asked.is_empty() || plain(entry.term).contains(&asked) {
        return None;
    }
    let languages = [("en", &entry.also), ("de", &entry.german), ("fr", &entry.french), ("ja", &entry.japanese)];
    let words = || languages.iter().flat_map(|(lang, words)| words.iter().map(move |word| (*lang, word)));
    let text = |word: &Word| [Some(word.text), word.note].map(|t| t.map(plain).unwrap_or_default());
    let with =
        |fits: fn(&str, &str) -> bool| words().find(|(_, word)| text(word).iter().any(|text| fits(text, &asked)));
    with(|text, asked| text == asked)
        .or_else(|| with(|text, asked| text.starts_with(asked)))
        .or_else(|| with(|text, asked| text.contains(asked)))
}

/// How far an entry is from what is asked for; 0 is nearest.
fn rank(entry: &Entry, asked: &str) -> Option<u32> {
    if plain(entry.word()) == asked {
        return Some(0);
    }
    let foreign = [&entry.also, &entry.german, &entry.french, &entry.japanese];
    let texts = |word: &Word| [Some(word.text), word.note].map(|t| t.map(plain));
    let mut all: Vec<String> = foreign.into_iter().flatten().flat_map(texts).flatten().collect();
    if all.iter().any(|w| w == asked) || is_form_of(entry, asked) {
        return Some(1);
    }
    all.push(plain(entry.term));
    if all.iter().any(|w| w.starts_with(asked)) {
        return Some(2);
    }
    // One letter stands in every word.
    if asked.chars().nth(1).is_none() && asked.is_ascii() {
        return None;
    }
    if all.iter().any(|w| w.contains(asked)) {
        return Some(3);
    }
    plain(entry.says).contains(asked).then_some(4)
}
