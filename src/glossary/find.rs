//! Finding trade words in a sentence.

use super::forms::forms;
use super::plain::{plain, tokens};
use super::{Entry, entries};
use std::collections::BTreeMap;
use std::sync::OnceLock;

/// A trade word that stands in a sentence.
#[derive(Clone, Debug, PartialEq)]
pub struct Found {
    /// Where it begins, in bytes.
    pub from: usize,
    /// Where it ends.
    pub to: usize,
    /// Its entries: more than one where a word has more than one meaning.
    pub entries: Vec<&'static Entry>,
}

impl Found {
    /// Whether it is an everyday word in all its meanings, which a page does well not to link wherever it stands.
    #[must_use]
    pub fn quiet(&self) -> bool {
        self.entries.iter().all(|e| e.quiet)
    }
}

/// The longest phrase, in words.
const LONGEST: usize = 6;

/// The entries of every phrase in every form.
fn index() -> &'static BTreeMap<String, Vec<usize>> {
    static INDEX: OnceLock<BTreeMap<String, Vec<usize>>> = OnceLock::new();
    INDEX.get_or_init(|| {
        let mut index: BTreeMap<String, Vec<usize>> = BTreeMap::new();
        let mut add = |phrase: &str, at: usize| {
            let words: Vec<String> = tokens(phrase).into_iter().map(|t| t.plain).collect();
            let all = index.entry(words.join(" ")).or_default();
            if !all.contains(&at) {
                all.push(at);
            }
        };
        for (at, entry) in entries().iter().enumerate() {
            forms(entry.word(), entry.verb).iter().for_each(|form| add(form, at));
            let others = entry.also.iter().map(|w| w.text).chain(entry.forms.iter().copied());
            others.flat_map(|other| forms(other, false)).for_each(|form| add(&form, at));
        }
        index
    })
}

/// The trade words of a sentence from its beginning to its end, always the longest that stands there. Words that are parted by
/// more than a space or a hyphen are no phrase.
#[must_use]
pub fn find(sentence: &str) -> Vec<Found> {
    let (index, words) = (index(), tokens(sentence));
    let mut found = Vec::new();
    let mut at = 0;
    while let Some(first) = words.get(at) {
        let mut phrase = String::new();
        let mut longest = None;
        for (i, word) in words.iter().skip(at).take(LONGEST).enumerate() {
            if i > 0 {
                if !word.joined {
                    break;
                }
                phrase.push(' ');
            }
            phrase.push_str(&word.plain);
            if let Some(all) = index.get(&phrase) {
                longest = Some((i + 1, word.to, all));
            }
        }
        match longest {
            Some((count, to, all)) => {
                let entries = all.iter().filter_map(|i| entries().get(*i)).collect();
                found.push(Found { from: first.from, to, entries });
                at += count;
            }
            None => at += 1,
        }
    }
    found
}

/// Whether an entry is found by a word or phrase in one of its forms.
pub(super) fn is_form_of(entry: &Entry, phrase: &str) -> bool {
    let words: Vec<String> = tokens(phrase).into_iter().map(|t| t.plain).collect();
    let at = entries().iter().position(|e| e.term == entry.term);
    index().get(&words.join(" ")).is_some_and(|all| all.iter().any(|i| Some(*i) == at))
        || plain(entry.term) == plain(phrase)
}
