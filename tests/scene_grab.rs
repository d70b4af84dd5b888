//! The paper taken in the hand, against geometry: what a drag asks for is a mirror, what is held stays under the pointer,
//! and all of it holds however the sheet lies.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test ends at the first surprise")]

use backmark::fold::{Crease, Direction, Face, Fold, Landing, Lands, Lay, Packet, Part, Reads, Scheme, Side, library};
use backmark::scene::{Asked, Bench, Held, Printing, Shown, Tag, Turned, View, flat_side};
use kurbo::Point;
use proptest::prelude::*;

const SHOWN: Shown = Shown { leaf: 3.2, crease: None };

fn bench(rows: u32, columns: u32, folds: Vec<Fold>) -> Bench {
    let scheme = Scheme { rows, columns, folds, head: Direction::Up, reads: Reads::LeftToRight };
    let printing = Printing { coarse: true, ..Printing::blank(rows, columns) };
    Bench::new(printing, &scheme).unwrap()
}

/// A fold that a packet of this size can take, if there is one.
fn some_fold(packet: &Packet, pick: (u32, bool, bool, bool)) -> Option<Fold> {
    let r = packet.extent();
    let (w, h) = (r.width().unsigned_abs(), r.height().unsigned_abs());
    let upright = if w < 2 { false } else { h < 2 || pick.1 };
    let size = if upright { w } else { h };
    let part = match (upright, pick.2) {
        (true, true) => Part::Left,
        (true, false) => Part::Right,
        (false, true) => Part::Top,
        (false, false) => Part::Bottom,
    };
    (size > 1).then(|| Fold::new(1 + pick.0 % (size - 1), part, if pick.3 { Lands::Over } else { Lands::Under }))
}

fn lays() -> [Lay; 8] {
    std::array::from_fn(|i| Lay { over: i >= 4, quarters: (i % 4) as u8 })
}

fn size(packet: &Packet) -> (u32, u32) {
    let r = packet.extent();
    (r.width().unsigned_abs(), r.height().unsigned_abs())
}

/// All faces of each place of a packet from the top down, row by row.
fn stacks(packet: &Packet) -> Vec<Vec<Vec<Face>>> {
    let r = packet.extent();
    (r.y0..r.y1).map(|y| (r.x0..r.x1).map(|x| packet.faces_at(x, y)).collect()).collect()
}

/// A face of a flat sheet as the face of the flat sheet that one sees when it was laid so: by its place and no formula.
fn face_seen(face: Face, lay: Lay, rows: u32, columns: u32) -> Face {
    let (mut row, mut column, mut height, mut width) = (face.row, face.column, rows, columns);
    let mut side = face.side;
    if lay.over {
        (side, column) = (side.other(), width - 1 - column);
    }
    for _ in 0..lay.quarters {
        (row, column) = (column, height - 1 - row);
        (height, width) = (width, height);
    }
    Face { side, row, column }
}

type Pick = (u32, bool, bool, bool);

fn picks() -> impl Strategy<Value = Vec<Pick>> {
    prop::collection::vec((0u32..16, any::<bool>(), any::<bool>(), any::<bool>()), 0..6)
}

