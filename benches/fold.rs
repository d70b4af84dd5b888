//! How long folding takes, measured against a yardstick of the same run, so that the figure means the same on a slow
//! and on a fast machine.
//!
//! ```text
//! cargo bench --no-default-features --bench fold
//! ```
//!
//! The yardstick is sorting as many numbers as the sheet has pages. The run fails when folding a sheet of 128 pages
//! and numbering it takes more than [`LIMIT`] yardsticks, or when a large sheet takes far longer for each panel than a
//! small one.

use backmark::fold::{Direction, Fold, Landing, Lands, Part, Reads, Scheme};
use std::hint::black_box;
use std::process::ExitCode;
use std::time::{Duration, Instant};

/// Yardsticks that a sheet of 128 pages may take. Four or five were measured; a quadratic slip would be over a hundred.
const LIMIT: f64 = 60.0;

/// How much longer a panel of the largest sheet may take than a panel of the smallest.
const GROWTH: f64 = 6.0;

fn main() -> ExitCode {
    let sheet = halvings(6);
    let pages = sheet.pages();
    let numbers: Vec<u32> = (0..pages).map(|n| n.wrapping_mul(2_654_435_761)).collect();
    let yardstick = fastest(|| {
        let mut sorted = black_box(&numbers).clone();
        sorted.sort_unstable();
        black_box(&sorted);
    });
    let landing = fastest(|| {
        black_box(Landing::of(black_box(&sheet)).ok());
    });
    let ratio = landing.as_secs_f64() / yardstick.as_secs_f64();
    println!("128 pages: {landing:.1?}, {ratio:.1} times sorting {pages} numbers ({yardstick:.1?})");

    let mut each = Vec::new();
    for halves in 3..=10 {
        let sheet = halvings(halves);
        let time = fastest(|| {
            black_box(Landing::of(black_box(&sheet)).ok());
        });
        let panel = time.as_secs_f64() / f64::from(sheet.leaves());
        each.push(panel);
        println!("{:5} panels: {time:8.1?}, {:5.1} ns a panel", sheet.leaves(), panel * 1e9);
    }
    let growth = each.last().copied().unwrap_or(0.0) / each.first().copied().unwrap_or(f64::MIN_POSITIVE);
    println!("a panel of 1,024 takes {growth:.1} times as long as a panel of 8");
    if ratio > LIMIT || growth > GROWTH {
        println!("too slow: the limits are {LIMIT} yardsticks and {GROWTH} times");
        return ExitCode::FAILURE;
    }
    ExitCode::SUCCESS
}

/// A sheet folded in halves `times` times, across and along in turn; six times is 8 by 8, 128 pages.
fn halvings(times: u32) -> Scheme {
    let (mut rows, mut columns) = (1, 1);
    let mut folds = Vec::new();
    for n in 0..times {
        let (size, part) = if n % 2 == 0 { (&mut columns, Part::Right) } else { (&mut rows, Part::Top) };
        folds.push(Fold::new(*size, part, Lands::Over));
        *size *= 2;
    }
    folds.reverse();
    Scheme { rows, columns, folds, head: Direction::Up, reads: Reads::LeftToRight }
}

/// The fastest of many rounds: what disturbs a measurement only ever adds to it.
#[allow(clippy::disallowed_methods, reason = "measuring time is what this program is for")]
fn fastest(mut work: impl FnMut()) -> Duration {
    const ROUNDS: u32 = 30;
    const REPEATS: u32 = 20;
    let round = |_| {
        let start = Instant::now();
        (0..REPEATS).for_each(|_| work());
        start.elapsed() / REPEATS
    };
    (0..ROUNDS).map(round).min().unwrap_or_default()
}
