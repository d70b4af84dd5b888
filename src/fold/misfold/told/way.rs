//! How a wrong section is made, as an answer writes it.

use crate::fold::misfold::{Acted, FoundPage, PrintedPage};
use crate::fold::{BackMark, Direction, Scheme, Side};
use serde::Serialize;

/// One way to make the section: a printed sheet as it lies, and how it is folded.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Way {
    /// The folds that were really made.
    pub scheme: Scheme,
    /// What is printed on the side that is up, row by row; `None` where nothing is.
    pub side_a: Vec<Vec<Option<PrintedPage>>>,
    /// What is printed beneath, as seen after turning the sheet left to right.
    pub side_b: Vec<Vec<Option<PrintedPage>>>,
    /// The pages that come of it, from front to back.
    pub pages: Vec<FoundPage>,
    /// Where the back mark is printed.
    pub mark: Option<MarkAt>,
    /// How many sheets were folded as one.
    pub sheets: u32,
}

/// Where a back mark is printed: on one edge of the first page.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct MarkAt {
    /// The side of the first page.
    pub side: Side,
    /// Its row.
    pub row: u32,
    /// Its column, as seen from its own side.
    pub column: u32,
    /// The edge of the mark, seen from that side.
    pub edge: Direction,
}

impl Way {
    pub(super) fn of(acted: &Acted) -> Self {
        let columns = acted.folded.columns;
        let at = |mark: &BackMark| MarkAt {
            side: mark.first_page.side,
            row: mark.first_page.row,
            column: mark.first_page.column_seen(columns),
            edge: mark.spine,
        };
        Self {
            scheme: acted.folded.clone(),
            side_a: acted.sheet.side_a.clone(),
            side_b: acted.sheet.side_b.clone(),
            pages: acted.pages.clone(),
            mark: acted.sheet.mark.as_ref().map(at),
            sheets: acted.sheets(),
        }
    }
}
