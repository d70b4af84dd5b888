//! A section found wrong, and what was done to it. Rows of pages were worked out independently by a fold simulation
//! unless another source is named.

#![allow(clippy::unwrap_used, reason = "what tests call may panic as tests may")]

use backmark::fold::misfold::{
    Cause, Explained, FoldAt, FoundPage, Lies, MAX_EXPLAINED, Mark, NotExplained, Stage, explain,
};
use backmark::fold::{Crease, Direction, Fold, Folding, Landing, Lands, Part, Reads, Scheme, Section, Side, library};
use proptest::prelude::*;

fn named(name: &str) -> Scheme {
    library().into_iter().find(|n| n.name == name).unwrap().scheme
}

fn sixteen() -> Scheme {
    named("Sixteen, three folds")
}

/// Pages as the trade writes them: `v` behind one head down, `–` for one not printed.
fn row(text: &str) -> Vec<FoundPage> {
    let page = |word: &str| match word {
        "–" => FoundPage { page: None, head: None },
        word => {
            let head = if word.ends_with('v') { Direction::Down } else { Direction::Up };
            FoundPage { page: Some(word.trim_end_matches('v').parse().unwrap()), head: Some(head) }
        }
    };
    text.split_whitespace().map(page).collect()
}

fn explained(scheme: &Scheme, text: &str) -> Explained {
    explain(scheme, 1, FoldAt::Spine, &row(text)).unwrap()
}

/// Every cause named, the first one and those that give the same pages.
fn all(explained: &Explained) -> Vec<Cause> {
    explained.causes.iter().flat_map(|e| std::iter::once(&e.cause).chain(&e.same_pages_as)).cloned().collect()
}

fn together(causes: &[Cause]) -> Cause {
    Cause::Together { causes: causes.to_vec() }
}

#[track_caller]
fn first(scheme: &Scheme, text: &str, cause: &Cause, stage: Stage, mark: Mark) -> Explained {
    let found = explained(scheme, text);
    let best = found.causes.first().unwrap();
    assert_eq!((&best.cause, best.stage, best.mark), (cause, stage, mark), "{found:#?}");
    assert!(!best.next_check.is_empty() && !best.caution.is_empty());
    found
}

const WAY: fn(u32) -> Cause = |fold| Cause::FoldOtherWay { fold };
const EDGE: fn(u32) -> Cause = |fold| Cause::FoldFromOtherEdge { fold };

#[test]
fn right_pages_need_no_cause() {
    for scheme in library().into_iter().map(|n| n.scheme) {
        let pages: Vec<String> = (1..=scheme.pages()).map(|p| p.to_string()).collect();
        let found = explained(&scheme, &pages.join(" "));
        assert!(found.causes.is_empty() && found.right && found.complete);
    }
}

#[test]
fn folds_of_the_sixteen_and_what_looks_like_them() {
    let s = sixteen();
    let found = first(&s, "3 4 1 2 7 8 5 6 11 12 9 10 15 16 13 14", &WAY(1), Stage::Folder, Mark::Blank);
    let over = Cause::SheetTurnedOver { about: Crease::Vertical };
    assert_eq!(found.causes[0].same_pages_as[0], over, "the sheet turned about the axis of fold 1");
    let found = first(&s, "5 6 7 8 1 2 3 4 13 14 15 16 9 10 11 12", &WAY(2), Stage::Folder, Mark::Blank);
    assert_eq!(found.causes[0].same_pages_as[0], Cause::SheetEndForEnd, "the other end first");
    first(&s, "9 10 11 12 13 14 15 16 1 2 3 4 5 6 7 8", &WAY(3), Stage::Folder, Mark::Blank);
    let found = first(
        &s,
        "7 8 5 6 3 4 1 2 15 16 13 14 11 12 9 10",
        &Cause::SheetTurnedOver { about: Crease::Horizontal },
        Stage::Folder,
        Mark::Blank,
    );
    assert!(all(&found).contains(&together(&[WAY(1), WAY(2)])));
    let edge = "8v 7v 6v 5v 4v 3v 2v 1v 16v 15v 14v 13v 12v 11v 10v 9v";
    first(&s, edge, &EDGE(2), Stage::Folder, Mark::Blank);
    let found = first(&s, "13 14 15 16 9 10 11 12 5 6 7 8 1 2 3 4", &EDGE(1), Stage::Folder, Mark::Blank);
    assert!(all(&found).contains(&together(&[WAY(2), WAY(3)])), "folds 2 and 3 both the other way");
}

