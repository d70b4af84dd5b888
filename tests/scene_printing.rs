//! A sheet may be printed otherwise than it will be folded: any page or none on every face, and some of them marked.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test ends at the first surprise")]

use backmark::fold::{Direction, Face, Landing, Side, library};
use backmark::scene::{Bench, Figure, Group, Ink, Item, Printing, flat_side, svg};
use kurbo::{Affine, Point, Rect, Shape};

fn sixteen() -> Printing {
    let scheme = library().into_iter().find(|n| n.name == "Sixteen, three folds").unwrap().scheme;
    Printing::landed(Landing::of(&scheme).unwrap(), 16)
}

const CORNER: Face = Face { side: Side::A, row: 1, column: 0 };

fn texts(items: &[Item]) -> Vec<String> {
    let text = |item: &Item| match item {
        Item::Figure { text, .. } | Item::Words { text, .. } => vec![text.clone()],
        Item::Group(Group { items, .. }) => texts(items),
        Item::Path { .. } => Vec::new(),
    };
    items.iter().flat_map(text).collect()
}

/// The ink on a face, apart from figures.
fn inked(items: &[Item]) -> Vec<Rect> {
    let boxed = |item: &Item| match item {
        Item::Path { path, fill: Some(Ink::Black), .. } => Some(path.bounding_box()),
        _ => None,
    };
    items.iter().filter_map(boxed).collect()
}

#[test]
fn a_landing_is_printed_page_for_page() {
    for named in library() {
        let landing = Landing::of(&named.scheme).unwrap();
        let printing = Printing::landed(landing.clone(), 5);
        assert_eq!(printing.sideways, named.scheme.head.is_sideways());
        assert_eq!(printing.faces().count(), landing.pages.len());
        for (i, face) in printing.faces().enumerate() {
            assert_eq!(printing.index(&face), i);
            let at = landing.page(landing.page_on(&face).unwrap()).unwrap();
            assert_eq!(printing.figure(&face), Some(Figure { page: at.page + 5, head: Some(at.head) }));
        }
    }
}

#[test]
fn any_page_may_stand_anywhere_or_none() {
    let other = Figure { page: 777, head: Some(Direction::Left) };
    let printing = sixteen().printed(&CORNER, Some(other));
    assert_eq!(printing.figure(&CORNER), Some(other));
    assert_eq!(texts(&printing.items(&CORNER)), ["777"]);
    let blank = printing.clone().printed(&CORNER, None);
    assert_eq!(blank.figure(&CORNER), None);
    // The lay corner stays.
    assert_eq!(inked(&blank.items(&CORNER)).len(), 1);
    let typed = Printing::blank(2, 4).printed(&CORNER, Some(other));
    assert_eq!(typed.faces().filter_map(|f| typed.figure(&f)).collect::<Vec<_>>(), [other]);
    let drawn = flat_side(&typed, Side::A, false);
    assert_eq!(texts(&drawn.items), ["777"]);
    // Far outside there is nothing to print on.
    for outside in [Face { row: 2, ..CORNER }, Face { column: 4, ..CORNER }, Face { row: 4_000_000, ..CORNER }] {
        assert_eq!(typed.clone().printed(&outside, Some(other)), typed);
        assert_eq!(typed.figure(&outside), None);
    }
}

/// The same figure, upright, in the middle of its panel, and no tick: whatever the panel.
#[test]
fn an_unknown_head_has_no_tick() {
    for sideways in [false, true] {
        let face = Face { side: Side::A, row: 0, column: 1 };
        let sheet = Printing { sideways, ..Printing::blank(2, 4) };
        let items = sheet.clone().printed(&face, Some(Figure { page: 12, head: None })).items(&face);
        assert_eq!(inked(&items).len(), 0);
        let Some(Item::Group(group)) = items.first() else { panic!("{items:?}") };
        let Item::Figure { baseline, .. } = &group.items[0] else { panic!("{group:?}") };
        let (w, _) = sheet.panel();
        assert!(((group.place * *baseline).x - w / 2.0).abs() < 1e-9);
        assert_eq!(group.place.as_coeffs()[..4], Affine::IDENTITY.as_coeffs()[..4]);
        let known = Figure { page: 12, head: Some(Direction::Up) };
        assert_eq!(inked(&sheet.printed(&face, Some(known)).items(&face)).len(), 1);
    }
}

