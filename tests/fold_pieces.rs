//! Sheets folded and slit at random, against a plain model that piles single panels, written apart from the engine.
//!
//! The model knows every panel by itself: which face is up, how it is mirrored, and which of its edges a slit has parted. It
//! says the pages of every section, their heads, and the leaves that no crease holds.

#![allow(clippy::panic, clippy::unwrap_used, reason = "what tests call may panic as tests may")]

#[path = "support/requests.rs"]
mod requests;

use backmark::ask::answer;
use backmark::fold::{Course, Crease, Direction, End, Landing, Lands, Part, Parted, Reads, Side, Slit, Steps, Worked};
use requests::Dice;
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};

/// A panel by row and column of the sheet.
type Panel = (i32, i32);

/// A panel as it lies: itself, and whether it is mirrored left to right and top to bottom. Side A is up if it is
/// mirrored both ways or neither.
#[derive(Clone, Copy, Debug)]
struct Lying {
    panel: Panel,
    mirrored: (bool, bool),
}

/// What lies at each place (row and column), from the lowest up.
type Piles = BTreeMap<Panel, Vec<Lying>>;

/// A piece: its pile, the edge with its spine and that with its head.
struct Model {
    pile: Vec<Lying>,
    spine: Direction,
    head: Direction,
}

struct Maker {
    reads: Reads,
    pieces: Vec<Model>,
    /// Edges of the sheet that were slit, by the panels beside them.
    cut: BTreeSet<(Panel, Panel)>,
}

/// The mirror image of a place in a crease before line `at`.
const fn across((row, column): Panel, crease: Crease, at: i32) -> Panel {
    match crease {
        Crease::Vertical => (row, 2 * at - 1 - column),
        Crease::Horizontal => (2 * at - 1 - row, column),
    }
}

const fn along((row, column): Panel, crease: Crease) -> i32 {
    match crease {
        Crease::Vertical => column,
        Crease::Horizontal => row,
    }
}

impl Maker {
    fn go(&mut self, mut piles: Piles, steps: &Steps, mut spine: Option<Direction>) {
        for fold in &steps.folds {
            let low = piles.keys().map(|place| along(*place, fold.crease)).min().unwrap();
            let at = low + fold.after.cast_signed();
            let moves_low = matches!(fold.moves, Part::Left | Part::Top);
            let mut folded = Piles::new();
            let (moving, staying): (Vec<_>, Vec<_>) =
                piles.into_iter().partition(|(place, _)| (along(*place, fold.crease) < at) == moves_low);
            folded.extend(staying);
            for (place, mut pile) in moving {
                pile.reverse();
                for lying in &mut pile {
                    match fold.crease {
                        Crease::Vertical => lying.mirrored.0 ^= true,
                        Crease::Horizontal => lying.mirrored.1 ^= true,
                    }
                }
                let there = folded.entry(across(place, fold.crease, at)).or_default();
                match fold.lands {
                    Lands::Over => there.extend(pile),
                    Lands::Under => there.splice(0..0, pile).for_each(drop),
                }
            }
            piles = folded;
            spine = Some(match fold.moves {
                Part::Left => Direction::Left,
                Part::Right => Direction::Right,
                Part::Top => Direction::Up,
                Part::Bottom => Direction::Down,
            });
        }
        match &steps.end {
            End::Slit(slit) => {
                let Parted::Apart { first, second } = &slit.then else { panic!("nothing is laid together here") };
                let low = piles.keys().map(|place| along(*place, slit.crease)).min().unwrap();
                let at = low + slit.after.cast_signed();
                let (before, beyond): (Piles, Piles) =
                    piles.into_iter().partition(|(place, _)| along(*place, slit.crease) < at);
                let panels = |piles: &Piles| piles.values().flatten().map(|l| l.panel).collect::<BTreeSet<_>>();
                let others = panels(&beyond);
                for (row, column) in panels(&before) {
                    for beside in [(row, column - 1), (row, column + 1), (row - 1, column), (row + 1, column)] {
                        if others.contains(&beside) {
                            self.cut.insert(((row, column).min(beside), (row, column).max(beside)));
                        }
                    }
                }
                self.go(before, first, spine);
                self.go(beyond, second, spine);
            }
            End::Piece { head } => {
                let at_left = head.clockwise().opposite();
                let beside = if self.reads == Reads::LeftToRight { at_left } else { head.clockwise() };
                let mut all = piles.into_values();
                let pile = all.next().unwrap();
                assert!(all.next().is_none(), "a piece is one panel at the end");
                self.pieces.push(Model { pile, spine: spine.unwrap_or(beside), head: *head });
            }
        }
    }
}

