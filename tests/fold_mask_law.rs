//! The rules by which a binder tells from the pages what was done to a sheet, drawn from causes that were acted out.
//!
//! Source of the rules, put in our own words: common practice, worked out by simulation for sections of 8, 16 and 32
//! pages; no published source, but for those that name one. Where a rule holds in fewer schemes than it is told for,
//! the test says in which.
//!
//! A **mask** is read off a section so: number the leaves from 0; where leaf i should be lies leaf i XOR mask.

#![allow(clippy::unwrap_used, reason = "what tests call may panic as tests may")]

use backmark::fold::misfold::{
    Acted, Alikes, Cause, FoldAt, FoundPage, Lies, Mark, Stage, acts_out_all, explain, look_alikes,
};
use backmark::fold::{Crease, Direction, Landing, Lands, Scheme, Side, library};
use std::collections::BTreeSet;

/// Every fold crosses the one before it.
const RIGHT_ANGLE: [&str; 4] = [
    "Eight, two right-angle folds",
    "Sixteen, three folds",
    "Thirty-two, four right-angle folds",
    "Sixty-four, five folds",
];

/// Every fold halves the packet, and two that follow each other are parallel.
const PARALLEL: [&str; 3] = [
    "Eight, two parallel folds",
    "Sixteen, two parallel and right angle",
    "Thirty-two, three right-angle and parallel",
];

const WAY: fn(u32) -> Cause = |fold| Cause::FoldOtherWay { fold };
const EDGE: fn(u32) -> Cause = |fold| Cause::FoldFromOtherEdge { fold };
const OVER: fn(Crease) -> Cause = |about| Cause::SheetTurnedOver { about };

fn named(name: &str) -> Scheme {
    library().into_iter().find(|n| n.name == name).unwrap().scheme
}

fn sixteen() -> Scheme {
    named("Sixteen, three folds")
}

fn halving() -> Vec<(&'static str, Scheme)> {
    RIGHT_ANGLE.iter().chain(&PARALLEL).map(|name| (*name, named(name))).collect()
}

fn across_heads(crease: Crease) -> bool {
    crease == Crease::Horizontal
}

fn folds(scheme: &Scheme) -> std::ops::RangeInclusive<u32> {
    1..=scheme.folds.len() as u32
}

fn ways(scheme: &Scheme, cause: &Cause) -> Vec<Acted> {
    acts_out_all(scheme, 1, cause).unwrap()
}

/// The one section that a cause makes.
#[track_caller]
fn section(scheme: &Scheme, cause: &Cause) -> Acted {
    let mut all = ways(scheme, cause);
    assert_eq!(all.len(), 1, "{cause:?}");
    all.remove(0)
}

fn both(one: Cause, other: Cause) -> Cause {
    Cause::Together { causes: vec![one, other] }
}

/// Pages as the trade writes them: `v` behind one head down, `–` for one not printed.
fn told(pages: &[FoundPage]) -> String {
    let page = |p: &FoundPage| match p.page {
        None => "–".into(),
        Some(n) => format!("{n}{}", if p.head == Some(Direction::Down) { "v" } else { "" }),
    };
    pages.iter().map(page).collect::<Vec<String>>().join(" ")
}

/// A leaf with its proper pair: 2k - 1 and 2k on its two sides, their heads the same way.
fn whole(leaf: &[FoundPage]) -> bool {
    let [a, b] = leaf else { return false };
    a.head == b.head && a.page.zip(b.page).is_some_and(|(a, b)| a.max(b) % 2 == 0 && a.abs_diff(b) == 1)
}

fn pairs_whole(acted: &Acted) -> bool {
    acted.pages.chunks(2).all(whole)
}

fn heads_up(acted: &Acted) -> bool {
    acted.pages.iter().all(|p| p.head != Some(Direction::Down))
}

/// The masks on the pages of one forme: those printed on the same side as page 1 in a right section, or the others.
fn masks(scheme: &Scheme, acted: &Acted, outer: bool) -> BTreeSet<u32> {
    let landing = Landing::of(scheme).unwrap();
    let on_forme = |page: u32| landing.page(page).is_some_and(|p| (p.face.side == landing.outer_forme()) == outer);
    (0..)
        .zip(&acted.pages)
        .filter_map(|(at, found): (u32, _)| Some((at, found.page?)))
        .filter(|(_, page)| on_forme(*page))
        .map(|(at, page)| (at / 2) ^ ((page - 1) / 2))
        .collect()
}

