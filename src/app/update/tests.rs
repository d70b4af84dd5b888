use super::*;
use crate::app::{Room, read_saved};
use crate::fold::{Course, Direction, Fold, Lands, Part};

fn run(state: &State, actions: impl IntoIterator<Item = Action>) -> State {
    actions.into_iter().fold(state.clone(), |s, a| update(&s, a).0)
}

#[test]
fn a_scheme_of_three_by_four_is_made_fold_by_fold() {
    let state = run(
        &State::default(),
        [
            Action::MakeOwn { rows: 3, columns: 4 },
            Action::AddFold(Fold::new(2, Part::Right, Lands::Over)),
            Action::AddFold(Fold::new(2, Part::Bottom, Lands::Over)),
            Action::AddFold(Fold::new(1, Part::Top, Lands::Over)),
            Action::AddFold(Fold::new(1, Part::Right, Lands::Over)),
        ],
    );
    assert_eq!(state.said, None);
    let (section, landing) = state.job.section(1).unwrap();
    assert_eq!(section.faces.len(), 24);
    assert!(landing.loose_leaves.is_empty());
    assert_eq!(state.past.len(), 5);
    let undone = run(&state, vec![Action::Undo; 5]);
    assert_eq!(undone.job, State::default().job);
    assert_eq!(run(&undone, vec![Action::Redo; 5]).job, state.job);
}

#[test]
fn a_fold_that_cannot_be_made_says_why_and_changes_nothing() {
    let state = run(&State::default(), [Action::MakeOwn { rows: 1, columns: 2 }]);
    let (after, effects) = update(&state, Action::AddFold(Fold::new(2, Part::Right, Lands::Over)));
    assert_eq!(after.job, state.job);
    assert!(after.said.unwrap().contains("2 panels wide"));
    assert!(effects.is_empty(), "{effects:?}");
}

#[test]
fn starting_over_can_be_undone() {
    let state = run(&State::default(), [Action::MakeOwn { rows: 3, columns: 3 }, Action::StartOver]);
    assert_eq!(*state.job, Job::default());
    assert_eq!(run(&state, [Action::Undo]).job.sheet.course.rows, 3);
}

#[test]
fn every_change_is_saved_and_reads_back() {
    let (state, effects) = update(&State::default(), Action::Go(Room::Gather));
    assert_eq!(effects, [Effect::Save]);
    let saved = read_saved(&crate::app::write_saved(&state.job, &state.look)).unwrap();
    assert_eq!((saved.job, saved.look), ((*state.job).clone(), state.look));
}

#[test]
fn a_page_of_the_book_is_followed_into_its_section() {
    let state = run(&State::default(), [Action::FollowInBook(43)]);
    assert_eq!((state.look.place, state.look.followed), (3, Some(11)));
    let refused = run(&state, [Action::FollowInBook(289)]);
    assert_eq!(refused.said.as_deref(), Some("The book has pages 1 to 288."));
    assert_eq!(refused.look, state.look);
}

#[test]
fn a_file_name_is_made_of_the_title() {
    assert_eq!(file_name("The Quillmere Almanac"), "the-quillmere-almanac.backmark.json");
    assert_eq!(file_name("../.."), "job.backmark.json");
}

#[test]
fn the_heads_of_ones_own_scheme_stay_at_the_top() {
    use crate::fold::{Direction, Fold, Lands, Part};
    let mut state = update(&State::default(), Action::MakeOwn { rows: 3, columns: 4 }).0;
    for (after, part) in [(2, Part::Bottom), (1, Part::Top), (2, Part::Right), (1, Part::Right)] {
        state = update(&state, Action::AddFold(Fold::new(after, part, Lands::Over))).0;
    }
    assert_eq!(state.scheme().head, Direction::Up);
    assert!(state.job.section(1).is_some());
}

#[test]
fn a_fold_that_is_gone_is_no_longer_made_the_other_way() {
    let four = crate::fold::library().remove(0).scheme;
    let state = run(&State::default(), [Action::Spoil(Spoil::Misfold(5, 3)), Action::Take(Course::of_scheme(&four))]);
    assert!(state.job.stack.placed().iter().all(|p| p.misfold.is_none()));
    let undone = run(&state, [Action::Undo]);
    assert_eq!(undone.job.stack.placed()[4].misfold, Some(3));
}

/// What is kept can always be read again, whatever was done before: otherwise the next start would set it aside.
#[test]
fn a_shorter_spine_keeps_the_job_readable() {
    let state = State::default();
    let stairs = crate::marks::Design { spine_mm: 190.0, ..state.job.design.stairs };
    let shorter = crate::marks::BackMarks { stairs, ..state.job.design.clone() };
    let book = Action::Book(crate::app::BookAct::Marks(Box::new(shorter)));
    let tapped = Action::Look(Evidence::Tapped(vec![Vec::new(); 18]));
    let state = run(&state, [tapped, Action::Tap { place: 1, mm: 24.5 }, Action::Tap { place: 2, mm: 210.0 }, book]);
    assert_eq!(state.said, None);
    let Evidence::Tapped(backs) = &state.job.evidence else { panic!("{:?}", state.job.evidence) };
    assert_eq!(backs[..2], [vec![24.5], vec![]]);
    let kept = crate::app::write_saved(&state.job, &state.look);
    assert_eq!(read_saved(&kept).map(|s| s.job), Ok((*state.job).clone()));
    let undone = run(&state, [Action::Undo]);
    assert!(matches!(&undone.job.evidence, Evidence::Tapped(b) if b[1] == [210.0]), "undo brings the mark back");
}

