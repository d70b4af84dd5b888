//! Numbers and heads on a sheet.

mod carried;

use super::{FOLD, HEAD, NUMBER};
use crate::fold::misfold::{FoundPage, PrintedPage};
use crate::fold::{Course, Direction, Face, Landing, Side, Worked};
use crate::practice::answer::{Cell, SheetCells};
use crate::practice::marked::{Departs, Item, Marked, Shown, head_word};

/// Where the pages of the one section of a sheet land.
pub fn landing(course: &Course) -> Option<Landing> {
    Worked::of(course).ok()?.landing(0, 0)
}

/// A side as it is printed right.
pub fn printed_side(landing: &Landing, side: Side, first_page: u32) -> Vec<Vec<Option<PrintedPage>>> {
    let page = |page: u32, head| Some(PrintedPage { page: page.saturating_add(first_page - 1), head });
    landing.grid(side).into_iter().map(|row| row.into_iter().map(|p| page(p.page, p.head)).collect()).collect()
}

/// What is right.
pub(super) fn right(course: &Course, first_page: u32) -> Option<SheetCells> {
    let landing = landing(course)?;
    let side = |side| {
        let cell = |p: Option<PrintedPage>| Cell { page: p.map(|p| p.page), head: p.map(|p| p.head) };
        printed_side(&landing, side, first_page).into_iter().map(|row| row.into_iter().map(cell).collect()).collect()
    };
    Some(SheetCells { side_a: side(Side::A), side_b: side(Side::B) })
}

/// One place of the sheet.
struct Place {
    side: Side,
    row: usize,
    seen: usize,
    /// The row and column opposite, as seen, if the sheet is turned half round.
    opposite: (usize, usize),
    face: Face,
    /// The page and the head that are right.
    page: u32,
    head: Direction,
    given: Cell,
}

impl Place {
    fn is_right(&self, first_page: u32, numbers: bool) -> bool {
        self.given.head == Some(self.head) && (!numbers || self.given.page == Some(self.page + first_page - 1))
    }
}

fn places(landing: &Landing, given: Option<&SheetCells>) -> Vec<Place> {
    let mut places = Vec::new();
    for side in [Side::A, Side::B] {
        for (row, cells) in landing.grid(side).into_iter().enumerate() {
            for (seen, page) in cells.into_iter().enumerate() {
                let of = given.map(|g| if side == Side::A { &g.side_a } else { &g.side_b });
                let given = of.and_then(|s| s.get(row)?.get(seen)).copied().unwrap_or_default();
                let opposite = (
                    (landing.rows as usize).saturating_sub(row + 1),
                    (landing.columns as usize).saturating_sub(seen + 1),
                );
                places.push(Place {
                    side,
                    row,
                    seen,
                    opposite,
                    face: page.face,
                    page: page.page,
                    head: page.head,
                    given,
                });
            }
        }
    }
    places
}