/// A page of the model: its side, row and column as seen from there, its head, its piece, and whether its leaf is held.
type Page = (Side, i32, i32, Direction, usize, bool);

/// The leaves of a piece from front to back, each with its two pages.
fn leaves(maker: &Maker, piece: usize, [rows, columns]: [i32; 2]) -> Vec<[Page; 2]> {
    let Model { pile, spine, head } = &maker.pieces[piece];
    let at_left = *spine == head.clockwise().opposite();
    let front_up = at_left == (maker.reads == Reads::LeftToRight);
    let leaf = |lying: &Lying| {
        let (x, y) = lying.mirrored;
        let on_sheet = |d: Direction| match d {
            Direction::Left | Direction::Right if x => d.opposite(),
            Direction::Up | Direction::Down if y => d.opposite(),
            _ => d,
        };
        let (row, column) = lying.panel;
        let beside = match on_sheet(*spine) {
            Direction::Left => (row, column - 1),
            Direction::Right => (row, column + 1),
            Direction::Up => (row - 1, column),
            Direction::Down => (row + 1, column),
        };
        let there = (0..rows).contains(&beside.0) && (0..columns).contains(&beside.1);
        let held = there && !maker.cut.contains(&(lying.panel.min(beside), lying.panel.max(beside)));
        let page = |side: Side| match side {
            Side::A => (side, row, column, on_sheet(*head), piece, held),
            Side::B => {
                let seen = on_sheet(*head);
                let seen = if matches!(seen, Direction::Left | Direction::Right) { seen.opposite() } else { seen };
                (side, row, columns - 1 - column, seen, piece, held)
            }
        };
        // Read from the front: the face that looks to the reader first.
        let front = if (x == y) == front_up { Side::A } else { Side::B };
        [page(front), page(if front == Side::A { Side::B } else { Side::A })]
    };
    let all: Vec<[Page; 2]> = pile.iter().map(leaf).collect();
    if front_up { all.into_iter().rev().collect() } else { all }
}

fn nested(maker: &Maker, nest: &[usize], size: [i32; 2]) -> Vec<[Page; 2]> {
    nest.iter().rev().fold(Vec::new(), |inner, piece| {
        let mut outer = leaves(maker, *piece, size);
        let middle = outer.len() / 2;
        outer.splice(middle..middle, inner);
        outer
    })
}

/// Steps written in the request, as the engine has them; the head is always there or the usual one.
fn steps(list: &Value, last: Option<&str>) -> Steps {
    let mut last = last.map(str::to_owned);
    let mut folds = Vec::new();
    for step in list.as_array().unwrap() {
        if let Some(crease) = step["slit"].as_str() {
            let vertical = crease == "vertical";
            let [first, second] = if vertical { ["left", "right"] } else { ["top", "bottom"] };
            let then = Parted::Apart {
                first: steps(&step[first], last.as_deref()),
                second: steps(&step[second], last.as_deref()),
            };
            let crease = if vertical { Crease::Vertical } else { Crease::Horizontal };
            let after = step["after"].as_u64().unwrap() as u32;
            return Steps { folds, end: End::Slit(Box::new(Slit { crease, after, then })) };
        }
        if let Some(head) = step["head"].as_str() {
            let head = match head {
                "top" => Direction::Up,
                "right" => Direction::Right,
                "bottom" => Direction::Down,
                _ => Direction::Left,
            };
            return Steps::piece(folds, head);
        }
        last = step["crease"].as_str().map(str::to_owned);
        folds.push(serde_json::from_value(step.clone()).unwrap());
    }
    Steps::piece(folds, if last.as_deref() == Some("horizontal") { Direction::Right } else { Direction::Up })
}

/// A random request, and the same as a course.
fn case(number: u64) -> (Value, Course) {
    let mut dice = Dice::new(number);
    let (rows, columns) = (1 + dice.below(6), 2 + dice.below(7));
    let scheme = requests::folded(&mut dice, rows, columns);
    let request = requests::pieces(&mut dice, &scheme);
    let nest = |entry: &Value| match entry["inset"].as_array() {
        Some(nest) => nest.iter().map(|p| p.as_u64().unwrap() as usize).collect(),
        None => vec![entry.as_u64().unwrap() as usize],
    };
    let copies = vec![request["gather"].as_array().unwrap().iter().map(nest).collect()];
    let course = Course { rows, columns, steps: steps(&request["steps"], None), copies, reads: scheme.reads };
    (request, course)
}

