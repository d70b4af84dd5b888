//! Laws of blind spots: what the report does not name is really seen, what it names is not, and a proposed change mends
//! it. Books are spoiled by hand here and looked at back by back, by another way than the report's own.

#![expect(clippy::unwrap_used, reason = "a test may panic")]

use backmark::gather::blind::{BlindSpots, Spot, Why, blind_spots};
use backmark::gather::stack::{Placed, Stack, seen_backs};
use backmark::gather::{Lies, check_backs};
use backmark::marks::{AfterWrap, BackMarks, Backs, Design, Inset, Label, Runs, SeenBack, read_backs};
use proptest::prelude::*;

/// A design whose bars stand on the spine for any book of up to twelve sections.
fn marks() -> impl Strategy<Value = BackMarks> {
    let halves = |from: u32, to: u32| (from..to).prop_map(|n| f64::from(n) / 2.0);
    let stairs =
        (halves(20, 120), halves(9, 25), 2..13_u32, 180..240_u32).prop_map(|(first_mm, step_mm, levels, spine)| {
            let levels = levels.min(((f64::from(spine) - first_mm - 20.0) / step_mm) as u32).max(1);
            Design { spine_mm: f64::from(spine), first_mm, step_mm, length_mm: step_mm, levels }
        });
    let after = prop_oneof![
        3 => Just(AfterWrap::Again),
        1 => Just(AfterWrap::Column { apart_mm: 2.5 }),
        1 => Just(AfterWrap::Width { width_mm: 4.0 }),
    ];
    let label = Label { number: true, of_how_many: false, title: String::new(), from_mm: 1.0, size_mm: 2.0 };
    let label = prop_oneof![4 => Just(None), 1 => Just(Some(label))];
    (stairs, after, any::<bool>(), prop::option::of(Just(2.0)), label).prop_map(
        |(stairs, after_wrap, up, longer, label)| {
            let runs = if up { Runs::Up } else { Runs::Down };
            let ends_mm = longer.map(|longer| stairs.length_mm + longer);
            BackMarks { after_wrap, runs, ends_mm, label, ..stairs.into() }
        },
    )
}

fn look(stack: &Stack, marks: &BackMarks, sections: u32) -> Vec<SeenBack> {
    seen_backs(stack, marks, sections, &|placed: &Placed| placed.misfold.is_none())
}

/// Whether two backs look alike to one who holds them side by side: heights within a third of a step, and nothing else
/// different. Marks of the right book stand exactly; only turned ones may be a little off another level.
fn alike(marks: &BackMarks, one: &SeenBack, other: &SeenBack) -> bool {
    let (a, b) = (one.marks_mm.as_ref().unwrap(), other.marks_mm.as_ref().unwrap());
    let near = |(a, b): (&f64, &f64)| (a - b).abs() <= marks.stairs.step_mm / 3.0 + 1e-5;
    let noted = |seen: &SeenBack| SeenBack { marks_mm: None, ..seen.clone() };
    a.len() == b.len() && a.iter().zip(b).all(near) && noted(one) == noted(other)
}

fn rows_alike(marks: &BackMarks, one: &[SeenBack], other: &[SeenBack]) -> bool {
    one.len() == other.len() && one.iter().zip(other).all(|(a, b)| alike(marks, a, b))
}

fn spot(report: &BlindSpots, why: Why) -> Option<&Spot> {
    report.spots.iter().find(|spot| spot.why == why)
}

fn names(report: &BlindSpots, why: Why, section: u32) -> bool {
    spot(report, why).is_some_and(|spot| spot.sections.contains(&section))
}

