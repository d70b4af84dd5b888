//! The lessons, played through by the engine.

#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may")]

use backmark::fold::misfold::Cause;
use backmark::fold::{Fold, Lands, Part};
use backmark::gather::Fault;
use backmark::practice::lesson::{Deed, Goal, Lesson, OnBench, Step, Ticks, lessons};
use proptest::prelude::*;

fn steps() -> Vec<(Lesson, usize, Step, OnBench)> {
    let of = |lesson: Lesson| {
        let steps = lesson.steps.clone();
        steps.into_iter().enumerate().map(move |(k, step)| (lesson.clone(), k, step, lesson.before(k)))
    };
    lessons().into_iter().flat_map(of).collect()
}

#[test]
fn every_goal_is_open_before_its_deeds_and_reached_after_them() {
    let all = lessons();
    assert_eq!(all.len(), 14);
    for lesson in &all {
        assert!((3..=6).contains(&lesson.steps.len()), "{}", lesson.title);
        let mut bench = lesson.start.clone();
        for (k, step) in lesson.steps.iter().enumerate() {
            assert_eq!(bench, lesson.before(k));
            assert!(!step.goal.reached(&bench), "{} {k}: {:?}", lesson.title, step.goal);
            for (i, deed) in step.deeds.iter().enumerate() {
                let next = bench.after(deed);
                assert_ne!(next, bench, "{} {k}: {deed:?} does nothing", lesson.title);
                bench = next;
                let last = i + 1 == step.deeds.len();
                assert_eq!(step.goal.reached(&bench), last, "{} {k}, deed {i}: {:?}", lesson.title, step.goal);
            }
        }
    }
}

/// A lesson without machine says so, and one that sends a person there says what to mind.
#[test]
fn every_lesson_says_whether_a_machine_is_near() {
    for lesson in lessons() {
        assert!(lesson.note.contains("no machine") || lesson.note.contains("Guards stay shut"), "{}", lesson.title);
    }
}

/// The path has each of these: slit sheets, back marks, lay ticks, books, and since when and how many.
#[test]
fn the_path_goes_from_one_fold_to_a_wrong_book() {
    let goals: Vec<Goal> = steps().into_iter().map(|(_, _, step, _)| step.goal).collect();
    assert_eq!(goals.first(), Some(&Goal::InOrder));
    for goal in [
        Goal::Steps(1),
        Goal::MarkOnSpine,
        Goal::Looked,
        Goal::Proven,
        Goal::Explained,
        Goal::Bracketed,
        Goal::HeldAll,
        Goal::Followed(75),
    ] {
        assert!(goals.contains(&goal), "{goal:?}");
    }
}

/// Sentences are short, and each ends as a sentence does.
#[test]
fn what_is_said_are_sentences() {
    for (lesson, k, step, _) in steps() {
        for says in [step.does, step.shows] {
            assert!(says.ends_with('.') && !says.contains("  "), "{} {k}: {says}", lesson.title);
        }
        assert!(step.does.split_whitespace().count() <= 26, "{} {k}: {}", lesson.title, step.does);
        assert!(step.shows.split_whitespace().count() <= 46, "{} {k}: {}", lesson.title, step.shows);
    }
}

/// A fold that leads nowhere is answered by what it made; the sentence of the right way asks nobody to go back.
#[test]
fn a_wrong_fold_is_answered_by_what_it_made() {
    let lesson = &lessons()[0];
    let step = &lesson.steps[0];
    let wrong = lesson.start.after(&Deed::Make(Fold::new(1, Part::Right, Lands::Under)));
    assert!(!step.goal.reached(&wrong));
    let answer = step.answer(&lesson.start, &wrong);
    // The left half stays with its face up, page 2, and page 1 beneath it; the other half lies under, 4 above 3 turned
    // over: the folio inside out reads 3 4 1 2 from its front, the side that lies down.
    assert!(answer.starts_with("It reads 3, 4, 1, 2. "), "{answer}");
    assert!(answer.ends_with("Take the last fold back, and try it another way."), "{answer}");
    for (lesson, k, step, began) in steps() {
        for bench in step.way(&began) {
            let answer = step.answer(&began, &bench);
            assert!(
                !answer.contains("another way") && !answer.contains("begin again"),
                "{} {k}: {answer}",
                lesson.title
            );
        }
    }
}

