//! Exercises by message: nothing of the answer is told with the question.

#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may")]

mod ask_support;

use ask_support::{ask, refused};
use backmark::practice::{Answer, Exercise, Kind, LEVELS, Task};
use serde_json::{Value, json};

/// Every text and list in a value.
fn within(value: &Value, found: &mut Vec<String>) {
    found.push(value.to_string());
    match value {
        Value::Array(items) => items.iter().for_each(|v| within(v, found)),
        Value::Object(fields) => fields.values().for_each(|v| within(v, found)),
        _ => {}
    }
}

#[test]
fn the_answer_is_not_in_what_is_set() {
    for kind in Kind::ALL {
        for level in 1..=LEVELS {
            for seed in 0..4 {
                let exercise = Exercise::of(kind, level, seed).unwrap();
                let answer = ask(&json!({"ask": "exercise", "kind": kind, "level": level, "seed": seed}).to_string());
                let told = &answer["ok"];
                assert_eq!(told["half_marks"], exercise.mark(&Answer::Nothing, 0).of, "{answer}");
                let mut all = Vec::new();
                within(told, &mut all);
                let right = match exercise.right() {
                    Answer::Sheet(cells) => vec![json!(cells.side_a), json!(cells.side_b)],
                    Answer::Folds(folds) => vec![json!(folds)],
                    Answer::WrongSheet { causes, .. } => vec![json!(causes)],
                    Answer::WrongBook { faults, .. } => faults.iter().map(|f| json!(f.fault)).collect(),
                    Answer::MakeUp(sections) => vec![json!(sections)],
                    Answer::BackMarks(design) => vec![json!(design), json!(design.first_mm)],
                    Answer::Bolts(leaves) => vec![json!(leaves)],
                    Answer::Nothing => panic!(),
                };
                for part in right {
                    assert!(
                        !all.contains(&part.to_string()) || is_in_the_task(&exercise.task, &part),
                        "{part} in {told}"
                    );
                }
                // No field hints at it.
                let fields: Vec<_> =
                    told.as_object().unwrap().keys().chain(told["task"].as_object().unwrap().keys()).collect();
                assert!(fields.iter().all(|f| !["right", "answer", "cause", "planted", "key"].contains(&f.as_str())));
            }
        }
    }
}

/// A number of the design may happen to be one of the task, as a spine of 200 mm.
fn is_in_the_task(task: &Task, part: &Value) -> bool {
    matches!(task, Task::BackMarks { .. }) && part.is_number()
}

/// The right check stands at every place of the list about as often.
#[test]
fn the_place_of_the_right_check_does_not_tell() {
    let mut places = [0; 4];
    for seed in 0..200 {
        let exercise = Exercise::of(Kind::WrongBook, 3, seed).unwrap();
        if let Answer::WrongBook { check: Some(check), .. } = exercise.right() {
            places[check as usize - 1] += 1;
        }
    }
    assert!(places.iter().all(|&times| times > 25), "{places:?}");
}