#[test]
fn press_faults_of_the_sixteen() {
    let s = sixteen();
    let turned = Cause::SecondSideTurnedRound;
    first(&s, "5 2 3 8 1 6 7 4 13 10 11 16 9 14 15 12", &turned, Stage::Press, Mark::Blank);
    first(&s, "1 6 7 4 5 2 3 8 9 14 15 12 13 10 11 16", &turned, Stage::Press, Mark::Shows);
    let alien = Cause::WrongSecondSide;
    first(&s, "1 18 19 4 5 22 23 8 9 26 27 12 13 30 31 16", &alien, Stage::Press, Mark::Shows);
    let blank = Cause::SecondSideBlank { side: Side::A };
    first(&s, "1 – – 4 5 – – 8 9 – – 12 13 – – 16", &blank, Stage::Press, Mark::Shows);
    let blank = Cause::SecondSideBlank { side: Side::B };
    first(&s, "– 2 3 – – 6 7 – – 10 11 – – 14 15 –", &blank, Stage::Press, Mark::Blank);
    let two = Cause::PagesExchanged { pages: [6, 7] };
    first(&s, "1 2 3 4 5 7 6 8 9 10 11 12 13 14 15 16", &two, Stage::Press, Mark::Shows);
    let down = Cause::PageHeadDown { page: 5 };
    first(&s, "1 2 3 4 5v 6 7 8 9 10 11 12 13 14 15 16", &down, Stage::Press, Mark::Shows);
}

#[test]
fn two_sheets_folded_as_one() {
    let (s, double) = (sixteen(), Cause::DoubleSheet);
    let row: String = (1..=8).map(|l| [2 * l - 1, 2 * l].map(|p| format!("{p} ")).concat().repeat(2)).collect();
    first(&s, &row, &double, Stage::Folder, Mark::Shows);
    let has = |text: &str, side| {
        let found = explained(&s, text);
        let wanted = together(&[double.clone(), Cause::SecondSideBlank { side }]);
        assert!(all(&found).contains(&wanted), "{found:#?}");
    };
    let leaves = |odd: &dyn Fn(u32, u32) -> String| -> String { (1..=8).map(|l| odd(2 * l - 1, 2 * l)).collect() };
    has(&leaves(&|a, b| format!("{a} – – {b} ")), Side::A);
    let one_blank = leaves(&|a, b| if a % 4 == 1 { format!("{a} – {a} {b} ") } else { format!("{a} {b} – {b} ") });
    has(&one_blank, Side::A);
}

/// Two sheets stuck together in the press, and folded as a pair. Stuck in both passes: the sides that touched are
/// blank. Stuck when backing up alone: one of the two lacks its second side, whichever lay on top and whichever side
/// came second. A quire of 1627 with blank pages of this kind: Folger Shakespeare Library, "Unintentionally blank
/// pages". The rows follow from plain geometry: a leaf of one sheet lies against the same leaf of the other.
#[test]
fn two_sheets_stuck_in_the_press() {
    let s = sixteen();
    for side in [Side::A, Side::B] {
        let wanted = together(&[Cause::DoubleSheet, Cause::SecondSideBlank { side }]);
        // The inner forme is side A here: pages 2, 3, 6, 7 …
        let of_side = |page: u32| (page % 4 / 2 == 1) == (side == Side::A);
        let rows = [true, false].map(|lacking_first| {
            let leaf = |leaf: u32| {
                let pages = [2 * leaf - 1, 2 * leaf];
                let printed = pages.map(|p| p.to_string());
                let lacking = pages.map(|p| if of_side(p) { "–".to_owned() } else { p.to_string() });
                // The sheet on side B comes first on leaves 1, 3, 5 …
                let first = (leaf % 2 == 1) == lacking_first;
                let both = if first { [lacking, printed] } else { [printed, lacking] };
                both.concat().join(" ")
            };
            (1..=8).map(leaf).collect::<Vec<String>>().join(" ")
        });
        if side == Side::A {
            assert!(rows[0].starts_with("1 – 1 2 3 4 – 4 5 –"), "{}", rows[0]);
            assert!(rows[1].starts_with("1 2 1 – – 4 3 4 5 6"), "{}", rows[1]);
        }
        let touching: String = (1..=8).map(|l| format!("{} – – {} ", 2 * l - 1, 2 * l)).collect();
        let outward: String = (1..=8).map(|l| format!("– {} {} – ", 2 * l, 2 * l - 1)).collect();
        for row in rows.iter().chain([&touching, &outward]) {
            let found = explained(&s, row);
            assert!(all(&found).contains(&wanted), "{row}: {found:#?}");
            assert_eq!(found.causes[0].stage, Stage::Press);
        }
    }
}

