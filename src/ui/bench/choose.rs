//! Folding elsewhere by keys: first the crease, then the part that moves.

use super::hands::Hands;
use crate::app::{Action, State};
use crate::fold::{Crease, Direction, Fold, Lands, Part};

/// A crease that is being chosen.
#[derive(Clone, Copy)]
pub(super) struct Choosing {
    /// The crease, as the packet has it.
    pub(super) crease: (Crease, u32),
    /// Whether it is chosen, and the next arrow says which part moves.
    taken: bool,
}

impl Hands {
    /// Begins to choose a crease, or takes the one that is shown.
    pub fn choose(&self) {
        self.finish();
        let (Some(bench), Some(made)) = (self.bench(), self.resting()) else { return };
        let choosing = match self.0.choosing.get() {
            Some(c) => Choosing { taken: true, ..c },
            None if !self.may_fold(&bench, made) => return,
            None => {
                let next = bench.folding.steps.get(made).map(|s| (s.turn.fold.crease, s.turn.fold.after));
                let Some(crease) = next.or_else(|| State::creases_after(&bench, made).first().copied()) else { return };
                Choosing { crease, taken: false }
            }
        };
        self.0.choosing.set(Some(choosing));
        self.say_chosen();
    }

    /// Whether a crease is being chosen.
    pub fn is_choosing(&self) -> bool {
        self.0.choosing.get().is_some()
    }

    /// Stops choosing.
    pub fn leave_crease(&self) {
        self.0.choosing.set(None);
        self.emit(Action::Say("Left as it was.".into()));
        self.ask_frame();
    }

    /// An arrow while a crease is chosen: another crease in that direction, or the way the part moves.
    pub fn choose_towards(&self, arrow: Direction, under: bool) {
        let (Some(mut choosing), Some(bench), Some(made)) = (self.0.choosing.get(), self.bench(), self.resting())
        else {
            return;
        };
        let lay = self.lay();
        let (crease, after) = choosing.crease;
        if !choosing.taken {
            // All creases in one row as they are seen: upright ones from the left, then level ones from the top.
            let all = State::creases_after(&bench, made);
            let arrow = lay.back().direction(arrow);
            let here = all.iter().position(|c| *c == choosing.crease).unwrap_or(0);
            let along = if crease == Crease::Vertical { arrow.is_sideways() } else { !arrow.is_sideways() };
            let to = if along {
                let forward = matches!(arrow, Direction::Right | Direction::Down);
                let next = if forward { here + 1 } else { here.wrapping_sub(1) };
                all.get(next).filter(|c| c.0 == crease)
            } else {
                let others: Vec<_> = all.iter().filter(|c| c.0 != crease).collect();
                others.get(others.len() / 2).copied()
            };
            choosing.crease = to.copied().unwrap_or(choosing.crease);
            self.0.choosing.set(Some(choosing));
            self.say_chosen();
            return;
        }
        // The part that moves goes the way of the arrow: it lies on the other side.
        let part = match lay.back().direction(arrow) {
            Direction::Left => Part::Right,
            Direction::Right => Part::Left,
            Direction::Up => Part::Bottom,
            Direction::Down => Part::Top,
        };
        if part.crease() != crease {
            return;
        }
        self.0.choosing.set(None);
        let over = lay.over == under;
        self.make(Fold::new(after, part, if over { Lands::Over } else { Lands::Under }));
    }

    fn say_chosen(&self) {
        let (Some(choosing), Some(bench), Some(made)) = (self.0.choosing.get(), self.bench(), self.resting()) else {
            return;
        };
        let r = bench.folding.packet(made).extent();
        let size = (r.width().unsigned_abs(), r.height().unsigned_abs());
        let part = if choosing.crease.0 == Crease::Vertical { Part::Left } else { Part::Top };
        let seen = self.lay().seen(&Fold::new(choosing.crease.1, part, Lands::Over), size);
        let says = match seen.crease {
            Crease::Vertical => format!("Crease upright, {} from the left. ", seen.after),
            Crease::Horizontal => format!("Crease level, {} from the top. ", seen.after),
        };
        let then = if choosing.taken {
            "Arrow: the way the part moves; with Shift it goes under."
        } else {
            "Arrows: another crease. Enter takes it, Escape leaves."
        };
        self.emit(Action::Say(says + then));
        self.ask_frame();
    }
}
