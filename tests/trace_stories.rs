//! Stories of wrong books, from what a checker has to what happened. What each evidence says is common practice and geometry;
//! where a row of pages is reckoned or printed elsewhere, that is named at the test.

#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may panic")]

use backmark::book::{Added, Book, Folios, Run};
use backmark::gather::Fault;
use backmark::marks::{Design, Lies};
use backmark::trace::{Case, Cause, Odds, Pattern, Stage, Traced, trace};
use serde_json::{Value, json};

/// Sections of 16 pages, numbered from 1.
fn sixteens(sections: u32) -> Book {
    let text = Run { name: "text".into(), pages: 16 * sections, folios: Folios::Arabic { first: 1 }, blank: false };
    Book { runs: vec![text], added: vec![], sections: vec![16; sections as usize] }
}

fn case(value: Value) -> Case {
    serde_json::from_value(value).unwrap()
}

fn traced(value: Value) -> Traced {
    traced_book(&sixteens(12), value)
}

/// Traces a case, and prints the answer for `-- --nocapture`.
fn traced_book(book: &Book, value: Value) -> Traced {
    let traced = trace(book, Some(&Design::default()), &[], &case(value), &Odds::default()).unwrap();
    show(&traced);
    traced
}

fn show(traced: &Traced) {
    for book in &traced.books {
        println!("{} {:?}: {} [{}]", book.name, book.right, book.says, book.run);
    }
    for q in &traced.questions {
        println!("{}. {} {}", q.number, q.answer, q.known);
        q.evidence.iter().for_each(|line| println!("     seen: {line}"));
        q.reasoning.iter().for_each(|line| println!("     so: {line}"));
        q.rules_out.iter().for_each(|line| println!("     not: {line}"));
        q.look.iter().for_each(|line| println!("     look: {line}"));
    }
    traced.contradictions.iter().for_each(|c| println!("!! {}", c.says));
    for c in &traced.causes {
        println!("{:.3} {} [{}] {} {:?} {:?}", c.share, c.fits, c.place, c.title, c.run, c.counters);
        c.why.iter().for_each(|line| println!("        why: {line}"));
        c.against.iter().for_each(|line| println!("        against: {line}"));
    }
    traced.cannot_tell.iter().for_each(|line| println!("?? {line}"));
}

fn first(traced: &Traced) -> &Cause {
    let first = &traced.causes[0];
    assert!(first.fits, "{first:?}");
    first
}

/// The first cause that is refused and makes this of the row.
fn refused<'a>(traced: &'a Traced, fault: &Fault) -> &'a Cause {
    traced.causes.iter().find(|cause| !cause.fits && cause.faults == [*fault]).unwrap()
}

fn some(lines: &[String], words: &str) -> bool {
    lines.iter().any(|line| line.contains(words))
}

const WRONG: Fault = Fault::WrongSection { at: 5, section: 9 };

/// Good up to 1,420, bad from 1,421, a lift of 80, leftovers of 80: books 1,421 to 1,500.
#[test]
fn a_station_reloaded_with_the_wrong_pile_part_way() {
    let traced = traced(json!({
        "good_bulk_mm": 18.0,
        "books": [
            {"counter": 1420, "judged": "good"},
            {"counter": 1421, "judged": "bad", "spine": {"run": "1-4 9 6-12"}, "openings": "64 129 | 144 81",
             "bulk_mm": 18.1, "count": 12},
            {"counter": 1460, "judged": "bad", "spine": {"run": "1-4 9 6-12"}},
            {"counter": 1501, "judged": "good"}
        ],
        "log": [{"counter": 1380, "what": {"kind": "reload", "station": 5, "lift": 80, "left": 40, "fed": "bottom"}},
                {"counter": 1200, "what": {"kind": "reload", "station": 9, "lift": 80, "left": 10, "fed": "bottom"}}],
        "left": [{"station": 5, "over": 80}, {"station": 9, "over": -80}],
        "line": {"first": 1, "last": 5000}
    }));
    let cause = first(&traced);
    assert_eq!((cause.kind.as_str(), cause.station, cause.section), ("wrong_pile", Some(5), Some(9)));
    assert_eq!((cause.stage, &cause.faults[..]), (Stage::Gathering, &[WRONG][..]));
    assert_eq!((cause.run.as_str(), &cause.places[..]), ("1-4 9 6-12", &[5][..]));
    assert_eq!(cause.counters, Some([1421, 1500]));
    assert!(cause.share > 0.6 && some(&cause.why, "each by 80") && some(&cause.why, "books 1,421 to 1,500"));
    assert!(cause.caution.contains("Stop the line") && cause.remedy.contains("Hold every book"));
    assert_eq!((traced.extent.pattern, traced.extent.tally), (Some(Pattern::Block), Some(80)));
    assert_eq!(traced.questions[3].answer, "A block of books, books 1,421 to 1,500: 80 books.");
    assert_eq!(traced.questions[2].answer, "The same.");
    assert_eq!(traced.questions[1].answer, "Between whole sections. Look at gathering and sewing.");
    assert!(!traced.questions[0].known && traced.questions[0].look.is_some());
    let exchanged = refused(&traced, &Fault::Exchanged { sections: [5, 9] });
    assert_eq!(exchanged.against, ["Place 9 would hold section 5. It holds section 9."]);
    let double = refused(&traced, &Fault::Double { section: 9 });
    assert!(double.against[0].starts_with("There would be 13 sections; there are 12."));
    assert!(traced.contradictions.is_empty());
}

