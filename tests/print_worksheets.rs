//! Printed worksheets, mark sheets and logbooks against a PDF reader of another hand (lopdf): what stands where is read back
//! from the file. The key's figures are laid on the sheet again and folded by the engine, which `tests/fold_handbooks.rs`
//! compares with print.

#![allow(clippy::panic, clippy::unwrap_used, reason = "what tests call may panic as tests may")]

mod print_support;

use backmark::fold::{Course, Direction, Face, Measure, Side, Worked, courses};
use backmark::marks::{AfterWrap, BackMarks, Design};
use backmark::paper::Length;
use backmark::practice::{Entry, Exercise, Kind, Logbook, Task, Wanted, Worksheet, exercise_of, halves, mixed};
use backmark::print::{
    Document, MarkSheet, Paper, WorksheetLook, logbook_page, mark_sheet, pdf, worksheet, worksheet_key,
};
use print_support::{POINTS, Read, figures, letters, read, words};
use std::collections::BTreeMap;

const PAPERS: [Paper; 2] = [Paper::A4, Paper::Letter];

fn look(paper: Paper) -> WorksheetLook {
    WorksheetLook { paper, ..WorksheetLook::default() }
}

fn one(kind: Kind, level: u8, seed: u64) -> Worksheet {
    Worksheet::of(&[Wanted { kind, level, seed: Some(seed) }], seed, 1).unwrap()
}

fn sheet_of(sheet: &Worksheet, paper: Paper) -> Document {
    worksheet(sheet, &look(paper)).unwrap().sheet
}

fn key_of(sheet: &Worksheet, paper: Paper) -> Document {
    worksheet_key(sheet, &look(paper)).unwrap().sheet
}

fn pages(document: &Document) -> Vec<Read> {
    read(&pdf(document)).1
}

fn every_kind(level: u8, seed: u64) -> Worksheet {
    let wanted: Vec<Wanted> = Kind::ALL.iter().map(|kind| Wanted { kind: *kind, level, seed: None }).collect();
    Worksheet::of(&wanted, seed, 1).unwrap()
}

/// The sheet of a task that is numbered or gets its heads.
fn of_task(exercise: &Exercise) -> (&Course, u32) {
    match &exercise.task {
        Task::NumberSheet { course, first_page, .. } | Task::SetHeads { course, first_page, .. } => {
            (course, *first_page)
        }
        other => panic!("{other:?}"),
    }
}

/// Where a piece of text begins, mm from the upper left corner.
fn place(page: &Read, begins: &str) -> (f64, f64) {
    let shown = page.shown.iter().find(|s| s.text.starts_with(begins)).unwrap_or_else(|| panic!("{begins}"));
    (shown.matrix[4] / POINTS, (page.size.1 - shown.matrix[5]) / POINTS)
}

/// What stands on every face, by where the figures of a page stand: each side is a grid of equal panels, and every panel has a
/// figure.
fn faces(page: &Read, rows: u32, columns: u32) -> BTreeMap<Face, (u32, Direction)> {
    let (a, b) = (place(page, "Side A"), place(page, "Side B"));
    let beside = (a.1 - b.1).abs() < 0.1;
    // Figures below the captions; numbers of exercises are no figures of this typeface.
    let all = figures(page);
    let is_b = |(x, y): (f64, f64)| if beside { x > b.0 } else { y > b.1 };
    let mut found = BTreeMap::new();
    for side in [Side::A, Side::B] {
        let own: Vec<_> = all.iter().filter(|f| is_b(f.1) == (side == Side::B)).collect();
        let cell = |values: Vec<f64>, count: u32| {
            let (low, high) = values.iter().fold((f64::MAX, f64::MIN), |(l, h), v| (l.min(*v), h.max(*v)));
            let step = if count > 1 { (high - low) / f64::from(count - 1) } else { 1.0 };
            move |v: f64| ((v - low) / step.max(1.0)).round() as u32
        };
        let column = cell(own.iter().map(|f| f.1.0).collect(), columns);
        let row = cell(own.iter().map(|f| f.1.1).collect(), rows);
        for (number, (x, y), head) in own {
            let seen = column(*x);
            let column = if side == Side::A { seen } else { columns - 1 - seen };
            let before = found.insert(Face { side, row: row(*y), column }, (*number, *head));
            assert_eq!(before, None, "two figures on one panel");
        }
    }
    found
}

