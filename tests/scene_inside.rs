//! The packet cut through: what the rows and the picture say against the sheet itself.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test ends at the first surprise")]

mod scene_support;

use backmark::fold::{Crease, Direction, Face, Folding, Side};
use backmark::scene::{Bench, Group, InsideLayer, Item, Line, Scene, Tag, inside, inside_count, inside_rows};
use kurbo::{Rect, Shape};
use scene_support::{Act, schemes};
use std::collections::BTreeSet;

const ALONG: [Crease; 2] = [Crease::Horizontal, Crease::Vertical];

/// Every cut that can be made through a bench.
fn cuts(bench: &Bench) -> impl Iterator<Item = (usize, Crease, u32)> + use<'_> {
    (0..=bench.folding.steps.len()).flat_map(move |step| {
        let along = ALONG.into_iter();
        along.flat_map(move |along| (0..inside_count(bench, step, along)).map(move |i| (step, along, i)))
    })
}

fn faces(row: &InsideLayer, right: bool) -> [Face; 2] {
    [&row.upper, &row.lower].map(|f| *if right { f.last() } else { f.first() }.unwrap())
}

/// The rows are the layers of the packet there, from the top down, and show the faces that the packet has there.
#[test]
fn the_rows_are_the_layers_in_order() {
    for (name, scheme) in schemes(0x5EED_0011) {
        let bench = Act::of(&name, &scheme).bench;
        for (step, along, index) in cuts(&bench) {
            let packet = bench.folding.packet(step);
            let r = packet.extent();
            let rows = inside_rows(&bench, step, false, along, index);
            let panels = if along == Crease::Horizontal { r.width() } else { r.height() };
            for panel in 0..panels.unsigned_abs() {
                let (x, y) = match along {
                    Crease::Horizontal => (r.x0 + panel.cast_signed(), r.y0 + index.cast_signed()),
                    Crease::Vertical => (r.x0 + index.cast_signed(), r.y1 - 1 - panel.cast_signed()),
                };
                let told: Vec<Face> = rows
                    .iter()
                    .filter_map(|row| {
                        let at = panel.checked_sub(row.from)? as usize;
                        Some([*row.upper.get(at)?, *row.lower.get(at)?])
                    })
                    .flatten()
                    .collect();
                assert_eq!(told, packet.faces_at(x, y), "{name}: step {step}, {along:?} {index}, panel {panel}");
            }
            assert!(rows.windows(2).all(|pair| pair[0].layer > pair[1].layer), "{name}");
        }
    }
}

