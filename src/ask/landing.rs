//! `landing`: where every page of a scheme lands on the flat sheet.

use super::error::Refusal;
use crate::fold::{Direction, Landing, PageAt, Scheme, Side};
use serde::{Deserialize, Serialize};

/// The request.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Ask {
    scheme: Scheme,
}

/// The answer.
#[derive(Serialize)]
pub(super) struct Landed {
    pages: Vec<Page>,
    loose_leaves: Vec<u32>,
}

/// One page, its place and head as seen from its own side.
#[derive(Serialize)]
struct Page {
    page: u32,
    side: Side,
    row: u32,
    column: u32,
    head: Direction,
    leaf: u32,
    backed_by: u32,
    conjugate: Option<u32>,
    forme: &'static str,
}

pub(super) fn answer(ask: &Ask) -> Result<Landed, Refusal> {
    let landing = Landing::of(&ask.scheme).map_err(|why| Refusal::fold("scheme", &why))?;
    let outer = landing.outer_forme();
    let page = |p: &PageAt| Page {
        page: p.page,
        side: p.face.side,
        row: p.face.row,
        column: p.face.column_seen(landing.columns),
        head: p.head,
        leaf: p.leaf,
        backed_by: p.backed_by,
        conjugate: p.conjugate,
        forme: if p.face.side == outer { "outer" } else { "inner" },
    };
    let pages = landing.pages.iter().map(page).collect();
    Ok(Landed { pages, loose_leaves: landing.loose_leaves })
}
