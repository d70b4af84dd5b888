//! Laws of reading and explaining: what was planted is found, what is told makes the book, nothing panics.

#![expect(clippy::unwrap_used, reason = "a test may panic")]

use backmark::gather::run::{parse_run, print_run};
use backmark::gather::stack::{Placed, Stack, seen};
use backmark::gather::{Checked, Fault, Found, Lies, check, check_found, explain, retold};
use backmark::marks::{Design, Seen, read_spine};
use proptest::prelude::*;

/// The books the single faults are planted in.
const SIZES: [u32; 5] = [2, 3, 5, 12, 20];

fn looked_at(sections: u32, stack: &Stack) -> Checked {
    let design = Design::default();
    let back_of = |placed: &Placed| placed.misfold.is_none();
    check(sections, &design, &seen(stack, &design, &back_of)).unwrap()
}

/// Spoils a good book once, and expects the fault among the explanations, first unless others fit as well.
#[track_caller]
fn planted(sections: u32, fault: Fault, spoil: impl FnOnce(&mut Stack)) {
    let mut stack = Stack::good(sections);
    spoil(&mut stack);
    let checked = looked_at(sections, &stack);
    let all = &checked.explained.explanations;
    assert!(checked.explained.complete);
    assert!(!checked.verdict.right);
    let at = all.iter().position(|one| one.faults == [fault]);
    assert!(at.is_some(), "{sections} sections, {fault:?}: {all:#?}");
    if all.len() == 1 {
        assert_eq!(at, Some(0));
    } else {
        let alike = matches!(fault, Fault::Exchanged { .. } | Fault::Moved { .. } | Fault::Reversed);
        assert!(alike && sections <= 3, "{sections} sections, {fault:?}: {all:#?}");
    }
    for line in &checked.verdict.lines {
        assert!(!line.places.is_empty(), "{line:?}");
        assert!(line.places.is_sorted(), "{line:?}");
        let last = stack.placed().len() as u32;
        assert!(line.places.iter().all(|place| (1..=last).contains(place)), "{line:?}");
    }
}

#[test]
fn every_single_fault_of_a_station_at_every_place() {
    for n in SIZES {
        for at in 1..=n {
            planted(n, Fault::Missing { section: at }, |stack| stack.leave_out(at).unwrap());
            planted(n, Fault::Double { section: at }, |stack| stack.take_two(at).unwrap());
            planted(n, Fault::Foreign { at }, |stack| stack.foreign(at).unwrap());
            planted(n, Fault::NoMark { at }, |stack| stack.misfold(at, Some(1)).unwrap());
            for lies in [Lies::TurnedInPlane, Lies::SideToSide] {
                planted(n, Fault::NoMark { at }, |stack| stack.lay(at, lies).unwrap());
            }
            let lies = Lies::HeadToTail;
            planted(n, Fault::Lies { section: at, lies }, |stack| stack.lay(at, lies).unwrap());
            for section in (1..=n).filter(|&section| section != at) {
                planted(n, Fault::WrongSection { at, section }, |stack| stack.put_in(at, section).unwrap());
            }
        }
    }
}

#[test]
fn every_single_act_on_the_row() {
    for n in SIZES {
        for b in 2..=n {
            for a in 1..b {
                planted(n, Fault::Exchanged { sections: [a, b] }, |stack| stack.exchange(a, b).unwrap());
            }
        }
        for k in 2..=n {
            for j in 1..k {
                for i in 0..j {
                    if k - i == 2 {
                        continue;
                    }
                    let fault = if j - i <= k - j {
                        Fault::Moved { sections: [i + 1, j], after: k }
                    } else {
                        Fault::Moved { sections: [j + 1, k], after: i }
                    };
                    planted(n, fault, |stack| stack.carry(i + 1..=j, k).unwrap());
                }
            }
        }
        planted(n, Fault::Reversed, |stack| {
            for at in 1..=n / 2 {
                stack.exchange(at, n + 1 - at).unwrap();
            }
        });
    }
}

