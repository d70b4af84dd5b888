//! Every cause carried out, checked a second way: the sheet that is drawn, folded by the plain engine, reads the pages
//! that were told, and the search for causes names the cause again.

#![allow(clippy::unwrap_used, reason = "what tests call may panic as tests may")]

use backmark::fold::misfold::{
    Acted, Cause, FoldAt, FoundPage, Lies, Mark, PrintedPage, Sheet, act_out, acts_out_all, explain, look_alikes,
};
use backmark::fold::{
    Crease, Direction, Fold, Folding, FoundFace, Lands, Part, Reads, Scheme, Section, Showing, Side, library,
};
use proptest::prelude::*;

/// Every single cause; of the faults of single pages, a few.
fn singles(scheme: &Scheme, first: u32) -> Vec<Cause> {
    let folds = 1..=scheme.folds.len() as u32;
    let last = first + scheme.pages() - 1;
    let mut causes: Vec<Cause> = folds
        .flat_map(|fold| [Cause::FoldOtherWay { fold }, Cause::FoldFromOtherEdge { fold }])
        .chain([Crease::Vertical, Crease::Horizontal].map(|about| Cause::SheetTurnedOver { about }))
        .chain([Side::A, Side::B].map(|side| Cause::SecondSideBlank { side }))
        .chain([Lies::HeadToTail, Lies::TurnedInPlane, Lies::SideToSide].map(|lies| Cause::SectionLies { lies }))
        .collect();
    causes.extend([Cause::SheetEndForEnd, Cause::SecondSideTurnedRound, Cause::WrongSecondSide, Cause::DoubleSheet]);
    causes.extend(
        [[first, last], [first + 1, first + 2], [first, first + 3]].map(|pages| Cause::PagesExchanged { pages }),
    );
    causes.extend([first, last].map(|page| Cause::PageHeadDown { page }));
    causes
}

fn of_one_page(cause: &Cause) -> bool {
    matches!(cause, Cause::PagesExchanged { .. } | Cause::PageHeadDown { .. })
}

/// What is printed on a face, by the grids alone.
fn printed(sheet: &Sheet, scheme: &Scheme, at: &FoundFace) -> Option<PrintedPage> {
    let side = if at.face.side == Side::A { &sheet.side_a } else { &sheet.side_b };
    side[at.face.row as usize][at.face.column_seen(scheme.columns) as usize]
}

/// Folds the drawn sheet, or both of them, with the plain engine and reads it.
fn read(acted: &Acted) -> Vec<FoundPage> {
    let section = Section::of(&acted.folded, &Folding::of(&acted.folded).unwrap()).unwrap();
    let page = |sheet: &Sheet, at: &FoundFace| match printed(sheet, &acted.folded, at) {
        None => FoundPage { page: None, head: None },
        Some(page) => {
            let head = if page.head == at.head { Direction::Up } else { Direction::Down };
            assert_eq!(page.head.is_sideways(), at.head.is_sideways());
            FoundPage { page: Some(page.page), head: Some(head) }
        }
    };
    let leaf = |leaf: &[FoundFace]| -> Vec<FoundPage> {
        // Of two sheets, the one nearer to side A is met first where side A faces the front.
        let sheets: Vec<&Sheet> = match (&acted.under, leaf[0].face.side) {
            (None, _) => vec![&acted.sheet],
            (Some(under), Side::A) => vec![&acted.sheet, under],
            (Some(under), Side::B) => vec![under, &acted.sheet],
        };
        sheets.iter().flat_map(|s| leaf.iter().map(|at| page(s, at))).collect()
    };
    section.faces.chunks(2).flat_map(leaf).collect()
}

/// What the engine shows of the mark as it is drawn on the outermost sheet.
fn mark(acted: &Acted) -> Mark {
    let section = Section::of(&acted.folded, &Folding::of(&acted.folded).unwrap()).unwrap();
    let under = acted.under.as_ref().filter(|_| section.faces[0].face.side == Side::B);
    match under.unwrap_or(&acted.sheet).mark.map(|m| m.showing(&section)) {
        // A section that lies with its fold at the fore-edge shows nothing at the back.
        _ if acted.fold_at == FoldAt::ForeEdge => Mark::Blank,
        Some(Showing::OnSpine) => Mark::Shows,
        Some(Showing::OnSpineFromTail) => Mark::Mirrored,
        Some(Showing::OnEdge(_) | Showing::Inside) | None => Mark::Blank,
    }
}

