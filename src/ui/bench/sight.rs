//! How the sheet is seen: the fit to the room, turning and tilting, and the sheet turned over and round in the hands.

use super::hands::Hands;
use super::motion::Glide;
use crate::fold::Lay;
use crate::scene::{Turned, View};
use crate::ui::browser::media;
use kurbo::{Point, Rect};
use std::cell::{Cell, RefCell};

/// How the sheet is seen.
pub(super) struct Sight {
    pub(super) turn: Cell<f64>,
    pub(super) eye: Cell<f64>,
    lay: Cell<Lay>,
    ease: Cell<Option<Ease>>,
    /// Scale and middle for each whole step.
    fits: RefCell<Vec<Option<(f64, Point)>>>,
}

impl Default for Sight {
    fn default() -> Self {
        let View { turn, eye, .. } = View::OPENING;
        Self {
            turn: Cell::new(turn),
            eye: Cell::new(eye),
            lay: Cell::default(),
            ease: Cell::default(),
            fits: RefCell::default(),
        }
    }
}

/// From how it was seen to how it is to be seen.
#[derive(Clone, Copy)]
struct Ease {
    from: View,
    /// Degrees that the sheet is turned over and round on the way.
    spin: (f64, f64),
    glide: Glide,
    share: f64,
}

/// Times in ms: the sheet turned over or round, the view fitted to something else.
const SPIN: f64 = 420.0;
const FIT: f64 = 200.0;
/// The largest drawing, px per mm.
const LARGEST: f64 = 1.7;

impl Hands {
    /// How the sheet lies.
    pub fn lay(&self) -> Lay {
        self.0.sight.lay.get()
    }

    /// Lays the sheet another way: it is turned in the hands, as long as one turn leads there.
    pub(super) fn lay_sheet(&self, lay: Lay) {
        let sight = &self.0.sight;
        sight.ease.set(None);
        let from = self.view(self.0.at.get());
        let before = sight.lay.replace(lay);
        self.forget_fits();
        let spin = if lay == before.turned_over() {
            (180.0, 0.0)
        } else if lay == before.turned_round() {
            (0.0, 90.0)
        } else if lay.turned_round() == before {
            (0.0, -90.0)
        } else {
            return;
        };
        self.ease_from(from, spin);
    }

    /// Lets what is seen now pass into what is to be seen, if that changes with `change`.
    pub(super) fn eased(&self, change: impl FnOnce()) {
        let from = self.view(self.0.at.get());
        change();
        self.forget_fits();
        if self.0.sight.ease.get().is_none_or(|ease| ease.spin == (0.0, 0.0)) {
            self.ease_from(from, (0.0, 0.0));
        }
    }

    fn ease_from(&self, from: View, spin: (f64, f64)) {
        let lasts = if spin == (0.0, 0.0) { FIT } else { SPIN };
        let glide = Glide::new(0.0, 1.0, if media::reduced_motion() { 0.0 } else { lasts });
        self.0.sight.ease.set(Some(Ease { from, spin, glide, share: 0.0 }));
        self.ask_frame();
    }

    /// Eases on; says whether there is more to come.
    pub(super) fn ease_on(&self, now: f64) -> bool {
        let Some(mut ease) = self.0.sight.ease.get() else { return false };
        let (share, arrived) = ease.glide.at(now);
        ease.share = share;
        self.0.sight.ease.set((!arrived).then_some(ease));
        !arrived
    }

    pub(super) fn forget_fits(&self) {
        self.0.sight.fits.borrow_mut().clear();
    }

    /// Turns and tilts the view back to how the room opens, and fits it anew; a sheet may be drawn so much `larger` than
    /// usual, px per mm.
    pub fn square_up(&self, larger: f64) {
        self.0.larger.set(larger);
        self.square();
        self.forget_fits();
        self.ask_frame();
    }