fn both_masks(scheme: &Scheme, acted: &Acted) -> [Vec<u32>; 2] {
    [true, false].map(|outer| masks(scheme, acted, outer).into_iter().collect())
}

/// The mask of the whole section.
#[track_caller]
fn mask(scheme: &Scheme, cause: &Cause) -> u32 {
    let acted = section(scheme, cause);
    let [outer, inner] = both_masks(scheme, &acted);
    assert_eq!((outer.len(), &outer), (1, &inner), "one mask on both formes: {cause:?}");
    outer[0]
}

fn of_the_folder(scheme: &Scheme) -> Vec<Cause> {
    let mut causes: Vec<Cause> = folds(scheme).flat_map(|f| [WAY(f), EDGE(f)]).collect();
    causes.extend([Cause::SheetEndForEnd, OVER(Crease::Vertical), OVER(Crease::Horizontal)]);
    causes
}

fn exchanged_on_one_forme(scheme: &Scheme) -> Vec<Cause> {
    let landing = Landing::of(scheme).unwrap();
    let side = |page: u32| landing.page(page).unwrap().face.side;
    let pairs = (1..=scheme.pages()).flat_map(|a| (a + 1..=scheme.pages()).map(move |b| [a, b]));
    pairs.filter(|[a, b]| side(*a) == side(*b)).map(|pages| Cause::PagesExchanged { pages }).collect()
}

// ---- The leaf-pair rule -------------------------------------------------------------------------------------------

/// No fold and no feeding parts the two pages of a leaf, so a broken pair is a fault of the press.
/// Used so on a printed quire: Penn Libraries, rare books weblog, 2019-12-11.
#[test]
fn folding_and_feeding_keep_the_leaf_pairs_and_press_faults_break_them() {
    for n in library() {
        let scheme = &n.scheme;
        let mut kept = of_the_folder(scheme);
        kept.push(Cause::DoubleSheet);
        kept.extend([Lies::HeadToTail, Lies::TurnedInPlane, Lies::SideToSide].map(|lies| Cause::SectionLies { lies }));
        for cause in kept {
            assert_ne!(cause.stage(), Stage::Press);
            assert!(pairs_whole(&section(scheme, &cause)), "{}: {cause:?}", n.name);
        }
        let mut broken = vec![Cause::SecondSideTurnedRound, Cause::WrongSecondSide];
        broken.extend([Side::A, Side::B].map(|side| Cause::SecondSideBlank { side }));
        broken.extend([1, scheme.pages()].map(|page| Cause::PageHeadDown { page }));
        broken.extend(exchanged_on_one_forme(scheme).into_iter().step_by(7));
        for cause in broken {
            assert_eq!(cause.stage(), Stage::Press);
            for acted in ways(scheme, &cause) {
                assert!(!pairs_whole(&acted), "{}: {cause:?}", n.name);
            }
        }
    }
}

/// Two pages that change places break pairs only if they are of one forme: one plate made up wrong. Pages 1 and 2,
/// which are of two formes, are one leaf.
#[test]
fn two_pages_exchanged_on_one_forme_of_the_sixteen_always_break_pairs() {
    let scheme = sixteen();
    let all = exchanged_on_one_forme(&scheme);
    assert_eq!(all.len(), 2 * 28, "two of the eight pages of either forme");
    for cause in &all {
        let Cause::PagesExchanged { pages: [a, _] } = cause else { continue };
        let outer = [1, 4, 5, 8, 9, 12, 13, 16].contains(a);
        let acted = section(&scheme, cause);
        assert!(!pairs_whole(&acted));
        let [of_outer, of_inner] = both_masks(&scheme, &acted);
        let (faulty, right) = if outer { (of_outer, of_inner) } else { (of_inner, of_outer) };
        assert_eq!((right, faulty.len()), (vec![0], 2), "{cause:?}");
    }
}

