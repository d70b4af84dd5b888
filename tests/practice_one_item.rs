//! One thing of a right answer changed: exactly what that thing is worth is lost. Bolts, back marks and make-ups, whose items
//! speak of the whole answer, are judged here a second time by plain arithmetic.

#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may")]

use backmark::book::plan;
use backmark::marks::{BackMarks, Backs, Design};
use backmark::practice::{Answer, AtEdge, Exercise, Kind, LEVELS, LeafEdges, Marked, Task};
use proptest::prelude::*;

/// Half marks of the items of back marks and of a make-up, in their order.
const MARKS: [u32; 4] = [4, 2, 2, 2];
const MAKE_UP: [u32; 3] = [4, 2, 2];

fn got(marked: &Marked) -> Vec<u32> {
    marked.items.iter().map(|item| item.got).collect()
}

/// What is right of such marks: on the spine, told apart, no look-alike head to tail, long enough and clear of the trim.
fn of_marks(d: &Design, sections: u32, backs: &Backs) -> [bool; 4] {
    let levels = d.levels.min(sections);
    let begins = |level: u32| d.first_mm + f64::from(level) * d.step_mm;
    let middle = |level: u32| begins(level) + d.length_mm / 2.0;
    let end = begins(levels - 1) + d.length_mm;
    let on = end <= d.spine_mm + 0.01;
    // A bar is read as the level that it is within a third of a step of, as `reach_mm` has it.
    let reach = BackMarks::from(*d).reach_mm();
    let pairs = (0..levels).flat_map(|a| (0..levels).map(move |b| (a, b)));
    let mut off = pairs.map(|(a, b)| (d.spine_mm - middle(a) - middle(b)).abs());
    let turned = off.all(|off| off > reach + 1e-6);
    let head = d.first_mm >= backs.head_trim_mm.unwrap() - 1e-6;
    let foot = !on || end <= d.spine_mm - backs.foot_trim_mm.unwrap() + 1e-6;
    // Each fold is out by 0.8 mm, and a step is three times what all of them come to.
    let least = 3.0 * 0.8 * f64::from(backs.folds).sqrt();
    [on, sections <= d.levels, turned, d.step_mm >= least && d.length_mm <= d.step_mm + 1e-6 && head && foot]
}

