//! `glossary`: trade words by search, in a sentence, or all.

use super::error::Refusal;
use crate::fold::Crease;
use crate::glossary::{self, Entry, Picture, Spoilt, Word, entries};
use crate::marks::Lies;
use serde::{Deserialize, Serialize};
use serde_json::{Value, json};

/// The longest text that is gone through, in bytes; a bound of this program.
const MOST_TEXT: usize = 20_000;

/// The request: at most one of the three.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Ask {
    term: Option<String>,
    search: Option<String>,
    sentence: Option<String>,
}

/// The answer.
#[derive(Serialize)]
pub(super) struct Told {
    entries: Vec<EntryTold>,
    #[serde(skip_serializing_if = "Option::is_none")]
    found: Option<Vec<FoundTold>>,
}

/// A word as it stands in the sentence.
#[derive(Serialize)]
struct FoundTold {
    from: usize,
    to: usize,
    word: String,
    terms: Vec<&'static str>,
    quiet: bool,
}

/// An entry.
#[derive(Serialize)]
struct EntryTold {
    term: &'static str,
    also: Vec<WordTold>,
    german: Vec<WordTold>,
    french: Vec<WordTold>,
    japanese: Vec<WordTold>,
    says: &'static str,
    source: &'static str,
    see: Vec<&'static str>,
    picture: Option<Value>,
}

/// A word of some language.
#[derive(Serialize)]
struct WordTold {
    word: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    note: Option<&'static str>,
    source: &'static str,
}

pub(super) fn answer(ask: &Ask) -> Result<Told, Refusal> {
    let short = |at: &str, text: &str| {
        if text.len() <= MOST_TEXT {
            return Ok(());
        }
        Err(Refusal::new(at, format!("a text has {MOST_TEXT} bytes at the most here")))
    };
    match (&ask.term, &ask.search, &ask.sentence) {
        (None, None, None) => Ok(told(entries().iter().collect(), None)),
        (Some(term), None, None) => match glossary::entry(term) {
            Some(entry) => Ok(told(vec![entry], None)),
            None => Err(Refusal::new("term", "no entry has this term; `search` finds those that are near")),
        },
        (None, Some(asked), None) => {
            short("search", asked)?;
            Ok(told(glossary::search(asked), None))
        }
        (None, None, Some(sentence)) => {
            short("sentence", sentence)?;
            Ok(in_sentence(sentence))
        }
        _ => Err(Refusal::new("", "give one of `term`, `search` and `sentence`, or none")),
    }
}

fn in_sentence(sentence: &str) -> Told {
    let all = glossary::find(sentence);
    // Places are told in characters, as a person counts.
    let (mut chars, mut bytes) = (0, 0);
    let mut count = |to: usize| {
        chars += sentence.get(bytes..to).unwrap_or_default().chars().count();
        bytes = to;
        chars
    };
    let mut found = Vec::new();
    for one in &all {
        let word = sentence.get(one.from..one.to).unwrap_or_default().to_owned();
        let (from, to) = (count(one.from), count(one.to));
        found.push(FoundTold {
            from,
            to,
            word,
            terms: one.entries.iter().map(|e| e.term).collect(),
            quiet: one.quiet(),
        });
    }
    let named: Vec<&str> = found.iter().flat_map(|f| f.terms.iter().copied()).collect();
    told(entries().iter().filter(|e| named.contains(&e.term)).collect(), Some(found))
}

fn told(entries: Vec<&'static Entry>, found: Option<Vec<FoundTold>>) -> Told {
    let words = |all: &'static [Word]| {
        all.iter().map(|w| WordTold { word: w.text, note: w.note, source: w.source }).collect::<Vec<_>>()
    };
    let entries = entries.into_iter().map(|e| EntryTold {
        term: e.term,
        also: words(&e.also),
        german: words(&e.german),
        french: words(&e.french),
        japanese: words(&e.japanese),
        says: e.says,
        source: e.source,
        see: e.see.clone(),
        picture: e.picture.as_ref().map(picture),
    });
    Told { entries: entries.collect(), found }
}

fn picture(picture: &Picture) -> Value {
    let mut told = match picture {
        Picture::Bench { course, at } => json!({"kind": "bench", "course": course, "at": at}),
        Picture::Sides { course, follow } => json!({"kind": "sides", "course": course, "follow": follow}),
        Picture::Cut { course, folds, crease, at } => {
            let crease = if *crease == Crease::Vertical { "vertical" } else { "horizontal" };
            json!({"kind": "cut", "course": course, "folds": folds, "crease": crease, "at": at})
        }
        Picture::Trimmed { course } => json!({"kind": "trimmed", "course": course}),
        Picture::Setup { course } => json!({"kind": "setup", "course": course}),
        Picture::Nest { course } => json!({"kind": "nest", "course": course}),
        Picture::Misfolded { course, fold } => json!({"kind": "misfolded", "course": course, "fold": fold}),
        Picture::Spine { sections, fault } => {
            json!({"kind": "spine", "sections": sections, "fault": fault.map(spoilt)})
        }
    };
    told["says"] = picture.says().into();
    told
}

/// A fault as `explain_book` words it.
fn spoilt(fault: Spoilt) -> Value {
    match fault {
        Spoilt::Missing(section) => json!({"kind": "missing", "section": section}),
        Spoilt::Double(section) => json!({"kind": "double", "section": section}),
        Spoilt::Wrong { at, section } => json!({"kind": "wrong_section", "at": at, "section": section}),
        Spoilt::Exchanged(a, b) => json!({"kind": "exchanged", "sections": [a, b]}),
        Spoilt::Lies(section, lies) => json!({"kind": "lies", "section": section, "lies": lies_word(lies)}),
        Spoilt::Foreign(at) => json!({"kind": "foreign", "at": at}),
        Spoilt::Divided(after) => json!({"kind": "divided_wrong", "after": after}),
    }
}

const fn lies_word(lies: Lies) -> &'static str {
    match lies {
        Lies::Right => "right",
        Lies::HeadToTail => "head_to_tail",
        Lies::TurnedInPlane => "turned_in_plane",
        Lies::SideToSide => "side_to_side",
    }
}
