//! What holds for every case: evidence that is made by acting a fault out leads back to it and contradicts nothing; what is
//! corrupted contradicts; and nothing panics.

#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may panic")]
#![allow(clippy::disallowed_methods, reason = "one test prints times")]

use backmark::book::{Book, Folios, Run};
use backmark::gather::run::print_run;
use backmark::gather::{Fault, explain, retold};
use backmark::marks::{Design, Found, Lies, Seen};
use backmark::since::{Fed, Happened, Judged, Left, Line, Logged};
use backmark::trace::{Case, Inside, Odds, SeenBook, Spine, Stopped, Stopper, Traced, trace};
use proptest::prelude::*;

const PAGES: u32 = 16;

fn sixteens(sections: u32) -> Book {
    let text = Run { name: "text".into(), pages: PAGES * sections, folios: Folios::Arabic { first: 1 }, blank: false };
    Book { runs: vec![text], added: vec![], sections: vec![PAGES; sections as usize] }
}

/// A single fault in a book of so many sections. Of a fault that has two names the one that the search gives is taken.
fn fault(sections: u32) -> impl Strategy<Value = Fault> {
    let n = sections;
    let lies = prop_oneof![Just(Lies::HeadToTail), Just(Lies::TurnedInPlane), Just(Lies::SideToSide)];
    prop_oneof![
        3 => (1..=n).prop_map(|section| Fault::Missing { section }),
        3 => (1..=n).prop_map(|section| Fault::Double { section }),
        3 => (1..=n, 1..n).prop_map(move |(at, by)| Fault::WrongSection { at, section: (at + by - 1) % n + 1 }),
        2 => (1..=n, 1..n).prop_map(move |(a, by)| {
            let b = (a + by - 1) % n + 1;
            Fault::Exchanged { sections: [a.min(b), a.max(b)] }
        }),
        2 => (1..=n, lies).prop_map(|(section, lies)| Fault::Lies { section, lies }),
        1 => (1..=n).prop_map(|at| Fault::Foreign { at }),
        1 => (1..=n).prop_map(|at| Fault::NoMark { at }),
        1 => (1..n).prop_map(|after| Fault::DividedWrong { after }),
        1 => Just(Fault::Reversed),
    ]
}

/// The two ends of a back as an opening shows them: the page on its right-hand side, and the one on its left-hand side.
fn ends(found: Found) -> Option<[String; 2]> {
    let Found::Section { section, lies } = found else { return None };
    let (first, last) = ((section - 1) * PAGES + 1, section * PAGES);
    Some(match lies {
        Lies::Right => [first.to_string(), last.to_string()],
        Lies::HeadToTail => [format!("{last}v"), format!("{first}v")],
        Lies::TurnedInPlane => [format!("{first}v"), format!("{last}v")],
        Lies::SideToSide => [last.to_string(), first.to_string()],
    })
}

/// The openings where two backs meet.
fn joins(row: &[Found]) -> Vec<String> {
    let meet = |two: &[Found]| match two {
        [a, b] => Some(format!("{} {}", ends(*a)?[1], ends(*b)?[0])),
        _ => None,
    };
    row.windows(2).filter_map(meet).collect()
}

/// As [`Found`] is seen along the spine: a section turned away shows a blank back.
fn on_the_spine(row: &[Found]) -> Vec<Found> {
    let back = |found: &Found| match found {
        Found::Section { lies: Lies::TurnedInPlane | Lies::SideToSide, .. } => Found::NoMark,
        other => *other,
    };
    row.iter().map(back).collect()
}

/// How much of it is looked at.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Looked {
    spine: bool,
    openings: bool,
    count: bool,
    bulk: bool,
}