/// Marks numbers and heads, or heads alone.
pub(super) fn mark(course: &Course, first_page: u32, given: Option<&SheetCells>, numbers: bool) -> Option<Marked> {
    let landing = landing(course)?;
    let places = places(&landing, given);
    let followed = carried::error(course, &places, first_page, numbers);
    // One error is taken off once, and what follows from it is right: as much as a fold is worth.
    let mut off = FOLD;
    let mut items = Vec::new();
    for (at, place) in places.iter().enumerate() {
        let carried = followed.as_ref().and_then(|f| Some((f, f.cells.get(at)?)));
        let mut judged = |item: Item, right: bool, follows: bool| {
            let of = item.of;
            match carried.filter(|_| follows && !right) {
                _ if right => item.worth(of),
                None => item,
                Some((error, _)) if off > 0 => {
                    off = off.saturating_sub(of);
                    item.saying(error.says.clone())
                }
                Some(_) => item.worth(of).saying("What follows from that is not taken off again."),
            }
        };
        let name = format!(
            "side {}, row {}, column {}",
            if place.side == Side::A { "A" } else { "B" },
            place.row + 1,
            place.seen + 1
        );
        let due = place.page + first_page - 1;
        if numbers {
            let text = place.given.page.map_or_else(String::new, |p| p.to_string());
            let item = Item::new(format!("The number on {name}"), text, due.to_string(), NUMBER);
            let follows = carried.is_some_and(|(_, cell)| cell.page == place.given.page);
            items.push(judged(item, place.given.page == Some(due), follows));
        }
        let text = |head: Option<Direction>| head.map_or("", head_word);
        let item = Item::new(format!("The head on {name}"), text(place.given.head), text(Some(place.head)), HEAD);
        // Of a sheet with numbers the error was taken off there.
        let follows = place.given.head.is_some() && carried.is_some_and(|(_, cell)| cell.head == place.given.head);
        let as_the_numbers = numbers && follows && followed.as_ref().is_some_and(|f| f.by_numbers);
        items.push(judged(item, place.given.head == Some(place.head) || as_the_numbers, follows));
    }
    let mut marked = Marked::of_items(items);
    if given.is_some() && !places.iter().all(|p| p.is_right(first_page, numbers)) {
        let pages = read(&landing, &places, first_page, numbers);
        marked.departs = departs(&pages, first_page, numbers);
        let side = |side| printed(&landing, &places, side, first_page, numbers);
        let (side_a, side_b) = (side(Side::A), side(Side::B));
        marked.shown = Some(Shown { course: course.clone(), side_a, side_b, pages });
    }
    Some(marked)
}

/// The sheet as it would be printed from the answer. A head that was not given is printed as it should be.
fn printed(
    landing: &Landing,
    places: &[Place],
    side: Side,
    first_page: u32,
    numbers: bool,
) -> Vec<Vec<Option<PrintedPage>>> {
    let mut rows = vec![vec![None; landing.columns as usize]; landing.rows as usize];
    for place in places.iter().filter(|p| p.side == side) {
        let page = if numbers { place.given.page } else { Some(place.page + first_page - 1) };
        if let Some(slot) = rows.get_mut(place.row).and_then(|r| r.get_mut(place.seen)) {
            *slot = page.map(|page| PrintedPage { page, head: place.given.head.unwrap_or(place.head) });
        }
    }
    rows
}

/// What is read from front to back when that sheet is folded.
fn read(landing: &Landing, places: &[Place], first_page: u32, numbers: bool) -> Vec<FoundPage> {
    let at = |page: u32| places.iter().find(|p| p.page == page);
    let found = |place: &Place| {
        let page = if numbers { place.given.page } else { Some(place.page + first_page - 1) };
        // A head on the sheet against the head of the section there: up where they are the same.
        let head = place.given.head.map(|given| turned(place.head, given));
        FoundPage { page, head }
    };
    landing.pages.iter().filter_map(|p| at(p.page)).map(found).collect()
}

/// The way `given` points where `right` is up.
fn turned(right: Direction, given: Direction) -> Direction {
    let mut up = right;
    for head in [Direction::Up, Direction::Right, Direction::Down, Direction::Left] {
        if up == given {
            return head;
        }
        up = up.clockwise();
    }
    Direction::Up
}

fn departs(pages: &[FoundPage], first_page: u32, numbers: bool) -> Option<Departs> {
    let due = |k: usize| first_page + k as u32;
    let wrong = |(k, f): &(usize, &FoundPage)| {
        (numbers && f.page.is_some() && f.page != Some(due(*k))) || f.head.is_some_and(|h| h != Direction::Up)
    };
    // What was left blank is no departure: it was not answered.
    let (k, found) = pages.iter().enumerate().find(wrong)?;
    let (place, right) = (k as u32 + 1, due(k));
    let says = match found.page {
        Some(page) if page != right => {
            format!(
                "Fold your sheet as it is told: in place {place} from the front you read {page}, and it should be {right}."
            )
        }
        _ => format!(
            "Fold your sheet as it is told: page {right}, in place {place} from the front, does not stand with its head up."
        ),
    };
    Some(Departs { place, reads: found.page, right: Some(right), says })
}
