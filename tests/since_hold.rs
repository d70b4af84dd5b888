//! Holding books: worked cases, and runs played with a planted lift, whose bad books are never outside the safe list.

#![allow(clippy::panic, clippy::unwrap_used, reason = "what tests call may panic as tests may")]

use backmark::since::{Evidence, Fed, Happened, Held, Judged, Left, Line, Logged, Opened, Pattern, hold};
use proptest::prelude::*;

fn left(list: &[(u32, i32)]) -> Vec<Left> {
    list.iter().map(|(station, over)| Left { station: *station, over: *over }).collect()
}

fn ends(list: &[Held]) -> Vec<(u32, u32)> {
    list.iter().map(|h| (h.books.from, h.books.to)).collect()
}

const fn reload(counter: u32, lift: u32, left: u32, fed: Fed) -> Logged {
    Logged { counter, what: Happened::Reload { station: 5, lift, left, fed } }
}

/// Reckoned by hand: the last good book is 1,420, a lift has 80, and 80 sections are over at one station and short at
/// another. So books 1,421 to 1,500.
#[test]
fn a_lift_of_eighty_is_held_by_its_numbers() {
    let opened = vec![Opened::good(1420), Opened::bad(1421)];
    let evidence =
        Evidence { opened, left: left(&[(5, 80), (9, -80)]), lift: Some(80), ..Evidence::of(Line::of(1, 2000)) };
    let held = hold(&evidence).unwrap();
    assert_eq!(held.says[0], "Hold books 1,421 to 1,500: 80 books.");
    // No book behind was opened, so it is safe only up to the end.
    assert_eq!(held.says[1], "To be safe, until the openings bear that out, hold books 1,421 to 2,000: 580 books.");
    assert_eq!((held.pattern, held.disagrees.len()), (Some(Pattern::Block), 0));
    assert_eq!(ends(&held.release), [(1, 1420)]);
    assert_eq!(held.release[0].why, "Book 1,420 is good: the fault began behind it.");

    let mut evidence = evidence;
    evidence.opened.push(Opened::good(1501));
    let held = hold(&evidence).unwrap();
    assert_eq!(held.says[0], "Hold books 1,421 to 1,500: 80 books.");
    assert_eq!((ends(&held.safe), held.safe_count, held.release_count), (vec![(1421, 1500)], 80, 1920));
    assert_eq!(held.says.iter().filter(|s| s.starts_with("To be safe")).count(), 0);
}

#[test]
fn the_log_says_where_a_lift_went_before_any_end_is_known() {
    let line = Line { ahead: vec![12; 9], ..Line::of(1, 5000) };
    let log = vec![reload(1000, 80, 60, Fed::Bottom), reload(2210, 80, 40, Fed::Bottom)];
    let opened = vec![Opened::good(2100), Opened::bad(2300), Opened::good(1100)];
    let evidence = Evidence { opened, log, station: Some(5), ..Evidence::of(line) };
    let held = hold(&evidence).unwrap();
    assert_eq!((ends(&held.likely), held.likely_count), (vec![(2263, 2342)], 80));
    assert_eq!(ends(&held.safe), [(2101, 5000)]);
    assert!(held.likely[0].why.contains("40 in it went first"), "{}", held.likely[0].why);
}

#[test]
fn a_lift_that_was_not_opened_is_held_although_its_neighbours_are_good() {
    let line = Line { ahead: vec![0; 9], ..Line::of(1, 5000) };
    let log = vec![reload(1000, 80, 0, Fed::Bottom), reload(3000, 80, 0, Fed::Bottom)];
    let opened = vec![Opened::good(900), Opened::bad(1010), Opened::good(1200), Opened::good(4000)];
    let evidence = Evidence { opened, log, station: Some(5), ..Evidence::of(line) };
    let held = hold(&evidence).unwrap();
    assert_eq!(ends(&held.safe), [(901, 1199), (3001, 3080)]);
    assert!(held.safe[1].why.contains("Station 5 was loaded at 3,000"));
    let mut cleared = evidence;
    cleared.opened.push(Opened::good(3040));
    assert_eq!(ends(&hold(&cleared).unwrap().safe), [(901, 1199)]);
}

#[test]
fn what_does_not_agree_is_said() {
    let opened = vec![Opened::good(1420), Opened::bad(1421), Opened::good(1441)];
    let evidence = Evidence {
        opened,
        left: left(&[(5, 80), (9, -80)]),
        pattern: Some(Pattern::Block),
        ..Evidence::of(Line::of(1, 2000))
    };
    let held = hold(&evidence).unwrap();
    assert_eq!(
        held.disagrees,
        ["The leftovers speak for 80 bad books, and by the opened books there are from 1 to 20."]
    );
    assert_eq!(ends(&held.safe), [(1421, 1440)]);
}