/// What a checker has of a book with this row.
fn seen(row: &[Found], sections: u32, looked: Looked, counter: u32) -> SeenBook {
    SeenBook {
        counter: Some(counter),
        spine: if looked.spine { Spine::Run(print_run(&on_the_spine(row))) } else { Spine::Unseen },
        openings: if looked.openings { joins(row).join(" | ") } else { String::new() },
        count: looked.count.then_some(row.len() as u32),
        bulk_mm: looked.bulk.then_some(2.0 * row.len() as f64 + if sections.is_multiple_of(2) { 0.3 } else { -0.3 }),
        judged: Some(Judged::Bad),
        ..SeenBook::default()
    }
}

fn traced(sections: u32, case: &Case) -> Traced {
    trace(&sixteens(sections), None, &[], case, &Odds::default()).unwrap()
}

fn contradictions(traced: &Traced) -> Vec<&str> {
    traced.contradictions.iter().map(|c| c.says.as_str()).collect()
}

/// The row that a cause makes.
fn gives(traced: &Traced, row: &[Found]) -> bool {
    traced.causes.iter().take(6).any(|cause| cause.fits && cause.row == row)
}

fn sections_and_fault() -> impl Strategy<Value = (u32, Fault)> {
    (6..=20u32).prop_flat_map(|sections| (Just(sections), fault(sections)))
}

