//! Samples of a lot: how many, which, and what they prove.

use super::{Books, MOST_COUNTER, without};
use crate::dice::Dice;
use crate::words::{grouped, how_many};

/// Sizes of samples by the size of the lot: the most books of a lot, and the sample.
///
/// ISO 2859-1, single sampling, normal inspection, general level II: from 151 to 35,000 as reprinted by nibs.org
/// (AC-TABLE.ASC) and qualitycontrolpartners.com (AQL tables); the others from memory.
const SIZES: [(u32, u32); 14] = [
    (8, 2),
    (15, 3),
    (25, 5),
    (50, 8),
    (90, 13),
    (150, 20),
    (280, 32),
    (500, 50),
    (1_200, 80),
    (3_200, 125),
    (10_000, 200),
    (35_000, 315),
    (150_000, 500),
    (500_000, 800),
];

/// How many books of a lot to open.
#[must_use]
pub fn sample_size(lot: u32) -> u32 {
    let size = SIZES.iter().find(|(most, _)| lot <= *most).map_or(1_250, |(_, size)| *size);
    size.min(lot)
}

/// The most bad books that a lot can well have if a sample drawn at random from it is all good: with one more, a sample
/// without a bad one would come out less than 5 times in 100.
///
/// Of `lot` books with `bad` bad ones, a sample of n has none with the chance (lot − n)/lot · (lot − n − 1)/(lot − 1)
/// … in `bad` factors (the hypergeometric distribution at 0). A lot has [`MOST_COUNTER`] books at the most.
#[must_use]
pub fn most_bad(lot: u32, sample: u32) -> u32 {
    let lot = lot.min(MOST_COUNTER);
    let closed = lot.saturating_sub(sample);
    let mut chance = 1.0;
    for bad in 0..closed {
        chance *= f64::from(closed - bad) / f64::from(lot - bad);
        // Exactly 5 in 100 is not less, whichever way the last figure was rounded.
        if chance < 0.05 - 1e-12 {
            return bad;
        }
    }
    closed
}

/// What a sample that is all good proves, in a sentence.
#[must_use]
pub fn proves(lot: u32, sample: u32) -> String {
    match most_bad(lot, sample) {
        0 => format!("If all {} are good, so is the lot, with a certainty of 95 in 100.", grouped(sample)),
        bad => format!(
            "If all {} are good, it is 95 in 100 sure that no more than {} of {} are bad; it never proves that there is none.",
            grouped(sample),
            grouped(bad),
            how_many(lot, "book")
        ),
    }
}

/// Draws a sample of the books that are not yet opened, in rising order. The same number draws the same sample.
///
/// Each draw that was had before is drawn again.
#[must_use]
pub fn draw(whole: Books, opened: &[u32], size: u32, seed: u64) -> Vec<u32> {
    let taken: Vec<Books> = opened.iter().map(|n| Books { from: *n, to: *n }).collect();
    let closed = without(whole, &taken);
    let lot: u32 = closed.iter().map(Books::count).sum();
    let size = size.min(lot).min(2_000);
    // A sample that is nearly the whole lot would be drawn for long; then what is left out is drawn.
    let out = size > lot / 2;
    let wanted = if out { lot - size } else { size } as usize;
    let mut drawn = std::collections::BTreeSet::new();
    let mut dice = Dice::new(seed);
    while drawn.len() < wanted {
        drawn.insert(dice.below(lot));
    }
    let picked: Vec<u32> =
        if out { (0..lot).filter(|i| !drawn.contains(i)).collect() } else { drawn.into_iter().collect() };
    let (mut sample, mut left, mut ranges) = (Vec::with_capacity(size as usize), 0_u32, closed.iter());
    let mut at = ranges.next();
    for i in picked {
        while let Some(books) = at {
            if i - left < books.count() {
                sample.push(books.from + (i - left));
                break;
            }
            left += books.count();
            at = ranges.next();
        }
    }
    sample
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_sample_grows_with_the_lot() {
        let sizes = [(1, 1), (200, 32), (500, 50), (1_000, 80), (2_000, 125), (5_000, 200), (20_000, 315)];
        for (lot, size) in sizes {
            assert_eq!(sample_size(lot), size, "{lot}");
        }
    }

    #[test]
    fn what_a_good_sample_proves() {
        // By hand: 10 books, 8 opened: one bad is missed with 2/10, two with 1/45 = 2 in 100.
        assert_eq!(most_bad(10, 8), 1);
        assert_eq!((most_bad(10, 10), most_bad(10, 0), most_bad(0, 0)), (0, 10, 0));
        // Sampled with replacement it is the rule of three, 3/80 of 1,000 = 37; without, a little less.
        assert!((33..=37).contains(&most_bad(1_000, 80)));
        assert!(proves(1_000, 80).starts_with("If all 80 are good, it is 95 in 100 sure that no more than 3"));
    }

    /// The definition in whole numbers: of all samples, those that miss every bad book.
    #[test]
    fn the_bound_is_the_definition() {
        let choose = |n: u32, k: u32| (0..u128::from(k)).fold(1_u128, |c, i| c * (u128::from(n) - i) / (i + 1));
        for lot in 1..40 {
            for sample in 1..=lot {
                let rare = |bad: u32| lot - bad < sample || 20 * choose(lot - bad, sample) < choose(lot, sample);
                let first = (0..=lot).find(|bad| rare(*bad)).unwrap();
                assert_eq!(most_bad(lot, sample), first - 1, "{sample} of {lot}");
            }
        }
    }

    #[test]
    fn a_sample_is_drawn_of_books_that_are_not_opened_each_once() {
        let whole = Books { from: 11, to: 210 };
        for size in [1, 20, 150, 199, 200, 999] {
            let opened: Vec<u32> = (50..60).collect();
            let sample = draw(whole, &opened, size, 7);
            assert_eq!(sample.len() as u32, size.min(190));
            assert!(sample.windows(2).all(|w| w[0] < w[1]), "rising");
            assert!(sample.iter().all(|n| whole.has(*n) && !opened.contains(n)));
        }
        assert_eq!(draw(whole, &[], 20, 7), draw(whole, &[], 20, 7));
        assert_ne!(draw(whole, &[], 20, 7), draw(whole, &[], 20, 8));
    }
}
