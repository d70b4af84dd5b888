//! Exercises: set, answered and marked over many seeds; right answers against other ways of reckoning them.

#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may")]

use backmark::fold::misfold::Cause;
use backmark::fold::{Crease, Fold, Folding, Lands, Part, Side};
use backmark::gather::Fault;
use backmark::line::Digest;
use backmark::practice::{Answer, Exercise, HINTS_COST, Kind, LEVELS, Pointed, SheetCells, Task};
use proptest::prelude::*;

const SEEDS: u64 = 12;

fn all() -> impl Iterator<Item = Exercise> {
    Kind::ALL.into_iter().flat_map(|kind| (1..=LEVELS).flat_map(move |level| of(kind, level)))
}

fn of(kind: Kind, level: u8) -> impl Iterator<Item = Exercise> {
    (0..SEEDS)
        .map(move |seed| Exercise::of(kind, level, seed).unwrap_or_else(|w| panic!("{kind:?} {level} {seed} {w}")))
}

fn about(exercise: &Exercise) -> String {
    format!("{:?} {} {}", exercise.kind, exercise.level, exercise.seed)
}

#[test]
fn a_right_answer_gets_full_marks_and_an_empty_one_none() {
    for exercise in all() {
        let about = about(&exercise);
        let right = exercise.right();
        assert_ne!(right, Answer::Nothing, "{about}");
        let marked = exercise.mark(&right, 0);
        assert!(marked.of > 0 && marked.got == marked.of, "{about}: {right:?} {marked:?}");
        assert!(marked.shown.is_none() && marked.departs.is_none(), "{about}");
        let nothing = exercise.mark(&Answer::Nothing, 0);
        assert_eq!((nothing.got, nothing.of), (0, marked.of), "{about}: {nothing:?}");
        assert_eq!(Exercise::of(exercise.kind, exercise.level, exercise.seed).unwrap(), exercise);
        // Hints take off what they say, and never more than there is.
        let hints = exercise.hints();
        assert_eq!(hints.iter().map(|h| h.costs).collect::<Vec<_>>(), HINTS_COST, "{about}");
        assert_eq!(exercise.mark(&right, 2).got, (marked.of).saturating_sub(3), "{about}");
        assert_eq!(exercise.mark(&Answer::Nothing, 3).got, 0, "{about}");
        let link = exercise.link();
        assert_eq!(Exercise::of_link(&link).unwrap(), exercise);
    }
}

/// The same on every machine and for every later program: what is set is one number.
#[test]
fn what_is_set_stays_what_it_is() {
    let mut digest = Digest::default();
    for exercise in all() {
        digest.bytes(format!("{:?}", exercise.task).as_bytes());
    }
    assert_eq!(digest.hex(), "780aaad2ec933701");
}

#[test]
fn seeds_set_different_exercises() {
    for kind in Kind::ALL {
        for level in 1..=LEVELS {
            let tasks: Vec<_> = of(kind, level).map(|e| format!("{:?}", e.task)).collect();
            let mut different = tasks.clone();
            different.sort();
            different.dedup();
            // The folio and its neighbours can't be set in many ways.
            assert!(different.len() >= if level == 1 { 3 } else { 4 }, "{kind:?} {level}: {}", different.len());
        }
    }
}

/// Numbers by leafing through the finished packet at its one place from the top, which shares no code with the landing.
#[test]
fn numbers_are_those_of_the_packet_leafed_through() {
    for level in 1..=4 {
        for exercise in of(Kind::NumberSheet, level) {
            let Task::NumberSheet { course, first_page, .. } = &exercise.task else { panic!() };
            let scheme = course.scheme().unwrap();
            let last = Folding::of(&scheme).unwrap().last().clone();
            let extent = last.extent();
            let mut faces = last.faces_at(extent.x0, extent.y0);
            // From the top or from beneath, as the spine lies left of the front.
            let Answer::Sheet(right) = exercise.right() else { panic!() };
            let number = |f: &backmark::fold::Face| {
                let side = if f.side == Side::A { &right.side_a } else { &right.side_b };
                side[f.row as usize][f.column_seen(course.columns) as usize].page.unwrap()
            };
            if number(&faces[0]) != *first_page {
                faces.reverse();
            }
            for (due, face) in (*first_page..).zip(&faces) {
                assert_eq!(number(face), due, "{}", about(&exercise));
            }
        }
    }
}

