//! A folded section whose pages are wrong: what was done to the sheet?
//!
//! Nothing is recognised from a list of known faults. Every cause is acted out with the engine (a fold made the other
//! way, a sheet turned, a side printed half round …) and the pages that come of it are compared with those found.
//! Single causes first, then every two at once.
//!
//! The same acts are carried out for their own sake by [`act_out`], which gives the sheet as it lies and how it is folded,
//! and [`look_alikes`] puts together what makes the same section.
//!
//! `inset` adds what comes from outside a sheet: other sections, leaves that are gone or too many, a second sheet laid in.
//! `told` puts everything into plain words for the page; `typed` reads pages as a person types them.

mod act;
mod acted;
mod alike;
mod cause;
mod explain;
mod inset;
mod labels;
#[cfg(test)]
mod tests;
mod told;
mod typed;
mod words;
mod written;

pub use acted::{Acted, PrintedPage, Sheet, act_out, acts_out_all};
pub use alike::{Alike, Alikes, look_alikes};
pub use cause::{Cause, Lies, Mark, Stage};
pub use explain::{Explained, Explanation, FoldAt, FoundPage, MAX_EXPLAINED, NotExplained, explain};
pub use inset::{
    Backed, Beside, Both, Forme, HalfSheets, Happened, Lane, LeafOf, MAX_SHEET, MadeOf, NotMade, NotPlayed, Plan,
    Second, SheetOf, Stranger,
};
pub use told::{Card, Given, LookAlike, Nest, NestPiece, NotTold, Question, Sides, Told, Way, tell};
pub use typed::{MAX_TYPED, TypedError, parse_pages, print_pages};
