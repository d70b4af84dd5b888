//! The pointer on the bench: take the corner and fold, point at a crease or a page, or tilt the view.

use super::hands::Hands;
use crate::fold::{Crease, Face};
use crate::scene::Tag;
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
            Doing::Pressed(x, y) if (at - Point::new(x, y)).hypot() < DRAG => "default",
            Doing::Pressed(x, y) | Doing::Tilting(x, y) => {
                self.0.pointer.set(Doing::Tilting(at.x, at.y));
                self.tilt((at.x - x) * -0.35, (at.y - y) * 0.35);
                "move"
            }
        }
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
