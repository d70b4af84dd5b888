//! How long it takes to work a printed sheet back to its folds, measured against a yardstick of the same run.
//!
//! ```text
//! cargo bench --no-default-features --bench work_back
//! ```
//!
//! 200 sheets of 4 by 8 panels, folded at random; three in five of the 64 pages are hidden, and of the others every
//! fifth head. The yardstick is folding and numbering such a sheet once. Then the inputs that leave most open, where the
//! search is cut by its work. The run fails far off.

use backmark::fold::work_back::{Known, Printed, View, work_back};
use backmark::fold::{Direction, Fold, Landing, Lands, Part, Reads, Scheme, Side};
use std::hint::black_box;
use std::process::ExitCode;
use std::time::{Duration, Instant};

/// Yardsticks that 95 of 100 sheets may take. About 10 were measured.
const LIMIT: f64 = 250.0;

/// Yardsticks that a search may take which is cut. Some 20,000 to 30,000 of processor time were measured, several
/// times that on a busy machine.
const CUT_LIMIT: f64 = 1_500_000.0;

/// The share of sheets whose answer has to be complete. All of them were.
const COMPLETE: f64 = 0.95;

fn main() -> ExitCode {
    let schemes: Vec<Scheme> = (1..=200).filter_map(|seed| folded_at_random(4, 8, &mut Dice(seed))).collect();
    let yardstick =
        schemes.iter().map(|s| fastest(20, || drop(black_box(Landing::of(black_box(s)))))).sum::<Duration>()
            / u32::try_from(schemes.len()).unwrap_or(1);
    println!("yardstick: folding a sheet of 64 pages, {yardstick:.1?}");
    let yards = |time: Duration| time.as_secs_f64() / yardstick.as_secs_f64();
    let mut fail = false;

    for hidden in [0, 60, 80, 90] {
        let (mut times, mut complete) = (Vec::new(), 0);
        for (seed, scheme) in (1..).zip(&schemes) {
            let Some(printed) = partly(scheme, hidden, &mut Dice(1000 + seed)) else { continue };
            let found = work_back(&printed);
            if !found.schemes.contains(scheme) && found.complete {
                println!("not found: {scheme:?}");
                fail = true;
            }
            complete += u32::from(found.complete);
            times.push(yards(fastest(3, || drop(black_box(work_back(black_box(&printed)))))));
        }
        times.sort_by(f64::total_cmp);
        let at = |percent: usize| times.get(times.len() * percent / 100).copied().unwrap_or(f64::MAX);
        let worst = times.last().copied().unwrap_or(f64::MAX);
        let share = f64::from(complete) / schemes.len() as f64;
        println!(
            "{hidden:2} of 100 pages hidden: median {:.0}, p95 {:.0}, worst {worst:.0} yardsticks; {:.1} % complete",
            at(50),
            at(95),
            100.0 * share
        );
        if hidden <= 60 {
            fail |= at(95) > LIMIT || share < COMPLETE;
        }
    }

    let mut worst = (0.0, String::new());
    for (rows, columns) in [(8, 16), (11, 11), (4, 32), (2, 64), (1, 128)] {
        for hidden in [90, 97, 99, 100] {
            for seed in 1..=4 {
                let mut dice = Dice(seed);
                let scheme = folded_at_random(rows, columns, &mut dice);
                let Some(printed) = scheme.and_then(|scheme| partly(&scheme, hidden, &mut dice)) else { continue };
                let time = yards(fastest(3, || drop(black_box(work_back(black_box(&printed))))));
                if time > worst.0 {
                    worst = (time, format!("{rows} by {columns}, {hidden} of 100 pages hidden"));
                }
            }
        }
    }
    println!("largest sheets, worst: {:.0} yardsticks, {}", worst.0, worst.1);
    if fail || worst.0 > CUT_LIMIT {
        println!("too slow: the limits are {LIMIT} and {CUT_LIMIT} yardsticks");
        return ExitCode::FAILURE;
    }
    ExitCode::SUCCESS
}

/// Numbers that look random and are the same on every run.
struct Dice(u64);

impl Dice {
    fn below(&mut self, bound: u32) -> u32 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        u32::try_from(self.0 >> 33).unwrap_or(0) % bound.max(1)
    }
}

/// Any crease, over or under, until one panel is left; `None` where there is no fold.
fn folded_at_random(rows: u32, columns: u32, dice: &mut Dice) -> Option<Scheme> {
    let (mut width, mut height, mut folds) = (columns, rows, Vec::new());
    while width * height > 1 {
        let lands = if dice.below(2) == 0 { Lands::Over } else { Lands::Under };
        let crease = 1 + dice.below(width + height - 2);
        if crease < width {
            folds.push(Fold::new(crease, Part::Right, lands));
            width = crease.max(width - crease);
        } else {
            let after = crease + 1 - width;
            folds.push(Fold::new(after, Part::Bottom, lands));
            height = after.max(height - after);
        }
    }
    let head = match (folds.last()?.moves, dice.below(2)) {
        (Part::Right, 0) => Direction::Up,
        (Part::Right, _) => Direction::Down,
        (_, 0) => Direction::Left,
        _ => Direction::Right,
    };
    let reads = if dice.below(2) == 0 { Reads::LeftToRight } else { Reads::RightToLeft };
    Some(Scheme { rows, columns, folds, head, reads })
}

/// What a scheme prints, with some of it hidden.
fn partly(scheme: &Scheme, hidden: u32, dice: &mut Dice) -> Option<Printed> {
    let landing = Landing::of(scheme).ok()?;
    let [a, b]: [View; 2] = [Side::A, Side::B].map(|side| {
        let mut view = View::new();
        for row in landing.grid(side) {
            let mut known = vec![Known::default(); row.len()];
            for (slot, page) in known.iter_mut().zip(row) {
                if dice.below(100) >= hidden {
                    *slot = Known { page: Some(page.page), head: (dice.below(5) > 0).then_some(page.head) };
                }
            }
            view.push(known);
        }
        view
    });
    Some(Printed::new(scheme.rows, scheme.columns, &a, &b))
}

/// The fastest of some rounds: what disturbs a measurement only ever adds to it.
#[allow(clippy::disallowed_methods, reason = "measuring time is what this program is for")]
fn fastest(rounds: u32, mut work: impl FnMut()) -> Duration {
    let round = |_| {
        let start = Instant::now();
        work();
        start.elapsed()
    };
    (0..rounds).map(round).min().unwrap_or_default()
}
