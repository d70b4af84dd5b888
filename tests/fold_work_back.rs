//! A printed sheet worked back to its folds.

#![allow(clippy::unwrap_used, reason = "what tests call may panic as tests may")]

use backmark::fold::work_back::{Change, Known, Printed, View, WorkedBack, work_back};
use backmark::fold::{Direction, Fold, Folding, Landing, Lands, Part, Reads, Scheme, Section, Side, library};
use proptest::prelude::*;

/// Both sides of the sheet as a scheme prints it.
fn sides(scheme: &Scheme) -> [View; 2] {
    printed(&Landing::of(scheme).unwrap())
}

fn printed(landing: &Landing) -> [View; 2] {
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
        exchange(&mut other, 6, 7);
        near(&other, &Change::PagesExchanged { pages: [6, 7] });
        let mut other = whole.clone();
        let known = cell(&mut other, 5);
        known.head = known.head.map(Direction::opposite);
        near(&other, &Change::PageHeadDown { page: 5 });
        let mut other = whole.clone();
        turn_round(&mut other[1]);
        near(&other, &Change::SecondSideTurnedRound);
    }
}

/// The layouts of `data/handbooks.json` as printed sides, pages counted within the sheet. How to read them is told in
/// `data/README.md`; `fold_handbooks.rs` compares the engine with them.
fn handbooks() -> Vec<(String, [View; 2])> {
    let all: serde_json::Value = serde_json::from_str(include_str!("data/handbooks.json")).unwrap();
    let read = |layout: &serde_json::Value| {
        let heads = layout["heads_shown"].as_bool().unwrap();
        let cell = |word: &str| {
            let head = if word.ends_with('v') { Direction::Down } else { Direction::Up };
            Known { page: word.trim_end_matches('v').parse().ok(), head: heads.then_some(head) }
        };
        // A forme prints left and right exchanged.
        let row = |row: &serde_json::Value| row.as_str().unwrap().split(' ').rev().map(cell).collect();
        let side = |name: &str| -> View { layout[name].as_array().unwrap().iter().map(row).collect() };
        let mut sides = [side("outer"), side("inner")];
        if layout["turned"] == "head over foot" {
            turn_round(&mut sides[1]);
        }
        let mut pages: Vec<u32> = sides.iter().flatten().flatten().filter_map(|known| known.page).collect();
        pages.sort_unstable();
        for known in sides.iter_mut().flatten().flatten() {
            known.page = known.page.map(|page| u32::try_from(pages.binary_search(&page).unwrap()).unwrap() + 1);
        }
        (layout["id"].as_str().unwrap().to_owned(), sides)
    };
    all["layouts"].as_array().unwrap().iter().map(read).collect()
}

fn turn_round(side: &mut View) {
    side.reverse();
    side.iter_mut().for_each(|row| row.reverse());
    side.iter_mut().flatten().for_each(|known| known.head = known.head.map(Direction::opposite));
}

fn exchange(sides: &mut [View; 2], a: u32, b: u32) {
    for known in sides.iter_mut().flatten().flatten() {
        known.page = known.page.map(|page| {
            if page == a {
                b
            } else if page == b {
                a
            } else {
                page
            }
        });
    }
}

#[test]
fn a_handbook_is_worked_back_and_one_change_in_it_is_named() {
    let handbooks = handbooks();
    assert_eq!(handbooks.len(), 22);
    for (id, whole) in &handbooks {
        let right = worked(whole);
        assert!(right.complete && !right.schemes.is_empty(), "{id}");
        let pages = u32::try_from(whole.iter().flatten().flatten().count()).unwrap();
        let heads = whole[0][0][0].head.is_some();
        if pages < 16 || !heads {
            continue;
        }
        let near = |sides: &[View; 2], change: &Change| {
            let found = worked(sides);
            assert!(found.schemes.is_empty(), "{id}: {change:?}");
            let named: Vec<_> = found.nearest.iter().filter(|near| near.change == *change).collect();
            assert!(!named.is_empty(), "{id}: {change:?} {found:?}");
            assert!(named.iter().all(|near| right.schemes.contains(&near.scheme)), "{id}: {change:?}");
        };
        let mut other = whole.clone();
        turn_round(&mut other[1]);
        near(&other, &Change::SecondSideTurnedRound);
        for page in (1..=pages).step_by(3) {
            let mut other = whole.clone();
            let known = cell(&mut other, page);
            known.head = known.head.map(Direction::opposite);
            near(&other, &Change::PageHeadDown { page });
            for there in (page + 1..=pages).step_by(5) {
                let mut other = whole.clone();
                exchange(&mut other, page, there);
                let change = Change::PagesExchanged { pages: [page, there] };
                near(&other, &change);
                // One of the two is hidden: what is seen stands where the other belongs.
                cell(&mut other, there).page = None;
                near(&other, &change);
            }
        }
    }
}