#[test]
fn folding_by_hand_departs_from_the_scheme_and_comes_back() {
    let state = State::default();
    let scheme = state.scheme().folds;
    // The scheme's own first folds are no departure.
    let same = run(&state, [Action::Try { folds: scheme[..2].to_vec(), at: 1.5 }]);
    assert_eq!((same.job.tried.clone(), same.look.at), (None, 1.5));
    let under = Fold { lands: Lands::Under, ..scheme[0] };
    let folds = vec![under, scheme[1], scheme[2]];
    let tried = run(&state, [Action::Try { folds: folds.clone(), at: 3.0 }]);
    assert_eq!(tried.folded_scheme().folds, folds);
    assert_eq!(tried.job.sheet.course, state.job.sheet.course, "the print stays");
    // Fold 1 the other way: leaf i stands where leaf i XOR 1 is due (worked out independently of this engine).
    let read = run(&tried, [Action::ReadTried]);
    assert_eq!(read.look.room, Room::Trace);
    let text = "3 4 1 2 7 8 5 6 11 12 9 10 15 16 13 14";
    assert_eq!(read.job.section_case.evidence, crate::app::SectionEvidence::Typed(text.into()));
    assert_eq!(run(&tried, [Action::ByScheme]).job, state.job);
    let printed = run(&tried, [Action::PrintForTried]);
    assert_eq!((printed.scheme().folds, printed.job.tried.clone()), (folds, None));
    assert_eq!(run(&printed, [Action::Undo, Action::Undo]).job, state.job);
    let refused = run(&state, [Action::Try { folds: vec![Fold::new(4, Part::Right, Lands::Over)], at: 0.0 }]);
    assert_eq!(refused.job, state.job);
    assert!(refused.said.is_some());
}

#[test]
fn a_layout_is_written_cell_by_cell_and_keeps_what_fits() {
    let cell = |page| Some(crate::app::Cell { page, head: Some(Direction::Up) });
    let at = |row, column, cell| Action::LayoutCell { side: crate::fold::Side::B, row, column, cell };
    let state = run(&State::default(), [at(1, 3, cell(1)), at(0, 0, cell(5)), at(2, 0, cell(9)), at(0, 1, cell(0))]);
    assert_eq!(state.job.layout.side_b, [cell(5), None, None, None, None, None, None, cell(1)]);
    let smaller = run(&state, [Action::LayoutSize { rows: 1, columns: 2 }]);
    assert_eq!(smaller.job.layout.side_b, [cell(5), None]);
    assert!(run(&state, [Action::LayoutSize { rows: 17, columns: 1 }]).said.is_some());
    let whole = run(&state, [Action::LayoutOfScheme]);
    // Side B of the sixteen: 5v 12v 9v 8v over 4 13 16 1.
    let pages: Vec<u32> = whole.job.layout.side_b.iter().flatten().map(|c| c.page).collect();
    assert_eq!(pages, [5, 12, 9, 8, 4, 13, 16, 1]);
    let text = crate::app::write_saved(&whole.job, &whole.look);
    assert_eq!(read_saved(&text).unwrap().job, *whole.job);
}

#[test]
fn a_job_of_the_first_form_opens() {
    let state = State::default();
    let text = crate::app::write_saved(&state.job, &state.look);
    let cut = |text: &str, from: &str, to: &str| {
        let (a, rest) = text.split_once(from).unwrap();
        format!("{a}{}", rest.split_once(to).unwrap().1)
    };
    let old = cut(&text, ",\"tried\"", "\"made_up\":null}").replace("\"backmark\":2", "\"backmark\":1");
    let old = old.replace("\"task\":\"fold\"", "\"making\":true");
    let saved = read_saved(&old).unwrap();
    assert_eq!(saved.job, *state.job);
    assert_eq!(saved.look.task, crate::app::Task::Make);
}

#[test]
fn turning_the_sheet_over_or_round_comes_back() {
    let lay = crate::app::Lay::default();
    assert_eq!(lay.turned_over().turned_over(), lay);
    assert_eq!((0..4).fold(lay, |l, _| l.turned_round()), lay);
    // Over, round, over: a quarter the other way.
    assert_eq!(lay.turned_over().turned_round().turned_over(), lay.turned_round().turned_round().turned_round());
}

#[test]
fn undo_says_what_it_undid_in_another_room() {
    let evidence = crate::app::SectionEvidence::Typed("1 2".into());
    let case = crate::app::SectionCase { evidence, ..Default::default() };
    let state = run(&State::default(), [Action::Go(Room::Trace), Action::Section(case), Action::Go(Room::Fold)]);
    let undone = run(&state, [Action::Undo]);
    assert_eq!(undone.said.as_deref(), Some("Undone: the pages found, in Trace."));
    assert_eq!(run(&undone, [Action::Go(Room::Trace), Action::Redo]).said, None);
    let title = Action::Book(crate::app::BookAct::Title("Another".into()));
    let undone = run(&State::default(), [title, Action::Go(Room::Fold), Action::Undo]);
    assert_eq!(undone.said.as_deref(), Some("Undone: the book, in Job."));
}
