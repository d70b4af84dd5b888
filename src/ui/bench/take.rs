//! The paper taken anywhere: a drag asks for a fold, which is tried in the hand and told to the program once it is let
//! go.

use super::hands::{Hands, STEP};
use super::pointer::Doing;
use crate::app::Action;
use crate::fold::Fold;
use crate::scene::{Asked, Bench, Hold, Stage, View};
use crate::ui::shared::Shared;
use kurbo::{Point, Vec2};

/// A fold that is being tried: not the next one of what lies on the bench.
pub(super) struct Trial {
    /// The sheet with this fold.
    pub(super) bench: Shared<Bench>,
    /// Folds before it.
    pub(super) made: usize,
    fold: Fold,
    /// How the sheet was seen before: it doesn't grow in the hand.
    pub(super) seen: View,
    /// Whether the program was told, and will put it on the bench.
    pub(super) told: bool,
}

/// What is done once the sheet is at rest.
#[derive(Clone, Copy, Default, PartialEq)]
pub(super) enum Then {
    /// Nothing.
    #[default]
    Nothing,
    /// The fold that is tried is told.
    Tell,
    /// The fold that is tried is forgotten: it fell back.
    Forget,
    /// A fold made by hand was turned back: so many are left.
    Unmade(usize),
}

/// A drag of the packet at rest.
#[derive(Clone, Copy, PartialEq)]
pub(super) struct Grab {
    pub(super) made: usize,
    pub(super) hold: Hold,
    /// From the place that is held to the pointer.
    pub(super) off: Vec2,
    pub(super) seen: View,
    /// Where the pointer went down.
    pub(super) from: Point,
    /// Whether it has moved enough to mean anything.
    pub(super) moved: bool,
    /// Whether a second finger turned the part the other way.
    pub(super) other: bool,
}

impl Hands {
    /// What the program put on the bench.
    fn base(&self) -> Option<Shared<Bench>> {
        self.0.setting.borrow().bench.clone()
    }

    /// How many folds are made, if the packet is at rest.
    pub(super) fn resting(&self) -> Option<usize> {
        match self.bench()?.rule.stage(self.0.at.get()) {
            Stage::Fold { made, turn: 0.0 } => Some(made),
            _ => None,
        }
    }

    /// Whether another fold than the next one may be made after so many.
    pub(super) fn may_fold(&self, bench: &Bench, made: usize) -> bool {
        let setting = self.0.setting.borrow();
        // One's own scheme is made fold after fold.
        if setting.making { made == bench.folding.steps.len() } else { setting.free }
    }

    /// The edge or corner of the packet at rest that can be taken at a point.
    pub(super) fn edge_near(&self, at: Point, reach: f64) -> Option<Grab> {
        let (made, bench) = (self.resting()?, self.bench()?);
        let last = self.0.last.borrow();
        let (_, view) = last.as_ref()?;
        let shown = self.shown();
        let hold = bench.edge_near(made, at, view, &shown, reach)?;
        let off = at - bench.place(made, hold.at, view, &shown);
        Some(Grab { made, hold, off, seen: *view, from: at, moved: false, other: false })
    }

    /// What the mark under the pointer shows.
    pub(super) fn hold_near(&self, at: Point, reach: f64) -> Option<Hold> {
        self.edge_near(at, reach).map(|g| g.hold)
    }

    /// Leads the place that was taken to the pointer: the fold that brings it there, so far as it is made.
    pub(super) fn take_towards(&self, grab: Grab, at: Point, key: bool) {
        let Some(base) = self.base() else { return };
        let (to, made) = (at - grab.off, grab.made);
        let (view, shown) = (self.view(self.0.at.get()), self.shown());
        let Some(asked) = base.asked(made, &grab.hold, to, &view, &shown, grab.other != key) else { return };
        let held = match asked {
            Asked::Unfold => {
                self.try_fold(None);
                base.before(made.saturating_sub(1), grab.hold.at)
            }
            Asked::Fold(fold) => {
                if !self.begin(&base, made, fold, grab.seen) {
                    return;
                }
                Some(crate::scene::Held { fold: made, at: grab.hold.at })
            }
        };
        let (Some(held), Some(bench)) = (held, self.bench()) else { return };
        self.0.place.set(Some(held));
        let view = self.view(self.0.at.get());
        let turn = bench.turn_held(&held, to, &view, &self.shown());
        // Stay a hair below a whole fold while it is held, so that it can be pulled back.
        self.hold(held.fold as f64 + turn.min(0.999));
    }

