//! The core in a web worker: answers lines of the ask protocol. Loaded by the page when something is asked.

#[cfg(target_arch = "wasm32")]
/// What a worker answers to a line.
#[wasm_bindgen::prelude::wasm_bindgen]
#[must_use]
pub fn answer(line: &str) -> String {
    backmark::ask::answer(line)
}

fn main() {}
