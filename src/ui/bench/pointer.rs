//! The pointer on the bench: take the corner and fold, point at a crease or a page, or tilt the view.

use super::hands::Hands;
use crate::fold::{Crease, Face, Reads};
use crate::scene::{Stage, Tag};
use kurbo::Point;
use web_sys::PointerEvent;

/// What the pointer is doing.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Doing {
    /// Nothing.
    #[default]
    Nothing,
    /// It is down, and has not moved enough to mean anything.
    Pressed(f64, f64),
    /// It drags the free corner of this fold (from 0).
    Folding(usize),
    /// It tilts the view.
    Tilting(f64, f64),
    /// It turns leaves of the opened section: where it went down, and the moment then.
    Leafing(f64, f64),
}

/// What a press without a drag pointed at.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Pointed {
    /// A face.
    Face(Face),
    /// A crease of the packet, when one's own scheme is made.
    Crease(Crease, u32),
    /// The bare bench.
    Bench,
}

/// Pixels around the ring that count as the ring, and pixels of movement that make a drag.
const TOUCH: f64 = 24.0;
const DRAG: f64 = 5.0;

impl Hands {
    fn on_canvas(&self, e: &PointerEvent) -> Point {
        Point::new(f64::from(e.client_x()), f64::from(e.client_y())) - self.corner()
    }

    /// The fold whose corner is near a point.
    fn near_grip(&self, at: Point) -> Option<usize> {
        let last = self.0.last.borrow();
        let grip = last.as_ref().and_then(|(picture, _)| picture.grip)?;
        ((grip.at - at).hypot() <= TOUCH).then_some(grip.fold)
    }

    /// The pointer went down.
    pub fn press(&self, e: &PointerEvent) {
        let at = self.on_canvas(e);
        if let Some(fold) = self.near_grip(at) {
            self.0.pointer.set(Doing::Folding(fold));
            self.0.holding.set(true);
            self.ask_frame();
        } else if self.on_open_section(at) {
            self.0.pointer.set(Doing::Leafing(at.x, self.0.at.get()));
            self.0.holding.set(true);
        } else {
            self.0.pointer.set(Doing::Pressed(at.x, at.y));
        }
    }

    /// The pointer moved. Returns the name of a cursor.
    pub fn moved(&self, e: &PointerEvent) -> &'static str {
        let at = self.on_canvas(e);
        match self.0.pointer.get() {
            Doing::Nothing => {
                let near = self.near_grip(at).is_some();
                if self.0.over_grip.replace(near) != near {
                    self.ask_frame();
                }
                if near { "grab" } else { "default" }
            }
            Doing::Folding(fold) => {
                self.fold_towards(fold, at);
                "grabbing"
            }
            Doing::Leafing(x, from) => {
                if (at.x - x).abs() >= DRAG {
                    self.leaf_towards(x, from, at);
                }
                "grabbing"
            }
            Doing::Pressed(x, y) if (at - Point::new(x, y)).hypot() < DRAG => "default",
            Doing::Pressed(x, y) | Doing::Tilting(x, y) => {
                self.0.pointer.set(Doing::Tilting(at.x, at.y));
                self.tilt((at.x - x) * -0.35, (at.y - y) * 0.35);
                "move"
            }
        }
    }

    /// Whether a point is on a page of the opened section.
    fn on_open_section(&self, at: Point) -> bool {
        let open = self.bench().is_some_and(|b| matches!(b.rule.stage(self.0.at.get()), Stage::Leaf { .. }));
        let last = self.0.last.borrow();
        open && last.as_ref().is_some_and(|(picture, _)| picture.scene.pick(at).is_some())
    }

    /// Drawing a page across turns its leaf, one leaf for about a page and a half.
    fn leaf_towards(&self, x: f64, from: f64, at: Point) {
        let Some(bench) = self.bench() else { return };
        let page = bench.printing.panel().0.min(bench.printing.panel().1) * self.view(from).scale;
        let turned = (x - at.x) / (1.5 * page).max(1.0);
        let turned = if bench.printing.reads == Reads::LeftToRight { turned } else { -turned };
        let first = (bench.rule.folds + 2) as f64;
        self.hold((from + turned.clamp(-1.0, 1.0)).max(first));
    }

    fn fold_towards(&self, fold: usize, at: Point) {
        let Some(bench) = self.bench() else { return };
        let view = self.view(self.0.at.get());
        let turn = bench.turn_towards(fold, at, &view, &self.shown());
        // Stay a hair below a whole fold while it is held, so that it can be pulled back.
        self.hold(fold as f64 + turn.min(0.999));
    }

    /// The pointer went up. Says what a press without a drag pointed at.
    pub fn lifted(&self, e: &PointerEvent, creases: bool) -> Option<Pointed> {
        let at = self.on_canvas(e);
        match self.0.pointer.replace(Doing::Nothing) {
            Doing::Folding(_) => {
                self.release();
                None
            }
            Doing::Leafing(x, _) if (at.x - x).abs() >= DRAG => {
                self.0.holding.set(false);
                // A leaf does not stand on its edge: it falls to the nearer side.
                self.glide_to(self.0.at.get().round());
                None
            }
            Doing::Leafing(..) => {
                self.0.holding.set(false);
                Some(self.pointed(at, creases))
            }
            Doing::Pressed(..) => Some(self.pointed(at, creases)),
            Doing::Nothing | Doing::Tilting(..) => None,
        }
    }

    fn pointed(&self, at: Point, creases: bool) -> Pointed {
        let last = self.0.last.borrow();
        let Some((picture, view)) = last.as_ref() else { return Pointed::Bench };
        if creases && let Some(bench) = self.bench() {
            let made = self.0.at.get().round() as usize;
            if let Some((crease, after)) = bench.crease_near(made, at, view, 26.0) {
                return Pointed::Crease(crease, after);
            }
        }
        match picture.scene.pick(at) {
            Some((Tag::Face(face), _)) => Pointed::Face(face),
            _ => Pointed::Bench,
        }
    }
}
