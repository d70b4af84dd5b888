//! Sheets of exercises as they lie on a bench: blank, as printed, folded as told or as answered.

use super::action::Action;
use super::state::State;
use super::update::update;
use crate::fold::misfold::PrintedPage;
use crate::fold::{Course, Direction, Fold, Landing, Reads, Scheme, Worked};
use crate::practice::{Answer, Cell, Exercise, Marked, PrintedCell, SheetCells, Task};
use crate::scene::{Bench, Figure, Printing};

/// The ways in which heads can point.
const HEADS: [Direction; 4] = [Direction::Up, Direction::Down, Direction::Left, Direction::Right];

/// A program's state in which this sheet, and nothing of anybody's job, lies on the bench.
#[must_use]
pub fn state_of_course(course: &Course) -> State {
    update(&State::default(), Action::Take(course.clone())).0
}

/// The same for a sheet of so many panels on which folds are made one by one, with those that were made.
#[must_use]
pub fn state_of_folds(rows: u32, columns: u32, folds: &[Fold]) -> State {
    let state = update(&State::default(), Action::MakeOwn { rows, columns }).0;
    let mut state = folds.iter().fold(state, |state, fold| update(&state, Action::AddFold(*fold)).0);
    state.look.at = state.scheme().folds.len() as f64;
    (state.past, state.future) = (Vec::new(), Vec::new());
    state
}

/// The sheet of a state before anything was printed on it.
#[must_use]
pub fn blank_sheet(state: &State) -> Printing {
    Printing { cells: [].into(), differs: [].into(), landing: None, mark: None, ..state.whole_printing() }
}

/// A sheet with both sides printed so, row by row, each as seen from its own side.
#[must_use]
pub fn printed_sheet(side_a: &[Vec<PrintedCell>], side_b: &[Vec<PrintedCell>]) -> Printing {
    let (rows, columns) = (side_a.len() as u32, side_a.first().map_or(0, Vec::len) as u32);
    let blank = Printing::blank(rows, columns);
    let figure = |cell: &PrintedCell| cell.map(|c| Figure { page: c.page, head: Some(c.head) });
    let backs = side_b.iter().flat_map(|row| row.iter().rev());
    let heads = side_a.iter().chain(side_b).flatten().find_map(|c| c.map(|c| c.head));
    Printing {
        cells: side_a.iter().flatten().chain(backs).map(figure).collect(),
        sideways: heads.is_some_and(Direction::is_sideways),
        ..blank
    }
}

/// A printed sheet on the bench, worked by a course. One that can't be folded to the end is folded as far as it goes.
#[must_use]
pub fn printed_bench(course: &Course, printing: Printing) -> Option<Bench> {
    Bench::of_course(Printing { reads: course.reads, ..printing }, course, 0).ok()
}

/// A sheet that was answered right: how it is worked, and what stands on it.
#[must_use]
pub fn right_sheet(exercise: &Exercise, answer: &Answer) -> Option<(Course, Printing)> {
    match (&exercise.task, exercise.right(), answer) {
        (Task::NumberSheet { course, .. } | Task::SetHeads { course, .. }, Answer::Sheet(cells), _) => {
            Some((course.clone(), written_sheet(&cells)))
        }
        (Task::FindFolds { side_a, side_b, .. }, _, Answer::Folds(folds)) => {
            let printing = printed_sheet(side_a, side_b);
            let (rows, columns) = (printing.rows, printing.columns);
            let scheme = |head| Scheme { rows, columns, folds: folds.clone(), head, reads: Reads::LeftToRight };
            let course = HEADS.into_iter().map(|head| Course::of_scheme(&scheme(head)));
            let reads = |course: &Course| printed_bench(course, printing.clone()).is_some_and(|b| reads_on(&b, 1));
            Some((course.into_iter().find(reads)?, printing))
        }
        _ => None,
    }
}

/// A sheet with what was written in its cells; what has no head yet is not printed.
fn written_sheet(cells: &SheetCells) -> Printing {
    let cell = |c: &Cell| Some(PrintedPage { page: c.page?, head: c.head? });
    let side = |cells: &[Vec<Cell>]| -> Vec<Vec<PrintedCell>> {
        cells.iter().map(|row| row.iter().map(cell).collect()).collect()
    };
    printed_sheet(&side(&cells.side_a), &side(&cells.side_b))
}

/// A sheet, folded right, and the same with what was answered: how far both are folded and opened to show where they part.
#[derive(Clone, Debug)]
pub struct BesideRight {
    /// As it should be.
    pub right: Bench,
    /// As it was answered.
    pub answered: Bench,
    /// The moment at which they come to rest: open where the answer first departs, or else folded.
    pub at: u32,
}