/// Two rows are joined exactly where the next panel of the sheet, across the end, lies in the other one.
#[test]
fn joins_are_the_neighbours_on_the_sheet() {
    for (name, scheme) in schemes(0x5EED_0012) {
        let bench = Act::of(&name, &scheme).bench;
        for (step, along, index) in cuts(&bench) {
            let rows = inside_rows(&bench, step, false, along, index);
            let place = |row: u32, column: u32| {
                let holds = |r: &InsideLayer| r.upper.iter().any(|f| (f.row, f.column) == (row, column));
                rows.iter().position(holds)
            };
            for (i, row) in rows.iter().enumerate() {
                for (right, joined) in [(false, row.joined_left), (true, row.joined_right)] {
                    let [face, _] = faces(row, right);
                    let before = if right { row.upper.iter().rev().nth(1) } else { row.upper.get(1) };
                    // All neighbours of the end panel that are no part of this layer's row.
                    let around = [(0, 1), (0, -1), (1, 0), (-1, 0)].map(|(dy, dx)| {
                        let (r, c) = (face.row.checked_add_signed(dy)?, face.column.checked_add_signed(dx)?);
                        (r < bench.folding.rows && c < bench.folding.columns).then_some((r, c))
                    });
                    let sideways = |(r, c): &(u32, u32)| match along {
                        Crease::Horizontal => *r == face.row && *c != face.column,
                        Crease::Vertical => *c == face.column && *r != face.row,
                    };
                    let beside: Vec<usize> = around
                        .into_iter()
                        .flatten()
                        .filter(sideways)
                        .filter(|(r, c)| before.is_none_or(|b| (b.row, b.column) != (*r, *c)))
                        .filter_map(|(r, c)| place(r, c))
                        .filter(|j| *j != i)
                        .collect();
                    let what = format!("{name}: step {step}, {along:?} {index}, row {i}, right {right}");
                    if row.panels() > 1 {
                        assert_eq!(joined.into_iter().collect::<Vec<_>>(), beside, "{what}");
                    } else if let Some(joined) = joined {
                        // A single panel has two ends: which neighbour is at which one, the other rows tell.
                        assert!(beside.contains(&joined), "{what}");
                    }
                    if let Some(j) = joined {
                        let back = if right { rows[j].joined_right } else { rows[j].joined_left };
                        assert_eq!(back, Some(i), "{what}");
                    }
                }
                if row.panels() == 1 {
                    let told = usize::from(row.joined_left.is_some()) + usize::from(row.joined_right.is_some());
                    let [face, _] = faces(row, false);
                    let there = rows
                        .iter()
                        .filter(|r| {
                            let next = |f: &Face| match along {
                                Crease::Horizontal => f.row == face.row && f.column.abs_diff(face.column) == 1,
                                Crease::Vertical => f.column == face.column && f.row.abs_diff(face.row) == 1,
                            };
                            r.upper.iter().any(next)
                        })
                        .count();
                    assert_eq!(told, there, "{name}: step {step}, {along:?} {index}, row {i}");
                }
            }
        }
    }
}

/// Paper does not pass through paper: closed ends lie in one another or beside one another, and no layer passes
/// through a closed end.
#[test]
fn closed_ends_are_nested() {
    let mut nested = 0;
    for (name, scheme) in schemes(0x5EED_0013) {
        let bench = Act::of(&name, &scheme).bench;
        for (step, along, index) in cuts(&bench) {
            let rows = inside_rows(&bench, step, false, along, index);
            for right in [false, true] {
                let end = |row: &InsideLayer| if right { row.from + row.panels() } else { row.from };
                let ends: Vec<(usize, usize, u32)> = rows
                    .iter()
                    .enumerate()
                    .filter_map(|(i, row)| {
                        let other = if right { row.joined_right } else { row.joined_left }?;
                        (other > i).then(|| (i, other, end(row)))
                    })
                    .collect();
                for (i, j, x) in &ends {
                    assert_eq!(end(&rows[*j]), *x, "{name}: both ends of one fold lie at one line");
                    for (k, l, _) in &ends {
                        assert!(!(i < k && k < j && j < l), "{name}: step {step}: ends {i} {j} and {k} {l} cross");
                        nested += usize::from(i < k && l < j);
                    }
                    for row in &rows[i + 1..*j] {
                        let through = row.from < *x && *x < row.from + row.panels();
                        assert!(!through, "{name}: step {step}: a layer passes through the end {i} {j}");
                    }
                }
            }
        }
    }
    assert!(nested > 1000, "only {nested} ends lie in another one");
}

