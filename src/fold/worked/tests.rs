//! Courses carried out, by hand-made cases.

use super::*;
use crate::fold::course::Slit;
use crate::fold::course::{End, Parted, Steps};
use crate::fold::scheme::{Crease, Fold};
use crate::fold::{Direction, Reads, library};

fn over(after: u32, moves: Part) -> Fold {
    Fold::new(after, moves, Lands::Over)
}

fn apart(crease: Crease, after: u32, first: Steps, second: Steps) -> End {
    End::Slit(Box::new(Slit { crease, after, then: Parted::Apart { first, second } }))
}

#[test]
fn a_sheet_folded_whole_lands_as_its_scheme() {
    for named in library() {
        let worked = Worked::of(&Course::of_scheme(&named.scheme)).unwrap();
        assert_eq!(worked.landing(0, 0), Landing::of(&named.scheme).ok(), "{}", named.name);
        let own = worked.own_sheet(0).unwrap();
        assert_eq!(own.scheme, named.scheme);
    }
}

/// The common twelves of J. B. Nicholson, *A Manual of the Art of Bookbinding* (1878), pp. 36-37: the off-cut is 9 to
/// 16 and goes into the middle of an octavo.
#[test]
fn an_off_cut_is_inset() {
    let off_cut = Steps::piece(vec![over(2, Part::Right), over(1, Part::Right)], Direction::Up);
    let octavo = Steps::piece(vec![over(2, Part::Right), over(1, Part::Top), over(1, Part::Right)], Direction::Up);
    let end = apart(Crease::Horizontal, 1, off_cut, octavo);
    let steps = Steps { folds: vec![], end };
    let course = Course { rows: 3, columns: 4, steps, copies: vec![vec![vec![1, 0]]], reads: Reads::LeftToRight };
    let worked = Worked::of(&course).unwrap();
    let landing = worked.landing(0, 0).unwrap();
    assert_eq!(landing.pages.len(), 24);
    for page in &landing.pages {
        assert_eq!(page.face.row == 0, (9..=16).contains(&page.page), "{page:?}");
        assert_eq!(page.conjugate, Some(25 - page.page), "twelves: 25 across the back");
    }
}

/// Two folds of the whole, then slit: each part is what it would be slit first and folded by itself.
#[test]
fn a_piece_slit_after_folding_is_a_sheet_of_its_own() {
    let last = |head| Steps::piece(vec![over(1, Part::Right)], head);
    let folds = vec![over(4, Part::Right), over(1, Part::Bottom), over(2, Part::Left)];
    let end = apart(Crease::Horizontal, 1, last(Direction::Up), last(Direction::Down));
    let course = Course {
        rows: 3,
        columns: 8,
        steps: Steps { folds, end },
        copies: vec![vec![vec![0], vec![1]]],
        reads: Reads::LeftToRight,
    };
    let worked = Worked::of(&course).unwrap();
    for (i, piece) in worked.pieces.iter().enumerate() {
        let own = worked.own_sheet(i);
        let Some(own) = own else { continue };
        let alone = Landing::of(&own.scheme).unwrap();
        for (page, found) in (1u32..).zip(&piece.section.faces) {
            let at = alone.page(page).unwrap();
            assert_eq!(at.face.side, found.face.side);
            assert_eq!(at.face.row.cast_signed() + own.area.y0, found.face.row.cast_signed());
            assert_eq!(at.face.column.cast_signed() + own.area.x0, found.face.column.cast_signed());
            assert_eq!(at.head, found.head);
        }
    }
    assert!(worked.own_sheet(0).is_some() || worked.own_sheet(1).is_some());
}

#[test]
fn what_cannot_be_is_refused_where_it_stands() {
    let leaf = || Steps::piece(vec![], Direction::Up);
    let course = |end, copies| Course {
        rows: 1,
        columns: 2,
        steps: Steps { folds: vec![], end },
        copies,
        reads: Reads::LeftToRight,
    };
    let why = |c: &Course| Worked::of(c).unwrap_err();
    let slit = |after| apart(Crease::Vertical, after, leaf(), leaf());
    assert_eq!(why(&course(slit(2), vec![vec![vec![0]]])).at, "steps[0].after");
    assert_eq!(why(&course(slit(1), vec![vec![vec![0], vec![2]]])).at, "gather[1]");
    assert_eq!(why(&course(slit(1), vec![vec![vec![0, 1]]])).at, "gather[0].inset[0]");
    let two = worked_pages(&course(slit(1), vec![vec![vec![0], vec![1]]]));
    assert_eq!(two, [2, 2], "single leaves are sections of two pages");
}

fn worked_pages(course: &Course) -> Vec<u32> {
    let worked = Worked::of(course).unwrap();
    course.copies[0].iter().map(|nest| worked.pages_of(nest)).collect()
}
