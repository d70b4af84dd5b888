//! The pointer on the bench: take the paper and fold, point at a crease or a page, turn the sheet or tilt the view.

use super::hands::Hands;
use super::take::Grab;
use crate::app::Action;
use crate::fold::{Crease, Face, Reads};
use crate::scene::{Held, Stage, Tag};
use kurbo::{Point, Vec2};
use web_sys::PointerEvent;

/// What the pointer is doing.
#[derive(Clone, Copy, Default, PartialEq)]
pub(super) enum Doing {
    /// Nothing.
    #[default]
    Nothing,
    /// It is down, and has not moved enough to mean anything.
    Pressed(f64, f64),
    /// It drags this place of a part on its way; from the place to the pointer.
    Folding(Held, Vec2),
    /// It has taken the packet at an edge or corner.
    Taking(Grab),
    /// It tilts the view.
    Tilting(f64, f64),
    /// It turns leaves of the opened section: where it went down, and the moment then.
    Leafing(f64, f64),
    /// Two fingers twist the sheet: the angle they began with.
    Twisting(f64),
}

/// The fingers that are down, and the last tap.
#[derive(Default)]
pub(super) struct Fingers {
    down: Vec<(i32, Point)>,
    tapped: (f64, Point),
}

impl Fingers {
    fn angle(&self) -> f64 {
        match self.down.as_slice() {
            [(_, a), (_, b), ..] => (*b - *a).atan2(),
            _ => 0.0,
        }
    }
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

/// Pixels around a ring or an edge that belong to it, for a mouse and for a finger; pixels that make a drag.
const MOUSE: f64 = 24.0;
const FINGER: f64 = 44.0;
const DRAG: f64 = 5.0;
/// Two taps within this time (ms) turn the sheet over.
const TWICE: f64 = 350.0;
/// The twist of two fingers that turns the sheet a quarter round, radians (30 degrees).
const TWIST: f64 = std::f64::consts::PI / 6.0;

fn reach(e: &PointerEvent) -> f64 {
    if e.pointer_type() == "touch" { FINGER } else { MOUSE }
}

impl Hands {
    fn on_canvas(&self, e: &PointerEvent) -> Point {
        Point::new(f64::from(e.client_x()), f64::from(e.client_y())) - self.corner()
    }

    /// The fold whose corner is near a point.
    fn near_grip(&self, at: Point) -> Option<usize> {
        let last = self.0.last.borrow();
        let grip = last.as_ref().and_then(|(picture, _)| picture.grip)?;
        ((grip.at - at).hypot() <= MOUSE).then_some(grip.fold)
    }

    /// The place of a part that is on its way, or of the ring, that can be taken at a point.
    fn part_near(&self, at: Point, reach: f64) -> Option<Held> {
        let bench = self.bench()?;
        let view = self.0.last.borrow().as_ref()?.1;
        if let Some(fold) = self.near_grip(at) {
            return bench.corner(fold, &view);
        }
        match bench.rule.stage(self.0.at.get()) {
            Stage::Fold { made, turn } if turn > 0.0 => {
                bench.moving_edge_near(made, turn, at, &view, &self.shown(), reach)
            }
            _ => None,
        }
    }

    /// The pointer went down.
    pub fn press(&self, e: &PointerEvent) {
        let at = self.on_canvas(e);
        let fingers = {
            let mut fingers = self.0.fingers.borrow_mut();
            fingers.down.retain(|f| f.0 != e.pointer_id());
            fingers.down.push((e.pointer_id(), at));
            fingers.down.len()
        };
        if fingers > 1 {
            return self.second_finger();
        }
        self.finish();
        self.0.choosing.set(None);
        self.0.hover.set(None);
        self.0.began.set(self.0.at.get());
        let doing = if let Some(held) = self.part_near(at, reach(e)) {
            let view = self.view(self.0.at.get());
            let turn = self.0.at.get() - held.fold as f64;
            let place = self.bench().and_then(|b| b.held_at(&held, turn, &view, &self.shown()));
            self.0.place.set(Some(held));
            self.0.holding.set(true);
            Doing::Folding(held, place.map_or(Vec2::ZERO, |p| at - p))
        } else if self.on_open_section(at) {
            self.0.holding.set(true);
            Doing::Leafing(at.x, self.0.at.get())
        } else if let Some(grab) = self.edge_near(at, reach(e)) {
            Doing::Taking(grab)
        } else {
            Doing::Pressed(at.x, at.y)
        };
        self.0.pointer.set(doing);
        self.ask_frame();
    }

    /// A second finger turns a part that is dragged the other way; else the two twist the sheet.
    fn second_finger(&self) {
        let doing = match self.0.pointer.get() {
            Doing::Taking(grab) if grab.moved => Doing::Taking(Grab { other: !grab.other, ..grab }),
            doing => {
                if matches!(doing, Doing::Folding(..) | Doing::Leafing(..)) {
                    self.let_go();
                }
                Doing::Twisting(self.0.fingers.borrow().angle())
            }
        };
        self.0.pointer.set(doing);
    }