proptest! {
    /// Folding and then laying the packet is laying the sheet and then folding as it is seen.
    #[test]
    fn a_fold_as_seen_is_the_same_fold(rows in 1u32..5, columns in 1u32..6, picks in picks()) {
        for lay in lays() {
            let mut packet = Packet::flat(rows, columns);
            let (seen_rows, seen_columns) = if lay.quarters % 2 == 1 { (columns, rows) } else { (rows, columns) };
            let mut seen = Packet::flat(seen_rows, seen_columns);
            for pick in &picks {
                let Some(fold) = some_fold(&packet, *pick) else { break };
                let as_seen = lay.seen(&fold, size(&packet));
                prop_assert_eq!(lay.back().seen(&as_seen, size(&seen)), fold, "there and back");
                seen = seen.fold(&as_seen).expect("it can be made as it is seen").0;
                packet = packet.fold(&fold).unwrap().0;
                let places = stacks(&packet);
                let width = places[0].len();
                let there = |i: usize| {
                    let mut faces: Vec<Face> =
                        places[i / width][i % width].iter().map(|f| face_seen(*f, lay, rows, columns)).collect();
                    if lay.over {
                        faces.reverse();
                    }
                    faces
                };
                let numbered = (0..places.len()).map(|r| (r * width..(r + 1) * width).collect()).collect();
                let found: Vec<Vec<Vec<Face>>> =
                    lay.grid(numbered).into_iter().map(|row| row.into_iter().map(there).collect()).collect();
                prop_assert_eq!(found, stacks(&seen), "{:?} {:?} as {:?}", lay, fold, as_seen);
            }
        }
    }

    /// A place led to its mirror in a crease asks for that crease, lands there, and is under the pointer all the way.
    #[test]
    fn what_is_held_follows_the_hand(
        rows in 1u32..5, columns in 1u32..7, picks in picks(), lay in 0usize..8, edge in 0usize..4, along in 0.0f64..1.0,
        crease in 0u32..8, turn in 0.0f64..1.0, other in any::<bool>(), beneath in any::<bool>(),
    ) {
        let mut folds = Vec::new();
        let mut packet = Packet::flat(rows, columns);
        for pick in picks {
            let Some(fold) = some_fold(&packet, pick) else { break };
            packet = packet.fold(&fold).unwrap().0;
            folds.push(fold);
        }
        let made = folds.len();
        let bench = bench(rows, columns, folds);
        let lay = lays()[lay];
        let view = View { lay: Turned::of(lay, 1.0), eye: if beneath { -50.0 } else { 50.0 }, ..View::OPENING };
        let (pw, ph) = bench.printing.panel();
        let r = packet.extent();
        let (x0, x1, y0, y1) =
            (f64::from(r.x0) * pw, f64::from(r.x1) * pw, f64::from(r.y0) * ph, f64::from(r.y1) * ph);
        let mid = |a: f64, b: f64| a + (b - a) * (0.35 + along * 0.3);
        let (part, at) = [
            (Part::Left, (x0, mid(y0, y1))), (Part::Right, (x1, mid(y0, y1))),
            (Part::Top, (mid(x0, x1), y0)), (Part::Bottom, (mid(x0, x1), y1)),
        ][edge];
        let upright = part.crease() == Crease::Vertical;
        let across = if upright { r.width() } else { r.height() }.unsigned_abs();
        prop_assume!(across > 1);
        let hold = bench.edge_near(made, bench.place(made, at, &view, &SHOWN), &view, &SHOWN, 3.0).unwrap();
        prop_assert!(hold.sideways == Some(part) || hold.upright == Some(part));
        prop_assert!((hold.at.0 - at.0).abs() + (hold.at.1 - at.1).abs() < 0.01);
        // The mirror image of the place in a crease.
        let after = 1 + crease % (across - 1);
        let line = if upright { x0 + f64::from(after) * pw } else { y0 + f64::from(after) * ph };
        let mirror = if upright { (2.0 * line - at.0, at.1) } else { (at.0, 2.0 * line - at.1) };
        let to = bench.place(made, mirror, &view, &SHOWN);
        let asked = bench.asked(made, &hold, to, &view, &SHOWN, other);
        let over = (lay.over == beneath) != other;
        let fold = Fold::new(after, part, if over { Lands::Over } else { Lands::Under });
        prop_assert_eq!(asked, Some(Asked::Fold(fold)));
        let tried = bench.trying(made, &fold).unwrap();
        prop_assert_eq!(&tried.folding.steps[made].after, &packet.fold(&fold).unwrap().0);
        let held = Held { fold: made, at: hold.at };
        // It begins where it was taken and ends beside its mirror image, no farther than all leaves are thick.
        let off = |turn: f64, p: Point| (tried.held_at(&held, turn, &view, &SHOWN).unwrap() - p).hypot();
        prop_assert!(off(0.0, bench.place(made, at, &view, &SHOWN)) < 26.0);
        prop_assert!(off(1.0, to) < 50.0, "{}", off(1.0, to));
        // Wherever it is on its way, a hand that is there finds it there, to the pixel.
        let there = tried.held_at(&held, turn, &view, &SHOWN).unwrap();
        let found = tried.turn_held(&held, there, &view, &SHOWN);
        prop_assert!(off(found, there) < 1.0, "{turn} {found} {}", off(found, there));
    }

    /// The free edge of the last flap, led back over the edge it was folded at, unfolds it and nothing else.
    #[test]
    fn what_was_folded_is_pulled_back(rows in 1u32..5, columns in 1u32..7, picks in picks(), lay in 0usize..8) {
        let mut folds = Vec::new();
        let mut packet = Packet::flat(rows, columns);
        for pick in picks {
            let Some(fold) = some_fold(&packet, pick) else { break };
            packet = packet.fold(&fold).unwrap().0;
            folds.push(fold);
        }
        prop_assume!(!folds.is_empty());
        let made = folds.len();
        let last = *folds.last().unwrap();
        let bench = bench(rows, columns, folds);
        // Seen from the side that the flap is on.
        let lay = Lay { over: last.lands == Lands::Under, ..lays()[lay] };
        let view = View { lay: Turned::of(lay, 1.0), ..View::OPENING };
        let (pw, ph) = bench.printing.panel();
        let before = bench.folding.packet(made - 1).extent();
        // A place on the free edge as it lay before, and as it lies.
        let (cx, cy) = (f64::from(before.x0 + before.x1) / 2.0 * pw, f64::from(before.y0 + before.y1) / 2.0 * ph);
        let flat = match last.moves {
            Part::Left => (f64::from(before.x0) * pw, cy),
            Part::Right => (f64::from(before.x1) * pw, cy),
            Part::Top => (cx, f64::from(before.y0) * ph),
            Part::Bottom => (cx, f64::from(before.y1) * ph),
        };
        let now = bench.before(made - 1, flat).unwrap().at;
        let place = bench.place(made, now, &view, &SHOWN);
        let hold = bench.edge_near(made, place, &view, &SHOWN, 3.0).unwrap();
        prop_assert_eq!(hold.flap, Some(last.moves.other()));
        let to = bench.place(made, flat, &view, &SHOWN);
        prop_assert_eq!(bench.asked(made, &hold, to, &view, &SHOWN, false), Some(Asked::Unfold));
        let held = bench.before(made - 1, hold.at).unwrap();
        prop_assert!((held.at.0 - flat.0).abs() + (held.at.1 - flat.1).abs() < 0.01);
        let open = bench.held_at(&held, 0.0, &view, &SHOWN).unwrap();
        prop_assert!((open - to).hypot() < 50.0);
    }
}

