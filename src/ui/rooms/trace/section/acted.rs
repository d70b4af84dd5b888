//! The two sheets that fold beside each other: the right one, and the one of a cause. No web in here.

use super::found::opening_of;
use crate::app::WayTold;
use crate::fold::misfold::FoundPage;
use crate::fold::{BackMark, Direction, Face, Side};
use crate::scene::{Bench, Figure, Printing};

/// How a sheet was laid, against how it should lie.
#[derive(Clone, Copy, PartialEq)]
enum Laid {
    Right,
    EndForEnd,
    OverSideways,
    OverUpwards,
}

impl Laid {
    const ALL: [Self; 4] = [Self::Right, Self::EndForEnd, Self::OverSideways, Self::OverUpwards];

    /// Where a face comes to lie.
    fn face(self, face: &Face, rows: u32, columns: u32) -> Face {
        let Face { side, row, column } = *face;
        let (up, across) = (rows.saturating_sub(row + 1), columns.saturating_sub(column + 1));
        match self {
            Self::Right => *face,
            Self::EndForEnd => Face { side, row: up, column: across },
            Self::OverSideways => Face { side: side.other(), row, column: across },
            Self::OverUpwards => Face { side: side.other(), row: up, column },
        }
    }

    /// Which way something on a face points then, as seen from its own side.
    fn points(self, way: Direction) -> Direction {
        match self {
            Self::Right | Self::OverSideways => way,
            Self::EndForEnd | Self::OverUpwards => way.opposite(),
        }
    }

    /// Where the lay corner comes to lie, as seen from the side that is up.
    const fn lay_corner(self) -> (bool, bool) {
        match self {
            Self::Right => (false, false),
            Self::EndForEnd => (true, true),
            Self::OverSideways => (true, false),
            Self::OverUpwards => (false, true),
        }
    }

    fn figure(self, figure: Option<Figure>) -> Option<Figure> {
        figure.map(|f| Figure { head: f.head.map(|h| self.points(h)), ..f })
    }

    fn mark(self, mark: &BackMark, rows: u32, columns: u32) -> BackMark {
        BackMark {
            first_page: self.face(&mark.first_page, rows, columns),
            last_page: self.face(&mark.last_page, rows, columns),
            spine: self.points(mark.spine),
            head: self.points(mark.head),
        }
    }
}

/// The sheet of a way, with the pages marked that stand at wrong places: all of them where they are few, else those of
/// the first wrong opening.
pub fn done_bench(way: &WayTold, right: &Printing, wrong: &[usize]) -> Option<Bench> {
    let blank = way.sheet.printing();
    let (rows, columns) = (blank.rows, blank.columns);
    let same_size = (right.rows, right.columns) == (rows, columns);
    let fits = |laid: Laid, side: Side| {
        let faces = right.faces().filter(|f| f.side == side);
        same_size
            && faces.into_iter().all(|f| laid.figure(right.figure(&f)) == blank.figure(&laid.face(&f, rows, columns)))
    };
    // Where one side is printed otherwise, the other one says how the sheet lies.
    let both = |laid: &Laid| fits(*laid, Side::A) && fits(*laid, Side::B);
    let either = |laid: &Laid| fits(*laid, Side::A) || fits(*laid, Side::B);
    let laid = Laid::ALL.into_iter().find(both).or_else(|| Laid::ALL.into_iter().find(either)).unwrap_or(Laid::Right);
    let mark = right.mark.as_ref().map(|(mark, from, to)| (laid.mark(mark, rows, columns), *from, *to));
    let (reads, lay_corner) = (way.scheme.reads, laid.lay_corner());
    let turned_over = matches!(laid, Laid::OverSideways | Laid::OverUpwards);
    let printing = Printing { mark, reads, lay_corner, turned_over, shift: right.shift, ..blank };
    let bench = Bench::new(printing.clone(), &way.scheme).ok()?;
    let faces = &bench.section.as_ref()?.faces;
    // Places are those of this one sheet only where nothing is laid into it, or over it.
    let wrong = if way.pages.len() == faces.len() { wrong } else { &[] };
    let few = wrong.len() * 2 <= faces.len();
    let opening = wrong.first().copied().map(opening_of);
    let marked = wrong.iter().filter(|at| few || Some(opening_of(**at)) == opening);
    let marked: Vec<Face> = marked.filter_map(|at| faces.get(*at)).map(|f| f.face).collect();
    Bench::new(printing.marking(&marked), &way.scheme).ok()
}

