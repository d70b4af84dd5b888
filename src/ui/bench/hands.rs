//! Who holds the sheet: the live moment, the view, and the frame loop.

use super::motion::Glide;
use super::rule::RuleShape;
use crate::scene::{Bench, BenchScene, Grip, Ink, Item, Line, Scene, Shown, View, ring};
use crate::ui::browser::canvas::Canvas;
use crate::ui::browser::media::{self, SizeWatch};
use crate::ui::shared::Shared;
use crate::units::short as number;
use gloo_render::{AnimationFrame, request_animation_frame};
use kurbo::{Point, Rect, Vec2};
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use web_sys::{HtmlCanvasElement, HtmlInputElement, SvgElement};
use yew::{Callback, NodeRef};

/// What the bench is set to by the program: changes by whole steps.
#[derive(Clone, Debug, Default)]
pub struct Setting {
    /// The sheet.
    pub bench: Option<Shared<Bench>>,
    /// The face that is followed, and the place of its section in the stack.
    pub followed: Option<(crate::fold::Face, u32)>,
    /// A crease that is being considered.
    pub crease: Option<(crate::fold::Crease, u32)>,
    /// Whether the room with the bench is open.
    pub open: bool,
}

/// A handle that can be shared; all clones hold the same sheet.
#[derive(Clone, Default)]
pub struct Hands(pub(super) Rc<Held>);

impl PartialEq for Hands {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.0, &other.0)
    }
}

/// Everything that moves. Each cell is borrowed for the length of one statement.
pub(super) struct Held {
    pub(super) setting: RefCell<Setting>,
    canvas: RefCell<Option<Canvas>>,
    watch: RefCell<Option<SizeWatch>>,
    rule: RefCell<Option<(NodeRef, NodeRef, RuleShape)>>,
    pub(super) at: Cell<f64>,
    glide: Cell<Option<Glide>>,
    eye_glide: Cell<Option<Glide>>,
    pub(super) turn: Cell<f64>,
    pub(super) eye: Cell<f64>,
    pub(super) holding: Cell<bool>,
    pub(super) over_grip: Cell<bool>,
    frame: RefCell<Option<AnimationFrame>>,
    fits: RefCell<Vec<Option<(f64, Point)>>>,
    pub(super) last: RefCell<Option<(BenchScene, View)>>,
    /// The thread as it was laid last: casing, strand and holes.
    pub(super) laid: RefCell<(String, String, String)>,
    told: Cell<(f64, bool)>,
    tell: RefCell<Callback<f64>>,
    pub(super) pointer: Cell<super::pointer::Doing>,
}

impl Default for Held {
    fn default() -> Self {
        Self {
            setting: RefCell::default(),
            canvas: RefCell::default(),
            watch: RefCell::default(),
            rule: RefCell::default(),
            at: Cell::new(0.0),
            glide: Cell::new(None),
            eye_glide: Cell::new(None),
            turn: Cell::new(View::OPENING.turn),
            eye: Cell::new(View::OPENING.eye),
            holding: Cell::new(false),
            over_grip: Cell::new(false),
            frame: RefCell::default(),
            fits: RefCell::default(),
            last: RefCell::default(),
            laid: RefCell::default(),
            told: Cell::new((0.0, false)),
            tell: RefCell::default(),
            pointer: Cell::default(),
        }
    }
}

/// Times in ms: a fold step, a release that settles, a look from beneath.
const STEP: f64 = 420.0;
const SETTLE: f64 = 180.0;
const BENEATH: f64 = 320.0;
/// A release settles to an end only within this share of the half turn (12 degrees).
const NEAR_END: f64 = 12.0 / 180.0;
/// The largest drawing, px per mm.
const LARGEST: f64 = 1.7;

impl Hands {
    /// Takes the canvas.
    pub fn take_canvas(&self, element: Option<HtmlCanvasElement>) {
        let hands = self.clone();
        // Its room changes with the window, and with what stands around it.
        let watch = element.as_ref().and_then(|e| SizeWatch::of(e, move || hands.refit()));
        *self.0.watch.borrow_mut() = watch;
        *self.0.canvas.borrow_mut() = element.and_then(Canvas::of);
        self.refit();
    }

    /// Takes the moving parts of the rule.
    pub fn take_rule(&self, bone: NodeRef, input: NodeRef, shape: RuleShape) {
        *self.0.rule.borrow_mut() = Some((bone, input, shape));
        self.ask_frame();
    }

    /// Sets whom to tell about the moment.
    pub fn tell(&self, callback: Callback<f64>) {
        *self.0.tell.borrow_mut() = callback;
    }

    /// Puts something else on the bench, or changes what is marked on it.
    pub fn put(&self, setting: Setting) {
        let same = {
            let old = self.0.setting.borrow();
            match (&old.bench, &setting.bench) {
                (Some(a), Some(b)) => a == b,
                (None, None) => true,
                _ => false,
            }
        };
        let before = self.bench();
        *self.0.setting.borrow_mut() = setting;
        if !same {
            if self.sheet_differs(&before) {
                self.square();
            }
            self.0.fits.borrow_mut().clear();
            self.0.at.set(self.clamp(self.0.at.get()));
        }
        self.ask_frame();
    }

