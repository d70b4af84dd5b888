//! Flat sides in true proportions: unequal panels, and what is measured over them.
#![allow(clippy::unwrap_used, reason = "a test ends at the first surprise")]

use backmark::fold::{Direction, Face, Fold, Landing, Lands, Measure, Part, Reads, Scheme, Side};
use backmark::paper::{Edge, Grain, Length, Margins, Press, Trims};
use backmark::scene::{Item, Overlay, Printing, Scene, Tag, flat_side, measured_side, svg};
use kurbo::{Point, Rect, Shape};

const fn whole(mm: i64) -> Length {
    Length::from_whole_mm(mm)
}

fn mm(all: &[i64]) -> Vec<Length> {
    all.iter().copied().map(whole).collect()
}

fn letter() -> (Printing, Measure) {
    let folds = vec![Fold::new(2, Part::Right, Lands::Over), Fold::new(1, Part::Left, Lands::Over)];
    let scheme = Scheme { rows: 1, columns: 3, folds, head: Direction::Up, reads: Reads::LeftToRight };
    let printing = Printing::landed(Landing::of(&scheme).unwrap(), 0);
    (printing, Measure { columns: mm(&[100, 100, 97]), rows: mm(&[210]) })
}

fn drawn(scene: &Scene, side: Side, row: u32, column: u32) -> Rect {
    let group = scene.group(Tag::Face(Face { side, row, column })).unwrap();
    (group.place * Rect::new(0.0, 0.0, group.size.0, group.size.1).to_path(0.1)).bounding_box()
}

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-6
}

#[test]
fn panels_are_drawn_where_they_are_measured() {
    let lip = Measure { columns: mm(&[55, 50, 50, 45]), rows: mm(&[80, 70]) };
    let printing = Printing::blank(2, 4).measured(&lip);
    let s = printing.scale();
    for (side, through) in [(Side::A, false), (Side::B, true), (Side::B, false)] {
        let scene = flat_side(&printing, side, through);
        assert!(near(scene.size.0, 200.0 * s) && near(scene.size.1, 150.0 * s));
        for (row, column) in (0..2).flat_map(|r| (0..4).map(move |c| (r, c))) {
            let r = drawn(&scene, side, row, column);
            let span = [lip.line_x(column as i32), lip.line_x(column as i32 + 1)].map(|l| l.mm() * s);
            let [left, right] =
                if side == Side::B && !through { [200.0 * s - span[1], 200.0 * s - span[0]] } else { span };
            assert!(near(r.x0, left) && near(r.x1, right), "{side:?} {column}: {r:?}");
            assert!(near(r.y0, lip.line_y(row as i32).mm() * s) && near(r.y1, lip.line_y(row as i32 + 1).mm() * s));
        }
        // The creases run along the edges of the panels.
        let lines = scene.items.iter().filter_map(|i| match i {
            Item::Path { path, .. } => Some(path.bounding_box()),
            _ => None,
        });
        let upright: Vec<f64> = lines.filter(|r| near(r.width(), 0.0)).map(|r| (r.x0 / s).round()).collect();
        let wanted = if side == Side::B && !through { [145.0, 95.0, 45.0] } else { [55.0, 105.0, 155.0] };
        assert_eq!(upright, wanted);
    }
}

#[test]
fn equal_pages_of_a5_look_as_without_a_measure() {
    let (plain, _) = letter();
    let measure = Measure { columns: mm(&[148, 148, 148]), rows: mm(&[210]) };
    let measured = plain.clone().measured(&measure);
    for side in [Side::A, Side::B] {
        let text = |p: &Printing| svg::paint(&flat_side(p, side, false), "sheet", &|_| None);
        assert_eq!(text(&plain), text(&measured));
    }
}

#[test]
fn a_large_sheet_is_drawn_as_large_as_a_small_one() {
    let at = |f: i64| Printing::blank(1, 2).measured(&Measure { columns: mm(&[70 * f, 70 * f]), rows: mm(&[100 * f]) });
    let (small, large) = (at(1), at(9));
    assert!(near(small.sheet().0, large.sheet().0) && near(small.scale(), 9.0 * large.scale()));
}

fn all_points(items: &[Item], out: &mut Vec<Rect>) {
    for item in items {
        match item {
            Item::Path { path, .. } => out.push(path.bounding_box()),
            Item::Figure { .. } | Item::Words { .. } => {}
            Item::Group(g) => {
                let mut inner = Vec::new();
                all_points(&g.items, &mut inner);
                out.extend(inner.into_iter().map(|r| (g.place * r.to_path(0.1)).bounding_box()));
            }
        }
    }
}