/// What is seen of one side, without heads, is enough where the section is large enough.
#[test]
fn one_side_without_heads_is_enough_to_name_two_pages_exchanged() {
    for n in library().into_iter().filter(|n| n.scheme.leaves() >= 16) {
        let mut whole = sides(&n.scheme);
        whole[1] = blank(whole[1].len(), whole[1][0].len())[1].clone();
        whole[0].iter_mut().flatten().for_each(|known| known.head = None);
        let seen: Vec<u32> = whole[0].iter().flatten().filter_map(|known| known.page).collect();
        for (i, a) in seen.iter().enumerate() {
            for b in &seen[i + 1..] {
                let mut other = whole.clone();
                exchange(&mut other, *a, *b);
                let found = worked(&other);
                let pages = [*a.min(b), *a.max(b)];
                let named = found.nearest.iter().any(|near| near.change == Change::PagesExchanged { pages });
                assert!(named || !found.schemes.is_empty(), "{}: {pages:?} {found:?}", n.name);
            }
        }
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

/// A second way to the answer: every way to fold a sheet, carried out by the engine, with what it prints. Right and
/// bottom parts move; the order is that of the search.
fn all_ways(rows: u32, columns: u32) -> Vec<(Scheme, [View; 2])> {
    fn fold_on(folding: &Folding, folds: &mut Vec<Fold>, all: &mut Vec<(Scheme, [View; 2])>) {
        let extent = folding.last().extent();
        let creases = |part: Part, size: i32| (1..size.unsigned_abs()).map(move |after| (part, after));
        for (part, after) in creases(Part::Right, extent.width()).chain(creases(Part::Bottom, extent.height())) {
            for lands in [Lands::Over, Lands::Under] {
                folds.push(Fold::new(after, part, lands));
                let step = folding.try_fold(folds.last().unwrap()).unwrap();
                fold_on(&Folding { steps: vec![step], ..folding.clone() }, folds, all);
                folds.pop();
            }
        }
        let (1, 1, Some(last)) = (extent.width(), extent.height(), folds.last()) else { return };
        let heads = match last.moves {
            Part::Right => [Direction::Up, Direction::Down],
            _ => [Direction::Left, Direction::Right],
        };
        for reads in [Reads::LeftToRight, Reads::RightToLeft] {
            for head in heads {
                let (rows, columns) = (folding.rows, folding.columns);
                let scheme = Scheme { rows, columns, folds: folds.clone(), head, reads };
                let sides = printed(&Landing::of_section(&Section::of(&scheme, folding).unwrap()));
                all.push((scheme, sides));
            }
        }
    }
    let flat = Scheme { rows, columns, folds: Vec::new(), head: Direction::Up, reads: Reads::LeftToRight };
    let mut all = Vec::new();
    fold_on(&Folding::of(&flat).unwrap(), &mut Vec::new(), &mut all);
    all
}

/// Whether a print shows everything that is known.
fn shows(print: &[View; 2], known: &[View; 2]) -> bool {
    let holds = |known: Option<u32>, print: Option<u32>| known.is_none() || known == print;
    let mut faces = print.iter().flatten().flatten().zip(known.iter().flatten().flatten());
    faces.all(|(print, known)| holds(known.page, print.page) && (known.head.is_none() || known.head == print.head))
}

/// Numbers that look random and are the same on every run.
struct Dice(u64);

impl Dice {
    fn below(&mut self, bound: usize) -> usize {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(self.0 >> 33).unwrap() % bound.max(1)
    }
}

/// What is left of a print with some cells and some heads hidden, and sometimes something wrong.
fn some_of(print: &[View; 2], hidden: usize, wrong: usize, dice: &mut Dice) -> [View; 2] {
    let mut some = print.clone();
    let mut cells: Vec<&mut Known> = some.iter_mut().flatten().flatten().collect();
    let count = cells.len();
    let (one, other) = (dice.below(count), dice.below(count));
    let (page, there) = (cells[one].page, cells[other].page);
    match wrong {
        1 => (cells[one].page, cells[other].page) = (there, page),
        2 => cells[one].head = cells[one].head.map(Direction::opposite),
        3 => cells[one].page = there,
        _ => {}
    }
    for cell in cells {
        if dice.below(100) < hidden {
            *cell = Known::default();
        } else if dice.below(100) < hidden {
            cell.head = None;
        }
    }
    some
}

/// Every single change of what is known, as it would be tried by hand.
fn changed(known: &[View; 2]) -> Vec<(Change, [View; 2])> {
    let mut all = Vec::new();
    let turn = |known: &mut Known| known.head = known.head.map(Direction::opposite);
    let mut other = known.clone();
    turn_round(&mut other[1]);
    all.push((Change::SecondSideTurnedRound, other));
    let pages: Vec<u32> = known.iter().flatten().flatten().filter_map(|k| k.page).collect();
    let most = u32::try_from(known.iter().flatten().flatten().count()).unwrap();
    for a in 1..=most {
        if pages.contains(&a) {
            let mut other = known.clone();
            turn(cell(&mut other, a));
            all.push((Change::PageHeadDown { page: a }, other));
        }
        for b in a + 1..=most {
            let mut other = known.clone();
            exchange(&mut other, a, b);
            all.push((Change::PagesExchanged { pages: [a, b] }, other));
        }
    }
    all.retain(|(_, other)| other != known);
    all
}

/// Compares what is found with all ways to fold, for what is left of prints chosen at random.
fn same_as_all_ways(rows: u32, columns: u32, rounds: usize, changes: bool) {
    let ways = all_ways(rows, columns);
    let fitting = |known: &[View; 2]| -> Vec<Scheme> {
        ways.iter().filter(|(_, print)| shows(print, known)).map(|(scheme, _)| scheme.clone()).collect()
    };
    let mut dice = Dice(u64::from(rows * 1000 + columns));
    for round in 0..rounds {
        let hidden = [0, 20, 40, 60, 75, 90][round % 6];
        let wrong = if round / 6 % 2 == 0 { 0 } else { dice.below(4) };
        let some = some_of(&ways[dice.below(ways.len())].1, hidden, wrong, &mut dice);
        let (expected, found) = (fitting(&some), worked(&some));
        if expected.len() < 1000 {
            assert_eq!(found.schemes, expected, "{rows} by {columns}, round {round}: {some:?}");
        } else {
            assert!(found.schemes.iter().all(|scheme| expected.contains(scheme)), "{rows} by {columns}: {some:?}");
        }
        if expected.is_empty() && changes {
            let mut pages: Vec<u32> = some.iter().flatten().flatten().filter_map(|known| known.page).collect();
            pages.sort_unstable();
            let twice = pages.windows(2).any(|pair| pair[0] == pair[1]);
            let good = |(change, other)| ways.iter().any(|(_, print)| shows(print, &other)).then_some(change);
            let good: Vec<Change> =
                if twice { Vec::new() } else { changed(&some).into_iter().filter_map(good).collect() };
            for near in &found.nearest {
                assert!(good.contains(&near.change), "{rows} by {columns}, round {round}: {near:?} {some:?}");
            }
            let named = |change: &Change| found.nearest.iter().any(|near| near.change == *change);
            assert!(
                good.len() > 20 || good.iter().all(named),
                "{rows} by {columns}, round {round}: {good:?} {found:?}"
            );
            assert!(!found.complete || good.len() <= 20);
        } else if !expected.is_empty() {
            assert_eq!(found.complete, found.schemes.len() == expected.len(), "{rows} by {columns}, round {round}");
        }
    }
}

#[test]
fn what_is_found_is_all_that_folds_so() {
    for columns in 2..=6 {
        same_as_all_ways(1, columns, 60, true);
        same_as_all_ways(columns, 1, 60, true);
    }
    for (rows, columns) in [(2, 2), (2, 3), (3, 2), (2, 4), (4, 2)] {
        same_as_all_ways(rows, columns, 60, true);
    }
    for (rows, columns) in [(3, 3), (3, 4), (4, 3)] {
        same_as_all_ways(rows, columns, 48, false);
    }
}

/// The same at length, and for larger sheets: `cargo test --release --no-default-features -- --ignored folds_so`.
#[test]
#[ignore = "takes minutes"]
fn what_is_found_is_all_that_folds_so_at_length() {
    for (rows, columns) in [(1, 7), (1, 8), (8, 1), (2, 5), (5, 2), (3, 3), (3, 4), (4, 3), (2, 6)] {
        same_as_all_ways(rows, columns, 240, rows * columns < 10);
    }
}

/// Folds in the middle or beside it, over and under, until one panel is left; `None` where there is no fold. `choose`
/// gets a bound.
fn folded(rows: u32, columns: u32, mut choose: impl FnMut(u32) -> u32) -> Option<Scheme> {
    let (mut folds, mut width, mut height) = (Vec::new(), columns, rows);
    while width + height > 2 {
        let at = choose(width + height - 2) + 1;
        let lands = if choose(2) == 0 { Lands::Over } else { Lands::Under };
        if at < width {
            folds.push(Fold::new(at, Part::Right, lands));
            width = at.max(width - at);
        } else {
            let at = at + 1 - width;
            folds.push(Fold::new(at, Part::Bottom, lands));
            height = at.max(height - at);
        }
    }
    let head = match (folds.last()?.moves, choose(2)) {
        (Part::Right, 0) => Direction::Up,
        (Part::Right, _) => Direction::Down,
        (_, 0) => Direction::Left,
        _ => Direction::Right,
    };
    let reads = if choose(2) == 0 { Reads::LeftToRight } else { Reads::RightToLeft };
    Some(Scheme { rows, columns, folds, head, reads })
}

fn any_scheme() -> impl Strategy<Value = Scheme> {
    let choices = proptest::collection::vec(any::<prop::sample::Index>(), 30);
    (1..4u32, 1..5u32, choices).prop_filter_map("a fold", |(rows, columns, choices)| {
        let mut choices = choices.into_iter();
        folded(rows, columns, |bound| {
            choices.next().map_or(0, |choice| u32::try_from(choice.index(bound as usize)).unwrap())
        })
    })
}

/// The search is cut by its work and not by a clock, so this tells how much is left out on any machine.
#[test]
fn of_64_pages_two_in_five_are_enough_to_search_all() {
    let mut dice = Dice(64);
    for seed in 0..200 {
        let scheme = folded(4, 8, |bound| u32::try_from(dice.below(bound as usize)).unwrap()).unwrap();
        let found = worked(&some_of(&sides(&scheme), 60, 0, &mut dice));
        assert!(found.complete && found.schemes.contains(&scheme), "{seed}: {scheme:?}");
    }
}

#[test]
fn a_long_strip_is_worked_back_as_far_as_the_list_goes() {
    let strip =
        |folds: Vec<Fold>| Scheme { rows: 1, columns: 128, folds, head: Direction::Up, reads: Reads::LeftToRight };
    let rolled = strip((1..128).rev().map(|after| Fold::new(after, Part::Right, Lands::Over)).collect());
    let found = worked(&sides(&rolled));
    assert_eq!((found.schemes.as_slice(), found.complete), (&[rolled][..], true), "a roll can be made in one way");
    let zigzag =
        |after: u32| Fold::new(after, Part::Right, if after.is_multiple_of(2) { Lands::Over } else { Lands::Under });
    let found = worked(&sides(&strip((1..128).rev().map(zigzag).collect())));
    assert!(!found.complete && found.schemes.len() > 100, "an accordion can be begun at either end");
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
