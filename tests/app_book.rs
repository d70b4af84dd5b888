//! A book whose sections come from different sheets: every page is on one sheet and once, whatever the sections are made
//! of, and job files of every form are opened.

#![allow(clippy::panic, clippy::unwrap_used, reason = "what tests call may panic as tests may")]

use backmark::app::{
    Action, BookAct, Job, Look, Room, Spoil, State, make_up_text, read_blind, read_make_up, read_plans, read_saved,
    update, write_saved,
};
use backmark::ask::answer;
use backmark::book::{Folios, Run};
use backmark::fold::{Course, Direction, NamedCourse, courses, sixteen};
use proptest::prelude::*;
use std::collections::BTreeMap;

fn run(state: &State, actions: impl IntoIterator<Item = Action>) -> State {
    actions.into_iter().fold(state.clone(), |state, action| {
        let next = update(&state, action.clone()).0;
        assert_eq!(next.said, None, "{action:?}");
        next
    })
}

fn numbered(pages: u32, folios: Folios) -> Run {
    Run { name: String::new(), pages, folios, blank: false }
}

/// 360 pages in thirty-twos are eleven of them and an eight, which stands last but one: an odd part sheet does not stand
/// at the end (D. Cockerell, *Bookbinding and the Care of Books*, 1901, p. 37 f.).
#[test]
fn a_plan_is_taken_and_its_odd_section_lies_on_the_bench() {
    let state = run(&State::default(), [Action::Book(BookAct::Runs(vec![numbered(360, Folios::Arabic { first: 1 })]))]);
    assert!(state.job.book_says().unwrap().contains("72 find no place"), "{:?}", state.job.book_says());
    let told = read_plans(&answer(&state.job.plan_question(None))).unwrap();
    let sizes = |plan: &backmark::app::PlanTold| plan.sections.iter().map(|s| s.pages).collect::<Vec<_>>();
    let plan = told.plans.iter().find(|plan| make_up_text(&sizes(plan)) == "10x32 8 32").unwrap();
    let state = run(&state, [Action::Book(plan.act().unwrap())]);
    assert_eq!((state.job.sections, state.job.pages(), state.job.book_says()), (12, 360, None));
    assert_eq!(make_up_text(&state.job.book().sections), "10x32 8 32");
    assert_eq!(
        [320, 321, 328, 329].map(|p| state.job.section_of_page(p)),
        [Some((10, 32)), Some((11, 1)), Some((11, 8)), Some((12, 1))]
    );
    let on_bench = run(&state, [Action::Pick(11)]);
    let mut pages: Vec<u32> = on_bench.printing().cells.iter().flatten().map(|f| f.page).collect();
    pages.sort_unstable();
    pages.dedup();
    assert_eq!(pages, (321..=328).collect::<Vec<_>>());
    // What is folded otherwise there is the eight alone.
    let folded = run(&on_bench, [Action::Take(sixteen_course())]);
    assert_eq!(make_up_text(&folded.job.book().sections), "10x32 16 32");
    assert_eq!(run(&folded, [Action::Undo]).job, state.job);
}

fn sixteen_course() -> Course {
    Course::of_scheme(&sixteen().scheme)
}

#[test]
fn a_section_is_made_otherwise_and_as_the_others_again() {
    let eight =
        courses().into_iter().find(|n| n.course.rows * n.course.columns == 4 && n.course.sections() == 1).unwrap();
    let otherwise = |section, course: Option<&NamedCourse>| {
        Action::Book(BookAct::Otherwise { section, course: course.map(|n| n.course.clone()) })
    };
    let state = run(&State::default(), [otherwise(17, Some(&eight))]);
    assert_eq!((state.job.pages(), state.job.pages_before(18)), (280, 264));
    assert_eq!([16, 17, 18].map(|s| state.job.kind(s)), [None, Some(17), None]);
    // A fold that the eight has not can't be made wrong in it; the sixteens have theirs.
    let refused = update(&state, Action::Spoil(Spoil::Misfold(17, 3))).0;
    assert!(refused.said.unwrap().contains("folds 1 to 2"));
    assert_eq!(run(&state, [Action::Spoil(Spoil::Misfold(16, 3))]).job.stack.placed()[15].misfold, Some(3));
    let again = run(&state, [otherwise(17, None)]);
    assert_eq!(again.job, State::default().job);
    // No section of its own beyond the end of a shorter book.
    let shorter = run(&state, [Action::Book(BookAct::Sections(16))]);
    assert!(shorter.job.otherwise.is_empty());
    let saved = read_saved(&write_saved(&state.job, &state.look)).unwrap();
    assert_eq!(saved.job, *state.job);
}