/// What a key is for: the sheet that is numbered as it says reads first, first + 1, … when it is folded, all heads up.
#[test]
fn the_figures_of_a_key_fold_to_their_pages() {
    for kind in [Kind::NumberSheet, Kind::SetHeads] {
        for level in 1..=5 {
            for seed in 0..6 {
                for paper in PAPERS {
                    let sheet = one(kind, level, seed);
                    let (course, first) = of_task(&sheet.variants[0][0]);
                    let key = pages(&key_of(&sheet, paper));
                    assert_eq!(key.len(), 1, "{kind:?} {level} {seed}");
                    let printed = faces(&key[0], course.rows, course.columns);
                    let worked = Worked::of(course).unwrap();
                    let section = worked.nested(&course.copies[0][0]).unwrap();
                    let reads: Vec<(u32, Direction)> = section.faces.iter().map(|f| printed[&f.face]).collect();
                    let right: Vec<(u32, Direction)> =
                        (first..).zip(&section.faces).map(|(n, f)| (n, f.head)).collect();
                    assert_eq!(reads, right, "{kind:?}, level {level}, seed {seed}");
                    // The bar that is filled in stands at the head of each figure: one for each page, and two lay corners.
                    assert_eq!(key[0].black.len(), right.len() + 2 + rules(&right), "{kind:?} {level} {seed}");
                }
            }
        }
    }
}

/// Figures that have a rule at their foot.
fn rules(pages: &[(u32, Direction)]) -> usize {
    pages.iter().filter(|(n, _)| n.to_string().contains(['6', '9'])).count()
}

/// Nicholson, A Manual of the Art of Bookbinding (1856), pp. 35-36: inner side up, below 2 15 14 3, above, heads reversed,
/// 7 10 11 6. A key to that sheet says so.
#[test]
fn a_key_to_the_usual_sixteen_is_the_printed_layout() {
    let usual = courses().into_iter().find(|c| c.name == "Sixteen, three folds").unwrap().course;
    let is_usual = |sheet: &Worksheet| {
        matches!(&sheet.variants[0][0].task,
        Task::NumberSheet { course, .. } if *course == usual)
    };
    let sheet = (0..2000).map(|seed| one(Kind::NumberSheet, 3, seed)).find(is_usual).unwrap();
    let first = of_task(&sheet.variants[0][0]).1;
    let printed = faces(&pages(&key_of(&sheet, Paper::A4))[0], 2, 4);
    let row = |row: u32| (0..4).map(|column| printed[&Face { side: Side::A, row, column }]).collect::<Vec<_>>();
    assert_eq!(row(0), [7, 10, 11, 6].map(|n| (n + first - 1, Direction::Down)));
    assert_eq!(row(1), [2, 15, 14, 3].map(|n| (n + first - 1, Direction::Up)));
}

