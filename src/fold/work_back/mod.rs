//! From a printed sheet back to the folds: which ways of folding bring its pages into order?
//!
//! Every fold takes all layers, so nothing ever comes between two faces that touch: pages 2j and 2j + 1, heads the same
//! way. Hence the leaves of each pile follow each other in the section without a gap, and one known page numbers the
//! whole pile it lies in (`piles`). One known page also settles which side of every panel faces the front, and one known
//! head settles all of them (`facts`); what contradicts that needs no search. What isn't known yet must find room in
//! the gaps that known piles leave, without paper crossing paper (`room`). The search through all folds (`search`)
//! prunes by these, remembers packets from which nothing fits, and counts its work.

mod facts;
mod nearest;
mod piles;
mod printed;
mod room;
mod search;

pub use nearest::{Change, Near};
pub use printed::{Known, Printed, View};
pub use search::{MAX_WORKED_BACK, WorkedBack, work_back};
