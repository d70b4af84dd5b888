//! Laws of the trimmer and of creep, for sheets folded and slit in any way, with panels of any size.

#![allow(clippy::unwrap_used, reason = "what tests call may panic as tests may")]

use backmark::finish::{CreepModel, Edge, Leaves, creep, margins, trimmed};
use backmark::fold::{
    Course, Crease, Direction, End, Fold, Lands, Measure, Nest, Part, Parted, Reads, Slit, Steps, Worked, library,
};
use backmark::paper::{Length, Trims};
use proptest::prelude::*;
use std::collections::BTreeSet;

/// Chooses by numbers that come again from the start.
struct Choice<'a> {
    numbers: std::iter::Cycle<std::slice::Iter<'a, u32>>,
}

impl Choice<'_> {
    fn of(&mut self, n: u32) -> u32 {
        self.numbers.next().unwrap() % n
    }
}

/// Folds and slits a packet of so many rows and columns down to a panel.
fn steps(rows: u32, columns: u32, last: Option<Crease>, slits: u32, laid: bool, choice: &mut Choice) -> Steps {
    let (mut rows, mut columns, mut last) = (rows, columns, last);
    let mut folds = Vec::new();
    while rows * columns > 1 {
        let vertical = rows == 1 || (columns > 1 && choice.of(2) == 0);
        let crease = if vertical { Crease::Vertical } else { Crease::Horizontal };
        let size = if vertical { columns } else { rows };
        let after = match choice.of(3) {
            0 => (size / 2).max(1),
            1 => 1,
            _ => 1 + choice.of(size - 1),
        };
        let parts = if vertical { [Part::Left, Part::Right] } else { [Part::Top, Part::Bottom] };
        let part = parts[choice.of(2) as usize];
        let lands = if choice.of(2) == 0 { Lands::Over } else { Lands::Under };
        if slits > 0 && choice.of(3) == 0 {
            let part_of = |size: u32, choice: &mut Choice| {
                let (r, c) = if vertical { (rows, size) } else { (size, columns) };
                steps(r, c, last, slits - 1, laid, choice)
            };
            let then = if laid && choice.of(2) == 0 {
                let then = part_of(after.max(size - after), choice);
                Parted::Laid { moves: part, lands, then }
            } else {
                Parted::Apart { first: part_of(after, choice), second: part_of(size - after, choice) }
            };
            return Steps { folds, end: End::Slit(Box::new(Slit { crease, after, then })) };
        }
        folds.push(Fold::new(after, part, lands));
        let left = after.max(size - after);
        if vertical {
            columns = left;
        } else {
            rows = left;
        }
        last = Some(crease);
    }
    Steps::piece(folds, if last == Some(Crease::Horizontal) { Direction::Left } else { Direction::Up })
}

/// A course of one copy. Every second piece is laid into the one before, where that has a middle.
fn course(rows: u32, columns: u32, numbers: &[u32], laid: bool) -> Course {
    let mut choice = Choice { numbers: numbers.iter().cycle() };
    let steps = steps(rows, columns, None, 3, laid, &mut choice);
    let pieces = steps.pieces().len();
    let reads = if choice.of(2) == 0 { Reads::LeftToRight } else { Reads::RightToLeft };
    let alone: Vec<Nest> = (0..pieces).map(|p| vec![p]).collect();
    let mut course = Course { rows, columns, steps, copies: vec![alone.clone()], reads };
    let worked = Worked::of(&course).unwrap();
    let mut nests: Vec<Nest> = Vec::new();
    for nest in alone {
        match nests.last_mut() {
            Some(outer) if outer.len() == 1 && worked.pieces[outer[0]].section.held.len().is_multiple_of(2) => {
                outer.extend(nest)
            }
            _ => nests.push(nest),
        }
    }
    course.copies = vec![nests];
    course
}

prop_compose! {
    fn a_course(laid: bool)(
        rows in 1..6_u32,
        columns in 2..9_u32,
        numbers in proptest::collection::vec(any::<u32>(), 1..40),
    ) -> Course {
        course(rows, columns, &numbers, laid)
    }
}

/// Panels of 95 to 105 mm, or all of 100.
fn measure(course: &Course, uneven: bool, numbers: &[u8]) -> Measure {
    let mut numbers = numbers.iter().cycle();
    let mut sizes = |n: u32| -> Vec<Length> {
        let size = |_| 100 + if uneven { i64::from(numbers.next().unwrap() % 11) - 5 } else { 0 };
        (0..n).map(size).map(Length::from_whole_mm).collect()
    };
    Measure { columns: sizes(course.columns), rows: sizes(course.rows) }
}

