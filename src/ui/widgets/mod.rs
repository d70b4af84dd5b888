//! Pieces that rooms share.

mod dialog;
mod strip;
mod words;

pub use dialog::Dialog;
pub use strip::{Back, Strip};
pub use words::words;