#[test]
fn nothing_is_filled_in_on_the_sheet() {
    for level in 1..=5 {
        for seed in 0..8 {
            let number = pages(&sheet_of(&one(Kind::NumberSheet, level, seed), Paper::A4));
            assert_eq!(figures(&number[0]), [], "a blank sheet has no figures");
            assert_eq!(number[0].black.len(), 2, "and nothing black but its two lay corners");
            let heads = one(Kind::SetHeads, level, seed);
            let shown = pages(&sheet_of(&heads, Paper::A4));
            let all = figures(&shown[0]);
            assert_eq!(
                all.len() as u32,
                2 * of_task(&heads.variants[0][0]).0.rows * of_task(&heads.variants[0][0]).0.columns
            );
            assert!(all.iter().all(|f| f.2 == Direction::Up), "heads are not given away");
            let marks = pages(&sheet_of(&one(Kind::BackMarks, level, seed), Paper::A4));
            assert_eq!(figures(&marks[0]).len(), 1, "the length of the spine alone");
            assert_eq!(marks[0].black.len(), 0);
            assert_eq!(figures(&pages(&sheet_of(&one(Kind::MakeUp, level, seed), Paper::A4))[0]), []);
            for kind in [Kind::WrongSheet, Kind::WrongBook] {
                let sheet = one(kind, level, seed);
                let exercise = &sheet.variants[0][0];
                let items = exercise.mark(&exercise.right(), 0).items;
                let (blank, key) = (text(&sheet_of(&sheet, Paper::A4)), text(&key_of(&sheet, Paper::A4)));
                for item in items.iter().filter(|i| i.right.len() > 3) {
                    assert!(!blank.contains(&item.right), "{kind:?} {seed}: {} on {blank}", item.right);
                    assert!(
                        key.contains(&item.right.replace(['“', '”'], "\"")),
                        "{kind:?} {seed}: {} not in {key}",
                        item.right
                    );
                }
            }
            // Crosses of the folds are drawn by two strokes; their numbers of panels stand in boxes.
            let folds = one(Kind::FindFolds, level, seed);
            let Task::FindFolds { side_a, side_b, folds: count } = &folds.variants[0][0].task else { panic!() };
            let given = side_a.iter().chain(side_b).flatten().flatten().count();
            let of = |document: &Document| figures(&pages(document)[0]).len();
            assert_eq!(of(&sheet_of(&folds, Paper::A4)), given + *count as usize);
            assert_eq!(of(&key_of(&folds, Paper::A4)), given + 2 * *count as usize);
        }
    }
}

fn text(document: &Document) -> String {
    pages(document).iter().map(words).collect::<Vec<_>>().join(" ")
}

#[test]
fn codes_on_the_sheet_make_sheet_and_key_again() {
    for (sheet, paper) in [(Worksheet::of(&mixed(3), 41, 3).unwrap(), Paper::A4), (every_kind(2, 9), Paper::Letter)] {
        let shown = pages(&sheet_of(&sheet, paper));
        // A variant begins where its page is the first of so many.
        let mut codes: Vec<Vec<String>> = Vec::new();
        for page in &shown {
            if words(page).contains("page 1 of ") {
                codes.push(Vec::new());
            }
            let of_page = page.shown.iter().filter_map(|s| s.text.strip_prefix("code ").map(str::to_owned));
            codes.last_mut().unwrap().extend(of_page);
        }
        assert!(codes.iter().flatten().all(|code| exercise_of(code).is_ok()));
        assert_eq!(codes, sheet.codes());
        let again = Worksheet::of_codes(&codes).unwrap();
        assert_eq!(pdf(&sheet_of(&again, paper)), pdf(&sheet_of(&sheet, paper)));
        // The key says from which seed it was rolled, which codes don't hold; all else is the same.
        let without_seed =
            |document: &Document| text(document).replace("Set from seed 41. ", "").replace("Set from seed 9. ", "");
        assert_eq!(
            without_seed(&key_of(&again, paper)).split_whitespace().collect::<Vec<_>>(),
            without_seed(&key_of(&sheet, paper)).split_whitespace().collect::<Vec<_>>()
        );
    }
}