fn looked() -> impl Strategy<Value = Looked> {
    prop_oneof![
        (any::<bool>(), any::<bool>(), any::<bool>()).prop_map(|(openings, count, bulk)| Looked {
            spine: true,
            openings,
            count,
            bulk
        }),
        (any::<bool>(), any::<bool>()).prop_map(|(count, bulk)| Looked { spine: false, openings: true, count, bulk }),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, ..ProptestConfig::default() })]

    /// A planted fault is among the first causes, and its evidence contradicts nothing.
    #[test]
    fn a_planted_fault_is_found((sections, fault) in sections_and_fault(), looked in looked()) {
        let row = retold(sections, &[fault]);
        let case = Case {
            good_bulk_mm: Some(2.0 * f64::from(sections)),
            books: vec![seen(&row, sections, looked, 700)],
            ..Case::default()
        };
        let traced = traced(sections, &case);
        prop_assert_eq!(contradictions(&traced), Vec::<&str>::new());
        // What can't be seen can't be found: the ends of the row at openings, foreign and blank backs between them.
        let at_openings = !looked.spine;
        let unseen = match fault {
            Fault::Foreign { .. } | Fault::NoMark { .. } => true,
            Fault::Missing { section } => (section == 1 || section == sections) && !looked.count && !looked.bulk,
            _ => false,
        };
        let hidden = looked.spine && !looked.openings;
        let turned = matches!(fault, Fault::Lies { lies: Lies::TurnedInPlane | Lies::SideToSide, .. });
        if at_openings && unseen {
            return Ok(());
        }
        let wanted = if hidden && turned { on_the_spine(&row) } else { row };
        let all = traced.causes.iter().map(|c| (c.title.clone(), c.run.clone(), c.fits)).collect::<Vec<_>>();
        prop_assert!(gives(&traced, &wanted), "{:?} with {looked:?}: {all:?}", print_run(&wanted));
        prop_assert!(!traced.right && traced.questions.len() == 4);
        // A cause that fits gives the row that was seen along the spine.
        for cause in traced.causes.iter().filter(|c| c.fits && looked.spine && looked.openings) {
            prop_assert_eq!(&cause.row, &wanted, "{}", cause.title);
        }
    }

    /// A lift of another section from a reload on: the first cause, the books and their number come out.
    #[test]
    fn a_wrong_lift_is_found(
        sections in 8..=20u32, at in 1..=8u32, by in 2..=6u32, counter in 100..3000u32, lift in 30..120u32, left in 0..60u32,
        ahead in 0..40u32, bottom in any::<bool>(),
    ) {
        let section = (at + by - 1) % sections + 1;
        let row = retold(sections, &[Fault::WrongSection { at, section }]);
        let mut line = Line::of(1, 5000);
        line.ahead = vec![ahead; sections as usize];
        let fed = if bottom { Fed::Bottom } else { Fed::Top };
        let first = counter + ahead + 1 + if bottom { left } else { 0 };
        let last = first + lift - 1;
        let book = |counter: u32, judged| SeenBook { counter: Some(counter), judged: Some(judged), ..SeenBook::default() };
        let looked = Looked { spine: true, openings: false, count: false, bulk: false };
        let case = Case {
            books: vec![
                book(first - 1, Judged::Good),
                seen(&row, sections, looked, first),
                seen(&row, sections, looked, (first + last) / 2),
                book(last + 1, Judged::Good),
            ],
            log: vec![Logged { counter, what: Happened::Reload { station: at, lift, left, fed } }],
            left: vec![
                Left { station: at, over: lift as i32 },
                Left { station: section, over: -(lift as i32) },
            ],
            line,
            ..Case::default()
        };
        let traced = traced(sections, &case);
        prop_assert_eq!(contradictions(&traced), Vec::<&str>::new());
        let cause = &traced.causes[0];
        prop_assert_eq!((cause.kind.as_str(), cause.station), ("wrong_pile", Some(at)));
        prop_assert_eq!(cause.counters, Some([first, last]));
        prop_assert_eq!(traced.extent.tally, Some(lift));
    }

    /// One piece of evidence that is another book's contradicts the rest.
    #[test]
    fn corrupted_evidence_contradicts((sections, fault) in sections_and_fault(), which in 0..4u32, off in 2..5u32) {
        let row = retold(sections, &[fault]);
        let looked = Looked { spine: true, openings: true, count: true, bulk: true };
        let mut book = seen(&row, sections, looked, 700);
        match which {
            0 => book.count = Some(row.len() as u32 + off),
            1 => book.bulk_mm = book.bulk_mm.map(|mm| mm + 2.0 * f64::from(off)),
            // Two sections meet that do not.
            2 => {
                let backs = on_the_spine(&row);
                let plain = |found: &Found| matches!(found, Found::Section { lies: Lies::Right, .. });
                let pairs = backs.iter().enumerate().flat_map(|(i, a)| backs.iter().skip(i + 2).map(move |b| (*b, *a)));
                let met = |a: &Found, b: &Found| row.windows(2).any(|two| two == [*a, *b]);
                let strange = pairs.filter(|(a, b)| plain(a) && plain(b)).find(|(a, b)| !met(a, b));
                let Some((a, b)) = strange else { return Ok(()) };
                book.openings = joins(&[a, b]).join(" | ");
            }
            _ => {
                book.judged = Some(Judged::Good);
            }
        }
        let case = Case { good_bulk_mm: Some(2.0 * f64::from(sections)), books: vec![book], ..Case::default() };
        let traced = traced(sections, &case);
        prop_assert!(!traced.contradictions.is_empty(), "{fault:?}, {which}: {case:?}");
    }

    /// The row of a book whose spine was seen is explained by no more faults than the search of gathered books needs.
    #[test]
    fn fewest_faults((sections, fault) in sections_and_fault()) {
        let row = retold(sections, &[fault]);
        let found = on_the_spine(&row);
        let looked = Looked { spine: true, openings: false, count: false, bulk: false };
        let case = Case { books: vec![seen(&row, sections, looked, 7)], ..Case::default() };
        let traced = traced(sections, &case);
        let fewest = explain(sections, &found).unwrap().explanations.first().map_or(0, |e| e.faults.len());
        let fits = traced.causes.iter().filter(|cause| cause.fits);
        prop_assert!(fits.clone().count() > 0);
        for cause in fits {
            prop_assert_eq!(cause.faults.len(), fewest);
            prop_assert_eq!(&cause.row, &found);
            prop_assert!(cause.share > 0.0 && cause.share <= 1.0 + 1e-9);
        }
        let shares = traced.causes.iter().map(|cause| cause.share).collect::<Vec<_>>();
        prop_assert!(shares.windows(2).all(|two| two[0] >= two[1]), "the likeliest first: {shares:?}");
        prop_assert!((shares.iter().sum::<f64>() - 1.0).abs() < 1e-9);
    }
}

