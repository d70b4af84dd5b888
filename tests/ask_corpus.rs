//! What fuzzing has tried so far, asked again: each file of `fuzz/corpus/ask` is a line that took another way through
//! the program than all before it. `fuzz/README.md` says how they are found.

#![allow(clippy::unwrap_used, reason = "what tests call may panic as tests may")]

use backmark::ask::answer_bytes;
use serde_json::Value;
use std::path::Path;

/// The form that every answer has.
fn asked(line: &[u8]) -> Value {
    let said = answer_bytes(line);
    assert!(!said.contains('\n'), "an answer is one line");
    let value: Value = serde_json::from_str(&said).unwrap();
    let object = value.as_object().unwrap();
    assert_eq!(object.len(), 1, "{said}");
    match object.get("error") {
        Some(error) => {
            assert!(error["at"].is_string(), "{said}");
            assert!(!error["says"].as_str().unwrap().is_empty(), "{said}");
        }
        None => assert!(object.contains_key("ok"), "{said}"),
    }
    value
}

#[test]
fn every_line_of_the_corpus_has_an_answer() {
    let corpus = Path::new(env!("CARGO_MANIFEST_DIR")).join("fuzz/corpus/ask");
    let (mut answered, mut refused) = (0, 0);
    for entry in std::fs::read_dir(corpus).unwrap() {
        let value = asked(&std::fs::read(entry.unwrap().path()).unwrap());
        *if value.get("ok").is_some() { &mut answered } else { &mut refused } += 1;
    }
    println!("{answered} answered, {refused} refused");
    assert!(answered > 20 && refused > 20, "the corpus holds lines of both kinds: {answered} and {refused}");
}

/// Found by fuzzing: the partner of the highest page that a number can hold was reckoned and is none.
#[test]
fn the_highest_page_number_on_a_sheet_to_be_worked_back_is_refused() {
    for page in [u32::MAX, u32::MAX - 1, 1_000_001] {
        let line = format!(
            r#"{{"ask": "work_back", "rows": 1, "columns": 2, "side_a": [[null, null]], "side_b": [[{{"page": {page}}}, null]]}}"#
        );
        let answer = asked(line.as_bytes());
        assert_eq!(answer["error"]["at"], "side_b[0][0].page", "{answer}");
        assert!(answer["error"]["says"].as_str().unwrap().contains("1000000"), "the bound is said: {answer}");
    }
}