    /// The pointer moved. Returns the name of a cursor.
    pub fn moved(&self, e: &PointerEvent) -> &'static str {
        let at = self.on_canvas(e);
        let first = {
            let mut fingers = self.0.fingers.borrow_mut();
            let mine = fingers.down.iter().position(|f| f.0 == e.pointer_id());
            if let Some(finger) = mine.and_then(|i| fingers.down.get_mut(i)) {
                finger.1 = at;
            }
            mine.unwrap_or(0) == 0
        };
        match self.0.pointer.get() {
            Doing::Twisting(from) => {
                self.twist(from);
                "grabbing"
            }
            _ if !first => "grabbing",
            Doing::Nothing => self.hovers(e, at),
            Doing::Folding(held, off) => {
                self.fold_towards(&held, at - off);
                "grabbing"
            }
            Doing::Taking(grab) => {
                let moved = grab.moved || (at - grab.from).hypot() >= DRAG;
                if moved {
                    self.0.pointer.set(Doing::Taking(Grab { moved, ..grab }));
                    self.take_towards(grab, at, e.shift_key() || e.alt_key());
                }
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

    /// Nothing is down: what could be taken here is marked.
    fn hovers(&self, e: &PointerEvent, at: Point) -> &'static str {
        let near = self.near_grip(at).is_some();
        let edge = if near || e.pointer_type() == "touch" { None } else { self.hold_near(at, MOUSE) };
        let part = !near && edge.is_none() && self.part_near(at, MOUSE).is_some();
        if self.0.over_grip.replace(near) != near || self.0.hover.replace(edge) != edge {
            self.ask_frame();
        }
        match (near, edge.is_some() || part) {
            (true, _) => "grab",
            (_, true) => "pointer",
            _ => "default",
        }
    }

    /// The pointer has left the bench.
    pub fn left(&self) {
        if self.0.hover.replace(None).is_some() {
            self.ask_frame();
        }
    }

    /// Two fingers turn the sheet a quarter round, once.
    fn twist(&self, from: f64) {
        use std::f64::consts::{PI, TAU};
        let by = (self.0.fingers.borrow().angle() - from + PI).rem_euclid(TAU) - PI;
        if by.abs() > TWIST {
            let round = self.lay().turned_round();
            let lay = if by > 0.0 { round } else { round.turned_round().turned_round() };
            // Spent until both are lifted.
            self.0.pointer.set(Doing::Twisting(f64::NAN));
            self.emit(Action::Lay(lay));
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
        self.hold((from + crate::units::between(turned, -1.0, 1.0)).max(first));
    }

    fn fold_towards(&self, held: &Held, at: Point) {
        let Some(bench) = self.bench() else { return };
        let view = self.view(self.0.at.get());
        let turn = bench.turn_held(held, at, &view, &self.shown());
        // Stay a hair below a whole fold while it is held, so that it can be pulled back.
        self.hold(held.fold as f64 + turn.min(0.999));
    }

    /// The pointer went up. Says what a press without a drag pointed at.
    pub fn lifted(&self, e: &PointerEvent, creases: bool) -> Option<Pointed> {
        let at = self.on_canvas(e);
        let left = {
            let mut fingers = self.0.fingers.borrow_mut();
            fingers.down.retain(|f| f.0 != e.pointer_id());
            fingers.down.len()
        };
        let doing = self.0.pointer.get();
        if left > 0 {
            return None;
        }
        self.0.pointer.set(Doing::Nothing);
        match doing {
            Doing::Folding(..) => self.let_go(),
            Doing::Taking(grab) if grab.moved => self.let_go(),
            Doing::Leafing(x, _) if (at.x - x).abs() >= DRAG => {
                self.0.holding.set(false);
                // A leaf does not stand on its edge: it falls to the nearer side.
                self.glide_to(self.0.at.get().round());
            }
            Doing::Leafing(..) | Doing::Taking(_) | Doing::Pressed(..) => {
                self.0.holding.set(false);
                let pointed = self.pointed(at, creases);
                self.tapped(e.time_stamp(), at, pointed != Pointed::Bench);
                return Some(pointed);
            }
            Doing::Nothing | Doing::Tilting(..) | Doing::Twisting(_) => {}
        }
        None
    }

    /// Two taps on the paper turn it over.
    fn tapped(&self, now: f64, at: Point, on_paper: bool) {
        let (before, place) = std::mem::replace(&mut self.0.fingers.borrow_mut().tapped, (now, at));
        if on_paper && now - before < TWICE && (place - at).hypot() < MOUSE && self.can_lay() {
            self.0.fingers.borrow_mut().tapped.0 = 0.0;
            self.emit(Action::Lay(self.lay().turned_over()));
        }
    }

    /// Whether the sheet can be laid another way: not once the section was turned to its reader.
    pub fn can_lay(&self) -> bool {
        self.bench().is_some_and(|b| !matches!(b.rule.stage(self.0.at.get()), Stage::Offer { .. } | Stage::Leaf { .. }))
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