/// Openings, mostly such as can be read: ends of sections more often than other pages.
fn openings() -> impl Strategy<Value = String> {
    let page = prop_oneof![
        8 => (0..13u32, 0..2u32).prop_map(|(section, first)| (16 * section + first).max(1).to_string()),
        2 => (1..200u32).prop_map(|page| page.to_string()),
        1 => (1..193u32).prop_map(|page| format!("{page}v")),
        1 => prop_oneof![Just("_"), Just("?"), Just("x"), Just("xii")].prop_map(str::to_owned),
    ]
    .boxed();
    let opening = (page.clone(), page).prop_map(|(left, right)| format!("{left} {right}"));
    prop_oneof![
        20 => proptest::collection::vec(opening, 0..6).prop_map(|all| all.join(" | ")),
        1 => "[0-9xvi_?| ]{0,40}",
        1 => r"\PC{0,20}",
    ]
}

/// Pages inside a section, mostly such as can be read.
fn pages() -> impl Strategy<Value = String> {
    let page = prop_oneof![
        8 => (1..18u32).prop_map(|page| page.to_string()),
        1 => (1..200u32).prop_map(|page| format!("{page}v")),
        1 => Just("_".to_owned()),
    ];
    let mixed = Just((1..=16u32).map(|page| page.to_string()).collect::<Vec<_>>()).prop_shuffle();
    prop_oneof![
        4 => proptest::collection::vec(page, 0..34).prop_map(|words| words.join(" ")),
        4 => mixed.prop_map(|words| words.join(" ")),
        1 => Just("3 4 1 2 7 8 5 6 11 12 9 10 15 16 13 14".to_owned()),
        1 => Just("16-1v".to_owned()),
        1 => r"\PC{0,20}",
    ]
}

/// Places of plates and wraps, mostly such as there are.
fn places() -> impl Strategy<Value = String> {
    prop_oneof![
        20 => proptest::collection::vec(1..13u32, 0..3)
            .prop_map(|places| places.iter().map(u32::to_string).collect::<Vec<_>>().join(" ")),
        1 => r"\PC{0,20}",
    ]
}

fn any_book() -> impl Strategy<Value = SeenBook> {
    let run = prop_oneof![
        6 => proptest::collection::vec(0..13u32, 0..20).prop_map(|backs| backs
            .iter()
            .map(|n| if *n == 0 { "_".to_owned() } else { n.to_string() })
            .collect::<Vec<_>>()
            .join(" ")),
        3 => Just("1-12".to_owned()),
        3 => (1..13u32, 1..13u32).prop_map(|(at, n)| format!("1-{at} {n} ? 5d _ x")),
        1 => "[0-9dtbx_? -]{0,20}",
    ];
    let mark = prop_oneof![Just(None), proptest::collection::vec(-10.0..230.0f64, 0..3).prop_map(Some),];
    let spine = prop_oneof![
        2 => Just(Spine::Unseen),
        4 => run.prop_map(Spine::Run),
        1 => proptest::collection::vec(mark.prop_map(|marks_mm| Seen { marks_mm }), 0..14).prop_map(Spine::Marks),
    ];
    let inside = proptest::option::of((1..13u32, pages(), any::<bool>()))
        .prop_map(|inside| inside.map(|(section, pages, fore_edge)| Inside { section, pages, fore_edge }));
    let stopped = proptest::option::of((1..13u32, any::<bool>())).prop_map(|stopped| {
        stopped
            .map(|(station, caliper)| Stopped { station, by: if caliper { Stopper::Caliper } else { Stopper::Camera } })
    });
    let judged =
        proptest::option::of(any::<bool>()).prop_map(|bad| bad.map(|bad| if bad { Judged::Bad } else { Judged::Good }));
    (
        proptest::option::of(1..5000u32),
        spine,
        openings(),
        inside,
        proptest::option::of(prop_oneof![20 => 0.1..40.0f64, 1 => Just(f64::NAN), 1 => any::<f64>()]),
        proptest::option::of(0..30u32),
        stopped,
        judged,
        (proptest::option::of(places()), proptest::option::of(places())),
    )
        .prop_map(|(counter, spine, openings, inside, bulk_mm, count, stopped, judged, (plates, wraps))| {
            SeenBook { counter, spine, openings, inside, bulk_mm, count, stopped, judged, plates, wraps }
        })
}

