//! The lessons, played through by the engine.

#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may")]

use backmark::practice::lesson::lessons;

#[test]
fn every_goal_is_open_before_its_deeds_and_reached_after_them() {
    let all = lessons();
    assert!((12..=16).contains(&all.len()), "{}", all.len());
    for lesson in &all {
        assert!((3..=6).contains(&lesson.steps.len()), "{}", lesson.title);
        let mut bench = lesson.start.clone();
        for (k, step) in lesson.steps.iter().enumerate() {
            assert!(!step.goal.reached(&bench), "{} {k}: {:?}", lesson.title, step.goal);
            for deed in &step.deeds {
                let next = bench.after(deed);
                assert_ne!(next, bench, "{} {k}: {deed:?} does nothing", lesson.title);
                bench = next;
            }
            assert!(step.goal.reached(&bench), "{} {k}: {:?} {:?}", lesson.title, step.goal, bench.reads());
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
