//! Lays the thread over the window: looks up where its ends are on the page, and sets three attributes.

use super::hands::Hands;
use crate::fold::{Direction, Side};
use crate::scene::thread::{Knots, Thread, lay};
use crate::scene::{Scene, Tag, page_in_panel};
use crate::units::short as number;
use gloo_utils::document;
use kurbo::{Affine, Point, Rect, Vec2};
use web_sys::Element;

fn rect(e: &Element) -> Rect {
    let r = e.get_bounding_client_rect();
    Rect::new(r.left(), r.top(), r.right(), r.bottom())
}

impl Hands {
    /// Lays the thread inside an element alone, where several benches are on the page.
    pub fn within(&self, css: &'static str) {
        self.0.within.set(css);
    }

    fn find(&self, css: &str) -> Option<Element> {
        document().query_selector(&format!("{} {css}", self.0.within.get())).ok().flatten()
    }

    /// Lays the thread for the page that is followed, or takes it off.
    pub(super) fn lay_thread(&self) {
        let (thread, on_dark) = self.thread().unwrap_or_default();
        let d = crate::scene::svg::path_data(&thread.strands);
        let circle = |p: &Point| format!("M{} {}m-3 0a3 3 0 1 0 6 0a3 3 0 1 0 -6 0", number(p.x), number(p.y));
        let holes: String = thread.holes.iter().map(circle).collect();
        let laid = (if on_dark { d.clone() } else { String::new() }, d, holes);
        // Most frames change nothing, and to look up an element and set it costs more than to compare.
        if *self.0.laid.borrow() == laid {
            return;
        }
        let mut there = true;
        for (css, d) in [(".thread .casing", &laid.0), (".thread .strand", &laid.1), (".thread .hole", &laid.2)] {
            there &= self.find(css).is_some_and(|path| path.set_attribute("d", d).is_ok());
        }
        if there {
            *self.0.laid.borrow_mut() = laid;
        }
    }

    /// The thread, and whether it lies on paper so dark that it needs a casing to be seen.
    fn thread(&self) -> Option<(Thread, bool)> {
        let (face, place, open) = {
            let setting = self.0.setting.borrow();
            let (face, place) = setting.followed?;
            (face, place, setting.open)
        };
        if !open {
            return None;
        }
        let bench = self.bench()?;
        let panel = bench.printing.panel();
        let crate::scene::Figure { page: number, head } = bench.printing.figure(&face)?;
        let head = head.unwrap_or(if bench.printing.sideways { Direction::Right } else { Direction::Up });
        let corner = self.corner();
        let last = self.0.last.borrow();
        let (picture, _) = last.as_ref()?;
        // The picture in pixels of the window.
        let scene = Scene {
            size: picture.scene.size,
            items: picture
                .scene
                .items
                .iter()
                .filter_map(|item| match item {
                    crate::scene::Item::Group(g) => {
                        let place = Affine::translate(corner) * g.place;
                        Some(crate::scene::Item::Group(crate::scene::Group { place, ..g.clone() }))
                    }
                    _ => None,
                })
                .collect(),
        };
        let upright = page_in_panel(panel.0, panel.1, head);
        let page = scene.group(Tag::Face(face)).map(|g| g.place * upright).filter(|a| a.determinant().abs() > 0.004);
        let middle = middle(&scene);
        let narrow = self.find(".strip").is_some_and(|s| rect(&s).width() > rect(&s).height());
        let slip = self.find(&format!(".strip [data-place=\"{place}\"] .slip-paper")).map(|s| {
            let r = rect(&s);
            if narrow {
                (Point::new(r.center().x, r.y1 - 5.0), Vec2::new(0.0, 1.0))
            } else {
                (Point::new(r.x1 - 14.0, r.center().y), Vec2::new(1.0, 0.0))
            }
        });
        let flat = self.find(if face.side == Side::A { ".flat.side-a svg" } else { ".flat.side-b svg" });
        let cell = self.find(&format!(".flat [data-page=\"{number}\"] .hit")).map(|hit| {
            let r = rect(&hit);
            let scale = if head.is_sideways() { r.height() / panel.1 } else { r.width() / panel.0 };
            let shown = if self.find(".flat.side-b.through").is_some() && face.side == Side::B {
                mirrored_cell(panel, head)
            } else {
                upright
            };
            Affine::translate(r.origin().to_vec2()) * Affine::scale(scale) * shown
        });
        let flat = flat.map_or(Rect::ZERO, |f| paper_rect(&rect(&f), &bench.printing));
        let gutter = match (narrow, face.side) {
            (true, Side::A) => flat.x1 + 6.0,
            (true, Side::B) => flat.x0 - 6.0,
            (false, _) => flat.x0 - 16.0,
        };
        let ground = scene.group(Tag::Face(face)).and_then(|g| g.ground);
        let on_dark = ground.is_some_and(|g| g.tone >= if g.side == Side::A { 2 } else { 1 });
        Some((lay(&Knots { slip, page, middle, cell, flat, gutter }, &scene), on_dark))
    }
}

/// A cell seen through the paper: the loop is drawn on the mirrored page.
fn mirrored_cell(panel: (f64, f64), head: Direction) -> Affine {
    Affine::new([-1.0, 0.0, 0.0, 1.0, panel.0, 0.0]) * page_in_panel(panel.0, panel.1, head)
}

/// The paper inside its SVG element, which is scaled to fit and centred.
fn paper_rect(r: &Rect, printing: &crate::scene::Printing) -> Rect {
    let (pw, ph) = printing.panel();
    let (w, h) = (pw * f64::from(printing.columns), ph * f64::from(printing.rows));
    let scale = (r.width() / w).min(r.height() / h);
    Rect::from_center_size(r.center(), (w * scale, h * scale))
}

fn middle(scene: &Scene) -> Point {
    let mut all: Option<Rect> = None;
    for item in &scene.items {
        if let crate::scene::Item::Group(g) = item {
            let r = g.place.transform_rect_bbox(Rect::new(0.0, 0.0, g.size.0, g.size.1));
            all = Some(all.map_or(r, |a| a.union(r)));
        }
    }
    all.map_or(Point::ORIGIN, |r| r.center())
}
