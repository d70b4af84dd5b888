//! The thread keeps off every figure but the one it goes to.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test ends at the first surprise")]

use backmark::app::{Action, State, update};
use backmark::fold::{Course, Side, library};
use backmark::scene::thread::{Knots, lay};
use backmark::scene::{Item, PAGE_HEIGHT, PAGE_WIDTH, Scene, Shown, Tag, View, flat_side, page_in_panel};
use kurbo::{Affine, ParamCurve, Point, Rect, Shape, Vec2};

/// Where the figure of a page stands, in page units.
const FIGURE: Point = Point::new(PAGE_WIDTH / 2.0, PAGE_HEIGHT / 2.0 + 4.0);

/// Whether a point lies on the figure of a page: well inside the loop that would be drawn around it.
fn on_figure(page: Affine, p: Point) -> bool {
    if page.determinant().abs() < 0.02 {
        return false;
    }
    let q = page.inverse() * p - FIGURE;
    (q.x / 48.0).powi(2) + (q.y / 36.0).powi(2) < 1.0
}

/// Every page of every scheme up to thirty-two pages is followed at every whole step, in the places that a wide and
/// a narrow window give: the thread crosses no other figure, on the bench or on the flat side.
#[test]
fn it_crosses_no_other_figure() {
    for named in library().into_iter().filter(|n| n.scheme.pages() <= 32) {
        let state = update(&State::default(), Action::Take(Course::of_scheme(&named.scheme))).0;
        let bench = state.bench().unwrap();
        let landing = bench.printing.landing.clone().unwrap();
        for narrow in [false, true] {
            for (page, step) in landing.pages.iter().flat_map(|p| (0..=bench.rule.folds).map(move |s| (p, s))) {
                let shown = Shown { leaf: 3.2, crease: None };
                let free = View { scale: 1.0, origin: Point::ORIGIN, ..View::OPENING };
                let extent = bench.extent(step as f64, &free, &shown);
                let (middle, room) = if narrow { ((180.0, 250.0), 330.0) } else { ((540.0, 340.0), 600.0) };
                let scale = room / extent.width().max(extent.height()) * if narrow { 0.7 } else { 0.75 };
                let origin = Point::from(middle) - extent.center().to_vec2() * scale;
                let scene = bench.scene(step as f64, &View { scale, origin, ..View::OPENING }, &shown).scene;

                let flat = flat_side(&bench.printing, page.face.side, false);
                let width = if narrow { 165.0 } else { 320.0 };
                let k = width / flat.size.0;
                let at = match (narrow, page.face.side) {
                    (true, Side::A) => (16.0, 430.0),
                    (true, Side::B) => (193.0, 430.0),
                    (false, Side::A) => (930.0, 104.0),
                    (false, Side::B) => (930.0, 369.0),
                };
                let rect = Rect::from_origin_size(at, (width, flat.size.1 * k));
                let onto = Affine::translate(at) * Affine::scale(k);
                let gutter = match (narrow, page.face.side) {
                    (true, Side::A) => rect.x1 + 6.0,
                    (true, Side::B) => rect.x0 - 6.0,
                    (false, _) => rect.x0 - 16.0,
                };
                let panel = bench.printing.panel();
                let upright =
                    |face| page_in_panel(panel.0, panel.1, bench.printing.figure(&face).unwrap().head.unwrap());
                let place = |scene: &Scene, tag| scene.group(tag).map(|g| g.place);
                let tag = Tag::Face(page.face);
                let slip = if narrow {
                    (Point::new(24.0, 110.0), Vec2::new(0.0, 1.0))
                } else {
                    (Point::new(168.0, 120.0), Vec2::new(1.0, 0.0))
                };
                let knots = Knots {
                    slip: Some(slip),
                    page: place(&scene, tag).map(|p| p * upright(page.face)),
                    middle: Point::from(middle),
                    cell: place(&flat, tag).map(|p| onto * p * upright(page.face)),
                    flat: rect,
                    gutter,
                };
                let thread = lay(&knots, &scene);
                let points: Vec<Point> = thread
                    .strands
                    .segments()
                    .flat_map(|s| (0..=20).map(move |i| s.eval(f64::from(i) / 20.0)))
                    .collect();
                assert!(!points.is_empty() && thread.strands.bounding_box().is_finite());
                for (pictures, onto) in [(&scene, Affine::IDENTITY), (&flat, onto)] {
                    for item in &pictures.items {
                        let Item::Group(g) = item else { continue };
                        let Some(Tag::Face(face)) = g.tag.filter(|t| *t != tag) else { continue };
                        let other = onto * g.place * upright(face);
                        let crossed = points.iter().find(|p| on_figure(other, **p));
                        assert!(
                            crossed.is_none(),
                            "{}: page {}, step {step}, narrow {narrow}: {crossed:?} on {face:?}",
                            named.name,
                            page.page
                        );
                    }
                }
            }
        }
    }
}