/// Sizes, margins, size of words, running heads; every exercise whole, on one page.
#[test]
fn pages_have_their_size_their_margins_and_whole_exercises() {
    for paper in PAPERS {
        for level in 1..=5 {
            for sheet in [Worksheet::of(&mixed(level), 5, 2).unwrap(), every_kind(level, 3)] {
                for (document, key) in [(sheet_of(&sheet, paper), false), (key_of(&sheet, paper), true)] {
                    let shown = pages(&document);
                    on_paper(&shown, paper);
                    for (k, codes) in sheet.codes().iter().enumerate() {
                        let begins = if key { "Key · Worksheet" } else { "Worksheet" };
                        let head = format!("{begins} · variant {} · code {} ", k + 1, codes[0]);
                        let own: Vec<_> = shown.iter().filter(|p| words(p).contains(&head)).collect();
                        for (i, page) in own.iter().enumerate() {
                            assert!(
                                words(page).contains(&format!("page {} of {}", i + 1, own.len())),
                                "{}",
                                words(page)
                            );
                        }
                        // Each code stands at one exercise, on one page.
                        for code in codes {
                            let at = own.iter().flat_map(|p| &p.shown).filter(|s| s.text == format!("code {code}"));
                            assert_eq!(at.count(), 1);
                        }
                    }
                }
            }
        }
    }
}

/// Nothing is outside the margins, so nothing was cut or runs over the foot of a page; words are 11 pt at least.
fn on_paper(shown: &[Read], paper: Paper) {
    let (w, h) = paper.size_mm();
    for page in shown {
        assert!((page.size.0 - w * POINTS).abs() < 0.002 && (page.size.1 - h * POINTS).abs() < 0.002);
        let [left, top, right, bottom] = page.reach;
        assert!(
            left >= 12.0 && top >= 12.0 && right <= w - 12.0 && bottom <= h - 12.0,
            "{:?} {}",
            page.reach,
            words(page)
        );
        let small = page.shown.iter().find(|s| ["H", "B"].contains(&s.font.as_str()) && s.size < 11.0);
        assert!(small.is_none(), "{small:?}");
        for shown in page.shown.iter().filter(|s| ["H", "B"].contains(&s.font.as_str())) {
            let wide = backmark::print::width_of(
                &letters(shown),
                if shown.font == "B" { backmark::print::Weight::Bold } else { backmark::print::Weight::Plain },
                shown.size / POINTS,
            );
            assert!(shown.matrix[4] / POINTS + wide <= w - 12.0, "{shown:?}");
        }
    }
}

/// What a teacher of the trade gives for each: a number 1, a head a half, a fold 2, a cause 2, the next check 1.
#[test]
fn marks_are_told_and_add_up() {
    let sheet = Worksheet::of(&mixed(3), 41, 1).unwrap();
    let key = text(&key_of(&sheet, Paper::A4));
    assert!(key.contains("Marks: each number 1, each head ½."), "{key}");
    assert!(key.contains("Marks: each fold in its place 2."));
    assert!(key.contains("Marks: the section 1; the cause 2; the next check 1."));
    let of = |one: &Exercise| one.mark(&one.right(), 0).of;
    let all: u32 = sheet.variants[0].iter().map(of).sum();
    assert!(key.contains(&format!("Marks in all: {}.", halves(all))));
    let sheet = text(&sheet_of(&sheet, Paper::A4));
    assert!(sheet.contains(&format!("Marks ______ of {}", halves(all))));
    assert!(sheet.contains("Hand exercise: no machine."));
    assert!(sheet.contains("Stop the machine, isolate it"), "{sheet}");
    assert!(sheet.contains("Outcomes: Draw up lay sheets"));
}

/// Six boxes are enough for the sections of every book that is set.
#[test]
fn a_make_up_finds_room_in_its_boxes() {
    for level in 1..=5 {
        for seed in 0..60 {
            let exercise = Exercise::of(Kind::MakeUp, level, seed).unwrap();
            let backmark::practice::Answer::MakeUp(pages) = exercise.right() else { panic!() };
            assert!(pages.chunk_by(|a, b| a == b).count() <= 6, "{pages:?}");
        }
    }
}