#[test]
fn one_wrong_number_or_head_loses_just_that() {
    for exercise in of(Kind::NumberSheet, 3).chain(of(Kind::SetHeads, 5)) {
        let Answer::Sheet(right) = exercise.right() else { panic!() };
        let full = exercise.mark(&Answer::Sheet(right.clone()), 0).of;
        let mut other = right.clone();
        other.side_b[0][0].head = other.side_b[0][0].head.map(|h| h.opposite());
        let marked = exercise.mark(&Answer::Sheet(other), 0);
        assert_eq!(marked.got, full - 1, "{}", about(&exercise));
        assert!(marked.departs.is_some() && marked.shown.is_some());
        if exercise.kind == Kind::NumberSheet {
            let mut other = right.clone();
            other.side_a[0][1].page = Some(999);
            let marked = exercise.mark(&Answer::Sheet(other), 0);
            assert_eq!(marked.got, full - 2, "{}", about(&exercise));
            assert_eq!(marked.departs.unwrap().reads, Some(999));
        }
    }
}

/// One fold made the other way makes many numbers wrong. It costs what a fold is worth, two marks.
#[test]
fn an_error_carried_forward_is_not_punished_again() {
    for exercise in of(Kind::NumberSheet, 3) {
        let Task::NumberSheet { course, first_page, name } = &exercise.task else { panic!() };
        let scheme = course.scheme().unwrap().fold_other_way(2);
        let task = Task::NumberSheet {
            name: name.clone(),
            course: backmark::fold::Course::of_scheme(&scheme),
            first_page: *first_page,
        };
        let misfolded = Exercise { task, ..exercise.clone() };
        let marked = exercise.mark(&misfolded.right(), 0);
        assert_eq!(marked.got, marked.of - 4, "{}", about(&exercise));
        assert!(marked.says.iter().any(|s| s.contains("fold 2 made the other way")), "{:?}", marked.says);
    }
}

/// Other errors that one carries through a whole sheet are taken off once as well, each acted out here on the right answer.
#[test]
fn a_sheet_that_is_wrong_as_a_whole_loses_two_marks_once() {
    type Carry = fn(&SheetCells, u32) -> SheetCells;
    let counted: Carry = |right, first_page| {
        let mut cells = right.clone();
        for cell in cells.side_a.iter_mut().chain(&mut cells.side_b).flatten() {
            cell.page = cell.page.map(|p| p - first_page + 1);
        }
        cells
    };
    let through: Carry = |right, _| {
        let mut cells = right.clone();
        cells.side_b.iter_mut().for_each(|row| row.reverse());
        cells
    };
    let sides: Carry = |right, _| SheetCells { side_a: right.side_b.clone(), side_b: right.side_a.clone() };
    let round: Carry = |right, _| {
        let mut cells = right.clone();
        for side in [&mut cells.side_a, &mut cells.side_b] {
            side.reverse();
            for row in side.iter_mut() {
                row.reverse();
                row.iter_mut().for_each(|c| c.head = c.head.map(|h| h.opposite()));
            }
        }
        cells
    };
    let heads: Carry = |right, _| {
        let mut cells = right.clone();
        for cell in cells.side_a.iter_mut().chain(&mut cells.side_b).flatten() {
            cell.head = cell.head.map(|h| h.opposite());
        }
        cells
    };
    let mut seen = [0; 5];
    for exercise in of(Kind::NumberSheet, 3).chain(of(Kind::NumberSheet, 5)) {
        let Task::NumberSheet { first_page, .. } = exercise.task else { panic!() };
        let Answer::Sheet(right) = exercise.right() else { panic!() };
        for (at, carry) in [counted, through, sides, round, heads].into_iter().enumerate() {
            let cells = carry(&right, first_page);
            if cells == right {
                continue;
            }
            let marked = exercise.mark(&Answer::Sheet(cells.clone()), 0);
            assert_eq!(marked.got, marked.of - 4, "{} {at}: {:?}", about(&exercise), marked.says);
            let names = ["counted from", "seen through", "the reverse", "end for end", "the other way"];
            assert!(marked.says.iter().any(|s| names.iter().any(|n| s.contains(n))), "{:?}", marked.says);
            assert!(marked.departs.is_some() && marked.shown.is_some(), "it is shown folded all the same");
            // What does not follow from it is wrong by itself.
            let mut one_more = cells;
            let cell = &mut one_more.side_a[0][0];
            cell.head = cell.head.map(|h| h.clockwise());
            assert_eq!(
                exercise.mark(&Answer::Sheet(one_more), 0).got,
                if at == 4 { marked.of / 3 * 2 } else { marked.got - 1 }
            );
            seen[at] += 1;
        }
    }
    assert!(seen.iter().all(|n| *n > 5), "{seen:?}");
    for exercise in of(Kind::SetHeads, 3) {
        let Answer::Sheet(right) = exercise.right() else { panic!() };
        let marked = exercise.mark(&Answer::Sheet(heads(&right, 1)), 0);
        assert_eq!(marked.got, marked.of - 4, "{}", about(&exercise));
    }
}

