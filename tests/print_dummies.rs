//! Printed dummies against a PDF reader of another hand (lopdf): what stands where is read back from the file, laid on
//! the sheet again and folded by the engine.

#![allow(clippy::panic, clippy::unwrap_used, reason = "what tests call may panic as tests may")]

mod print_support;

use backmark::fold::misfold::{Cause, FoldAt, FoundPage, explain};
use backmark::fold::{Direction, Face, Family, Measure, Section, Side, Worked, courses, sixteen};
use backmark::paper::Length;
use backmark::print::{Document, Dummy, Flip, Made, Off, Paper, Printer, dummy, pdf, test_page};
use print_support::{POINTS, Read, figures, read};
use std::collections::BTreeMap;

fn asked(name: &str) -> Dummy {
    let named = courses().into_iter().find(|c| c.name == name).unwrap();
    of(named)
}

fn of(named: backmark::fold::NamedCourse) -> Dummy {
    Dummy {
        name: named.name.into(),
        course: named.course,
        first_page: 1,
        oblong: named.oblong,
        measure: None,
        true_size: false,
        fault: None,
    }
}

/// What is printed on every face, read back from the two pages of a dummy that was printed large on one page. The paper is
/// turned as the printer turns it, and each figure falls into the panel that it stands on.
fn faces(pages: &[Read], printer: &Printer, rows: u32, columns: u32) -> BTreeMap<Face, (u32, Direction)> {
    let [first, second] = pages else { panic!("two pages") };
    // Where the sheet lies is told by its outer figures only as far as panels go, so it is found from their middles:
    // equal panels, and every row and column has a figure on one of the two sides.
    let (w, h) = printer.paper.size_mm();
    let mut all = Vec::new();
    for (side, page) in [(Side::A, first), (Side::B, second)] {
        for (number, (x, y), head) in figures(page) {
            // Through the paper, as side A sees it: a leaf turned left to right, or a paper turned head over foot.
            let (x, y, head) = match (side, printer.flip) {
                (Side::A, _) => (x, y, head),
                (Side::B, Flip::LongEdge) => (w - x, y, head.turned_over()),
                (Side::B, Flip::ShortEdge) => (x, h - y, head.turned_over().opposite()),
            };
            all.push((side, number, x, y, head));
        }
    }
    // The frame: a sheet that lies across the paper has been turned a quarter clockwise.
    let across = across(first);
    let turned: Vec<_> =
        all.into_iter()
            .map(|(side, number, x, y, head)| {
                if across { (side, number, y, w - x, head.clockwise().opposite()) } else { (side, number, x, y, head) }
            })
            .collect();
    let cell = |values: Vec<f64>, count: u32| {
        let (low, high) = values.iter().fold((f64::MAX, f64::MIN), |(l, h), v| (l.min(*v), h.max(*v)));
        let step = if count > 1 { (high - low) / f64::from(count - 1) } else { 1.0 };
        move |v: f64| ((v - low) / step).round() as u32
    };
    let column = cell(turned.iter().map(|t| t.2).collect(), columns);
    let row = cell(turned.iter().map(|t| t.3).collect(), rows);
    turned
        .into_iter()
        .map(|(side, number, x, y, head)| {
            let head = if side == Side::B { head.turned_over() } else { head };
            (Face { side, row: row(y), column: column(x) }, (number, head))
        })
        .collect()
}

/// Whether the sheet was turned on the paper: then its heading runs up or down the page.
fn across(page: &Read) -> bool {
    let heading = page.shown.iter().find(|s| s.font == "H" && s.text.starts_with("Side A")).unwrap();
    heading.matrix[0].abs() < 0.5
}

/// Reads a section from what is printed: the numbers from front to back, with `true` where the head is where it belongs.
fn read_section(section: &Section, printed: &BTreeMap<Face, (u32, Direction)>) -> Vec<(u32, bool)> {
    let faces = section.faces.iter();
    faces.map(|f| printed.get(&f.face).map_or((0, false), |(n, head)| (*n, *head == f.head))).collect()
}

fn all_printers() -> Vec<Printer> {
    let flips = [Flip::LongEdge, Flip::ShortEdge];
    let papers = Paper::ALL.into_iter();
    papers.flat_map(|paper| flips.map(|flip| Printer { paper, flip, off: Off::default() })).collect()
}

/// What a dummy is for: folded by hand it reads 1, 2, 3 … The folding is `Worked`, which
/// `tests/fold_handbooks.rs` compares with print.
#[test]
fn every_course_at_every_paper_folds_to_its_pages() {
    for named in courses() {
        let worked = Worked::of(&named.course).unwrap();
        let (rows, columns) = (named.course.rows, named.course.columns);
        let asked = of(named);
        for printer in all_printers() {
            let (_, pages) = read(&pdf(&dummy(&asked, &printer).unwrap()));
            let printed = faces(&pages, &printer, rows, columns);
            for nests in &asked.course.copies {
                let mut next = 1;
                for nest in nests {
                    let section = worked.nested(nest).unwrap();
                    let count = section.faces.len() as u32;
                    let right: Vec<(u32, bool)> = (next..next + count).map(|n| (n, true)).collect();
                    assert_eq!(read_section(&section, &printed), right, "{} on {printer:?}", asked.name);
                    next += count;
                }
            }
        }
    }
}

