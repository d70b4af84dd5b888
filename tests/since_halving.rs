//! Opening books: for every size of run and every beginning the openings stay within the bound, and what is found is right.

#![allow(clippy::panic, clippy::unwrap_used, reason = "what tests call may panic as tests may")]

use backmark::since::{
    Evidence, Fed, Happened, Judged, Line, Logged, Opened, Pattern, bound, next_opening, open_next, parts,
};
use proptest::prelude::*;

/// The smallest k with 2^k at least n + 1, by doubling: a second way to the bound.
fn doublings(n: u32) -> u32 {
    let (mut k, mut reach) = (0, 1_u64);
    while reach < u64::from(n) + 1 {
        (k, reach) = (k + 1, 2 * reach);
    }
    k
}

/// Every run of up to 10,000 books and every beginning in it, one after another: behind each opening both findings are
/// followed, so that each beginning (or none) is the end of one way, and no way is longer than the bound.
#[test]
fn halving_needs_no_more_than_the_bound_for_every_run_up_to_ten_thousand_and_every_beginning() {
    fn follow(low: u32, high: u32, left: u32) -> u32 {
        match open_next(low, high, &[], left) {
            Some(open) => {
                assert!(left > 0 && low < open && open < high, "books {low} to {high}");
                follow(low, open, left - 1) + follow(open, high, left - 1)
            }
            None => {
                assert!(high - low == 1, "one beginning is left: {high}");
                1
            }
        }
    }
    for n in 1..=10_000 {
        assert_eq!(bound(n), doublings(n));
        assert_eq!(follow(0, n + 1, bound(n)), n + 1, "{n} books: every beginning is found once");
    }
}

/// Whatever is hinted, one opening more than the bound is enough, and two are if the hint is right.
#[test]
fn a_hint_costs_one_opening_at_the_most() {
    for n in 1..=220_u32 {
        for hint in 1..=n + 1 {
            for begin in 1..=n + 1 {
                let (mut low, mut high, mut used) = (0, n + 1, 0);
                while let Some(open) = open_next(low, high, &[hint], (bound(n) + 1).saturating_sub(used)) {
                    used += 1;
                    if open >= begin { high = open } else { low = open }
                }
                assert_eq!(high, begin);
                assert!(used <= bound(n) + 1, "{n} books, hint {hint}, from {begin} on: {used}");
                assert!(begin != hint || used <= 2, "{n} books, hint {hint}: {used}");
            }
        }
    }
}

/// Follows the plan with books that are bad as `bad` says.
fn follow(mut evidence: Evidence, bad: impl Fn(u32) -> bool, most: usize) -> Evidence {
    for _ in 0..=most {
        let plan = next_opening(&evidence).unwrap();
        assert!(!plan.says.is_empty());
        let Some(open) = plan.open else { return evidence };
        assert!(!evidence.opened.iter().any(|o| o.counter == open), "{open} is open: {plan:?}");
        let judged = if bad(open) { Judged::Bad } else { Judged::Good };
        evidence.opened.push(Opened { counter: open, judged });
    }
    panic!("more than {most} openings: {evidence:?}");
}

#[test]
fn two_thousand_books_begin_with_number_one_thousand() {
    let evidence = Evidence { pattern: Some(Pattern::FromAMoment), ..Evidence::of(Line::of(1, 2000)) };
    let plan = next_opening(&evidence).unwrap();
    assert_eq!((plan.open, plan.at_most, plan.halving), (Some(1000), 11, true));
    assert_eq!(plan.says[0], "Open book 1,000.");
    for begin in [1, 2, 777, 1000, 1999, 2000, 2001] {
        let done = follow(evidence.clone(), |n| n >= begin, 11);
        let last = next_opening(&done).unwrap();
        let says = &last.says[0];
        assert!(begin > 2000 || says.starts_with("The fault began with book"), "{says}");
    }
}

#[test]
fn a_block_or_scattered_books_are_not_halved() {
    let ask = |pattern, lift| {
        let evidence = Evidence { pattern: Some(pattern), lift, ..Evidence::of(Line::of(1, 2000)) };
        next_opening(&evidence).unwrap()
    };
    let block = ask(Pattern::Block, Some(80));
    assert_eq!((block.halving, block.order.len(), block.open), (false, 25, Some(80)));
    assert!(block.says[1].starts_with("Halving does not find a block"), "{:?}", block.says);
    let single = ask(Pattern::Scattered, None);
    assert_eq!((single.halving, single.order.len()), (false, 125));
    assert!(single.says[2].contains("95 in 100"), "{:?}", single.says);
    let every = ask(Pattern::EveryNth { every: 4 }, None);
    assert_eq!((every.halving, every.order.len()), (false, 4));
}

