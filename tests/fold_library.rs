//! The courses at hand against the sixty handbook layouts (`tests/data`): each layout is there, up to how the sheet lies.

#![allow(clippy::panic, clippy::unwrap_used, reason = "what tests call may panic as tests may")]

#[path = "support/handbook.rs"]
mod handbook;

use backmark::fold::{Backing, Course, Direction, Side, Worked, backing, courses};
use handbook::cell;
use serde_json::Value;
use std::collections::BTreeMap;

/// A page of a section: which section in the order met, the rank of its page there, and its head.
type Cell = Option<(usize, u32, Direction)>;
/// Both sides as seen from them.
type Sides = [Vec<Vec<Cell>>; 2];
/// One side as printed: the work, the page and its head.
type Forme = Vec<Vec<Option<(String, u32, Direction)>>>;

fn layouts() -> Vec<Value> {
    let read = |text: &str| serde_json::from_str::<Value>(text).unwrap()["layouts"].as_array().unwrap().clone();
    let mut all = read(include_str!("data/handbooks.json"));
    all.extend(read(include_str!("data/handbooks_cut.json")));
    all
}

/// What a handbook prints. Pages of one work that are nested or folded together stand as one section; here a section is
/// known by the copies of its pages alone, so that only work and number count.
fn printed(layout: &Value) -> (Forme, Forme) {
    let forme = |rows: &Value| -> Forme {
        let rows = rows.as_array().unwrap();
        rows.iter()
            .map(|row| {
                // What a forme prints is its mirror image.
                let cells =
                    row.as_str().unwrap().split(' ').map(cell).map(|c| c.map(|(w, p, h)| (w, p, h.turned_over())));
                cells.rev().collect()
            })
            .collect()
    };
    let (first, second) = match layout.get("outer") {
        Some(outer) => (outer, &layout["inner"]),
        None => (&layout["first"], layout.get("second").unwrap_or(&layout["first"])),
    };
    let (a, mut b) = (forme(first), forme(second));
    if layout["turned"] == "head over foot" {
        b = b
            .into_iter()
            .rev()
            .map(|row| row.into_iter().rev().map(|c| c.map(|(w, p, h)| (w, p, h.opposite()))).collect())
            .collect();
    }
    (a, b)
}

/// The numbers that a course prints, each with a name for its section.
fn of_course(course: &Course) -> Sides {
    let worked = Worked::of(course).unwrap();
    let blank = vec![vec![None; course.columns as usize]; course.rows as usize];
    let mut sides = [blank.clone(), blank];
    for (copy, sections) in course.copies.iter().enumerate() {
        for section in 0..sections.len() {
            for page in worked.landing(copy, section).unwrap().pages {
                let side = usize::from(page.face.side == Side::B);
                let column = page.face.column_seen(course.columns) as usize;
                sides[side][page.face.row as usize][column] = Some((section, page.page, page.head));
            }
        }
    }
    sides
}

/// Numbers the sections in the order met, and ranks the pages in each.
fn named_alike(sides: Sides) -> Sides {
    let mut names: BTreeMap<usize, usize> = BTreeMap::new();
    sides.map(|side| {
        side.into_iter()
            .map(|row| {
                row.into_iter()
                    .map(|cell| {
                        let (section, page, head) = cell?;
                        let next = names.len();
                        Some((*names.entry(section).or_insert(next), page, head))
                    })
                    .collect()
            })
            .collect()
    })
}

fn quarter(side: &[Vec<Cell>], clockwise: bool) -> Vec<Vec<Cell>> {
    let (rows, columns) = (side.len(), side[0].len());
    let turn = |d: Direction| if clockwise { d.clockwise() } else { d.clockwise().opposite() };
    (0..columns)
        .map(|r| {
            (0..rows)
                .map(|c| {
                    let from = if clockwise { side[rows - 1 - c][r] } else { side[c][columns - 1 - r] };
                    from.map(|(s, p, h)| (s, p, turn(h)))
                })
                .collect()
        })
        .collect()
}

/// The same sheet however it lies: turned in its plane, and over.
fn lies(sides: &Sides) -> Vec<Sides> {
    let mut all = Vec::new();
    let mut now = sides.clone();
    for _ in 0..4 {
        all.push(now.clone());
        all.push([now[1].clone(), now[0].clone()]);
        now = [quarter(&now[0], true), quarter(&now[1], false)];
    }
    all
}

