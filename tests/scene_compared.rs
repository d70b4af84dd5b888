//! What can be read from outside, and what differs between two benches, against the picture and the packets themselves.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test ends at the first surprise")]

mod scene_support;

use backmark::fold::{Direction, Face, Reads, Scheme, Side, library};
use backmark::scene::{Bench, Figure, Readable, Tag, View, differences, reading_differences, uppermost};
use kurbo::Point;
use scene_support::{Act, THIN, edge_middle, schemes};
use std::collections::BTreeSet;

/// The picture, seen straight from above or beneath, shows these faces from left to right and from the top down, with
/// their heads that way.
#[test]
fn it_is_what_the_picture_shows() {
    for (name, scheme) in schemes(0x5EED_0021) {
        let act = Act::of(&name, &scheme);
        let bench = &act.bench;
        for at in 0..=bench.rule.end() as u32 {
            for (eye, beneath) in [(90.0, false), (-90.0, true)] {
                let view = View { turn: 0.0, eye, ..View::OPENING };
                let scene = act.scene(f64::from(at), &view, THIN);
                let rows = uppermost(bench, f64::from(at), beneath);
                let told: Vec<Readable> = rows.iter().flatten().flatten().copied().collect();
                let what = format!("{name}: at {at}, beneath {beneath}");
                let middle = |l: &Readable| {
                    let group = scene.group(Tag::Face(l.face)).expect(&what);
                    group.place * Point::new(group.size.0 / 2.0, group.size.1 / 2.0)
                };
                for lies in &told {
                    assert_eq!(scene.pick(middle(lies)).map(|p| p.0), Some(Tag::Face(lies.face)), "{what}");
                    let figure = bench.printing.figure(&lies.face);
                    assert_eq!(lies.page, figure.map(|f| f.page), "{what}");
                    let Some(head) = figure.and_then(|f| f.head) else { continue };
                    let group = scene.group(Tag::Face(lies.face)).unwrap();
                    let way = group.place * edge_middle(act.panel, head) - middle(lies);
                    let (dx, dy) = lies.head.unwrap().step();
                    assert!(way.x * f64::from(dx) + way.y * f64::from(dy) > 50.0, "{what}: {lies:?} {way:?}");
                }
                for row in &rows {
                    let places: Vec<Point> = row.iter().flatten().map(middle).collect();
                    assert!(places.windows(2).all(|p| p[0].x < p[1].x && (p[0].y - p[1].y).abs() < 1.0), "{what}");
                }
                let column = |i: usize| rows.iter().filter_map(move |r| r.get(i).copied().flatten());
                let places: Vec<Point> = column(0).map(|l| middle(&l)).collect();
                assert!(places.windows(2).all(|p| p[0].y < p[1].y), "{what}");
            }
        }
    }
}

/// Two pairs of lists of the same faces at the same depth, by counting down at each panel anew.
fn by_hand(a: &Bench, b: &Bench, step: usize) -> [BTreeSet<Face>; 2] {
    let mut found = [BTreeSet::new(), BTreeSet::new()];
    let (pa, pb) = (a.folding.packet(step), b.folding.packet(step));
    let (ra, rb) = (pa.extent(), pb.extent());
    for y in 0..ra.height().max(rb.height()) {
        for x in 0..ra.width().max(rb.width()) {
            let here = pa.faces_at(ra.x0 + x, ra.y0 + y);
            let there = pb.faces_at(rb.x0 + x, rb.y0 + y);
            for i in 0..here.len().max(there.len()) {
                let (one, other) = (here.get(i), there.get(i));
                let page = |bench: &Bench, face: Option<&Face>| bench.printing.figure(face?).map(|f| f.page);
                if page(a, one) != page(b, other) {
                    found[0].extend(one);
                    found[1].extend(other);
                }
            }
        }
    }
    found
}

#[test]
fn a_bench_does_not_differ_from_itself() {
    for (name, scheme) in schemes(0x5EED_0022) {
        let bench = Act::of(&name, &scheme).bench;
        for step in 0..=bench.folding.steps.len() {
            assert_eq!(differences(&bench, &bench, step), Default::default(), "{name}");
        }
        assert_eq!(reading_differences(&bench, &bench), [], "{name}");
    }
}

/// Every fold of every scheme made the other way: until it is made nothing differs, then the faces whose pages differ
/// by hand, and besides them only pages that lie with their heads another way.
#[test]
fn a_fold_made_the_other_way() {
    let mut found = 0;
    for (name, scheme) in schemes(0x5EED_0023) {
        let right = Act::of(&name, &scheme).bench;
        for number in 1..=scheme.folds.len() {
            let other = scheme.fold_other_way(number as u32);
            let wrong = Bench::new(right.printing.clone(), &other).unwrap();
            for step in 0..=right.folding.steps.len().min(wrong.folding.steps.len()) {
                let told = differences(&right, &wrong, step);
                let what = format!("{name}: fold {number}, step {step}");
                if step < number {
                    assert_eq!(told, Default::default(), "{what}");
                }
                let [first, second] = by_hand(&right, &wrong, step);
                let sets = [told.first, told.second].map(|f| f.into_iter().collect::<BTreeSet<Face>>());
                assert!(first.is_subset(&sets[0]) && second.is_subset(&sets[1]), "{what}");
                let moved: Vec<&Face> = sets[0].difference(&first).collect();
                let page = |f: &&Face| right.printing.figure(f).map(|f| f.page);
                assert!(
                    moved.iter().all(|f| page(f).is_some() && sets[1].iter().any(|g| page(&g) == page(f))),
                    "{what}"
                );
                found += sets[0].len();
            }
        }
    }
    assert!(found > 1000);
}

