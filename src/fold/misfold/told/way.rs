//! How a wrong section is made, as an answer writes it: like a way of `act_out`.

use crate::fold::Scheme;
use crate::fold::misfold::{Acted, FoldAt, FoundPage, Mark, PrintedPage, Sheet};
use serde::Serialize;

/// One way to make the section: a printed sheet as it lies, and how it is folded.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Way {
    /// The folds that were really made.
    pub scheme: Scheme,
    /// The sheet; the one nearer to side A where two were folded as one.
    #[serde(flatten)]
    pub sheet: Sides,
    /// The sheet beneath it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub under: Option<Sides>,
    /// The pages that come of it, from front to back.
    pub pages: Vec<FoundPage>,
    /// The edge where the last fold is found.
    pub fold_at: FoldAt,
    /// What is seen of the back mark on the back.
    pub mark: Mark,
    /// How many sheets were folded as one.
    pub sheets: u32,
}

/// Both sides of a sheet as it lies, each as seen from that side.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Sides {
    /// What is printed on the side that is up, row by row; `None` where nothing is.
    pub side_a: Vec<Vec<Option<PrintedPage>>>,
    /// What is printed beneath, as seen after turning the sheet left to right.
    pub side_b: Vec<Vec<Option<PrintedPage>>>,
}

impl Way {
    pub(super) fn of(acted: Acted) -> Self {
        let sheets = acted.sheets();
        let Acted { folded, sheet, under, pages, fold_at, mark } = acted;
        let sides = |sheet: Sheet| Sides { side_a: sheet.side_a, side_b: sheet.side_b };
        Self { scheme: folded, sheet: sides(sheet), under: under.map(sides), pages, fold_at, mark, sheets }
    }
}