/// Nicholson, A Manual of the Art of Bookbinding (1856), pp. 35-36: inner side up, below 2 15 14 3, above, heads reversed,
/// 7 10 11 6.
#[test]
fn a_sixteen_shows_the_printed_layout() {
    let sixteen = sixteen();
    let asked = Dummy {
        name: "Sixteen".into(),
        course: backmark::fold::Course::of_scheme(&sixteen.scheme),
        ..asked("Four, one fold")
    };
    let printer = Printer::default();
    let (_, pages) = read(&pdf(&dummy(&asked, &printer).unwrap()));
    let printed = faces(&pages, &printer, 2, 4);
    let row = |row: u32| (0..4).map(|column| printed[&Face { side: Side::A, row, column }]).collect::<Vec<_>>();
    let (above, below) = (Direction::Down, Direction::Up);
    assert_eq!(row(0), [7, 10, 11, 6].map(|n| (n, above)));
    assert_eq!(row(1), [2, 15, 14, 3].map(|n| (n, below)));
}

#[test]
fn both_faces_of_a_leaf_lie_behind_each_other_and_offsets_are_put_right() {
    let asked = asked("Four, one fold");
    for flip in [Flip::LongEdge, Flip::ShortEdge] {
        let at = |off: Off| {
            let printer = Printer { paper: Paper::A4, flip, off };
            let (_, pages) = read(&pdf(&dummy(&asked, &printer).unwrap()));
            (figures(&pages[0]), figures(&pages[1]))
        };
        let (a, b) = at(Off::default());
        let (w, h) = Paper::A4.size_mm();
        for (page, (x, y), _) in &a {
            // 1 backs 2, 3 backs 4.
            let other = if page % 2 == 0 { page - 1 } else { page + 1 };
            let (_, (bx, by), _) = b.iter().find(|f| f.0 == other).unwrap();
            let (bx, by) = if flip == Flip::LongEdge { (w - bx, *by) } else { (*bx, h - by) };
            assert!((bx - x).abs() < 0.01 && (by - y).abs() < 0.01, "{page}: {x} {y} against {bx} {by}");
        }
        // A printer whose second side falls 2 mm to the right and 1 mm down, seen with the arrow up: it is printed as much
        // to the left and up. Turned on the short edge, the page lies head down in the printer.
        let (same, moved) = at(Off { right_mm: 2.0, down_mm: 1.0 });
        assert_eq!(a, same);
        let sign = if flip == Flip::LongEdge { -1.0 } else { 1.0 };
        for (before, after) in b.iter().zip(&moved) {
            assert!((after.1.0 - before.1.0 - sign * 2.0).abs() < 0.01);
            assert!((after.1.1 - before.1.1 - sign).abs() < 0.01);
        }
    }
}

fn measured() -> Dummy {
    let all = |n: usize, mm: i64| vec![Length::from_whole_mm(mm); n];
    Dummy {
        measure: Some(Measure { columns: all(4, 150), rows: all(2, 215) }),
        course: backmark::fold::Course::of_scheme(&sixteen().scheme),
        true_size: true,
        ..asked("Four, one fold")
    }
}

#[test]
fn a_tiled_sheet_has_its_true_size() {
    let printer = Printer::default();
    let document = dummy(&measured(), &printer).unwrap();
    let (_, pages) = read(&pdf(&document));
    // Two figures on one page lie a panel apart: 150 mm or 215 mm.
    let mut seen = 0;
    for page in pages.iter().step_by(2) {
        let all = figures(page);
        for (i, one) in all.iter().enumerate() {
            for other in &all[i + 1..] {
                // Figures stand a little below the middle of their page, and by their number of digits.
                if one.2 != other.2 || (one.0 > 9) != (other.0 > 9) {
                    continue;
                }
                let (dx, dy) = ((one.1.0 - other.1.0).abs(), (one.1.1 - other.1.1).abs());
                // The page may lie across.
                let panels = |d: f64| [150.0, 215.0].iter().any(|p| (d / p - (d / p).round()).abs() * p < 0.02);
                assert!(panels(dx) && panels(dy), "{one:?} {other:?}");
                seen += 1;
            }
        }
    }
    assert!(seen > 4 && pages.len() >= 12, "{} pages, {seen} pairs", pages.len());
}

