//! Back marks: where they stand, and what a row of them says.
//!
//! A back mark is a short bar printed on the spine fold of a section. Each section's bar stands one step lower than
//! the bar of the section before it, so the backs of a right book show a staircase. This folder holds the [`Design`]
//! of such a staircase and all the [`BackMarks`] round it (columns, widths, ends, numbers), the [`Warning`]s about
//! what does not fit, and [`read_spine`] and [`read_backs`], which turn what is [`Seen`] on each back into what was
//! [`Found`].
//!
//! Heights are in millimetres from the head, downwards. Sections, places and levels count from 1. Reading knows marks
//! only: it never sees a section's number, so what two marks have in common it can't tell apart, and says so as a
//! [`Doubt`].

mod back_label;
mod back_marks;
mod design;
mod found;
mod misfits;
mod read;
mod refusal;
mod seen;
mod warning;
mod written;

pub use back_label::{Label, MOST_LETTERS};
pub use back_marks::{AfterWrap, BackMarks, Bar, HeadMarks, Inset, Runs, USUAL_WIDTH_MM};
pub use design::{Design, MOST_SECTIONS};
pub use found::{Found, Lies};
pub use read::{Doubt, Reading, read_backs, read_spine};
pub use refusal::Refusal;
pub use seen::{Look, Seen, SeenBack, Towards};
pub use warning::{Backs, Edge, Warning};