#[test]
fn two_stations_exchanged_for_the_whole_run() {
    let traced = traced(json!({
        "books": [
            {"counter": 3, "spine": {"run": "1-4 6 5 7-12"}},
            {"counter": 2400, "spine": {"run": "1-4 6 5 7-12"}},
            {"counter": 4990, "openings": "64 81 | 96 65"}
        ],
        "line": {"first": 1, "last": 5000}
    }));
    let cause = first(&traced);
    assert_eq!((cause.kind.as_str(), cause.run.as_str()), ("stations_exchanged", "1-4 6 5 7-12"));
    assert_eq!((cause.counters, &cause.books[..]), (Some([1, 5000]), &[1, 2, 3][..]));
    assert_eq!(traced.extent.pattern, Some(Pattern::WholeRun));
    assert_eq!(traced.questions[2].answer, "The same.");
    assert_eq!(
        refused(&traced, &Fault::WrongSection { at: 5, section: 6 }).against,
        ["Place 6 would hold section 6. It holds section 5."]
    );
    let hands = traced.causes.iter().find(|cause| cause.kind == "relaid").unwrap();
    assert!(some(&hands.against, "It makes one book."));
}

/// The pages of fold 1 made the other way: Nicholson's sixteen (*A Manual of the Art of Bookbinding*, pp. 35-36), folded
/// on paper. Its look-alike is a sheet fed the wrong side up; a block speaks for the pile, the whole run for the folder.
#[test]
fn a_fold_that_shows_as_a_blank_back() {
    let books = |good: Value| {
        let mut books = vec![
            json!({"counter": 801, "spine": {"run": "1-4 _ 6-12"},
                   "inside": {"section": 5, "pages": "67 68 65 66 71 72 69 70 75 76 73 74 79 80 77 78"}}),
            json!({"counter": 4800, "spine": {"run": "1-4 _ 6-12"}}),
            json!({"counter": 2, "spine": {"run": "1-4 _ 6-12"}}),
        ];
        if !good.is_null() {
            books.truncate(1);
            books.extend([json!({"counter": 840, "spine": {"run": "1-4 _ 6-12"}})]);
            books.extend(good.as_array().unwrap().clone());
        }
        json!({"books": books, "line": {"first": 1, "last": 5000}})
    };
    let lift = traced(books(json!([{"counter": 800, "judged": "good"}, {"counter": 900, "judged": "good"}])));
    let cause = first(&lift);
    assert_eq!((cause.kind.as_str(), cause.stage), ("sheet_fed_wrong", Stage::Folder));
    assert_eq!(cause.title, "In section 5, the sheet was turned over left to right before folding.");
    let inside = cause.inside.as_ref().unwrap();
    assert_eq!((inside.section, inside.first_page), (5, 65));
    assert!(inside.typed.starts_with("67 68 65 66") && inside.scheme.is_some() && inside.cause.is_some());
    assert!(some(&cause.why, "blank back goes with it"));
    let fold = lift.causes.iter().find(|cause| cause.title == "In section 5, fold 1 was made the other way.").unwrap();
    assert!(fold.fits && some(&fold.against, "It makes the whole run."));
    assert!(some(&lift.cannot_tell, "The pages alone can't tell the first cause"));
    assert!(lift.questions[0].answer.starts_with("Yes. It was not the press."));
    assert_eq!(lift.questions[1].answer, "Inside section 5. Look at folder or press.");

    let set_up = traced(books(Value::Null));
    assert_eq!(first(&set_up).title, "In section 5, fold 1 was made the other way.");
    assert_eq!(set_up.extent.pattern, Some(Pattern::WholeRun));
    assert!(lift.contradictions.is_empty() && set_up.contradictions.is_empty());
}

