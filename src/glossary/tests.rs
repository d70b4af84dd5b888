//! The entries as a whole: each says what it has to, all that they name is there, and what people type finds them.

use super::read::read;
use super::*;
use std::collections::BTreeSet;

#[test]
fn the_file_of_words_is_read_and_every_entry_is_whole() {
    let all = read(WORDS).unwrap();
    assert_eq!(all, entries());
    assert!(all.len() >= 100, "{}", all.len());
    let mut terms = BTreeSet::new();
    for entry in &all {
        let term = entry.term;
        assert!(terms.insert(term), "{term} stands twice");
        assert!(entry.says.ends_with('.') && entry.says.len() > 12, "{term}: {}", entry.says);
        assert!(entry.says.len() < 330, "{term} is short: {}", entry.says.len());
        assert!(!entry.source.is_empty(), "{term} has a source, or says that it has none");
        assert!(!entry.see.contains(&term), "{term} does not lead to itself");
        for other in &entry.see {
            assert!(super::entry(other).is_some(), "{term} leads to {other}");
        }
        for word in entry.also.iter().chain(&entry.german).chain(&entry.french).chain(&entry.japanese) {
            assert!(!word.text.is_empty() && !word.source.is_empty(), "{term}");
            assert!(!word.text.contains(['(', ')', '[', ']']), "{term}: {}", word.text);
        }
        for word in &entry.japanese {
            let latin = |text: &str| text.chars().all(|c| c.is_ascii() || "āēīōū".contains(c));
            assert!(word.note.is_some_and(latin) && !latin(word.text), "{term}: {}", word.text);
        }
    }
}

#[test]
fn every_picture_can_be_drawn() {
    let drawn: Vec<&Entry> = entries().iter().filter(|e| e.picture.is_some()).collect();
    assert!(drawn.len() >= 60, "{}", drawn.len());
    for entry in drawn {
        let picture = entry.picture.as_ref().unwrap();
        assert!(picture.can_be(), "{}: {picture:?}", entry.term);
        assert!(picture.says().ends_with('.'), "{}", entry.term);
    }
    for bad in
        ["bench", "bench \"Sixteen, three folds\"", "sides Sixteen", "spine x", "spine 12 wrong 5", "nest \"x\" 1"]
    {
        assert_eq!(Picture::parse(bad), None, "{bad}");
    }
    assert!(!Picture::Setup { course: "No such sheet" }.can_be());
    assert!(!Picture::Spine { sections: 4, fault: Some(Spoilt::Missing(5)) }.can_be());
}

fn terms(found: &[Found]) -> Vec<&'static str> {
    found.iter().flat_map(|f| &f.entries).map(|e| e.term).collect()
}

#[test]
fn words_are_found_in_sentences_the_longest_first() {
    let sentence = "The folded sections were gathered; collating marks show it.";
    let found = find(sentence);
    assert_eq!(terms(&found), ["fold", "section", "gathering", "collating mark"]);
    assert_eq!(&sentence[found[3].from..found[3].to], "collating marks");
    // A phrase does not run on over a stop, and a hyphen is as good as a space.
    assert_eq!(terms(&find("It is the back. Margins follow.")), ["back", "margin"]);
    assert_eq!(terms(&find("the back margins")), ["back margin"]);
    assert_eq!(terms(&find("A right angle fold, a right-angle fold")), ["right-angle fold", "right-angle fold"]);
    assert_eq!(terms(&find("Open the bolts, slit the head bolt.")), ["bolt", "slit", "head", "bolt"]);
    // Two meanings are both named.
    assert_eq!(terms(&find("a plate")), ["plate (leaf)", "plate (press)"]);
    assert!(find("Nothing of the kind.").is_empty() && find("").is_empty());
    assert_eq!(terms(&find("Ünder\u{301} TRIMMING")), ["trim"]);
    assert!(find("the head").iter().all(Found::quiet) && !find("a bolt").iter().any(Found::quiet));
}

#[test]
fn entries_are_found_in_any_language_with_accents_or_without() {
    let first = |asked: &str| search(asked).first().map(|e| e.term);
    assert_eq!(first("bolt"), Some("bolt"));
    assert_eq!(first("BOLTS"), Some("bolt"));
    assert_eq!(first("Flattermarke"), Some("collating mark"));
    assert_eq!(first("rucken"), Some("back"));
    assert_eq!(first("tete"), Some("head"));
    assert_eq!(first("丁合"), Some("gathering"));
    assert_eq!(first("rancho"), Some("misbound"));
    assert_eq!(first("cahier"), Some("section"));
    assert_eq!(first("Kreuzbruch"), Some("right-angle fold"));
    assert_eq!(first("rücken"), first("RUCKEN"));
    assert!(search("").is_empty() && search("zzzz").is_empty());
    // What only a meaning speaks of comes last.
    assert!(search("bellows").iter().any(|e| e.term == "accordion fold"));
}

#[test]
fn an_entry_says_by_which_word_it_was_found() {
    let by = |term: &str, asked: &str| found_by(entry(term).unwrap(), asked).map(|(lang, word)| (lang, word.text));
    assert_eq!(by("section", "cahier"), Some(("fr", "cahier")));
    assert_eq!(by("sheet", "bogen"), Some(("de", "Bogen")));
    assert_eq!(by("section", "折"), Some(("ja", "折丁")));
    assert_eq!(by("collating mark", "seh"), Some(("ja", "背標")));
    assert_eq!(by("forme", "form"), None, "its own word has it");
    assert_eq!((by("section", ""), by("section", "zzz")), (None, None));
}

#[test]
fn what_is_searched_for_by_its_own_word_comes_first() {
    for entry in entries() {
        assert_eq!(search(entry.word()).first().map(|e| e.word()), Some(entry.word()), "{}", entry.term);
        for word in entry.german.iter().chain(&entry.french).chain(&entry.japanese) {
            assert!(search(word.text).iter().any(|e| e.term == entry.term), "{}: {}", entry.term, word.text);
        }
    }
}