/// The knife opens all ends at the slit edges and no other.
#[test]
fn slit_ends_are_open() {
    let mut slit = 0;
    for (name, scheme) in schemes(0x5EED_0014) {
        let bench = Act::of(&name, &scheme).bench;
        let last = bench.folding.steps.len();
        for along in ALONG {
            let before = inside_rows(&bench, last, false, along, 0);
            let after = inside_rows(&bench, last, true, along, 0);
            let (left, right) = match along {
                Crease::Horizontal => (Direction::Left, Direction::Right),
                Crease::Vertical => (Direction::Down, Direction::Up),
            };
            let cut = |edge: &Direction| bench.section.is_some() && bench.slits().contains(edge);
            for (b, a) in before.iter().zip(&after) {
                let ends = [
                    (b.joined_left, a.joined_left, a.slit_left, left),
                    (b.joined_right, a.joined_right, a.slit_right, right),
                ];
                for (was, is, slits, edge) in ends {
                    assert_eq!(is, was.filter(|_| !cut(&edge)), "{name}");
                    assert_eq!(slits, was.is_some() && cut(&edge), "{name}");
                    slit += usize::from(slits);
                }
                assert!(!b.slit_left && !b.slit_right);
            }
            // An unfinished packet is not slit.
            assert!(inside_rows(&bench, 0, true, along, 0).iter().all(|r| last == 0 || !(r.slit_left || r.slit_right)));
        }
    }
    assert!(slit > 100);
}

fn flags(scene: &Scene) -> Vec<(Face, &Group, Rect)> {
    let tagged = scene.items.iter().filter_map(scene_support::faced);
    tagged.map(|(face, g)| (face, g, g.place.transform_rect_bbox(Rect::new(0.0, 0.0, g.size.0, g.size.1)))).collect()
}

/// All of the picture lies inside its size; every figure is large enough, can be picked, and hides no other.
#[test]
fn the_picture_stays_in_its_frame() {
    for (name, scheme) in schemes(0x5EED_0015) {
        let bench = Act::of(&name, &scheme).bench;
        for (step, along, index) in cuts(&bench) {
            for size in [(600.0, 420.0), (900.0, 640.0), (290.0, 300.0)] {
                let scene = inside(&bench, step, true, along, index, size);
                let frame = Rect::new(0.0, 0.0, size.0, size.1);
                let what = format!("{name}: step {step}, {along:?} {index}, {size:?}");
                for item in &scene.items {
                    if let Item::Path { path, .. } = item {
                        let r = path.bounding_box();
                        assert!(frame.inflate(0.5, 0.5).union(r) == frame.inflate(0.5, 0.5), "{what}: {r:?}");
                    }
                }
                let flags = flags(&scene);
                for (i, (face, group, r)) in flags.iter().enumerate() {
                    assert!(frame.inflate(1.0, 1.0).union(*r) == frame.inflate(1.0, 1.0), "{what}: flag {r:?}");
                    assert_eq!(scene.pick(r.center()).map(|p| p.0), Some(Tag::Face(*face)), "{what}");
                    for item in group.items.iter() {
                        if let Item::Figure { size, .. } = item {
                            assert!(*size >= 13.0, "{what}");
                        }
                    }
                    for (_, _, other) in &flags[i + 1..] {
                        let both = r.inset(-0.6).intersect(other.inset(-0.6));
                        assert!(both.width() <= 0.0 || both.height() <= 0.0, "{what}: {r:?} {other:?}");
                    }
                }
            }
        }
    }
}

/// In packets of up to sixteen layers every page is shown, larger in thin ones; up to sixty-four layers stand apart.
#[test]
fn few_layers_are_generous_and_many_are_told_apart() {
    let size = (600.0, 420.0);
    for named in backmark::fold::library() {
        let bench = Act::of(named.name, &named.scheme).bench;
        let last = bench.folding.steps.len();
        let scene = inside(&bench, last, false, Crease::Horizontal, 0, size);
        let layers = bench.folding.last().layers.len();
        let shown: BTreeSet<Face> = flags(&scene).iter().map(|f| f.0).collect();
        if layers <= 16 {
            assert_eq!(shown.len(), 2 * layers, "{}", named.name);
        } else {
            assert!(shown.len() >= layers / 2, "{}: {}", named.name, shown.len());
        }
        let largest = flags(&scene).iter().flat_map(|f| f.1.items.iter()).fold(0.0, |m: f64, i| match i {
            Item::Figure { size, .. } => m.max(*size),
            _ => m,
        });
        let least = match layers {
            0..=2 => 50.0,
            3..=4 => 40.0,
            5..=8 => 26.0,
            _ => 13.0,
        };
        assert!(largest >= least, "{}: {largest}", named.name);
    }
    let act = Act::of("one hundred and twenty-eight", &scene_support::hundred_and_twenty_eight());
    let scene = inside(&act.bench, 6, false, Crease::Horizontal, 0, size);
    let strips = scene.items.iter().find_map(|i| match i {
        Item::Path { path, fill: None, line: Some(Line { dash: None, .. }) } => Some(path.clone()),
        _ => None,
    });
    let middle = |y: f64| strips.as_ref().unwrap().contains(kurbo::Point::new(220.0, y));
    // Down through the picture: in and out of the paper once for every layer.
    let crossings = (0..8400).map(|i| middle(f64::from(i) * 0.05)).collect::<Vec<_>>();
    let entered = crossings.windows(2).filter(|w| !w[0] && w[1]).count();
    assert_eq!(entered, 64);
}