#[test]
fn an_exercise_is_found_by_its_code_and_marked() {
    let set = ask(r#"{"ask": "exercise", "kind": "find_folds", "level": 1, "seed": 41}"#);
    let code = set["ok"]["code"].as_str().unwrap();
    let again = ask(&json!({"ask": "exercise", "code": code}).to_string());
    assert_eq!(set, again);
    let exercise = Exercise::of(Kind::FindFolds, 1, 41).unwrap();
    let marked = ask(&json!({"ask": "mark_exercise", "code": code, "answer": exercise.right()}).to_string());
    assert_eq!((&marked["ok"]["all_right"], &marked["ok"]["got"]), (&json!(true), &marked["ok"]["of"]));
    let none = ask(&json!({"ask": "mark_exercise", "code": code, "answer": "nothing", "hints": 3}).to_string());
    assert_eq!(none["ok"]["got"], 0);
    refused(&ask(r#"{"ask": "exercise", "kind": "find_folds", "level": 6, "seed": 41}"#), "level");
    refused(&ask(r#"{"ask": "exercise", "kind": "find_folds", "seed": 41}"#), "level");
    refused(&ask(r#"{"ask": "exercise", "code": "2222223"}"#), "code");
}

/// What an answer would make is a sheet that can be asked about.
#[test]
fn what_is_shown_can_be_folded() {
    let exercise = Exercise::of(Kind::NumberSheet, 5, 3).unwrap();
    let Answer::Sheet(mut cells) = exercise.right() else { panic!() };
    cells.side_a[0][0].page = Some(7_777);
    let answer =
        json!({"ask": "mark_exercise", "kind": "number_sheet", "level": 5, "seed": 3, "answer": {"sheet": cells}});
    let shown = ask(&answer.to_string())["ok"]["shown"].clone();
    assert!(shown["pages"].as_array().unwrap().iter().any(|p| p["page"] == 7_777));
    let mut question = shown["sheet"].clone();
    question["ask"] = json!("pieces");
    let copies = question.as_object_mut().unwrap().remove("copies").unwrap();
    question["gather"] = json!([{"inset": copies[0][0]}]);
    assert!(ask(&question.to_string()).get("ok").is_some(), "{question}");
}

#[test]
fn what_is_weak_is_practised_next() {
    let entry = json!({"kind": "bolts", "level": 2, "seed": 1, "got": 3, "of": 8});
    let told = ask(&json!({"ask": "practise_next", "logbook": [entry]}).to_string());
    assert_eq!(
        (&told["ok"]["kind"], &told["ok"]["level"], &told["ok"]["seed"]),
        (&json!("bolts"), &json!(2), &json!(2))
    );
    let entry = json!({"kind": "bolts", "level": 2, "seed": 1, "got": 9, "of": 8});
    refused(&ask(&json!({"ask": "practise_next", "logbook": [entry]}).to_string()), "logbook[0].got");
}

#[test]
fn a_worksheet_is_made_again_from_its_codes() {
    let asked =
        json!({"ask": "worksheet", "level": 2, "seed": 7, "variants": 2, "class": "Bindery 2", "paper": "letter"});
    let made = ask(&asked.to_string());
    let (codes, pages_of) = (&made["ok"]["codes"], made["ok"]["pages_of"].as_array().unwrap());
    let pages: u64 = pages_of.iter().map(|n| n.as_u64().unwrap()).sum();
    assert_eq!(made["ok"]["pages"].as_array().unwrap().len() as u64, pages);
    assert_eq!(codes.as_array().unwrap().len(), 2);
    assert!(made["ok"]["key"]["pdf"].as_str().unwrap().starts_with("JVBERi"), "%PDF- in base64");
    let again = json!({"ask": "worksheet", "codes": codes, "class": "Bindery 2", "paper": "letter", "key": false});
    let again = ask(&again.to_string());
    assert_eq!(again["ok"]["pdf"], made["ok"]["pdf"]);
    assert_eq!(again["ok"]["key"], Value::Null);
    // Both sides: as many pages each, and a blank one behind an odd number.
    let both = ask(&json!({"ask": "worksheet", "level": 2, "seed": 7, "variants": 2, "both_sides": true}).to_string());
    let first = both["ok"]["pages_of"][0].as_u64().unwrap();
    let whole = both["ok"]["pages"].as_array().unwrap().len() as u64;
    assert_eq!(whole, first + first % 2 + both["ok"]["pages_of"][1].as_u64().unwrap());
}

#[test]
fn a_worksheet_that_can_not_be_is_refused_where_it_is_wrong() {
    let at = |fields: Value, at: &str| {
        let mut request = json!({"ask": "worksheet"});
        request.as_object_mut().unwrap().extend(fields.as_object().unwrap().clone());
        refused(&ask(&request.to_string()), at);
    };
    at(json!({"codes": [["2222-222"]]}), "codes[0][0]");
    at(json!({"codes": [["9E55-858"]], "seed": 1}), "seed");
    at(json!({"codes": [["9E55-858"]], "variants": 1}), "variants");
    at(json!({"codes": []}), "codes");
    at(json!({"level": 6}), "level");
    at(json!({"level": 2, "exercises": [{"kind": "bolts", "level": 1}]}), "level");
    at(json!({"variants": 41}), "variants");
    at(json!({"exercises": []}), "exercises");
    at(json!({"exercises": [{"kind": "bolts", "level": 1, "seed": 1_000_000}]}), "exercises[0].seed");
    at(json!({"paper": "a5"}), "paper");
    let marks = json!({"spine_mm": 216, "first_mm": 30, "step_mm": 6, "length_mm": 6, "levels": 24});
    let print = |what: Value, at: &str| {
        let mut what = what;
        if what["kind"] == "marks" {
            what["marks"] = marks.clone();
        }
        refused(&ask(&json!({"ask": "print", "what": what}).to_string()), at);
    };
    print(json!({"kind": "marks", "sections": 24, "trims_mm": [200, 50]}), "what.trims_mm");
    print(json!({"kind": "marks", "sections": 2, "sheet": {"course": "Four, one fold"}}), "what.sheet");
    print(
        json!({"kind": "logbook", "logbook": [{"kind": "bolts", "level": 1, "seed": 1, "got": 3, "of": 2}]}),
        "what.logbook[0].got",
    );
}
