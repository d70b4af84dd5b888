//! The Class room without a screen: what lies on a learner's desk, and what is kept of it.
//!
//! ```text
//! DeskAct ─ Desk ─┬─ on_desk   the exercise, the answer so far with its steps back, hints taken, whether it was handed in
//!                 ├─ logbook   what was handed in
//!                 └─ lessons   which were finished
//! Desk ─ write_desk ─ text ─ read_desk ─ Desk            two windows: merged
//! ```
//!
//! The desk is no part of the job: a learner keeps it, whatever book is open. Nothing that was handed in is ever taken out.

mod desk;
mod kept;

pub use desk::{Desk, DeskAct, MAX_NAME, OnDesk};
pub use kept::{NotRead, merged, read_desk, write_desk};