/// Blank backs alone leave open whether the section was folded wrongly or turned away.
#[test]
fn a_blank_back_that_nobody_opened() {
    let traced = traced(json!({"books": [{"spine": {"run": "1-4 _ 6-12"}}]}));
    assert!(!traced.questions[1].known && traced.questions[1].look.as_ref().unwrap().contains("Open section 5"));
    let kinds = traced.causes.iter().filter(|cause| cause.fits).map(|cause| cause.kind.as_str()).collect::<Vec<_>>();
    assert!(kinds.contains(&"sheet_fed_wrong") && kinds.contains(&"folder_set_up") && kinds.contains(&"lift_turned"));
}

/// Leaves 1 6, 7 4, 5 2: the second side turned where it should be tumbled. The same leaf order is documented for a book of
/// 1686 (University of Pennsylvania, rare books blog, 11 December 2019).
#[test]
fn a_press_fault_with_perfect_marks() {
    let traced = traced(json!({
        "books": [
            {"counter": 700, "spine": {"run": "1-12"}, "judged": "bad",
             "inside": {"section": 5, "pages": "1 6 7 4 5 2 3 8 9 14 15 12 13 10 11 16"}},
            {"counter": 300, "judged": "good"}
        ]
    }));
    let cause = first(&traced);
    assert_eq!((cause.kind.as_str(), cause.stage), ("pile_turned", Stage::Press));
    assert_eq!(cause.title, "In section 5, the second side was printed half turned round.");
    assert!(cause.faults.is_empty() && some(&cause.why, "Its mark then shows as if nothing were wrong"));
    assert_eq!(cause.inside.as_ref().unwrap().first_page, 1);
    assert_eq!(traced.questions[0].answer, "No. Look at the press.");
    assert!(some(&traced.questions[0].reasoning, "leaf 1 carries 1 and 6, leaf 2 carries 7 and 4, and 6 more leaves"));
    assert!(traced.causes.iter().filter(|cause| cause.fits).all(|cause| cause.stage == Stage::Press));
    let folder = traced.causes.iter().find(|cause| cause.title == "Section 5 was folded wrongly.").unwrap();
    assert!(!folder.fits && some(&folder.against, "No fold parts the two sides of a leaf."));
    assert!(traced.contradictions.is_empty());
}

#[test]
fn a_book_divided_wrong_at_sewing() {
    let traced = traced(json!({
        "books": [
            {"counter": 500, "judged": "good"},
            {"counter": 501, "spine": {"run": "1-6"}},
            {"counter": 502, "spine": {"run": "7-12 1-6"}},
            {"counter": 600, "spine": {"run": "7-12 1-6"}}
        ],
        "line": {"first": 1, "last": 612}
    }));
    let cause = first(&traced);
    assert_eq!((cause.kind.as_str(), cause.stage), ("divided_wrong", Stage::Sewing));
    assert_eq!((&cause.faults[..], cause.run.as_str()), (&[Fault::DividedWrong { after: 6 }][..], "7-12 1-6"));
    assert!(some(&cause.why, "is a half-book") && cause.counters == Some([501, 612]) && cause.share > 0.8);
    assert_eq!((traced.extent.pattern, &cause.books[..]), (Some(Pattern::FromAMoment), &[2, 3, 4][..]));
    assert!(cause.next_check.contains("endpapers"));
}

/// S5 S5 S7 looks like a double, but section 6 is not there.
#[test]
fn a_neighbour_that_imitates_a_double() {
    let traced = traced(json!({"books": [{"spine": {"run": "1-5 5 7-12"}, "count": 12}]}));
    assert_eq!(first(&traced).title, "Station 6 was loaded with a lift of section 5.");
    let double = refused(&traced, &Fault::Double { section: 5 });
    assert_eq!(
        double.against,
        ["There would be 13 sections; there are 12. Place 7 would hold section 6. It holds section 7."]
    );
}

