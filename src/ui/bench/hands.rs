//! Who holds the sheet: the live moment and the frame loop.

use super::motion::Glide;
use super::pointer::{Doing, Fingers};
use super::rule::RuleShape;
use super::sight::Sight;
use super::take::{Then, Trial};
use crate::app::Action;
use crate::fold::Lay;
use crate::scene::{Bench, BenchScene, Held as Place, Hold, Shown, View};
use crate::ui::browser::canvas::Canvas;
use crate::ui::browser::media::{self, SizeWatch};
use crate::ui::shared::Shared;
use gloo_render::{AnimationFrame, request_animation_frame};
use kurbo::Vec2;
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use web_sys::HtmlCanvasElement;
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
    /// How the sheet lies.
    pub lay: Lay,
    /// Whether it may be folded otherwise than its scheme says.
    pub free: bool,
    /// Whether a fold is one more of a scheme that is being made.
    pub making: bool,
    /// The number of folds by hand, where they are others than the scheme's.
    pub tried: Option<usize>,
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
#[derive(Default)]
pub(super) struct Held {
    pub(super) setting: RefCell<Setting>,
    pub(super) canvas: RefCell<Option<Canvas>>,
    watch: RefCell<Option<SizeWatch>>,
    pub(super) rule: RefCell<Option<(NodeRef, NodeRef, RuleShape)>>,
    pub(super) at: Cell<f64>,
    pub(super) glide: Cell<Option<Glide>>,
    pub(super) sight: Sight,
    pub(super) holding: Cell<bool>,
    pub(super) over_grip: Cell<bool>,
    /// The edge that the pointer is over.
    pub(super) hover: Cell<Option<Hold>>,
    /// The place on the paper that is held.
    pub(super) place: Cell<Option<Place>>,
    /// The moment when the pointer went down.
    pub(super) began: Cell<f64>,
    /// A fold that is being tried.
    pub(super) trial: RefCell<Option<Trial>>,
    /// What is done once the sheet is at rest.
    pub(super) then: Cell<Then>,
    /// Where a fold that was added by hand had gone.
    pub(super) landed: Cell<Option<f64>>,
    pub(super) choosing: Cell<Option<super::choose::Choosing>>,
    /// The bench that folds along.
    pub(super) mate: RefCell<Option<Hands>>,
    frame: RefCell<Option<AnimationFrame>>,
    pub(super) last: RefCell<Option<(BenchScene, View)>>,
    /// The element inside which the thread is laid; empty for the whole page.
    pub(super) within: Cell<&'static str>,
    /// How many px per mm more than usual a sheet may be drawn.
    pub(super) larger: Cell<f64>,
    /// The thread as it was laid last: casing, strand and holes.
    pub(super) laid: RefCell<(String, String, String)>,
    told: Cell<(f64, bool)>,
    tell: RefCell<Callback<Action>>,
    pub(super) pointer: Cell<Doing>,
    pub(super) fingers: RefCell<Fingers>,
}

