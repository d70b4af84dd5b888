//! Ten thousand random schemes through every request of the ask protocol: all are answered, every page lands once, no
//! answer takes long, and what is broken on purpose is refused with its place. Every case is one number; the one that
//! fails is named.
//!
//! The dear requests are asked of a part of the schemes in a plain run; all of them, with the times, are asked by
//!
//! ```text
//! cargo test --release --no-default-features --test ask_random -- --ignored --nocapture
//! ```

#![allow(clippy::panic, clippy::unwrap_used, reason = "what tests call may panic as tests may")]

#[path = "support/effort.rs"]
mod effort;
#[path = "support/requests.rs"]
mod requests;

use backmark::ask::answer;
use backmark::fold::Scheme;
use effort::effort;
use requests::{Dice, KINDS};
use serde_json::{Value, json};
use std::collections::BTreeSet;
use std::io::Write;
use std::process::{Command, Stdio};
use std::time::Duration;

/// How many schemes.
const CASES: u64 = 10_000;

/// The work that one answer may take, on a processor of its own. Programs made for tests are some twenty times slower.
const LIMIT: Duration = Duration::from_secs(if cfg!(debug_assertions) { 30 } else { 1 });

/// The longest answer in bytes. A layout worked back to thousands of folds is the longest.
const LONGEST: usize = 4 << 20;

/// Of how many schemes one goes through a request in a plain run. A request not named here is a middling one.
fn stride(kind: &str) -> u64 {
    match kind {
        "landing" | "pieces" => 1,
        "work_back" | "explain_section" | "look_alikes" | "tell_section" | "simulate" | "worksheet" => 250,
        _ => 100,
    }
}

/// Asks; what comes back has the form of every answer, and took no longer than it may.
fn ask(request: &Value) -> (Value, Duration) {
    let line = request.to_string();
    let (said, took) = effort(|| answer(&line));
    assert!(took < LIMIT, "took {took:?}: {line}");
    assert!(said.len() < LONGEST, "{} bytes: {line}", said.len());
    assert!(!said.contains('\n'), "an answer is one line");
    let value: Value = serde_json::from_str(&said).unwrap();
    assert_eq!(value.as_object().unwrap().len(), 1, "{said}");
    (value, took)
}

/// Case `case` of a kind of request; says which it was if it fails.
fn checked(case: u64, kind: usize) -> Duration {
    let (name, make) = KINDS[kind];
    let mut dice = Dice::new(case * 100 + kind as u64);
    let scheme = requests::scheme(&mut Dice::new(case));
    let request = make(&mut dice, &scheme);
    let (answer, took) = ask(&request);
    // Not all that may be made at random can be made: a later fold may then miss the sheet.
    if let Some(at) = answer["error"]["at"].as_str().filter(|at| at.starts_with("cause") || at.starts_with("made")) {
        assert!(request.get(&at[..at.find(['.', '[']).unwrap_or(at.len())]).is_some(), "case {case}, {name}: {answer}");
        return took;
    }
    // Not every sheet can be printed: the spine may be longer than the paper, the sheet too large, the fault or the page not there.
    if matches!(name, "dummy" | "preview" | "print" | "worksheet") && answer.get("error").is_some() {
        let first = answer["error"]["at"].as_str().unwrap().split(['.', '[']).next().unwrap();
        assert!(request.get(first).is_some(), "case {case}, {name}: {answer} to {request}");
        return took;
    }
    let Some(ok) = answer.get("ok") else { panic!("case {case}, {name}: {answer} to {request}") };
    match name {
        "landing" => check_landing(case, &scheme, ok),
        "pieces" => check_pieces(case, &request, ok),
        "work_back" => check_worked_back(case, &request, ok),
        "explain_section" => assert!(ok["right"] != true || ok["causes"] == json!([]), "case {case}: {ok}"),
        "act_out" => assert!(!ok["ways"].as_array().unwrap().is_empty(), "case {case}: {ok}"),
        "look_alikes" => assert!(!ok["groups"].as_array().unwrap().is_empty(), "case {case}: {ok}"),
        "tell_section" => assert_eq!(ok["right"] == true, ok["causes"] == json!([]), "case {case}: {ok} to {request}"),
        "read_spine" => assert_eq!(ok["found"].as_array().unwrap().len(), request["seen"].as_array().unwrap().len()),
        "explain_book" => assert!(ok["explanations"].is_array(), "case {case}"),
        "tell_book" => {
            let lines = ok["verdict"]["lines"].as_array().unwrap();
            assert!(lines.iter().all(|l| !l["title"].as_str().unwrap().is_empty()), "case {case}: {ok}");
        }
        "dummy" | "print" => {
            // "%PDF-1.7" in base64, and a size for every page.
            assert!(ok["pdf"].as_str().unwrap().starts_with("JVBERi0xLj"), "case {case}");
            assert!(!ok["pages"].as_array().unwrap().is_empty(), "case {case}");
        }
        "signatures" => assert_eq!(request["sections"], ok["signatures"].as_array().unwrap().len()),
        "plan_book" => {
            let plans = ok["plans"].as_array().unwrap();
            let extent = request["extent"].as_u64().unwrap();
            assert!(
                !plans.is_empty() && plans.iter().all(|p| p["pages"].as_u64() >= Some(extent)),
                "case {case}: {ok}"
            );
        }
        "describe_book" => {
            let sections = request["book"]["sections"].as_array().unwrap();
            assert_eq!(ok["sections"].as_array().unwrap().len(), sections.len(), "case {case}");
            let pages: u64 = sections.iter().map(|s| s.as_u64().unwrap()).sum();
            assert!(
                ok["extent"][0].as_str().unwrap().starts_with(&format!("The book has {pages} pages")),
                "case {case}"
            );
        }
        "weigh_book" => {
            let told = ok["explanations"].as_array().unwrap();
            let all = ["says", "why", "remedy", "next_check"];
            let empty = |one: &Value, name: &str| one[name].as_str().unwrap().is_empty();
            assert!(told.iter().all(|one| all.iter().all(|name| !empty(one, name))), "case {case}: {ok}");
            assert!(told.iter().skip(1).all(|one| !empty(one, "why_not")), "case {case}: {ok}");
        }
        "sampling" => {
            let accepted = ok["accepted"].as_array().unwrap();
            assert_eq!(accepted.len(), request["bad"].as_array().unwrap().len(), "case {case}");
            assert!(accepted.iter().all(|chance| (0.0..=1.0).contains(&chance.as_f64().unwrap())), "case {case}: {ok}");
        }
        "simulate" => {
            let shown = request["shown"].as_u64().unwrap().min(ok["wrong"].as_u64().unwrap());
            assert_eq!(ok["wrong_books"].as_array().unwrap().len() as u64, shown, "case {case}");
        }
        "write_link" => assert!(ok["link"].as_str().unwrap().contains("#1"), "case {case}: {ok}"),
        "read_link" => assert!(!ok["says"].as_str().unwrap().is_empty(), "case {case}: {ok}"),
        "glossary" => assert!(ok["entries"].is_array(), "case {case}: {ok}"),
        // A request that is new has at least an answer.
        _ => {}
    }
    took
}