#[test]
fn both_sides_begin_every_variant_on_a_leaf_of_its_own() {
    let sheet = Worksheet::of(&mixed(3), 41, 4).unwrap();
    let look = WorksheetLook { both_sides: true, ..look(Paper::A4) };
    let shown = pages(&worksheet(&sheet, &look).unwrap().sheet);
    for (i, page) in shown.iter().enumerate() {
        assert!(i % 2 == 0 || !words(page).contains("page 1 of "), "page {}", i + 1);
    }
}

fn mm(whole: i64) -> Length {
    Length::from_whole_mm(whole)
}

fn stairs(spine_mm: f64, sections: u32) -> BackMarks {
    Design { spine_mm, first_mm: 20.0, step_mm: 6.0, length_mm: 6.0, levels: sections }.into()
}

/// Every bar stands by the rule as far down as it is printed, and is as long, over several pages beside and below each other.
#[test]
fn the_staircase_has_its_true_size() {
    for (spine_mm, sections) in [(216.0, 24), (230.0, 30), (410.0, 60)] {
        let wide = BackMarks { after_wrap: AfterWrap::Column { apart_mm: 2.5 }, ..stairs(spine_mm, 30) };
        let marks = if sections == 60 { wide } else { stairs(spine_mm, sections) };
        for paper in PAPERS {
            let sheet =
                MarkSheet { title: "Tides".into(), marks: marks.clone(), sections, trims_mm: (3.0, 5.0), sheet: None };
            let shown = pages(&mark_sheet(&sheet, paper).unwrap());
            on_paper(&shown, paper);
            let mut seen: BTreeMap<u32, (f64, f64)> = BTreeMap::new();
            for page in &shown {
                // The rule: its figures are 10 mm apart, and each tells where 0 is.
                let named = |says: &str| page.shown.iter().find(|s| s.text == says && s.matrix[4] / POINTS < 25.0);
                let y = |s: &print_support::Shown| (page.size.1 - s.matrix[5]) / POINTS - 1.35;
                let (from, at) = (0..50).find_map(|n| Some((10 * n, y(named(&(10 * n).to_string())?)))).unwrap();
                let zero = at - f64::from(from);
                let next = y(named(&(from + 10).to_string()).unwrap());
                assert!((next - at - 10.0).abs() < 0.01, "10 mm are 10 mm");
                let numbers: Vec<(u32, f64)> = page
                    .shown
                    .iter()
                    .filter(|s| s.font == "H" && s.matrix[4] / POINTS > 25.0)
                    .filter_map(|s| {
                        let half = 0.556 * s.text.len() as f64 * s.size / POINTS / 2.0;
                        Some((s.text.parse().ok()?, s.matrix[4] / POINTS + half))
                    })
                    .collect();
                for [left, top, right, bottom] in &page.black {
                    let middle = f64::midpoint(*left, *right);
                    let (section, x) =
                        *numbers.iter().min_by(|a, b| (a.1 - middle).abs().total_cmp(&(b.1 - middle).abs())).unwrap();
                    let bar = marks.bar(section, sections);
                    assert!(
                        (middle - x - bar.across_mm).abs() < 0.01 && (right - left - 2.0).abs() < 0.01,
                        "{section}"
                    );
                    // A bar across the end of a page stands on both.
                    let part = seen.entry(section).or_insert((f64::MAX, f64::MIN));
                    *part = (part.0.min(top - zero), part.1.max(bottom - zero));
                }
            }
            assert_eq!(seen.len() as u32, sections);
            for (section, (begins, ends)) in seen {
                let level = f64::from((section - 1) % marks.stairs.levels);
                assert!(
                    (begins - (20.0 + 6.0 * level)).abs() < 0.01 && (ends - (26.0 + 6.0 * level)).abs() < 0.01,
                    "{section}"
                );
            }
        }
    }
}

