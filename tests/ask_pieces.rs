//! The request `pieces`: sheets folded and slit, what is refused and where, and lines that would take long.

#![allow(clippy::panic, clippy::unwrap_used, reason = "what tests call may panic as tests may")]

#[path = "support/effort.rs"]
mod effort;

use backmark::ask::{MAX_LINE, answer};
use effort::effort;
use serde_json::{Value, json};
use std::time::Duration;

/// The work that one answer may take, on a processor of its own. Programs made for tests are some twenty times slower.
const LIMIT: Duration = Duration::from_secs(if cfg!(debug_assertions) { 20 } else { 1 });

fn fold(crease: &str, after: u32, moves: &str) -> Value {
    json!({"crease": crease, "after": after, "moves": moves, "lands": "over"})
}

/// Two eights beside each other, slit before folding.
fn two_eights() -> Value {
    let eight = json!([fold("horizontal", 1, "top"), fold("vertical", 1, "right")]);
    json!({"ask": "pieces", "rows": 2, "columns": 4,
        "steps": [{"slit": "vertical", "after": 2, "left": eight, "right": eight}],
        "gather": [0, 1], "reads": "left_to_right"})
}

fn ask(request: &Value) -> Value {
    serde_json::from_str(&answer(&request.to_string())).unwrap()
}

/// The request with a value put at a JSON pointer.
fn with(mut request: Value, pointer: &str, value: Value) -> Value {
    let (parent, field) = pointer.rsplit_once('/').unwrap();
    match request.pointer_mut(pointer) {
        Some(slot) => *slot = value,
        None => match request.pointer_mut(parent).unwrap() {
            Value::Array(list) => list.push(value),
            fields => fields[field] = value,
        },
    }
    request
}

fn without(mut request: Value, parent: &str, field: &str) -> Value {
    request.pointer_mut(parent).unwrap().as_object_mut().unwrap().remove(field);
    request
}

fn drawn(answer: &Value, side: &str, rows: usize, columns: usize) -> Vec<String> {
    let mut grid = vec![vec!["-".to_owned(); columns]; rows];
    for page in
        answer["ok"]["pages"].as_array().unwrap_or_else(|| panic!("{answer}")).iter().filter(|p| p["side"] == side)
    {
        let at = |field: &str| page[field].as_u64().unwrap() as usize;
        let down = if page["head"] == "down" { "v" } else { "" };
        grid[at("row")][at("column")] = format!("{}{down}", page["page"]);
    }
    grid.into_iter().map(|row| row.join(" ")).collect()
}

#[test]
fn two_eights_from_one_sheet_are_numbered_through() {
    let answer = ask(&two_eights());
    assert_eq!(drawn(&answer, "A", 2, 4), ["3v 6v 11v 14v", "2 7 10 15"]);
    assert_eq!(drawn(&answer, "B", 2, 4), ["13v 12v 5v 4v", "16 9 8 1"]);
    assert_eq!((&answer["ok"]["loose_leaves"], &answer["ok"]["not_gathered"]), (&json!([]), &json!([])));
    let turned = ask(&with(two_eights(), "/gather", json!([1, 0])));
    assert_eq!(drawn(&turned, "A", 2, 4), ["11v 14v 3v 6v", "10 15 2 7"]);
    let nested = ask(&with(two_eights(), "/gather", json!([{"inset": [0, 1]}])));
    assert_eq!(drawn(&nested, "A", 2, 4), ["3v 14v 7v 10v", "2 15 6 11"]);
    let piece = |page: usize| nested["ok"]["pages"][page - 1]["piece"].clone();
    assert_eq!([4, 5, 12, 13].map(piece), [0, 1, 1, 0].map(Value::from));
}