    /// Whether another sheet lies on the bench than before, and not only another section of the same.
    fn sheet_differs(&self, before: &Option<Shared<Bench>>) -> bool {
        let shape = |b: &Shared<Bench>| (b.folding.rows, b.folding.columns);
        before.as_ref().map(shape) != self.bench().as_ref().map(shape)
    }

    /// Turns and tilts the view back to how the room opens, above or beneath as it is.
    fn square(&self) {
        self.0.turn.set(View::OPENING.turn);
        let eye = if self.0.eye.get() < 0.0 { -View::OPENING.eye } else { View::OPENING.eye };
        self.0.eye.set(eye);
        self.0.eye_glide.set(None);
    }

    /// The room for the canvas changed.
    pub fn refit(&self) {
        if let Some(canvas) = self.0.canvas.borrow_mut().as_mut() {
            canvas.fit();
        }
        self.0.fits.borrow_mut().clear();
        // At once, since a canvas is blank after it was fitted.
        if self.0.setting.borrow().open {
            self.paint();
        }
        self.ask_frame();
    }

    pub(super) fn bench(&self) -> Option<Shared<Bench>> {
        self.0.setting.borrow().bench.clone()
    }

    fn clamp(&self, at: f64) -> f64 {
        let at = if at == f64::INFINITY { f64::MAX } else { at };
        self.bench().map_or(0.0, |b| b.rule.clamp(at))
    }

    /// Goes to a moment at once.
    pub fn set(&self, at: f64) {
        self.0.glide.set(None);
        self.0.at.set(self.clamp(at));
        self.ask_frame();
    }

    /// Glides to a moment. With reduced motion it jumps.
    pub fn glide_to(&self, to: f64) {
        let to = self.clamp(to);
        let steps = (to - self.0.at.get()).abs().ceil().max(1.0);
        self.glide(to, STEP * steps.min(4.0));
    }

    fn glide(&self, to: f64, lasts: f64) {
        let lasts = if media::reduced_motion() { 0.0 } else { lasts };
        self.0.glide.set(Some(Glide::new(self.0.at.get(), self.clamp(to), lasts)));
        self.ask_frame();
    }

    /// To the next whole step (1) or the one before (-1); from between two steps, to the nearer end in that direction.
    pub fn step(&self, by: i32) {
        // Steps pressed during a glide count from where it will end.
        let from = self.0.glide.get().map_or(self.0.at.get(), |g| g.end());
        let to = if by > 0 { (from + 1e-6).floor() + 1.0 } else { (from - 1e-6).ceil() - 1.0 };
        let to = self.clamp(to);
        self.glide(to, STEP);
    }

    /// Holds the sheet at a moment, as the pointer says.
    pub fn hold(&self, at: f64) {
        self.0.holding.set(true);
        self.set(at);
    }

    /// Whether the room with the bench is open.
    pub fn is_open(&self) -> bool {
        self.0.setting.borrow().open
    }

    /// Whether the sheet is held.
    pub fn is_holding(&self) -> bool {
        self.0.holding.get()
    }

    /// Lets go: settles if it is near an end, else stays.
    pub fn release(&self) {
        if !self.0.holding.replace(false) {
            return;
        }
        let at = self.0.at.get();
        let part = at - at.floor();
        if part > 0.0 && part < NEAR_END {
            self.glide(at.floor(), SETTLE);
        } else if part > 1.0 - NEAR_END {
            self.glide(at.ceil(), SETTLE);
        }
        self.ask_frame();
    }

    /// Looks from beneath, or from above again.
    pub fn look_from_beneath(&self, beneath: bool) {
        let to = if beneath { -View::OPENING.eye } else { View::OPENING.eye };
        if (self.0.eye.get() - to).abs() > 0.1 {
            let lasts = if media::reduced_motion() { 0.0 } else { BENEATH };
            self.0.eye_glide.set(Some(Glide::new(self.0.eye.get(), to, lasts)));
            self.ask_frame();
        }
    }

    /// Turns and tilts the view by degrees.
    pub fn tilt(&self, turn: f64, eye: f64) {
        self.0.eye_glide.set(None);
        self.0.turn.set((self.0.turn.get() + turn).clamp(-75.0, 75.0));
        self.0.eye.set((self.0.eye.get() + eye).clamp(-89.0, 89.0));
        self.0.fits.borrow_mut().clear();
        self.ask_frame();
    }

    pub(super) fn shown(&self) -> Shown {
        let crease = self.0.setting.borrow().crease;
        Shown { leaf: 3.2, crease }
    }