/// 16v … 1v lies head to tail; 16 … 1 upright lies side to side, its fold at the fore-edge (geometry).
#[test]
fn sections_that_lie_wrong() {
    let at_openings = traced(json!({"books": [{"openings": "64 80v | 65v 81"}]}));
    assert_eq!(first(&at_openings).faults, [Fault::Lies { section: 5, lies: Lies::HeadToTail }]);
    assert!(some(&first(&at_openings).why, "as far from the tail as it should from the head"));
    let opened = traced(json!({"books": [{"inside": {"section": 5, "pages": "16-1v"}}]}));
    assert_eq!(first(&opened).faults, [Fault::Lies { section: 5, lies: Lies::HeadToTail }]);
    for (openings, lies) in [("64 80 | 65 81", Lies::SideToSide), ("64 65v | 80v 81", Lies::TurnedInPlane)] {
        let seen = traced(json!({"books": [{"openings": openings, "spine": {"run": "1-4 _ 6-12"}}]}));
        assert_eq!(first(&seen).faults, [Fault::Lies { section: 5, lies }]);
        assert!(seen.books[0].finds.len() == 2 && seen.contradictions.is_empty());
    }
    let side = traced(json!({"books": [{"inside": {"section": 5, "pages": "80-65", "fore_edge": true}}]}));
    assert_eq!(first(&side).faults, [Fault::Lies { section: 5, lies: Lies::SideToSide }]);
    assert_eq!(side.questions[1].answer, "Between whole sections. Look at gathering and sewing.");
}

/// Openings and a count alone.
#[test]
fn without_the_spine() {
    let missing = traced(json!({"books": [{"openings": "64 81", "count": 11}]}));
    assert_eq!(first(&missing).faults, [Fault::Missing { section: 5 }]);
    let moved = traced(json!({"books": [{"openings": "30 31 | 48 65 | 80 49"}]}));
    assert_eq!(first(&moved).faults, [Fault::Exchanged { sections: [4, 5] }]);
    assert!(moved.causes.iter().filter(|c| c.fits).all(|c| c.run == "1-3 5 4 6-12"), "one row, one story");
    let counted = traced(json!({"books": [{"count": 11}]}));
    assert!(first(&counted).title.contains("It is not known which") && counted.questions[2].known);
    let inside = traced(json!({"books": [{"openings": "66 71"}]}));
    assert_eq!(inside.questions[1].answer, "Inside section 5. Look at folder or press.");
    let opened = traced(json!({"books": [{"inside": {"section": 5, "pages": "129-144"}}]}));
    assert_eq!(first(&opened).faults, [WRONG]);
    let foreign = traced(json!({"books": [{"openings": "64 x | x 81"}]}));
    assert_eq!(first(&foreign).kind, "foreign_pile");
}

/// Roman prelims, an unnumbered leaf, text from 1; blank pages at the end.
#[test]
fn folios_are_read_as_they_are_printed() {
    let run = |name: &str, pages, folios, blank| Run { name: name.into(), pages, folios, blank };
    let book = Book {
        runs: vec![
            run("prelims", 16, Folios::Roman { first: 1 }, false),
            run("text", 60, Folios::Arabic { first: 1 }, false),
            run("", 4, Folios::None, true),
        ],
        added: vec![],
        sections: vec![16; 5],
    };
    let seen = traced_book(&book, json!({"books": [{"openings": "xvi 1 | xii xiii | 60 _ | 16 33"}]}));
    assert_eq!(first(&seen).faults, [Fault::Missing { section: 3 }]);
    let good = traced_book(&book, json!({"books": [{"openings": "xvi 1 | xii xiii | 60 _"}]}));
    assert!(good.right && good.causes.is_empty());
    let opened = traced_book(&book, json!({"books": [{"inside": {"section": 5, "pages": "49-60 _ _ _ _"}}]}));
    assert!(opened.right, "the blank pages at the end belong there");
}

#[test]
fn marks_are_read_and_openings_settle_what_they_leave_open() {
    let design = Design::default();
    let back = |n: u32| json!({"marks_mm": [design.middle_mm(n)]});
    let backs = [back(1), back(2), json!({"marks_mm": null}), back(4), back(5), json!({"marks_mm": []}), back(7)];
    let book = sixteens(7);
    let of = |openings: &str| traced_book(&book, json!({"books": [{"spine": {"marks": backs}, "openings": openings}]}));
    let unread = of("32 97 | 112 49");
    assert_eq!(unread.books[0].run, "1 2 7 4 5 _ 7", "the back that can't be read is section 7 by the openings");
    assert_eq!(first(&unread).faults.len(), 2, "section 7 in the place of 3, and a blank back");
    assert!(unread.contradictions.is_empty());
    let also = of("32 97 | 112 49 | 48 49");
    assert!(also.contradictions[0].says.contains("on the spine no section 3 stands"));
    let misfolded = of("32 33 | 80 83");
    assert_eq!(misfolded.books[0].run, "1-5 _ 7");
    assert_eq!(misfolded.questions[1].answer, "Inside section 6. Look at folder or press.");
}

