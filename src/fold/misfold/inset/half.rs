//! Half sheets: one forme carries the pages of both sides of a section and prints both sides of a double sheet, which is
//! then cut into two like sections.
//!
//! The two halves of the forme stand side by side where the pile is turned (left to right) for the second side, and one
//! above the other where it is tumbled (top to bottom). Done the other way, each half is backed by itself. Turned where
//! it should be tumbled, a page is backed as it stands; tumbled where it should be turned, half turned round.

use super::plan::{Plan, SheetOf};
use super::stranger::{Backed, Forme};
use crate::fold::misfold::{Acted, FoldAt, FoundPage, Mark, NotExplained, PrintedPage, Sheet};
use crate::fold::{BackMark, Direction, Face, Landing, Section, Side};

/// The section that is folded from such a half, with the pages of one forme on both sides.
pub(super) fn half_sheet(plan: &Plan, forme: Forme, was: Backed) -> Result<Acted, NotExplained> {
    let scheme = plan.scheme_of(SheetOf::Outer);
    let right = Section::of_scheme(scheme)?;
    let landing = Landing::of_section(&right);
    let outer = landing.outer_forme();
    let kept = if forme == Forme::Outer { outer } else { outer.other() };
    let (rows, columns) = (landing.rows, landing.columns);
    // What is printed on a face: the page and the way its head points, seen from the side of the face.
    let printed = |face: Face| {
        if face.side == kept {
            let page = landing.page(landing.page_on(&face)?)?;
            return Some((page.page, page.head));
        }
        let seen = face.column_seen(columns);
        let (row, seen, turned) = match was {
            Backed::Turned => (face.row, seen, false),
            Backed::Tumbled => (rows - 1 - face.row, columns - 1 - seen, true),
        };
        let column = if kept == Side::A { seen } else { columns - 1 - seen };
        let page = landing.page(landing.page_on(&Face { side: kept, row, column })?)?;
        Some((page.page, if turned { page.head.opposite() } else { page.head }))
    };
    let number = |page: u32| plan.number(SheetOf::Outer, i64::from(page));
    let pages = right.faces.iter().map(|found| {
        let (page, head) = printed(found.face)?;
        let head = if head == found.head { Direction::Up } else { Direction::Down };
        Some(FoundPage { page: number(page), head: Some(head) })
    });
    let pages = pages.map(|p| p.unwrap_or(FoundPage { page: None, head: None })).collect();
    let side = |side: Side| {
        let row = |row: u32| {
            let cell = |seen: u32| {
                let column = if side == Side::A { seen } else { columns - 1 - seen };
                let (page, head) = printed(Face { side, row, column })?;
                Some(PrintedPage { page: number(page)?, head })
            };
            (0..columns).map(cell).collect()
        };
        (0..rows).map(row).collect()
    };
    let mark = if forme == Forme::Outer { BackMark::on_sheet(&right, &landing) } else { None };
    Ok(Acted {
        folded: scheme.clone(),
        sheet: Sheet { side_a: side(Side::A), side_b: side(Side::B), mark },
        under: None,
        pages,
        fold_at: FoldAt::Spine,
        mark: if mark.is_some() { Mark::Shows } else { Mark::Blank },
    })
}