#[test]
fn folds_told_another_way_are_right_and_a_wrong_one_loses_two_marks() {
    for level in 2..=4 {
        for exercise in of(Kind::FindFolds, level) {
            let Answer::Folds(folds) = exercise.right() else { panic!() };
            let Task::FindFolds { side_a, .. } = &exercise.task else { panic!() };
            let last = folds.len() - 1;
            // The last fold from the other edge gives the same section, turned over.
            let mut told = folds.clone();
            told[last].moves = told[last].moves.other();
            let marked = exercise.mark(&Answer::Folds(told), 0);
            assert_eq!(marked.got, marked.of, "{} {}", about(&exercise), side_a.len());
            let mut wrong = folds.clone();
            wrong[0].lands = wrong[0].lands.other();
            let marked = exercise.mark(&Answer::Folds(wrong), 0);
            assert_eq!(marked.got, marked.of - 4, "{}: {marked:?}", about(&exercise));
            assert!(marked.departs.is_some() && marked.shown.is_some());
            // The folds so far are worth what they are.
            let marked = exercise.mark(&Answer::Folds(folds[..last].to_vec()), 0);
            assert_eq!(marked.got, marked.of - 4, "{}: {marked:?}", about(&exercise));
        }
    }
}

#[test]
fn cause_and_check_are_marked_apart() {
    for level in 1..=LEVELS {
        for exercise in of(Kind::WrongSheet, level) {
            let Answer::WrongSheet { causes, check } = exercise.right() else { panic!() };
            assert!(check.is_some(), "{}", about(&exercise));
            let marked = exercise.mark(&Answer::WrongSheet { causes: causes.clone(), check: None }, 0);
            assert_eq!(marked.got, marked.of - 2);
            let marked = exercise.mark(&Answer::WrongSheet { causes: Vec::new(), check }, 0);
            assert_eq!(marked.got, 2);
        }
        for exercise in of(Kind::WrongBook, level) {
            let Answer::WrongBook { faults, check } = exercise.right() else { panic!() };
            let marked = exercise.mark(&Answer::WrongBook { faults: faults.clone(), check: None }, 0);
            assert_eq!(marked.got, marked.of - 2, "{}", about(&exercise));
            let sections = faults.iter().map(|f| Pointed { fault: None, ..*f }).collect();
            let marked = exercise.mark(&Answer::WrongBook { faults: sections, check }, 0);
            assert_eq!(marked.got, marked.of - 4 * faults.len() as u32, "{}: {marked:?}", about(&exercise));
        }
    }
}

/// Fold 1 the other way and the sheet turned over make the same section of a sheet folded in the middle: both count.
#[test]
fn look_alikes_are_accepted() {
    let mut seen = 0;
    for exercise in (0..60).map(|seed| Exercise::of(Kind::WrongSheet, 2, seed).unwrap()) {
        let first = Answer::WrongSheet { causes: vec![Cause::FoldOtherWay { fold: 1 }], check: None };
        let marked = exercise.mark(&first, 0);
        let Task::WrongSheet { scheme, .. } = &exercise.task else { panic!() };
        // In a letter fold the first fold has no middle line to turn the sheet about.
        if marked.got == 4 && scheme.pages() == 8 {
            let about = scheme.folds[0].crease;
            let other = Answer::WrongSheet { causes: vec![Cause::SheetTurnedOver { about }], check: None };
            assert_eq!(exercise.mark(&other, 0).got, 4, "{scheme:?}");
            seen += 1;
        }
    }
    assert!(seen > 3, "{seen}");
}

fn any_fold() -> impl Strategy<Value = Fold> {
    (any::<u32>(), 0..4_usize, any::<bool>(), 0..6_u32).prop_map(|(far, part, over, near)| {
        let part = [Part::Left, Part::Right, Part::Top, Part::Bottom][part];
        let after = if far % 7 == 0 { far } else { near };
        let mut fold = Fold::new(after, part, if over { Lands::Over } else { Lands::Under });
        if far % 11 == 0 {
            fold.crease = if fold.crease == Crease::Vertical { Crease::Horizontal } else { Crease::Vertical };
        }
        fold
    })
}

