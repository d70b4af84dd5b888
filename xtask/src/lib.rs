//! What it takes to open, build, measure and test Backmark on a machine that has only rustup, a C compiler and a
//! package manager. `src/main.rs` turns these into the commands `cargo xtask help` lists; the browser tests borrow
//! the server, the size count and the search for tools.
//!
//! Errors are sentences for the person at the terminal, so they are plain strings.

pub mod checks;
pub mod page;
pub mod run;
pub mod serve;
pub mod size;
pub mod split;
pub mod system;
pub mod tools;

use std::path::{Path, PathBuf};

/// A value, or a sentence that says what went wrong and what to do.
pub type Outcome<T = ()> = Result<T, String>;

/// The folder of the checkout.
pub fn root() -> PathBuf {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    here.parent().unwrap_or(here).to_path_buf()
}

/// The folder of the built page.
pub fn dist() -> PathBuf {
    root().join("dist")
}
