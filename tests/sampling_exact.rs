//! Acceptance by a sample against whole-numbered fractions, against another library, and against plans of the standard.

#![expect(clippy::unwrap_used, reason = "a test may panic")]

use backmark::sampling::{MOST_LOT, Plan};
use num_bigint::BigInt;
use num_rational::BigRational;
use proptest::prelude::*;
use statrs::distribution::{DiscreteCDF, Hypergeometric};

/// C(n, k).
fn choose(n: u32, k: u32) -> BigInt {
    (0..k.min(n - k)).fold(BigInt::from(1), |product, i| product * (n - i) / (i + 1))
}

/// Every sample counted: those with at most `accept` bad books among all.
fn counted(Plan { lot, sample, accept }: Plan, bad: u32) -> BigRational {
    let fits = |x: &u32| *x <= bad && sample - *x <= lot - bad;
    let good = (0..=sample.min(accept)).filter(fits).map(|x| choose(bad, x) * choose(lot - bad, sample - x));
    BigRational::new(good.sum(), choose(lot, sample))
}

/// How far a chance is from a fraction, to some 1e-17.
fn far(chance: f64, fraction: &BigRational) -> f64 {
    let apart = BigRational::from_float(chance).unwrap() - fraction;
    // Below 2^-60 the rest doesn't matter.
    let scaled: BigInt = (apart * BigRational::from_integer(BigInt::from(1_u64 << 60))).to_integer();
    let scaled: i64 = scaled.try_into().unwrap_or(i64::MAX);
    (scaled as f64 / (1_u64 << 60) as f64).abs()
}

#[test]
fn equal_to_whole_numbered_fractions_on_a_grid() {
    let mut worst = 0.0_f64;
    let mut compared = 0;
    // Every plan and every number of bad books of the smallest lots.
    let small = (1..=9).flat_map(|lot| {
        (0..=lot).flat_map(move |sample| {
            (0..=sample.min(lot)).flat_map(move |accept| (0..=lot).map(move |bad| (Plan { lot, sample, accept }, bad)))
        })
    });
    // And some of larger ones, with the samples and acceptance numbers of the usual plans.
    let large = [90, 500, 1000, 3200].into_iter().flat_map(|lot| {
        [1, 20, 50, 80].into_iter().flat_map(move |sample| {
            [0, 1, 2, 5, 10].into_iter().flat_map(move |accept| {
                [0, 1, 2, 7, lot / 100, lot / 10, lot / 2, lot - 1, lot]
                    .into_iter()
                    .map(move |bad| (Plan { lot, sample, accept }, bad))
            })
        })
    });
    for (plan, bad) in small.chain(large) {
        let chance = plan.accepted(bad).unwrap();
        let apart = far(chance, &counted(plan, bad));
        assert!(apart < 1e-12, "{plan:?}, {bad} bad: {chance} is {apart:e} off");
        worst = worst.max(apart);
        compared += 1;
    }
    println!("{compared} chances, the worst {worst:e} off");
}

#[test]
#[ignore = "a minute in release: fractions of a hundred thousand digits"]
fn equal_to_whole_numbered_fractions_in_the_largest_lots() {
    for lot in [100_000, MOST_LOT] {
        for (sample, bad, accept) in
            [(2_000, lot / 5, 390), (2_000, lot / 5, 400), (2_000, lot / 5, 425), (500, lot / 1000, 0)]
        {
            let plan = Plan { lot, sample, accept };
            let chance = plan.accepted(bad).unwrap();
            let apart = far(chance, &counted(plan, bad));
            println!("{plan:?} {bad}: {chance}, {apart:e} off");
            assert!(apart < 1e-12);
        }
    }
}

/// Where half a large lot is opened and half is bad the law is symmetric, so that what is right there is known without
/// reckoning: with an odd sample no more than half of it is bad in half of the cases.
#[test]
fn the_largest_lots_keep_their_symmetry() {
    for sample in [1, 125, 99_999, 499_999] {
        let plan = Plan { lot: MOST_LOT, sample, accept: sample / 2 };
        let chance = plan.accepted(MOST_LOT / 2).unwrap();
        assert!((chance - 0.5).abs() < 1e-12, "{sample}: {chance}");
    }
}

