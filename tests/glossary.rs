//! The glossary against the program's own sentences and the scene painters: every trade word that is used has an entry, and
//! every picture that an entry names is drawn.

#![allow(clippy::panic, clippy::unwrap_used, reason = "what tests call may panic as tests may")]

use backmark::ask::answer;
use backmark::finish::Leaves;
use backmark::fold::{Course, Measure, NamedCourse, Side, Worked, courses};
use backmark::glossary::{Picture, entries, entry, find};
use backmark::paper::{Length, Press, Trims};
use backmark::scene::{Bench, Printing, Rule, Shown, View, flat_side, inside, section_cut, setup_sheet};
use backmark::setup::{Inputs, set_up};
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

/// Trade words that the program's sentences use, by the way they begin. A sentence that uses one shows it in some form; each
/// form has to be in an entry. Words that are trade words in one place and everyday ones in another stand here, too: they
/// have entries that a page need not link.
const TRADE: &str = "\
     accordion bleed block bolt buckle bulk bundle caliper cancel case collat come-and-go conjugate counter \
     crease creep crown deflector deliver demy dummy duodecimo edition eighteen endpaper exchang extent feeder \
     fold folio foolscap foot fore-edge foreign forme gate gather grain grammage gripper gutter half-sheet head \
     hopper impos inset jam joint kettle knife knives knocked leaf leaves leftover level lift lip make-up margin mark milled \
     misfold nipped nipping oblong octavo off-cut opening overs packet page pallet panel parallel pastedown perforat pile plate \
     press quarto quire reload right-angle roller riffle rounded saddle sample section sewing sewn sheet signature sixteen slit \
     spine square staircase staple station step stock stop stub sucker swell tail thirty-two thread trim tumbl twelve two-up \
     verso wrap zig-zag";

fn trade() -> impl Iterator<Item = &'static str> {
    TRADE.split_whitespace()
}

/// Everyday words that begin like trade words and are none.
const EVERYDAY: &[&str] = &["marked", "pressed"];

/// All texts of an answer that are sentences: they have a blank in them.
fn sentences(value: &Value, found: &mut BTreeSet<String>) {
    match value {
        Value::String(text) if text.contains(' ') => _ = found.insert(text.clone()),
        Value::Array(all) => all.iter().for_each(|v| sentences(v, found)),
        Value::Object(all) => all.values().for_each(|v| sentences(v, found)),
        _ => {}
    }
}

/// The requests that the protocol shows, and those of the examples, answered.
fn answered() -> BTreeSet<String> {
    let document = include_str!("../src/ask/PROTOCOL.md");
    let blocks = document.split("```json").skip(1).filter_map(|rest| rest.split("```").next());
    let shown = blocks.map(|block| block.replace(", …]", "]").replace('\n', " "));
    let examples = include_str!("../examples/ask.jsonl").lines().map(String::from);
    let mut found = BTreeSet::new();
    for request in shown.chain(examples).filter(|r| r.contains("\"ask\"")) {
        let answer: Value = serde_json::from_str(&answer(&request)).unwrap();
        // The glossary's own words prove nothing.
        if !request.contains("\"glossary\"") {
            sentences(&answer["ok"], &mut found);
        }
    }
    found
}

/// The texts of the program's source that are sentences, but for those of the glossary.
fn written() -> BTreeSet<String> {
    fn walk(folder: &Path, found: &mut BTreeSet<String>) {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                if !path.ends_with("glossary") {
                    walk(&path, found);
                }
            } else if path.extension().is_some_and(|e| e == "rs") && !path.ends_with("tests.rs") {
                let text = std::fs::read_to_string(&path).unwrap();
                let code = text.split("#[cfg(test)]").next().unwrap();
                let lines = code.lines().filter(|l| !l.trim_start().starts_with("//"));
                // Texts in quotation marks are every other part of a line.
                for line in lines {
                    let line = line.replace("\\\"", "'");
                    found.extend(line.split('"').skip(1).step_by(2).filter(|t| t.contains(' ')).map(String::from));
                }
            }
        }
    }
    let mut found = BTreeSet::new();
    walk(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"), &mut found);
    found
}

