//! A printed sheet worked back to its folds.

#![allow(clippy::unwrap_used, reason = "what tests call may panic as tests may")]

use backmark::fold::work_back::{Change, Known, Printed, View, WorkedBack, work_back};
use backmark::fold::{Direction, Fold, Folding, Landing, Lands, Part, Scheme, Section, Side, library};
use proptest::prelude::*;

/// Both sides of the sheet as a scheme prints it.
fn sides(scheme: &Scheme) -> [View; 2] {
    let landing = Landing::of(scheme).unwrap();
    [Side::A, Side::B].map(|side| {
        let known = |row: Vec<&backmark::fold::PageAt>| {
            row.into_iter().map(|p| Known { page: Some(p.page), head: Some(p.head) }).collect()
        };
        landing.grid(side).into_iter().map(known).collect()
    })
}

fn worked([a, b]: &[View; 2]) -> WorkedBack {
    let columns = a.first().map_or(0, Vec::len);
    work_back(&Printed::new(u32::try_from(a.len()).unwrap(), u32::try_from(columns).unwrap(), a, b))
}

fn blank(rows: usize, columns: usize) -> [View; 2] {
    [(); 2].map(|()| vec![vec![Known::default(); columns]; rows])
}

fn cell(sides: &mut [View; 2], page: u32) -> &mut Known {
    sides.iter_mut().flatten().flatten().find(|k| k.page == Some(page)).unwrap()
}

#[test]
fn every_scheme_at_hand_is_found_in_what_it_prints() {
    for n in library() {
        let found = worked(&sides(&n.scheme));
        assert!(found.complete && !found.schemes.is_empty() && found.nearest.is_empty(), "{}", n.name);
        let landing = Landing::of(&n.scheme).unwrap();
        for scheme in &found.schemes {
            assert_eq!(Landing::of(scheme).unwrap().pages, landing.pages, "{}: {scheme:?}", n.name);
            assert!(scheme.folds.iter().all(|f| matches!(f.moves, Part::Right | Part::Bottom)));
        }
        for (i, scheme) in found.schemes.iter().enumerate() {
            assert!(!found.schemes[..i].contains(scheme), "{}: each stands once", n.name);
        }
    }
}

#[test]
fn the_scheme_itself_comes_back_where_its_right_and_bottom_parts_move() {
    for mut n in library() {
        for fold in &mut n.scheme.folds {
            fold.moves = if fold.moves.crease() == Part::Right.crease() { Part::Right } else { Part::Bottom };
        }
        let good = Folding::of(&n.scheme).is_ok_and(|f| Section::of(&n.scheme, &f).is_ok());
        if good {
            assert!(worked(&sides(&n.scheme)).schemes.contains(&n.scheme), "{}", n.name);
        }
    }
}

/// The count of fold orders of a blank sheet, `N(c, r) = 2 Σ N(max(k, c-k), r) + 2 Σ N(c, max(k, r-k))`; of one row it
/// is OEIS A110837. Each is read with either end as the head, in either direction.
#[test]
fn a_sheet_without_a_page_can_be_folded_in_as_many_ways_as_there_are() {
    for (rows, columns, ways) in [(1, 2, 2), (1, 3, 8), (1, 4, 36), (2, 2, 8), (2, 3, 48), (2, 4, 280), (3, 3, 384)] {
        let found = worked(&blank(rows, columns));
        assert_eq!((found.schemes.len(), found.complete), (4 * ways, true), "{rows} by {columns}");
    }
    let found = worked(&blank(4, 4));
    assert!(!found.complete && !found.schemes.is_empty(), "the list was cut");
    assert!(!worked(&blank(8, 16)).complete, "the search was cut");
    let none = worked(&blank(1, 1));
    assert!(none.schemes.is_empty() && none.complete, "a sheet without a fold has no spine");
}

#[test]
fn a_few_pages_are_enough_to_leave_out_what_does_not_fit() {
    for n in library().into_iter().filter(|n| n.scheme.leaves() <= 8) {
        let whole = sides(&n.scheme);
        let all = worked(&whole).schemes;
        for kept in 1..=2 {
            let mut some = whole.clone();
            let cells = some.iter_mut().flatten().flatten();
            cells.filter(|k| k.page.is_some_and(|p| p % 3 > kept)).for_each(|k| *k = Known::default());
            let found = worked(&some);
            assert!(found.complete && all.iter().all(|s| found.schemes.contains(s)), "{}", n.name);
        }
    }
}