/// A head that points away from the eye is drawn upright, one that points to it upside down.
#[test]
fn heads_are_drawn_as_the_cut_sees_them() {
    for (name, scheme) in schemes(0x5EED_0016) {
        let act = Act::of(&name, &scheme);
        let bench = &act.bench;
        for (step, along, index) in cuts(bench) {
            let packet = bench.folding.packet(step);
            let scene = inside(bench, step, false, along, index, (600.0, 420.0));
            for (face, group, _) in flags(&scene) {
                let Some(head) = bench.printing.figure(&face).and_then(|f| f.head) else { continue };
                // Where the head is on the sheet, seen from side A, and so in the packet.
                let (dx, dy) = if face.side == Side::A { head } else { head.turned_over() }.step();
                let holds =
                    |l: &&backmark::fold::Layer| l.area.holds(face.column.cast_signed(), face.row.cast_signed());
                let p = packet.layers.iter().find(holds).unwrap().placement;
                let (x, y) = (if p.mirror_x { -dx } else { dx }, if p.mirror_y { -dy } else { dy });
                // From the lower edge as it lies; from the right edge turned a quarter clockwise.
                let (x, y) = if along == Crease::Horizontal { (x, y) } else { (-y, x) };
                let [a, b, c, d, ..] = group.place.as_coeffs();
                let up = (-c, -d);
                assert_eq!((up.0.round() as i32, up.1.round() as i32), (x, y), "{name}: {face:?}");
                assert!((a * d - b * c - 1.0).abs() < 1e-9, "never mirrored");
            }
        }
    }
}

#[test]
fn what_is_beyond_the_end_is_the_end() {
    let named = &backmark::fold::library()[4];
    let bench = Act::of(named.name, &named.scheme).bench;
    let last = Folding::of(&named.scheme).unwrap().steps.len();
    assert_eq!(
        inside_rows(&bench, 99, true, Crease::Vertical, u32::MAX),
        inside_rows(&bench, last, true, Crease::Vertical, 0)
    );
    let tiny = inside(&bench, 0, false, Crease::Horizontal, 5, (0.0, f64::NAN));
    assert!(!tiny.items.is_empty());
}

/// A page that is marked as differing is marked here as well, and only it.
#[test]
fn marked_pages_are_marked() {
    let named = &backmark::fold::library()[4];
    let plain = Act::of(named.name, &named.scheme).bench;
    let marked: Vec<Face> = plain.printing.faces().step_by(3).collect();
    let bench = Bench::new(plain.printing.clone().marking(&marked), &named.scheme).unwrap();
    let scene = inside(&bench, 3, false, Crease::Horizontal, 0, (600.0, 420.0));
    for (face, group, _) in flags(&scene) {
        let dashed = |i: &Item| matches!(i, Item::Path { line: Some(Line { dash: Some(_), .. }), .. });
        assert_eq!(group.items.iter().any(dashed), marked.contains(&face));
    }
}
