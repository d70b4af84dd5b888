//! How long folding and landing takes beside the same in plain Python, both in one run on one machine.
//!
//! ```text
//! cargo bench --no-default-features --bench python
//! ```
//!
//! `model.py` is what a reader of the protocol would write without a thought to speed; it measures itself. The run
//! fails when the engine is less than [`LEAST`] times as fast with a sheet of 128 pages, and succeeds where there is no
//! `python3` to compare with.

use backmark::fold::{Direction, Fold, Landing, Lands, Part, Reads, Scheme};
use std::hint::black_box;
use std::io::Write;
use std::process::{Command, ExitCode, Stdio};
use std::time::Instant;

/// How many times as fast as plain Python the engine has to be.
const LEAST: f64 = 100.0;

fn main() -> ExitCode {
    let sheet = eight_by_eight();
    let Some(python) = in_python(&sheet) else {
        println!("There is no python3 here that runs benches/model.py, so there is nothing to compare with.");
        return ExitCode::SUCCESS;
    };
    let rust = fastest(&sheet);
    // Once more, so that a machine that got faster or slower meanwhile does both alike.
    let python = in_python(&sheet).map_or(python, |again| again.min(python));
    let ratio = python / rust;
    println!(
        "{} pages: {:.1} µs in plain Python, {:.2} µs here: {ratio:.0} times",
        sheet.pages(),
        python * 1e6,
        rust * 1e6
    );
    if ratio < LEAST {
        println!("too slow: the least is {LEAST} times");
        return ExitCode::FAILURE;
    }
    ExitCode::SUCCESS
}

/// Folded in halves six times, along and across in turn.
fn eight_by_eight() -> Scheme {
    let fold = |n: u32| {
        let part = if n.is_multiple_of(2) { Part::Top } else { Part::Right };
        Fold::new(4 >> (n / 2), part, Lands::Over)
    };
    let folds = (0..6).map(fold).collect();
    Scheme { rows: 8, columns: 8, folds, head: Direction::Up, reads: Reads::LeftToRight }
}

/// Seconds for one landing by the model, best of many; `None` where it can't be run.
fn in_python(sheet: &Scheme) -> Option<f64> {
    let model = concat!(env!("CARGO_MANIFEST_DIR"), "/benches/model.py");
    let mut python = Command::new("python3")
        .args([model, "time"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .ok()?;
    let line = serde_json::to_string(sheet).ok()? + "\n";
    python.stdin.take()?.write_all(line.as_bytes()).ok()?;
    let output = python.wait_with_output().ok()?;
    String::from_utf8(output.stdout).ok()?.trim().parse().ok()
}

/// Seconds for one landing here, measured as the model does it.
#[allow(clippy::disallowed_methods, reason = "measuring time is what this program is for")]
fn fastest(sheet: &Scheme) -> f64 {
    const ROUNDS: u32 = 2_000;
    const REPEATS: u32 = 50;
    let round = |_| {
        let start = Instant::now();
        (0..REPEATS).for_each(|_| _ = black_box(Landing::of(black_box(sheet)).ok()));
        start.elapsed().as_secs_f64() / f64::from(REPEATS)
    };
    (0..ROUNDS).map(round).fold(f64::INFINITY, f64::min)
}
