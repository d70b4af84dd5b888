//! What the tests of the ask protocol share.
#![allow(dead_code, reason = "not every test uses all of it")]

use backmark::ask::answer;
use serde_json::Value;

/// Asks, and checks the form that every answer has.
pub fn ask(line: &str) -> Value {
    let said = answer(line);
    assert!(!said.contains('\n'), "an answer is one line");
    let value: Value = serde_json::from_str(&said).unwrap();
    let object = value.as_object().unwrap();
    assert_eq!(object.len(), 1, "{said}");
    if let Some(error) = object.get("error") {
        let error = error.as_object().unwrap();
        assert_eq!(error.keys().collect::<Vec<_>>(), ["at", "says"]);
        assert!(error["at"].is_string());
        assert!(!error["says"].as_str().unwrap().is_empty());
    } else {
        assert!(object.contains_key("ok"), "{said}");
    }
    value
}

pub fn refused(answer: &Value, at: &str) -> String {
    assert_eq!(answer["error"]["at"], at, "{answer}");
    answer["error"]["says"].as_str().unwrap().to_owned()
}
