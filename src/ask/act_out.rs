//! `act_out`: a cause of wrong pages carried out; the sheet as it lies, its folds, and the pages that come of it.

use super::error::Refusal;
use super::explain_section::{check_first, one, refusal};
use crate::fold::Scheme;
use crate::fold::misfold::{Acted, Cause, FoldAt, FoundPage, Mark, PrintedPage, Sheet, acts_out_all};
use serde::{Deserialize, Serialize};

/// The request.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Ask {
    scheme: Scheme,
    #[serde(default = "one")]
    first_page: u32,
    cause: Cause,
}

/// The answer.
#[derive(Serialize)]
pub(super) struct Answer {
    ways: Vec<Way>,
}

/// One way to carry it out.
#[derive(Serialize)]
struct Way {
    scheme: Scheme,
    #[serde(flatten)]
    sheet: Sides,
    #[serde(skip_serializing_if = "Option::is_none")]
    under: Option<Sides>,
    pages: Vec<FoundPage>,
    fold_at: FoldAt,
    mark: Mark,
    sheets: u32,
}

/// Both sides of a sheet, each as seen from that side.
#[derive(Serialize)]
struct Sides {
    side_a: Vec<Vec<Option<PrintedPage>>>,
    side_b: Vec<Vec<Option<PrintedPage>>>,
}

pub(super) fn answer(ask: &Ask) -> Result<Answer, Refusal> {
    check_first(ask.first_page)?;
    let ways = acts_out_all(&ask.scheme, ask.first_page, &ask.cause).map_err(|why| refusal(&why))?;
    let sides = |sheet: Sheet| Sides { side_a: sheet.side_a, side_b: sheet.side_b };
    let way = |acted: Acted| {
        let sheets = acted.sheets();
        let Acted { folded, sheet, under, pages, fold_at, mark } = acted;
        Way { scheme: folded, sheet: sides(sheet), under: under.map(sides), pages, fold_at, mark, sheets }
    };
    Ok(Answer { ways: ways.into_iter().map(way).collect() })
}