/// Every page once, in order, on a place of its own.
fn check_landing(case: u64, scheme: &Scheme, ok: &Value) {
    let pages = ok["pages"].as_array().unwrap();
    assert_eq!(pages.len(), scheme.pages() as usize, "case {case}");
    let mut places = BTreeSet::new();
    for (number, page) in (1..).zip(pages) {
        assert_eq!(page["page"], number, "case {case}");
        let [row, column] = ["row", "column"].map(|at| page[at].as_u64().unwrap());
        assert!(row < scheme.rows.into() && column < scheme.columns.into(), "case {case}: {page}");
        assert!(places.insert((page["side"] == "A", row, column)), "case {case}: two pages on one face, {page}");
    }
}

/// Every page in order, its back on the other side of the same panel, no face twice.
fn check_pieces(case: u64, request: &Value, ok: &Value) {
    let (pages, columns) = (ok["pages"].as_array().unwrap(), request["columns"].as_u64().unwrap());
    let (mut places, mut pieces) = (BTreeSet::new(), BTreeSet::new());
    for (number, page) in (1u64..).zip(pages) {
        assert_eq!(page["page"], number, "case {case}");
        let back = &pages[page["backed_by"].as_u64().unwrap() as usize - 1];
        assert_eq!(back["leaf"], page["leaf"], "case {case}: {page}");
        assert_ne!(back["side"], page["side"], "case {case}: {page}");
        assert_eq!(back["row"], page["row"], "case {case}: {page}");
        assert_eq!(
            back["column"].as_u64().unwrap() + page["column"].as_u64().unwrap() + 1,
            columns,
            "case {case}: {page}"
        );
        let [row, column, piece] = ["row", "column", "piece"].map(|at| page[at].as_u64().unwrap());
        assert!(places.insert((page["side"] == "A", row, column)), "case {case}: two pages on one face, {page}");
        pieces.insert(piece);
    }
    let left: Vec<u64> = ok["not_gathered"].as_array().unwrap().iter().map(|p| p.as_u64().unwrap()).collect();
    assert!(left.iter().all(|piece| !pieces.contains(piece)), "case {case}: {left:?}");
    if left.is_empty() {
        let faces = 2 * columns * request["rows"].as_u64().unwrap();
        assert_eq!(pages.len() as u64, faces, "case {case}: every face has a page");
    }
}

