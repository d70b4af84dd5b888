//! `cargo xtask test`: every check, in the order in which it is cheapest to hear of a failure.
#![expect(clippy::disallowed_methods, reason = "the time of each step is printed; the core alone has no clock")]

use crate::{Outcome, dist, page, run, size, tools};
use std::process::Command;
use std::time::Instant;

/// The targets of the tests that need the built page and a browser, as cargo matches names.
const BROWSER: &str = "browser*";

/// Runs everything; goes on after a failure, so that one call tells all of them.
pub fn everything() -> Outcome {
    tools::ensure_npm().or_else(|sentence| {
        println!("{sentence} The browser tests need it; the others go on.");
        Ok::<(), String>(())
    })?;
    let mut steps = Steps::default();
    steps.cargo("the style of the source", &["fmt", "--all", "--check"]);
    steps.lints("lints", &["--workspace", "--all-targets"]);
    // No call takes them in beside other targets.
    steps.lints("lints of the browser tests", &["--test", BROWSER]);
    steps.cargo("tests", &["test", "--no-fail-fast", "--workspace"]);
    steps.cargo("tests of the core alone", &["test", "--no-default-features", "--lib"]);
    let doc = &mut run::cargo(&["doc", "--workspace", "--no-deps"]);
    steps.command("the documentation", doc.env("RUSTDOCFLAGS", "-D warnings"));
    if steps.step("the page", page::build) {
        let wasm = ["--target", "wasm32-unknown-unknown", "--lib", "--bins"];
        steps.lints("lints for the browser", &wasm);
        steps.step("the size of a first visit", || size::report(&dist()));
        if steps.step("a browser to test in", tools::for_browser) {
            steps.cargo("tests in the browser", &["test", "--no-fail-fast", "--test", BROWSER]);
        }
    }
    steps.end()
}

/// Runs the browser tests whose names contain one of `names`, on a page built anew.
pub fn browser_only(names: &[&str]) -> Outcome {
    page::build()?;
    tools::for_browser()?;
    run::run(&mut run::cargo(&[&["test", "--no-fail-fast", "--test", BROWSER, "--", "--nocapture"], names].concat()))
}

#[derive(Default)]
struct Steps {
    failures: Vec<String>,
    count: usize,
}

impl Steps {
    fn cargo(&mut self, what: &str, args: &[&str]) -> bool {
        self.command(what, &mut run::cargo(args))
    }

    fn lints(&mut self, what: &str, targets: &[&str]) -> bool {
        self.cargo(what, &[&["clippy"], targets, &["--", "-D", "warnings"]].concat())
    }

    fn command(&mut self, what: &str, command: &mut Command) -> bool {
        println!(
            "\n$ {}",
            run::line_of(command).replacen(&command.get_program().to_string_lossy().into_owned(), "cargo", 1)
        );
        self.step(what, || run::run(command))
    }

    fn step(&mut self, what: &str, step: impl FnOnce() -> Outcome) -> bool {
        let begun = Instant::now();
        let done = step();
        let seconds = begun.elapsed().as_secs_f64();
        self.count += 1;
        match done {
            Ok(()) => println!("== {what}: good ({seconds:.1} s)"),
            Err(sentence) => {
                println!("{sentence}\n== {what}: FAILED ({seconds:.1} s)");
                self.failures.push(what.to_owned());
                return false;
            }
        }
        true
    }

    fn end(self) -> Outcome {
        if self.failures.is_empty() {
            println!("\nAll {} steps are good.", self.count);
            return Ok(());
        }
        Err(format!("\n{} of {} steps failed: {}.", self.failures.len(), self.count, self.failures.join(", ")))
    }
}
