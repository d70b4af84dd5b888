//! Stories of wrong books, from what a checker has to what happened. Their reasoning is common practice and geometry; where
//! a row of pages comes from print or another reckoning, it is named at the test.

#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may panic")]

use backmark::book::{Book, Folios, Run};
use backmark::trace::{Case, Odds, Traced, trace};
use serde_json::{Value, json};

/// Sections of 16 pages, numbered from 1.
fn sixteens(sections: u32) -> Book {
    let text = Run { name: "text".into(), pages: 16 * sections, folios: Folios::Arabic { first: 1 }, blank: false };
    Book { runs: vec![text], added: vec![], sections: vec![16; sections as usize] }
}

fn case(value: Value) -> Case {
    serde_json::from_value(value).unwrap()
}

fn traced(sections: u32, value: Value) -> Traced {
    trace(&sixteens(sections), None, &[], &case(value), &Odds::default()).unwrap()
}

/// Prints an answer: `cargo test --test trace_stories -- --nocapture`.
fn show(name: &str, traced: &Traced) {
    println!("=== {name}");
    for book in &traced.books {
        println!("  {} {:?}: {} [{}]", book.name, book.right, book.says, book.run);
    }
    for q in &traced.questions {
        println!("  {}. {} {} (known {})", q.number, q.asks, q.answer, q.known);
        for (word, list) in [("seen", &q.evidence), ("so", &q.reasoning), ("not", &q.rules_out)] {
            for line in list {
                println!("     {word}: {line}");
            }
        }
        if let Some(look) = &q.look {
            println!("     look: {look}");
        }
    }
    for c in &traced.contradictions {
        println!("  !! {}", c.says);
    }
    for c in &traced.causes {
        println!("  {:.3} {} [{}] {} {:?} {:?}", c.share, c.fits, c.place, c.title, c.run, c.counters);
        for (word, list) in [("why", &c.why), ("against", &c.against)] {
            for line in list {
                println!("        {word}: {line}");
            }
        }
        println!("        look: {}", c.next_check);
    }
    for line in &traced.cannot_tell {
        println!("  ?? {line}");
    }
}

#[test]
fn a_station_reloaded_with_the_wrong_pile() {
    let traced = traced(12, json!({
        "good_bulk_mm": 18.0,
        "books": [
            {"counter": 1420, "judged": "good"},
            {"counter": 1421, "judged": "bad", "spine": {"run": "1-4 9 6-12"}, "openings": "64 129 | 144 81", "bulk_mm": 18.1, "count": 12},
            {"counter": 1460, "judged": "bad", "spine": {"run": "1-4 9 6-12"}},
            {"counter": 1501, "judged": "good"}
        ],
        "log": [{"counter": 1380, "what": {"kind": "reload", "station": 5, "lift": 80, "left": 40, "fed": "bottom"}},
                {"counter": 1200, "what": {"kind": "reload", "station": 9, "lift": 80, "left": 10, "fed": "bottom"}}],
        "left": [{"station": 5, "over": 80}, {"station": 9, "over": -80}],
        "line": {"first": 1, "last": 5000}
    }));
    show("wrong pile", &traced);
}

#[test]
fn two_stations_exchanged() {
    let traced = traced(12, json!({
        "books": [
            {"counter": 3, "spine": {"run": "1-4 6 5 7-12"}},
            {"counter": 2400, "spine": {"run": "1-4 6 5 7-12"}},
            {"counter": 4990, "openings": "64 81 | 96 65"}
        ],
        "line": {"first": 1, "last": 5000}
    }));
    show("exchanged", &traced);
}

#[test]
fn a_fold_the_wrong_way() {
    let traced = traced(12, json!({
        "books": [
            {"counter": 801, "spine": {"run": "1-4 _ 6-12"}, "inside": {"section": 5, "pages": "67 68 65 66 71 72 69 70 75 76 73 74 79 80 77 78"}},
            {"counter": 850, "spine": {"run": "1-4 _ 6-12"}},
            {"counter": 800, "judged": "good"}, {"counter": 900, "judged": "good"}
        ]
    }));
    show("fold", &traced);
}

#[test]
fn a_press_fault() {
    let traced = traced(12, json!({
        "books": [
            {"counter": 700, "spine": {"run": "1-12"}, "judged": "bad", "inside": {"section": 5, "pages": "1 6 7 4 5 2 3 8 9 14 15 12 13 10 11 16"}},
            {"counter": 300, "judged": "good"}
        ]
    }));
    show("press", &traced);
}

#[test]
fn a_book_divided_wrong() {
    let traced = traced(12, json!({
        "books": [
            {"counter": 500, "judged": "good"},
            {"counter": 501, "spine": {"run": "1-6"}},
            {"counter": 502, "spine": {"run": "7-12 1-6"}},
            {"counter": 600, "spine": {"run": "7-12 1-6"}}
        ], "line": {"first": 1, "last": 612}
    }));
    show("divided", &traced);
}

#[test]
fn a_neighbour_imitates_a_double() {
    show("S5 S5 S7", &traced(12, json!({"books": [{"spine": {"run": "1-5 5 7-12"}}]})));
}

#[test]
fn only_openings() {
    show("openings", &traced(12, json!({"books": [{"openings": "64 81", "count": 11}]})));
    show("openings2", &traced(12, json!({"books": [{"openings": "30 31 | 48 65 | 80 49"}]})));
    show("openings3", &traced(12, json!({"books": [{"openings": "64 80v | 65v 81"}]})));
    show("opening4", &traced(12, json!({"books": [{"openings": "64 81 | 64 65"}]})));
    show("opening5", &traced(12, json!({"books": [{"spine": {"run": "1-4 6-12"}, "openings": "66 67", "count": 12}]})));
}