/// Words of a sentence that begin as a trade word does and are in no entry.
fn without_entry(sentence: &str) -> Vec<String> {
    let found = find(sentence);
    let mut missing = Vec::new();
    let mut at = 0;
    for word in sentence.split_inclusive(|c: char| !c.is_alphanumeric() && c != '-') {
        let (from, letters) = (at, word.trim_end_matches(|c: char| !c.is_alphanumeric() && c != '-'));
        at += word.len();
        let small = letters.to_lowercase();
        // What has an underscore or a bracket beside it is a name of the protocol.
        let name = sentence[..from].ends_with(['_', '{', '`'])
            || sentence[from + letters.len()..].starts_with(['_', '}', '`', '[']);
        // So are words of the XJDF schema: capitals stand inside them.
        let name = name || letters.chars().skip(1).any(char::is_uppercase);
        let trade = !name && trade().any(|t| small.starts_with(t)) && !EVERYDAY.contains(&small.as_str());
        let covered = found.iter().any(|f| f.from <= from && from + letters.len() <= f.to);
        let in_parts = || letters.split('-').any(|part| found.iter().any(|f| sentence[f.from..f.to].contains(part)));
        if trade && !covered && !in_parts() {
            missing.push(small);
        }
    }
    missing
}

#[test]
fn every_trade_word_of_the_programs_sentences_has_an_entry() {
    let (answered, written) = (answered(), written());
    assert!(answered.len() > 30 && written.len() > 600, "{} and {}", answered.len(), written.len());
    let mut missing: BTreeMap<String, String> = BTreeMap::new();
    for sentence in answered.iter().chain(&written) {
        for word in without_entry(sentence) {
            missing.entry(word).or_insert_with(|| sentence.clone());
        }
    }
    assert!(missing.is_empty(), "{missing:#?}");
    // The walk sees the words at all.
    let used: BTreeSet<&str> = answered.iter().flat_map(|s| find(s)).flat_map(|f| f.entries).map(|e| e.term).collect();
    assert!(used.len() > 20, "{used:?}");
}

#[test]
fn the_test_of_words_can_fail() {
    assert_eq!(without_entry("A deflectorish thing"), ["deflectorish"]);
    assert_eq!(without_entry("Open the bolts."), [""; 0]);
    let beginnings = trade().filter(|t| entries().iter().any(|e| e.term.starts_with(*t)));
    assert!(beginnings.count() > trade().count() / 2);
}

fn named(name: &str) -> NamedCourse {
    courses().into_iter().find(|c| c.name == name).unwrap_or_else(|| panic!("{name}"))
}

fn measure(course: &Course) -> Measure {
    let mm = Length::from_whole_mm;
    Measure::equal(course.rows, course.columns, mm(141 * i64::from(course.columns)), mm(222 * i64::from(course.rows)))
}

#[test]
fn every_picture_is_drawn_by_the_engine() {
    for entry in entries() {
        let Some(picture) = &entry.picture else { continue };
        let term = entry.term;
        let Some(name) = picture.course() else {
            let (Picture::Spine { sections, fault }, Some(stack)) = (picture, picture.stack()) else {
                panic!("{term}: {picture:?}")
            };
            // What is shown as wrong is wrong, and what is shown as right is right.
            let right = backmark::gather::Stack::good(*sections);
            assert_eq!(stack == right, fault.is_none(), "{term}");
            continue;
        };
        let course = named(name).course;
        let worked = Worked::of(&course).unwrap();
        let landing = worked.landing(0, 0).unwrap();
        let printing = Printing::landed(landing.clone(), 0);
        let bench = Bench::of_course(printing.clone(), &course, 0).unwrap();
        match picture {
            Picture::Bench { at, .. } => {
                let rule: Rule = bench.rule;
                assert!(*at <= rule.end(), "{term}: {at} of {}", rule.end());
                let scene = bench.scene(*at, &View::OPENING, &Shown { leaf: 1.0, crease: None });
                assert!(!scene.scene.items.is_empty(), "{term}");
            }
            Picture::Sides { follow, .. } => {
                let scenes = [Side::A, Side::B].map(|side| flat_side(&printing, side, false));
                assert!(scenes.iter().all(|s| !s.items.is_empty()), "{term}");
                let pages = landing.pages.len() as u32;
                assert!(follow.is_none_or(|page| (1..=pages).contains(&page)), "{term}");
            }
            Picture::Cut { folds, crease, at, .. } => {
                let count = backmark::scene::inside_count(&bench, *folds as usize, *crease);
                assert!(*at < count, "{term}: {at} of {count}");
                assert!(!inside(&bench, *folds as usize, false, *crease, *at, (400.0, 200.0)).items.is_empty());
            }
            Picture::Trimmed { .. } => {
                let leaves = Leaves::of(&worked, &course.copies[0][0], &measure(&course)).unwrap();
                let cut = section_cut(
                    &leaves,
                    &Trims::default(),
                    Length::from_um(117),
                    None,
                    (course.reads, 0),
                    (640.0, 360.0),
                );
                assert!(!cut.scene.items.is_empty(), "{term}");
            }
            Picture::Setup { .. } => {
                let inputs = Inputs {
                    course: &course,
                    measure: &measure(&course),
                    press: Press::default(),
                    side_up: Side::A,
                    sheets: None,
                };
                assert!(!setup_sheet(&set_up(&inputs).unwrap()).items.is_empty(), "{term}");
            }
            Picture::Nest { .. } => assert!(course.copies[0][0].len() > 1, "{term} has pieces in one another"),
            Picture::Misfolded { fold, .. } => {
                let scheme = course.scheme().unwrap();
                assert!((1..=scheme.folds.len()).contains(&(*fold as usize)), "{term}");
                assert_ne!(scheme.fold_other_way(*fold), scheme);
            }
            Picture::Spine { .. } => unreachable!("it has no course"),
        }
    }
}

