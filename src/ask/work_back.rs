//! `work_back`: which folds bring the pages of a printed sheet into order.

use super::error::Refusal;
use super::explain_section::MAX_PAGE;
use crate::fold::work_back::{Known, MAX_WORKED_BACK, Near, Printed, View, work_back};
use crate::fold::{Direction, Scheme};
use serde::{Deserialize, Serialize};

/// The request.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Ask {
    rows: u32,
    columns: u32,
    side_a: Vec<Vec<Option<Cell>>>,
    side_b: Vec<Vec<Option<Cell>>>,
}

/// What is known of a page of the sheet.
#[derive(Clone, Copy, Deserialize)]
#[serde(deny_unknown_fields)]
struct Cell {
    page: u32,
    #[serde(default)]
    head: Option<Direction>,
}

/// The answer.
#[derive(Serialize)]
pub(super) struct Answer {
    schemes: Vec<Scheme>,
    complete: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    nearest: Option<Vec<Near>>,
    searched_ms: Option<u64>,
}

pub(super) fn answer(ask: &Ask) -> Result<Answer, Refusal> {
    for (at, size) in [("rows", ask.rows), ("columns", ask.columns)] {
        if size == 0 {
            return Err(Refusal::new(at, "a sheet has at least one row and one column"));
        }
        let panels = if at == "rows" { size } else { ask.rows.saturating_mul(size) };
        if panels > MAX_WORKED_BACK {
            return Err(Refusal::new(
                at,
                format!("rows times columns may be {MAX_WORKED_BACK} at the most where a sheet is worked back"),
            ));
        }
    }
    let side_a = side("side_a", ask, &ask.side_a)?;
    let side_b = side("side_b", ask, &ask.side_b)?;
    let started = clock();
    let found = work_back(&Printed::new(ask.rows, ask.columns, &side_a, &side_b));
    let searched_ms = started.and_then(|t| u64::try_from(t.elapsed().as_millis()).ok());
    let nearest = found.schemes.is_empty().then_some(found.nearest);
    Ok(Answer { schemes: found.schemes, complete: found.complete, nearest, searched_ms })
}

/// A side of the right size, with nothing impossible in it.
fn side(name: &str, ask: &Ask, rows: &[Vec<Option<Cell>>]) -> Result<View, Refusal> {
    if rows.len() != ask.rows as usize {
        return Err(Refusal::new(name, format!("the sheet has {} rows; {} are given", ask.rows, rows.len())));
    }
    let mut view = Vec::with_capacity(rows.len());
    for (r, row) in rows.iter().enumerate() {
        if row.len() != ask.columns as usize {
            let says = format!("the sheet has {} columns; {} are given", ask.columns, row.len());
            return Err(Refusal::new(format!("{name}[{r}]"), says));
        }
        if let Some(c) = row.iter().position(|cell| cell.is_some_and(|cell| !(1..=MAX_PAGE).contains(&cell.page))) {
            let says = format!("pages are numbered from 1 to {MAX_PAGE}");
            return Err(Refusal::new(format!("{name}[{r}][{c}].page"), says));
        }
        let known =
            |cell: &Option<Cell>| cell.map_or_else(Known::default, |c| Known { page: Some(c.page), head: c.head });
        view.push(row.iter().map(known).collect());
    }
    Ok(view)
}

/// A browser's worker has no such clock; the time is then not told. Nothing depends on it.
#[cfg(not(target_arch = "wasm32"))]
#[allow(clippy::disallowed_methods, reason = "tells the asker how long it took; the search itself is cut by its work")]
fn clock() -> Option<std::time::Instant> {
    Some(std::time::Instant::now())
}

#[cfg(target_arch = "wasm32")]
const fn clock() -> Option<std::time::Instant> {
    None
}