/// The other faults of a side, on one of two sheets folded as one: the pile was turned, or the plate changed, between
/// them. Sheets of side A's forme stand for themselves: 1 6 and 7 4 are leaves of the turned one.
#[test]
fn one_of_two_sheets_folded_as_one_has_a_fault_of_the_press() {
    let s = sixteen();
    let right: Vec<String> = (1..=16).map(|p| p.to_string()).collect();
    let turned = "1 6 7 4 5 2 3 8 9 14 15 12 13 10 11 16";
    let alien = "1 18 19 4 5 22 23 8 9 26 27 12 13 30 31 16";
    for (row, cause) in [(turned, Cause::SecondSideTurnedRound), (alien, Cause::WrongSecondSide)] {
        let faulty: Vec<String> = row.split(' ').map(str::to_owned).collect();
        for faulty_first in [true, false] {
            let leaf = |(i, (a, b)): (usize, (&[String], &[String]))| {
                let both = if (i % 2 == 0) == faulty_first { [a, b] } else { [b, a] };
                both.concat().join(" ")
            };
            let leaves: Vec<String> = faulty.chunks(2).zip(right.chunks(2)).enumerate().map(leaf).collect();
            let found = explained(&s, &leaves.join(" "));
            let wanted = together(&[Cause::DoubleSheet, cause.clone()]);
            assert!(all(&found).contains(&wanted), "{leaves:?}: {found:#?}");
        }
    }
}

#[test]
fn a_section_that_lies_wrong() {
    let s = sixteen();
    let lies = |lies| Cause::SectionLies { lies };
    let downward: String = (1..=16).rev().map(|p| format!("{p}v ")).collect();
    first(&s, &downward, &lies(Lies::HeadToTail), Stage::Gathering, Mark::Mirrored);
    let at_fore_edge = |text: &str| explain(&s, 1, FoldAt::ForeEdge, &row(text)).unwrap();
    let turned: String = (1..=16).map(|p| format!("{p}v ")).collect();
    let found = at_fore_edge(&turned);
    assert_eq!((&found.causes[0].cause, found.causes[0].mark), (&lies(Lies::TurnedInPlane), Mark::Blank));
    let back: String = (1..=16).rev().map(|p| format!("{p} ")).collect();
    assert_eq!(at_fore_edge(&back).causes[0].cause, lies(Lies::SideToSide));
    let spine = explained(&s, &turned);
    assert!(!all(&spine).contains(&lies(Lies::TurnedInPlane)), "its fold would be at the fore-edge");
}

#[test]
fn numbers_go_on_from_the_first_page() {
    let s = sixteen();
    let pages = row("17 18 19 20 21 23 22 24 25 26 27 28 29 30 31 32");
    let found = explain(&s, 17, FoldAt::Spine, &pages).unwrap();
    assert_eq!(found.causes[0].cause, Cause::PagesExchanged { pages: [22, 23] });
    let pages = row("17 2 3 20 21 6 7 24 25 10 11 28 29 14 15 32");
    let found = explain(&s, 17, FoldAt::Spine, &pages).unwrap();
    assert_eq!(found.causes[0].cause, Cause::WrongSecondSide);
}

#[test]
fn heads_that_were_not_looked_at_leave_more_causes_open() {
    let s = sixteen();
    let mut pages = row("16 15 14 13 12 11 10 9 8 7 6 5 4 3 2 1");
    assert!(explain(&s, 1, FoldAt::ForeEdge, &pages).unwrap().causes.len() == 1);
    pages.iter_mut().for_each(|p| p.head = None);
    let found = explain(&s, 1, FoldAt::Spine, &pages).unwrap();
    assert_eq!(found.causes[0].cause, Cause::SectionLies { lies: Lies::HeadToTail });
}

/// Pages from front to back of a sheet printed for one scheme and folded by another, found without the search.
fn misfolded(right: &Scheme, folded: &Scheme) -> Option<Vec<FoundPage>> {
    let landing = Landing::of(right).unwrap();
    let section = Section::of(folded, &Folding::of(folded).ok()?).ok()?;
    let page = |found: &backmark::fold::FoundFace| {
        let page = landing.page(landing.page_on(&found.face)?)?;
        let head = if page.head == found.head { Direction::Up } else { Direction::Down };
        Some(FoundPage { page: Some(page.page), head: Some(head) })
    };
    section.faces.iter().map(page).collect()
}

