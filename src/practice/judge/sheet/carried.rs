//! Errors that are carried forward: one thing was taken wrongly, and all that was written follows from it.
//!
//! Each is acted out and compared with what was given; it counts only if it accounts for everything that was written, and if
//! that is half of the sheet at least: two figures alone can be anything.

use super::Place;
use crate::fold::{Course, Direction, Face, Landing, Side};
use crate::practice::answer::Cell;

/// An error, and the sheet as it would be with it.
pub(super) struct Carried {
    /// It in a sentence.
    pub(super) says: String,
    /// What would stand at each place.
    pub(super) cells: Vec<Cell>,
    /// Whether it shows in the numbers; otherwise in the heads alone.
    pub(super) by_numbers: bool,
}

/// The error that accounts for everything given, if there is one.
pub(super) fn error(course: &Course, places: &[Place], first_page: u32, numbers: bool) -> Option<Carried> {
    let found = if numbers { in_numbers(course, places, first_page) } else { None };
    found.or_else(|| upside_down(places))
}

fn in_numbers(course: &Course, places: &[Place], first_page: u32) -> Option<Carried> {
    let fits = |cells: &[Cell]| {
        let given: Vec<_> = places.iter().zip(cells).filter(|(p, _)| p.given.page.is_some()).collect();
        let wrong = given.iter().any(|(p, _)| p.given.page != Some(p.page + first_page - 1));
        wrong && 2 * given.len() >= places.len() && given.iter().all(|(p, cell)| p.given.page == cell.page)
    };
    let carried = |says: String, cells: Vec<Cell>| fits(&cells).then_some(Carried { says, cells, by_numbers: true });
    let folds = course.scheme().into_iter().flat_map(|scheme| {
        let count = u32::try_from(scheme.folds.len()).unwrap_or(0);
        (1..=count).filter_map(move |fold| Some((fold, Landing::of(&scheme.fold_other_way(fold)).ok()?)))
    });
    for (fold, other) in folds {
        let cells = places.iter().map(|p| on(&other, &p.face, first_page)).collect();
        if let Some(found) = carried(format!("This is the sheet with fold {fold} made the other way."), cells) {
            return Some(found);
        }
    }
    let shift = places.iter().find_map(|p| Some(i64::from(p.given.page?) - i64::from(p.page + first_page - 1)))?;
    let counted = places.iter().map(|p| {
        let page = i64::from(p.page + first_page - 1) + shift;
        Cell { page: u32::try_from(page).ok(), head: Some(p.head) }
    });
    let from = i64::from(first_page) + shift;
    if let Some(found) =
        carried(format!("The pages are counted from {from} here, and not from {first_page}."), counted.collect())
    {
        return Some(found);
    }
    let laid: [(&str, ComesFrom, bool); 3] = [
        (
            "Side B is written here as it is seen through the paper, and not after turning the sheet.",
            seen_through,
            false,
        ),
        ("What belongs on side A stands on side B here, and the reverse.", other_side, false),
        ("The sheet lies end for end here.", end_for_end, true),
    ];
    laid.into_iter().find_map(|(says, comes_from, upside_down)| {
        let cells: Option<Vec<Cell>> = places
            .iter()
            .map(|place| {
                let from = places.iter().find(|other| comes_from(place, other))?;
                let head = if upside_down { from.head.opposite() } else { from.head };
                Some(Cell { page: Some(from.page + first_page - 1), head: Some(head) })
            })
            .collect();
        carried(says.into(), cells?)
    })
}

/// Whether what stands at the first place is what belongs at the second.
type ComesFrom = fn(&Place, &Place) -> bool;

fn on(landing: &Landing, face: &Face, first_page: u32) -> Cell {
    let page = landing.page_on(face);
    Cell { page: page.map(|p| p + first_page - 1), head: page.and_then(|p| landing.page(p)).map(|p| p.head) }
}

/// Whether what stands at `place` is what belongs at `other`, if side B is seen through the paper.
fn seen_through(place: &Place, other: &Place) -> bool {
    let seen = if place.side == Side::A { other.seen } else { other.face.column as usize };
    (place.side, place.row, place.seen) == (other.side, other.row, seen)
}

fn other_side(place: &Place, other: &Place) -> bool {
    (place.side.other(), place.row, place.seen) == (other.side, other.row, other.seen)
}

fn end_for_end(place: &Place, other: &Place) -> bool {
    // Both are counted from opposite corners: the sums are those of the last row and column.
    place.side == other.side && place.opposite == (other.row, other.seen)
}

/// All heads the other way up.
fn upside_down(places: &[Place]) -> Option<Carried> {
    let given: Vec<(&Place, Direction)> = places.iter().filter_map(|p| Some((p, p.given.head?))).collect();
    let turned = given.iter().all(|(p, head)| *head == p.head.opposite());
    (turned && 2 * given.len() >= places.len()).then(|| Carried {
        says: "Every head stands the other way up here.".into(),
        cells: places.iter().map(|p| Cell { page: None, head: Some(p.head.opposite()) }).collect(),
        by_numbers: false,
    })
}