/// Each scheme prints what was seen.
fn check_worked_back(case: u64, request: &Value, ok: &Value) {
    for scheme in ok["schemes"].as_array().unwrap().iter().take(3) {
        let (landed, _) = ask(&json!({"ask": "landing", "scheme": scheme}));
        for page in landed["ok"]["pages"].as_array().unwrap() {
            let side = if page["side"] == "A" { "side_a" } else { "side_b" };
            let cell =
                &request[side][page["row"].as_u64().unwrap() as usize][page["column"].as_u64().unwrap() as usize];
            let same = |field: &str| cell.get(field).is_none_or(|seen| *seen == page[field]);
            assert!(same("page") && same("head"), "case {case}: {cell} is seen, {page} printed by {scheme}");
        }
    }
}

#[test]
fn every_random_scheme_is_answered() {
    for (kind, (name, _)) in KINDS.iter().enumerate() {
        let cases = (0..CASES).step_by(stride(name) as usize);
        // Every kind begins with another scheme, so that most schemes of a stride are asked about something dear.
        cases.for_each(|case| _ = checked(case + kind as u64 % stride(name), kind));
    }
}

#[test]
#[ignore = "a minute or more, in release; every scheme through every request, with times"]
fn every_random_scheme_through_every_request() {
    for (kind, (name, _)) in KINDS.iter().enumerate() {
        let mut took: Vec<(Duration, u64)> = (0..CASES).map(|case| (checked(case, kind), case)).collect();
        took.sort_unstable();
        let all: Duration = took.iter().map(|(t, _)| t).sum();
        let (slowest, case) = took[took.len() - 1];
        let middle = took[took.len() / 2].0;
        println!(
            "{name:16} {CASES} answered, half within {middle:.1?}, slowest {slowest:.1?} (case {case}), all {all:.1?}"
        );
    }
}

/// A text where a number belongs, or a field that no request has: refused, with its path.
#[test]
fn what_is_broken_on_purpose_is_refused_where_it_is_broken() {
    fn numbers(value: &mut Value) -> Vec<&mut Value> {
        match value {
            Value::Number(_) => vec![value],
            Value::Array(items) => items.iter_mut().flat_map(numbers).collect(),
            Value::Object(fields) => fields.values_mut().flat_map(numbers).collect(),
            _ => Vec::new(),
        }
    }
    for case in 0..CASES / 20 {
        for (kind, (name, make)) in KINDS.iter().enumerate() {
            let mut dice = Dice::new(case * 100 + kind as u64);
            let scheme = requests::scheme(&mut dice);
            let mut request = make(&mut dice, &scheme);
            // A report may have no number in it.
            let none = numbers(&mut request).is_empty();
            if dice.once_in(4) || none {
                request["nothing_of_this_name"] = json!(1);
            } else {
                let mut places = numbers(&mut request);
                let at = dice.below(places.len() as u32) as usize;
                *places.remove(at) = dice.pick(&["over", "", "🕮"]).into();
            }
            let (answer, _) = ask(&request);
            let Some(error) = answer.get("error") else { panic!("case {case}, {name}: {answer} to {request}") };
            assert!(!error["at"].as_str().unwrap().is_empty(), "case {case}, {name}: {answer}");
            assert!(!error["says"].as_str().unwrap().is_empty(), "case {case}, {name}: {answer}");
        }
    }
}

/// A second opinion: `benches/model.py` was written from the protocol's description, in another language, by piles of
/// panels where the engine has rectangles.
#[test]
fn a_plain_model_in_python_lands_the_same_pages() {
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/benches/model.py");
    let started = Command::new("python3").arg(script).stdin(Stdio::piped()).stdout(Stdio::piped()).spawn();
    let Ok(mut python) = started else {
        println!("There is no python3 here, so the plain model gives no second opinion.");
        return;
    };
    let schemes: Vec<Scheme> = (0..500).map(|case| requests::scheme(&mut Dice::new(case))).collect();
    let lines: String = schemes.iter().map(|s| json!(s).to_string() + "\n").collect();
    let mut into = python.stdin.take().unwrap();
    let writer = std::thread::spawn(move || into.write_all(lines.as_bytes()));
    let output = python.wait_with_output().unwrap();
    writer.join().unwrap().unwrap();
    assert!(output.status.success());
    let text = String::from_utf8(output.stdout).unwrap();
    assert_eq!(text.lines().count(), schemes.len());
    for (line, scheme) in text.lines().zip(&schemes) {
        let model: Value = serde_json::from_str(line).unwrap();
        let (engine, _) = ask(&json!({"ask": "landing", "scheme": scheme}));
        assert_eq!(model, engine["ok"], "{scheme:?}");
    }
}