fn named(acted: &Acted, scheme: &Scheme, first: u32) -> Option<Vec<Cause>> {
    let found = explain(scheme, first, acted.fold_at, &acted.pages).unwrap();
    let right = (first..).zip(&acted.pages).all(|(n, p)| (p.page, p.head) == (Some(n), Some(Direction::Up)));
    let as_many = acted.pages.len() == scheme.pages() as usize;
    assert_eq!(found.right, right && as_many && acted.fold_at == FoldAt::Spine);
    assert!(found.complete);
    let all = found.causes.into_iter().flat_map(|e| std::iter::once(e.cause).chain(e.same_pages_as)).collect();
    (!found.right).then_some(all)
}

#[test]
fn every_single_cause_is_drawn_folded_read_and_named_again() {
    for n in library() {
        for first in [1, n.scheme.pages() + 1] {
            let scheme = &n.scheme;
            for cause in singles(scheme, first) {
                if matches!(cause, Cause::PagesExchanged { pages: [_, b] } if b >= first + scheme.pages()) {
                    continue;
                }
                let ways = acts_out_all(scheme, first, &cause).unwrap();
                assert_eq!(act_out(scheme, first, &cause).as_ref(), Ok(&ways[0]));
                for acted in &ways {
                    assert_eq!(read(acted), acted.pages, "{}: {cause:?}", n.name);
                    assert_eq!(mark(acted), acted.mark, "{}: {cause:?}", n.name);
                    if let Some(all) = named(acted, scheme, first) {
                        assert!(all.contains(&cause), "{}: {cause:?} among {all:?}", n.name);
                    }
                }
            }
        }
    }
}

/// Two at once; where one of them changes nothing beside the other, that one alone is named.
#[test]
fn every_two_causes_at_once_are_drawn_folded_read_and_named_again() {
    let (mut pairs, mut unnamed) = (0, 0);
    for n in library().into_iter().filter(|n| n.scheme.leaves() <= 8) {
        let (scheme, first) = (&n.scheme, n.scheme.pages() + 1);
        let causes = singles(scheme, first);
        let alone: Vec<(&Cause, Vec<Acted>)> =
            causes.iter().map(|c| (c, acts_out_all(scheme, first, c).unwrap_or_default())).collect();
        for (i, (one, one_alone)) in alone.iter().enumerate() {
            for (other, other_alone) in &alone[i + 1..] {
                let mut both = vec![(*one).clone(), (*other).clone()];
                let Ok(ways) = acts_out_all(scheme, first, &Cause::Together { causes: both.clone() }) else {
                    continue;
                };
                for acted in &ways {
                    pairs += 1;
                    let said = || format!("{}: {one:?} and {other:?}", n.name);
                    assert_eq!(read(acted), acted.pages, "{}", said());
                    assert_eq!(mark(acted), acted.mark, "{}", said());
                    let Some(all) = named(acted, scheme, first) else { continue };
                    let together = |causes: &[Cause]| Cause::Together { causes: causes.to_vec() };
                    let pair = all.contains(&together(&both)) || {
                        both.reverse();
                        all.contains(&together(&both))
                    };
                    let same = |a: &Acted| a.pages == acted.pages && a.fold_at == acted.fold_at;
                    let nothing_new = one_alone.iter().chain(other_alone).any(same);
                    assert!(pair || nothing_new, "{}: {all:?}", said());
                    unnamed += u32::from(!pair);
                }
            }
        }
    }
    assert!(pairs > 1000 && unnamed < pairs / 5, "{unnamed} of {pairs}");
}

