//! Slit sheets on the bench: every course at hand is acted out from the flat sheet to the last leaf of each section.

#![allow(clippy::panic, clippy::unwrap_used, reason = "what tests call may panic as tests may")]

use backmark::app::{Action, State, update};
use backmark::fold::{Course, Family, courses, library};
use backmark::scene::{Act, Bench, Item, Printing, Scene, Shown, Stage, Tag, View};
use kurbo::Point;

const SHOWN: Shown = Shown { leaf: 0.4, crease: None };

/// The state of a book that is worked by a course, with one of its sections on the bench.
fn on_bench(course: &Course, section: u32) -> (State, Bench) {
    let state = update(&State::default(), Action::Take(course.clone())).0;
    assert_eq!(state.said, None);
    let state = update(&state, Action::Pick(section)).0;
    let bench = state.bench().unwrap();
    (state, bench)
}

/// The faces that are painted, and the middle of each.
fn faces(scene: &Scene) -> Vec<(backmark::fold::Face, Point)> {
    let mut found = Vec::new();
    for item in &scene.items {
        if let Item::Group(group) = item
            && let Some(Tag::Face(face)) = group.tag
        {
            found.push((face, group.place * Point::new(group.size.0 / 2.0, group.size.1 / 2.0)));
        }
    }
    found
}

#[test]
fn every_section_of_every_course_is_read_to_its_end() {
    for named in courses() {
        let sections = named.course.sections() as u32;
        for section in 1..=sections {
            let (state, bench) = on_bench(&named.course, section);
            let pages = state.job.pages_of(section);
            assert_eq!(bench.rule.leaves as u32 * 2, pages, "{}, section {section}", named.name);
            let first = state.job.pages_before(section) + 1;
            let read = bench.section.as_ref().unwrap();
            let printed: Vec<u32> = read.faces.iter().map(|f| bench.printing.figure(&f.face).unwrap().page).collect();
            assert!(printed.iter().copied().eq(first..first + pages), "{}: {printed:?}", named.name);
            // Opened in the middle, the two pages there are seen, whatever else lies about.
            let middle = pages / 4;
            let at = (bench.rule.folds + 2) as f64 + f64::from(middle);
            let seen = faces(&bench.scene(at, &View::OPENING, &SHOWN).scene);
            for page in [first + 2 * middle - 1, first + 2 * middle] {
                if (first..first + pages).contains(&page) {
                    let shown = |(face, _): &(backmark::fold::Face, Point)| {
                        bench.printing.figure(face).is_some_and(|f| f.page == page)
                    };
                    assert!(seen.iter().any(shown), "{}: {page} at {at}", named.name);
                }
            }
            let end = update(&state, Action::Moved(bench.rule.end())).0;
            let says = end.moment_sentence(&bench);
            assert!(says.starts_with("It reads"), "{}: {says}", named.name);
        }
    }
}

#[test]
fn nothing_jumps_where_one_step_ends_and_the_next_begins() {
    let shown = Shown { leaf: 3.2, crease: None };
    for named in courses().into_iter().filter(|n| n.course.rows * n.course.columns <= 64) {
        let (_, bench) = on_bench(&named.course, 1);
        for view in [View::OPENING, View { turn: -40.0, eye: -35.0, ..View::OPENING }] {
            for step in 1..=bench.rule.end() as usize {
                let [before, at, after] =
                    [-1e-7, 0.0, 1e-7].map(|off| faces(&bench.scene(step as f64 + off, &view, &shown).scene));
                for (was, is) in [(&before, &at), (&at, &after)] {
                    for (face, place) in was {
                        // What is hidden at once on arriving may go; what stays, stays where it was.
                        for (_, now) in is.iter().filter(|(f, _)| f == face) {
                            let jump = (*now - *place).hypot();
                            assert!(jump < 0.5, "{}, step {step}: {face:?} jumps by {jump}", named.name);
                        }
                    }
                }
            }
        }
    }
}

#[test]
fn each_step_says_what_is_done() {
    for named in courses() {
        let (state, bench) = on_bench(&named.course, 1);
        for step in 0..=bench.rule.folds {
            for at in [step as f64, step as f64 + 0.4] {
                if at > bench.rule.folds as f64 {
                    continue;
                }
                let now = update(&state, Action::Moved(at)).0;
                let says = now.moment_sentence(&bench);
                assert!(!says.is_empty() && says.ends_with('.'), "{} at {at}: {says:?}", named.name);
            }
        }
    }
}

#[test]
fn a_sheet_folded_whole_is_the_bench_it_was() {
    for named in library() {
        let printing = Printing::blank(named.scheme.rows, named.scheme.columns);
        let whole = Bench::new(printing.clone(), &named.scheme).unwrap();
        let course = Bench::of_course(printing, &Course::of_scheme(&named.scheme), 0).unwrap();
        assert_eq!((whole.rule, &whole.folding), (course.rule, &course.folding));
        assert!(!course.is_parted(99.0));
        assert!(matches!(course.rule.stage(0.0), Stage::Fold { .. }));
    }
}

/// Common twelves: slit, three folds, then the off-cut of 9 to 16 goes into the middle.
#[test]
fn twelves_are_slit_folded_and_inset() {
    let named = courses().into_iter().find(|n| n.name == "Twelves, off-cut inset").unwrap();
    assert_eq!(named.family, Family::Inset);
    let (_, bench) = on_bench(&named.course, 1);
    assert_eq!(bench.acts(0), [Act::Slit]);
    assert_eq!(bench.acts(4), [Act::Inset { guest: (9, 16), host: (1, 24) }]);
    assert_eq!((bench.rule.folds, bench.rule.leaves), (5, 12));
    let names: Vec<String> = (0..5).map(|step| bench.step_name(step)).collect();
    let folds = ["fold 1 of the pieces", "fold 2 of the pieces", "fold 3 of the pieces"];
    assert_eq!(names, ["slit", folds[0], folds[1], folds[2], "inset"]);
    let marks: Vec<_> = (0..5).map(|step| bench.step_mark(step)).collect();
    assert_eq!(marks, [Some("parts"), None, None, None, Some("inset")]);
    // Nothing of it can be taken by hand once it is slit.
    assert!(bench.edge_near(1, Point::ORIGIN, &View::OPENING, &SHOWN, 1e9).is_none());
    let room = bench.extent(3.0, &View::OPENING, &SHOWN);
    assert!(room.area() > 0.0 && room.is_finite());
}