/// The frame of a page that differs lies inside the page, touches neither tick nor figure nor lay corner, is of ink,
/// and is there in words for the style sheet.
#[test]
fn a_differing_page_has_a_frame_of_ink() {
    for (page, head) in [(7, Direction::Up), (28, Direction::Down), (999, Direction::Up), (4096, Direction::Down)] {
        let plain = sixteen().printed(&CORNER, Some(Figure { page, head: Some(head) }));
        let marked = plain.clone().marking(&[CORNER]);
        let (before, after) = (plain.items(&CORNER), marked.items(&CORNER));
        assert_eq!(after.len(), before.len() + 1);
        let Some(Item::Path { path, fill: Some(Ink::Black), line: None }) = after.last() else { panic!("{after:?}") };
        let (w, h) = marked.panel();
        let inside = Rect::new(0.0, 0.0, w, h).inset(-8.999);
        assert_eq!(inside.union(path.bounding_box()), inside);
        for other in &after[..after.len() - 1] {
            match other {
                Item::Path { path: ink, .. } => {
                    let held =
                        ink.segments().flat_map(|s| [0.0, 0.25, 0.5, 0.75].map(|t| kurbo::ParamCurve::eval(&s, t)));
                    assert!(!held.into_iter().any(|p| path.contains(p)), "{page}: something touches the frame");
                }
                Item::Group(g) => {
                    let Item::Figure { text, baseline, size, .. } = &g.items[0] else { panic!("{g:?}") };
                    // Besley's figures are at most 0.66 wide and 0.72 high.
                    let half = text.len() as f64 * 0.66 * size / 2.0;
                    let r = Rect::new(baseline.x - half, baseline.y - 0.72 * size, baseline.x + half, baseline.y);
                    for p in [(r.x0, r.y0), (r.x1, r.y0), (r.x1, r.y1), (r.x0, r.y1)] {
                        let p = g.place * Point::from(p);
                        assert!((16.0..=w - 16.0).contains(&p.x) && (16.0..=h - 16.0).contains(&p.y), "{page}: {p:?}");
                    }
                }
                Item::Figure { .. } | Item::Words { .. } => panic!("a figure has a place of its own"),
            }
        }
    }
    let marked = sixteen().marking(&[CORNER]);
    assert_eq!(marked.faces().filter(|f| marked.is_marked(f)).collect::<Vec<_>>(), [CORNER]);
    assert_eq!(marked.clone().marking(&[]).faces().filter(|f| marked.clone().marking(&[]).is_marked(f)).count(), 0);
    let text = |p: &Printing| svg::paint(&flat_side(p, Side::A, false), "sheet", &|_| None);
    let count = |p: &Printing| text(p).matches("fill-ink").count();
    assert_eq!(count(&marked), count(&sixteen()) + 1);
}

/// A bench shows what is printed, whatever it is folded by.
#[test]
fn the_bench_shows_what_is_printed() {
    let scheme = library().into_iter().find(|n| n.name == "Sixteen, three folds").unwrap().scheme;
    let printing = sixteen().printed(&CORNER, Some(Figure { page: 99, head: None })).marking(&[CORNER]);
    let bench = Bench::new(printing.clone(), &scheme).unwrap();
    assert_eq!(bench.printing.figure(&CORNER).map(|f| f.page), Some(99));
    let shown = backmark::scene::Shown { leaf: 3.2, crease: None };
    let scene = bench.scene(0.0, &backmark::scene::View::OPENING, &shown).scene;
    assert!(texts(&scene.items).contains(&"99".to_string()));
    // A smaller figure fits into the frame.
    let size = |p: &Printing| match p.items(&CORNER).first() {
        Some(Item::Group(g)) => match g.items[0] {
            Item::Figure { size, .. } => size,
            _ => 0.0,
        },
        _ => 0.0,
    };
    assert!(size(&printing) < size(&printing.clone().marking(&[])));
}
