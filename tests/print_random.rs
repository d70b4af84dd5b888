//! A thousand random documents of every kind, each from one number: none panics, and a PDF reader of another hand (lopdf) finds
//! as many pages of the right size, whose content it can read. Where the program `qpdf` is there, it checks some of them, too.
//!
//! A plain run makes a part of them; all are made by
//!
//! ```text
//! cargo test --release --no-default-features --test print_random -- --ignored
//! ```

#![allow(clippy::panic, clippy::unwrap_used, reason = "what tests call may panic as tests may")]

mod print_support;
#[path = "support/requests.rs"]
mod requests;

use backmark::fold::misfold::look_alikes;
use backmark::fold::{Measure, NamedCourse, courses};
use backmark::marks::{BackMarks, Design, Refusal};
use backmark::paper::Length;
use backmark::practice::{Entry, Kind, Logbook, Wanted, Worksheet};
use backmark::print::{
    Document, Dummy, Flip, Made, MarkSheet, Off, Paper, Printer, WorksheetLook, dummy, fault_cards, logbook_page,
    mark_sheet, pdf, strips, test_page, worksheet, worksheet_key,
};
use print_support::{POINTS, read};
use requests::Dice;
use std::process::Command;

const CASES: u64 = 1000;
/// A plain run makes one of so many.
const STRIDE: usize = 8;

fn printer(dice: &mut Dice) -> Printer {
    let off = |dice: &mut Dice| f64::from(dice.below(400)) / 10.0 - 20.0;
    Printer {
        paper: dice.pick(&Paper::ALL),
        flip: dice.pick(&[Flip::LongEdge, Flip::ShortEdge]),
        off: Off { right_mm: off(dice), down_mm: off(dice) },
    }
}

fn a_dummy(dice: &mut Dice, all: &[NamedCourse]) -> Dummy {
    let named = &all[dice.below(all.len() as u32) as usize];
    let course = named.course.clone();
    let mut panels = |n: u32| (0..n).map(|_| Length::from_whole_mm(20 + i64::from(dice.below(160)))).collect();
    let measure = Measure { columns: panels(course.columns), rows: panels(course.rows) };
    let measure = (!dice.once_in(2)).then_some(measure);
    // A fault of this very sheet, if it has any.
    let scheme = course.scheme().filter(|s| s.leaves() <= 64);
    let fault = scheme.filter(|_| dice.once_in(2)).and_then(|scheme| {
        let alikes = look_alikes(&scheme, 1).ok()?;
        let causes: Vec<_> = alikes.groups.into_iter().flat_map(|g| g.causes).collect();
        let cause = causes.get(dice.below(causes.len() as u32) as usize)?.clone();
        Some((cause, dice.pick(&[Made::ByFolds, Made::ByFigures])))
    });
    let name =
        dice.pick(&["", "Tides – “and” Winds ≤ 日", "A name that is a good deal longer than the line it stands on"]);
    Dummy {
        name: name.into(),
        course,
        first_page: 1 + dice.below(9_999),
        oblong: named.oblong,
        true_size: measure.is_some() && dice.once_in(3),
        measure,
        fault,
    }
}

fn a_worksheet(dice: &mut Dice) -> Result<Document, Refusal> {
    let wanted: Vec<Wanted> = (0..1 + dice.below(6))
        .map(|_| Wanted { kind: dice.pick(&Kind::ALL), level: 1 + dice.below(5) as u8, seed: None })
        .collect();
    let sheet = Worksheet::of(&wanted, dice.next(), 1 + dice.below(3))?;
    let words = dice.pick(&[
        "",
        "Bindery 2 – “late” 日",
        "A class whose name is much longer than the line that it is written on, and more",
    ]);
    let look = WorksheetLook {
        title: words.into(),
        class: words.into(),
        date: words.into(),
        paper: dice.pick(&Paper::ALL),
        both_sides: dice.once_in(2),
    };
    Ok(if dice.once_in(2) { worksheet(&sheet, &look)?.sheet } else { worksheet_key(&sheet, &look)?.sheet })
}