    /// The view at a moment: each step is fitted to the room, and between two steps the fit is eased.
    pub(super) fn view(&self, at: f64) -> View {
        let angles = View { turn: self.0.turn.get(), eye: self.0.eye.get(), scale: 1.0, origin: Point::ORIGIN };
        let Some(bench) = self.bench() else { return angles };
        let size = self.0.canvas.borrow().as_ref().map_or((600.0, 400.0), |c| c.size);
        let pad = if size.0 < 500.0 { 18.0 } else { 34.0 };
        let room = Rect::new(pad, pad, (size.0 - pad).max(pad + 20.0), (size.1 - pad).max(pad + 20.0));
        let fit = |step: usize| {
            if let Some(Some(known)) = self.0.fits.borrow().get(step) {
                return *known;
            }
            let r = bench.extent(step as f64, &angles, &self.shown());
            let scale = (room.width() / r.width().max(1.0)).min(room.height() / r.height().max(1.0)).min(LARGEST);
            let known = (scale, r.center());
            let mut fits = self.0.fits.borrow_mut();
            if fits.len() <= step {
                fits.resize(step + 1, None);
            }
            if let Some(slot) = fits.get_mut(step) {
                *slot = Some(known);
            }
            known
        };
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
        View { scale, origin: room.center() - middle.to_vec2() * scale, ..angles }
    }

    /// Asks for a frame, once.
    pub fn ask_frame(&self) {
        if self.0.frame.borrow().is_some() {
            return;
        }
        let hands = self.clone();
        let frame = request_animation_frame(move |now| {
            let done = hands.0.frame.borrow_mut().take();
            hands.frame(now);
            drop(done);
        });
        *self.0.frame.borrow_mut() = Some(frame);
    }

    fn frame(&self, now: f64) {
        let mut moving = false;
        if let Some(mut glide) = self.0.glide.get() {
            let (at, arrived) = glide.at(now);
            self.0.at.set(at);
            self.0.glide.set((!arrived).then_some(glide));
            moving |= !arrived;
        }
        if let Some(mut glide) = self.0.eye_glide.get() {
            let (eye, arrived) = glide.at(now);
            self.0.eye.set(eye);
            self.0.fits.borrow_mut().clear();
            self.0.eye_glide.set((!arrived).then_some(glide));
            moving |= !arrived;
        }
        if self.0.setting.borrow().open {
            self.paint();
            self.move_bone();
        }
        self.lay_thread();
        self.report();
        if moving {
            self.ask_frame();
        }
    }

    fn paint(&self) {
        let Some(bench) = self.bench() else { return };
        let at = self.0.at.get();
        let view = self.view(at);
        let mut picture = bench.scene(at, &view, &self.shown());
        if let Some(grip) = picture.grip {
            self.draw_grip(&bench, &grip, &view, &mut picture.scene);
        }
        if let Some(canvas) = self.0.canvas.borrow().as_ref() {
            canvas.paint(&picture.scene);
        }
        *self.0.last.borrow_mut() = Some((picture, view));
    }

    /// A ring at the free corner; while it is held it is filled, and dots show the way of the corner.
    fn draw_grip(&self, bench: &Bench, grip: &Grip, view: &View, scene: &mut Scene) {
        let held = matches!(self.0.pointer.get(), super::pointer::Doing::Folding(_));
        let fill = if held || self.0.over_grip.get() { Ink::Light } else { Ink::CastOnBench };
        if held || media::reduced_motion() {
            let way = bench.corner_way(grip.fold, view, &self.shown());
            let mut path = kurbo::BezPath::new();
            for (i, p) in way.into_iter().enumerate() {
                if i == 0 { path.move_to(p) } else { path.line_to(p) }
            }
            scene.items.push(Item::Path { path, fill: None, line: Some(Line::dashed(Ink::Quiet, 2.0, 2.0, 6.0)) });
        }
        scene.items.push(Item::Path {
            path: ring(grip.at, 11.0),
            fill: Some(fill),
            line: Some(Line::solid(Ink::Light, 3.0)),
        });
    }

    fn move_bone(&self) {
        let rule = self.0.rule.borrow();
        let Some((bone, input, shape)) = rule.as_ref() else { return };
        let at = self.0.at.get();
        if let Some(bone) = bone.cast::<SvgElement>() {
            let lift = if self.0.holding.get() { -4 } else { 0 };
            let _ = bone.set_attribute("transform", &format!("translate({} {lift})", number(shape.x(at))));
        }
        if let Some(input) = input.cast::<HtmlInputElement>() {
            input.set_value_as_number((at * 100.0).round());
        }
    }

    /// Tells the program when a step begins, is passed, or comes to rest.
    fn report(&self) {
        let at = self.0.at.get();
        let between = at != at.floor();
        let resting = self.0.glide.get().is_none() && !self.0.holding.get();
        let now = (at.floor(), between);
        if now != self.0.told.get() || (resting && between) {
            let was = self.0.told.replace(now);
            if was != now || resting {
                let tell = self.0.tell.borrow().clone();
                tell.emit(at);
            }
        }
    }

    /// The pixel of the window where the canvas begins.
    pub(super) fn corner(&self) -> Vec2 {
        self.0.canvas.borrow().as_ref().map_or(Vec2::ZERO, |c| c.corner().into())
    }
}