// ---- The mask law -------------------------------------------------------------------------------------------------

/// Fold f the other way is mask 2^(f-1), heads up, whichever ways the folds were meant to go, and several folds
/// combine. The 8, the 16 and the 32 have 4, 8 and 16 combinations of directions: 28.
#[test]
fn a_fold_the_other_way_is_its_own_digit_of_the_mask_in_all_combinations_of_directions() {
    let mut right_angle = 0;
    for (name, base) in halving() {
        let last = base.folds.len() as u32;
        for directions in 0..1u32 << last {
            let mut scheme = base.clone();
            for (i, fold) in scheme.folds.iter_mut().enumerate() {
                fold.lands = if directions >> i & 1 == 0 { Lands::Over } else { Lands::Under };
            }
            for f in folds(&scheme) {
                let acted = section(&scheme, &WAY(f));
                assert_eq!(mask(&scheme, &WAY(f)), 1 << (f - 1), "{name}, {directions}");
                assert!(heads_up(&acted) && pairs_whole(&acted));
                let listed = RIGHT_ANGLE.contains(&name) && scheme.leaves() <= 16;
                assert!(!listed || names(&scheme, &WAY(f)).contains(&WAY(f)), "read off the mask again");
                for g in f + 1..=last {
                    assert_eq!(mask(&scheme, &both(WAY(f), WAY(g))), 1 << (f - 1) | 1 << (g - 1), "{name}");
                    let two = both(WAY(f), WAY(g));
                    assert!(!listed || names(&scheme, &two).contains(&two), "{name}: both are read off the mask again");
                }
            }
            right_angle += u32::from(RIGHT_ANGLE.contains(&name) && scheme.leaves() <= 16);
        }
    }
    assert_eq!(right_angle, 28);
}

/// The mask is decoded for the outer and the inner forme apart: equal and not 0 is the folder's doing, unequal the
/// press's. A second side turned round is mask 2 on one forme and 0 on the other in the 8, the 16 and the 32.
///
/// What holds for every scheme that halves: the turned forme has the mask of a sheet fed end for end, the other has 0.
/// With right-angle folds that is 2; two parallel folds first make it 6 on a 16, and 1 on an 8, heads down there.
#[test]
fn the_masks_of_the_two_formes_tell_the_press_from_the_folder() {
    for (name, scheme) in halving() {
        for cause in of_the_folder(&scheme) {
            let acted = section(&scheme, &cause);
            let found = explain(&scheme, 1, acted.fold_at, &acted.pages).unwrap();
            let harmless = cause == EDGE(scheme.folds.len() as u32);
            assert_eq!(found.right, harmless, "{name}: {cause:?}");
            // Heads down tell the folder by themselves: then a mask of 0 is possible, as the rectos are even.
            assert_eq!(mask(&scheme, &cause) == 0 && heads_up(&acted), harmless, "{name}: {cause:?}");
        }
        let end_for_end = mask(&scheme, &Cause::SheetEndForEnd);
        let turned = ways(&scheme, &Cause::SecondSideTurnedRound);
        let [inner_turned, outer_turned] = turned.as_slice() else { panic!("two ways") };
        assert_eq!(both_masks(&scheme, inner_turned), [vec![0], vec![end_for_end]], "{name}");
        assert_eq!(both_masks(&scheme, outer_turned), [vec![end_for_end], vec![0]], "{name}");
        match name {
            "Sixteen, two parallel and right angle" => assert_eq!(end_for_end, 6),
            "Eight, two parallel folds" => assert_eq!((end_for_end, heads_up(inner_turned)), (1, false)),
            _ => assert_eq!((end_for_end, heads_up(inner_turned)), (2, true), "{name}"),
        }
    }
}

/// Letter folds divide by three, and no digit of a binary number counts thirds.
#[test]
fn the_mask_law_does_not_hold_where_a_fold_takes_a_third() {
    for name in ["Twelve, letter fold and right angle", "Twenty-four, letter fold and two right angles"] {
        let scheme = named(name);
        assert!(folds(&scheme).all(|f| masks(&scheme, &section(&scheme, &WAY(f)), true).len() > 1), "{name}");
    }
}

