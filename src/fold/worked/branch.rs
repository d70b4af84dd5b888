//! The way of a sheet through its course, as a tree that parts at every slit.

use crate::fold::folding::Folding;
use crate::fold::scheme::{Crease, Lands, Part};

/// What was folded between two slits.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Branch {
    /// The folds. It begins with the flat sheet, or with what came from the slit, at the place where it lay.
    pub folding: Folding,
    /// What comes after them.
    pub end: BranchEnd,
}

/// How a branch ends.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum BranchEnd {
    /// With this piece.
    Piece(usize),
    /// It was slit, and each part goes on.
    Apart {
        /// Which way the slit runs.
        crease: Crease,
        /// Its line in the packet.
        at: i32,
        /// The left or upper part, and the other one.
        parts: Box<[Branch; 2]>,
    },
    /// It was slit, and one part laid on or under the other.
    Laid {
        /// Which way the slit runs.
        crease: Crease,
        /// Its line in the packet.
        at: i32,
        /// The part that was slid.
        moves: Part,
        /// Where it came to lie.
        lands: Lands,
        /// How many layers stayed. They come first in the list when it landed over.
        stayed: usize,
        /// How they go on.
        then: Box<Branch>,
    },
}
