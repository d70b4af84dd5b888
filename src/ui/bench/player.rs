//! Two sheets that fold in step: their canvases, the moment, and the frame loop. They are shown, not held.

use super::mate::matching;
use crate::scene::{Bench, Shown, View};
use crate::ui::browser::canvas::Canvas;
use crate::ui::browser::media::{self, SizeWatch};
use crate::ui::shared::Shared;
use gloo_render::{AnimationFrame, request_animation_frame};
use kurbo::{Point, Rect};
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use web_sys::HtmlCanvasElement;
use yew::Callback;

/// Times in ms: a step, and the rest before the next one.
const STEP: f64 = 480.0;
const REST: f64 = 160.0;
/// The largest drawing, px per mm, and the room left around it.
const LARGEST: f64 = 1.7;
const PAD: f64 = 12.0;

/// A handle that can be shared; all clones play the same pair.
#[derive(Clone, Default)]
pub struct Player(Rc<Inner>);

#[derive(Default)]
struct Inner {
    sides: [Side; 2],
    /// Whether the one with fewer folds waits for the other before it is opened.
    waits: Cell<bool>,
    at: Cell<f64>,
    play: Cell<Option<Play>>,
    frame: RefCell<Option<AnimationFrame>>,
    told: Cell<Option<u32>>,
    tell: RefCell<Callback<u32>>,
}

#[derive(Clone, Copy)]
struct Play {
    from: f64,
    to: f64,
    begun: Option<f64>,
}

#[derive(Default)]
struct Side {
    bench: RefCell<Option<Shared<Bench>>>,
    canvas: RefCell<Option<Canvas>>,
    watch: RefCell<Option<SizeWatch>>,
    /// How every whole step fits its room: scale and middle.
    fits: RefCell<Vec<Option<(f64, Point)>>>,
}

impl Player {
    /// Takes the canvases, the right way's first, or lets them go.
    pub fn take(&self, canvases: [Option<HtmlCanvasElement>; 2]) {
        for (which, (side, element)) in self.0.sides.iter().zip(canvases).enumerate() {
            let player = Rc::downgrade(&self.0);
            let watch = element.as_ref().and_then(|e| {
                SizeWatch::of(e, move || {
                    if let Some(inner) = player.upgrade() {
                        Player(inner).refit(which);
                    }
                })
            });
            *side.watch.borrow_mut() = watch;
            *side.canvas.borrow_mut() = element.and_then(Canvas::of);
        }
    }

    /// Sets whom to tell which whole step is being made, or was made last.
    pub fn tell(&self, callback: Callback<u32>) {
        *self.0.tell.borrow_mut() = callback;
    }

    /// Puts two sheets down. If one `waits`, moments are those of the sheet with more folds, and both are opened together.
    pub fn put(&self, benches: [Option<Shared<Bench>>; 2], waits: bool) {
        self.0.waits.set(waits);
        for (side, bench) in self.0.sides.iter().zip(benches) {
            *side.bench.borrow_mut() = bench;
            side.fits.borrow_mut().clear();
        }
        self.ask_frame();
    }

    /// Folds both from the flat sheet to a moment. With reduced motion they lie there at once.
    pub fn play(&self, to: u32) {
        self.0.at.set(0.0);
        self.go(f64::from(to));
    }

    /// One step on (1) or back (-1), up to `end`.
    pub fn step(&self, by: i32, end: u32) {
        let at = self.0.at.get();
        let to = if by > 0 { (at + 1e-6).floor() + 1.0 } else { (at - 1e-6).ceil() - 1.0 };
        self.go(crate::units::between(to, 0.0, f64::from(end)));
    }

    fn go(&self, to: f64) {
        if media::reduced_motion() {
            self.0.play.set(None);
            self.0.at.set(to);
        } else {
            self.0.play.set(Some(Play { from: self.0.at.get(), to, begun: None }));
        }
        self.ask_frame();
    }

    /// The colours or the room for the canvases changed.
    pub fn refit_all(&self) {
        self.refit(0);
        self.refit(1);
    }

    fn refit(&self, which: usize) {
        let Some(side) = self.0.sides.get(which) else { return };
        if let Some(canvas) = side.canvas.borrow_mut().as_mut() {
            canvas.fit();
        }
        side.fits.borrow_mut().clear();
        side.paint(self.at_of(side));
    }

