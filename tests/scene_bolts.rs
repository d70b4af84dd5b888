//! The sides of the piles: closed edges are unbroken strips, open ones show leaf by leaf, and all of it stays cheap.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test ends at the first surprise")]

mod scene_support;

use backmark::fold::{BackMark, Direction, Landing, Packet, Section, library};
use backmark::scene::{
    Bench, Ink, Item, Join, PAGE_HEIGHT, PAGE_WIDTH, Printing, Scene, Tag, View, joins, page_in_panel,
};
use kurbo::{ParamCurve, PathEl, Point};
use scene_support::{Act, THICK, hundred_and_twenty_eight, schemes};

/// Turned so that the lower and the left edge face the eye, or the lower and the right one.
const FROM_LEFT: View = View { turn: 40.0, eye: 30.0, ..View::OPENING };
const FROM_RIGHT: View = View { turn: -40.0, eye: 30.0, ..View::OPENING };

fn hairlines(scene: &Scene) -> usize {
    let lines = |item: &Item| match item {
        Item::Path { path, fill: None, line: Some(line) } if line.ink == Ink::Black && line.width < 1.0 => {
            path.elements().iter().filter(|e| matches!(e, PathEl::MoveTo(_))).count()
        }
        _ => 0,
    };
    scene.items.iter().map(lines).sum()
}

/// Strips of paper around closed edges.
fn strips(scene: &Scene) -> usize {
    let strip = |i: &&Item| matches!(i, Item::Path { fill: Some(Ink::Paper(_)), line: Some(_), .. });
    scene.items.iter().filter(strip).count()
}

/// The closed edges by the sheet alone: for every two panels that are neighbours on it and lie on one another, the
/// layers that they are in, and the edge of the packet.
fn by_hand(packet: &Packet, rows: u32, columns: u32) -> Vec<(Direction, usize, usize)> {
    let at = |row: u32, column: u32| {
        packet.layers.iter().position(|l| l.area.holds(column.cast_signed(), row.cast_signed())).unwrap()
    };
    let place = |row: u32, column: u32| {
        let p = packet.layers[at(row, column)].placement;
        // Twice the middle of the panel, as it lies.
        let twice = |mirror: bool, v: u32, shift: i32| {
            let v = 2 * v.cast_signed() + 1;
            (if mirror { -v } else { v }) + 2 * shift
        };
        (twice(p.mirror_x, column, p.dx), twice(p.mirror_y, row, p.dy))
    };
    let mut found = Vec::new();
    for row in 0..rows {
        for column in 0..columns {
            for (r, c) in [(row, column + 1), (row + 1, column)].into_iter().filter(|(r, c)| *r < rows && *c < columns)
            {
                let (i, j) = (at(row, column), at(r, c));
                if i == j || place(row, column) != place(r, c) {
                    continue;
                }
                // The shared edge on the sheet lies right of, or below, the first panel.
                let p = packet.layers[i].placement;
                let edge = p.direction(if r == row { Direction::Right } else { Direction::Down });
                found.push((edge, i.min(j), i.max(j)));
            }
        }
    }
    found.sort();
    found.dedup();
    found
}

#[test]
fn joins_are_the_neighbours_that_lie_on_one_another() {
    let mut count = 0;
    for (name, scheme) in schemes(0x5EED_0031) {
        let bench = Act::of(&name, &scheme).bench;
        let (rows, columns) = (bench.folding.rows, bench.folding.columns);
        for step in 0..=bench.folding.steps.len() {
            let packet = bench.folding.packet(step);
            let mut told: Vec<_> = joins(&packet.layers, rows, columns, |_, _| true)
                .iter()
                .map(|j: &Join| (j.edge, j.low, j.high))
                .collect();
            told.sort();
            assert_eq!(told, by_hand(packet, rows, columns), "{name}: step {step}");
            count += told.len();
        }
    }
    assert!(count > 1000);
}

/// On every edge that faces the eye: a strip for every closed edge with none around it, and a hairline between two
/// leaves unless a strip goes around both.
#[test]
fn edges_are_closed_where_the_paper_is_one_piece() {
    for (name, scheme) in schemes(0x5EED_0032) {
        let act = Act::of(&name, &scheme);
        let bench = &act.bench;
        let last = bench.folding.steps.len();
        let packet = bench.folding.packet(last);
        let extent = packet.extent();
        // One pile of one outline.
        if packet.layers.iter().any(|l| l.footprint() != extent) {
            continue;
        }
        let closed = by_hand(packet, bench.folding.rows, bench.folding.columns);
        for (view, edges) in [
            (FROM_LEFT, [Direction::Down, Direction::Left]),
            (FROM_RIGHT, [Direction::Down, Direction::Right]),
            (View { eye: -30.0, ..FROM_LEFT }, [Direction::Down, Direction::Left]),
        ] {
            // Slit edges are open once the knife has passed; half way all are still closed somewhere.
            for (at, slit) in [(last as f64, false), (last as f64 + 1.0, true)] {
                if slit && bench.section.is_none() {
                    continue;
                }
                let scene = act.scene(at, &view, THICK);
                let cut = |e: &Direction| slit && bench.slits().contains(e);
                let here = |e: Direction| closed.iter().filter(move |c| c.0 == e && !cut(&e));
                let outer = |e: Direction| {
                    here(e)
                        .filter(|c| !here(e).any(|d| d != *c && d.1 <= c.1 && c.2 <= d.2))
                        .copied()
                        .collect::<Vec<_>>()
                };
                let expected: usize = edges.iter().map(|e| outer(*e).len()).sum();
                assert_eq!(strips(&scene), expected, "{name}: at {at}, {view:?}");
                let open = |e: Direction| {
                    (1..packet.layers.len()).filter(|i| !outer(e).iter().any(|c| c.1 < *i && *i <= c.2)).count()
                };
                let expected: usize = edges.iter().map(|e| open(*e)).sum();
                assert_eq!(hairlines(&scene), expected, "{name}: at {at}, {view:?}");
            }
        }
    }
}