/// The other copy of half-sheet work, or waste.
#[test]
fn a_piece_left_out_is_named_and_its_pages_are_not() {
    let answer = ask(&with(two_eights(), "/gather", json!([1])));
    assert_eq!(answer["ok"]["not_gathered"], json!([0]));
    assert_eq!(drawn(&answer, "A", 2, 4), ["- - 3v 6v", "- - 2 7"]);
    let waste = with(with(two_eights(), "/gather", json!([1])), "/steps/0/left", json!([]));
    assert_eq!(ask(&waste)["ok"]["pages"], answer["ok"]["pages"], "waste need not be folded");
}

/// Without a head the top, or the right where the last crease is level, even if it was made before a slit.
#[test]
fn a_head_left_out_is_the_usual_one() {
    let said = |steps: Value, rows: u32, columns: u32, gather: Value| {
        ask(&json!({"ask": "pieces", "rows": rows, "columns": columns, "steps": steps, "gather": gather}))
    };
    let upright = json!([fold("vertical", 1, "right")]);
    assert_eq!(
        said(upright, 1, 2, json!([0])),
        said(json!([fold("vertical", 1, "right"), {"head": "top"}]), 1, 2, json!([0]))
    );
    let level = json!([fold("horizontal", 1, "top")]);
    assert_eq!(
        said(level, 2, 1, json!([0])),
        said(json!([fold("horizontal", 1, "top"), {"head": "right"}]), 2, 1, json!([0]))
    );
    let leaf = |head: Value| json!([{"slit": "vertical", "after": 1, "left": head, "right": []}]);
    assert_eq!(said(leaf(json!([])), 1, 2, json!([0])), said(leaf(json!([{"head": "top"}])), 1, 2, json!([0])));
    let before = |head: Value| json!([fold("horizontal", 1, "top"), {"slit": "vertical", "after": 1, "left": head, "right": []}]);
    let answer = said(before(json!([])), 2, 2, json!([0, 1]));
    assert!(answer.get("ok").is_some(), "{answer}");
    assert_eq!(answer, said(before(json!([{"head": "right"}])), 2, 2, json!([0, 1])));
}

#[test]
fn what_is_wrong_is_refused_where_it_stands() {
    let slit = "/steps/0";
    let horizontal = |field: &str| {
        let steps = json!([{"slit": "horizontal", "after": 1, "top": [], "bottom": [], field: []}]);
        with(two_eights(), "/steps", steps)
    };
    let late = json!([fold("vertical", 2, "right"), {"slit": "horizontal", "after": 1,
        "top": [fold("vertical", 3, "right")], "bottom": []}]);
    for (request, at) in [
        (with(two_eights(), "/steps/0/left/0/after", json!(2)), "steps[0].left[0].after"),
        (with(two_eights(), "/steps/0/right/1/after", json!("one")), "steps[0].right[1].after"),
        (with(two_eights(), "/steps/0/right/1/lands", json!("beside")), "steps[0].right[1].lands"),
        (with(two_eights(), "/steps/0/right/1/moves", json!("top")), "steps[0].right[1].moves"),
        (with(two_eights(), "/steps/0/left/0/also", json!(1)), "steps[0].left[0].also"),
        (with(two_eights(), "/steps/0/left/0", json!(7)), "steps[0].left[0]"),
        (with(two_eights(), "/steps/0/left/2", json!({"head": "left"})), "steps[0].left[2].head"),
        (with(two_eights(), "/steps/0/left/2", json!({"head": "up"})), "steps[0].left[2].head"),
        (
            with(two_eights(), "/steps/0/left", json!([{"head": "top"}, fold("vertical", 1, "right")])),
            "steps[0].left[1]",
        ),
        (with(two_eights(), "/steps/1", fold("vertical", 1, "right")), "steps[1]"),
        (with(two_eights(), "/steps/0/left", json!([])), "steps[0].left"),
        (with(two_eights(), "/steps/0/left", json!("none")), "steps[0].left"),
        (with(two_eights(), "/steps/0/after", json!(4)), "steps[0].after"),
        (with(two_eights(), "/steps/0/after", json!(0)), "steps[0].after"),
        (with(two_eights(), "/steps/0/after", json!(-1)), "steps[0].after"),
        (with(two_eights(), "/steps/0/slit", json!("oblique")), "steps[0].slit"),
        (with(two_eights(), "/steps/0/top", json!([])), "steps[0].top"),
        (without(two_eights(), slit, "right"), "steps[0].right"),
        (without(two_eights(), slit, "after"), "steps[0].after"),
        (horizontal("left"), "steps[0].left"),
        (with(two_eights(), "/steps", late), "steps[1].top[0].after"),
        (with(two_eights(), "/gather", json!([])), "gather"),
        (with(two_eights(), "/gather/1", json!(2)), "gather[1]"),
        (with(two_eights(), "/gather/1", json!(0)), "gather[1]"),
        (with(two_eights(), "/gather/1", json!(-1)), "gather[1]"),
        (with(two_eights(), "/gather/1", json!({"inset": [2]})), "gather[1].inset[0]"),
        (with(two_eights(), "/gather/1", json!({"inset": [1, 0]})), "gather[1].inset[1]"),
        (with(two_eights(), "/gather/1", json!({"inset": [1, "a"]})), "gather[1].inset[1]"),
        (with(two_eights(), "/gather/1", json!({"inset": []})), "gather[1].inset"),
        (with(two_eights(), "/gather/1", json!({"nest": [1]})), "gather[1].nest"),
        (with(two_eights(), "/rows", json!(0)), "rows"),
        (with(two_eights(), "/columns", json!(4_000_000_000_u32)), "columns"),
        (with(two_eights(), "/scheme", json!(1)), "scheme"),
        (with(two_eights(), "/reads", json!("down")), "reads"),
        (without(two_eights(), "", "gather"), "gather"),
    ] {
        let answer = ask(&request);
        assert_eq!(answer["error"]["at"], at, "{answer} to {request}");
        assert!(!answer["error"]["says"].as_str().unwrap().is_empty());
    }
}

