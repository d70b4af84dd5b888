//! The ask protocol: worked examples, what is refused and where, and lines of every kind of rubbish.

#![allow(clippy::panic, clippy::unwrap_used, reason = "what tests call may panic as tests may")]

mod ask_support;

use ask_support::{ask, refused};
use backmark::ask::{MAX_LINE, answer_bytes};
use proptest::prelude::*;
use serde_json::{Value, json};

/// The 16 of the protocol.
fn sixteen() -> Value {
    json!({
        "rows": 2, "columns": 4,
        "folds": [
            {"crease": "vertical", "after": 2, "moves": "right", "lands": "over"},
            {"crease": "horizontal", "after": 1, "moves": "top", "lands": "over"},
            {"crease": "vertical", "after": 1, "moves": "right", "lands": "over"},
        ],
        "head": "top", "reads": "left_to_right",
    })
}

fn landing(scheme: &Value) -> Value {
    ask(&json!({"ask": "landing", "scheme": scheme}).to_string())
}

/// The sixteen with the value at a JSON pointer replaced, or taken out by `null` at the name of a field.
fn sixteen_with(pointer: &str, value: Value) -> Value {
    let mut scheme = sixteen();
    match scheme.pointer_mut(pointer) {
        Some(slot) => *slot = value,
        None => {
            let (parent, field) = pointer.rsplit_once('/').unwrap();
            scheme.pointer_mut(parent).unwrap()[field] = value;
        }
    }
    scheme
}

fn says_at(pointer: &str, value: Value, at: &str) -> String {
    refused(&landing(&sixteen_with(pointer, value)), at)
}

/// Draws one side of an answer: rows from the top, `v` for a head down.
fn drawn(answer: &Value, side: &str, rows: usize, columns: usize) -> Vec<String> {
    let mut grid = vec![vec![String::from("?"); columns]; rows];
    for page in answer["ok"]["pages"].as_array().unwrap().iter().filter(|p| p["side"] == side) {
        let head = match page["head"].as_str().unwrap() {
            "up" => "",
            "down" => "v",
            "left" => "<",
            "right" => ">",
            other => panic!("{other}"),
        };
        let (row, column) = (page["row"].as_u64().unwrap() as usize, page["column"].as_u64().unwrap() as usize);
        grid[row][column] = format!("{}{head}", page["page"]);
    }
    grid.into_iter().map(|row| row.join(" ")).collect()
}

#[test]
fn the_sixteen_lands_as_the_protocol_draws_it() {
    let answer = landing(&sixteen());
    assert_eq!(drawn(&answer, "A", 2, 4), ["7v 10v 11v 6v", "2 15 14 3"]);
    assert_eq!(drawn(&answer, "B", 2, 4), ["5v 12v 9v 8v", "4 13 16 1"]);
    assert_eq!(answer["ok"]["loose_leaves"], json!([]));
    let pages = answer["ok"]["pages"].as_array().unwrap();
    assert_eq!(pages.len(), 16);
    assert!((1..).zip(pages).all(|(n, page)| page["page"] == n), "in order of pages");
    assert_eq!(
        pages[0],
        json!({"page": 1, "side": "B", "row": 1, "column": 3, "head": "up", "leaf": 1, "backed_by": 2,
               "conjugate": 16, "forme": "outer"})
    );
}

#[test]
fn a_last_crease_across_points_the_heads_sideways() {
    let scheme = json!({"rows": 2, "columns": 1, "folds": [
        {"crease": "horizontal", "after": 1, "moves": "bottom", "lands": "over"}], "head": "left", "reads": "left_to_right"});
    // Turned so that the heads point up, the packet as it lies has its spine at the left: its upper face, the back of
    // the lower panel, is page 1.
    assert_eq!(drawn(&landing(&scheme), "A", 2, 1), ["3<", "2<"]);
    assert_eq!(drawn(&landing(&scheme), "B", 2, 1), ["4>", "1>"]);
}

#[test]
fn a_leaf_that_no_crease_holds_is_named() {
    // A letter fold with its last crease at the edge of the inner panel: three leaves, one of them loose.
    let scheme = json!({"rows": 1, "columns": 3, "folds": [
        {"crease": "vertical", "after": 2, "moves": "right", "lands": "over"},
        {"crease": "vertical", "after": 1, "moves": "right", "lands": "over"}], "head": "top", "reads": "left_to_right"});
    let answer = landing(&scheme);
    assert_eq!(answer["ok"]["loose_leaves"], json!([2]), "{answer}");
    assert_eq!(answer["ok"]["pages"][2]["conjugate"], Value::Null);
    assert_eq!(answer["ok"]["pages"][0]["conjugate"], 6);
}