/// The back mark is seen on the spine of every right section that has one, from the head as far as it was printed.
#[test]
fn the_back_mark_is_seen_on_the_spine() {
    for named in library() {
        let folding = backmark::fold::Folding::of(&named.scheme).unwrap();
        let section = Section::of(&named.scheme, &folding).unwrap();
        let landing = Landing::of_section(&section);
        let mark = BackMark::on_sheet(&section, &landing).map(|m| (m, 0.2, 0.3));
        let printing = Printing { mark, ..Printing::landed(landing, 0) };
        let bench = Bench::new(printing, &named.scheme).unwrap();
        let shown = backmark::scene::Shown { leaf: THICK, crease: None };
        let last = bench.folding.steps.len() as f64;
        let bars = |at: f64, view: &View| {
            let scene = bench.scene(at, view, &shown).scene;
            let bar = |i: &&Item| matches!(i, Item::Path { fill: Some(Ink::Black), .. });
            scene.items.iter().filter(bar).count()
        };
        let spine = match section.spine {
            Direction::Left => &FROM_LEFT,
            _ => &FROM_RIGHT,
        };
        let other = if section.spine == Direction::Left { &FROM_RIGHT } else { &FROM_LEFT };
        // While it is being folded a spine that looks away is painted as well, and covered.
        assert_eq!(bars(last - 0.02, spine), 1, "{}", named.name);
        for at in [last, last + 1.0] {
            assert_eq!((bars(at, spine), bars(at, other)), (1, 0), "{}: at {at}", named.name);
        }
        // It goes on from the half that stands on the page that is up.
        let scene = bench.scene(last, spine, &shown).scene;
        let (mark, near, far) = bench.printing.mark.unwrap();
        let up = [mark.first_page, mark.last_page].into_iter().find_map(|f| Some((f, scene.group(Tag::Face(f))?)));
        let (face, group) = up.unwrap();
        let (w, h) = bench.printing.panel();
        let x = if face == mark.first_page { 0.0 } else { PAGE_WIDTH };
        let path = scene.items.iter().find_map(|i| match i {
            Item::Path { path, fill: Some(Ink::Black), .. } => Some(path),
            _ => None,
        });
        for share in [near, far] {
            let end = group.place * page_in_panel(w, h, mark.head) * Point::new(x, share * PAGE_HEIGHT);
            let corners = path.unwrap().segments().map(|s| (s.start() - end).hypot());
            assert!(corners.fold(f64::INFINITY, f64::min) < 0.01, "{}", named.name);
        }
        // Opened, the spine is at the left.
        assert_eq!((bars(last + 2.0, &FROM_LEFT), bars(last + 2.0, &FROM_RIGHT)), (1, 0), "{}", named.name);
    }
}

/// A polygon for every layer was the cost of a pile before closed edges were drawn. A sheet of sixty-four leaves may
/// cost no more than that, and no more points either.
#[test]
fn thick_packets_cost_less_than_layer_by_layer() {
    let mut worst = (0, 0, String::new());
    let thick = schemes(0x5EED_0033).into_iter().chain([("128 pages".to_owned(), hundred_and_twenty_eight())]);
    for (name, scheme) in thick.filter(|(_, s)| s.leaves() >= 16) {
        let act = Act::of(&name, &scheme);
        let folds = act.bench.folding.steps.len();
        for at in 0..=4 * (folds + 2) {
            let at = at as f64 / 4.0;
            for view in [View::OPENING, FROM_LEFT, FROM_RIGHT, View { eye: -50.0, ..View::OPENING }] {
                let scene = act.scene(at, &view, THICK);
                let made = (at.ceil() as usize).min(folds);
                let layers = act.bench.folding.packet(made).layers.len();
                let paper = |i: &&Item| match i {
                    Item::Path { fill: Some(Ink::Edge | Ink::Paper(_)), .. } => true,
                    Item::Path { fill: None, line: Some(line), .. } => line.width < 1.0,
                    _ => false,
                };
                let drawn: Vec<&Item> = scene.items.iter().filter(paper).collect();
                let points = |i: &&Item| match i {
                    Item::Path { path, .. } => path.elements().len(),
                    _ => 0,
                };
                let count: usize = drawn.iter().map(points).sum();
                if layers >= 32 {
                    assert!(
                        drawn.len() * 100 <= layers * 115,
                        "{name}: at {at}: {} items, {layers} layers",
                        drawn.len()
                    );
                    // Each of them had an outline of six corners, closed: seven points, filled and stroked.
                    assert!(count <= layers * 9, "{name}: at {at}: {count} points, {layers} layers");
                }
                if layers >= 64 && drawn.len() > worst.0 {
                    worst =
                        (drawn.len(), layers, format!("{name} at {at}, {view:?}, {} items in all", scene.items.len()));
                }
            }
        }
    }
    println!("at the most {} items for {} layers: {}", worst.0, worst.1, worst.2);
    assert_eq!(worst.1, 64);
}
