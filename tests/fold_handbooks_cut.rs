//! The engine against handbook layouts whose sheet is cut: half-sheets, off-cuts and insets, several sections of one sheet
//! (`tests/data/handbooks_cut.json`, and the README beside it for origin and notation).
//!
//! A layout gives the formes as on the stone, and the pieces, with their folds, that an independent search found. The
//! pieces become a course, and page numbers and heads on both sides must be those of the handbook, on every piece.

#![allow(clippy::panic, clippy::unwrap_used, reason = "what tests call may panic as tests may")]

#[path = "support/handbook.rs"]
mod handbook;

use backmark::fold::{
    Backing, Course, Crease, Direction, End, Fold, Lands, Nest, Part, Parted, Reads, Rect, Side, Slit, Steps, Worked,
    backing,
};
use serde::Deserialize;
use serde_json::{Value, json};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Handbooks {
    layouts: Vec<Layout>,
}

#[derive(Clone, Deserialize)]
#[serde(deny_unknown_fields)]
struct Layout {
    id: String,
    handbook: String,
    edition: String,
    page: String,
    #[allow(dead_code)]
    ebook: String,
    title: String,
    #[allow(dead_code)]
    drawn: String,
    heads_shown: bool,
    turned: String,
    first: Vec<String>,
    /// The forme of the second side; none where the first one prints both.
    second: Option<Vec<String>>,
    #[allow(dead_code)]
    cut: Option<String>,
    pieces: Vec<Found>,
}

/// A piece as the independent search found it: rows and columns from 1, in the printed view of the first forme.
#[derive(Clone, Deserialize)]
#[serde(deny_unknown_fields)]
struct Found {
    work: String,
    rows: [i32; 2],
    columns: [i32; 2],
    first_page: u32,
    folds: Vec<String>,
    page_1: String,
    inset_in: Option<[u32; 2]>,
}

impl Found {
    fn area(&self) -> Rect {
        Rect { x0: self.columns[0] - 1, y0: self.rows[0] - 1, x1: self.columns[1], y1: self.rows[1] }
    }

    fn folds(&self) -> Vec<Fold> {
        let fold = |words: &String| {
            let words: Vec<&str> = words.split([' ', ',']).filter(|w| !w.is_empty()).collect();
            let [crease, "after", after, "of", _, kind] = words.as_slice() else { panic!("{words:?}") };
            let moves = if *crease == "vertical" { Part::Right } else { Part::Bottom };
            let lands = if *kind == "valley" { Lands::Over } else { Lands::Under };
            Fold::new(after.parse().unwrap(), moves, lands)
        };
        self.folds.iter().map(fold).collect()
    }

    /// The packet lies left of or above its spine; with page 1 on top the heads point to the bottom, or to the left.
    fn head(&self) -> Direction {
        let on_top = self.page_1 == "on top";
        match self.folds().last().map(|f| f.crease) {
            None => Direction::Up,
            Some(Crease::Vertical) => {
                if on_top {
                    Direction::Down
                } else {
                    Direction::Up
                }
            }
            Some(Crease::Horizontal) => {
                if on_top {
                    Direction::Left
                } else {
                    Direction::Right
                }
            }
        }
    }
}

fn layouts() -> Vec<Layout> {
    let handbooks: Handbooks = serde_json::from_str(include_str!("data/handbooks_cut.json")).unwrap();
    handbooks.layouts
}

/// A page as it is printed: work and number, and the way its head points.
type Cell = Option<(String, Direction)>;

fn forme(rows: &[String]) -> Vec<Vec<Cell>> {
    let cell = |word: &str| {
        let (work, page, head) = handbook::cell(word)?;
        Some((if work.is_empty() { format!("A{page}") } else { format!("{work}{page}") }, head))
    };
    rows.iter().map(|row| row.split(' ').map(cell).collect()).collect()
}