#[test]
fn without_a_pattern_everything_is_held_that_is_not_good() {
    let opened = vec![Opened::bad(700), Opened::good(10)];
    let held = hold(&Evidence { opened, ..Evidence::of(Line::of(1, 2000)) }).unwrap();
    assert_eq!((held.pattern, ends(&held.safe)), (None, vec![(1, 9), (11, 2000)]));
    assert_eq!(ends(&held.release), [(10, 10)]);
    assert!(held.says.iter().any(|s| s == "Open book 699 next to narrow it down."), "{:?}", held.says);
}

#[test]
fn every_fourth_book_is_held_as_such() {
    let opened = vec![Opened::bad(103), Opened::good(104), Opened::bad(107)];
    let evidence =
        Evidence { opened, pattern: Some(Pattern::EveryNth { every: 4 }), ..Evidence::of(Line::of(1, 2000)) };
    let held = hold(&evidence).unwrap();
    assert_eq!(held.says[0], "Hold every 4th book from 3 to 1,999: 500 books.");
    assert!((1..=2000).all(|n| held.likely[0].has(n) == (n % 4 == 3)));
}

#[test]
fn one_book_next_to_a_jam_is_held_with_its_neighbours() {
    let line = Line { ahead: vec![10; 9], ..Line::of(1, 2000) };
    let log = vec![Logged { counter: 500, what: Happened::Jam { station: 5 } }];
    let opened = vec![Opened::bad(511), Opened::good(510), Opened::good(512)];
    let held = hold(&Evidence { opened, log, guard: 3, ..Evidence::of(line) }).unwrap();
    assert_eq!((held.pattern, ends(&held.safe)), (Some(Pattern::OneBook), vec![(508, 509), (511, 511), (513, 514)]));
    assert_eq!(ends(&held.likely), [(511, 511)]);
}

/// A hopper played book by book: a list of sections, wrong ones marked. The second way to what the log means.
struct Played {
    line: Line,
    log: Vec<Logged>,
    bad: Vec<u32>,
}

/// Plays station 5. `loads` are the gaps in sections after which it is reloaded; lift number `wrong` is the wrong pile.
fn play(loads: &[(u32, u32)], wrong: usize, fed: Fed, ahead: u32, known: bool, rest: u32) -> Played {
    let mut pile: std::collections::VecDeque<bool> = std::iter::repeat_n(false, 30).collect();
    let (mut filled, mut log, mut bad) = (ahead, Vec::new(), Vec::new());
    let mut fill = |pile: &mut std::collections::VecDeque<bool>, filled: &mut u32| {
        let Some(section) = (if fed == Fed::Bottom { pile.pop_front() } else { pile.pop_back() }) else { return };
        *filled += 1;
        if section {
            bad.push(*filled);
        }
    };
    for (i, (gap, lift)) in loads.iter().enumerate() {
        for _ in 0..(*gap).min(pile.len() as u32) {
            fill(&mut pile, &mut filled);
        }
        log.push(reload(filled - ahead, *lift, pile.len() as u32, fed));
        pile.extend(std::iter::repeat_n(i == wrong, *lift as usize));
    }
    for _ in 0..rest.min(pile.len() as u32) {
        fill(&mut pile, &mut filled);
    }
    let line = Line { ahead: if known { vec![ahead; 5] } else { Vec::new() }, ..Line::of(1, filled.max(1)) };
    bad.retain(|n| *n >= 1);
    Played { line, log, bad }
}