#[test]
fn a_wrong_name_is_answered_by_what_it_would_make() {
    let all = lessons();
    let (wrong_sheet, missing) = (&all[8], &all[10]);
    let began = wrong_sheet.before(1);
    let named = began.after(&Deed::NameCause(Cause::FoldOtherWay { fold: 2 }));
    assert!(!wrong_sheet.steps[1].goal.reached(&named));
    // The order of a sixteen with its second fold the other way: 5 to 8 before 1 to 4; with the first: 3 4 1 2 7 8 5 6. Both follow
    // from the rule that fold f moves leaf i to i XOR 2^(f-1), worked out apart from this engine.
    assert_eq!(
        wrong_sheet.steps[1].answer(&began, &named),
        "That would read 5, 6, 7, 8, 1, 2, 3, 4 …. This one reads 3, 4, 1, 2, 7, 8, 5, 6 …."
    );
    let began = missing.before(2);
    let named = began.after(&Deed::Name(Fault::Double { section: 4 }));
    assert_eq!(missing.steps[2].answer(&began, &named), "Then the book would read 1-4 4-8. This one reads 1-4 6-8.");
}

/// Where the ticks lie decides between two causes of the same pages, and both ways round.
#[test]
fn lay_ticks_settle_what_pages_leave_open() {
    let lesson = lessons().into_iter().find(|l| l.start.ticks.is_some()).unwrap();
    let last = lesson.steps.len() - 1;
    let fold = Cause::FoldOtherWay { fold: 1 };
    let fed = Cause::SheetTurnedOver { about: backmark::fold::Crease::Vertical };
    for (ticks, proven) in [(Ticks::AtGuides, &fold), (Ticks::Elsewhere, &fed)] {
        let bench = OnBench { ticks: Some(ticks), ..lesson.before(last) };
        for cause in [&fold, &fed] {
            let named = bench.after(&Deed::NameCause(cause.clone()));
            assert_eq!(Goal::Proven.reached(&named), cause == proven, "{ticks:?} {cause:?}");
        }
    }
}

/// A book that is laid section by section is right only if they follow.
#[test]
fn books_opened_in_any_order_close_the_bracket() {
    let lesson = lessons().pop().unwrap();
    let mut bench = lesson.before(1);
    for book in (1449..1480).rev() {
        bench = bench.after(&Deed::Open(book));
        assert_eq!(Goal::Bracketed.reached(&bench), book <= 1460, "{book}");
    }
    assert_eq!(bench.run.as_ref().unwrap().to_hold(), 20);
}

fn any_deed() -> impl Strategy<Value = Deed> {
    let part = prop::sample::select(vec![Part::Left, Part::Right, Part::Top, Part::Bottom]);
    let lands = prop::sample::select(vec![Lands::Over, Lands::Under]);
    prop_oneof![
        (0u32..9, part, lands).prop_map(|(after, part, lands)| Deed::Make(Fold::new(after, part, lands))),
        Just(Deed::Undo),
        Just(Deed::Step),
        Just(Deed::TurnOver),
        Just(Deed::Look),
        any::<u32>().prop_map(Deed::Follow),
        (0u32..20).prop_map(Deed::OpenAt),
        any::<u32>().prop_map(Deed::OpenAt),
        any::<u32>().prop_map(Deed::Gather),
        (0u32..15).prop_map(|section| Deed::Spoil(Fault::Missing { section })),
        (0u32..15, 0u32..15).prop_map(|(at, section)| Deed::Name(Fault::WrongSection { at, section })),
        (0u32..6).prop_map(|fold| Deed::NameCause(Cause::FoldOtherWay { fold })),
        any::<u32>().prop_map(Deed::Open),
        any::<u32>().prop_map(Deed::Hold),
    ]
}

proptest! {
    /// Whatever is done in whatever lesson, it is answered, and nothing breaks.
    #[test]
    fn any_doing_is_answered(lesson in 0usize..14, deeds in prop::collection::vec(any_deed(), 0..12)) {
        let lesson = lessons().into_iter().nth(lesson).unwrap();
        let mut bench = lesson.start.clone();
        for deed in &deeds {
            bench = bench.after(deed);
            for step in &lesson.steps {
                let _ = step.goal.reached(&bench);
                let answer = step.answer(&lesson.start, &bench);
                prop_assert!(answer.is_empty() || answer.ends_with(['.', '…']), "{answer}");
            }
        }
    }
}