/// The words that have a published source in another language are those that the sources give.
#[test]
fn words_with_a_source_are_as_the_source_has_them() {
    let german = |term: &str| entry(term).unwrap().german.iter().find(|w| w.source != "from memory").map(|w| w.text);
    // Herstellungsglossar and Mediencommunity: Flattermarke, Zusammentragen.
    assert_eq!((german("collating mark"), german("gathering")), (Some("Flattermarke"), Some("Zusammentragen")));
    let japanese =
        |term: &str| entry(term).unwrap().japanese.iter().find(|w| w.source != "from memory").map(|w| w.note);
    // Koei and Daido printing: rakuchō, missing, and ranchō, out of order. Seibundo: sehyō, the step, and sechō, the letter.
    assert_eq!(japanese("miss"), Some(Some("rakuchō")));
    assert_eq!(japanese("misbound"), Some(Some("ranchō")));
    assert_eq!((japanese("collating mark"), japanese("signature")), (Some(Some("sehyō")), Some(Some("sechō"))));
}

/// What entries say is "worked out by the fold engine", asked of it: the sixteen with each cause acted out.
#[test]
fn what_is_said_to_be_worked_out_is_what_the_engine_works_out() {
    let sixteen = r#"{"rows": 2, "columns": 4, "folds": [
        {"crease": "vertical", "after": 2, "moves": "right", "lands": "over"},
        {"crease": "horizontal", "after": 1, "moves": "top", "lands": "over"},
        {"crease": "vertical", "after": 1, "moves": "right", "lands": "over"}], "head": "top"}"#;
    let acted = |cause: &str| {
        let request = format!(r#"{{"ask": "act_out", "scheme": {sixteen}, "cause": {cause}}}"#);
        let told: Value = serde_json::from_str(&answer(&request)).unwrap();
        let way = &told["ok"]["ways"][0];
        let page = |p: &Value| (p["page"].as_u64().unwrap(), p["head"] == "up");
        let pages: Vec<(u64, bool)> = way["pages"].as_array().unwrap().iter().map(page).collect();
        (pages, way["fold_at"].as_str().unwrap().to_owned(), way["mark"].as_str().unwrap().to_owned())
    };
    let lies = |lies: &str| acted(&format!(r#"{{"kind": "section_lies", "lies": "{lies}"}}"#));
    let run = |backwards: bool, up: bool| -> Vec<(u64, bool)> {
        (1..=16).map(|n| (if backwards { 17 - n } else { n }, up)).collect()
    };
    let at = |edge: &str, mark: &str| (edge.to_owned(), mark.to_owned());
    let (pages, edge, mark) = lies("head_to_tail");
    assert_eq!((pages, (edge, mark)), (run(true, false), at("spine", "mirrored")), "head to tail");
    let (pages, edge, mark) = lies("side_to_side");
    assert_eq!((pages, (edge, mark)), (run(true, true), at("fore_edge", "blank")), "side to side, back to front");
    let (pages, edge, mark) = lies("turned_in_plane");
    assert_eq!((pages, (edge, mark)), (run(false, false), at("fore_edge", "blank")), "turned in its plane");
    let (pages, ..) = acted(r#"{"kind": "double_sheet"}"#);
    let numbers: Vec<u64> = pages.iter().map(|p| p.0).take(8).collect();
    assert_eq!((pages.len(), numbers), (32, vec![1, 2, 1, 2, 3, 4, 3, 4]), "double sheet");
    for fold in 1..=3 {
        let (pages, _, mark) = acted(&format!(r#"{{"kind": "fold_other_way", "fold": {fold}}}"#));
        assert_eq!(mark, "blank", "misfold");
        let proper = pages.chunks(2).all(|leaf| leaf[0].0 % 2 == 1 && leaf[1].0 == leaf[0].0 + 1);
        assert!(proper, "leaf pair: {pages:?}");
    }
    let (pages, ..) = acted(r#"{"kind": "pages_exchanged", "pages": [6, 7]}"#);
    assert!(pages.chunks(2).any(|leaf| leaf[1].0 != leaf[0].0 + 1), "transposed pages part a leaf's own two");
}