/// Times in ms: a fold step, a release that settles.
pub(super) const STEP: f64 = 420.0;
const SETTLE: f64 = 180.0;
/// A release settles to an end only within this share of the half turn (12 degrees).
const NEAR_END: f64 = 12.0 / 180.0;

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

    /// Sets whom to tell what the hands did.
    pub fn tell(&self, callback: Callback<Action>) {
        *self.0.tell.borrow_mut() = callback;
    }

    /// Tells the program.
    pub(super) fn emit(&self, action: Action) {
        let tell = self.0.tell.borrow().clone();
        tell.emit(action);
    }

    /// Puts something else on the bench, or changes what is marked on it.
    pub fn put(&self, setting: Setting) {
        let before = self.0.setting.borrow().bench.clone();
        let (same, lay) = (before == setting.bench, setting.lay);
        let shape = |b: &Shared<Bench>| (b.folding.rows, b.folding.columns);
        let another = before.as_ref().map(shape) != setting.bench.as_ref().map(shape);
        let changed = || drop(self.0.setting.replace(setting));
        if same {
            changed();
            self.forget_refused();
        } else if another {
            changed();
            self.let_all_go();
            self.square();
            self.forget_fits();
        } else {
            self.eased(|| {
                changed();
                self.let_all_go();
            });
        }
        if !same {
            self.0.at.set(self.clamp(self.0.at.get()));
        }
        if lay != self.lay() {
            self.lay_sheet(lay);
        }
        self.ask_frame();
    }

    /// The room for the canvas changed.
    pub fn refit(&self) {
        if let Some(canvas) = self.0.canvas.borrow_mut().as_mut() {
            canvas.fit();
        }
        self.forget_fits();
        // At once, since a canvas is blank after it was fitted.
        if self.is_open() {
            self.paint();
        }
        self.ask_frame();
    }

    /// What is seen: a fold that is being tried, or else what the program put on the bench.
    pub(super) fn bench(&self) -> Option<Shared<Bench>> {
        let trial = self.0.trial.borrow().as_ref().map(|t| t.bench.clone());
        trial.or_else(|| self.0.setting.borrow().bench.clone())
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
        self.finish();
        let to = self.clamp(to);
        let steps = (to - self.0.at.get()).abs().ceil().max(1.0);
        self.glide(to, STEP * steps.min(4.0));
    }

    pub(super) fn glide(&self, to: f64, lasts: f64) {
        let lasts = if media::reduced_motion() { 0.0 } else { lasts };
        self.0.glide.set(Some(Glide::new(self.0.at.get(), self.clamp(to), lasts)));
        self.ask_frame();
    }

    /// To the next whole step (1) or the one before (-1); from between two steps, to the nearer end in that direction.
    pub fn step(&self, by: i32) {
        self.finish();
        // Steps pressed during a glide count from where it will end.
        let from = self.0.glide.get().map_or(self.0.at.get(), |g| g.end());
        let to = if by > 0 { (from + 1e-6).floor() + 1.0 } else { (from - 1e-6).ceil() - 1.0 };
        let to = self.clamp(to);
        self.glide(to, STEP);
    }

    /// Holds the sheet at a moment, as the pointer says.
    pub fn hold(&self, at: f64) {
        self.finish();
        self.0.choosing.set(None);
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

    /// Lets go: settles if it is near an end, else stays. Returns where that is.
    pub fn release(&self) -> f64 {
        let at = self.0.at.get();
        if !self.0.holding.replace(false) {
            return at;
        }
        let part = at - at.floor();
        let end = match part {
            p if p > 0.0 && p < NEAR_END => at.floor(),
            p if p > 1.0 - NEAR_END => at.ceil(),
            _ => at,
        };
        if end != at {
            self.glide(end, SETTLE);
        }
        self.ask_frame();
        end
    }

    pub(super) fn shown(&self) -> Shown {
        let chosen = self.0.choosing.get().map(|c| c.crease);
        let crease = chosen.or_else(|| self.0.setting.borrow().crease.filter(|_| self.0.trial.borrow().is_none()));
        Shown { leaf: 3.2, crease }
    }

    pub(super) fn canvas_size(&self) -> (f64, f64) {
        self.0.canvas.borrow().as_ref().map_or((600.0, 400.0), |c| c.size)
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
        let mut moving = self.ease_on(now);
        if let Some(mut glide) = self.0.glide.get() {
            let (at, arrived) = glide.at(now);
            self.0.at.set(at);
            self.0.glide.set((!arrived).then_some(glide));
            moving |= !arrived;
        }
        if moving {
            self.ask_frame();
        }
        self.take_along();
        if self.0.glide.get().is_none() && !self.is_holding() {
            self.finish();
        }
        if self.is_open() {
            self.paint();
            self.move_bone();
        }
        self.lay_thread();
        self.report();
    }

    /// Tells the program when a step begins, is passed, or comes to rest.
    fn report(&self) {
        // Of a fold that is only tried it hears nothing until it is made.
        let tried = self.0.trial.borrow().as_ref().filter(|t| !t.told).map(|t| t.made as f64);
        let at = tried.unwrap_or(self.0.at.get());
        let between = at != at.floor();
        let resting = self.0.glide.get().is_none() && !self.is_holding();
        let now = (at.floor(), between);
        if now != self.0.told.get() || (resting && between) {
            let was = self.0.told.replace(now);
            if was != now || resting {
                self.emit(Action::Moved(at));
            }
        }
    }

    /// The pixel of the window where the canvas begins.
    pub(super) fn corner(&self) -> Vec2 {
        self.0.canvas.borrow().as_ref().map_or(Vec2::ZERO, |c| c.corner().into())
    }
}