fn worth(right: &[bool], of: &[u32]) -> Vec<u32> {
    right.iter().zip(of).map(|(right, of)| if *right { *of } else { 0 }).collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, ..ProptestConfig::default() })]

    #[test]
    fn an_edge_of_a_leaf_told_otherwise_loses_half_a_mark(level in 1..=LEVELS, seed in 0..500_u64,
        changes in proptest::collection::btree_map((0..64_usize, 0..3_usize), (any::<bool>(), any::<bool>()), 1..4)) {
        let exercise = Exercise::of(Kind::Bolts, level, seed).unwrap();
        let Answer::Bolts(right) = exercise.right() else { panic!() };
        let mut given = right.clone();
        for ((leaf, edge), (other, left_out)) in &changes {
            let at = leaf % right.len();
            let now: LeafEdges = right[at];
            let others: Vec<AtEdge> = [AtEdge::Free, AtEdge::Opened, AtEdge::Closed].into_iter()
                .filter(|e| Some(*e) != [now.head, now.tail, now.fore_edge][*edge]).collect();
            let to = if *left_out { None } else { Some(others[usize::from(*other)]) };
            match edge { 0 => given[at].head = to, 1 => given[at].tail = to, _ => given[at].fore_edge = to }
        }
        let wrong = right.iter().zip(&given).map(|(r, g)| {
            [r.head != g.head, r.tail != g.tail, r.fore_edge != g.fore_edge].into_iter().filter(|w| *w).count() as u32
        }).sum::<u32>();
        prop_assume!(wrong > 0);
        let marked = exercise.mark(&Answer::Bolts(given), 0);
        prop_assert_eq!(marked.of - marked.got, wrong);
        prop_assert_eq!(marked.of, 3 * right.len() as u32);
    }

    #[test]
    fn a_number_of_the_back_marks_changed_loses_what_it_spoils(level in 1..=LEVELS, seed in 0..500_u64, which in 0..4_usize,
        by in prop_oneof![-6..=6_i32, -60..=60_i32]) {
        let exercise = Exercise::of(Kind::BackMarks, level, seed).unwrap();
        let Answer::BackMarks(mut design) = exercise.right() else { panic!() };
        let Task::BackMarks { sections, backs, .. } = &exercise.task else { panic!() };
        let half = f64::from(by) / 2.0;
        match which {
            0 => design.first_mm += half,
            1 => design.step_mm += half,
            2 => design.length_mm += half,
            _ => design.levels = design.levels.saturating_add_signed(by),
        }
        let fine = design.first_mm >= 0.0 && design.step_mm > 0.0 && design.length_mm > 0.0 && (1..=400).contains(&design.levels);
        prop_assume!(fine && design.first_mm <= design.spine_mm);
        let right = of_marks(&design, *sections, backs);
        let marked = exercise.mark(&Answer::BackMarks(design), 0);
        prop_assert_eq!(got(&marked), worth(&right, &MARKS), "{:?}", design);
        for (item, right) in marked.items.iter().zip(right) {
            prop_assert_eq!(item.says.is_empty(), right, "{}", item.says);
        }
    }

    #[test]
    fn a_section_changed_loses_what_it_spoils(level in 1..=LEVELS, seed in 0..500_u64, at in any::<prop::sample::Index>(),
        to in any::<prop::sample::Index>(), how in 0..4_u8) {
        let exercise = Exercise::of(Kind::MakeUp, level, seed).unwrap();
        let Answer::MakeUp(right) = exercise.right() else { panic!() };
        let Task::MakeUp { job } = &exercise.task else { panic!() };
        let mut given = right.clone();
        let (at, to) = (at.index(right.len()), to.index(right.len()));
        match how {
            0 => given.swap(at, to),
            1 => given[at] = right[to],
            2 => drop(given.remove(at)),
            _ => given.insert(at, right[to]),
        }
        prop_assume!(!given.is_empty());
        let (pages, least): (u32, u32) = (given.iter().sum(), right.iter().sum());
        let held = pages >= job.extent;
        // Whether something is better is asked of the words that tell it, and not of the ranks.
        let asked = plan(job, Some(&given)).unwrap().by_hand.unwrap();
        let best = given == right || asked.behind.starts_with("It is as good") || asked.behind.starts_with("It would stand");
        let marked = exercise.mark(&Answer::MakeUp(given.clone()), 0);
        prop_assert_eq!(got(&marked), worth(&[held, held && pages <= least, held && best], &MAKE_UP), "{:?}", given);
    }
}

/// What the highest level asks is of another kind, and not only more of it.
#[test]
fn the_highest_level_asks_something_else() {
    for seed in 0..40 {
        let task = |kind, level| Exercise::of(kind, level, seed).unwrap().task;
        for (level, slit) in [(4, false), (5, true)] {
            for kind in [Kind::NumberSheet, Kind::SetHeads, Kind::Bolts] {
                let (Task::NumberSheet { course, .. } | Task::SetHeads { course, .. } | Task::Bolts { course, .. }) =
                    task(kind, level)
                else {
                    panic!()
                };
                assert_eq!(course.scheme().is_none(), slit, "{kind:?} {level} {seed}");
            }
            let two = if level == 5 { 2 } else { 1 };
            assert!(matches!(task(Kind::WrongSheet, level), Task::WrongSheet { wrong, .. } if wrong == two));
            assert!(matches!(task(Kind::WrongBook, level), Task::WrongBook { wrong, .. } if wrong == two));
            let Task::FindFolds { side_b, .. } = task(Kind::FindFolds, level) else { panic!() };
            assert_eq!(side_b.iter().flatten().all(Option::is_none), level == 5);
            let Task::MakeUp { job } = task(Kind::MakeUp, level) else { panic!() };
            assert_eq!(job.extent % 4, if level == 5 { 2 } else { 0 });
            // Only the least step fits, and it does not fit everywhere.
            let Task::BackMarks { sections, spine_mm, backs } = task(Kind::BackMarks, level) else { panic!() };
            let least = (2.0 * backs.least_step_mm()).ceil() / 2.0;
            let room = spine_mm - backs.head_trim_mm.unwrap() - backs.foot_trim_mm.unwrap();
            assert_eq!(f64::from(sections) * (least + 0.5) > room, level == 5);
        }
    }
}
