//! From a printed sheet back to the folds: which ways of folding bring its pages into order?
//!
//! Every fold takes all layers, so nothing ever comes between two faces that touch: they must be pages 2j and 2j + 1
//! the moment they meet, heads the same way. That cuts a search over all folds down to few.

mod facts;
mod nearest;
mod piles;
mod printed;
mod room;
mod search;

pub use nearest::{Change, Near};
pub use printed::{Known, Printed, View};
pub use search::{MAX_WORKED_BACK, WorkedBack, work_back};