/// What a forme prints: left and right exchanged.
fn printed(forme: &[Vec<Cell>]) -> Vec<Vec<Cell>> {
    let mirrored = |cell: &Cell| cell.clone().map(|(name, head)| (name, head.turned_over()));
    forme.iter().map(|row| row.iter().rev().map(mirrored).collect()).collect()
}

fn turned_half_round(side: &[Vec<Cell>]) -> Vec<Vec<Cell>> {
    let turned = |cell: &Cell| cell.clone().map(|(name, head)| (name, head.opposite()));
    side.iter().rev().map(|row| row.iter().rev().map(turned).collect()).collect()
}

/// Slits a rectangle until each piece lies alone; `order` collects the pieces as they are numbered.
fn slit(area: Rect, pieces: &[Found], order: &mut Vec<usize>) -> Steps {
    let inside = |p: &Found| {
        let r = p.area();
        area.x0 <= r.x0 && r.x1 <= area.x1 && area.y0 <= r.y0 && r.y1 <= area.y1
    };
    let here: Vec<usize> = (0..pieces.len()).filter(|i| inside(&pieces[*i])).collect();
    match here.as_slice() {
        // A blank part of the sheet is waste.
        [] => {
            order.push(usize::MAX);
            return Steps::piece(Vec::new(), Direction::Up);
        }
        [one] if pieces[*one].area() == area => {
            order.push(*one);
            return Steps::piece(pieces[*one].folds(), pieces[*one].head());
        }
        _ => {}
    }
    let clear = |at: i32, ends: &dyn Fn(&Rect) -> (i32, i32)| {
        here.iter().all(|i| {
            let (low, high) = ends(&pieces[*i].area());
            high <= at || at <= low
        })
    };
    let upright = (area.x0 + 1..area.x1).find(|x| clear(*x, &|r| (r.x0, r.x1)));
    let level = (area.y0 + 1..area.y1).find(|y| clear(*y, &|r| (r.y0, r.y1)));
    let (crease, at, low, high) = match (upright, level) {
        (Some(x), _) => (Crease::Vertical, x - area.x0, Rect { x1: x, ..area }, Rect { x0: x, ..area }),
        (None, Some(y)) => (Crease::Horizontal, y - area.y0, Rect { y1: y, ..area }, Rect { y0: y, ..area }),
        (None, None) => panic!("no cut goes through"),
    };
    let then = Parted::Apart { first: slit(low, pieces, order), second: slit(high, pieces, order) };
    let end = End::Slit(Box::new(Slit { crease, after: at.unsigned_abs(), then }));
    Steps { folds: Vec::new(), end }
}

/// The course of a layout, and for each section of each copy the number of its work.
fn course(layout: &Layout) -> (Course, Vec<Vec<String>>) {
    let (rows, columns) = (layout.first.len() as u32, layout.first[0].split(' ').count() as u32);
    let mut order = Vec::new();
    let whole = Rect { x0: 0, y0: 0, x1: columns.cast_signed(), y1: rows.cast_signed() };
    let steps = slit(whole, &layout.pieces, &mut order);
    let mut copies: Vec<Vec<Nest>> = Vec::new();
    let mut works: Vec<Vec<String>> = Vec::new();
    // Outermost pieces first; what lies inside goes to the section that its span names, of its own copy.
    let mut numbered: Vec<(usize, &Found)> =
        order.iter().enumerate().filter_map(|(n, i)| Some((n, layout.pieces.get(*i)?))).collect();
    numbered.sort_by_key(|(_, p)| (p.work.clone(), p.first_page, p.inset_in.is_some()));
    let outer = |p: &Found| p.inset_in.is_none_or(|span| span[0] == p.first_page);
    let mut placed: Vec<Vec<(String, u32)>> = Vec::new();
    for (piece, found) in &numbered {
        let home = found.inset_in.map_or(found.first_page, |span| span[0]);
        let taken = |copy: &Vec<(String, u32)>| copy.contains(&(found.work.clone(), found.first_page));
        let copy = placed.iter().position(|c| !taken(c)).unwrap_or(placed.len());
        if copy == placed.len() {
            placed.push(Vec::new());
            copies.push(Vec::new());
            works.push(Vec::new());
        }
        placed[copy].push((found.work.clone(), found.first_page));
        let same = works[copy].iter().position(|w| *w == format!("{} {home}", found.work));
        match same {
            Some(section) if !outer(found) || found.inset_in.is_some() => copies[copy][section].push(*piece),
            _ => {
                copies[copy].push(vec![*piece]);
                works[copy].push(format!("{} {home}", found.work));
            }
        }
    }
    (Course { rows, columns, steps, copies, reads: Reads::LeftToRight }, works)
}