    /// Turns and tilts the view back to how the room opens.
    pub(super) fn square(&self) {
        self.0.sight.turn.set(View::OPENING.turn);
        self.0.sight.eye.set(View::OPENING.eye);
        self.0.sight.ease.set(None);
    }

    /// Turns and tilts the view by degrees.
    pub fn tilt(&self, turn: f64, eye: f64) {
        let sight = &self.0.sight;
        sight.turn.set(crate::units::between(sight.turn.get() + turn, -75.0, 75.0));
        sight.eye.set(crate::units::between(sight.eye.get() + eye, -89.0, 89.0));
        self.forget_fits();
        self.ask_frame();
    }

    /// The view at a moment, eased if it is changing.
    pub(super) fn view(&self, at: f64) -> View {
        let to = self.fitted(at);
        let (Some(ease), Some(bench)) = (self.0.sight.ease.get(), self.bench()) else { return to };
        let lay = match ease.spin {
            (0.0, 0.0) => to.lay,
            (over, round) => ease.from.lay.over(over * ease.share).round(round * ease.share),
        };
        // The middle of the packet goes straight from where it was seen to where it will be.
        let middle = bench.middle(at);
        let place = ease.from.project(middle).lerp(to.project(middle), ease.share);
        let scale = ease.from.scale + (to.scale - ease.from.scale) * ease.share;
        let view = View { scale, lay, origin: Point::ORIGIN, ..to };
        View { origin: place - view.project(middle).to_vec2(), ..view }
    }

    /// The view at a moment: each step is fitted to the room, and between two steps the fit is eased.
    fn fitted(&self, at: f64) -> View {
        let sight = &self.0.sight;
        let angles = View { turn: sight.turn.get(), eye: sight.eye.get(), ..View::OPENING };
        let Some(bench) = self.bench() else { return angles };
        let size = self.canvas_size();
        let pad = if size.0 < 500.0 { 18.0 } else { 34.0 };
        let room = Rect::new(pad, pad, (size.0 - pad).max(pad + 20.0), (size.1 - pad).max(pad + 20.0));
        // However the sheet lies, the section is turned to its reader.
        let offered = (bench.rule.folds + 1) as f64;
        let lies = |at: f64| {
            let share = if bench.rule.leaves > 0 { crate::units::between(offered + 1.0 - at, 0.0, 1.0) } else { 1.0 };
            View { lay: Turned::of(sight.lay.get(), share), ..angles }
        };
        let fit = |step: usize| {
            if let Some(Some(known)) = sight.fits.borrow().get(step) {
                return *known;
            }
            let r = bench.extent(step as f64, &lies(step as f64), &self.shown());
            let scale = (room.width() / r.width().max(1.0))
                .min(room.height() / r.height().max(1.0))
                .min(LARGEST + self.0.larger.get());
            let known = (scale, r.center());
            let mut fits = sight.fits.borrow_mut();
            if fits.len() <= step {
                fits.resize(step + 1, None);
            }
            if let Some(slot) = fits.get_mut(step) {
                *slot = Some(known);
            }
            known
        };
        if let Some((made, seen)) = self.0.trial.borrow().as_ref().map(|t| (t.made, t.seen)) {
            let (scale, middle) = fit(made);
            let narrower = View { scale, origin: room.center() - middle.to_vec2() * scale, ..seen };
            return if scale < seen.scale { narrower } else { seen };
        }
        let step = at.floor().max(0.0) as usize;
        let part = at - at.floor();
        let (scale, middle) = match (fit(step), part) {
            (a, 0.0) => a,
            (a, t) => {
                let b = fit(step + 1);
                // The room for the flap is kept until it comes down.
                let t = ((t - 0.5) * 2.0).max(0.0);
                let t = t * t * (3.0 - 2.0 * t);
                (a.0 + (b.0 - a.0) * t, a.1.lerp(b.1, t))
            }
        };
        View { scale, origin: room.center() - middle.to_vec2() * scale, ..lies(at) }
    }
}
