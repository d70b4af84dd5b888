//! How likely a lot is accepted by a sample: so many books are opened, and the lot passes if no more than so many of
//! them are bad.
//!
//! The books opened are drawn from a lot that is not endless, so the bad ones among them follow the hypergeometric law:
//! of C(N, n) samples of n books out of N, C(D, x) · C(N − D, n − x) hold x of the D bad ones (W. Feller, *An
//! Introduction to Probability Theory and Its Applications*, vol. 1, 3rd ed. 1968, section II.6, formula 6.1). Plans such
//! as those of ISO 2859-1 are read off with the binomial or Poisson law in place of it, which is only near for large
//! lots; a job in a bindery is a small one.
//!
//! **How it is reckoned.** The chances of neighbouring x stand in a ratio of whole numbers, so each is its neighbour
//! times a fraction. Beginning with 1 at the likeliest x and going both ways, all are summed, and those up to the
//! acceptance number are divided by the sum. Nothing is larger than 1, nothing cancels, and each step is rounded four
//! times at the most, so what is far off in relative terms is too small to be seen. Only the four rules of arithmetic
//! are used: the answer is the same on every machine. A test holds it to 1e-12 against whole-numbered fractions.

use crate::marks::Refusal;

/// The largest lot.
pub const MOST_LOT: u32 = 1_000_000;
/// Chances this much smaller than the likeliest are not followed further: what is left out is far below a rounding.
const TOO_SMALL: f64 = 1e-60;
/// The most numbers of bad books that are asked about at once.
pub const MOST_POINTS: usize = 1_001;

/// A lot, and the plan by which it is accepted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Plan {
    /// Books in the lot.
    pub lot: u32,
    /// Books opened.
    pub sample: u32,
    /// The most bad books among those opened with which the lot is accepted.
    pub accept: u32,
}

impl Plan {
    /// Whether such a lot can be sampled so.
    ///
    /// # Errors
    /// Where a number is out of bounds.
    pub fn check(&self) -> Result<(), Refusal> {
        if !(1..=MOST_LOT).contains(&self.lot) {
            return Err(Refusal::new("lot", format!("A lot has 1 to {MOST_LOT} books.")));
        }
        if self.sample > self.lot {
            return Err(Refusal::new(
                "sample",
                format!("No more than the {} books of the lot can be opened.", self.lot),
            ));
        }
        if self.accept > self.lot {
            return Err(Refusal::new("accept", format!("There are only {} books in the lot.", self.lot)));
        }
        Ok(())
    }

    /// The chance, 0 to 1, that a lot with so many bad books is accepted.
    ///
    /// # Errors
    /// As [`Plan::check`], and where there are more bad books than books (at `bad`).
    pub fn accepted(&self, bad: u32) -> Result<f64, Refusal> {
        self.check()?;
        if bad > self.lot {
            return Err(Refusal::new("bad", format!("There are only {} books in the lot.", self.lot)));
        }
        Ok(self.chance(bad))
    }

    /// The fewest bad books with which the lot is accepted with a chance below `chance`; nothing if there is none.
    ///
    /// # Errors
    /// As [`Plan::check`].
    pub fn bad_below(&self, chance: f64) -> Result<Option<u32>, Refusal> {
        self.check()?;
        // The more are bad, the less likely the lot is accepted.
        let (mut above, mut below) = (0, self.lot);
        if self.chance(0) < chance {
            return Ok(Some(0));
        }
        if self.chance(self.lot) >= chance {
            return Ok(None);
        }
        while below - above > 1 {
            let middle = above + (below - above) / 2;
            if self.chance(middle) < chance {
                below = middle;
            } else {
                above = middle;
            }
        }
        Ok(Some(below))
    }

    /// The chance of at most `accept` bad ones in the sample; the plan is checked, and `bad` is at most the lot.
    fn chance(&self, bad: u32) -> f64 {
        let [lot, sample, bad, accept] = [self.lot, self.sample, bad, self.accept].map(f64::from);
        // The fewest and the most bad ones that a sample can hold.
        let least = (sample + bad - lot).max(0.0);
        let most = sample.min(bad);
        if accept >= most {
            return 1.0;
        }
        if accept < least {
            return 0.0;
        }
        let likeliest = ((sample + 1.0) * (bad + 1.0) / (lot + 2.0)).floor().max(least).min(most);
        let mut up_to = if likeliest <= accept { 1.0 } else { 0.0 };
        let mut beyond = 1.0 - up_to;
        // From x to x + 1: (D − x)(n − x) / ((x + 1)(N − D − n + x + 1)).
        let (mut weight, mut x) = (1.0, likeliest);
        while x < most && weight > TOO_SMALL {
            weight *= (bad - x) * (sample - x) / ((x + 1.0) * (lot - bad - sample + x + 1.0));
            x += 1.0;
            if x <= accept {
                up_to += weight;
            } else {
                beyond += weight;
            }
        }
        let (mut weight, mut x) = (1.0, likeliest);
        while x > least && weight > TOO_SMALL {
            weight *= x * (lot - bad - sample + x) / ((bad - x + 1.0) * (sample - x + 1.0));
            x -= 1.0;
            if x <= accept {
                up_to += weight;
            } else {
                beyond += weight;
            }
        }
        up_to / (up_to + beyond)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn small_lots_by_hand() {
        let plan = |lot, sample, accept| Plan { lot, sample, accept };
        // Two of four opened, one bad: it is among them in half of the cases.
        assert_eq!(plan(4, 2, 0).accepted(1), Ok(0.5));
        assert_eq!(plan(4, 2, 0).accepted(0), Ok(1.0));
        assert_eq!(plan(4, 2, 1).accepted(1), Ok(1.0));
        assert_eq!(plan(4, 4, 0).accepted(1), Ok(0.0));
        assert_eq!(plan(4, 0, 0).accepted(4), Ok(1.0));
        // Three of five bad, two opened: both good in 1 of 10 samples, one bad in 6.
        assert!((plan(5, 2, 0).accepted(3).unwrap() - 0.1).abs() < 1e-15);
        assert!((plan(5, 2, 1).accepted(3).unwrap() - 0.7).abs() < 1e-15);
    }

    #[test]
    fn the_point_where_the_chance_falls_below() {
        let plan = Plan { lot: 1000, sample: 80, accept: 1 };
        for chance in [0.95, 0.5, 0.1] {
            let bad = plan.bad_below(chance).unwrap().unwrap();
            assert!(plan.accepted(bad).unwrap() < chance && plan.accepted(bad - 1).unwrap() >= chance);
        }
        assert_eq!(Plan { sample: 0, ..plan }.bad_below(0.5), Ok(None));
        assert_eq!(plan.bad_below(2.0), Ok(Some(0)));
    }

    #[test]
    fn refusals_say_where() {
        let plan = Plan { lot: 10, sample: 5, accept: 1 };
        assert_eq!(Plan { lot: 0, ..plan }.accepted(0).unwrap_err().at, "lot");
        assert_eq!(Plan { lot: MOST_LOT + 1, ..plan }.accepted(0).unwrap_err().at, "lot");
        assert_eq!(Plan { sample: 11, ..plan }.accepted(0).unwrap_err().at, "sample");
        assert_eq!(Plan { accept: 11, ..plan }.accepted(0).unwrap_err().at, "accept");
        assert_eq!(plan.accepted(11).unwrap_err().at, "bad");
    }
}