fn marks(dice: &mut Dice) -> (BackMarks, u32) {
    let levels = 1 + dice.below(40);
    let step_mm = f64::from(20 + dice.below(60)) / 10.0;
    let spine_mm = 60.0 + step_mm * f64::from(levels);
    let first_mm = f64::from(dice.below(50));
    (Design { spine_mm, first_mm, step_mm, length_mm: step_mm, levels }.into(), 1 + dice.below(90))
}

fn document(case: u64, all: &[NamedCourse]) -> Result<Document, Refusal> {
    let dice = &mut Dice::new(case);
    match dice.below(10) {
        0..=2 => dummy(&a_dummy(dice, all), &printer(dice)),
        3..=5 => a_worksheet(dice),
        6 => {
            let (marks, sections) = marks(dice);
            let of = a_dummy(dice, all);
            let sheet = of.measure.map(|measure| (of.course, measure));
            let trims_mm = (f64::from(dice.below(8)), f64::from(dice.below(8)));
            mark_sheet(&MarkSheet { title: of.name, marks, sections, trims_mm, sheet }, dice.pick(&Paper::ALL))
        }
        7 => {
            let entry = |dice: &mut Dice| Entry {
                kind: dice.pick(&Kind::ALL),
                level: 1 + dice.below(5) as u8,
                seed: dice.next(),
                date: dice.pick(&["", "Monday", "the twenty-fifth of November, in the late afternoon – 日"]).into(),
                got: dice.below(9),
                of: 9,
                hints: dice.below(4),
                minutes: dice.below(100_001),
            };
            let logbook = Logbook::of((0..dice.below(300)).map(|_| entry(dice)).collect()).unwrap();
            logbook_page(&logbook, dice.pick(&["", "Ann Example"]), "", dice.pick(&Paper::ALL))
        }
        8 => {
            let (marks, sections) = marks(dice);
            strips(&marks, sections, dice.pick(&Paper::ALL))
        }
        _ if dice.once_in(2) => test_page(&printer(dice)),
        _ => {
            let base = a_dummy(dice, all);
            let faults = [None, base.fault.clone().map(|(cause, _)| cause)];
            fault_cards(&base, &faults, &printer(dice))
        }
    }
}

/// Makes one; `true` where it could be made. What can't be is refused in words.
fn checked(case: u64, all: &[NamedCourse], checker: Option<&str>) -> bool {
    let made = match document(case, all) {
        Ok(made) => made,
        Err(refused) => {
            assert!(refused.says.len() > 10, "case {case}: {refused:?}");
            return false;
        }
    };
    let bytes = pdf(&made);
    let (_, pages) = read(&bytes);
    assert_eq!(pages.len(), made.pages.len(), "case {case}");
    for (page, made) in pages.iter().zip(&made.pages) {
        let off = (page.size.0 - made.width_mm * POINTS).abs() + (page.size.1 - made.height_mm * POINTS).abs();
        assert!(off < 0.002, "case {case}");
    }
    if let Some(program) = checker {
        let file = std::env::temp_dir().join(format!("backmark-print-{}-{case}.pdf", std::process::id()));
        std::fs::write(&file, &bytes).unwrap();
        let said = Command::new(program).arg("--check").arg(&file).output().unwrap();
        std::fs::remove_file(&file).unwrap();
        assert!(said.status.success(), "case {case}: {}", String::from_utf8_lossy(&said.stdout));
    }
    true
}

/// The program that checks the structure of PDF files, where it is there.
fn checker() -> Option<&'static str> {
    let there = Command::new("qpdf").arg("--version").output().is_ok_and(|said| said.status.success());
    if !there {
        eprintln!("The program qpdf is not here, so the files are read by lopdf alone.");
    }
    there.then_some("qpdf")
}

fn make(stride: usize) {
    let (all, checker) = (courses(), checker());
    let cases = (0..CASES).step_by(stride);
    let made = cases.clone().filter(|case| checked(*case, &all, checker.filter(|_| case % 5 == 0))).count();
    assert!(3 * made > 2 * cases.count(), "most can be made: {made}");
}

#[test]
fn random_documents_are_files_that_others_can_read() {
    make(STRIDE);
}

#[test]
#[ignore = "all of them: by hand"]
fn all_random_documents_are_files_that_others_can_read() {
    make(1);
}
