//! How long it takes to explain a book of 64 sections with three faults, all explanations of so few faults listed, against
//! the general edit distance of the same two rows: the unrestricted Damerau-Levenshtein distance of the crate
//! `rapidfuzz`, which knows sections left out, put in, exchanged for another and changed with the next, but no block that
//! was moved, and tells a number only.
//!
//! ```text
//! cargo bench --no-default-features --bench explain
//! ```
//!
//! Both are measured in turn in the same run, so that the ratio means the same on a slow and on a fast machine. The run
//! fails only where a ratio is far off.

use backmark::gather::{Fault, Found, explain, retold};
use rapidfuzz::distance::damerau_levenshtein;
use std::hint::black_box;
use std::process::ExitCode;
use std::time::{Duration, Instant};

/// Sections of the book.
const SECTIONS: u32 = 64;
/// Times the general distance that the middle one of the cases may take. Five were measured.
const LIMIT_MIDDLE: f64 = 60.0;
/// Times the general distance that the worst of the cases may take. Sixty were measured: the library skips the ends of
/// the rows that are alike, which leaves little to do where the faults lie close together.
const LIMIT_WORST: f64 = 600.0;

fn main() -> ExitCode {
    let right = (1..=SECTIONS).collect::<Vec<_>>();
    let mut ratios = Vec::new();
    println!("{SECTIONS} sections, three faults, every explanation:");
    for (name, faults) in cases() {
        let found = retold(SECTIONS, &faults);
        let shown = explain(SECTIONS, &found).map_or(0, |explained| explained.explanations.len());
        // The library takes whole numbers only.
        let numbers = found.iter().map(number).collect::<Vec<_>>();
        let ours = || {
            black_box(explain(SECTIONS, black_box(&found)).ok());
        };
        let general = || {
            black_box(damerau_levenshtein::distance(black_box(&right).iter(), black_box(&numbers).iter()));
        };
        let [ours, general] = fastest_of_both(ours, general);
        let ratio = ours.as_secs_f64() / general.as_secs_f64();
        println!("{name:28} {shown:3} told in {ours:9.1?}, distance {general:8.1?}: {ratio:6.1} times");
        ratios.push(ratio);
    }
    ratios.sort_by(f64::total_cmp);
    let [middle, worst] = [ratios.get(ratios.len() / 2), ratios.last()].map(|ratio| ratio.copied().unwrap_or(0.0));
    println!("the middle one takes {middle:.1} times the general distance, the worst {worst:.1} times");
    if middle > LIMIT_MIDDLE || worst > LIMIT_WORST {
        println!("too slow: the limits are {LIMIT_MIDDLE} and {LIMIT_WORST} times");
        return ExitCode::FAILURE;
    }
    ExitCode::SUCCESS
}

/// A back as a number: its section, or 0.
fn number(found: &Found) -> u32 {
    match *found {
        Found::Section { section, .. } => section,
        _ => 0,
    }
}

/// Three faults of every mix of kinds.
fn cases() -> Vec<(&'static str, Vec<Fault>)> {
    let missing = |section| Fault::Missing { section };
    let double = |section| Fault::Double { section };
    let wrong = |at, section| Fault::WrongSection { at, section };
    let exchanged = |a, b| Fault::Exchanged { sections: [a, b] };
    let moved = |a, b, after| Fault::Moved { sections: [a, b], after };
    vec![
        ("three missing", vec![missing(12), missing(21), missing(32)]),
        ("missing, double, wrong", vec![missing(12), double(21), wrong(32, 61)]),
        ("three wrong", vec![wrong(12, 21), wrong(21, 32), wrong(32, 61)]),
        ("two missing, wrong", vec![missing(12), missing(21), wrong(32, 61)]),
        ("two doubles, foreign", vec![double(12), double(21), Fault::Foreign { at: 32 }]),
        ("exchanged, missing, double", vec![exchanged(12, 32), missing(21), double(50)]),
        ("exchanged, two wrong", vec![exchanged(12, 32), wrong(21, 40), wrong(50, 3)]),
        ("two exchanged, missing", vec![exchanged(12, 32), exchanged(21, 40), missing(50)]),
        ("three exchanged", vec![exchanged(12, 32), exchanged(21, 40), exchanged(50, 61)]),
        ("moved, two missing", vec![moved(12, 21, 61), missing(32), missing(34)]),
        ("moved, exchanged, missing", vec![moved(12, 21, 61), exchanged(3, 32), missing(34)]),
        ("moved, two exchanged", vec![moved(12, 21, 61), exchanged(3, 32), exchanged(2, 61)]),
        ("two moved, missing", vec![moved(12, 21, 61), moved(2, 3, 32), missing(34)]),
        ("two moved, exchanged", vec![moved(12, 21, 61), moved(2, 3, 32), exchanged(5, 32)]),
        ("three moved", vec![moved(12, 21, 61), moved(2, 3, 32), moved(5, 6, 33)]),
        ("reversed, two missing", vec![Fault::Reversed, missing(12), missing(32)]),
        ("reversed, two moved", vec![moved(12, 21, 61), moved(2, 3, 32), Fault::Reversed]),
    ]
}

/// The fastest of many rounds of each, in turn: what disturbs a measurement only ever adds to it.
#[allow(clippy::disallowed_methods, reason = "measuring time is what this program is for")]
fn fastest_of_both(mut one: impl FnMut(), mut other: impl FnMut()) -> [Duration; 2] {
    const ROUNDS: u32 = 15;
    const REPEATS: u32 = 4;
    let mut fastest = [Duration::MAX; 2];
    for _ in 0..ROUNDS {
        let start = Instant::now();
        (0..REPEATS).for_each(|_| one());
        let between = Instant::now();
        (0..REPEATS).for_each(|_| other());
        let took = [between - start, between.elapsed()];
        for (fastest, took) in fastest.iter_mut().zip(took) {
            *fastest = (*fastest).min(took / REPEATS);
        }
    }
    fastest
}