#[test]
fn one_change_away_is_named() {
    for n in library().into_iter().filter(|n| n.scheme.leaves() >= 8) {
        let whole = sides(&n.scheme);
        let near = |sides: &[View; 2], change: &Change| {
            let found = worked(sides);
            assert!(found.schemes.is_empty(), "{}: {change:?}", n.name);
            assert!(found.nearest.iter().any(|near| near.change == *change), "{}: {change:?} {found:?}", n.name);
            for near in found.nearest.iter().filter(|near| near.change == *change) {
                assert_eq!(Landing::of(&near.scheme).unwrap().pages, Landing::of(&n.scheme).unwrap().pages);
            }
        };
        let mut other = whole.clone();
        cell(&mut other, 6).page = Some(0);
        cell(&mut other, 7).page = Some(6);
        cell(&mut other, 0).page = Some(7);
        near(&other, &Change::PagesExchanged { pages: [6, 7] });
        let mut other = whole.clone();
        let known = cell(&mut other, 5);
        known.head = known.head.map(Direction::opposite);
        near(&other, &Change::PageHeadDown { page: 5 });
        let mut other = whole.clone();
        other[1].reverse();
        for row in &mut other[1] {
            row.reverse();
            row.iter_mut().for_each(|k| k.head = k.head.map(Direction::opposite));
        }
        near(&other, &Change::SecondSideTurnedRound);
    }
}

#[test]
fn what_nothing_prints_is_answered_with_nothing() {
    let mut odd = blank(2, 2);
    odd[0][0][0].page = Some(9);
    let found = worked(&odd);
    assert!(found.schemes.is_empty() && found.nearest.is_empty() && found.complete);
    odd[0][0][0].page = Some(3);
    odd[1][1][1].page = Some(3);
    assert!(worked(&odd).schemes.is_empty());
}

/// Folds in the middle or beside it, over and under, until one panel is left.
fn any_scheme() -> impl Strategy<Value = Scheme> {
    let choices = proptest::collection::vec((any::<prop::sample::Index>(), any::<bool>()), 12);
    (1..4u32, 1..5u32, choices, any::<bool>()).prop_filter_map("a fold", |(rows, columns, choices, end)| {
        let (mut folds, mut width, mut height) = (Vec::new(), columns, rows);
        for (which, over) in &choices {
            let most = (width + height).checked_sub(2).filter(|most| *most > 0);
            let Some(most) = most else { break };
            let at = u32::try_from(which.index(most as usize)).ok()? + 1;
            let lands = if *over { Lands::Over } else { Lands::Under };
            if at < width {
                folds.push(Fold::new(at, Part::Right, lands));
                width = at.max(width - at);
            } else {
                let at = at + 1 - width;
                folds.push(Fold::new(at, Part::Bottom, lands));
                height = at.max(height - at);
            }
        }
        let head = match (folds.last()?.moves, end) {
            (Part::Right, true) => Direction::Up,
            (Part::Right, false) => Direction::Down,
            (_, true) => Direction::Left,
            (_, false) => Direction::Right,
        };
        Some(Scheme { rows, columns, folds, head, reads: Default::default() })
    })
}

proptest! {
    #[test]
    fn any_folding_is_found_again(scheme in any_scheme()) {
        let found = worked(&sides(&scheme));
        prop_assert!(found.complete && found.schemes.contains(&scheme));
    }

    #[test]
    fn any_print_has_an_answer(
        rows in 1..4usize,
        columns in 1..5usize,
        pages in proptest::collection::vec((proptest::option::of(0..30u32), any::<Option<bool>>()), 0..24),
    ) {
        let mut sides = blank(rows, columns);
        for (slot, (page, up)) in sides.iter_mut().flatten().flatten().zip(pages) {
            *slot = Known { page, head: up.map(|up| if up { Direction::Up } else { Direction::Left }) };
        }
        worked(&sides);
    }
}