/// What a side shows, as seen from it; pages by their rank in their section.
fn sides(layout: &Layout) -> [Vec<Vec<Cell>>; 2] {
    let first = forme(&layout.first);
    let second = layout.second.as_ref().map_or_else(|| first.clone(), |rows| forme(rows));
    let second = match layout.turned.as_str() {
        "left to right" => printed(&second),
        "head over foot" => turned_half_round(&printed(&second)),
        other => panic!("{other}"),
    };
    [printed(&first), second]
}

fn check(layout: &Layout) {
    let says = format!("{}: {} ({}, {}, p. {})", layout.id, layout.title, layout.handbook, layout.edition, layout.page);
    let (course, _) = course(layout);
    let worked = Worked::of(&course).unwrap_or_else(|why| panic!("{says}: {} {why}", why.at));
    let [side_a, side_b] = sides(layout);
    let mut seen = 0;
    for (copy, sections) in course.copies.iter().enumerate() {
        for (i, nest) in sections.iter().enumerate() {
            let landing = worked.landing(copy, i).unwrap();
            // What is printed there, page after page.
            let found: Vec<(String, Direction, Direction)> = landing
                .pages
                .iter()
                .filter_map(|p| {
                    let side = if p.face.side == Side::A { &side_a } else { &side_b };
                    let cell = &side[p.face.row as usize][p.face.column_seen(course.columns) as usize];
                    let (name, head) = cell.clone()?;
                    Some((name, head, p.head))
                })
                .collect();
            seen += found.len();
            let number = |name: &str| name[1..].parse::<u32>().unwrap();
            let mut numbers: Vec<u32> = found.iter().map(|(name, ..)| number(name)).collect();
            // A leaf without a crease may lie either way up: nothing in the sheet tells its front.
            if nest.len() == 1 && worked.pieces[nest[0]].section.held.len() == 1 && numbers[0] > numbers[1] {
                numbers.reverse();
            }
            assert!(numbers.windows(2).all(|w| w[0] < w[1]), "{says}: copy {copy}, section {i} reads {numbers:?}");
            let work = &found[0].0[..1];
            assert!(found.iter().all(|(name, ..)| name.starts_with(work)), "{says}: one work to a section");
            if layout.heads_shown {
                // A leaf alone is held the way its heads point.
                let alone = landing.pages.len() == 2;
                assert!(alone || found.iter().all(|(_, shown, head)| shown == head), "{says}: {found:?}");
            }
        }
    }
    let printed = [&side_a, &side_b].into_iter().flatten().flatten().flatten().count();
    assert_eq!(seen, printed, "{says}: every printed page is in a section");
}

#[test]
fn every_layout_that_is_cut_comes_out_as_the_handbook_prints_it() {
    let layouts = layouts();
    assert_eq!(layouts.len(), 38);
    layouts.iter().for_each(check);
}

/// Where one forme prints both sides, the engine finds that, and the same way to turn the sheet.
#[test]
fn half_sheets_are_turned_as_the_handbook_turns_them() {
    let mut ways = [0, 0];
    for layout in layouts().iter().filter(|l| l.second.is_none()) {
        let found = backing(&Worked::of(&course(layout).0).unwrap());
        let over_foot = layout.turned == "head over foot";
        ways[usize::from(over_foot)] += 1;
        let expected = if over_foot { Backing::WorkAndTumble } else { Backing::WorkAndTurn };
        assert_eq!(found, expected, "{}: {}", layout.id, layout.title);
    }
    assert!(ways.iter().all(|n| *n > 1), "{ways:?}");
}

