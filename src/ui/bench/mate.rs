//! Two benches side by side: the one in hand leads, the other one folds along.

use super::hands::Hands;
use crate::scene::Rule;

impl Hands {
    /// Takes another bench along from now on, or none.
    pub fn lead(&self, mate: Option<Hands>) {
        *self.0.mate.borrow_mut() = mate;
        self.ask_frame();
    }

    /// Brings the other bench to where this one is.
    pub(super) fn take_along(&self) {
        let mate = self.0.mate.borrow();
        let (Some(mate), Some(own)) = (mate.as_ref(), self.bench()) else { return };
        let Some(other) = mate.bench() else { return };
        let at = matching(own.rule, other.rule, self.0.at.get());
        let (sight, its) = (&self.0.sight, &mate.0.sight);
        let tilted = (sight.turn.get(), sight.eye.get()) != (its.turn.get(), its.eye.get());
        if tilted {
            mate.tilt(sight.turn.get() - its.turn.get(), sight.eye.get() - its.eye.get());
        }
        if mate.0.at.get() != at {
            mate.set(at);
        }
    }
}

/// The moment on another rule: after as many folds, and then as far slit and opened.
pub(super) fn matching(own: Rule, other: Rule, at: f64) -> f64 {
    let folds = own.folds as f64;
    if at <= folds { at.min(other.folds as f64) } else { other.clamp(other.folds as f64 + at - folds) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_other_bench_is_as_far() {
        let (three, two) = (Rule { folds: 3, leaves: 8 }, Rule { folds: 2, leaves: 0 });
        for at in [0.0, 1.5, 3.0, 4.0, 7.5] {
            assert_eq!(matching(three, three, at), at);
        }
        assert_eq!(matching(three, two, 2.5), 2.0);
        assert_eq!(matching(three, two, 8.0), 2.0);
        assert_eq!(matching(two, three, 2.0), 2.0);
        assert_eq!(matching(Rule { folds: 4, leaves: 8 }, three, 6.0), 5.0);
    }
}