#[test]
fn what_is_printed_stays_on_its_panel_however_narrow() {
    for column in [6, 20, 60, 300] {
        for head in [Direction::Up, Direction::Right, Direction::Down, Direction::Left] {
            let face = Face { side: Side::B, row: 0, column: 1 };
            let figure = backmark::scene::Figure { page: 69, head: Some(head) };
            let measure = Measure { columns: mm(&[150, column]), rows: mm(&[200]) };
            let printing = Printing::blank(1, 2).printed(&face, Some(figure)).marking([&face]).measured(&measure);
            let (w, h) = printing.size(&face);
            let mut rects = Vec::new();
            all_points(&printing.items(&face), &mut rects);
            assert!(rects.len() >= 3);
            for r in rects {
                assert!(
                    r.x0 >= -1e-6 && r.y0 >= -1e-6 && r.x1 <= w + 1e-6 && r.y1 <= h + 1e-6,
                    "{column} {head:?} {r:?}"
                );
            }
        }
    }
}

fn figures(items: &[Item]) -> Vec<&str> {
    items.iter().filter_map(|i| if let Item::Figure { text, .. } = i { Some(text.as_str()) } else { None }).collect()
}

#[test]
fn rulers_tell_true_millimetres() {
    let (printing, measure) = letter();
    let printing = printing.measured(&measure);
    let overlay = Overlay { rulers: true, ..Overlay::default() };
    assert_eq!(figures(&overlay.items(&printing, Side::A, false)), ["0", "100", "200", "297", "0", "210"]);
    assert_eq!(figures(&overlay.items(&printing, Side::B, false)), ["0", "97", "197", "297", "0", "210"]);
}

#[test]
fn trims_are_cut_from_head_foot_and_fore_edge_and_never_at_the_spine() {
    let (printing, measure) = letter();
    let printing = printing.measured(&measure);
    let s = printing.scale();
    let trims = Some(Trims { head: whole(5), foot: whole(7), fore_edge: whole(3), bleed: whole(0) });
    let overlay = Overlay { trims, ..Overlay::default() };
    for side in [Side::A, Side::B] {
        let items = overlay.items(&printing, side, false);
        let scene = flat_side(&printing, side, false);
        let faces = printing.faces().filter(|f| f.side == side);
        let mut seen = 0;
        for (face, item) in faces.zip(&items) {
            let Item::Path { path, .. } = item else { unreachable!() };
            let (cut, leaf) = (path.bounding_box(), drawn(&scene, side, 0, face.column));
            let page = printing.figure(&face).unwrap().page;
            let (left, right) = if page % 2 == 1 { (0.0, 3.0) } else { (3.0, 0.0) };
            assert!(near(cut.x0, leaf.x0 + left * s) && near(cut.x1, leaf.x1 - right * s), "page {page}");
            assert!(near(cut.y0, leaf.y0 + 5.0 * s) && near(cut.y1, leaf.y1 - 7.0 * s), "page {page}");
            seen += 1;
        }
        assert_eq!((seen, items.len()), (3, 3));
    }
}

#[test]
fn rulers_have_their_room_and_pages_are_still_found() {
    let (printing, measure) = letter();
    let printing = printing.measured(&measure);
    let overlay = Overlay {
        rulers: true,
        trims: Some(Trims { head: whole(5), foot: whole(5), fore_edge: whole(5), bleed: whole(3) }),
        type_area: Some(Margins { back: whole(12), head: whole(18), fore_edge: whole(20), foot: whole(25) }),
        press: Some(Press { gripper: Edge::Bottom, side_lay: Edge::Left, gripper_margin: whole(12) }),
        grain: Some(Grain::Upright),
    };
    let scene = measured_side(&printing, Side::A, false, &overlay);
    let room = overlay.room(printing.sheet());
    assert!(near(scene.size.0, printing.sheet().0 + room));
    let middle = Point::new(room + printing.sheet().0 * 0.9, room + 40.0);
    assert_eq!(scene.pick(middle).map(|p| p.0), Some(Tag::Face(Face { side: Side::A, row: 0, column: 2 })));
    if let Some(path) = std::env::var_os("BACKMARK_PICTURE") {
        std::fs::write(path, svg::paint(&scene, "sheet", &|_| None)).unwrap();
    }
}