/// The sections of a handbook layout, told apart by a course that prints it: pages by rank in the section of the course.
fn matches(layout: &Value, course: &Course) -> bool {
    let (a, b) = printed(layout);
    let ours = of_course(course);
    let heads = layout["heads_shown"] == true;
    // A leaf without a fold may lie either way up: it is known by its leaf.
    let sections = course.copies.first().map_or(0, Vec::len);
    let worked = Worked::of(course).unwrap();
    let alone: Vec<bool> = (0..sections).map(|s| worked.landing(0, s).unwrap().pages.len() == 2).collect();
    lies(&ours).iter().any(|lie| {
        if lie[0].len() != a.len() || lie[0][0].len() != a[0].len() {
            return false;
        }
        // Section by section the same pages in the same order, from one work.
        let mut seen: BTreeMap<usize, BTreeMap<u32, (String, u32)>> = BTreeMap::new();
        for (side, shown) in lie.iter().zip([&a, &b]) {
            for (cell, printed) in side.iter().flatten().zip(shown.iter().flatten()) {
                match (cell, printed) {
                    (None, None) => {}
                    (Some((section, page, head)), Some((work, number, shown))) => {
                        // A leaf alone is held the way its heads point, either side in front.
                        if heads && head != shown && !layout.to_string().contains("\"folds\":[]") {
                            return false;
                        }
                        let number = &if alone[*section] { number.div_ceil(2) } else { *number };
                        let known = seen.entry(*section).or_default().insert(*page, (work.clone(), *number));
                        if known.is_some_and(|k| k != (work.clone(), *number)) {
                            return false;
                        }
                    }
                    _ => return false,
                }
            }
        }
        seen.values().all(|pages| {
            let pages: Vec<&(String, u32)> = pages.values().collect();
            pages.len() == 2 || pages.windows(2).all(|w| w[0].0 == w[1].0 && w[0].1 < w[1].1)
        })
    })
}

#[test]
fn every_handbook_layout_is_among_the_courses_at_hand() {
    let all = courses();
    let layouts = layouts();
    assert_eq!(layouts.len(), 60);
    let mut missing = Vec::new();
    for layout in &layouts {
        let found = all.iter().find(|n| matches(layout, &n.course));
        match found {
            Some(named) => println!("{}: {}", layout["id"], named.name),
            None => missing.push(layout["id"].clone()),
        }
    }
    assert!(missing.is_empty(), "{missing:?}");
}

#[test]
fn half_sheets_are_printed_from_one_forme_as_the_handbook_turns_them() {
    for layout in layouts().iter().filter(|l| l.get("first").is_some() && l.get("second").is_none()) {
        let named = courses().into_iter().find(|n| matches(layout, &n.course)).unwrap();
        let found = backing(&Worked::of(&named.course).unwrap());
        // Whichever way the sheet lies here, it is turned about the same edge of the paper.
        assert_ne!(found, Backing::Sheetwise, "{}: {}", layout["id"], named.name);
    }
    let turned = |name: &str| {
        let named = courses().into_iter().find(|n| n.name == name).unwrap();
        backing(&Worked::of(&named.course).unwrap())
    };
    assert_eq!(turned("Octavo, half-sheet"), Backing::WorkAndTurn);
    assert_eq!(turned("Sixteens, half-sheet"), Backing::WorkAndTumble);
    assert_eq!(turned("Octavo, half-sheet, tumbled"), Backing::WorkAndTumble);
    assert_eq!(turned("Sixteens, half-sheet, turned"), Backing::WorkAndTurn);
    assert_eq!(turned("Thirty-twos, half-sheet"), Backing::WorkAndTurn);
    assert_eq!(turned("Thirty-twos, half-sheet, tumbled"), Backing::WorkAndTumble);
    assert_eq!(turned("Sixteen, three folds"), Backing::Sheetwise);
    assert_eq!(turned("Two eights"), Backing::Sheetwise);
}

/// Names of sections are compared by order only.
#[test]
fn sections_are_named_in_the_order_met() {
    let course = courses().into_iter().find(|n| n.name == "Two eights").unwrap().course;
    let sides = named_alike(of_course(&course));
    assert_eq!(sides[0][0][0].map(|c| c.0), Some(0));
}