fn any_logged() -> impl Strategy<Value = Logged> {
    let what = prop_oneof![
        Just(Happened::Stop),
        (1..14u32).prop_map(|station| Happened::Jam { station }),
        (1..14u32, 1..200u32, 0..300u32, any::<bool>()).prop_map(|(station, lift, left, bottom)| {
            Happened::Reload { station, lift, left, fed: if bottom { Fed::Bottom } else { Fed::Top } }
        }),
    ];
    (any::<u32>().prop_map(|n| n % 4100), what).prop_map(|(counter, what)| Logged { counter, what })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1500, ..ProptestConfig::default() })]

    /// Nothing in a case makes it panic, and every sentence of an answer is one.
    #[test]
    fn no_case_panics(
        books in proptest::collection::vec(any_book(), 0..5),
        log in proptest::collection::vec(any_logged(), 0..4),
        left in proptest::collection::btree_map(1..16u32, -90..90i32, 0..4),
        good_bulk_mm in proptest::option::of(0.1..40.0f64),
        (first, last) in (1..200u32, 4000..6000u32),
        signed in any::<bool>(),
    ) {
        let case = Case {
            good_bulk_mm,
            books,
            log,
            left: left.into_iter().map(|(station, over)| Left { station, over }).collect(),
            line: Line::of(first, last),
            signing: signed.then(backmark::book::Signing::default),
        };
        match trace(&sixteens(12), Some(&Design::default()), &[], &case, &Odds::default()) {
            Ok(traced) => {
                let said = traced.causes.iter().flat_map(|c| c.why.iter().chain(&c.against).chain([&c.title, &c.next_check]));
                let said = said.chain(traced.contradictions.iter().map(|c| &c.says)).chain(&traced.cannot_tell);
                let said = said.chain(traced.questions.iter().flat_map(|q| q.reasoning.iter().chain(&q.evidence)));
                for line in said {
                    prop_assert!((line.ends_with('.') || line.ends_with('?')) && !line.contains("  ") && !line.contains(".."), "{line}");
                }
                let shares = traced.causes.iter().map(|cause| cause.share).sum::<f64>();
                prop_assert!(shares.is_finite());
            }
            Err(why) => prop_assert!(!why.at.is_empty() && !why.says.is_empty(), "{why:?}"),
        }
    }
}

/// The largest cases, with the time they take: `cargo test --test trace_laws -- --ignored --nocapture`.
#[test]
#[ignore = "prints times; run by hand"]
fn the_largest_cases() {
    let sections = 400;
    let many = |book: SeenBook, n: usize| Case { books: vec![book; n], ..Case::default() };
    let row = (1..=sections).map(|n| if n % 133 == 0 { 7 } else { n }).map(Found::right).collect::<Vec<_>>();
    let openings =
        (1..400u32).map(|n| format!("{} {}", 16 * n, 16 * ((n * 7) % 400) + 1)).collect::<Vec<_>>().join(" | ");
    let jumps = SeenBook { openings, count: Some(400), ..SeenBook::default() };
    let few = SeenBook { openings: "64 81 | 160 177 | 800 33".into(), ..SeenBook::default() };
    let spine = SeenBook { spine: Spine::Run(print_run(&row)), ..SeenBook::default() };
    let inside = Inside { section: 5, pages: "3 4 1 2 7 8 5 6 11 12 9 10 15 16 14 13".into(), fore_edge: false };
    let opened = SeenBook { inside: Some(inside), ..SeenBook::default() };
    for (name, book, n) in [
        ("jumps", jumps, 120),
        ("few jumps", few, 200),
        ("spine", spine.clone(), 1),
        ("spines", spine, 200),
        ("opened", opened, 200),
    ] {
        let started = std::time::Instant::now();
        let traced = traced(sections, &many(book, n));
        println!("{name}: {n} books in {:?}, {} causes", started.elapsed(), traced.causes.len());
    }
}

