//! A wrong section of a sheet that is slit: the causes are acted out on the pieces of its course.

#![allow(clippy::panic, clippy::unwrap_used, reason = "what tests call may panic as tests may")]

use backmark::ask::answer;
use serde_json::{Value, json};

fn ask(request: &Value) -> Value {
    serde_json::from_str(&answer(&request.to_string())).unwrap()
}

/// Asks about a section of a sheet.
fn told(sheet: &Value, more: Value) -> Value {
    let mut request = json!({"ask": "tell_section", "sheet": sheet});
    request.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
    let answer = ask(&request);
    answer.get("ok").unwrap_or_else(|| panic!("{request}: {answer}")).clone()
}

fn refused(sheet: &Value, more: Value) -> (String, String) {
    let mut request = json!({"ask": "tell_section", "sheet": sheet});
    request.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
    let answer = ask(&request);
    let error = answer.get("error").unwrap_or_else(|| panic!("{request}: {answer}"));
    ["at", "says"].map(|m| error[m].as_str().unwrap().to_owned()).into()
}

fn fold(moves: &str, after: u32, lands: &str) -> Value {
    let crease = if ["left", "right"].contains(&moves) { "vertical" } else { "horizontal" };
    json!({"crease": crease, "after": after, "moves": moves, "lands": lands})
}

