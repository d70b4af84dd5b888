//! What a folded section means for the bindery.
//!
//! The engine says where every panel lies; this says what follows from it once the paper is so thick and the knives of
//! the trimmer stand so far in. Values in, values out; each rule and number names its source where it stands.
//!
//! ```text
//! Worked + Nest + Measure ── Leaves (edges, bolts, spine) ─┬─ trimmed   which bolts the knives open
//!                                                          ├─ creep     how far inner leaves stand out
//!                                                          └─ sizes     leaf, page, lip
//! Worked + piece ── folds_of (layers at every crease) ─┬─ air          which crease to perforate
//!                                                      ├─ folds_suit   whether the paper takes so many folds
//!                                                      └─ thickness    whether the folder takes the packet
//! all of it ── told (sentences, with the sum and its source)
//! ```
//!
//! Lengths are exact to the nanometre; positions are those of the flat measure, and what the thickness of the paper adds
//! is kept apart from them.

mod air;
mod bolts;
mod creep;
mod folds_suit;
mod grain;
mod leaves;
mod made;
mod size;
mod thickness;
mod told;

pub use air::{Air, Perforate, UNPERFORATED, air};
pub use bolts::{BoltCut, EdgeCut, Trimmed, trim_at, trimmed};
pub use creep::{Creep, CreepModel, PageMargins, creep, margins};
pub use folds_suit::{FoldLimit, RULE_OF_THUMB, SCORE_ABOVE, least_lengths, mill_folds, most_folds, unit_length};
pub use grain::{GrainRuns, grain_runs};
pub use leaves::{Bolt, Edge, Leaf, Leaves, Lies};
pub use made::{MadeFold, folds_of};
pub use size::{LipFound, Size, Sizes, Uneven, piece_size, sizes};
pub use thickness::{FOLDER_TAKES, FOLDER_TAKES_AT_LAST, Folded, block, folded, section};
pub use told::{About, Finding, Severity, Work, told};
