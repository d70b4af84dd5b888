//! Any bytes as a line of the ask protocol. `../README.md` says how to run it.
#![no_main]

mod edit;
#[path = "../../tests/support/effort.rs"]
mod effort;
#[path = "../../tests/support/requests.rs"]
mod requests;

use backmark::ask::answer_bytes;
use effort::effort;
use libfuzzer_sys::{fuzz_mutator, fuzz_target, fuzzer_mutate};
use serde_json::Value;
use std::time::Duration;

/// The longest that any answer may take.
const LIMIT: Duration = Duration::from_secs(1);

fuzz_target!(|line: &[u8]| {
    let (said, took) = effort(|| answer_bytes(line));
    assert!(took < LIMIT, "answered within {LIMIT:?}, not {took:?}");
    check(&said);
});

/// One line of JSON with `ok`, or `error` and its two texts.
fn check(said: &str) {
    assert!(!said.contains('\n'), "an answer is one line: {said}");
    let value: Value = serde_json::from_str(said).expect("an answer is JSON");
    let object = value.as_object().expect("an answer is an object");
    assert_eq!(object.len(), 1, "{said}");
    if let Some(error) = object.get("error") {
        let error = error.as_object().expect("an error is an object");
        assert_eq!(error.keys().collect::<Vec<_>>(), ["at", "says"]);
        assert!(error["at"].is_string() && error["says"].as_str().is_some_and(|says| !says.is_empty()), "{said}");
    } else {
        assert!(object.contains_key("ok"), "{said}");
    }
}

// A third of the changes are made to bytes, with the words of the dictionary; the others keep a line JSON.
fuzz_mutator!(|data: &mut [u8], size: usize, max_size: usize, seed: u32| {
    let mut dice = requests::Dice::new(seed.into());
    if dice.once_in(3) {
        return fuzzer_mutate(data, size, max_size);
    }
    let edited = edit::edited(data.get(..size).unwrap_or_default(), &mut dice);
    match data.get_mut(..edited.len()).filter(|_| edited.len() <= max_size) {
        Some(place) => {
            place.copy_from_slice(edited.as_bytes());
            edited.len()
        }
        None => fuzzer_mutate(data, size, max_size),
    }
});