    /// The moment of one of both.
    fn at_of(&self, side: &Side) -> f64 {
        let at = self.0.at.get();
        let rule = |side: &Side| side.bench.borrow().as_ref().map(|b| b.rule);
        let lead = self.0.sides.iter().filter_map(rule).max_by_key(|rule| rule.folds);
        match (lead, rule(side)) {
            (Some(lead), Some(own)) if self.0.waits.get() => matching(lead, own, at),
            _ => at,
        }
    }

    fn ask_frame(&self) {
        if self.0.frame.borrow().is_some() {
            return;
        }
        let player = self.clone();
        let frame = request_animation_frame(move |now| {
            let done = player.0.frame.borrow_mut().take();
            player.frame(now);
            drop(done);
        });
        *self.0.frame.borrow_mut() = Some(frame);
    }

    fn frame(&self, now: f64) {
        if let Some(mut play) = self.0.play.get() {
            let begun = *play.begun.get_or_insert(now);
            let (at, arrived) = play.at(now - begun);
            self.0.at.set(at);
            self.0.play.set((!arrived).then_some(play));
        }
        let at = self.0.at.get();
        for side in &self.0.sides {
            side.paint(self.at_of(side));
        }
        let whole = at.ceil() as u32;
        if self.0.told.replace(Some(whole)) != Some(whole) {
            let tell = self.0.tell.borrow().clone();
            tell.emit(whole);
        }
        if self.0.play.get().is_some() {
            self.ask_frame();
        }
    }
}

impl Play {
    /// Where it is after so many ms, and whether it has arrived.
    fn at(&self, after: f64) -> (f64, bool) {
        let way = self.to - self.from;
        let made = (after / (STEP + REST)).floor();
        let part = crate::units::between((after - made * (STEP + REST)) / STEP, 0.0, 1.0);
        let gone = made + part * part * (3.0 - 2.0 * part);
        if gone >= way.abs() { (self.to, true) } else { (self.from + way.signum() * gone, false) }
    }
}

impl Side {
    fn paint(&self, at: f64) {
        let (bench, canvas) = (self.bench.borrow(), self.canvas.borrow());
        let (Some(bench), Some(canvas)) = (bench.as_ref(), canvas.as_ref()) else { return };
        if canvas.size.0 < 1.0 {
            return;
        }
        let at = bench.rule.clamp(at);
        let shown = Shown { leaf: 3.2, ..Shown::default() };
        let view = self.view(bench, canvas.size, at, &shown);
        canvas.paint(&bench.scene(at, &view, &shown).scene);
    }

    /// Each step is fitted to the room, and between two steps the fit is eased.
    fn view(&self, bench: &Bench, size: (f64, f64), at: f64, shown: &Shown) -> View {
        let room = Rect::new(PAD, PAD, (size.0 - PAD).max(PAD + 20.0), (size.1 - PAD).max(PAD + 20.0));
        let angles = View { scale: 1.0, origin: Point::ORIGIN, ..View::OPENING };
        let fit = |step: usize| {
            if let Some(Some(known)) = self.fits.borrow().get(step) {
                return *known;
            }
            let r = bench.extent(step as f64, &angles, shown);
            let scale = (room.width() / r.width().max(1.0)).min(room.height() / r.height().max(1.0)).min(LARGEST);
            let known = (scale, r.center());
            let mut fits = self.fits.borrow_mut();
            if fits.len() <= step {
                fits.resize(step + 1, None);
            }
            if let Some(slot) = fits.get_mut(step) {
                *slot = Some(known);
            }
            known
        };
        let (step, part) = (at.floor().max(0.0) as usize, at - at.floor());
        let (scale, middle) = match fit(step) {
            here if part == 0.0 => here,
            here => {
                let next = fit(step + 1);
                let part = ((part - 0.5) * 2.0).max(0.0);
                let part = part * part * (3.0 - 2.0 * part);
                (here.0 + (next.0 - here.0) * part, here.1.lerp(next.1, part))
            }
        };
        View { scale, origin: room.center() - middle.to_vec2() * scale, ..View::OPENING }
    }
}