    /// Puts a fold on the bench to be made: the next one as it is there, another one as a trial. Says whether it can
    /// be made.
    fn begin(&self, base: &Bench, made: usize, fold: Fold, seen: View) -> bool {
        if base.folding.steps.get(made).is_some_and(|s| s.turn.fold == fold) {
            self.try_fold(None);
            return true;
        }
        if !self.may_fold(base, made) {
            return false;
        }
        if self.0.trial.borrow().as_ref().is_some_and(|t| t.fold == fold && t.made == made) {
            return true;
        }
        let Some(bench) = base.trying(made, &fold) else { return false };
        self.try_fold(Some(Trial { bench: Shared::new(bench), made, fold, seen, told: false }));
        true
    }

    /// Tries another fold, or none.
    fn try_fold(&self, trial: Option<Trial>) {
        if trial.is_some() || self.0.trial.borrow().is_some() {
            self.eased(|| drop(self.0.trial.replace(trial)));
        }
    }

    /// The hand lets go of the paper: a fold that is tried is told, or falls back; what was pulled back is forgotten.
    pub(super) fn let_go(&self) {
        self.0.place.set(None);
        let mut end = self.release();
        // A flap that was pulled back past its upright falls open.
        let open = self.0.began.get() - 1.0;
        if open == open.floor() && end > open && end < open + 0.5 {
            end = open;
            self.glide(open, STEP);
        }
        let tried = self.0.trial.borrow().as_ref().map(|t| t.made as f64);
        let by_hand = self.0.setting.borrow().tried;
        self.0.then.set(match tried {
            Some(made) if end == made => Then::Forget,
            Some(_) => Then::Tell,
            None if end < self.0.began.get() && by_hand.is_some_and(|n| end + 1.0 == n as f64) => {
                Then::Unmade(end as usize)
            }
            None => Then::Nothing,
        });
    }

    /// Does what was left to be done once the sheet is at rest; if it is not at rest, at once.
    pub(super) fn finish(&self) {
        let then = self.0.then.take();
        if then == Then::Nothing {
            return;
        }
        if let Some(glide) = self.0.glide.take() {
            self.0.at.set(glide.end());
        }
        let at = self.0.at.get();
        let folds = |count: usize| -> Vec<Fold> {
            self.base().map_or_else(Vec::new, |b| b.folding.steps.iter().take(count).map(|s| s.turn.fold).collect())
        };
        match then {
            Then::Tell => {
                let told = self.0.trial.borrow_mut().as_mut().map(|trial| {
                    trial.told = true;
                    (trial.made, trial.fold)
                });
                let Some((made, fold)) = told else { return };
                if self.0.setting.borrow().making {
                    self.0.landed.set(Some(at));
                    self.emit(Action::AddFold(fold));
                } else {
                    let mut folds = folds(made);
                    folds.push(fold);
                    self.emit(Action::Try { folds, at });
                }
            }
            Then::Forget => self.try_fold(None),
            Then::Unmade(count) => self.emit(Action::Try { folds: folds(count), at: count as f64 }),
            Then::Nothing => {}
        }
    }

    /// Nothing is held or tried any more: something else lies on the bench.
    pub(super) fn let_all_go(&self) {
        if matches!(self.0.pointer.get(), Doing::Taking(_)) {
            self.0.pointer.set(Doing::Nothing);
            self.0.holding.set(false);
        }
        self.0.trial.replace(None);
        self.0.then.set(Then::Nothing);
        self.0.choosing.set(None);
        self.0.place.set(None);
        self.0.hover.set(None);
    }

    /// The program has answered and the same lies on the bench: a fold that it was told of was refused.
    pub(super) fn forget_refused(&self) {
        let refused = self.0.trial.borrow().as_ref().filter(|t| t.told).map(|t| t.made);
        if let Some(made) = refused {
            self.try_fold(None);
            self.set(made as f64);
        }
    }

    /// The program brings the bench to a moment. A fold that was added goes on from where the hand left it.
    pub fn settle(&self, at: f64) {
        let landed = self.0.landed.take().filter(|l| (at..=at + 1.0).contains(l));
        self.set(landed.unwrap_or(at));
    }

    /// Makes a fold, which need not be the next one.
    pub fn make(&self, fold: Fold) {
        self.finish();
        let (Some(base), Some(made)) = (self.base(), self.resting()) else { return };
        if !self.begin(&base, made, fold, self.view(made as f64)) {
            return;
        }
        if self.0.trial.borrow().is_some() {
            self.0.then.set(Then::Tell);
        }
        self.glide(made as f64 + 1.0, STEP);
    }

    /// Unfolds the last fold; one that was made by hand is forgotten.
    pub fn unfold(&self) {
        let at = self.0.at.get();
        self.step(-1);
        if self.0.setting.borrow().tried.is_some_and(|n| n as f64 == at) {
            self.0.then.set(Then::Unmade(at as usize - 1));
        }
    }
}