/// Told as: a fold across the heads made from the other edge is the only single fault of the folder that turns heads
/// down, and rectos are then even.
///
/// What holds: of the folds it is the **last** one across the heads alone (an earlier one comes right again at the
/// next). And a sheet with an odd number of rows can be fed with its heads down.
#[test]
fn heads_go_down_only_by_the_last_fold_across_them_or_by_feeding_an_odd_number_of_rows() {
    for n in library() {
        let scheme = &n.scheme;
        let last_across = folds(scheme).rev().find(|f| across_heads(scheme.folds[*f as usize - 1].crease));
        for cause in of_the_folder(scheme) {
            let acted = section(scheme, &cause);
            let odd_rows = scheme.rows % 2 == 1;
            let fed = [Cause::SheetEndForEnd, OVER(Crease::Horizontal)].contains(&cause) && odd_rows;
            let turns = last_across.is_some_and(|f| cause == EDGE(f)) || fed;
            assert_eq!(!heads_up(&acted), turns, "{}: {cause:?}", n.name);
            let recto_even = acted.pages[0].page.unwrap().is_multiple_of(2);
            assert_eq!(recto_even, turns, "{}: {cause:?}", n.name);
            assert!(!turns || acted.pages.iter().all(|p| p.head == Some(Direction::Down)), "all of them");
        }
    }
}

// ---- Look-alikes --------------------------------------------------------------------------------------------------

fn alike(alikes: &Alikes, cause: &Cause) -> Vec<Cause> {
    alikes.groups.iter().filter(|g| g.causes.contains(cause)).flat_map(|g| g.causes.clone()).collect()
}

/// What explaining the pages of a cause names.
fn names(scheme: &Scheme, cause: &Cause) -> Vec<Cause> {
    let acted = section(scheme, cause);
    let found = explain(scheme, 1, acted.fold_at, &acted.pages).unwrap();
    found.causes.into_iter().flat_map(|e| std::iter::once(e.cause).chain(e.same_pages_as)).collect()
}

/// Fold 1 the other way is the sheet turned over about the axis of fold 1, wherever fold 1 halves the sheet. Fold 2 the
/// other way is the sheet fed other end first, told for all sections; it holds where folds 1 and 2 cross. Where they
/// are parallel, fold 2 the other way is fold 1 from the other edge.
#[test]
fn the_first_two_folds_look_like_a_sheet_fed_wrong() {
    for (name, scheme) in halving() {
        let [first, second] = [scheme.folds[0].crease, scheme.folds[1].crease];
        let alikes = look_alikes(&scheme, 1).unwrap();
        assert!(alike(&alikes, &WAY(1)).contains(&OVER(first)), "{name}");
        assert_eq!(alike(&alikes, &WAY(2)).contains(&Cause::SheetEndForEnd), first != second, "{name}");
        assert_eq!(alike(&alikes, &WAY(2)).contains(&EDGE(1)), first == second, "{name}");
        assert!(names(&scheme, &WAY(1)).contains(&OVER(first)), "{name}");
        assert_eq!(names(&scheme, &WAY(2)).contains(&Cause::SheetEndForEnd), first != second, "{name}");
    }
    for n in library().into_iter().filter(|n| n.name.contains("letter")) {
        let alikes = look_alikes(&n.scheme, 1).unwrap();
        assert_eq!(alike(&alikes, &WAY(1)), [WAY(1)], "a third alone is turned over");
        assert!(alike(&alikes, &WAY(2)).contains(&EDGE(1)));
    }
}