fn sixteen() -> Scheme {
    library().into_iter().find(|n| n.name == "Sixteen, three folds").unwrap().scheme
}

/// The third fold of the sixteen made under instead of over: the halves change places, 9 to 16 come before 1 to 8.
#[test]
fn the_last_fold_under_reads_the_second_half_first() {
    let scheme = sixteen();
    let right = Act::of("sixteen", &scheme).bench;
    let wrong = Bench::new(right.printing.clone(), &scheme.fold_other_way(3)).unwrap();
    let pages = |bench: &Bench| -> Vec<u32> {
        let faces = &bench.section.as_ref().unwrap().faces;
        faces.iter().filter_map(|f| bench.printing.figure(&f.face)).map(|f| f.page).collect()
    };
    let differ: Vec<u32> = reading_differences(&right, &wrong).iter().map(|d| d.place).collect();
    let by_hand: Vec<u32> =
        (1..).zip(pages(&right).iter().zip(pages(&wrong))).filter(|(_, (a, b))| **a != *b).map(|p| p.0).collect();
    assert_eq!(differ, by_hand);
    assert_eq!(differ.len(), 16);
}

/// Printed wrongly and folded rightly: exactly the faces that were exchanged or left blank, in the packet and in the
/// section; and a page printed head down.
#[test]
fn a_sheet_printed_wrongly() {
    let scheme = sixteen();
    let right = Act::of("sixteen", &scheme).bench;
    let printing = right.printing.clone();
    let (one, other) = (Face { side: Side::A, row: 0, column: 1 }, Face { side: Side::A, row: 1, column: 3 });
    let blank = Face { side: Side::B, row: 0, column: 0 };
    let turned = Face { side: Side::B, row: 1, column: 2 };
    let down = printing.figure(&turned).map(|f| Figure { head: f.head.map(Direction::opposite), ..f });
    let wrong = printing.clone().printed(&one, printing.figure(&other)).printed(&other, printing.figure(&one));
    let wrong = Bench::new(wrong.printed(&blank, None).printed(&turned, down), &scheme).unwrap();
    let expected: BTreeSet<Face> = [one, other, blank, turned].into();
    for step in 0..=3 {
        let told = differences(&right, &wrong, step);
        assert_eq!(told.first.iter().copied().collect::<BTreeSet<Face>>(), expected);
        assert_eq!(told.first, told.second);
    }
    let read: BTreeSet<Face> = reading_differences(&right, &wrong).iter().filter_map(|d| d.second).collect();
    assert_eq!(read, expected);
    let marked = wrong.printing.clone().marking(&expected);
    assert_eq!(marked.faces().filter(|f| marked.is_marked(f)).count(), 4);
}

/// A fold left out: the packets are not of one size, and all that has no counterpart differs.
#[test]
fn packets_of_two_sizes() {
    let scheme = sixteen();
    let right = Act::of("sixteen", &scheme).bench;
    let short = Scheme { folds: scheme.folds[..2].to_vec(), ..scheme.clone() };
    let unfinished = Bench::new(right.printing.clone(), &short).unwrap();
    let told = differences(&right, &unfinished, 3);
    let [first, second] = by_hand(&right, &unfinished, 3);
    assert!(first.is_subset(&told.first.into_iter().collect()) && second.is_subset(&told.second.into_iter().collect()));
    // Of sixteen pages there are none to be read in a packet that is not finished.
    let read = reading_differences(&right, &unfinished);
    assert_eq!(read.len(), 16);
    assert!(read.iter().all(|d| d.second.is_none()));
}

#[test]
fn an_opened_section_is_one_row() {
    for reads in [Reads::LeftToRight, Reads::RightToLeft] {
        let scheme = Scheme { reads, ..sixteen() };
        let bench = Act::of("sixteen", &scheme).bench;
        let pages = |at: f64| -> Vec<Option<u32>> {
            let rows = uppermost(&bench, at, false);
            assert_eq!(rows.len(), 1);
            rows[0].iter().map(|l| l.and_then(|l| l.page)).collect()
        };
        let ordered = |mut p: Vec<Option<u32>>| {
            if reads == Reads::RightToLeft {
                p.reverse();
            }
            p
        };
        assert_eq!(ordered(pages(5.0)), [None, Some(1)]);
        assert_eq!(ordered(pages(7.0)), [Some(4), Some(5)]);
        assert_eq!(ordered(pages(13.0)), [Some(16), None]);
    }
}