#[test]
fn every_way_to_lie_in_a_typed_run() {
    for lies in [Lies::HeadToTail, Lies::TurnedInPlane, Lies::SideToSide] {
        for section in 1..=7 {
            let mut found = (1..=7).map(Found::right).collect::<Vec<_>>();
            found[section as usize - 1] = Found::Section { section, lies };
            let checked = check_found(7, &found).unwrap();
            assert_eq!(checked.explained.explanations[0].faults, [Fault::Lies { section, lies }]);
            assert_eq!(checked.verdict.lines[0].places, [section]);
        }
    }
}

#[test]
fn every_rotation_may_be_a_book_divided_wrong() {
    for n in SIZES {
        for after in 1..n {
            let found = (after + 1..=n).chain(1..=after).map(Found::right).collect::<Vec<_>>();
            let explained = explain(n, &found).unwrap();
            let divided = vec![Fault::DividedWrong { after }];
            assert!(
                explained.explanations.iter().any(|one| one.same_order_as == [divided.clone()]),
                "{n} sections after {after}: {explained:#?}"
            );
            assert_eq!(retold(n, &divided), found);
        }
    }
}

fn any_lies() -> impl Strategy<Value = Lies> {
    prop_oneof![
        6 => Just(Lies::Right),
        1 => Just(Lies::HeadToTail),
        1 => Just(Lies::TurnedInPlane),
        1 => Just(Lies::SideToSide),
    ]
}

fn any_found(sections: u32) -> impl Strategy<Value = Found> {
    prop_oneof![
        8 => (1..=sections, any_lies()).prop_map(|(section, lies)| Found::Section { section, lies }),
        1 => Just(Found::NoMark),
        1 => Just(Found::Foreign),
        1 => Just(Found::Unread),
    ]
}

/// Faults that can be told over by [`retold`]: one a station, moves on the right row.
fn any_faults(sections: u32) -> impl Strategy<Value = Vec<Fault>> {
    let station = (1..=sections, 1..=sections, 0..5_u32).prop_map(|(at, section, kind)| match kind {
        0 => Fault::Missing { section: at },
        1 => Fault::Double { section: at },
        2 if section != at => Fault::WrongSection { at, section },
        3 => Fault::Foreign { at },
        _ => Fault::NoMark { at },
    });
    let exchanged = (1..sections)
        .prop_flat_map(move |a| (Just(a), a + 1..=sections))
        .prop_map(|(a, b)| Fault::Exchanged { sections: [a, b] });
    let one = prop_oneof![3 => station, 2 => exchanged, 1 => Just(Fault::Reversed)];
    prop::collection::vec(one, 1..=3).prop_filter("one fault a station, one reversal", |faults| {
        let mut stations = faults
            .iter()
            .map(|fault| match *fault {
                Fault::Missing { section: at } | Fault::Double { section: at } => at,
                Fault::WrongSection { at, .. } | Fault::Foreign { at } | Fault::NoMark { at } => at,
                Fault::Exchanged { sections: [a, b] } => 1000 * a + b,
                _ => 0,
            })
            .collect::<Vec<_>>();
        stations.sort_unstable();
        stations.windows(2).all(|pair| pair[0] != pair[1])
    })
}

fn in_any_order(faults: &[Fault]) -> Vec<Fault> {
    let mut faults = faults.to_vec();
    faults.sort_unstable();
    faults
}

/// The finds as if each section lay right.
fn laid_right(found: &[Found]) -> Vec<Found> {
    found
        .iter()
        .map(|found| match *found {
            Found::Section { section, .. } => Found::right(section),
            other => other,
        })
        .collect()
}