#[test]
fn planted_folds_are_found_again_alone_and_in_pairs() {
    for n in library() {
        let right = &n.scheme;
        let good = misfolded(right, right).unwrap();
        let mut singles: Vec<(Cause, Scheme)> = Vec::new();
        for (i, fold) in (1u32..).zip(&right.folds) {
            singles.push((WAY(i), right.fold_other_way(i)));
            let mut other = right.clone();
            other.folds[i as usize - 1].moves = fold.moves.other();
            singles.push((EDGE(i), other));
        }
        let mut planted: Vec<(Cause, Vec<FoundPage>)> =
            singles.iter().filter_map(|(c, s)| Some((c.clone(), misfolded(right, s)?))).collect();
        let alone: Vec<Vec<FoundPage>> = planted.iter().map(|(_, p)| p.clone()).collect();
        for (i, _) in (1u32..).zip(&right.folds) {
            for (c, s) in singles.iter().filter(|(c, _)| c.singles() != [&WAY(i)]) {
                let pages = misfolded(right, &s.fold_other_way(i));
                let known = |p: &Vec<FoundPage>| *p == good || alone.contains(p);
                if let Some(pages) = pages.filter(|p| !known(p)) {
                    let mut causes = vec![WAY(i), c.clone()];
                    causes.sort_by_key(|c| (matches!(c, Cause::FoldFromOtherEdge { .. }), format!("{c:?}")));
                    planted.push((together(&causes), pages));
                }
            }
        }
        for (cause, pages) in planted.into_iter().filter(|(_, pages)| *pages != good) {
            let found = explain(right, 1, FoldAt::Spine, &pages).unwrap();
            assert!(all(&found).contains(&cause), "{}: {cause:?} in {:#?}", n.name, found.causes);
            assert!(found.complete && !found.right, "{}", n.name);
            let pair = |c: &Cause| matches!(c, Cause::Together { .. });
            assert!(all(&found).is_sorted_by_key(pair), "single causes before pairs");
        }
    }
}

#[test]
fn a_single_page_fault_beside_another_cause_is_found() {
    let s = sixteen();
    let found = explained(&s, "3 4 1 2 6 8 5 7 11 12 9 10 15 16 13 14");
    assert!(all(&found).contains(&together(&[WAY(1), Cause::PagesExchanged { pages: [6, 7] }])), "{found:#?}");
    let found = explained(&s, "2 1 3 4 5v 6 7 8 9 10 11 12 13 14 15 16");
    let two = [Cause::PageHeadDown { page: 5 }, Cause::PagesExchanged { pages: [1, 2] }];
    assert_eq!(found.causes[0].cause, together(&two));
}

#[test]
fn sizes_are_bounded_and_the_longest_accordion_is_answered() {
    let accordion = |panels: u32| Scheme {
        rows: 1,
        columns: panels,
        folds: (1..panels).map(|_| Fold::new(1, Part::Left, Lands::Over)).collect(),
        head: Direction::Up,
        reads: Reads::LeftToRight,
    };
    let scheme = accordion(MAX_EXPLAINED);
    let pages: Vec<FoundPage> =
        (1..=scheme.pages()).rev().map(|p| FoundPage { page: Some(p), head: Some(Direction::Up) }).collect();
    let found = explain(&scheme, 1, FoldAt::Spine, &pages).unwrap();
    assert!(!found.complete, "the search for pairs was cut");
    let refused = explain(&accordion(MAX_EXPLAINED + 1), 1, FoldAt::Spine, &pages);
    assert_eq!(refused, Err(NotExplained::TooLarge));
    let short = explain(&sixteen(), 1, FoldAt::Spine, &row("1 2 3"));
    assert_eq!(short, Err(NotExplained::Count { one: 16, given: 3 }));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn any_pages_have_an_answer(
        which in 0..8usize,
        pages in proptest::collection::vec((proptest::option::of(1u32..40), proptest::option::of(any::<bool>())), 0..70),
        exact in any::<bool>(),
        at_spine in any::<bool>(),
        first in 1u32..60,
    ) {
        let scheme = library()[which].scheme.clone();
        let wanted = scheme.pages() as usize;
        let head = |up| if up { Direction::Up } else { Direction::Down };
        let mut pages: Vec<FoundPage> =
            pages.into_iter().map(|(page, up)| FoundPage { page, head: up.map(head) }).collect();
        if exact {
            pages.resize(wanted, FoundPage { page: Some(3), head: None });
        }
        let at = if at_spine { FoldAt::Spine } else { FoldAt::ForeEdge };
        let answer = explain(&scheme, first, at, &pages);
        prop_assert_eq!(answer.is_ok(), pages.len() == wanted || pages.len() == 2 * wanted);
    }
}
