//! Writing down the layout of a sheet, to be worked back to its folds.

use super::change;
use crate::app::action::Action;
use crate::app::job::{Cell, Layout, MAX_LAYOUT, MAX_LAYOUT_PANELS};
use crate::app::state::State;
use crate::fold::{Landing, Side};

/// The highest page number that can be written into a cell.
pub const MAX_PAGE: u32 = 9_999;

pub(super) fn act(state: &mut State, action: Action) -> Result<(), String> {
    let on_bench = state.scheme();
    let sheet = state.sheet().clone();
    change(state, |job| {
        match action {
            Action::LayoutSize { rows, columns } => {
                check_size(rows, columns)?;
                job.layout = resized(&job.layout, rows, columns);
            }
            Action::LayoutCell { side, row, column, cell } => {
                let (rows, columns) = (job.layout.rows, job.layout.columns);
                if row >= rows || column >= columns {
                    return Err("There is no such cell.".into());
                }
                if cell.is_some_and(|c| c.page == 0 || c.page > MAX_PAGE) {
                    return Err(format!("Pages are numbered from 1 to {MAX_PAGE}."));
                }
                if let Some(slot) = job.layout.side_mut(side).get_mut((row * columns + column) as usize) {
                    *slot = cell;
                }
            }
            Action::LayoutOfScheme => {
                if !sheet.is_whole() && on_bench.folds == sheet.trunk().folds {
                    return Err("A sheet that is slit is worked back piece by piece: take one on the bench.".into());
                }
                let Ok(landing) = Landing::of(&on_bench) else {
                    return Err("The sheet is not folded down to one page yet, so nothing lands on it.".into());
                };
                check_size(on_bench.rows, on_bench.columns)?;
                let mut layout = Layout::blank(on_bench.rows, on_bench.columns);
                for at in &landing.pages {
                    let place = (at.face.row * layout.columns + at.face.column_seen(layout.columns)) as usize;
                    if let Some(slot) = layout.side_mut(at.face.side).get_mut(place) {
                        *slot = Some(Cell { page: at.page, head: Some(at.head) });
                    }
                }
                job.layout = layout;
            }
            Action::LayoutClear => job.layout = Layout::blank(job.layout.rows, job.layout.columns),
            _ => {}
        }
        Ok(())
    })
}

/// A larger layout could not be read again.
fn check_size(rows: u32, columns: u32) -> Result<(), String> {
    let most = 1..=MAX_LAYOUT;
    if most.contains(&rows) && most.contains(&columns) && rows * columns <= MAX_LAYOUT_PANELS {
        return Ok(());
    }
    Err(format!("A layout has 1 to {MAX_LAYOUT} rows and columns, and {MAX_LAYOUT_PANELS} panels at the most."))
}

/// The same layout on a sheet of another size; what falls outside is lost.
fn resized(old: &Layout, rows: u32, columns: u32) -> Layout {
    let mut new = Layout::blank(rows, columns);
    for side in [Side::A, Side::B] {
        for row in 0..rows.min(old.rows) {
            for column in 0..columns.min(old.columns) {
                let known = old.side(side).get((row * old.columns + column) as usize).copied().flatten();
                if let Some(slot) = new.side_mut(side).get_mut((row * columns + column) as usize) {
                    *slot = known;
                }
            }
        }
    }
    new
}