proptest! {
    #[test]
    fn up_to_three_planted_faults_are_found((n, faults) in (4..40_u32).prop_flat_map(|n| (Just(n), any_faults(n)))) {
        let found = retold(n, &faults);
        let explained = explain(n, &found).unwrap();
        let count = explained.explanations.first().map_or(0, |first| first.faults.len());
        prop_assert!(count <= faults.len());
        prop_assert!(count > 0 || explained.complete);
        if count == faults.len() && explained.complete {
            let wanted = in_any_order(&faults);
            prop_assert!(explained.explanations.iter().any(|one| in_any_order(&one.faults) == wanted));
        }
    }

    #[test]
    fn what_is_told_makes_the_book((n, faults) in (2..30_u32).prop_flat_map(|n| (Just(n), any_faults(n)))) {
        let found = retold(n, &faults);
        let explained = explain(n, &found).unwrap();
        let mut odds = 0.0;
        for one in &explained.explanations {
            prop_assert_eq!(retold(n, &one.faults), found.clone());
            for also in &one.same_order_as {
                prop_assert_eq!(retold(n, also), found.clone());
            }
            prop_assert_eq!(one.bulk, found.len() as i32 - n as i32);
            prop_assert!(!one.next_check.is_empty());
            odds += one.odds;
        }
        prop_assert!(explained.explanations.is_empty() || (odds - 1.0).abs() < 1e-9);
        let sorted = explained.explanations.windows(2).all(|pair| pair[0].odds >= pair[1].odds);
        prop_assert!(sorted);
    }

    #[test]
    fn any_small_book(
        (n, found) in (1..7_u32).prop_flat_map(|n| (Just(n), prop::collection::vec(any_found(n), 0..9)))
    ) {
        let checked = check_found(n, &found).unwrap();
        let unread = found.contains(&Found::Unread);
        for one in &checked.explained.explanations {
            let lying = one.faults.iter().filter(|fault| matches!(fault, Fault::Lies { .. })).count();
            let wrong = found.iter().filter(|found| {
                matches!(found, Found::Section { lies, .. } if *lies != Lies::Right)
            });
            prop_assert_eq!(lying, wrong.count());
            let book = retold(n, &one.faults);
            prop_assert_eq!(book.len(), found.len());
            if !unread {
                prop_assert_eq!(laid_right(&book), laid_right(&found));
            }
        }
        prop_assert!(!checked.verdict.lines.is_empty());
        prop_assert_eq!(
            checked.verdict.right,
            found == (1..=n).map(Found::right).collect::<Vec<_>>()
        );
    }

    #[test]
    fn a_run_is_read_back(found in prop::collection::vec(any_found(400), 0..60)) {
        let line = print_run(&found);
        prop_assert_eq!(parse_run(&line).unwrap(), found);
    }

    #[test]
    fn any_line_is_read_or_refused(line in "[-0-9dtbx_?, –é]{0,40}|\\PC{0,40}") {
        match parse_run(&line) {
            Ok(found) => prop_assert_eq!(parse_run(&print_run(&found)).unwrap(), found),
            Err(error) => {
                let rest = line.chars().skip(error.at - 1).collect::<String>();
                prop_assert!(rest.starts_with(&error.word));
            }
        }
    }

    #[test]
    fn marks_a_little_out_are_still_read(
        n in 1..=20_u32,
        out in prop::collection::vec(-1.4..1.4_f64, 20)
    ) {
        let design = Design::default();
        let backs = (1..=n).zip(&out).map(|(section, out)| Seen {
            marks_mm: Some(vec![design.middle_mm(section) + out]),
        });
        let reading = read_spine(n, &design, &backs.collect::<Vec<_>>()).unwrap();
        prop_assert_eq!(reading.found, (1..=n).map(Found::right).collect::<Vec<_>>());
    }

    #[test]
    fn any_marks_are_read_and_told(
        n in 1..30_u32,
        levels in 1..12_u32,
        step in prop_oneof![Just(9.0), 0.1..12.0_f64],
        backs in prop::collection::vec(
            prop::option::of(prop::collection::vec(prop_oneof![-10.0..230.0_f64, Just(24.5), Just(f64::MAX)], 0..3)),
            0..30
        )
    ) {
        let design = Design { step_mm: step, levels, ..Design::default() };
        let backs = backs.into_iter().map(|marks_mm| Seen { marks_mm }).collect::<Vec<_>>();
        let checked = check(n, &design, &backs).unwrap();
        prop_assert_eq!(checked.reading.found.len(), backs.len());
        for doubt in &checked.reading.doubts {
            let found = checked.reading.found[doubt.at as usize - 1];
            prop_assert!(found == Found::Unread || doubt.could_be.contains(&found));
        }
    }
}