/// The reader of the layouts is no yes-man: a page or a head changed in the data is seen.
#[test]
fn a_changed_page_or_head_is_seen() {
    for (id, from, to) in [
        ("mk-twelves", "20v", "21v"),
        ("mk-octavo-half", "4v 5v", "5v 4v"),
        ("ck-duodecimo", "horizontal after 1 of 2, valley", "horizontal after 1 of 2, mountain"),
        ("mk-octavo-half", "6v", "6"),
    ] {
        let mut layout = layouts().into_iter().find(|l| l.id == id).unwrap();
        let before: Vec<String> =
            layout.first.iter().chain(layout.pieces.iter().flat_map(|p| &p.folds)).cloned().collect();
        let change = |words: &mut String| *words = words.replace(from, to);
        layout.first.iter_mut().for_each(change);
        layout.pieces.iter_mut().flat_map(|p| &mut p.folds).for_each(change);
        let after: Vec<String> =
            layout.first.iter().chain(layout.pieces.iter().flat_map(|p| &p.folds)).cloned().collect();
        assert_ne!(before, after, "{id}: {from} is there to be changed");
        assert!(std::panic::catch_unwind(move || check(&layout)).is_err(), "{id}: {from} to {to}");
    }
}

fn steps_json(steps: &Steps) -> Value {
    let edge = |d: Direction| match d {
        Direction::Up => "top",
        Direction::Right => "right",
        Direction::Down => "bottom",
        Direction::Left => "left",
    };
    let mut all: Vec<Value> = steps.folds.iter().map(|f| serde_json::to_value(f).unwrap()).collect();
    match &steps.end {
        End::Piece { head } => all.push(json!({"head": edge(*head)})),
        End::Slit(slit) => {
            let Parted::Apart { first, second } = &slit.then else { panic!("nothing is laid together here") };
            let [a, b] = if slit.crease == Crease::Vertical { ["left", "right"] } else { ["top", "bottom"] };
            all.push(json!({"slit": slit.crease, "after": slit.after, a: steps_json(first), b: steps_json(second)}));
        }
    }
    Value::Array(all)
}

/// The request `pieces` says of each copy what the engine says.
#[test]
fn the_protocol_numbers_the_same_pieces() {
    for layout in layouts() {
        let (course, _) = course(&layout);
        let worked = Worked::of(&course).unwrap();
        for (copy, sections) in course.copies.iter().enumerate() {
            let gather: Vec<Value> = sections
                .iter()
                .map(|nest| if let [one] = nest.as_slice() { json!(one) } else { json!({"inset": nest}) })
                .collect();
            let request = json!({"ask": "pieces", "rows": course.rows, "columns": course.columns,
                "steps": steps_json(&course.steps), "gather": gather, "reads": "left_to_right"});
            let answer: Value = serde_json::from_str(&backmark::ask::answer(&request.to_string())).unwrap();
            let pages = answer["ok"]["pages"].as_array().unwrap_or_else(|| panic!("{}: {answer}", layout.id));
            let mut at = 0;
            for i in 0..sections.len() {
                for page in &worked.landing(copy, i).unwrap().pages {
                    let told = &pages[at];
                    assert_eq!(told["page"], at + 1);
                    assert_eq!(told["row"], page.face.row);
                    assert_eq!(told["column"], page.face.column_seen(course.columns));
                    assert_eq!(told["side"], if page.face.side == Side::A { "A" } else { "B" });
                    assert_eq!(told["leaf"], at / 2 + 1);
                    at += 1;
                }
            }
            assert_eq!(pages.len(), at, "{}", layout.id);
        }
    }
}