/// Slits as deep as a line may be, long lists at the bottom of them, and the largest sheet slit again and again.
#[test]
fn no_line_takes_long() {
    let deep = |depth: usize, inner: &str| {
        let open = r#"[{"slit":"vertical","after":1,"left":[],"right":"#;
        let steps = open.repeat(depth) + inner + &"}]".repeat(depth);
        format!(r#"{{"ask":"pieces","rows":1,"columns":4096,"steps":{steps},"gather":[0]}}"#)
    };
    let fold = r#"{"crease":"vertical","after":1,"moves":"right","lands":"over"}"#;
    let long = |one: &str, count: usize| format!("[{}{one}]", format!("{one},").repeat(count));
    let halves: String = (0..12)
        .map(|n| format!(r#"{{"crease":"vertical","after":{},"moves":"right","lands":"over"}},"#, 2048 >> n))
        .collect();
    let lines = [
        deep(60, "[]"),
        deep(1000, "[]"),
        deep(60, &long("0", 400_000)),
        deep(60, &long(fold, 15_000)),
        deep(60, &long("[]", 300_000)),
        format!(r#"{{"ask":"pieces","rows":1,"columns":4096,"steps":[{}{{"head":"top"}}],"gather":[0]}}"#, halves),
        format!(r#"{{"ask":"pieces","rows":1,"columns":2,"steps":[{fold}],"gather":{}}}"#, long("0", 500_000)),
        format!(
            r#"{{"ask":"pieces","rows":1,"columns":2,"steps":[{fold}],"gather":[{{"inset":{}}}]}}"#,
            long("0", 500_000)
        ),
    ];
    for line in lines {
        assert!(line.len() <= MAX_LINE, "{}", line.len());
        let (said, took) = effort(|| answer(&line));
        assert!(took < LIMIT, "{took:?}: {}", &line[..100]);
        let value: Value = serde_json::from_str(&said).unwrap();
        assert!(value.get("ok").is_some() || value["error"]["at"].is_string(), "{}", &said[..200.min(said.len())]);
        println!("{took:.1?} {}", &said[..90.min(said.len())]);
    }
}