/// Causes that are told to look alike are those that the search names for their pages, with the same mark.
#[test]
fn look_alikes_are_what_the_search_names() {
    for n in library() {
        let (scheme, first) = (&n.scheme, n.scheme.pages() + 1);
        let alikes = look_alikes(scheme, first).unwrap();
        let mut told: Vec<Cause> = alikes.no_harm.clone();
        for group in &alikes.groups {
            let found = explain(scheme, first, group.fold_at, &group.pages).unwrap();
            let best = &found.causes[0];
            let all = std::iter::once(&best.cause).chain(&best.same_pages_as);
            let singles: Vec<&Cause> = all.filter(|c| !matches!(c, Cause::Together { .. })).collect();
            assert_eq!(singles, group.causes.iter().collect::<Vec<_>>(), "{}", n.name);
            assert_eq!(best.mark, group.mark, "{}", n.name);
            assert_eq!(group.example, of_one_page(&group.causes[0]));
            told.extend(group.causes.iter().cloned());
        }
        for cause in singles(scheme, first).iter().filter(|c| !of_one_page(c)) {
            assert!(told.contains(cause), "{}: {cause:?}", n.name);
        }
    }
}

/// Folds to the end by choosing every fold with the next number; the head lies where the last crease allows it.
fn finished(rows: u32, columns: u32, numbers: &[u32], reads: Reads) -> Scheme {
    let mut scheme = Scheme { rows, columns, folds: Vec::new(), head: Direction::Up, reads };
    let (mut rows, mut columns) = (rows, columns);
    let mut numbers = numbers.iter().copied().cycle();
    while rows * columns > 1 {
        let n = numbers.next().unwrap_or(0);
        let vertical = rows == 1 || (columns > 1 && n % 2 == 0);
        let size = if vertical { &mut columns } else { &mut rows };
        let after = if n / 2 % 2 == 0 { *size / 2 } else { 1 + n / 32 % (*size - 1) };
        *size = after.max(*size - after);
        let parts = if vertical { [Part::Left, Part::Right] } else { [Part::Top, Part::Bottom] };
        let lands = if n / 16 % 2 == 0 { Lands::Over } else { Lands::Under };
        scheme.folds.push(Fold::new(after, parts[(n / 8 % 2) as usize], lands));
    }
    let vertical = scheme.folds.last().is_some_and(|f| f.crease == Crease::Vertical);
    scheme.head = match (vertical, numbers.next().unwrap_or(0) % 2) {
        (true, 0) => Direction::Up,
        (true, _) => Direction::Down,
        (false, 0) => Direction::Left,
        (false, _) => Direction::Right,
    };
    scheme
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn any_cause_of_any_scheme_is_drawn_folded_read_and_named_again(
        rows in 1..6u32,
        columns in 2..8u32,
        numbers in proptest::collection::vec(any::<u32>(), 1..16),
        right_to_left in any::<bool>(),
        first in 1..200u32,
        which in any::<prop::sample::Index>(),
        other in proptest::option::of(any::<prop::sample::Index>()),
    ) {
        let reads = if right_to_left { Reads::RightToLeft } else { Reads::LeftToRight };
        let scheme = finished(rows, columns, &numbers, reads);
        let causes = singles(&scheme, first);
        let one = which.get(&causes);
        let alone = acts_out_all(&scheme, first, one).unwrap();
        let (cause, ways, alone) = match other.map(|other| other.get(&causes)).filter(|other| *other != one) {
            None => (one.clone(), alone, Vec::new()),
            Some(other) => {
                let others = acts_out_all(&scheme, first, other).unwrap();
                let cause = Cause::Together { causes: vec![one.clone(), other.clone()] };
                let ways = acts_out_all(&scheme, first, &cause).unwrap_or_default();
                (cause, ways, [alone, others].concat())
            }
        };
        for acted in &ways {
            prop_assert_eq!(&read(acted), &acted.pages);
            prop_assert_eq!(mark(acted), acted.mark);
            let Some(all) = named(acted, &scheme, first) else { continue };
            let nothing_new = alone.iter().any(|a| a.pages == acted.pages && a.fold_at == acted.fold_at);
            let same = |c: &Cause| {
                let (of, wanted) = (c.singles(), cause.singles());
                of.len() == wanted.len() && wanted.iter().all(|w| of.contains(w))
            };
            prop_assert!(nothing_new || all.iter().any(same), "{:?} among {:?}", cause, all);
        }
    }
}