/// The places (from 0) where a way's section is wrong.
pub fn wrong_places(way: &WayTold, due: &[u32]) -> Vec<usize> {
    let wrong = |at: usize, page: &FoundPage| page.page != due.get(at).copied() || page.head == Some(Direction::Down);
    way.pages.iter().enumerate().filter(|(at, page)| wrong(*at, page)).map(|(at, _)| at).collect()
}

/// The moment at which both lie open at the first wrong place; folded only, where one sheet can't show the section.
pub fn ends_at(bench: &Bench, way: &WayTold, wrong: &[usize]) -> u32 {
    let folds = bench.rule.folds as u32;
    match wrong.first() {
        Some(at) if way.pages.len() == 2 * bench.rule.leaves => folds + 2 + opening_of(*at) as u32,
        _ => folds,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::State;
    use crate::app::{SectionCase, SectionEvidence, act_out_question, read_acted_out, read_section_told};
    use crate::json::Json;
    use crate::ui::bench::step_says;

    fn way(cause: Json) -> WayTold {
        let scheme = State::default().scheme();
        read_acted_out(&crate::ask::answer(&act_out_question(&scheme, 1, &cause))).unwrap().remove(0)
    }

    #[test]
    fn both_sheets_end_open_at_the_first_wrong_page() {
        let state = State::default();
        let evidence = SectionEvidence::Typed("1 6 7 4 5 2 3 8 9 14 15 12 13 10 11 16".into());
        let case = SectionCase { evidence, ..SectionCase::default() };
        let told = read_section_told(&crate::ask::answer(&case.question(&state.scheme().into(), 1).unwrap())).unwrap();
        let way = told.causes[0].way.clone().unwrap();
        let right = state.right_bench().unwrap();
        let wrong = wrong_places(&way, &told.due);
        let done = done_bench(&way, &right.printing, &wrong).unwrap();
        let end = ends_at(&done, &way, &wrong);
        assert_eq!(step_says(&done, end), "Open at 6 and 7");
        assert_eq!(step_says(&right, end), "Open at 2 and 3");
        assert_eq!((step_says(&done, 0), step_says(&done, 1)), ("Flat".into(), "1: right over left".into()));
        // Half of the pages are wrong, and so many faces are marked.
        assert_eq!(done.printing.faces().filter(|f| done.printing.is_marked(f)).count(), 8);
    }

    /// The back mark goes with the sheet: where it is turned over, it stands between the same two pages.
    #[test]
    fn the_mark_stays_between_first_and_last_page_however_the_sheet_lies() {
        let right = State::default().right_bench().unwrap();
        for cause in [
            Json::object([("kind", "sheet_end_for_end".into())]),
            Json::object([("kind", "sheet_turned_over".into()), ("about", "vertical".into())]),
            Json::object([("kind", "sheet_turned_over".into()), ("about", "horizontal".into())]),
        ] {
            let done = done_bench(&way(cause), &right.printing, &[0]).unwrap();
            let (mark, ..) = done.printing.mark.unwrap();
            let figure = |face: &Face| done.printing.figure(face).unwrap();
            assert_eq!((figure(&mark.first_page).page, figure(&mark.last_page).page), (1, 16));
            assert_eq!(figure(&mark.first_page).head, Some(mark.head));
            // The lay corner goes with the page beside it, and the paper with its side.
            let (at_right, at_top) = done.printing.lay_corner;
            let row = if at_top { 0 } else { done.printing.rows - 1 };
            let column = if at_right { done.printing.columns - 1 } else { 0 };
            let beside = [Side::A, Side::B].map(|side| figure(&Face { side, row, column }).page);
            assert!(beside.contains(&1) && beside.contains(&2), "{beside:?}");
            assert_eq!(done.printing.turned_over, beside[0] == 1);
        }
    }
}