/// Everything that a report says about single sections of a book, held against the book itself.
fn holds(marks: &BackMarks, sections: u32, report: &BlindSpots) -> Result<(), TestCaseError> {
    let right = look(&Stack::good(sections), marks, sections);
    let spoilt = |spoil: &dyn Fn(&mut Stack)| {
        let mut stack = Stack::good(sections);
        spoil(&mut stack);
        look(&stack, marks, sections)
    };
    for a in 1..=sections {
        let turned = spoilt(&|stack| stack.lay(a, Lies::HeadToTail).unwrap());
        prop_assert_eq!(rows_alike(marks, &turned, &right), names(report, Why::MidHeight, a), "{} turned", a);
        let elsewhere = (1..=sections).any(|b| b != a && alike(marks, &turned[a as usize - 1], &right[b as usize - 1]));
        let told = names(report, Why::MidHeight, a) || names(report, Why::TurnedOntoAnother, a);
        prop_assert!(told || !elsewhere, "{} turned looks like another", a);
        let missing = spoilt(&|stack| stack.leave_out(a).unwrap());
        let whole = |(part, from): (&[SeenBack], usize)| {
            let ends = |i: usize, j: usize| {
                missing
                    .get(i)
                    .zip(right.get(j))
                    .is_none_or(|(m, r)| (m.length_mm, m.number.is_some()) == (r.length_mm, false))
            };
            rows_alike(marks, &missing, part)
                && (from != 1 || ends(0, 0))
                && (from != 0 || ends(missing.len() - 1, right.len() - 1))
        };
        let parts = right.windows(missing.len().max(1)).zip(0..);
        let no_gap = !missing.is_empty() && parts.into_iter().any(whole);
        prop_assert!(!no_gap || spot(report, Why::NoGap).is_some(), "{} missing leaves no gap", a);
        for b in a + 1..=sections {
            let exchanged = spoilt(&|stack| stack.exchange(a, b).unwrap());
            let told = names(report, Why::SharedLevel, a) && names(report, Why::SharedLevel, b);
            prop_assert!(told || !rows_alike(marks, &exchanged, &right), "{} and {} exchanged", a, b);
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, ..ProptestConfig::default() })]

    #[test]
    fn what_is_not_named_shows_and_what_is_named_does_not(marks in marks(), sections in 2..13_u32) {
        prop_assume!(marks.check(sections).is_ok());
        let report = blind_spots(sections, &marks, &Backs::default(), "Almanac").unwrap();
        holds(&marks, sections, &report)?;
    }

    #[test]
    fn a_proposed_change_really_removes_what_it_is_for(marks in marks(), sections in 2..10_u32) {
        prop_assume!(marks.check(sections).is_ok());
        let report = blind_spots(sections, &marks, &Backs::default(), "Almanac").unwrap();
        for spot in &report.spots {
            let Some(change) = &spot.change else { continue };
            prop_assert!(change.marks.check(sections).is_ok());
            let then = blind_spots(sections, &change.marks, &Backs::default(), "Almanac").unwrap();
            prop_assert!(then.spots.iter().all(|other| other.why != spot.why), "{:?} by {}", spot.why, change.says);
            prop_assert!(then.look_right <= report.look_right);
            holds(&change.marks, sections, &then)?;
        }
    }

    /// Where columns or widths tell the turns apart, any row of up to two turns is read as it lies, without a doubt
    /// between them.
    #[test]
    fn sections_one_turn_apart_are_told_apart(
        row in prop::collection::vec(1..=48_u32, 1..60),
        wide in any::<bool>(),
    ) {
        let stairs = Design { spine_mm: 216.0, first_mm: 31.5, step_mm: 6.0, length_mm: 6.0, levels: 24 };
        let after_wrap = if wide { AfterWrap::Width { width_mm: 4.0 } } else { AfterWrap::Column { apart_mm: 2.5 } };
        let marks = BackMarks { after_wrap, ..stairs.into() };
        let backs = row.iter().map(|&s| SeenBack::of(&marks, s, 48, Lies::Right)).collect::<Vec<_>>();
        let reading = read_backs(48, &marks, &backs).unwrap();
        prop_assert_eq!(reading.found, row.iter().map(|&s| backmark::marks::Found::right(s)).collect::<Vec<_>>());
        prop_assert_eq!(reading.doubts, vec![]);
    }
}

/// The figures of the trade's own example: 24 sections, a step of 6 mm from 30 mm on a spine of 216 mm.
#[test]
fn twenty_four_sections_fit_and_forty_do_not() {
    let stairs = Design { spine_mm: 216.0, first_mm: 30.0, step_mm: 6.0, length_mm: 6.0, levels: 24 };
    let marks = BackMarks::from(stairs);
    marks.check(24).unwrap();
    assert_eq!(marks.bar(24, 24).ends_mm(), (168.0, 174.0));
    let forty = BackMarks::from(Design { levels: 40, ..stairs });
    assert!(forty.check(40).unwrap_err().says.contains("the spine is 216 mm long"));
    let shared = |marks: &BackMarks| {
        let report = blind_spots(25, marks, &Backs::default(), "").unwrap();
        spot(&report, Why::SharedLevel).map(|spot| spot.sections.clone())
    };
    assert_eq!(shared(&marks), Some(vec![1, 25]));
    assert_eq!(shared(&BackMarks { after_wrap: AfterWrap::Column { apart_mm: 2.5 }, ..marks }), None);
}

/// Roberts and Etherington, *Bookbinding and the Conservation of Books*, "black step": a line 6 points thick and about
/// 24 points long, each about 24 points lower than the one before, from head to tail.
#[test]
fn a_black_step_of_the_handbook_is_a_design() {
    let points = |points: f64| (points * 25.4 / 72.0 * 100.0).round() / 100.0;
    let stairs = Design { spine_mm: 222.0, first_mm: 20.0, step_mm: points(24.0), length_mm: points(24.0), levels: 20 };
    let marks = BackMarks { width_mm: points(6.0), ..stairs.into() };
    marks.check(20).unwrap();
    assert!((marks.width_mm - backmark::marks::USUAL_WIDTH_MM).abs() < 0.2);
    let report = blind_spots(20, &marks, &Backs::default(), "").unwrap();
    assert_eq!(report.misfits, Vec::<String>::new());
    // "A gap means a section missing": every one but the first and the last shows.
    let gap = spot(&report, Why::NoGap).unwrap();
    assert_eq!(gap.sections, [1, 20]);
}

/// What stands under a verdict is in the report, word for word.
#[test]
fn a_verdict_and_the_report_say_the_same() {
    let stairs = Design { spine_mm: 216.0, first_mm: 33.0, step_mm: 6.0, length_mm: 6.0, levels: 13 };
    for marks in [
        BackMarks::from(stairs),
        BackMarks { after_wrap: AfterWrap::Column { apart_mm: 2.5 }, ..stairs.into() },
        BackMarks { ends_mm: Some(10.0), ..stairs.into() },
        BackMarks { inset: Inset::Sheets { sheets: 2, head: None }, ..stairs.into() },
    ] {
        let backs = look(&Stack::good(20), &marks, 20);
        let checked = check_backs(20, &marks, &backs).unwrap();
        assert!(checked.verdict.right, "{marks:?}");
        let report = blind_spots(20, &marks, &Backs::default(), "").unwrap();
        let titles = report.spots.iter().map(|spot| spot.title.as_str()).collect::<Vec<_>>();
        for line in &checked.verdict.cannot_tell {
            let may_be = line.starts_with("The back at place");
            assert!(may_be || titles.contains(&line.as_str()), "{line:?} in {titles:#?}");
        }
    }
}