/// On a 16, fold 1 from the other edge looks like folds 2 and 3 both the other way.
///
/// Where it comes from, in every scheme: fold f from the other edge lays the same packet with its other side up, until
/// the next fold parallel to f turns it back. So it is every fold after f, up to that one, the other way. The last fold
/// from the other edge is right: the section is delivered with its other side up.
#[test]
fn a_fold_from_the_other_edge_looks_like_the_folds_up_to_the_next_parallel_one() {
    let s = sixteen();
    assert_eq!(section(&s, &EDGE(1)).pages, section(&s, &both(WAY(2), WAY(3))).pages);
    assert_eq!(mask(&s, &EDGE(1)), 6);
    assert!(names(&s, &EDGE(1)).contains(&both(WAY(2), WAY(3))));
    for n in library() {
        let scheme = &n.scheme;
        let alikes = look_alikes(scheme, 1).unwrap();
        let last = scheme.folds.len() as u32;
        assert_eq!(alikes.no_harm, [EDGE(last)], "{}", n.name);
        for f in 1..last {
            let crease = scheme.folds[f as usize - 1].crease;
            let Some(next) = (f + 1..=last).find(|g| scheme.folds[*g as usize - 1].crease == crease) else { continue };
            let other_way = (f + 1..=next).fold(scheme.clone(), |s, g| s.fold_other_way(g));
            // Folded so, and printed for the right scheme: the sheet of a harmless cause is the right one.
            let right = section(scheme, &EDGE(last)).sheet;
            let landing = Landing::of(&other_way).unwrap();
            let expected: Vec<u32> = landing
                .pages
                .iter()
                .map(|p| {
                    let side = if p.face.side == Side::A { &right.side_a } else { &right.side_b };
                    side[p.face.row as usize][p.face.column_seen(scheme.columns) as usize].unwrap().page
                })
                .collect();
            let found = section(scheme, &EDGE(f));
            let pages: Vec<u32> = found.pages.iter().filter_map(|p| p.page).collect();
            assert_eq!((pages, heads_up(&found)), (expected, true), "{}, fold {f}", n.name);
        }
    }
}

/// The sixteen, wrong side up and turned the other way: a mask of two digits.
#[test]
fn a_sixteen_turned_over_top_to_bottom_is_folds_1_and_2() {
    let s = sixteen();
    let acted = section(&s, &OVER(Crease::Horizontal));
    assert_eq!(told(&acted.pages), "7 8 5 6 3 4 1 2 15 16 13 14 11 12 9 10");
    assert_eq!(mask(&s, &OVER(Crease::Horizontal)), 3);
    assert!(names(&s, &OVER(Crease::Horizontal)).contains(&both(WAY(1), WAY(2))));
}

// ---- The back mark ------------------------------------------------------------------------------------------------

/// The mark lies between the last page and the first. A wrong fold puts that place inside: on a 16 the last page and
/// the first are at places 14 and 3, 12 and 5, 8 and 9 for folds 1, 2 and 3. Any one fold the other way, and any
/// feeding that isn't a section head to tail as well, leaves the back blank.
#[test]
fn a_misfold_hides_the_back_mark() {
    let s = sixteen();
    for (fold, place) in [(1, (14, 3)), (2, (12, 5)), (3, (8, 9))] {
        let acted = section(&s, &WAY(fold));
        let at = |page: u32| 1 + acted.pages.iter().position(|p| p.page == Some(page)).unwrap();
        assert_eq!((at(16), at(1)), place, "fold {fold}");
        assert_eq!(acted.mark, Mark::Blank);
    }
    for n in library() {
        let last = EDGE(n.scheme.folds.len() as u32);
        for cause in of_the_folder(&n.scheme) {
            let acted = section(&n.scheme, &cause);
            let ends = [&acted.pages[0], acted.pages.last().unwrap()].map(|p| p.page.unwrap());
            // A four fed end for end is the section head to tail; with three rows the outermost leaves are, at least.
            let expected = match () {
                () if cause == last => Mark::Shows,
                // Two thirds of the sheet are rolled in first; the other way, the outermost leaves stay outside.
                () if n.name == "Twenty-four, twelves without cutting" && cause == WAY(1) => Mark::Shows,
                () if ends == [n.scheme.pages(), 1] => Mark::Mirrored,
                () => Mark::Blank,
            };
            assert_eq!(acted.mark, expected, "{}: {cause:?}", n.name);
            let head_to_tail = expected == Mark::Mirrored;
            assert_eq!(head_to_tail, cause == Cause::SheetEndForEnd && n.scheme.rows % 2 == 1 && ends[1] == 1);
        }
    }
}

