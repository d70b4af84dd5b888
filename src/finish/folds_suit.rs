//! Whether a paper takes so many folds.

use super::made::MadeFold;
use crate::fold::Crease;
use crate::paper::Length;

/// A step of the rule of thumb: up to such a grammage so many right-angle folds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FoldLimit {
    /// Where the step is sure, g/m².
    pub up_to: f64,
    /// Where it may still go well, g/m².
    pub at_most: f64,
    /// Right-angle folds.
    pub folds: u32,
}

/// The rule of thumb, from the thinnest paper on; above, one fold. From memory.
pub const RULE_OF_THUMB: [FoldLimit; 3] = [
    FoldLimit { up_to: 60.0, at_most: 70.0, folds: 4 },
    FoldLimit { up_to: 120.0, at_most: 135.0, folds: 3 },
    FoldLimit { up_to: 170.0, at_most: 200.0, folds: 2 },
];

/// Right-angle folds that a paper takes by the rule of thumb: for sure, and where it may still go well.
#[must_use]
pub fn most_folds(grammage: f64) -> (u32, u32) {
    let find = |limit: &dyn Fn(&FoldLimit) -> f64| {
        RULE_OF_THUMB.iter().find(|step| grammage <= limit(step)).map_or(1, |step| step.folds)
    };
    (find(&|s| s.up_to), find(&|s| s.at_most))
}

/// The note of a paper mill (fuyinpaper.com, on offset paper): uncoated paper of 60 to 90 g/m² is folded three times at
/// the most, and above 80 g/m² twice. Beyond these bounds it says nothing.
#[must_use]
pub fn mill_folds(grammage: f64) -> Option<u32> {
    (60.0..=90.0).contains(&grammage).then_some(if grammage > 80.0 { 2 } else { 3 })
}

/// Above so many g/m² a fold is scored before (folding guide of printglaze.ie).
pub const SCORE_ABOVE: f64 = 115.0;

/// How many lengths of π × thickness the folds in one direction take up: m (m + 1) / 2 for a fold of m layers.
///
/// B. Gallivan, *How to Fold Paper in Half Twelve Times* (2002): a strip folded n times in one direction has to be
/// (π t / 6) (2ⁿ + 4) (2ⁿ − 1) long, which is the sum of this over 1, 2, 4 … layers. For folds in two directions the sum is
/// taken over the layers that there are; no source.
#[must_use]
pub fn unit_length(folds: &[MadeFold], crease: Crease) -> u64 {
    let one = |f: &MadeFold| u64::from(f.layers) * (u64::from(f.layers) + 1) / 2;
    folds.iter().filter(|f| f.crease == crease).map(one).sum()
}

/// The least width and the least height of a sheet that is to be folded so.
#[must_use]
pub fn least_lengths(folds: &[MadeFold], caliper: Length) -> (Length, Length) {
    let least = |crease| {
        let units = unit_length(folds, crease);
        Length::from_mm(std::f64::consts::PI * caliper.mm() * units as f64)
    };
    (least(Crease::Vertical), least(Crease::Horizontal))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn heavier_paper_takes_fewer_folds() {
        let all = [50.0, 60.0, 65.0, 71.0, 120.0, 130.0, 136.0, 170.0, 200.0, 250.0].map(most_folds);
        assert_eq!(all, [(4, 4), (4, 4), (3, 4), (3, 3), (3, 3), (2, 3), (2, 2), (2, 2), (1, 2), (1, 1)]);
        assert_eq!(
            [59.0, 60.0, 80.0, 80.5, 90.0, 91.0].map(mill_folds),
            [None, Some(3), Some(3), Some(2), Some(2), None]
        );
    }
}