/// A mechanism, and how it shows: what it does to a book, which books are wrong and which good, the log and the leftovers.
struct Planted {
    kind: &'static str,
    row: Vec<Found>,
    bad: Vec<u32>,
    good: Vec<u32>,
    log: Vec<Logged>,
    left: Vec<Left>,
}

const LAST: u32 = 5000;

/// What a machine or a hand does in a run of 5,000 books; `which` chooses it, `from` says when.
fn planted(which: u32, sections: u32, at: u32, other: u32, from: u32) -> Planted {
    let row = |fault: Fault| retold(sections, &[fault]);
    let around = |first: u32, last: u32| vec![first - 1, last + 1];
    let wrong = Fault::WrongSection { at, section: other };
    let turned = Fault::Lies { section: at, lies: Lies::HeadToTail };
    let all = vec![2, LAST / 2, LAST - 3];
    let lift = 80;
    let block = vec![from, from + 30, from + lift - 1];
    let reload =
        |station| Logged { counter: from - 21, what: Happened::Reload { station, lift, left: 20, fed: Fed::Bottom } };
    let left = |faults: &[(u32, i32)]| faults.iter().map(|&(station, over)| Left { station, over }).collect::<Vec<_>>();
    let plain = |kind, row, bad, good| Planted { kind, row, bad, good, log: vec![], left: vec![] };
    match which {
        0 => plain("station_missed", row(Fault::Missing { section: at }), vec![from], around(from, from)),
        1 => plain("two_fed", row(Fault::Double { section: at }), vec![from], around(from, from)),
        2 => {
            let exchanged = Fault::Exchanged { sections: [at.min(other), at.max(other)] };
            plain("stations_exchanged", row(exchanged), all, vec![])
        }
        3 => plain("laid_backwards", row(Fault::Reversed), all, vec![]),
        4 => plain("turned_from_the_start", row(turned), all, vec![]),
        5 => plain("wrong_from_the_start", row(wrong), all, vec![]),
        6 => {
            let divided = row(Fault::DividedWrong { after: at.min(sections - 2).max(2) });
            plain("divided_wrong", divided, vec![from, from + 100, LAST], vec![from - 1])
        }
        7 => {
            let moved = Fault::Moved { sections: [2, 3], after: sections - 1 };
            plain("dropped", row(moved), vec![from], around(from, from))
        }
        8 => Planted {
            log: vec![Logged { counter: from - 1, what: Happened::Jam { station: at } }],
            ..plain("filled_by_hand", row(wrong), vec![from, from + 1], vec![from - 3, from + 9])
        },
        9 => {
            Planted { log: vec![reload(at)], ..plain("lift_turned", row(turned), block, around(from, from + lift - 1)) }
        }
        10 => Planted {
            log: vec![reload(at)],
            left: left(&[(at, lift as i32)]),
            ..plain("foreign_pile", row(Fault::Foreign { at }), block, around(from, from + lift - 1))
        },
        11 => Planted {
            left: left(&[(at, lift as i32), (other, -(lift as i32))]),
            ..plain("wrong_pile", row(wrong), block, around(from, from + lift - 1))
        },
        _ => {
            let bad = vec![from, from + 203, from + 207, from + 611, from + 1200];
            let good = bad.iter().map(|book| book + 2).collect();
            plain("weak_feed", row(Fault::Missing { section: at }), bad, good)
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 500, ..ProptestConfig::default() })]

    /// What looks the same in one book is told apart by the books beside it, the log and the leftovers: the mechanism that
    /// was planted is first, or, where only how often it happens decides, among the first two.
    #[test]
    fn a_planted_mechanism_is_found(
        which in 0..13u32, sections in 8..=20u32, at in 2..=7u32, by in 4..6u32, from in 300..3000u32,
    ) {
        let other = (at + by - 1) % sections + 1;
        prop_assume!(at.abs_diff(other) > 3);
        let planted = planted(which, sections, at, other, from);
        let looked = Looked { spine: true, openings: true, count: true, bulk: true };
        let good = |counter: &u32| SeenBook { counter: Some(*counter), judged: Some(Judged::Good), ..SeenBook::default() };
        let books = planted.bad.iter().map(|counter| seen(&planted.row, sections, looked, *counter));
        let case = Case {
            good_bulk_mm: Some(2.0 * f64::from(sections)),
            books: books.chain(planted.good.iter().map(good)).collect(),
            log: planted.log,
            left: planted.left,
            line: Line::of(1, LAST),
            ..Case::default()
        };
        let traced = traced(sections, &case);
        prop_assert_eq!(contradictions(&traced), Vec::<&str>::new());
        let kinds = traced.causes.iter().filter(|c| c.fits).map(|c| c.kind.as_str()).collect::<Vec<_>>();
        let among = if matches!(planted.kind, "weak_feed" | "wrong_pile") { 2 } else { 1 };
        prop_assert!(kinds.iter().take(among).any(|kind| *kind == planted.kind), "{}: {kinds:?}", planted.kind);
    }

    /// The same for what was done to a sheet: its pages are acted out by the engine.
    #[test]
    fn a_planted_cause_inside_a_section_is_found(which in 0..6u32, section in 1..=12u32, from in 300..3000u32) {
        use backmark::fold::misfold::{Cause, act_out, print_pages};
        use backmark::fold::{Crease, sixteen};
        let (kind, cause, bad, good) = match which {
            0 => ("folder_set_up", Cause::FoldOtherWay { fold: 1 }, vec![2, 2500, 4998], vec![]),
            1 => ("sheet_fed_wrong", Cause::SheetTurnedOver { about: Crease::Vertical }, vec![from, from + 70],
                  vec![from - 1, from + 90]),
            2 => ("pile_turned", Cause::SecondSideTurnedRound, vec![from, from + 900], vec![from - 1]),
            3 => ("double_sheet", Cause::DoubleSheet, vec![from], vec![from - 1, from + 1]),
            4 => ("forme_wrong", Cause::PagesExchanged { pages: [16 * section - 10, 16 * section - 9] }, vec![2, 2500, 4998], vec![]),
            _ => ("folder_set_up", Cause::FoldFromOtherEdge { fold: 2 }, vec![2, 2500, 4998], vec![]),
        };
        let acted = act_out(&sixteen().scheme, 16 * section - 15, &cause).unwrap();
        let fore_edge = acted.fold_at == backmark::fold::misfold::FoldAt::ForeEdge;
        let inside = Inside { section, pages: print_pages(&acted.pages), fore_edge };
        let hidden = acted.mark == backmark::fold::misfold::Mark::Blank;
        let mut row = (1..=12).map(Found::right).collect::<Vec<_>>();
        if hidden {
            row[section as usize - 1] = Found::NoMark;
        }
        let opened = |counter: &u32| SeenBook {
            counter: Some(*counter),
            spine: Spine::Run(print_run(&row)),
            inside: Some(inside.clone()),
            ..SeenBook::default()
        };
        let judged = |counter: &u32| SeenBook { counter: Some(*counter), judged: Some(Judged::Good), ..SeenBook::default() };
        let case = Case {
            books: bad.iter().map(opened).chain(good.iter().map(judged)).collect(),
            line: Line::of(1, LAST),
            ..Case::default()
        };
        let traced = traced(12, &case);
        prop_assert_eq!(contradictions(&traced), Vec::<&str>::new());
        let first = &traced.causes[0];
        prop_assert_eq!(first.kind.as_str(), kind, "{}", &first.title);
        prop_assert!(first.inside.as_ref().is_some_and(|inside| inside.section == section));
    }
}