/// The mark is on the outer forme, so it is blind to faults of the other one; a fault of its own forme that moves it
/// leaves the back blank.
#[test]
fn the_back_mark_is_blind_to_press_faults_of_the_inner_forme() {
    for n in library() {
        let turned = ways(&n.scheme, &Cause::SecondSideTurnedRound);
        assert_eq!(turned[0].mark, Mark::Shows, "{}", n.name);
        assert_ne!(turned[1].mark, Mark::Shows, "{}", n.name);
        assert!(turned[1].mark == Mark::Blank || n.scheme.rows % 2 == 1, "{}", n.name);
        for acted in ways(&n.scheme, &Cause::WrongSecondSide) {
            assert_eq!(acted.mark, Mark::Shows, "one forme or the other, a mark is printed: {}", n.name);
        }
        let outer = Landing::of(&n.scheme).unwrap().outer_forme();
        assert_eq!(section(&n.scheme, &Cause::SecondSideBlank { side: outer.other() }).mark, Mark::Shows);
        assert_eq!(section(&n.scheme, &Cause::SecondSideBlank { side: outer }).mark, Mark::Blank);
        for cause in [Cause::PagesExchanged { pages: [2, 3] }, Cause::PageHeadDown { page: 1 }, Cause::DoubleSheet] {
            assert_eq!(section(&n.scheme, &cause).mark, Mark::Shows, "{}: {cause:?}", n.name);
        }
    }
}

/// In a 16 folded by its second fold from the other edge, and in one with fold 3 the other way, the mark stands in the
/// centre spread.
#[test]
fn the_mark_of_the_sixteen_is_found_in_the_centre_spread() {
    let s = sixteen();
    let edge = section(&s, &EDGE(2));
    assert_eq!(told(&edge.pages), "8v 7v 6v 5v 4v 3v 2v 1v 16v 15v 14v 13v 12v 11v 10v 9v");
    let way = section(&s, &WAY(3));
    for (acted, centre) in [(edge, [Some(1), Some(16)]), (way, [Some(16), Some(1)])] {
        assert_eq!(([acted.pages[7].page, acted.pages[8].page], acted.mark), (centre, Mark::Blank));
    }
}

// ---- Three ways to lay a section wrong ----------------------------------------------------------------------------

/// Head to tail: 16v to 1v, the fold at the back, the mark at its mirrored height. Turned in its plane: 1v to 16v. Side
/// to side: 16 to 1 upright. Both of these have the fold at the fore-edge and no mark at the back. Plain geometry.
#[test]
fn a_section_lies_wrong_in_three_ways() {
    for n in library() {
        let pages = n.scheme.pages();
        let row = |numbers: &mut dyn Iterator<Item = u32>, head: &str| {
            numbers.map(|p| format!("{p}{head}")).collect::<Vec<String>>().join(" ")
        };
        for (lies, row, fold_at, mark) in [
            (Lies::HeadToTail, row(&mut (1..=pages).rev(), "v"), FoldAt::Spine, Mark::Mirrored),
            (Lies::TurnedInPlane, row(&mut (1..=pages), "v"), FoldAt::ForeEdge, Mark::Blank),
            (Lies::SideToSide, row(&mut (1..=pages).rev(), ""), FoldAt::ForeEdge, Mark::Blank),
        ] {
            let acted = section(&n.scheme, &Cause::SectionLies { lies });
            assert_eq!((told(&acted.pages), acted.fold_at, acted.mark), (row, fold_at, mark), "{}", n.name);
        }
    }
}

// ---- Faults of the press ------------------------------------------------------------------------------------------

/// Rows of the 16 worked out by an independent simulation; the first also on a printed quire: Penn Libraries, rare
/// books weblog, 2019-12-11 (leaf order).
#[test]
fn press_faults_of_the_sixteen_are_acted_out() {
    let s = sixteen();
    let rows = |cause: Cause| ways(&s, &cause).iter().map(|a| told(&a.pages)).collect::<Vec<String>>();
    assert_eq!(
        rows(Cause::SecondSideTurnedRound),
        ["1 6 7 4 5 2 3 8 9 14 15 12 13 10 11 16", "5 2 3 8 1 6 7 4 13 10 11 16 9 14 15 12"]
    );
    assert!(rows(Cause::WrongSecondSide)[0].starts_with("1 18 19 4 5 22 23 8 9 26 27 12"));
}
