//! Where one stands in the act: flat, folding, slitting, opening.
//!
//! A moment is a number on the rule: 0 is the flat sheet, k the packet after k folds, then slit, then open at the
//! front, then one leaf turned after another. Between whole numbers something is on the move.

/// What is happening at a moment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Stage {
    /// `made` folds are down, and the next one has gone `turn` of its way (0 to below 1).
    Fold {
        /// Folds that are down.
        made: usize,
        /// Share of the half turn, 0 to 1.
        turn: f64,
    },
    /// The bolts are slit, so far.
    Slit {
        /// Share of the cut, 0 to 1.
        cut: f64,
    },
    /// The section is turned to lie before its reader, front up.
    Offer {
        /// Share of the way, 0 to 1.
        turn: f64,
    },
    /// Leaves are turned.
    Leaf {
        /// Leaves that lie at the left (right, when read right to left).
        turned: usize,
        /// Share of the half turn of the next leaf.
        turn: f64,
    },
}

/// The whole rule for one folding.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rule {
    /// Folds that can be made.
    pub folds: usize,
    /// Leaves of the finished section; 0 while it is unfinished.
    pub leaves: usize,
}

impl Rule {
    /// The last moment.
    #[must_use]
    pub fn end(&self) -> f64 {
        let open = if self.leaves == 0 { 0 } else { 2 + self.leaves };
        (self.folds + open) as f64
    }

    /// The moment inside the rule that is nearest to `at`.
    #[must_use]
    pub fn clamp(&self, at: f64) -> f64 {
        if at.is_finite() { crate::units::between(at, 0.0, self.end()) } else { 0.0 }
    }

    /// What happens at a moment.
    #[must_use]
    pub fn stage(&self, at: f64) -> Stage {
        let at = self.clamp(at);
        let whole = at.floor();
        let part = at - whole;
        let n = whole as usize;
        if n < self.folds || self.leaves == 0 {
            return Stage::Fold { made: n.min(self.folds), turn: part };
        }
        match n - self.folds {
            0 if part == 0.0 => Stage::Fold { made: n, turn: 0.0 },
            0 => Stage::Slit { cut: part },
            1 => {
                if part == 0.0 {
                    Stage::Slit { cut: 1.0 }
                } else {
                    Stage::Offer { turn: part }
                }
            }
            k => Stage::Leaf { turned: (k - 2).min(self.leaves), turn: part },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_rule_of_a_sixteen() {
        let rule = Rule { folds: 3, leaves: 8 };
        assert_eq!(rule.end(), 13.0);
        assert_eq!(rule.stage(0.0), Stage::Fold { made: 0, turn: 0.0 });
        assert_eq!(rule.stage(2.25), Stage::Fold { made: 2, turn: 0.25 });
        assert_eq!(rule.stage(3.0), Stage::Fold { made: 3, turn: 0.0 });
        assert_eq!(rule.stage(3.5), Stage::Slit { cut: 0.5 });
        assert_eq!(rule.stage(4.0), Stage::Slit { cut: 1.0 });
        assert_eq!(rule.stage(4.5), Stage::Offer { turn: 0.5 });
        assert_eq!(rule.stage(5.0), Stage::Leaf { turned: 0, turn: 0.0 });
        assert_eq!(rule.stage(99.0), Stage::Leaf { turned: 8, turn: 0.0 });
        assert_eq!(rule.stage(f64::NAN), Stage::Fold { made: 0, turn: 0.0 });
    }

    #[test]
    fn an_unfinished_folding_ends_with_its_last_fold() {
        let rule = Rule { folds: 2, leaves: 0 };
        assert_eq!(rule.end(), 2.0);
        assert_eq!(rule.stage(5.0), Stage::Fold { made: 2, turn: 0.0 });
    }
}