#[test]
fn every_fourth_book_is_found_by_neighbours() {
    let evidence = Evidence { pattern: Some(Pattern::EveryNth { every: 4 }), ..Evidence::of(Line::of(1, 2000)) };
    for rest in 0..4 {
        let done = follow(evidence.clone(), |n| n % 4 == rest, 8);
        let says = next_opening(&done).unwrap().says.remove(0);
        assert!(says.ends_with(": 500 books."), "{says}");
    }
}

/// The same with several hints, which together weigh more than all books.
#[test]
fn several_hints_cost_one_opening_at_the_most() {
    for n in [100_u32, 127, 128, 1000, 4095, 4096] {
        // Hints close together at one end are the worst that a checker can be told.
        for hints in [vec![1, 2, 3], vec![n - 1, n, n + 1], (1..40).collect(), (n - 40..=n).step_by(2).collect()] {
            for begin in 1..=n + 1 {
                let (mut low, mut high, mut used) = (0, n + 1, 0);
                while let Some(open) = open_next(low, high, &hints, (bound(n) + 1).saturating_sub(used)) {
                    used += 1;
                    if open >= begin { high = open } else { low = open }
                }
                assert_eq!(high, begin);
                assert!(used <= bound(n) + 1, "{n} books, from {begin} on: {used}");
            }
        }
    }
}

proptest! {
    /// Any block, from a bad book in it: both ends are found, each within the bound.
    #[test]
    fn both_ends_of_a_block_are_found(last in 1_u32..3000, a in 0.0..1.0, b in 0.0..1.0, c in 0.0..1.0, lift in proptest::option::of(1_u32..200)) {
        let at = |x: f64, from: u32, to: u32| from + ((to - from) as f64 * x) as u32;
        let from = at(a, 1, last);
        let to = at(b, from, last);
        let seed = at(c, from, to);
        let bad = |n: u32| (from..=to).contains(&n);
        let start = Evidence {
            pattern: Some(Pattern::Block), lift, opened: vec![Opened::bad(seed)], ..Evidence::of(Line::of(1, last))
        };
        let most = (parts(u64::from(seed)) + 1 + bound(last - from) + 1) as usize;
        let done = follow(start, bad, most);
        let found = backmark::since::brackets(&done.line, &done.opened, None);
        prop_assert_eq!((found.blocks[0].first_bad, found.blocks[0].last_bad), (from, to));
        prop_assert_eq!(found.blocks[0].least, found.blocks[0].most);
    }

    /// A block as large as the lift or larger is hit by stepping, and then bounded, without any bad book to begin with.
    #[test]
    fn a_lift_is_hit_by_stepping(last in 100_u32..3000, a in 0.0..1.0, lift in 5_u32..100) {
        let from = 1 + (f64::from(last - lift) * a) as u32;
        let bad = |n: u32| (from..from + lift).contains(&n);
        let start = Evidence { pattern: Some(Pattern::Block), lift: Some(lift), ..Evidence::of(Line::of(1, last)) };
        let most = last / lift + 2 * (bound(last) + 1);
        let done = follow(start, bad, most as usize);
        let found = backmark::since::brackets(&done.line, &done.opened, None);
        prop_assert_eq!((found.blocks[0].first_bad, found.blocks[0].last_bad), (from, from + lift - 1));
    }

    /// A logged reload finds its block in few openings; a wrong one costs at the most one opening.
    #[test]
    fn a_logged_reload_is_tried_first(begin in 2_u32..=5000, counter in 0_u32..5000, left in 0_u32..100) {
        let reload = Happened::Reload { station: 9, lift: 80, left, fed: Fed::Bottom };
        let line = Line { ahead: vec![10; 9], ..Line::of(1, 5000) };
        let log = vec![Logged { counter, what: reload }];
        let evidence = Evidence { pattern: Some(Pattern::FromAMoment), log, ..Evidence::of(line) };
        let done = follow(evidence.clone(), |n| n >= begin, bound(5000) as usize + 1);
        prop_assert!(done.opened.len() <= bound(5000) as usize + 1);
        let hint = counter + left + 11;
        if hint <= 5000 {
            let done = follow(evidence, |n| n >= hint, 14);
            prop_assert!(done.opened.len() <= 2, "{:?}", done.opened);
        }
    }

    /// With nothing decided at first, the plan comes to an end for any kind of fault.
    #[test]
    fn a_plan_comes_to_an_end(last in 1_u32..400, kind in 0..4, a in 0_u32..400, b in 1_u32..60, lift in proptest::option::of(1_u32..50)) {
        let bad = |n: u32| match kind {
            0 => n >= a,
            1 => (a..a + b).contains(&n),
            2 => n.is_multiple_of(b + 1),
            _ => n == a,
        };
        let start = Evidence { lift, ..Evidence::of(Line::of(1, last)) };
        follow(start, bad, last as usize + 1);
    }
}
