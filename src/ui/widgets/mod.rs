//! Pieces that rooms share.

pub mod cells;
mod count;
mod dialog;
mod strip;
mod typed;
mod words;

pub use count::count_field;
pub use dialog::Dialog;
pub use strip::{Back, Strip};
pub use typed::{Typed, chosen};
pub use words::{figures, show_words_by, words};