fn trims(um: [i64; 3]) -> Trims {
    let [head, foot, fore_edge] = um.map(Length::from_um);
    Trims { head, foot, fore_edge, bleed: Length::ZERO }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn every_leaf_is_told_once_where_it_landed(
        course in a_course(true), uneven in any::<bool>(), numbers in proptest::collection::vec(any::<u8>(), 1..20),
    ) {
        let worked = Worked::of(&course).unwrap();
        let measure = measure(&course, uneven, &numbers);
        let mut panels = BTreeSet::new();
        for (i, nest) in course.copies[0].iter().enumerate() {
            let leaves = Leaves::of(&worked, nest, &measure).unwrap();
            let landing = worked.landing(0, i).unwrap();
            prop_assert_eq!(2 * leaves.leaves.len(), landing.pages.len());
            for (number, leaf) in (1..).zip(&leaves.leaves) {
                prop_assert_eq!(leaf.number, number);
                let face = landing.page(2 * number - 1).unwrap().face;
                prop_assert_eq!((leaf.row, leaf.column), (face.row, face.column));
                prop_assert!(panels.insert((leaf.row, leaf.column)));
                // The grid is folded as it is, so a leaf is as large as its panel.
                let panel = [measure.columns[leaf.column as usize], measure.rows[leaf.row as usize]];
                let mut sizes = [leaf.width(), leaf.height()];
                if landing.page(2 * number - 1).unwrap().head.is_sideways() {
                    sizes.reverse();
                }
                prop_assert_eq!(sizes, panel);
            }
        }
        prop_assert_eq!(panels.len() as u32, course.rows * course.columns);
    }

    #[test]
    fn loose_leaves_are_those_of_the_landing(course in a_course(true)) {
        let worked = Worked::of(&course).unwrap();
        let measure = measure(&course, false, &[0]);
        for (i, nest) in course.copies[0].iter().enumerate() {
            let leaves = Leaves::of(&worked, nest, &measure).unwrap();
            prop_assert_eq!(leaves.loose(), worked.landing(0, i).unwrap().loose_leaves);
        }
    }

    #[test]
    fn creases_within_a_piece_are_bolts_or_spine(course in a_course(false)) {
        let worked = Worked::of(&course).unwrap();
        let measure = measure(&course, false, &[0]);
        for (i, nest) in course.copies[0].iter().enumerate() {
            let leaves = Leaves::of(&worked, nest, &measure).unwrap();
            prop_assert_eq!(leaves.loose(), worked.landing(0, i).unwrap().loose_leaves);
            let mut creases = 0;
            for piece in nest {
                let own: BTreeSet<(i32, i32)> =
                    worked.pieces[*piece].packet.layers.iter().flat_map(|l| l.area.cells()).collect();
                creases += own.iter().filter(|(x, y)| own.contains(&(x + 1, *y))).count();
                creases += own.iter().filter(|(x, y)| own.contains(&(*x, y + 1))).count();
            }
            let held = leaves.leaves.len() - leaves.loose().len();
            prop_assert_eq!(held % 2, 0);
            prop_assert_eq!(creases, leaves.bolts.len() + held / 2);
            // Each leaf hangs on one other at an edge at the most, and that one on it.
            for edge in Edge::ALL {
                let mut seen = BTreeSet::new();
                for bolt in leaves.bolts.iter().filter(|b| b.edge == edge) {
                    prop_assert!(seen.insert(bolt.leaves.0) && seen.insert(bolt.leaves.1));
                }
            }
            for leaf in leaves.leaves.iter().filter(|l| l.across_spine.is_some()) {
                let across = leaf.across_spine.unwrap();
                prop_assert_eq!(leaves.leaves[across as usize - 1].across_spine, Some(leaf.number));
            }
        }
    }

    #[test]
    fn knives_open_some_bolts_and_leave_the_others(
        course in a_course(true),
        uneven in any::<bool>(),
        numbers in proptest::collection::vec(any::<u8>(), 1..20),
        less in [0..6_000_i64, 0..6_000, 0..6_000],
        more in [0..6_000_i64, 0..6_000, 0..6_000],
        um in 0..400_i64,
    ) {
        let worked = Worked::of(&course).unwrap();
        let measure = measure(&course, uneven, &numbers);
        let caliper = Length::from_um(um);
        for nest in &course.copies[0] {
            let leaves = Leaves::of(&worked, nest, &measure).unwrap();
            let opened = |um: [i64; 3]| -> BTreeSet<(Edge, (u32, u32))> {
                let cut = trimmed(&leaves, &trims(um), caliper);
                let at = |edge| cut.opened(edge).map(|b| (b.bolt.edge, b.bolt.leaves)).collect::<Vec<_>>();
                let opened: Vec<_> = Edge::ALL.into_iter().flat_map(at).collect();
                let closed: Vec<_> = Edge::ALL.into_iter().flat_map(|e| cut.closed(e).map(|b| (e, b.bolt.leaves)).collect::<Vec<_>>()).collect();
                let all: BTreeSet<_> = opened.iter().chain(&closed).copied().collect();
                assert_eq!(all.len(), opened.len() + closed.len(), "none is both");
                assert_eq!(all, leaves.bolts.iter().map(|b| (b.edge, b.leaves)).collect());
                opened.into_iter().collect()
            };
            prop_assert!(opened([0; 3]).is_empty());
            let larger: Vec<i64> = less.iter().zip(&more).map(|(a, b)| a + b).collect();
            prop_assert!(opened(less).is_subset(&opened([larger[0], larger[1], larger[2]])));
            // A knife that goes in far beyond all differences opens whatever is there.
            prop_assert_eq!(opened([60_000; 3]).len(), leaves.bolts.len());
        }
    }

    #[test]
    fn creep_grows_inwards_and_takes_from_the_margin(course in a_course(true), um in 1..400_i64) {
        let worked = Worked::of(&course).unwrap();
        let measure = measure(&course, false, &[0]);
        let caliper = Length::from_um(um);
        for nest in &course.copies[0] {
            let leaves = Leaves::of(&worked, nest, &measure).unwrap();
            let all = creep(&leaves, caliper);
            prop_assert_eq!(all.len(), leaves.leaves.len());
            prop_assert_eq!(all[0].flat, Length::ZERO);
            prop_assert_eq!(all.last().unwrap().flat, Length::ZERO);
            for (leaf, own) in leaves.leaves.iter().zip(&all) {
                let Some(across) = leaf.across_spine.filter(|a| *a > leaf.number) else { continue };
                prop_assert_eq!(own.flat, all[across as usize - 1].flat, "both leaves of a sheet");
                for within in &all[leaf.number as usize..across as usize - 1] {
                    prop_assert!(within.flat > own.flat && within.round > own.round);
                }
            }
            let margin = Length::from_whole_mm(15);
            for (own, left) in all.iter().zip(margins(&leaves, &trims([0; 3]), caliper, margin)) {
                prop_assert_eq!(left.outer_flat + own.flat, margin);
                prop_assert!(left.outer_round <= left.outer_flat && left.outer_flat <= margin);
            }
        }
    }
}

