//! The ask protocol about whole books and runs of books: worked examples, and what is refused and where.

#![allow(clippy::panic, clippy::unwrap_used, reason = "what tests call may panic as tests may")]

mod ask_support;

use ask_support::{ask, refused};
use serde_json::{Value, json};

#[test]
fn a_book_is_signed_planned_and_described() {
    let signed =
        ask(r#"{"ask": "signatures", "sections": 30, "alphabet": "latin23", "start": "B", "doubling": "figure"}"#);
    let signatures = signed["ok"]["signatures"].as_array().unwrap();
    assert_eq!((&signatures[0], &signatures[21], &signatures[22]), (&json!("B"), &json!("Z"), &json!("2A")));
    refused(&ask(r#"{"ask": "signatures", "sections": 3, "alphabet": "greek"}"#), "alphabet");
    assert!(
        refused(&ask(r#"{"ask": "signatures", "sections": 401, "alphabet": "figures"}"#), "sections").contains("400")
    );

    let job = |field: &str, value: Value| {
        let mut request = json!({
            "ask": "plan_book", "extent": 360, "copies": 3000,
            "page": {"width_mm": 138, "height_mm": 216}, "sheet": {"width_mm": 1128, "height_mm": 888},
            "paper": {"grammage": 80, "bulk": 1.25},
        });
        request[field] = value;
        ask(&request.to_string())
    };
    let plan = &job("copies", json!(3000))["ok"]["plans"][0];
    assert_eq!(plan["says"], "11 sections of 32 pages and 1 of 8");
    assert_eq!((&plan["sections"][10]["pages"], &plan["sections"][11]["pages"]), (&json!(8), &json!(32)));
    assert_eq!(job("made_up", json!([360 / 4]))["error"]["at"], "made_up[0]");
    assert!(refused(&job("extent", json!(12_801)), "extent").contains("12800"), "the bound is said");
    assert!(refused(&job("copies", json!(0)), "copies").contains("10000000"));
    refused(&job("paper", json!({"grammage": 5, "bulk": 1.25})), "paper");
    refused(&job("paper", json!({"grammage": 80, "bulk": 1.25, "grain": "across"})), "paper.grain");
    refused(&job("page", json!({"width_mm": 1e300, "height_mm": 216})), "page");
    refused(&job("sheet", json!({"width_mm": 100, "height_mm": 100})), "sheet");

    let book = |change: Value| {
        let mut book = json!({"runs": [{"pages": 32, "folios": {"kind": "arabic", "first": 1}}], "sections": [16, 16]});
        book.as_object_mut().unwrap().extend(change.as_object().unwrap().clone());
        let binding = json!({"page": {"width_mm": 138, "height_mm": 216}, "paper": {"grammage": 80, "bulk": 1.25}});
        json!({"ask": "describe_book", "book": book, "binding": binding, "signatures": ["B", "C"]})
    };
    let described = ask(&book(json!({})).to_string());
    assert_eq!(described["ok"]["formula"]["text"], "8°: A–B⁸; 16 leaves; pp. 1–32");
    assert_eq!(described["ok"]["bound"]["bulk_mm"], 1.6);
    let [b, c] = [0, 1].map(|i| &described["ok"]["signatures"][i]);
    assert_eq!((&b["section"], &c["section"]), (&json!(2), &Value::Null));
    refused(&ask(&book(json!({"sections": [16, 8]})).to_string()), "book.sections");
    refused(
        &ask(&book(json!({"added": [{"kind": "plate", "after": 3, "pages": 2}]})).to_string()),
        "book.added[0].after",
    );
    refused(
        &ask(&book(json!({"runs": [{"pages": 32, "folios": {"kind": "greek", "first": 1}}]})).to_string()),
        "book.runs[0].folios.kind",
    );
    let thread = |mm: f64| {
        let mut request = book(json!({}));
        request["binding"]["thread_mm"] = json!(mm);
        ask(&request.to_string())
    };
    refused(&thread(9.0), "binding.thread_mm");
}

/// A run with a lift of 80 in the wrong station.
fn run(change: Value) -> Value {
    let mut evidence = json!({
        "line": {"first": 1, "last": 2000}, "lift": 80,
        "opened": [{"counter": 1420, "judged": "good"}, {"counter": 1421, "judged": "bad"}],
        "left": [{"station": 5, "over": 80}, {"station": 9, "over": -80}],
    });
    evidence.as_object_mut().unwrap().extend(change.as_object().unwrap().clone());
    evidence
}

fn of_run(name: &str, change: Value) -> Value {
    let mut request = run(change);
    request["ask"] = name.into();
    ask(&request.to_string())
}

#[test]
fn books_of_a_run_are_held_opened_and_reported() {
    let held = of_run("hold_books", json!({}));
    assert_eq!(held["ok"]["says"][0], "Hold books 1,421 to 1,500: 80 books.");
    let moment = json!({"pattern": {"kind": "from_a_moment"}, "opened": []});
    assert_eq!(of_run("next_opening", moment)["ok"]["open"], 1000);
    let block = json!({"pattern": {"kind": "block"}, "opened": []});
    assert_eq!(of_run("next_opening", block)["ok"]["halving"], false);
    let report = json!({"ask": "write_report", "report": {"what": "wrong_section"}, "since": run(json!({}))});
    let rows = ask(&report.to_string())["ok"]["rows"].clone();
    let value = |label: &str| rows.as_array().unwrap().iter().find(|r| r["label"] == label).unwrap()["value"].clone();
    assert_eq!((value("First bad"), value("Held")), (json!("book 1,421"), json!("580 books")));
    assert!(value("Code").as_str().unwrap().starts_with("F-16"));
}

#[test]
fn a_run_that_cannot_be_worked_with_is_refused_where_it_is_wrong() {
    for name in ["next_opening", "hold_books"] {
        refused(&of_run(name, json!({"line": {"first": 0, "last": 5}})), "line.first");
        refused(&of_run(name, json!({"opened": [{"counter": 2001, "judged": "bad"}]})), "opened[0].counter");
        refused(&of_run(name, json!({"opened": [{"counter": 1, "judged": "so"}]})), "opened[0].judged");
        let jam = |station: u32| json!({"log": [{"counter": 1, "what": {"kind": "jam", "station": station}}]});
        assert!(refused(&of_run(name, jam(0)), "log[0].what.station").contains("400"));
        refused(
            &of_run(name, json!({"left": [{"station": 5, "over": 1}, {"station": 5, "over": 2}]})),
            "left[1].station",
        );
        refused(&of_run(name, json!({"lift": 0})), "lift");
        refused(&of_run(name, json!({"station": 401})), "station");
        refused(&of_run(name, json!({"pattern": {"kind": "every_nth", "every": 1}})), "pattern.every");
        refused(&of_run(name, json!({"guard": 1_000_001})), "guard");
        let many = vec![json!({"counter": 5, "judged": "good"}); 10_001];
        assert!(refused(&of_run(name, json!({"opened": many})), "opened").contains("10000"));
    }
    let report = |report: Value, since: Value| {
        ask(&json!({"ask": "write_report", "report": report, "since": since}).to_string())
    };
    assert!(refused(&report(json!({"title": "x".repeat(2001)}), run(json!({}))), "report.title").contains("2000"));
    refused(&report(json!({"action": vec!["x"; 201]}), run(json!({}))), "report.action");
    refused(&report(json!({"hold": [{"books": {"from": 5, "to": 4}}]}), run(json!({}))), "report.hold[0].books");
    refused(&report(json!({}), run(json!({"lift": 0}))), "since.lift");
    refused(&report(json!({"colour": 1}), run(json!({}))), "report.colour");
}

#[test]
fn a_book_is_weighed_by_other_odds() {
    let found = json!([{"section": 1}, {"section": 3}, {"section": 2}, {"section": 4}, {"section": 5}, {"section": 5}]);
    let weigh =
        |odds: Value| ask(&json!({"ask": "weigh_book", "sections": 6, "found": found, "odds": odds}).to_string());
    let at_hand = weigh(json!({}));
    let told = &at_hand["ok"]["explanations"][0];
    assert_eq!(told["run"], "1 3 2 4 5 5");
    assert_eq!(told["faults"].as_array().unwrap().len(), 2);
    let figure = |answer: &Value, at: usize| answer["ok"]["figures"][at].clone();
    assert_eq!((&figure(&at_hand, 0)["name"], &figure(&at_hand, 0)["value"]), (&json!("missing"), &json!(30.0)));
    let other = weigh(json!({"missing": 7}));
    assert_eq!((&figure(&other, 0)["value"], &figure(&other, 0)["at_hand"]), (&json!(7.0), &json!(30.0)));
    refused(&weigh(json!({"missing": 0})), "odds.missing");
    refused(&weigh(json!({"misses": 1})), "odds.misses");
    refused(&weigh(json!({"missing": "often"})), "odds.missing");
    let with =
        |shown: u32| ask(&json!({"ask": "weigh_book", "sections": 6, "found": found, "shown": shown}).to_string());
    refused(&with(0), "shown");
    refused(&with(101), "shown");
    refused(&ask(r#"{"ask": "weigh_book", "sections": 6}"#), "");
    // The request without odds stays as it was.
    refused(&ask(r#"{"ask": "explain_book", "sections": 1, "found": [], "odds": {}}"#), "odds");
}

#[test]
fn a_lot_is_accepted_by_a_sample() {
    let sampling = |plan: Value| {
        let mut plan = plan;
        plan["ask"] = "sampling".into();
        ask(&plan.to_string())
    };
    let answer = sampling(json!({"lot": 1000, "sample": 80, "accept": 1, "bad": [0, 1, 10]}));
    assert_eq!(answer["ok"]["accepted"][0], 1.0);
    assert_eq!(answer["ok"]["accepted"][1], 1.0);
    // Reckoned with whole numbers: [C(990, 80) + 10 C(990, 79)] / C(1000, 80).
    assert!((answer["ok"]["accepted"][2].as_f64().unwrap() - 0.812_641_838_361_516).abs() < 1e-12);
    refused(&sampling(json!({"lot": 0, "sample": 0, "accept": 0, "bad": []})), "lot");
    refused(&sampling(json!({"lot": 10, "sample": 11, "accept": 0, "bad": []})), "sample");
    refused(&sampling(json!({"lot": 10, "sample": 1, "accept": 0, "bad": [1, 11]})), "bad[1]");
    refused(&sampling(json!({"lot": 10, "sample": 1, "accept": 0, "bad": vec![0; 1002]})), "bad");
}

#[test]
fn a_line_is_played() {
    let simulate = |run: Value| {
        let mut run = run;
        run["ask"] = "simulate".into();
        ask(&run.to_string())
    };
    let planted = json!([{"kind": "wrong_pile", "station": 5, "section": 9, "counter": 300, "lift": 60}]);
    let answer = simulate(json!({"seed": 7, "books": 5000, "planted": planted}));
    assert_eq!(answer["ok"]["spans"][0], json!([381, 440]));
    assert_eq!(answer["ok"]["digest"].as_str().unwrap().len(), 16);
    refused(&simulate(json!({"seed": -1, "books": 1})), "seed");
    refused(&simulate(json!({"seed": 1, "books": 0})), "books");
    refused(&simulate(json!({"seed": 1, "books": 9, "planted": [{"kind": "fire"}]})), "planted[0].kind");
    let far = json!([{"kind": "exchanged", "stations": [5, 13]}]);
    refused(&simulate(json!({"seed": 1, "books": 9, "planted": far})), "planted[0].stations[1]");
}
