//! What the answer makes, beside what was found; a right answer beside the sheet as it should be. No web in here.

use super::super::sheet_stand::state_of;
use super::Both;
use crate::app::{Cell, Layout, WayTold};
use crate::fold::misfold::{Acted, Cause, FoundPage, PrintedPage, acts_out_all};
use crate::fold::{Course, Scheme};
use crate::practice::{Answer, Exercise, Task};
use crate::ui::rooms::trace::section::acted::{done_bench, ends_at};
use crate::ui::shared::Shared;

/// Causes as one.
fn together(causes: &[Cause]) -> Option<Cause> {
    match causes {
        [] => None,
        [one] => Some(one.clone()),
        _ => Some(Cause::Together { causes: causes.to_vec() }),
    }
}

/// Causes acted out: in the way that gives these pages, if there is one.
fn acted(scheme: &Scheme, first_page: u32, causes: &[Cause], pages: &[FoundPage]) -> Option<Acted> {
    let ways = acts_out_all(scheme, first_page, &together(causes)?).ok()?;
    let at = ways.iter().position(|way| way.pages == pages).unwrap_or(0);
    ways.into_iter().nth(at)
}

fn way(acted: Acted) -> WayTold {
    let sheets = acted.sheets();
    let cell = |cell: &Option<PrintedPage>| cell.map(|p| Cell { page: p.page, head: Some(p.head) });
    let side = |side: &[Vec<Option<PrintedPage>>]| side.iter().flatten().map(cell).collect();
    let sheet = Layout {
        rows: acted.folded.rows,
        columns: acted.folded.columns,
        side_a: side(&acted.sheet.side_a),
        side_b: side(&acted.sheet.side_b),
    };
    WayTold { scheme: acted.folded, sheet, pages: acted.pages, sheets }
}

/// Both benches; `None` where nothing was answered, or it can't be done to this sheet.
pub fn beside(exercise: &Exercise, answer: &Answer) -> Option<Both> {
    let Task::WrongSheet { scheme, first_page, pages, .. } = &exercise.task else { return None };
    let Answer::WrongSheet { causes, .. } = answer else { return None };
    let Answer::WrongSheet { causes: right, .. } = exercise.right() else { return None };
    let sheet = state_of(&Course::of_scheme(scheme), *first_page).right_bench()?;
    let done = way(acted(scheme, *first_page, causes, pages)?);
    let due: Vec<FoundPage> =
        sheet.section.as_ref()?.faces.iter().zip(*first_page..).map(|(_, page)| up(page)).collect();
    let fits = done.pages == *pages;
    // The places where the two differ, which are marked at the right.
    let against: &[FoundPage] = if fits { &due } else { pages };
    let differ: Vec<usize> =
        (0..done.pages.len().max(against.len())).filter(|at| done.pages.get(*at) != against.get(*at)).collect();
    let said = done_bench(&done, &sheet.printing, &differ)?;
    let end = ends_at(&said, &done, &differ);
    let note = if done.sheets == 1 { "" } else { "Two sheets are folded as one; the upper one is drawn." };
    let says = causes.iter().map(Cause::title).collect::<Vec<_>>().join(" ");
    let (names, left) = if fits {
        (["The right sheet", "As you say it was done"], sheet)
    } else {
        let found = way(acted(scheme, *first_page, &right, pages)?);
        (["As it was found", "As you say it was done"], done_bench(&found, &sheet.printing, &[])?)
    };
    Some(Both { names, left: Shared::new(left), right: Shared::new(said), end, says: says.into(), note: note.into() })
}

/// A page as it should be found.
fn up(page: u32) -> FoundPage {
    FoundPage { page: Some(page), head: Some(crate::fold::Direction::Up) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::practice::{Kind, LEVELS};

    #[test]
    fn a_right_answer_lies_beside_the_right_sheet_and_a_wrong_one_beside_what_was_found() {
        for level in 1..=LEVELS {
            for seed in 0..8 {
                let exercise = Exercise::of(Kind::WrongSheet, level, seed).unwrap();
                let Task::WrongSheet { pages, menu, first_page, scheme, .. } = &exercise.task else { panic!() };
                let both = beside(&exercise, &exercise.right()).unwrap();
                assert_eq!(both.names[0], "The right sheet", "{level} {seed}");
                // A cause that makes other pages.
                let other = menu.iter().find(|cause| {
                    acts_out_all(scheme, *first_page, cause)
                        .is_ok_and(|ways| ways.iter().all(|way| way.pages != *pages))
                });
                let answer = Answer::WrongSheet { causes: vec![other.unwrap().clone()], check: None };
                let both = beside(&exercise, &answer).unwrap();
                assert_eq!(both.names[0], "As it was found", "{level} {seed}");
                assert!(beside(&exercise, &Answer::Nothing).is_none());
            }
        }
    }
}