#[test]
fn the_reading_direction_may_be_left_out() {
    let mut scheme = sixteen();
    scheme.as_object_mut().unwrap().remove("reads");
    assert_eq!(landing(&scheme), landing(&sixteen()));
}

#[test]
fn a_scheme_that_does_not_fold_is_refused_where_it_fails() {
    assert!(says_at("/folds/1/after", json!(3), "scheme.folds[1].after").contains("2 panels high"));
    says_at("/folds/1/after", json!(0), "scheme.folds[1].after");
    says_at("/folds/2/after", json!(u32::MAX), "scheme.folds[2].after");
    assert!(says_at("/folds/1/moves", json!("left"), "scheme.folds[1].moves").contains("top or bottom"));
    says_at("/folds/0/crease", json!("horizontal"), "scheme.folds[0].moves");
    assert!(says_at("/folds", json!([]), "scheme.folds").contains("no spine"));
    says_at("/columns", json!(8), "scheme.folds");
    says_at("/rows", json!(0), "scheme.rows");
    says_at("/columns", json!(0), "scheme.columns");
    says_at("/head", json!("left"), "scheme.head");
    for size in [4097, u32::MAX] {
        assert!(says_at("/rows", json!(size), "scheme.rows").contains("4096"), "the bound is said");
        assert!(says_at("/columns", json!(size), "scheme.columns").contains("4096"));
    }
    let flat = json!({"rows": 1, "columns": 1, "folds": [], "head": "top", "reads": "left_to_right"});
    refused(&landing(&flat), "scheme.folds");
}