#[test]
fn a_fault_is_found_again_by_whoever_folds_the_dummy() {
    let scheme = sixteen().scheme;
    let course = backmark::fold::Course::of_scheme(&scheme);
    let right = Worked::of(&course).unwrap();
    let printer = Printer::default();
    // Made the other way, fold 1: 3 4 1 2 7 8 5 6 … (the misfold law of `tests/fold_mask_law.rs`).
    let cause = Cause::FoldOtherWay { fold: 1 };
    let wrong = [3, 4, 1, 2, 7, 8, 5, 6, 11, 12, 9, 10, 15, 16, 13, 14];
    for made in [Made::ByFigures, Made::ByFolds] {
        let asked = Dummy { course: course.clone(), fault: Some((cause.clone(), made)), ..asked("Four, one fold") };
        let (_, pages) = read(&pdf(&dummy(&asked, &printer).unwrap()));
        let printed = faces(&pages, &printer, 2, 4);
        let folded = match made {
            Made::ByFigures => right.pieces[0].section.clone(),
            Made::ByFolds => Worked::of(&backmark::fold::Course::of_scheme(&scheme.fold_other_way(1))).unwrap().pieces
                [0]
            .section
            .clone(),
        };
        let numbers: Vec<u32> = read_section(&folded, &printed).into_iter().map(|(n, _)| n).collect();
        assert_eq!(numbers, wrong, "{made:?}");
        let found: Vec<FoundPage> =
            numbers.iter().map(|n| FoundPage { page: Some(*n), head: Some(Direction::Up) }).collect();
        let causes = explain(&scheme, 1, FoldAt::Spine, &found).unwrap();
        assert_eq!(causes.causes.first().map(|c| &c.cause), Some(&cause));
    }
}

/// Width and height in points, title, language, no dates and no maker, and fonts that can be read.
#[test]
fn a_file_says_what_it_is_and_no_more() {
    let title = "Prüfbogen “é” ≤ 日本";
    for paper in Paper::ALL {
        let printer = Printer { paper, ..Printer::default() };
        let asked = Dummy { name: title.into(), ..asked("Four, one fold") };
        let bytes = pdf(&dummy(&asked, &printer).unwrap());
        assert_eq!(bytes, pdf(&dummy(&asked, &printer).unwrap()));
        let (file, pages) = read(&bytes);
        let (w, h) = paper.size_mm();
        for page in &pages {
            assert!((page.size.0 - w * POINTS).abs() < 0.002 && (page.size.1 - h * POINTS).abs() < 0.002);
        }
        let info = file.trailer.get(b"Info").unwrap().as_reference().unwrap();
        let info = file.get_dictionary(info).unwrap();
        assert_eq!(info.iter().map(|(key, _)| key.as_slice()).collect::<Vec<_>>(), [b"Title"]);
        assert_eq!(lopdf::decode_text_string(info.get(b"Title").unwrap()).unwrap(), title);
        let catalog = file.catalog().unwrap();
        assert_eq!(lopdf::decode_text_string(catalog.get(b"Lang").unwrap()).unwrap(), "en");
        let text = file.extract_text(&[1]).unwrap();
        assert!(text.contains("Hand exercise: no machine"), "{text}");
        for figure in ["2", "3"] {
            assert!(text.lines().any(|l| l.trim() == figure), "{figure} in {text}");
        }
    }
}

#[test]
fn the_test_page_measures_truly() {
    for printer in all_printers() {
        let (_, pages) = read(&pdf(&test_page(&printer).unwrap()));
        let text = |says: &str| {
            let found = pages[0].shown.iter().find(|s| s.font == "H" && s.text == says);
            found.map(|s| s.matrix[4]).unwrap()
        };
        // The ruler's 20 and 130 are as wide as other numbers of two and three figures: their middles are 110 mm apart.
        let middle = |says: &str| text(says) + says.len() as f64 * 0.556 * 3.0 * POINTS / 2.0;
        assert!((middle("130") - middle("20") - 110.0 * POINTS).abs() < 0.01);
        assert_eq!(pages.len(), 2);
    }
}

#[test]
fn what_can_not_be_printed_is_refused_in_words() {
    let printer = Printer::default();
    let far = Printer { off: Off { right_mm: 21.0, down_mm: f64::NAN }, ..printer };
    assert_eq!(dummy(&asked("Four, one fold"), &far).unwrap_err().at, "off.right_mm");
    let zero = Dummy { first_page: 0, ..asked("Four, one fold") };
    assert_eq!(dummy(&zero, &printer).unwrap_err().at, "first_page");
    let sizes = Dummy { course: asked("Four, one fold").course, ..measured() };
    assert_eq!(dummy(&sizes, &printer).unwrap_err().at, "measure");
    let several = courses().into_iter().find(|c| c.family == Family::Several).unwrap();
    let fault = Dummy { fault: Some((Cause::DoubleSheet, Made::ByFolds)), ..of(several) };
    assert_eq!(dummy(&fault, &printer).unwrap_err().at, "fault");
}

#[test]
fn an_empty_document_is_a_file() {
    let (_, pages) = read(&pdf(&Document::default()));
    assert!(pages.is_empty());
}