fn model(course: &Course) -> Maker {
    let mut maker = Maker { reads: course.reads, pieces: Vec::new(), cut: BTreeSet::new() };
    let [rows, columns] = [course.rows.cast_signed(), course.columns.cast_signed()];
    let panels = (0..rows).flat_map(|row| (0..columns).map(move |column| (row, column)));
    let flat = panels.map(|panel| (panel, vec![Lying { panel, mirrored: (false, false) }])).collect();
    maker.go(flat, &course.steps, None);
    maker
}

const CASES: u64 = 3000;

#[test]
fn pages_heads_and_loose_leaves_are_those_of_the_plain_model() {
    let (mut loose_cases, mut nested_cases) = (0, 0);
    for number in 0..CASES {
        let (request, course) = case(number);
        let maker = model(&course);
        let size = [course.rows.cast_signed(), course.columns.cast_signed()];
        let expected: Vec<[Page; 2]> = course.copies[0].iter().flat_map(|nest| nested(&maker, nest, size)).collect();
        let said: Value = serde_json::from_str(&answer(&request.to_string())).unwrap();
        let pages = said["ok"]["pages"].as_array().unwrap_or_else(|| panic!("case {number}: {said} to {request}"));
        assert_eq!(pages.len(), 2 * expected.len(), "case {number}");
        for (page, (side, row, column, head, piece, _)) in pages.iter().zip(expected.iter().flatten()) {
            let found = (page["side"] == "A", &page["row"], &page["column"], &page["head"], &page["piece"]);
            let head = serde_json::to_value(head).unwrap();
            let (row, column, piece) = (Value::from(*row), Value::from(*column), Value::from(*piece));
            assert_eq!(found, (*side == Side::A, &row, &column, &head, &piece), "case {number}: {page} to {request}");
        }
        let loose: Vec<u64> = (1..).zip(&expected).filter(|(_, leaf)| !leaf[0].5).map(|(n, _)| n).collect();
        assert_eq!(said["ok"]["loose_leaves"], Value::from(loose.clone()), "case {number}: {request}");
        loose_cases += u32::from(!loose.is_empty());
        nested_cases += u32::from(course.copies[0].iter().any(|nest| nest.len() > 1));
    }
    assert!(loose_cases > 100 && nested_cases > 100, "{loose_cases} with loose leaves, {nested_cases} nested");
}

/// A piece as a sheet of its own, folded alone, has the faces and the heads that it has within the whole.
#[test]
fn a_piece_alone_lands_as_within_the_whole() {
    let (mut late, mut checked) = (0, 0);
    for number in 0..CASES {
        let (request, course) = case(number);
        let worked = Worked::of(&course).unwrap();
        for (i, piece) in worked.pieces.iter().enumerate() {
            // A leaf without a crease is no scheme.
            let Some(own) = worked.own_sheet(i).filter(|own| !own.scheme.folds.is_empty()) else { continue };
            let Ok(alone) = Landing::of(&own.scheme) else { panic!("case {number}, piece {i}: {own:?} of {request}") };
            checked += 1;
            late += u32::from(own.before > 0);
            if own.before == 0 && own.turned == (false, false) {
                // Slit while flat, it is folded as if it had been a sheet by itself from the first.
                assert_eq!(own.scheme.folds, course.steps.pieces()[i].folds, "case {number}, piece {i}: {request}");
            }
            assert_eq!(alone.pages.len(), piece.section.faces.len(), "case {number}, piece {i}: {request}");
            for (page, found) in alone.pages.iter().zip(&piece.section.faces) {
                let (row, column) =
                    (page.face.row.cast_signed() + own.area.y0, page.face.column.cast_signed() + own.area.x0);
                let within =
                    (found.face.side, found.face.row.cast_signed(), found.face.column.cast_signed(), found.head);
                assert_eq!(
                    (page.face.side, row, column, page.head),
                    within,
                    "case {number}, piece {i}: {own:?} of {request}"
                );
            }
        }
    }
    assert!(checked > 1000 && late > 100, "{checked} pieces, {late} of them folded before the slit");
}
