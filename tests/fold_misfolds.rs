//! A printed sheet folded otherwise than it was printed for: the laws of misfolding.
//!
//! Number the leaves from 0. Where every fold halves the packet, fold f made the other way puts leaf i XOR 2^(f-1)
//! where leaf i should be, heads up, and several such folds combine. Computed once by an independent program for the
//! 8, the 16 and the 32; no published source.

#![allow(clippy::unwrap_used, reason = "what tests call may panic as tests may")]

use backmark::fold::{Direction, Face, Folding, Landing, Lands, Scheme, Section, Side, library};

/// The pages found from front to back, and whether each points as a right one would.
fn read(landing: &Landing, folded: &Scheme, printed_at: impl Fn(Face) -> (Face, bool)) -> Vec<(u32, bool)> {
    let section = Section::of(folded, &Folding::of(folded).unwrap()).unwrap();
    let found = section.faces.iter().map(|found| {
        let (face, turned) = printed_at(found.face);
        let page = landing.page(landing.page_on(&face).unwrap()).unwrap();
        let head = if turned { page.head.opposite() } else { page.head };
        assert_eq!(head.is_sideways(), found.head.is_sideways());
        (page.page, head == found.head)
    });
    found.collect()
}

fn as_printed(face: Face) -> (Face, bool) {
    (face, false)
}

fn upright(pages: &[u32]) -> Vec<(u32, bool)> {
    pages.iter().map(|p| (*p, true)).collect()
}

fn named(name: &str) -> Scheme {
    library().into_iter().find(|n| n.name == name).unwrap().scheme
}

/// The 16 of Nicholson, *Manual of the Art of Bookbinding* (1878), pp. 35-36.
fn sixteen() -> Scheme {
    named("Sixteen, three folds")
}

#[test]
fn each_fold_of_the_sixteen_made_the_other_way() {
    let right = sixteen();
    let landing = Landing::of(&right).unwrap();
    assert_eq!(read(&landing, &right, as_printed), upright(&(1..=16).collect::<Vec<_>>()));
    for (fold, pages) in [
        (1, [3, 4, 1, 2, 7, 8, 5, 6, 11, 12, 9, 10, 15, 16, 13, 14]),
        (2, [5, 6, 7, 8, 1, 2, 3, 4, 13, 14, 15, 16, 9, 10, 11, 12]),
        (3, [9, 10, 11, 12, 13, 14, 15, 16, 1, 2, 3, 4, 5, 6, 7, 8]),
    ] {
        assert_eq!(read(&landing, &right.fold_other_way(fold), as_printed), upright(&pages), "fold {fold}");
    }
}

#[test]
fn folds_the_other_way_are_a_mask_on_the_leaves() {
    for name in [
        "Eight, two right-angle folds",
        "Eight, two parallel folds",
        "Sixteen, three folds",
        "Sixteen, two parallel and right angle",
        "Thirty-two, four right-angle folds",
        "Thirty-two, three right-angle and parallel",
        "Sixty-four, five folds",
    ] {
        let base = named(name);
        let combinations = 1u32 << base.folds.len();
        let with = |ways: u32| {
            let mut scheme = base.clone();
            for (i, fold) in scheme.folds.iter_mut().enumerate() {
                fold.lands = if ways >> i & 1 == 0 { Lands::Over } else { Lands::Under };
            }
            scheme
        };
        for printed in 0..combinations {
            let landing = Landing::of(&with(printed)).unwrap();
            for mask in 0..combinations {
                let expected: Vec<(u32, bool)> = (0..base.leaves())
                    .flat_map(|leaf| [2 * (leaf ^ mask) + 1, 2 * (leaf ^ mask) + 2])
                    .map(|page| (page, true))
                    .collect();
                assert_eq!(read(&landing, &with(printed ^ mask), as_printed), expected, "{name}, {printed} {mask}");
            }
        }
    }
}

fn from_other_edge(scheme: &Scheme, fold: usize) -> Scheme {
    let mut other = scheme.clone();
    other.folds[fold - 1].moves = other.folds[fold - 1].moves.other();
    other
}

#[test]
fn a_fold_made_from_the_other_edge() {
    let right = sixteen();
    let landing = Landing::of(&right).unwrap();
    let found = |folded: &Scheme| read(&landing, folded, as_printed);
    assert_eq!(found(&from_other_edge(&right, 3)), found(&right), "the last fold: the same section, other side up");
    assert_eq!(
        found(&from_other_edge(&right, 1)),
        found(&right.fold_other_way(2).fold_other_way(3)),
        "fold 1 from the other edge looks like folds 2 and 3 the other way"
    );
    let head_down: Vec<(u32, bool)> = (1..=8).rev().chain((9..=16).rev()).map(|page| (page, false)).collect();
    assert_eq!(found(&from_other_edge(&right, 2)), head_down, "a fold across the heads turns them down");
}

/// The second side printed half turned round: heads stay up, the leaf pairs are broken. Which of the two rows is read
/// depends on the side that the folder's lay follows. Leaf order of the second documented on a printed quire: Penn
/// Libraries, rare books weblog, 2019-12-11.
#[test]
fn one_side_printed_half_turned_round() {
    let right = sixteen();
    let landing = Landing::of(&right).unwrap();
    let turned = |which: Side| {
        move |face: Face| {
            if face.side == which {
                (Face { row: 1 - face.row, column: 3 - face.column, ..face }, true)
            } else {
                (face, false)
            }
        }
    };
    assert_eq!(
        read(&landing, &right, turned(Side::B)),
        upright(&[5, 2, 3, 8, 1, 6, 7, 4, 13, 10, 11, 16, 9, 14, 15, 12])
    );
    assert_eq!(
        read(&landing, &right, turned(Side::A)),
        upright(&[1, 6, 7, 4, 5, 2, 3, 8, 9, 14, 15, 12, 13, 10, 11, 16])
    );
    assert_eq!(right.head, Direction::Up);
}
