//! The Class room without a screen: what lies on a learner's desk, and what is kept of it.
//!
//! ```text
//! DeskAct ─ Desk ─┬─ on_desk   the exercise, the answer so far with its steps back, hints taken, whether it was handed in
//!                 ├─ logbook   what was handed in
//!                 ├─ aside     exercises that were begun and laid aside for another one
//!                 └─ lessons   which were finished
//! Desk ─ write_desk ─ text ─ read_desk ─ Desk            two windows: merged
//! ```
//!
//! [`show`] is the bench before a class: what it sees, and what the keys do.
//!
//! The desk is no part of the job: a learner keeps it, whatever book is open. Nothing that was handed in is ever taken out.

mod desk;
mod kept;
pub mod show;

pub use desk::{Desk, DeskAct, MAX_ASIDE, MAX_NAME, OnDesk};
pub use kept::{NotRead, merged, read_desk, write_desk};
