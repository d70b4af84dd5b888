//! Why a course can't be carried out, in words a binder understands, and at which step.

use crate::fold::course::MAX_PIECES;
use crate::fold::error::FoldError;
use crate::fold::scheme::Part;
use thiserror::Error;

/// Why a course can't be carried out, and at which of its steps.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[error("{why}")]
pub struct CourseError {
    /// The path to the step, as in `steps[1].left[0].after`.
    pub at: String,
    /// Why.
    pub why: CourseFault,
}

/// Why a course can't be carried out.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum CourseFault {
    /// A fold can't be made, or a piece can't be read.
    #[error("{0}")]
    Fold(#[from] FoldError),
    /// The slit lies on or beyond the edge.
    #[error("the slit would lie after {after} panels, but the packet is then {size} {} and a slit lies inside it",
        if *.vertical { "wide" } else { "high" })]
    SlitOutside {
        /// Where it was asked for.
        after: u32,
        /// How large the packet is across it.
        size: u32,
        /// Whether it runs from top to bottom.
        vertical: bool,
    },
    /// The part that is slid does not lie beside such a slit.
    #[error("the slit does not part {} from the rest", .moves.word())]
    PartBesideOtherSlit {
        /// The part.
        moves: Part,
    },
    /// More pieces than the program takes.
    #[error("a sheet is slit into {MAX_PIECES} pieces at the most")]
    TooManyPieces,
    /// No section, or one without a piece.
    #[error("no piece is put here")]
    NoPiece,
    /// A piece that is not there.
    #[error("there is no piece {piece}; the pieces are numbered from 0 to {}", .count - 1)]
    NoSuchPiece {
        /// The number asked for.
        piece: usize,
        /// How many there are.
        count: usize,
    },
    /// A piece that stands somewhere already.
    #[error("piece {piece} has its place already")]
    PieceTwice {
        /// Its number.
        piece: usize,
    },
    /// Nothing can be laid into the middle of it.
    #[error("piece {piece} has {leaves} leaves, so there is no middle to lay another piece in")]
    NoMiddle {
        /// Its number.
        piece: usize,
        /// Its leaves.
        leaves: usize,
    },
}
