//! What comes from outside a sheet: a leaf or a section of another number, a leaf that is gone, a second sheet laid in.
//!
//! A [`Plan`] says what a right section is: one sheet, or one with a second sheet laid into its middle, the pages
//! numbered through. A [`Stranger`] is something that [`Cause`](super::Cause) has no word for. It is acted out on the
//! row of pages ([`play`](play::play)) like any cause; [`seek`] looks for those that give what was found.

mod drawn;
mod half;
mod made_of;
mod plan;
mod play;
mod seek;
mod stranger;
mod words;

pub use drawn::LeafOf;
pub use half::HalfSheets;
pub use made_of::{Lane, MAX_SHEET, MadeOf, NotMade};
pub use plan::{Plan, SheetOf};
pub use play::{NotPlayed, Outcome};
pub use stranger::{Backed, Beside, Both, Forme, Happened, Second, Stranger};

pub(super) use drawn::PieceOf;
pub(super) use play::{draw, play};
pub(super) use seek::{Fit, fits, seek};
pub(super) use words::stage_words;