/// The sheet of sections of four is made unfinished by a head that can't be: its sections count alike then, however one asks.
#[test]
fn an_unfinished_sheet_says_the_same_of_its_sections_everywhere() {
    let four = courses().into_iter().find(|named| named.course.sections() == 4).unwrap();
    let state = run(&State::default(), [Action::Take(four.course), Action::Head(Direction::Left)]);
    let job = &state.job;
    assert_eq!(job.pages_each(18), (1..=18).map(|section| job.pages_of(section)).collect::<Vec<_>>());
    assert!(job.pages_of(2) > 0);
}

#[test]
fn pages_of_different_sheets_are_followed_by_folio() {
    let runs = vec![numbered(16, Folios::Roman { first: 1 }), numbered(272, Folios::Arabic { first: 1 })];
    let state = run(&State::default(), [Action::Book(BookAct::Runs(runs)), Action::FollowPrinted("xii".into())]);
    assert_eq!((state.look.place, state.look.followed), (1, Some(12)));
    let state = run(&state, [Action::FollowPrinted("1".into())]);
    assert_eq!((state.look.place, state.look.followed), (2, Some(1)));
    let bench = state.lone_bench().unwrap();
    let says = state.followed_sentence(&bench).unwrap();
    assert!(says.starts_with("Page 17, printed 1. Side "), "{says}");
    assert_eq!(state.job.printed_from(1, 16).as_deref(), Some("printed i to xvi"));
    assert!(update(&state, Action::FollowPrinted("dcc".into())).0.said.is_some());
}

/// The change that the worker proposes for marks one wrap apart is taken, and the blind spot is gone.
#[test]
fn a_blind_spot_goes_with_the_change_that_is_proposed() {
    let mut marks = State::default().job.design.clone();
    (marks.stairs.first_mm, marks.stairs.step_mm, marks.stairs.length_mm, marks.stairs.levels) = (30.0, 6.0, 6.0, 24);
    let state =
        run(&State::default(), [Action::Book(BookAct::Sections(25)), Action::Book(BookAct::Marks(Box::new(marks)))]);
    let told = |state: &State| read_blind(&answer(&state.job.blind_question(&state.job.design))).unwrap();
    let shared = |state: &State| told(state).spots.into_iter().find(|spot| spot.title.contains("share"));
    let change = shared(&state).unwrap().change.unwrap();
    let mended = run(&state, [Action::Book(BookAct::Marks(Box::new(change)))]);
    assert_eq!(shared(&mended), None);
    let saved = read_saved(&write_saved(&mended.job, &mended.look)).unwrap();
    assert_eq!(saved.job.design, mended.job.design);
}