#[test]
fn a_request_of_the_wrong_shape_is_refused_with_its_path_in_plain_words() {
    let whole = "this should be a whole number";
    for (value, not) in [
        (json!(-1), "not -1"),
        (json!(1.5), "not 1.5"),
        (json!(4_294_967_296_u64), "not 4294967296"),
        (json!(1e300), "not 1e+300"),
        (json!("2"), "not the text \"2\""),
        (json!(null), "not null"),
        (json!([2]), "not a list"),
        (json!(true), "not true"),
    ] {
        let says = says_at("/folds/1/after", value.clone(), "scheme.folds[1].after");
        assert!(says.starts_with(whole) && says.ends_with(not), "{says}");
        let says = says_at("/rows", value, "scheme.rows");
        assert!(says.starts_with(whole) && says.ends_with(not), "{says}");
    }
    let says = says_at("/folds/2/moves", json!("up"), "scheme.folds[2].moves");
    assert_eq!(says, "this is \"up\", and may be left, right, top, bottom");
    says_at("/folds/2/moves", json!(1), "scheme.folds[2].moves");
    says_at("/folds/2/lands", json!("Over"), "scheme.folds[2].lands");
    says_at("/folds/2", json!("over"), "scheme.folds[2]");
    says_at("/folds", json!({"0": 1}), "scheme.folds");
    says_at("/head", json!("up"), "scheme.head");
    says_at("/reads", json!("up"), "scheme.reads");
    let says = says_at("/folds/1/slit", json!(true), "scheme.folds[1].slit");
    assert_eq!(says, "\"slit\" is no field here; the fields are crease, after, moves, lands");
    says_at("/name", json!("sixteen"), "scheme.name");
    refused(&ask(r#"{"ask": "landing", "scheme": {}}"#), "scheme.rows");
    refused(&ask(&json!({"ask": "landing", "scheme": sixteen(), "more": 1}).to_string()), "more");
    refused(&ask(r#"{"ask": "landing"}"#), "scheme");
    refused(&ask(r#"{"ask": "landing", "scheme": 3}"#), "scheme");
    let mut folds = sixteen();
    folds["folds"][1].as_object_mut().unwrap().remove("lands");
    assert_eq!(refused(&landing(&folds), "scheme.folds[1].lands"), "this field is missing");
}

#[test]
fn a_line_that_is_no_request_is_refused_as_a_whole() {
    for line in
        ["", " ", "nonsense", "{", "\"landing\"", "[]", "3", "null", "{\"ask\": \"landing\"} {}", "\u{0}", "NaN"]
    {
        refused(&ask(line), "");
    }
    for line in ["{}", r#"{"ask": 3}"#, r#"{"ask": null}"#, r#"{"ask": "Landing"}"#, r#"{"ask": "nothing", "x": 1}"#] {
        refused(&ask(line), "ask");
    }
}

#[test]
fn a_long_line_a_deep_line_and_a_line_that_is_no_text_are_answered() {
    let long = format!("{{\"ask\": \"{}\"}}", "x".repeat(MAX_LINE));
    assert!(refused(&ask(&long), "").contains(&MAX_LINE.to_string()), "the bound is said");
    let long_word = ask(&format!("{{\"ask\": \"{}\"}}", "x".repeat(MAX_LINE / 2)));
    assert!(refused(&long_word, "ask").len() < 600, "an answer does not repeat a long text");
    let long_field = ask(&format!("{{\"ask\": \"landing\", \"{}\": 1}}", "x".repeat(MAX_LINE / 2)));
    assert!(long_field["error"]["says"].as_str().unwrap().len() < 400);
    refused(&ask(&"[".repeat(MAX_LINE)), "");
    refused(&ask(&format!("{{\"ask\": \"landing\", \"scheme\": {}", "{\"a\":".repeat(100_000))), "");
    let said: Value = serde_json::from_str(&answer_bytes(b"{\"ask\": \"\xff\"}")).unwrap();
    assert!(refused(&said, "").contains("byte 10"));
    let said: Value = serde_json::from_str(&answer_bytes(&vec![0xff; MAX_LINE + 1])).unwrap();
    assert!(refused(&said, "").contains(&MAX_LINE.to_string()));
}

#[test]
fn the_largest_sheet_folded_one_panel_at_a_time_is_answered() {
    let lands = |n: u32| if n.is_multiple_of(2) { "over" } else { "under" };
    let fold = |n: u32| json!({"crease": "vertical", "after": n, "moves": "right", "lands": lands(n)});
    let folds: Vec<Value> = (1..4096).rev().map(fold).collect();
    let scheme = json!({"rows": 1, "columns": 4096, "folds": folds, "head": "top", "reads": "right_to_left"});
    assert_eq!(landing(&scheme)["ok"]["pages"].as_array().unwrap().len(), 8192);
}

/// The requests that the example program is shown with, which are those of the protocol's document.
#[test]
fn the_example_requests_are_answered() {
    for line in include_str!("../examples/ask.jsonl").lines() {
        ask(line);
    }
}

/// The request to work back the sixteen of the protocol, with one value put at a JSON pointer.
fn worked_back(pointer: &str, value: Value) -> Value {
    let mut sides = [vec![vec![Value::Null; 4]; 2], vec![vec![Value::Null; 4]; 2]];
    for page in landing(&sixteen())["ok"]["pages"].as_array().unwrap() {
        let [row, column] = ["row", "column"].map(|f| page[f].as_u64().unwrap() as usize);
        sides[usize::from(page["side"] == "B")][row][column] = json!({"page": page["page"], "head": page["head"]});
    }
    let mut request = json!({"ask": "work_back", "rows": 2, "columns": 4, "side_a": sides[0], "side_b": sides[1]});
    if let Some(slot) = request.pointer_mut(pointer) {
        *slot = value;
    }
    ask(&request.to_string())
}

#[test]
fn a_printed_sheet_is_worked_back() {
    let ok = worked_back("/side_a/0/0", Value::Null)["ok"].clone();
    assert_eq!((&ok["complete"], ok.get("nearest")), (&json!(true), None));
    assert!(ok["searched_ms"].is_u64());
    let schemes = ok["schemes"].as_array().unwrap();
    assert!(!schemes.is_empty());
    for scheme in schemes {
        assert_eq!(landing(scheme), landing(&sixteen()));
    }
    let head_down = worked_back("/side_a/1/0/head", json!("down"))["ok"].clone();
    assert_eq!((&head_down["schemes"], &head_down["complete"]), (&json!([]), &json!(true)));
    assert_eq!(head_down["nearest"][0]["change"], json!({"kind": "page_head_down", "page": 2}));
    assert_eq!(landing(&head_down["nearest"][0]["scheme"]), landing(&sixteen()));
}

#[test]
fn a_sheet_that_cannot_be_worked_back_is_refused_where_it_is_wrong() {
    refused(&worked_back("/rows", json!(0)), "rows");
    assert!(refused(&worked_back("/columns", json!(65)), "columns").contains("128"));
    refused(&worked_back("/rows", json!(4_000_000_000_u32)), "rows");
    refused(&worked_back("/rows", json!(3)), "side_a");
    refused(&worked_back("/side_b/1", json!([null])), "side_b[1]");
    refused(&worked_back("/side_b/1/2/page", json!(0)), "side_b[1][2].page");
    refused(&worked_back("/side_a/0/1", json!({"head": "up"})), "side_a[0][1].page");
    refused(&worked_back("/side_a/0/1/head", json!("over")), "side_a[0][1].head");
}

/// The answer for a section found, its pages upright.
fn section_found(pages: &[Value]) -> Value {
    let page = |p: &Value| if p.is_null() { json!({"page": null}) } else { json!({"page": p, "head": "up"}) };
    let pages: Vec<Value> = pages.iter().map(page).collect();
    ask(&json!({"ask": "explain_section", "scheme": sixteen(), "pages": pages}).to_string())
}

#[test]
fn a_wrong_section_is_explained() {
    let pages = |row: [u32; 16]| section_found(&row.map(Value::from));
    let right = pages([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16]);
    assert_eq!(right["ok"], json!({"causes": [], "right": true, "complete": true}));
    // Worked out independently by a fold simulation.
    let found = pages([3, 4, 1, 2, 7, 8, 5, 6, 11, 12, 9, 10, 15, 16, 13, 14]);
    let best = &found["ok"]["causes"][0];
    assert_eq!(found["ok"]["causes"].as_array().unwrap().len(), 1);
    assert_eq!(best["cause"], json!({"kind": "fold_other_way", "fold": 1}));
    assert_eq!((&best["stage"], &best["mark"]), (&json!("folder"), &json!("blank")));
    assert_eq!(best["same_pages_as"][0], json!({"kind": "sheet_turned_over", "about": "vertical"}));
    let found = pages([5, 2, 3, 8, 1, 6, 7, 4, 13, 10, 11, 16, 9, 14, 15, 12]);
    assert_eq!(found["ok"]["causes"][0]["cause"], json!({"kind": "second_side_turned_round"}));
    assert_eq!(found["ok"]["causes"][0]["stage"], "press");
}

#[test]
fn a_section_that_cannot_be_explained_is_refused_where_it_is_wrong() {
    assert!(refused(&section_found(&[json!(1)]), "pages").contains("16 pages"));
    assert!(refused(&section_found(&[json!(0)]), "pages[0].page").contains("1 to"));
    let request = |change: Value| {
        let mut request = json!({"ask": "explain_section", "scheme": sixteen(), "pages": [{"page": 1, "head": "up"}]});
        request.as_object_mut().unwrap().extend(change.as_object().unwrap().clone());
        ask(&request.to_string())
    };
    refused(&request(json!({"pages": [{"head": "up"}]})), "pages[0].page");
    refused(&request(json!({"first_page": 0})), "first_page");
    refused(&request(json!({"fold_at": "head"})), "fold_at");
    refused(&request(json!({"scheme": sixteen_with("/folds/1/after", json!(2))})), "scheme.folds[1].after");
    assert!(
        refused(&request(json!({"scheme": sixteen_with("/columns", json!(400))})), "scheme.columns").contains("128")
    );
}

#[test]
fn a_wrong_section_is_told() {
    let tell = |fields: Value| {
        let mut request = json!({"ask": "tell_section", "scheme": sixteen()});
        request.as_object_mut().unwrap().extend(fields.as_object().unwrap().clone());
        ask(&request.to_string())
    };
    let found = [3, 4, 1, 2, 7, 8, 5, 6, 11, 12, 9, 10, 15, 16, 13, 14];
    let pages: Vec<Value> = found.iter().map(|p| json!({"page": p, "head": "up"})).collect();
    let told = tell(json!({"pages": pages}));
    // Typed, or made of its cause, it is the same section.
    assert_eq!(told, tell(json!({"typed": found.map(|p| p.to_string()).join(" ")})));
    assert_eq!(told, tell(json!({"made": [{"kind": "fold_other_way", "fold": 1}]})));
    let card = &told["ok"]["causes"][0];
    assert_eq!(
        (&card["cause"], &card["stage"]),
        (&json!({"kind": "fold_other_way", "fold": 1}), &json!("At the folder"))
    );
    // The way is that of `act_out`.
    let acted = acted_out(json!({"kind": "fold_other_way", "fold": 1}));
    assert_eq!(card["way"], acted["ok"]["ways"][0]);
    refused(&tell(json!({"typed": "1", "made": []})), "");
    refused(&tell(json!({"typed": "1 x"})), "typed");
    refused(&tell(json!({"made": [{"kind": "fold_other_way"}]})), "made[0].fold");
}

/// The answer to a cause acted out on the sixteen.
fn acted_out(cause: Value) -> Value {
    ask(&json!({"ask": "act_out", "scheme": sixteen(), "cause": cause}).to_string())
}

#[test]
fn a_cause_is_acted_out_and_the_sheet_works_back_to_its_folds() {
    let answer = acted_out(json!({"kind": "fold_other_way", "fold": 2}));
    let ways = answer["ok"]["ways"].as_array().unwrap();
    let way = &ways[0];
    assert_eq!(ways.len(), 1);
    assert_eq!(way["scheme"], sixteen_with("/folds/1/lands", json!("under")));
    assert_eq!((&way["mark"], &way["fold_at"], &way["sheets"]), (&json!("blank"), &json!("spine"), &json!(1)));
    assert_eq!((&way["pages"][0], way.get("under")), (&json!({"page": 5, "head": "up"}), None));
    // The sheet is the one that was printed, so the right folds are found from its two sides.
    let asked = json!({"ask": "work_back", "rows": 2, "columns": 4, "side_a": way["side_a"], "side_b": way["side_b"]});
    let worked = ask(&asked.to_string());
    let worked = worked["ok"]["schemes"].as_array().unwrap();
    assert!(!worked.is_empty() && worked.iter().all(|s| landing(s) == landing(&sixteen())));
    // And the pages are explained by the cause.
    let found = ask(&json!({"ask": "explain_section", "scheme": sixteen(), "pages": way["pages"]}).to_string());
    assert_eq!(found["ok"]["causes"][0]["cause"], json!({"kind": "fold_other_way", "fold": 2}));

    let double = acted_out(json!({"kind": "double_sheet"}))["ok"]["ways"][0].clone();
    assert_eq!((&double["sheets"], &double["under"]["side_a"]), (&json!(2), &double["side_a"]));
    let blank = acted_out(json!({"kind": "second_side_blank", "side": "A"}));
    assert_eq!(blank["ok"]["ways"][0]["side_a"], json!([[null, null, null, null], [null, null, null, null]]));
    assert_eq!(blank["ok"]["ways"][0]["pages"][1], json!({"page": null}));
}

#[test]
fn a_cause_that_cannot_be_acted_out_is_refused_where_it_is_wrong() {
    let says = |cause: Value, at: &str| refused(&acted_out(cause), at);
    let single = |fold: u32| json!({"kind": "fold_other_way", "fold": fold});
    assert!(says(single(4), "cause.fold").contains("1 to 3"), "the bound is said");
    says(single(0), "cause.fold");
    says(json!({"kind": "fold_other_way"}), "cause.fold");
    says(json!({"kind": "fold_other_way", "fold": null}), "cause.fold");
    says(json!({"kind": "fold_other_way", "fold": 1, "page": 1}), "cause.page");
    says(json!({"kind": "double_sheet", "side": "A"}), "cause.side");
    says(json!({"kind": "double_sheet", "sheets": 2}), "cause.sheets");
    says(json!({"kind": "folded_wrong"}), "cause.kind");
    says(json!({"fold": 1}), "cause.kind");
    says(json!("double_sheet"), "cause");
    says(json!({"kind": "sheet_turned_over", "about": "top"}), "cause.about");
    says(json!({"kind": "second_side_blank", "side": "C"}), "cause.side");
    says(json!({"kind": "section_lies", "lies": "right"}), "cause.lies");
    says(json!({"kind": "page_head_down", "page": 17}), "cause.page");
    says(json!({"kind": "pages_exchanged", "pages": [6, 17]}), "cause.pages[1]");
    says(json!({"kind": "pages_exchanged", "pages": [7, 6]}), "cause.pages");
    says(json!({"kind": "pages_exchanged", "pages": [6]}), "cause.pages");
    says(json!({"kind": "pages_exchanged", "pages": [6, 7, 8]}), "cause.pages");
    let together = |causes: Value| json!({"kind": "together", "causes": causes});
    says(
        together(json!([{"kind": "wrong_second_side"}, {"kind": "page_head_down", "page": 0}])),
        "cause.causes[1].page",
    );
    says(together(json!([single(1)])), "cause.causes");
    says(together(json!([single(1), single(2), single(3)])), "cause.causes");
    says(together(json!([single(1), single(1)])), "cause.causes");
    says(
        together(json!([{"kind": "sheet_end_for_end"}, {"kind": "sheet_turned_over", "about": "vertical"}])),
        "cause.causes",
    );
    says(together(json!([single(1), single(4)])), "cause.causes[1].fold");
    says(together(json!([single(1), {"kind": "fold_other_way"}])), "cause.causes[1].fold");
    says(together(json!([single(1), together(json!([]))])), "cause.causes[1].kind");
    says(together(json!({"0": 1})), "cause.causes");
    let other = |field: &str, value: Value| {
        let mut request = json!({"ask": "act_out", "scheme": sixteen(), "cause": {"kind": "double_sheet"}});
        request[field] = value;
        ask(&request.to_string())
    };
    refused(&other("first_page", json!(0)), "first_page");
    refused(&other("first_page", json!(1_000_001)), "first_page");
    refused(&other("scheme", sixteen_with("/columns", json!(400))), "scheme.columns");
    refused(&other("pages", json!([])), "pages");
}

#[test]
fn look_alikes_of_the_sixteen_are_told() {
    let alikes = |scheme: Value| ask(&json!({"ask": "look_alikes", "scheme": scheme, "first_page": 17}).to_string());
    let found = alikes(sixteen())["ok"].clone();
    let groups = found["groups"].as_array().unwrap();
    assert_eq!(
        groups[0]["causes"],
        json!([{"kind": "fold_other_way", "fold": 1}, {"kind": "sheet_turned_over", "about": "vertical"}])
    );
    assert_eq!(groups[0]["pages"][0], json!({"page": 19, "head": "up"}));
    assert_eq!(found["no_harm"], json!([{"kind": "fold_from_other_edge", "fold": 3}]));
    let examples: Vec<&Value> = groups.iter().filter(|g| g["example"] == true).map(|g| &g["causes"]).collect();
    assert_eq!(
        examples,
        [&json!([{"kind": "page_head_down", "page": 18}]), &json!([{"kind": "pages_exchanged", "pages": [18, 19]}])]
    );
    refused(&alikes(sixteen_with("/columns", json!(400))), "scheme.columns");
    refused(&alikes(sixteen_with("/folds", json!([]))), "scheme.folds");
}

#[test]
fn a_row_of_back_marks_is_read() {
    // Section n at 30 + 6 (n - 1) + 3.
    let read = |sections: u32, seen: Value| {
        let marks = json!({"spine_mm": 216, "first_mm": 30, "step_mm": 6, "length_mm": 6, "levels": 24});
        ask(&json!({"ask": "read_spine", "sections": sections, "marks": marks, "seen": seen}).to_string())
    };
    let answer = read(4, json!([{"marks_mm": [33]}, {"marks_mm": [45.2]}, {"marks_mm": []}, {"marks_mm": null}]));
    assert_eq!(answer["ok"]["found"], json!([{"section": 1}, {"section": 3}, {"no_mark": true}, {"unread": true}]));
    assert_eq!(answer["ok"]["doubts"][0]["at"], 4);
    // Section 5 head to tail shows its mark at 216 - 57; in a book of 12 no other mark stands there.
    let mut seen: Vec<Value> = (0..12).map(|n| json!({"marks_mm": [33 + 6 * n]})).collect();
    seen[4] = json!({"marks_mm": [159]});
    assert_eq!(read(12, json!(seen))["ok"]["found"][4], json!({"section": 5, "lies": "head_to_tail"}));

    assert!(refused(&read(401, json!([])), "sections").contains("400"), "the bound is said");
    assert!(refused(&read(4, json!(vec![json!({"marks_mm": null}); 401])), "seen").contains("400"));
    refused(&read(0, json!([])), "sections");
    refused(&read(31, json!([{}])), "seen[0].marks_mm");
    refused(&read(4, json!([{"marks_mm": [33]}, {"marks_mm": "33"}])), "seen[1].marks_mm");
    refused(&read(4, json!([{"marks_mm": [33, null]}])), "seen[0].marks_mm[1]");
    refused(&ask(r#"{"ask": "read_spine", "sections": 4, "seen": []}"#), "marks");
    let flat = r#"{"ask": "read_spine", "sections": 4, "seen": [], "marks":
        {"spine_mm": 216, "first_mm": 30, "step_mm": 0, "length_mm": 6, "levels": 24}}"#;
    refused(&ask(flat), "marks.step_mm");
}

#[test]
fn a_gathered_book_is_explained() {
    let explain = |sections: u32, found: Value| {
        ask(&json!({"ask": "explain_book", "sections": sections, "found": found}).to_string())
    };
    let book = |numbers: &[u32]| json!(numbers.iter().map(|n| json!({"section": n})).collect::<Vec<_>>());
    assert_eq!(explain(4, book(&[1, 2, 3, 4]))["ok"]["explanations"], json!([]));
    let answer = explain(12, book(&[1, 2, 3, 4, 9, 6, 7, 8, 9, 10, 11, 12]));
    let first = &answer["ok"]["explanations"][0];
    assert_eq!(first["faults"], json!([{"kind": "wrong_section", "at": 5, "section": 9}]));
    assert_eq!((&first["bulk"], &first["odds"]), (&json!(0), &json!(1.0)));
    let answer = explain(12, book(&[7, 8, 9, 10, 11, 12, 1, 2, 3, 4, 5, 6]));
    let first = &answer["ok"]["explanations"][0];
    assert_eq!(first["same_order_as"], json!([[{"kind": "divided_wrong", "after": 6}]]), "{answer}");
    let turned = json!([{"section": 1}, {"section": 3, "lies": "head_to_tail"}]);
    assert_eq!(
        explain(3, turned)["ok"]["explanations"][0]["faults"],
        json!([{"kind": "missing", "section": 2}, {"kind": "lies", "section": 3, "lies": "head_to_tail"}])
    );

    assert!(refused(&explain(401, json!([])), "sections").contains("400"), "the bound is said");
    refused(&explain(4, book(&[1, 5])), "found[1].section");
    refused(&explain(4, json!([{"section": 1}, {"section": -1}])), "found[1].section");
    refused(&explain(4, json!([{"section": 1, "lies": "up"}])), "found[0].lies");
    refused(&explain(4, json!([{"no_mark": false}])), "found[0]");
    refused(&explain(4, json!([{"section": 1, "place": 2}])), "found[0].place");
    refused(&explain(4, json!({"1": 1})), "found");
}

#[test]
fn links_are_written_and_read_and_damaged_ones_refused_in_words() {
    let scene = json!({"course": "Twelves, off-cut inset", "at": 1.25, "turned_over": true, "quarters": 3, "piece": 1,
        "place": 7, "beside": {"cut": {"crease": "horizontal", "at": 2}}, "through": true, "figures": false, "followed": 11});
    let write = |field: &str, value: &Value| ask(&json!({"ask": "write_link", field: value}).to_string());
    let read = |link: &str| ask(&json!({"ask": "read_link", "link": link}).to_string());
    for (field, value) in [
        ("scene", scene),
        ("exercise", json!({"kind": 255, "level": 9, "seed": u64::MAX})),
        ("job", json!("{\"backmark\":3,\"job\":{\"title\":\"An invented book\"}}")),
    ] {
        let written = write(field, &value);
        let link = written["ok"]["link"].as_str().unwrap();
        let told = read(link);
        assert_eq!(told["ok"][field], value, "{told}");
        assert_eq!(told["ok"]["says"], written["ok"]["says"]);
        let side = written["ok"]["qr"]["rows"].as_array().unwrap().len();
        assert_eq!(written["ok"]["qr"]["version"], (side - 17) / 4, "ISO/IEC 18004: 17 modules and 4 for each version");
        assert!(refused(&read(&link[..link.len() - 3]), "link").contains("3 signs are missing"));
    }
    let sheet = json!({"rows": 1, "columns": 2, "copies": [[[0]]], "reads": "left_to_right", "steps": [
        {"crease": "vertical", "after": 1, "moves": "left", "lands": "under"}, {"head": "bottom"}]});
    let written = write("scene", &json!({"sheet": sheet}));
    assert_eq!(read(written["ok"]["link"].as_str().unwrap())["ok"]["scene"]["sheet"], sheet);

    refused(&write("scene", &json!({"course": "No such sheet"})), "scene.course");
    refused(&write("scene", &json!({"course": "Sixteen, three folds", "at": -1})), "scene.at");
    refused(&write("scene", &json!({"course": "Sixteen, three folds", "place": 0})), "scene.place");
    refused(&write("scene", &json!({"course": "Sixteen, three folds", "quarters": 4})), "scene.quarters");
    refused(&write("scene", &json!({"course": "Sixteen, three folds", "seed": 4})), "scene.seed");
    refused(&write("scene", &json!({})), "scene");
    refused(&write("exercise", &json!({"kind": 1, "level": 0, "seed": 1})), "exercise");
    assert!(refused(&write("job", &json!("x".repeat(40_000))), "job").contains("as a file"));
    refused(&ask(r#"{"ask": "write_link"}"#), "");
    refused(&ask(r#"{"ask": "write_link", "job": "{}", "address": "https://example.org/#a"}"#), "address");
    refused(&read("#1sAA"), "link");
}

#[test]
fn trade_words_are_told_and_found() {
    let all = ask(r#"{"ask": "glossary"}"#);
    let entries = all["ok"]["entries"].as_array().unwrap();
    assert!(entries.len() >= 100 && all["ok"].get("found").is_none());
    let search = ask(r#"{"ask": "glossary", "search": "flattermarke"}"#);
    assert_eq!(search["ok"]["entries"][0]["term"], "collating mark");
    let found = ask(r#"{"ask": "glossary", "sentence": "Über: slit the bolts"}"#);
    assert_eq!(
        found["ok"]["found"][1],
        json!({"from": 15, "to": 20, "word": "bolts", "terms": ["bolt"], "quiet": false})
    );
    refused(&ask(r#"{"ask": "glossary", "term": "boult"}"#), "term");
    refused(&ask(r#"{"ask": "glossary", "term": "bolt", "search": "bolt"}"#), "");
    let long = json!({"ask": "glossary", "sentence": "x".repeat(20_001)});
    assert!(refused(&ask(&long.to_string()), "sentence").contains("20000"));
}

/// What the document shows as JSON is JSON, and the requests in it are answered.
#[test]
fn the_document_of_the_protocol_shows_what_works() {
    let document = include_str!("../src/ask/PROTOCOL.md");
    let mut requests = 0;
    for block in document.split("```json").skip(1).filter_map(|rest| rest.split("```").next()) {
        let block = block.replace(", …]", "]");
        let value: Value = serde_json::from_str(&block).unwrap_or_else(|why| panic!("{why}: {block}"));
        if value.get("ask").is_some() {
            requests += 1;
            let answer = ask(&value.to_string());
            assert!(answer.get("ok").is_some(), "{answer}");
        } else if value.get("rows").is_some() {
            assert_eq!(value, sixteen());
        }
    }
    assert_eq!(requests, 34);
}

fn any_json() -> impl Strategy<Value = Value> {
    let leaf = prop_oneof![
        Just(Value::Null),
        any::<bool>().prop_map(Value::from),
        any::<i64>().prop_map(Value::from),
        any::<f64>().prop_map(Value::from),
        ".{0,8}".prop_map(Value::from),
        prop_oneof![Just("top"), Just("left"), Just("vertical"), Just("over"), Just("landing")].prop_map(Value::from),
    ];
    leaf.prop_recursive(3, 16, 4, |inner| {
        prop_oneof![
            proptest::collection::vec(inner.clone(), 0..4).prop_map(Value::from),
            proptest::collection::btree_map("[a-z]{1,6}", inner, 0..4).prop_map(|m| m.into_iter().collect()),
        ]
    })
}

fn example(which: prop::sample::Index) -> &'static str {
    let lines: Vec<&str> = include_str!("../examples/ask.jsonl").lines().collect();
    lines[which.index(lines.len())]
}

/// Puts a value somewhere into a request: `steps` chooses the way down.
fn put(into: &mut Value, steps: &[usize], value: Value) {
    let slot = match (into, steps) {
        (Value::Object(fields), [step, rest @ ..]) if !fields.is_empty() => {
            let nth = step % fields.len();
            fields.iter_mut().nth(nth).map(|(_, v)| (v, rest))
        }
        (Value::Array(items), [step, rest @ ..]) if !items.is_empty() => {
            let nth = step % items.len();
            items.get_mut(nth).map(|v| (v, rest))
        }
        (into, _) => {
            *into = value;
            return;
        }
    };
    if let Some((slot, rest)) = slot {
        put(slot, rest, value);
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 512, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_text_has_an_answer(line in any::<String>()) {
        ask(&line);
    }

    #[test]
    fn any_bytes_have_an_answer(line in proptest::collection::vec(any::<u8>(), 0..64)) {
        let said: Value = serde_json::from_str(&answer_bytes(&line)).unwrap();
        prop_assert!(said.get("error").is_some());
    }

    #[test]
    fn any_json_has_an_answer(line in any_json()) {
        ask(&line.to_string());
    }

    #[test]
    fn a_request_with_something_else_in_it_has_an_answer(
        which in any::<prop::sample::Index>(),
        steps in proptest::collection::vec(any::<usize>(), 0..5),
        value in any_json(),
    ) {
        let mut request: Value = serde_json::from_str(example(which)).unwrap();
        put(&mut request, &steps, value);
        ask(&request.to_string());
    }

    #[test]
    fn a_request_cut_off_or_with_a_wrong_byte_has_an_answer(
        which in any::<prop::sample::Index>(),
        at in any::<prop::sample::Index>(),
        byte in any::<u8>(),
        cut in any::<bool>(),
    ) {
        let mut line = example(which).as_bytes().to_vec();
        let at = at.index(line.len());
        line[at] = byte;
        if cut {
            line.truncate(at);
        }
        let _: Value = serde_json::from_str(&answer_bytes(&line)).unwrap();
    }
}