/// The usual sixteen, side B up: `5v 12v 9v 8v` over `4 13 16 1`, so pages 16 and 1 meet three panels from the left, in the
/// lower row, heads up (the example of the protocol). On panels of 160 by 230 mm that is at 480 mm, from 230 mm on.
#[test]
fn bars_are_told_on_the_flat_sheet() {
    let course = courses().into_iter().find(|c| c.name == "Sixteen, three folds").unwrap().course;
    let measure = Measure::equal(2, 4, mm(640), mm(460));
    let sheet = MarkSheet {
        title: "Tides".into(),
        marks: stairs(230.0, 30),
        sections: 30,
        trims_mm: (3.0, 3.0),
        sheet: Some((course.clone(), measure)),
    };
    let shown = pages(&mark_sheet(&sheet, Paper::A4).unwrap());
    let all = shown.iter().map(words).collect::<Vec<_>>().join(" ");
    for section in 1..=30 {
        let (from, to) = (20 + 6 * (section - 1), 20 + 6 * section);
        let says = format!(
            "{section} {from} to {to} mm side B: 479 to 481 mm from the left, {} to {} mm from the top",
            230 + from,
            230 + to
        );
        assert!(all.contains(&says), "{says} not in {all}");
    }
    // The heading of the table is there again on each of its pages.
    let with_rows = shown.iter().filter(|p| words(p).contains("side B: ")).count();
    let with_heading = shown.iter().filter(|p| words(p).contains("From the head")).count();
    assert_eq!(with_rows, with_heading);
    let wrong = MarkSheet { sheet: Some((course, Measure::equal(2, 2, mm(640), mm(460)))), ..sheet.clone() };
    assert_eq!(mark_sheet(&wrong, Paper::A4).unwrap_err().at, "sheet");
    let trims = MarkSheet { trims_mm: (200.0, 40.0), ..sheet };
    assert_eq!(mark_sheet(&trims, Paper::A4).unwrap_err().at, "trims_mm");
}

fn logbook(entries: usize) -> Logbook {
    let entry = |i: usize| Entry {
        kind: Kind::ALL[i % 8],
        level: 1 + (i % 3) as u8,
        seed: 1000 + i as u64,
        date: format!("{} March", 1 + i % 28),
        got: (i % 9) as u32,
        of: 8,
        hints: (i % 3) as u32,
        minutes: 12,
    };
    Logbook::of((0..entries).map(entry).collect()).unwrap()
}

#[test]
fn a_logbook_is_handed_in_whole() {
    for (entries, paper) in [(0, Paper::A4), (1, Paper::Letter), (70, Paper::A4), (700, Paper::Letter)] {
        let logbook = logbook(entries);
        let shown = pages(&logbook_page(&logbook, "Ann Example", "1 April", paper).unwrap());
        on_paper(&shown, paper);
        let all = shown.iter().map(words).collect::<Vec<_>>().join(" ");
        for entry in logbook.entries() {
            let (title, level, seed) = (entry.kind.title(), entry.level, entry.seed);
            let row = format!("{} {title} {level} {seed} {} 4 {} 12", entry.date, halves(entry.got), entry.hints);
            assert!(all.contains(&row), "{row}");
        }
        for total in logbook.totals() {
            assert!(all.contains(&format!("{} % ", total.last_percent)));
        }
        for total in logbook.weak() {
            let says = format!("{}, level {}: {} of a hundred", total.kind.title(), total.level, total.last_percent);
            assert!(all.contains(&says), "{says}");
        }
        assert!(
            all.contains("Ann Example")
                && all.contains("1 April")
                && all.contains("Trainee")
                && all.contains("Teacher")
        );
        let next = logbook.next();
        let rule = format!("Rule: {}", next.rule);
        assert!(all.contains(&rule), "{rule} not in {all}");
        let rows = |p: &&Read| words(p).contains(" March ");
        assert!(shown.iter().filter(rows).all(|p| words(p).contains("Date Exercise Level Number")));
    }
}
