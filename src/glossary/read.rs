//! Reading `words.txt`.

use super::picture::Picture;
use super::{Entry, Word};
use thiserror::Error;

/// Where the file of words can't be read.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[error("line {line} of the words: {says}")]
pub struct NotRead {
    /// The line, from 1.
    pub line: usize,
    /// What is wrong there.
    pub says: String,
}

/// Where a word comes from if nothing is said.
const MEMORY: &str = "from memory";

/// Reads all entries, and puts them in order.
pub(super) fn read(text: &'static str) -> Result<Vec<Entry>, NotRead> {
    let mut all: Vec<Entry> = Vec::new();
    for (line, text) in (1..).zip(text.lines()) {
        let refuse = |says: &str| Err(NotRead { line, says: says.to_owned() });
        if text.is_empty() || text.starts_with('#') {
            continue;
        }
        if let Some(term) = text.strip_prefix("= ") {
            all.push(blank(term));
            continue;
        }
        let Some(entry) = all.last_mut() else { return refuse("it stands before the first entry") };
        let (name, rest) = text.split_once(": ").unwrap_or((text, ""));
        match name {
            "also" => entry.also = words(rest),
            "forms" => entry.forms = list(rest).collect(),
            "de" => entry.german = words(rest),
            "fr" => entry.french = words(rest),
            "ja" => entry.japanese = words(rest),
            "says" => entry.says = rest,
            "source" => entry.source = rest,
            "see" => entry.see = list(rest).collect(),
            "draw" => match Picture::parse(rest) {
                Some(picture) => entry.picture = Some(picture),
                None => return refuse("no picture is named so"),
            },
            "verb" => entry.verb = true,
            "quiet" => entry.quiet = true,
            _ => return refuse("no line begins so"),
        }
    }
    all.sort_by_key(|e| e.term.to_lowercase());
    Ok(all)
}

const fn blank(term: &'static str) -> Entry {
    Entry {
        term,
        also: Vec::new(),
        forms: Vec::new(),
        german: Vec::new(),
        french: Vec::new(),
        japanese: Vec::new(),
        says: "",
        source: "",
        see: Vec::new(),
        picture: None,
        verb: false,
        quiet: false,
    }
}

fn list(text: &'static str) -> impl Iterator<Item = &'static str> {
    text.split(", ").map(str::trim).filter(|w| !w.is_empty())
}

/// Words, each with what stands behind it in round and square brackets. A source in square brackets may hold commas.
fn words(text: &'static str) -> Vec<Word> {
    let mut words = Vec::new();
    let mut rest = text;
    while !rest.is_empty() {
        // The word ends at a comma that stands in no brackets.
        let mut depth = 0;
        let end = rest.char_indices().find(|(_, c)| {
            match c {
                '(' | '[' => depth += 1,
                ')' | ']' => depth -= 1,
                _ => {}
            }
            depth == 0 && *c == ','
        });
        let (word, after) = match end {
            Some((at, _)) => (rest.get(..at).unwrap_or(rest), rest.get(at + 1..).unwrap_or("")),
            None => (rest, ""),
        };
        let (word, source) = behind(word.trim(), " [", ']');
        let (text, note) = behind(word, " (", ')');
        if !text.is_empty() {
            words.push(Word { text, note, source: source.unwrap_or(MEMORY) });
        }
        rest = after.trim_start();
    }
    words
}

/// A word and what stands in brackets behind it.
fn behind(word: &'static str, open: &str, close: char) -> (&'static str, Option<&'static str>) {
    match word.split_once(open) {
        Some((word, rest)) => (word.trim(), Some(rest.trim_end_matches(close))),
        None => (word, None),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_entry_is_read_as_it_is_written() {
        let text = "# no entry\n\n= bolt\nalso: fold (US), closed edge\nja: 背標 (sehyō) [one, two]\nsays: So: it is.\nquiet\n";
        let [bolt] = read(text).unwrap().try_into().unwrap();
        assert_eq!(bolt.also[0], Word { text: "fold", note: Some("US"), source: MEMORY });
        assert_eq!(bolt.also[1].text, "closed edge");
        assert_eq!(bolt.japanese, [Word { text: "背標", note: Some("sehyō"), source: "one, two" }]);
        assert_eq!((bolt.says, bolt.quiet, bolt.verb), ("So: it is.", true, false));
        assert_eq!(read("says: x").unwrap_err().line, 1);
        assert!(read("= x\ndraw: nothing").unwrap_err().to_string().contains("line 2"));
        assert!(read("= x\nsay: nothing").is_err());
    }
}