fn any_answer() -> impl Strategy<Value = Answer> {
    let cell = (proptest::option::of(any::<u32>()), proptest::option::of(0..4_u8)).prop_map(|(page, head)| {
        let heads = ["up", "right", "down", "left"];
        let head = head.map(|h| serde_json::from_value(heads[usize::from(h)].into()).unwrap());
        backmark::practice::Cell { page: page.map(|p| if p % 3 == 0 { p } else { p % 40 }), head }
    });
    let side = proptest::collection::vec(proptest::collection::vec(cell, 0..5), 0..4);
    let fault =
        (0..10_u8, any::<u32>(), any::<u32>(), any::<u32>(), any::<bool>()).prop_map(|(kind, a, b, c, small)| {
            let [a, b, c] = if small { [a % 14, b % 14, c % 14] } else { [a, b, c] };
            match kind {
                0 => Fault::Missing { section: a },
                1 => Fault::Double { section: a },
                2 => Fault::WrongSection { at: a, section: b },
                3 => Fault::Exchanged { sections: [a, b] },
                4 => Fault::Foreign { at: a },
                5 => Fault::NoMark { at: a },
                6 => Fault::Moved { sections: [a, b], after: c },
                7 => Fault::Reversed,
                8 => Fault::DividedWrong { after: a },
                _ => Fault::Lies { section: a, lies: backmark::marks::Lies::HeadToTail },
            }
        });
    let pointed = (proptest::option::of(any::<u32>()), proptest::option::of(fault))
        .prop_map(|(section, fault)| Pointed { section, fault });
    let cause = (0..5_u8, any::<u32>(), 0..5_u32).prop_map(|(kind, far, near)| match kind {
        0 => Cause::FoldOtherWay { fold: far },
        1 => Cause::FoldFromOtherEdge { fold: near },
        2 => Cause::PagesExchanged { pages: [far, near] },
        3 => Cause::PageHeadDown { page: far },
        _ => Cause::Together { causes: vec![Cause::FoldOtherWay { fold: near }, Cause::SheetEndForEnd] },
    });
    let number = prop_oneof![any::<f64>(), -10.0..400.0_f64];
    prop_oneof![
        (side.clone(), side).prop_map(|(side_a, side_b)| Answer::Sheet(SheetCells { side_a, side_b })),
        proptest::collection::vec(any_fold(), 0..20).prop_map(Answer::Folds),
        (proptest::collection::vec(cause, 0..4), proptest::option::of(any::<u32>()))
            .prop_map(|(causes, check)| Answer::WrongSheet { causes, check }),
        (proptest::collection::vec(pointed, 0..4), proptest::option::of(any::<u32>()))
            .prop_map(|(faults, check)| Answer::WrongBook { faults, check }),
        proptest::collection::vec(prop_oneof![any::<u32>(), 0..40_u32], 0..60).prop_map(Answer::MakeUp),
        (number.clone(), number.clone(), number, any::<u32>()).prop_map(|(first_mm, step_mm, length_mm, levels)| {
            let design = backmark::marks::Design { spine_mm: 1.0, first_mm, step_mm, length_mm, levels };
            Answer::BackMarks(design)
        }),
        Just(Answer::Bolts(vec![backmark::practice::LeafEdges::default(); 500])),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, ..ProptestConfig::default() })]

    #[test]
    fn any_answer_is_marked(kind in 0..8_usize, level in 1..=LEVELS, seed in any::<u64>(), hints in any::<u32>(),
        answer in any_answer()) {
        let exercise = Exercise::of(Kind::ALL[kind], level, seed).unwrap();
        let marked = exercise.mark(&answer, hints);
        prop_assert!(marked.got <= marked.of && !marked.says.is_empty());
        prop_assert!(marked.items.iter().all(|i| i.got <= i.of));
    }

    #[test]
    fn every_seed_sets_something_with_a_right_answer(kind in 0..8_usize, level in 1..=LEVELS, seed in any::<u64>()) {
        let exercise = Exercise::of(Kind::ALL[kind], level, seed).unwrap();
        let marked = exercise.mark(&exercise.right(), 0);
        prop_assert_eq!(marked.got, marked.of);
        prop_assert_eq!(exercise.hints().len(), 3);
    }
}
