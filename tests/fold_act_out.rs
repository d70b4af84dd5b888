//! Every cause carried out, checked a second way: the sheet that is drawn, folded by the plain engine, reads the pages
//! that were told, and the search for causes names the cause again.

#![allow(clippy::unwrap_used, reason = "what tests call may panic as tests may")]

use backmark::fold::misfold::{
    Acted, Cause, FoldAt, FoundPage, Lies, Mark, PrintedPage, Sheet, act_out, acts_out_all, explain,
};
use backmark::fold::{Crease, Direction, Folding, FoundFace, Scheme, Section, Showing, Side, library};

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

fn named(pages: &Acted, scheme: &Scheme, first: u32) -> Option<Vec<Cause>> {
    let found = explain(scheme, first, pages.fold_at, &pages.pages).unwrap();
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