#[test]
fn plates_and_wraps() {
    let mut book = sixteens(12);
    book.added = vec![Added::Plate { after: 48, pages: 2 }, Added::Wrap { section: 5, pages: 4 }];
    let right = traced_book(&book, json!({"books": [{"plates": "48", "wraps": "5"}]}));
    assert!(right.right && right.causes.is_empty());
    let moved = traced_book(&book, json!({"books": [{"plates": "64"}]}));
    assert_eq!((first(&moved).kind.as_str(), first(&moved).stage), ("plate_misplaced", Stage::Tipping));
    assert_eq!(first(&moved).title, "The plate behind page 48 was put behind page 64.");
    let gone = traced_book(&book, json!({"books": [{"wraps": ""}]}));
    assert_eq!(first(&gone).title, "The wrap round section 5 was left out.");
    assert_eq!(gone.questions[1].answer, "Neither: a plate or a wrap stands wrong.");
}

/// What looks the same in one book has causes that differ in the books beside it.
#[test]
fn extent_log_and_detectors_part_look_alikes() {
    let missing = |books: Value, log: Value| {
        let all = traced(json!({"books": books, "log": log, "line": {"first": 1, "last": 5000}}));
        first(&all).kind.clone()
    };
    let good = |counter: u32| json!({"counter": counter, "judged": "good"});
    let bad = |counter: u32| json!({"counter": counter, "spine": {"run": "1-4 6-12"}});
    assert_eq!(missing(json!([good(699), bad(700), good(701)]), json!([])), "station_missed");
    let jam = json!([{"counter": 699, "what": {"kind": "jam", "station": 5}}]);
    assert_eq!(missing(json!([good(690), bad(700), bad(701), good(712)]), jam), "filled_by_hand");
    let scattered = json!([bad(100), good(101), bad(900), good(901), bad(2507), good(2508), bad(4001), good(4100)]);
    assert!(["weak_feed", "station_missed"].contains(&missing(scattered, json!([])).as_str()));
    let caliper = traced(json!({"books": [
        {"spine": {"run": "1-4 9 6-12"}, "stopped": {"station": 5, "by": "caliper"}}
    ]}));
    let pile = caliper.causes.iter().find(|cause| cause.kind == "wrong_pile").unwrap();
    assert!(some(&pile.against, "It feels thickness"));
    assert_eq!(first(&caliper).kind, "filled_by_hand");
}

/// Several faults in one book are no contradiction.
#[test]
fn several_faults_in_one_book() {
    let two = traced(json!({"books": [{"openings": "32 49 | 128 145", "count": 10}]}));
    assert_eq!(first(&two).faults, [Fault::Missing { section: 3 }, Fault::Missing { section: 9 }]);
    assert!(first(&two).title.contains(", and station 9 fed nothing") && two.contradictions.is_empty());
    let three = traced(json!({"books": [{"openings": "32 49 | 80 97 | 128 145"}]}));
    assert!(three.contradictions.is_empty() && three.books[0].says.starts_with("More faults than can be told"));
    let on_the_spine = traced(json!({"books": [{"spine": {"run": "1 2 4 5 7 8 10-12"}}]}));
    assert_eq!(first(&on_the_spine).faults.len(), 3);
}

/// Leftovers alone name the sections, where books were only judged.
#[test]
fn leftovers_of_books_that_nobody_opened() {
    let traced = traced(json!({
        "books": [{"counter": 100, "judged": "good"}, {"counter": 101, "judged": "bad"}],
        "left": [{"station": 5, "over": 80}, {"station": 9, "over": -80}]
    }));
    assert_eq!(first(&traced).faults, [WRONG]);
}

