//! Opens the page. Everything else is in the library.

fn main() {
    #[cfg(all(feature = "ui", target_arch = "wasm32"))]
    backmark::ui::run();
}