/// A flat sheet that was turned over shows side B as it is drawn beside the bench: the same page at the same place,
/// with its head the same way.
#[test]
fn turned_over_it_shows_side_b_as_it_is_drawn() {
    for named in library() {
        let scheme = named.scheme;
        let landed = Printing::landed(Landing::of(&scheme).unwrap(), 0);
        let printing = Printing { reads: scheme.reads, coarse: false, ..landed };
        let bench = Bench::new(printing, &scheme).unwrap();
        let lay = Turned::of(Lay::default().turned_over(), 1.0);
        let view = View { turn: 0.0, eye: 89.9, lay, ..View::OPENING };
        let seen = bench.scene(0.0, &view, &SHOWN).scene;
        let drawn = flat_side(&bench.printing, Side::B, false);
        let (pw, ph) = bench.printing.panel();
        for row in 0..scheme.rows {
            for column in 0..scheme.columns {
                let tag = Tag::Face(Face { side: Side::B, row, column });
                let (on_bench, on_flat) = (seen.group(tag).unwrap().place, drawn.group(tag).unwrap().place);
                let corner = |m: kurbo::Affine, x: f64, y: f64| m * Point::new(x, y) - m * Point::ORIGIN;
                for p in [(pw, 0.0), (0.0, ph)] {
                    let off = corner(on_bench, p.0, p.1) - corner(on_flat, p.0, p.1);
                    assert!(off.hypot() < 0.1, "{}: {row} {column} {on_bench:?} {on_flat:?}", named.name);
                }
            }
        }
    }
}
