//! Exercises: set, answered and marked over many seeds.

#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may")]

use backmark::fold::{Folding, Landing, Scheme};
use backmark::practice::{Answer, Exercise, Kind, LEVELS, Task};

const SEEDS: u64 = 12;

fn all() -> impl Iterator<Item = Exercise> {
    Kind::ALL.into_iter().flat_map(|kind| {
        (1..=LEVELS).flat_map(move |level| {
            (0..SEEDS).map(move |seed| {
                Exercise::of(kind, level, seed).unwrap_or_else(|w| panic!("{kind:?} {level} {seed} {w}"))
            })
        })
    })
}

#[test]
fn a_right_answer_gets_full_marks_and_an_empty_one_none() {
    for exercise in all() {
        let about = format!("{:?} {} {}", exercise.kind, exercise.level, exercise.seed);
        let right = exercise.right();
        assert_ne!(right, Answer::Nothing, "{about}");
        let marked = exercise.mark(&right, 0);
        assert!(marked.of > 0 && marked.got == marked.of, "{about}: {right:?} {marked:?}");
        assert!(marked.shown.is_none() && marked.departs.is_none(), "{about}");
        let nothing = exercise.mark(&Answer::Nothing, 0);
        assert_eq!((nothing.got, nothing.of), (0, marked.of), "{about}: {nothing:?}");
        // The same seed sets the same exercise.
        assert_eq!(Exercise::of(exercise.kind, exercise.level, exercise.seed).unwrap(), exercise);
    }
}
