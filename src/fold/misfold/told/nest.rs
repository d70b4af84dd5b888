//! How a section is put together of pieces, as an answer writes it.

use super::way::Sides;
use crate::fold::Scheme;
use crate::fold::misfold::inset::{LeafOf, Outcome, PieceOf, SheetOf};
use crate::fold::misfold::{FoundPage, Lies, Sheet};
use serde::Serialize;

/// A section put together of pieces: what a look at its head shows.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Nest {
    /// Its pages from front to back.
    pub pages: Vec<FoundPage>,
    /// Its leaves from front to back, each of two of these pages.
    pub leaves: Vec<LeafOf>,
    /// The pieces that lie there as whole sheets.
    pub pieces: Vec<NestPiece>,
}

/// A piece of a section: a printed sheet, how it is folded, and how it lies.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct NestPiece {
    /// Its number, as the leaves name it.
    pub piece: u32,
    /// Where it belongs: `outer`, `inset` or, inside an inset, `core`.
    pub belongs: &'static str,
    /// The section that it is of, counted on from this one.
    pub section_offset: i32,
    /// How it lies in the section; `None` where it lies right.
    pub lies: Option<Lies>,
    /// The folds that were really made.
    pub scheme: Scheme,
    /// What is printed on it; on the upper one where two were folded as one.
    #[serde(flatten)]
    pub sheet: Sides,
}

impl Nest {
    /// What came of it; `None` where its leaves are not known.
    pub(super) fn of(outcome: Outcome) -> Option<Self> {
        let Outcome { row, pieces, .. } = outcome;
        let piece = |piece: PieceOf| {
            let PieceOf { number, which, section_offset, acted, lies } = piece;
            let belongs = match which {
                SheetOf::Outer => "outer",
                SheetOf::Inset => "inset",
                SheetOf::Core => "core",
            };
            let Sheet { side_a, side_b, .. } = acted.sheet;
            let (scheme, sheet) = (acted.folded, Sides { side_a, side_b });
            NestPiece { piece: number, belongs, section_offset, lies, scheme, sheet }
        };
        let known = 2 * row.leaves.len() == row.pages.len();
        known.then(|| Self { pages: row.pages, leaves: row.leaves, pieces: pieces.into_iter().map(piece).collect() })
    }
}