/// The crate `statrs` reckons with logarithms of the gamma function, so it is near and not exact.
#[test]
fn near_another_library() {
    for (lot, sample, bad) in [(1000, 80, 10), (1000, 80, 100), (35_000, 315, 1_000), (1_000_000, 2_000, 40_000)] {
        let law = Hypergeometric::new(lot.into(), bad.into(), sample.into()).unwrap();
        for accept in [0, 1, 2, 7, 21, 80] {
            let chance = Plan { lot, sample, accept }.accepted(bad).unwrap();
            let other = law.cdf(accept.into());
            assert!((chance - other).abs() < 1e-6, "{lot} {sample} {bad} {accept}: {chance}, {other}");
        }
    }
}

/// Single sampling plans for normal inspection, general level II, of ISO 2859-1 (the tables are those of MIL-STD-105E; as
/// printed at nibs.org, AC-TABLE.ASC, and qualitycontrolpartners.com/aql-tables): lots from and to, sample, acceptance
/// numbers at AQL 0.65, 1.0, 2.5 and 4.0, `None` where the table sends one to another row.
type Row = ([u32; 2], u32, [Option<u32>; 4]);
const ROWS: [Row; 6] = [
    ([151, 280], 32, [None, None, Some(2), Some(3)]),
    ([281, 500], 50, [None, Some(1), Some(3), Some(5)]),
    ([501, 1200], 80, [Some(1), Some(2), Some(5), Some(7)]),
    ([1201, 3200], 125, [Some(2), Some(3), Some(7), Some(10)]),
    ([3201, 10_000], 200, [Some(3), Some(5), Some(10), Some(14)]),
    ([10_001, 35_000], 315, [Some(5), Some(7), Some(14), Some(21)]),
];

/// The standard makes its plans so that a lot at the acceptable quality is nearly always accepted: in 88 to 99.5 of 100
/// cases (from memory), the more the larger the sample.
#[test]
fn plans_of_the_standard_accept_what_they_should() {
    for (lots, sample, accepts) in ROWS {
        for (accept, per_ten_thousand) in accepts.into_iter().zip([65, 100, 250, 400]) {
            let Some(accept) = accept else { continue };
            for lot in lots {
                let plan = Plan { lot, sample, accept };
                let bad = lot * per_ten_thousand / 10_000;
                let chance = plan.accepted(bad).unwrap();
                assert!((0.88..=1.0).contains(&chance), "{plan:?} with {bad} bad: {chance}");
                // Ten times as bad is nearly always refused.
                let chance = plan.accepted(bad * 10).unwrap();
                assert!(chance < 0.11, "{plan:?} with {} bad: {chance}", bad * 10);
            }
        }
    }
}

/// The curve of the plan with 20 opened and none accepted, where lots are large: accepted are (1 − p)^20, so that 95 of
/// 100 are accepted with 0.256 in a hundred bad, and 10 of 100 with 10.9, as the curves of the standard show (from memory).
#[test]
fn twenty_opened_and_none_accepted() {
    let plan = Plan { lot: MOST_LOT, sample: 20, accept: 0 };
    assert!((2_540..2_580).contains(&plan.bad_below(0.95).unwrap().unwrap()));
    assert!((108_500..109_000).contains(&plan.bad_below(0.10).unwrap().unwrap()));
}

/// A lot and a plan for it.
fn any_plan() -> impl Strategy<Value = Plan> {
    (1..=MOST_LOT).prop_flat_map(|lot| (Just(lot), 0..=lot, 0..=lot)).prop_map(|(lot, sample, accept)| Plan {
        lot,
        sample,
        accept,
    })
}

proptest! {
    #[test]
    fn any_chance_is_one_and_falls_with_every_bad_book(plan in any_plan(), bad in any::<prop::sample::Index>()) {
        let bad = bad.index(plan.lot as usize) as u32;
        let [less, more] = [bad, bad + 1].map(|bad| plan.accepted(bad).unwrap());
        prop_assert!((0.0..=1.0).contains(&less) && (0.0..=1.0).contains(&more));
        prop_assert!(more <= less + 1e-12, "{less} {more}");
        // Opening one more accepts no more.
        if plan.sample < plan.lot {
            let chance = Plan { sample: plan.sample + 1, ..plan }.accepted(bad).unwrap();
            prop_assert!(chance <= less + 1e-12);
        }
    }

    /// It is all the same which of the two is drawn: the books opened from the lot, or the bad ones.
    #[test]
    fn sample_and_bad_books_change_places(plan in any_plan(), bad in any::<prop::sample::Index>()) {
        let bad = bad.index(plan.lot as usize + 1) as u32;
        let [one, other] = [plan.accepted(bad), Plan { sample: bad, ..plan }.accepted(plan.sample)];
        prop_assert!((one.unwrap() - other.unwrap()).abs() < 1e-12);
    }
}