/// Folds that halve what lies there, as of a half that lies mirrored: it is the first half turned over.
fn mirrored(folds: &[(&str, u32)], exchanged: [&'static str; 2]) -> Vec<Value> {
    let [a, b] = exchanged;
    let other = |moves: &str| match moves {
        m if m == a => b.to_owned(),
        m if m == b => a.to_owned(),
        m => m.to_owned(),
    };
    folds.iter().map(|(moves, after)| fold(&other(moves), *after, "under")).collect()
}

fn with_head(mut steps: Vec<Value>, head: &str) -> Vec<Value> {
    steps.push(json!({"head": head}));
    steps
}

/// Half-sheet work: a sheet of two halves, each a copy, for the pile to be turned or tumbled.
fn half_sheet(rows: u32, columns: u32, folds: &[(&str, u32)], turned: bool) -> Value {
    let first = with_head(folds.iter().map(|(moves, after)| fold(moves, *after, "over")).collect(), "top");
    let (rows, columns, slit) = if turned {
        let second = with_head(mirrored(folds, ["left", "right"]), "top");
        (rows, 2 * columns, json!({"slit": "vertical", "after": columns, "left": first, "right": second}))
    } else {
        let second = with_head(mirrored(folds, ["top", "bottom"]), "bottom");
        (2 * rows, columns, json!({"slit": "horizontal", "after": rows, "top": first, "bottom": second}))
    };
    json!({"rows": rows, "columns": columns, "steps": [slit], "copies": [[[0]], [[1]]]})
}

fn half_of(pages: u32, turned: bool) -> Value {
    match pages {
        8 => half_sheet(2, 2, &[("top", 1), ("right", 1)], turned),
        16 => half_sheet(2, 4, &[("right", 2), ("top", 1), ("right", 1)], turned),
        _ => half_sheet(4, 4, &[("top", 2), ("right", 2), ("top", 1), ("right", 1)], turned),
    }
}

/// Two eights of a sheet of two rows and four columns, one after the other.
fn two_eights() -> Value {
    let eight = || with_head(vec![fold("top", 1, "over"), fold("right", 1, "over")], "top");
    let slit = json!({"slit": "vertical", "after": 2, "left": eight(), "right": eight()});
    json!({"rows": 2, "columns": 4, "steps": [slit], "copies": [[[0], [1]]]})
}

/// A sheet of twelve leaves' paper: the sixteen that is left when a third is cut off, with that third, a piece of two
/// columns folded twice, laid in.
fn cut_off_and_laid_in() -> Value {
    let sixteen = with_head(vec![fold("right", 2, "over"), fold("top", 1, "over"), fold("right", 1, "over")], "top");
    let eight = with_head(vec![fold("top", 1, "over"), fold("right", 1, "over")], "top");
    let slit = json!({"slit": "vertical", "after": 4, "left": sixteen, "right": eight});
    json!({"rows": 2, "columns": 6, "steps": [slit], "copies": [[[0, 1]]]})
}

/// The pages of half sheets that were tumbled where they should be turned, and turned where they should be tumbled:
/// outer forme on both sides, then inner forme. Worked out independently of this engine, by a simulation of folding
/// that knows nothing of causes (`benches/model.py` for the right places) and the rule that a sheet tumbled puts behind
/// the page in row r that of row R - 1 - r of the same half, half turned round; no published source.
const HALVES: [(u32, &str, [&str; 2]); 6] = [
    (8, "tumbled", ["1 4 1 4 5 8 5 8", "3 2 3 2 7 6 7 6"]),
    (8, "turned", ["1 8 5 4 5 4 1 8", "7 2 3 6 3 6 7 2"]),
    (16, "tumbled", ["1 8 5 4 5 4 1 8 9 16 13 12 13 12 9 16", "7 2 3 6 3 6 7 2 15 10 11 14 11 14 15 10"]),
    (16, "turned", ["1 4 1 4 5 8 5 8 9 12 9 12 13 16 13 16", "3 2 3 2 7 6 7 6 11 10 11 10 15 14 15 14"]),
    (
        32,
        "tumbled",
        [
            "1 4 1 4 5 8 5 8 9 12 9 12 13 16 13 16 17 20 17 20 21 24 21 24 25 28 25 28 29 32 29 32",
            "3 2 3 2 7 6 7 6 11 10 11 10 15 14 15 14 19 18 19 18 23 22 23 22 27 26 27 26 31 30 31 30",
        ],
    ),
    (
        32,
        "turned",
        [
            "1 8 5 4 5 4 1 8 9 16 13 12 13 12 9 16 17 24 21 20 21 20 17 24 25 32 29 28 29 28 25 32",
            "7 2 3 6 3 6 7 2 15 10 11 14 11 14 15 10 23 18 19 22 19 22 23 18 31 26 27 30 27 30 31 26",
        ],
    ),
];

#[test]
fn half_sheets_backed_up_the_wrong_way_are_told_by_their_sheet() {
    for (pages, was, rows) in HALVES {
        let sheet = half_of(pages, was == "tumbled");
        for (row, forme) in rows.iter().zip(["outer", "inner"]) {
            let told = told(&sheet, json!({"typed": row}));
            let first = &told["causes"][0];
            assert_eq!(first["cause"], json!({"kind": "half_sheet", "forme": forme, "was": was}), "{row}: {told:#}");
            assert_eq!(first["stage"], "At the press");
            assert_eq!(first["mark"].as_str().unwrap().contains("blank"), forme == "inner");
            assert_eq!(first["way"]["pages"], told["found"]);
        }
    }
}

#[test]
fn both_kinds_come_from_one_sheet_and_only_by_its_wrong_way() {
    for (pages, was, rows) in HALVES {
        let sheet = half_of(pages, was == "tumbled");
        for (row, forme) in rows.iter().zip(["outer", "inner"]) {
            let cause = json!({"kind": "half_sheet", "forme": forme, "was": was});
            let told = told(&sheet, json!({"made": [cause]}));
            let found: Vec<u32> =
                told["found"].as_array().unwrap().iter().map(|p| p["page"].as_u64().unwrap() as u32).collect();
            let typed: Vec<u32> = row.split(' ').map(|n| n.parse().unwrap()).collect();
            assert_eq!(found, typed);
        }
        // The way that this pile should go is no fault.
        let right = if was == "tumbled" { "turned" } else { "tumbled" };
        let cause = json!({"kind": "half_sheet", "forme": "outer", "was": right});
        assert_eq!(refused(&sheet, json!({"made": [cause]})).0, "made[0]");
    }
}

#[test]
fn the_sheet_says_how_many_sections_it_gives_and_which_is_asked_about() {
    let sheet = two_eights();
    assert_eq!(told(&sheet, json!({"typed": "9-16", "section": 2, "first_page": 9}))["right"], true);
    let mixed = told(&sheet, json!({"typed": "1-8", "section": 2, "first_page": 9}));
    let first = &mixed["causes"][0];
    assert_eq!(first["cause"], json!({"kind": "lanes_mixed", "section_offset": -1}), "{mixed:#}");
    assert!(first["next_check"].as_str().unwrap().contains("Riffle"));
    assert_eq!(first["nest"]["pieces"][0]["section_offset"], -1);
    // The section after comes from the next sheet: no lane of this one.
    let other = told(&sheet, json!({"typed": "17-24", "section": 2, "first_page": 9}));
    assert_eq!(other["causes"][0]["cause"]["kind"], "other_section");
    assert_eq!(refused(&sheet, json!({"typed": "1-8", "section": 3})).0, "section");
    let scheme = json!({"rows": 1, "columns": 2, "folds": [fold("right", 1, "over")], "head": "top"});
    assert!(refused(&sheet, json!({"typed": "1-4", "scheme": scheme})).1.contains("either"));
}

#[test]
fn lanes_of_unlike_sections_keep_their_own_pages() {
    // A sixteen and an eight from one sheet.
    let mut sheet = cut_off_and_laid_in();
    sheet["copies"] = json!([[[0], [1]]]);
    let mixed = told(&sheet, json!({"typed": "17-24"}));
    assert_eq!(mixed["causes"][0]["cause"], json!({"kind": "lanes_mixed", "section_offset": 1}), "{mixed:#}");
    assert!(mixed["causes"][0]["detail"].as_str().unwrap().contains("Pages 17 to 24 stand where 1 to 16 are due."));
    put_together(&mixed["causes"][0]["nest"], &mixed["found"]);
    assert_eq!(mixed["causes"][0]["nest"]["pieces"][0]["section_offset"], 1);
    // The next sheet begins with page 25, so that is two sections on.
    let leaf = told(&sheet, json!({"typed": "1-2 27-28 5-16"}));
    assert_eq!(leaf["causes"][0]["cause"]["section_offset"], 2, "{leaf:#}");
}

#[test]
fn a_nest_is_told_and_put_together_as_it_was() {
    let sheet = cut_off_and_laid_in();
    let right = told(&sheet, json!({"typed": "1-24"}));
    assert_eq!((right["right"].as_bool(), right.get("nest")), (Some(true), None));
    let cases = [
        ("1-8 17-24", json!({"kind": "inset_left_out"})),
        ("1-4 9-16 5-8 17-24", json!({"kind": "inset_beside", "place": "among_leaves", "after": 2})),
        ("1-8 16-9v 17-24", json!({"kind": "inset_lies", "lies": "head_to_tail"})),
        ("1-8 16-9 17-24", json!({"kind": "inset_lies", "lies": "side_to_side"})),
        ("1-8 9-12 9-12 13-16 13-16 17-24", json!({"kind": "inset_twice", "second": "inside"})),
        ("1-8 9-16 9-16 17-24", json!({"kind": "inset_twice", "second": "behind"})),
        ("1-8 33-40 17-24", json!({"kind": "inset_of_other_section", "section_offset": 1})),
        ("9-12 1-8 17-24 13-16", json!({"kind": "inset_outside"})),
    ];
    for (typed, cause) in cases {
        let told = told(&sheet, json!({"typed": typed}));
        let card = &told["causes"][0];
        assert_eq!(card["cause"], cause, "{typed}: {card:#}");
        assert!(!card["next_check"].as_str().unwrap().is_empty() && !card["caution"].as_str().unwrap().is_empty());
        put_together(&told["nest"], &told["nest"]["pages"]);
        put_together(&card["nest"], &told["found"]);
        let numbers = |nest: &Value| -> Vec<u64> {
            nest["leaves"].as_array().unwrap().iter().map(|l| l["piece"].as_u64().unwrap()).collect()
        };
        assert_eq!(numbers(&told["nest"]), [[1; 4], [2; 4], [1; 4]].concat());
        match cause["kind"].as_str().unwrap() {
            "inset_left_out" => assert_eq!(numbers(&card["nest"]), [1; 8]),
            "inset_outside" => assert_eq!(numbers(&card["nest"]), [vec![2; 2], vec![1; 8], vec![2; 2]].concat()),
            "inset_beside" => assert_eq!(numbers(&card["nest"]), [vec![1; 2], vec![2; 4], vec![1; 6]].concat()),
            _ => {}
        }
        let fore_edge = card["nest"]["leaves"].as_array().unwrap().iter().filter(|l| l["fold_at"] == "fore_edge");
        assert_eq!(fore_edge.count(), if cause["lies"] == "side_to_side" { 4 } else { 0 });
    }
}

/// Each leaf of a nest has two pages, its papers are single leaves or joined two, and the sheets of its pieces carry the
/// pages of their leaves.
fn put_together(nest: &Value, pages: &Value) {
    let (leaves, found) = (nest["leaves"].as_array().unwrap(), pages.as_array().unwrap());
    assert_eq!(2 * leaves.len(), found.len());
    for leaf in leaves {
        let same = |l: &&Value| (&l["piece"], &l["paper"]) == (&leaf["piece"], &leaf["paper"]);
        assert!(leaves.iter().filter(same).count() <= 2);
    }
    for piece in nest["pieces"].as_array().unwrap() {
        let sides = [&piece["side_a"], &piece["side_b"]].into_iter().flat_map(|s| s.as_array().unwrap());
        let cells = sides.flat_map(|row| row.as_array().unwrap()).filter_map(|cell| cell["page"].as_u64());
        let mut printed: Vec<u64> = cells.collect();
        let own = leaves.iter().zip(found.chunks(2)).filter(|(l, _)| l["piece"] == piece["piece"]);
        let mut carried: Vec<u64> = own.flat_map(|(_, two)| two).filter_map(|p| p["page"].as_u64()).collect();
        printed.sort_unstable();
        carried.sort_unstable();
        assert_eq!(printed, carried, "{piece:#}");
    }
}

#[test]
fn of_a_nest_of_three_the_innermost_is_taken_to_be_right() {
    let eight = || with_head(vec![fold("top", 1, "over"), fold("right", 1, "over")], "top");
    let inner = json!({"slit": "vertical", "after": 2, "left": eight(), "right": eight()});
    let slit = json!({"slit": "vertical", "after": 2, "left": eight(), "right": [inner]});
    let sheet = json!({"rows": 2, "columns": 6, "steps": [slit], "copies": [[[0, 1, 2]]]});
    assert_eq!(told(&sheet, json!({"typed": "1-24"}))["right"], true);
    let told = |typed: &str| told(&sheet, json!({"typed": typed}));
    let left_out = told("1-4 21-24");
    assert_eq!(left_out["causes"][0]["cause"], json!({"kind": "inset_left_out"}));
    assert_eq!(left_out["complete"], false);
    assert!(left_out["cannot_tell"].as_str().unwrap().contains("Only the two outermost pieces were tried"));
    let away = told("1-4 7 8 5 6 9-16 19 20 17 18 21-24");
    let cause = json!({"kind": "inset_sheet", "cause": {"kind": "fold_other_way", "fold": 1}});
    assert_eq!(away["causes"][0]["cause"], cause, "{away:#}");
    put_together(&away["causes"][0]["nest"], &away["found"]);
}

#[test]
fn what_a_sheet_can_t_be_is_refused_where_it_is_wrong() {
    let whole = json!({"rows": 1, "columns": 2, "steps": [fold("right", 1, "over")], "copies": [[[0]]]});
    assert_eq!(told(&whole, json!({"typed": "1-4"}))["right"], true);
    let with = |member: &str, value: Value| {
        let mut sheet = whole.clone();
        sheet[member] = value;
        refused(&sheet, json!({"typed": "1-4"})).0
    };
    assert_eq!(with("copies", json!([[[3]]])), "sheet.copies[0][0]");
    assert_eq!(with("copies", json!([[[0]], [[0]]])), "sheet.copies[1][0]");
    assert_eq!(with("copies", json!([])), "sheet.copies[0]");
    assert_eq!(with("steps", json!([fold("right", 2, "over")])), "sheet.steps[0].after");
    assert_eq!(with("columns", json!(600)), "sheet");
    assert_eq!(with("rowss", json!(1)), "sheet.rowss");
}
