//! A gathering line played from a seed, with planted faults: what a checker is handed, with the truth beside it.
//!
//! A [`Run`] says how many books of how many sections are made, how often a feed misses or doubles, what watches the
//! stations, and which faults are planted. [`play`] makes the books one by one and gives back the wrong ones, what is
//! left over at each station, what was logged, and a digest of it all. The same run gives the same digest on every
//! machine: there is no clock, and the numbers come from the seed by whole-numbered arithmetic.
//!
//! | file | what it does |
//! | --- | --- |
//! | `run` | what is to be played, and its bounds |
//! | `planted` | the faults that can be planted |
//! | `dice`, `digest` | numbers from a seed, and a number from what was played |
//! | `station` | one station: its hopper, its feed, what watches it |
//! | `play` | the books, one by one |
//! | `played` | what comes out |
//!
//! **Counter numbers.** The counter stands at the end of the line. When it shows N, the station with `ahead` books
//! between itself and the counter fills book N + `ahead` + 1. A planted fault that begins at counter N therefore shows
//! `ahead` books later, and what was left in the hopper comes in between.
//!
//! **What is left out.** A book that is stopped for is put right at once and goes on; nothing is thrown away. A line that
//! starts again does so without a burst of misses.

mod digest;
mod planted;
mod play;
mod played;
mod run;
mod station;

pub use crate::marks::Refusal;
pub use crate::since::{Fed, Happened, Left, Line, Logged, Stopper};
pub use digest::Digest;
pub use planted::Planted;
pub use play::play;
pub use played::{Played, Stopped, WrongBook};
pub use run::{Detectors, MOST_BOOKS, MOST_FEEDS, MOST_PLANTED, MOST_SHOWN, Rates, Run};
