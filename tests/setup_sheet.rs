//! The folder's set-up sheet: carried out as a machine would, and told for a sixteen and for a slit sheet.

#![allow(clippy::panic, clippy::unwrap_used, clippy::indexing_slicing, reason = "a test ends at the first surprise")]

use backmark::fold::{
    Course, Crease, Direction, End, Fold, Lands, Measure, Part, Parted, Reads, Scheme, Side, Slit, Steps, Worked,
    library, sixteen,
};
use backmark::paper::{Edge, Length, Press};
use backmark::setup::{Inputs, SetUp, set_up};

const EDGES: [Edge; 4] = [Edge::Left, Edge::Right, Edge::Top, Edge::Bottom];

fn told(course: &Course, measure: &Measure, gripper: Edge, side_lay: Edge) -> SetUp {
    let press = Press { gripper, side_lay, ..Press::default() };
    set_up(&Inputs { course, measure, press, side_up: Side::A, sheets: None }).unwrap()
}

const fn part(edge: Edge) -> Part {
    match edge {
        Edge::Left => Part::Left,
        Edge::Right => Part::Right,
        Edge::Top => Part::Top,
        Edge::Bottom => Part::Bottom,
    }
}

/// The sheet as a machine folds it: the part that leads is always the one that moves, up to the stop.
fn by_machine(scheme: &Scheme, made: &SetUp, panel: Length, gripper: Edge, side_lay: Edge, head: Direction) -> Scheme {
    let along = if gripper.is_upright() { Crease::Vertical } else { Crease::Horizontal };
    let folds = made.folds.iter().zip(&scheme.folds).map(|(fold, drawn)| {
        let lead = if drawn.crease == along { gripper } else { side_lay };
        let length = if drawn.crease == Crease::Vertical { fold.before.0 } else { fold.before.1 };
        let from = if matches!(lead, Edge::Left | Edge::Top) { fold.stop } else { length - fold.stop };
        Fold::new((from.nm() / panel.nm()) as u32, part(lead), fold.lands)
    });
    Scheme { folds: folds.collect(), head, ..scheme.clone() }
}

/// Every sheet at hand, in all eight ways to lay it: the plates and stops make the same section.
#[test]
fn a_machine_that_does_as_told_makes_the_same_section() {
    let panel = Length::from_whole_mm(100);
    for named in library() {
        let course = Course::of_scheme(&named.scheme);
        let (rows, columns) = (course.rows, course.columns);
        let measure = Measure::equal(rows, columns, panel.times(i64::from(columns)), panel.times(i64::from(rows)));
        let wanted = Worked::of(&course).unwrap().landing(0, 0).unwrap();
        for gripper in EDGES {
            for side_lay in EDGES.into_iter().filter(|e| e.is_upright() != gripper.is_upright()) {
                let made = told(&course, &measure, gripper, side_lay);
                let same = [Direction::Up, Direction::Down].into_iter().any(|head| {
                    let scheme = by_machine(&named.scheme, &made, panel, gripper, side_lay, head);
                    let worked = Worked::of(&Course::of_scheme(&scheme));
                    worked.ok().and_then(|w| w.landing(0, 0)).is_some_and(|l| l == wanted)
                });
                assert!(same, "{}: {gripper:?} leads, {side_lay:?} at the guide", named.name);
                for fold in &made.folds {
                    // Odd plates lie above the rollers (from memory).
                    assert_eq!(fold.plate % 2 == 1, fold.lands == Lands::Over, "{}", named.name);
                }
            }
        }
    }
}

/// Worked out with a sheet in the hand: 600 by 400 mm, the left edge leads.
#[test]
fn a_sixteen_is_told_with_plates_and_stops() {
    let course = Course::of_scheme(&sixteen().scheme);
    let measure = Measure::equal(2, 4, Length::from_whole_mm(600), Length::from_whole_mm(400));
    let made = told(&course, &measure, Edge::Left, Edge::Bottom);
    let folds: Vec<_> =
        made.folds.iter().map(|f| (f.unit, f.plate, f.stop.mm(), f.after.0.mm(), f.after.1.mm())).collect();
    assert_eq!(folds, [(1, 1, 300.0, 300.0, 400.0), (2, 2, 200.0, 300.0, 200.0), (3, 1, 150.0, 150.0, 200.0)]);
    assert!(made.slits.is_empty() && made.pieces.is_empty());
}

/// Two eights side by side, slit flat.
fn slit_sheet() -> Course {
    let piece = || {
        Steps::piece(
            vec![Fold::new(1, Part::Bottom, Lands::Over), Fold::new(1, Part::Right, Lands::Over)],
            Direction::Up,
        )
    };
    let then = Parted::Apart { first: piece(), second: piece() };
    let end = End::Slit(Box::new(Slit { crease: Crease::Vertical, after: 2, then }));
    let copies = vec![vec![vec![0], vec![1]]];
    Course { rows: 2, columns: 4, steps: Steps { folds: Vec::new(), end }, copies, reads: Reads::LeftToRight }
}

#[test]
fn a_slit_sheet_has_its_slit_and_each_piece_its_own_stops() {
    let course = slit_sheet();
    let even = Measure::equal(2, 4, Length::from_whole_mm(600), Length::from_whole_mm(400));
    let made = told(&course, &even, Edge::Left, Edge::Bottom);
    assert!(made.folds.is_empty());
    assert_eq!(made.slits, [(Crease::Vertical, Length::from_whole_mm(300))]);
    assert_eq!(made.pieces.iter().map(|p| p.0.clone()).collect::<Vec<_>>(), [vec![1, 2]]);
    // The second piece is narrower: its stop is another one, and so is its list.
    let mm = |all: [i64; 4]| all.map(Length::from_whole_mm).to_vec();
    let uneven = Measure { columns: mm([160, 160, 140, 140]), rows: even.rows };
    let made = told(&course, &uneven, Edge::Left, Edge::Bottom);
    assert_eq!(made.slits, [(Crease::Vertical, Length::from_whole_mm(320))]);
    let stops = made.pieces.iter().map(|(n, folds)| (n.clone(), folds.iter().map(|f| f.stop.mm()).collect::<Vec<_>>()));
    assert_eq!(stops.collect::<Vec<_>>(), [(vec![1], vec![200.0, 160.0]), (vec![2], vec![200.0, 140.0])]);
}
