//! Pieces that rooms share.

mod count;
mod dialog;
mod strip;
mod words;

pub use count::count_field;
pub use dialog::Dialog;
pub use strip::{Back, Strip};
pub use words::words;