proptest! {
    /// The reload is logged, the station is known, any books are opened and judged rightly: no bad book is ever released.
    #[test]
    fn the_safe_list_holds_every_bad_book(
        loads in proptest::collection::vec((0_u32..120, 1_u32..90), 1..8),
        wrong in 0_usize..8, top in any::<bool>(), ahead in 0_u32..40, known in any::<bool>(), rest in 0_u32..200,
        open in proptest::collection::vec(any::<prop::sample::Index>(), 0..12), of_bad in any::<bool>(), given in any::<bool>(),
    ) {
        let fed = if top { Fed::Top } else { Fed::Bottom };
        let played = play(&loads, wrong % loads.len(), fed, ahead, known, rest);
        let last = played.line.last;
        let mut opened: Vec<Opened> = open.iter().map(|i| i.index(last as usize) as u32 + 1)
            .map(|n| Opened { counter: n, judged: if played.bad.contains(&n) { Judged::Bad } else { Judged::Good } })
            .collect();
        if let (true, Some(n)) = (of_bad, played.bad.get(played.bad.len() / 2)) {
            opened.push(Opened::bad(*n));
        }
        let pattern = given.then_some(Pattern::Block);
        let evidence = Evidence { opened, log: played.log, station: Some(5), pattern, ..Evidence::of(played.line) };
        let held = hold(&evidence).unwrap();
        let safe = |n: &u32| held.safe.iter().any(|h| h.has(*n));
        // Nobody can know of a lift that openings speak against: single bad books beside good ones may look like one book.
        prop_assert!(played.bad.iter().all(safe), "bad {:?}\nheld {:?}\n{:?}", played.bad, held, evidence);
        prop_assert!(played.bad.iter().all(|n| !held.release.iter().any(|h| h.has(*n))));
        prop_assert_eq!(held.safe_count + held.release_count, last);
    }

    /// With the distances known and a bad book opened, the likely list is as good as the truth if one lift fits.
    #[test]
    fn the_likely_list_is_within_the_safe_one(
        loads in proptest::collection::vec((0_u32..120, 1_u32..90), 1..8), wrong in 0_usize..8, ahead in 0_u32..40, rest in 0_u32..200,
    ) {
        let played = play(&loads, wrong % loads.len(), Fed::Bottom, ahead, true, rest);
        let Some(n) = played.bad.get(played.bad.len() / 2) else { return Ok(()) };
        let evidence = Evidence {
            opened: vec![Opened::bad(*n)], log: played.log, station: Some(5), ..Evidence::of(played.line)
        };
        let held = hold(&evidence).unwrap();
        let whole: Vec<u32> = (held.likely[0].books.from..=held.likely[0].books.to).collect();
        prop_assert_eq!(&whole, &played.bad);
        prop_assert!(whole.iter().all(|n| held.safe.iter().any(|h| h.has(*n))));
    }

    /// Whatever is asked, there is an answer, and the two lists share out the run.
    #[test]
    fn any_evidence_has_an_answer(
        first in 1_u32..50, books in 0_u32..300,
        opened in proptest::collection::vec((0_u32..300, any::<bool>()), 0..30),
        log in proptest::collection::vec((0_u32..350, 0..4, 0_u32..12, 1_u32..100, 0_u32..100), 0..8),
        ahead in proptest::collection::vec(0_u32..30, 0..8),
        over in proptest::collection::vec(-90_i32..90, 0..8),
        station in proptest::option::of(1_u32..9), lift in proptest::option::of(1_u32..90), kind in 0..8, guard in 0_u32..9,
    ) {
        let line = Line { ahead, ..Line::of(first, first + books) };
        let judged = |bad| if bad { Judged::Bad } else { Judged::Good };
        let opened = opened.into_iter().map(|(n, bad)| Opened { counter: first + n % (books + 1), judged: judged(bad) }).collect();
        let log = log.into_iter().map(|(n, kind, s, lift, left)| {
            let (station, fed) = (1 + s % 9, if s % 2 == 0 { Fed::Top } else { Fed::Bottom });
            let what = match kind {
                0 => Happened::Stop,
                1 => Happened::Jam { station },
                _ => Happened::Reload { station, lift, left, fed },
            };
            Logged { counter: n % (first + books + 1), what }
        }).collect();
        let left = over.iter().enumerate().map(|(i, over)| Left { station: i as u32 + 1, over: *over }).collect();
        let pattern = match kind {
            0 => Some(Pattern::OneBook), 1 => Some(Pattern::Block), 2 => Some(Pattern::FromAMoment),
            3 => Some(Pattern::EveryNth { every: 2 + guard }), 4 => Some(Pattern::Scattered), 5 => Some(Pattern::WholeRun),
            _ => None,
        };
        let evidence = Evidence { opened, log, left, station, lift, pattern, guard, ..Evidence::of(line) };
        let held = hold(&evidence).unwrap();
        prop_assert_eq!(held.safe_count + held.release_count, books + 1);
        prop_assert!(!held.says.is_empty());
        let plan = backmark::since::next_opening(&evidence).unwrap();
        prop_assert!(plan.open.is_none_or(|n| evidence.opened.iter().all(|o| o.counter != n)));
        // Bad books are held in any case.
        for o in evidence.opened.iter().filter(|o| o.judged == Judged::Bad) {
            prop_assert!(held.safe.iter().any(|h| h.has(o.counter)), "{:?} {:?}", o, held);
        }
    }
}