/// Jobs as older programs wrote them. A form 3 file is the first job of that program, with its lines as they were; forms 1
/// and 2 are cut down from it as `FORMAT.md` says.
#[test]
fn jobs_of_older_forms_are_opened() {
    let fold = |crease: &str, after: u32, moves: &str| {
        format!(r#"{{"crease":"{crease}","after":{after},"moves":"{moves}","lands":"over"}}"#)
    };
    let folds = [fold("vertical", 2, "right"), fold("horizontal", 1, "top"), fold("vertical", 1, "right")].join(",");
    let design = r#""design":{"spine_mm":216,"first_mm":20,"step_mm":9,"length_mm":9,"levels":20}"#;
    let stack = r#""stack":[{"what":{"ours":1},"lies":"right"},{"what":{"ours":2},"lies":"head_to_tail","misfold":2}]"#;
    let course = format!(
        r#""course":{{"rows":2,"columns":4,"steps":[{folds},{{"head":"top"}}],"copies":[[[0]]],"reads":"left_to_right"}}"#
    );
    let scheme = format!(r#""scheme":{{"rows":2,"columns":4,"folds":[{folds}],"head":"top","reads":"left_to_right"}}"#);
    let forms = [
        format!(
            r#"{{"backmark":1,"job":{{"title":"A","sections":2,{scheme},{design},{stack}}},"look":{{"making":false}}}}"#
        ),
        format!(r#"{{"backmark":2,"job":{{"title":"A","sections":2,{scheme},{design},{stack},"tried":[{folds}]}}}}"#),
        format!(
            r#"{{"backmark":3,"job":{{"title":"A","sections":2,{course},"measure":{{"width":"564 mm","height":"444 mm"}},{design},{stack},"tried":null}}}}"#
        ),
    ];
    for text in forms {
        let job = read_saved(&text).unwrap_or_else(|why| panic!("{why}: {text}")).job;
        assert_eq!((job.sections, job.sheet.clone()), (2, Job::default().sheet), "{text}");
        assert!(job.otherwise.is_empty() && job.runs.is_empty() && job.added.is_empty());
        assert_eq!(job.stack.placed()[1].misfold, Some(2));
    }
}

#[test]
fn what_cannot_be_is_refused_with_the_place() {
    let otherwise = Action::Book(BookAct::Otherwise { section: 17, course: Some(sixteen_course()) });
    let state = run(&State::default(), [otherwise, Action::Go(Room::Job)]);
    let good = write_saved(&state.job, &state.look);
    let says = |from: &str, to: &str| {
        assert!(good.contains(from), "{from} in {good}");
        read_saved(&good.replacen(from, to, 1)).unwrap_err().to_string()
    };
    assert!(says("\"first\":17", "\"first\":19").contains("job.otherwise"));
    assert!(says("\"first\":17", "\"first\":0").contains("job.otherwise"));
    assert!(says("\"copies\":3000", "\"copies\":0").contains("job.planning"));
    assert!(
        says("\"runs\":[]", r#""runs":[{"name":"","pages":0,"folios":"none","first":1,"blank":false}]"#)
            .contains("job.runs")
    );
    assert!(says("\"added\":[]", r#""added":[{"kind":"tape","pages":2}]"#).contains("job.added[0].kind"));
    assert!(says("\"alphabet\":\"latin23\"", "\"alphabet\":\"runes\"").contains("job.signing.alphabet"));
    assert_eq!(read_saved(&good).unwrap().look, Look { room: Room::Job, ..Look::default() });
}

fn single() -> Vec<NamedCourse> {
    courses().into_iter().filter(|named| named.course.rows * named.course.columns <= 32).collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, failure_persistence: None, ..ProptestConfig::default() })]

    /// Whatever the sections are made of, every page of the book is printed on one section's sheet, and nowhere else; and
    /// each page is found in the section that says it has it.
    #[test]
    fn every_page_is_on_one_sheet(
        usual in prop::sample::select(single()),
        others in prop::collection::vec((1..14u32, prop::sample::select(single())), 0..4),
        sections in 6..14u32,
    ) {
        let mut state = run(&State::default(), [Action::Take(usual.course), Action::Book(BookAct::Sections(sections))]);
        for (section, named) in others {
            state = update(&state, Action::Book(BookAct::Otherwise { section, course: Some(named.course) })).0;
        }
        let job = &state.job;
        let mut on: BTreeMap<u32, Vec<u32>> = BTreeMap::new();
        for section in 1..=sections {
            let (found, _) = job.section(section).unwrap();
            let pages = job.pages_of(section);
            prop_assert_eq!(found.faces.len() as u32, pages);
            prop_assert!(job.from_one_sheet(section).contains(&section));
            let first = job.pages_before(section) + 1;
            for page in first..first + pages {
                on.entry(page).or_default().push(section);
                prop_assert_eq!(job.section_of_page(page), Some((section, page - first + 1)));
            }
        }
        prop_assert!(on.keys().copied().eq(1..=job.pages()));
        prop_assert!(on.values().all(|sections| sections.len() == 1));
        prop_assert_eq!(job.book().pages_of_sections(), job.pages());
        prop_assert_eq!(job.section_of_page(job.pages() + 1), None);
        let saved = read_saved(&write_saved(job, &state.look)).unwrap();
        prop_assert_eq!(&saved.job, &**job);
        // The same sheet says the same of all its sections.
        for section in 1..=sections {
            let all = job.from_one_sheet(section);
            prop_assert!(all.iter().all(|s| job.from_one_sheet(*s) == all), "{:?}", all);
        }
    }

    #[test]
    fn a_make_up_is_written_and_read(sections in prop::collection::vec((1..33u32).prop_map(|n| 4 * n), 1..60)) {
        prop_assert_eq!(read_make_up(&make_up_text(&sections)), Ok(sections));
    }
}