/// In a section folded from one sheet by halves, every sheet lies in the one before: creep grows from the outermost to the
/// middle by one thickness each.
#[test]
fn creep_of_the_schemes_at_hand() {
    for named in library() {
        let worked = Worked::of(&Course::of_scheme(&named.scheme)).unwrap();
        let measure = Measure::equal(
            named.scheme.rows,
            named.scheme.columns,
            Length::from_whole_mm(1000),
            Length::from_whole_mm(700),
        );
        let leaves = Leaves::of(&worked, &vec![0], &measure).unwrap();
        let around: Vec<u32> = leaves.leaves.iter().map(|l| l.around).collect();
        let half = around.len() as u32 / 2;
        let expected: Vec<u32> = (0..half).chain((0..half).rev()).collect();
        assert_eq!(around, expected, "{}", named.name);
        assert_eq!(leaves.pairs_deep(), half);
    }
}

/// "What is Creep?", colorvisionprinting.com: paper of 0.005 in stands out by 0.005, 0.010, 0.015 in. And 32 pages at 0.1 mm
/// by both models: 1 × 0.1 × 7 and π/2 × 0.1 × 7 mm.
#[test]
fn creep_by_numbers() {
    let thousandth = Length::from_nm(25_400);
    let steps = [1, 2, 3].map(|n| CreepModel::Flat.creep(thousandth.times(5), n));
    assert_eq!(steps, [5, 10, 15].map(|n| thousandth.times(n)));
    let tenth = Length::from_um(100);
    assert_eq!(CreepModel::Flat.creep(tenth, 7), Length::from_um(700));
    let round = CreepModel::Round.creep(tenth, 7);
    assert!((round.mm() - 1.1).abs() < 0.001, "{round:?}");
}