/// What a marked answer makes beside what is right; `None` where it was right, or nothing can be put on a bench.
#[must_use]
pub fn beside_right(exercise: &Exercise, answer: &Answer, marked: &Marked) -> Option<BesideRight> {
    if marked.all_right() && marked.departs.is_none() {
        return None;
    }
    let (right, answered) = match (&exercise.task, exercise.right()) {
        (Task::NumberSheet { course, .. } | Task::SetHeads { course, .. }, Answer::Sheet(cells)) => {
            let shown = marked.shown.as_ref()?;
            let right = written_sheet(&cells);
            // Panels lie as the heads of the section do, whatever was answered.
            let answered = Printing { sideways: right.sideways, ..printed_sheet(&shown.side_a, &shown.side_b) };
            (printed_bench(course, right)?, printed_bench(course, answered)?)
        }
        (Task::FindFolds { side_a, side_b, .. }, Answer::Folds(folds)) => {
            let Answer::Folds(given) = answer else { return None };
            let printing = printed_sheet(side_a, side_b);
            let folded = |folds: &[Fold], head| {
                let (rows, columns) = (printing.rows, printing.columns);
                let scheme = Scheme { rows, columns, folds: folds.to_vec(), head, reads: Reads::LeftToRight };
                printed_bench(&Course::of_scheme(&scheme), printing.clone())
            };
            let right = HEADS.into_iter().find_map(|head| folded(&folds, head).filter(|b| reads_on(b, 1)))?;
            // As it was marked: the reading that comes nearest.
            let head = marked.shown.as_ref().and_then(|s| s.course.scheme()).map_or(Direction::Up, |s| s.head);
            (right, folded(given, head)?)
        }
        _ => return None,
    };
    // Moments are those of the sheet with more folds.
    let folds = answered.rule.folds.max(right.rule.folds) as u32;
    let open = |place: u32| folds + opens_at(&answered, place) - answered.rule.folds as u32;
    let at = marked.departs.as_ref().filter(|_| answered.rule.leaves > 0).map_or(folds, |d| open(d.place));
    Some(BesideRight { right, answered, at })
}

/// Whether a section on the bench reads on from this number, blanks left out.
fn reads_on(bench: &Bench, first: u32) -> bool {
    bench.section.as_ref().is_some_and(|section| {
        (first..).zip(&section.faces).all(|(due, face)| {
            bench.printing.figure(&face.face).is_none_or(|f| f.page == due && f.head.is_none_or(|h| h == face.head))
        })
    })
}

/// The moment at which a section lies open at a place, counted from 1 at its front.
#[must_use]
pub fn opens_at(bench: &Bench, place: u32) -> u32 {
    bench.rule.folds as u32 + 2 + (place / 2).min(bench.rule.leaves as u32)
}

/// Whether the heads of a section run along the sheet's width, so that its pages lie on their sides on the sheet.
#[must_use]
pub fn lies_sideways(course: &Course) -> bool {
    let landing: Option<Landing> = Worked::of(course).ok().and_then(|worked| worked.landing(0, 0));
    landing.is_some_and(|l| l.pages.first().is_some_and(|p| p.head.is_sideways()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::practice::{Kind, LEVELS};

    fn all(kind: Kind) -> impl Iterator<Item = Exercise> {
        (1..=LEVELS).flat_map(move |level| (0..6).map(move |seed| Exercise::of(kind, level, seed).unwrap()))
    }

    #[test]
    fn a_blank_sheet_is_folded_as_it_is_told_and_shows_no_number() {
        for exercise in all(Kind::NumberSheet) {
            let Task::NumberSheet { course, .. } = &exercise.task else { panic!() };
            let state = state_of_course(course);
            assert_eq!(state.sheet().course, *course);
            let bench = printed_bench(course, blank_sheet(&state)).unwrap();
            assert!(bench.rule.leaves > 0, "{course:?}");
            assert!(bench.printing.faces().all(|f| bench.printing.figure(&f).is_none()));
        }
    }

    #[test]
    fn folds_made_by_hand_are_those_of_the_answer() {
        for exercise in all(Kind::FindFolds) {
            let Task::FindFolds { side_a, .. } = &exercise.task else { panic!() };
            let Answer::Folds(folds) = exercise.right() else { panic!() };
            let state = state_of_folds(side_a.len() as u32, side_a[0].len() as u32, &folds);
            assert_eq!(state.scheme().folds, folds);
        }
    }

    #[test]
    fn a_wrong_answer_lies_open_where_it_departs() {
        for exercise in all(Kind::NumberSheet).chain(all(Kind::SetHeads)) {
            let Answer::Sheet(mut cells) = exercise.right() else { panic!() };
            assert!(
                beside_right(&exercise, &Answer::Sheet(cells.clone()), &exercise.mark(&exercise.right(), 0)).is_none()
            );
            let cell = &mut cells.side_b[0][0];
            cell.head = cell.head.map(|h| h.opposite());
            let answer = Answer::Sheet(cells);
            let marked = exercise.mark(&answer, 0);
            let beside = beside_right(&exercise, &answer, &marked).unwrap();
            assert!(reads_on(
                &beside.right,
                beside.right.printing.figure(&beside.right.section.as_ref().unwrap().faces[0].face).unwrap().page
            ));
            let place = marked.departs.unwrap().place;
            assert_eq!(beside.at, beside.right.rule.folds as u32 + 2 + place / 2);
            let differs = beside
                .right
                .printing
                .faces()
                .filter(|f| beside.right.printing.figure(f) != beside.answered.printing.figure(f));
            assert_eq!(differs.count(), 1);
        }
        for exercise in all(Kind::FindFolds) {
            let Answer::Folds(mut folds) = exercise.right() else { panic!() };
            folds[0].lands = folds[0].lands.other();
            let answer = Answer::Folds(folds);
            let marked = exercise.mark(&answer, 0);
            if marked.all_right() {
                continue;
            }
            let beside = beside_right(&exercise, &answer, &marked).unwrap();
            assert!(beside.right.rule.leaves > 0 && beside.answered.rule.leaves > 0);
            assert!(beside.at > beside.right.rule.folds as u32);
        }
    }
}