/// Evidence that contradicts itself is said, both pieces named.
#[test]
fn contradictions_name_both_pieces() {
    let says = |value: Value, words: [&str; 2]| {
        let traced = traced(value);
        let all = traced.contradictions.iter().map(|c| c.says.clone()).collect::<Vec<_>>();
        assert!(all.iter().any(|says| words.iter().all(|word| says.contains(word))), "{words:?} in {all:?}");
    };
    let one = |book: Value| json!({"good_bulk_mm": 24.0, "books": [book]});
    says(one(json!({"spine": {"run": "1-12"}, "count": 11})), ["12 backs", "11 sections were counted"]);
    says(one(json!({"spine": {"run": "1-12"}, "bulk_mm": 22.0})), ["1 section less", "as many backs as a good book"]);
    says(one(json!({"spine": {"run": "1-4 6-12"}, "openings": "66 67"})), ["66 67 shows section 5", "1-4 6-12"]);
    says(
        one(json!({"spine": {"run": "1-12"}, "openings": "64 81"})),
        ["64 81 shows section 4", "section 5 follows section 4"],
    );
    says(one(json!({"count": 11, "bulk_mm": 28.0})), ["11 sections were counted", "2 sections more"]);
    says(one(json!({"openings": "64 81 | 64 65"})), ["64 81", "64 65"]);
    says(
        one(
            json!({"spine": {"run": "1-12"}, "inside": {"section": 5, "pages": "3 4 1 2 7 8 5 6 11 12 9 10 15 16 13 14"}}),
        ),
        ["has its mark inside", "on the spine its mark shows"],
    );
    says(
        one(json!({"spine": {"run": "1-4 _ 6-12"}, "inside": {"section": 5, "pages": "1-16"}})),
        ["reads right", "blank"],
    );
    says(one(json!({"spine": {"run": "1-4 6-12"}, "judged": "good"})), ["was judged good", "section 5 missing"]);
    says(
        json!({"books": [{"counter": 7, "judged": "good"}, {"counter": 7, "judged": "bad"}]}),
        ["counter 7", "as good and as bad"],
    );
    says(
        json!({"books": [{"spine": {"run": "1-4 9 6-12"}}], "left": [{"station": 5, "over": 80}, {"station": 9, "over": -75}]}),
        ["Station 5 has 80 over", "station 9 75 short"],
    );
}

/// What was typed and can't be read is refused where it stands.
#[test]
fn what_cant_be_read_is_refused_where_it_is() {
    let at = |value: Value| trace(&sixteens(12), None, &[], &case(value), &Odds::default()).unwrap_err().at;
    let one = |book: Value| json!({"books": [{}, book]});
    assert_eq!(at(one(json!({"spine": {"run": "1-4 q"}}))), "case.books[1].spine.run");
    assert_eq!(at(one(json!({"spine": {"run": "1-13"}}))), "case.books[1].spine.run");
    assert_eq!(at(one(json!({"spine": {"marks": []}}))), "case.books[1].spine.marks");
    assert_eq!(at(one(json!({"openings": "30 31 32"}))), "case.books[1].openings");
    assert_eq!(at(one(json!({"openings": "30 page"}))), "case.books[1].openings");
    assert_eq!(at(one(json!({"inside": {"section": 5, "pages": "3 q"}}))), "case.books[1].inside.pages");
    assert_eq!(at(one(json!({"plates": "999"}))), "case.books[1].plates");
    assert_eq!(at(one(json!({"wraps": "13"}))), "case.books[1].wraps");
    assert_eq!(at(json!({"log": [{"counter": 1, "what": {"kind": "jam", "station": 0}}]})), "case.log[0].what.station");
    let bad_odds = Odds { agrees: -1.0, ..Odds::default() };
    assert_eq!(trace(&sixteens(12), None, &[], &Case::default(), &bad_odds).unwrap_err().at, "odds.agrees");
    assert_eq!(trace(&Book::default(), None, &[], &Case::default(), &Odds::default()).unwrap_err().at, "book.runs");
}

/// A person who knows the shop better changes the odds.
#[test]
fn odds_change_the_order() {
    let value = json!({"books": [{"spine": {"run": "1-4 9 6-12"}}]});
    let by = |odds: &Odds| trace(&sixteens(12), None, &[], &case(value.clone()), odds).unwrap().causes[0].kind.clone();
    assert_eq!(by(&Odds::default()), "wrong_pile");
    assert_eq!(by(&Odds { tags_exchanged: 500.0, ..Odds::default() }), "tags_exchanged");
}

#[test]
fn nothing_wrong_is_said_to_be_so() {
    let right =
        traced(json!({"good_bulk_mm": 18.0, "books": [{"spine": {"run": "1-12"}, "bulk_mm": 18.0, "count": 12}]}));
    assert!(right.right && right.causes.is_empty() && right.contradictions.is_empty());
    let empty = traced(json!({}));
    assert!(!empty.right && empty.causes.is_empty() && empty.questions.len() == 4);
}
