//! How often the planted cause is told first: seeded books with one and with two faults, planted as often as the odds say.

#![expect(clippy::unwrap_used, reason = "a test may panic")]

use backmark::dice::Dice;
use backmark::gather::{Fault, Found, Lies, explain, retold};

/// One fault of a book, by the odds at hand: mostly feeds, then wrong loads, then how piles and stacks were laid.
fn fault(dice: &mut Dice, n: u32) -> Fault {
    let one = |dice: &mut Dice| 1 + dice.below(n);
    let two = |dice: &mut Dice| {
        let a = 1 + dice.below(n);
        let b = 1 + (a + dice.below(n - 1)) % n;
        [a.min(b), a.max(b)]
    };
    match dice.below(151) {
        0..30 => Fault::Missing { section: one(dice) },
        30..60 => Fault::Double { section: one(dice) },
        60..80 => {
            let [at, section] = two(dice);
            if dice.below(2) == 0 {
                Fault::WrongSection { at, section }
            } else {
                Fault::WrongSection { at: section, section: at }
            }
        }
        80..100 => {
            let at = 1 + dice.below(n - 1);
            if dice.below(2) == 0 {
                Fault::WrongSection { at, section: at + 1 }
            } else {
                Fault::WrongSection { at: at + 1, section: at }
            }
        }
        100..110 => Fault::Foreign { at: one(dice) },
        110..120 => Fault::NoMark { at: one(dice) },
        120..130 => {
            let lies = [Lies::HeadToTail, Lies::TurnedInPlane, Lies::SideToSide][dice.below(3) as usize];
            Fault::Lies { section: one(dice), lies }
        }
        130..137 => {
            let a = 1 + dice.below(n - 1);
            Fault::Exchanged { sections: [a, a + 1] }
        }
        137..142 => Fault::Exchanged { sections: two(dice) },
        142..148 => moved(dice, n),
        _ => Fault::Reversed,
    }
}

/// A block of the right row moved, named by the shorter block.
fn moved(dice: &mut Dice, n: u32) -> Fault {
    loop {
        let mut cuts = [dice.below(n + 1), dice.below(n + 1), dice.below(n + 1)];
        cuts.sort_unstable();
        let [i, j, k] = cuts;
        if i < j && j < k && k - i > 2 {
            let shorter = j - i <= k - j;
            return if shorter {
                Fault::Moved { sections: [i + 1, j], after: k }
            } else {
                Fault::Moved { sections: [j + 1, k], after: i }
            };
        }
    }
}

/// The section or station that a fault is about; several for acts on the row.
fn about(fault: &Fault) -> Vec<u32> {
    match *fault {
        Fault::Missing { section } | Fault::Double { section } | Fault::Lies { section, .. } => vec![section],
        Fault::WrongSection { at, section } => vec![at, section],
        Fault::Foreign { at } | Fault::NoMark { at } => vec![at],
        Fault::Exchanged { sections } => sections.to_vec(),
        Fault::Moved { sections: [a, b], .. } => (a..=b).collect(),
        Fault::Reversed | Fault::DividedWrong { .. } => vec![],
    }
}

/// Faults in the order in which an explanation tells them.
fn told(fault: &Fault) -> u32 {
    match fault {
        Fault::Moved { .. } => 0,
        Fault::Exchanged { .. } => 1,
        Fault::Reversed => 2,
        Fault::Lies { .. } => 4,
        _ => 3,
    }
}

/// So many faults that have nothing to do with each other.
fn planted(dice: &mut Dice, n: u32, count: usize) -> Vec<Fault> {
    let mut faults = Vec::<Fault>::new();
    while faults.len() < count {
        let next = fault(dice, n);
        let apart = |one: &Fault| {
            let both_acts = told(one) == told(&next) && told(one) != 3 && told(one) != 4;
            !both_acts && about(one).iter().all(|station| !about(&next).contains(station))
        };
        if faults.iter().all(apart) {
            faults.push(next);
        }
    }
    faults.sort_by_key(told);
    faults
}

/// In how many of so many seeded books the planted faults are told first, alone or shown as equally likely; in how many
/// they stand further down; in how many they are not there.
fn first(cases: u64, count: usize) -> [u32; 4] {
    let mut counts = [0; 4];
    for seed in 0..cases {
        let mut dice = Dice::new(seed);
        let n = 6 + dice.below(35);
        let mut faults = planted(&mut dice, n, count);
        let found: Vec<Found> = retold(n, &faults);
        let explained = explain(n, &found).unwrap();
        faults.sort_unstable();
        let same = |listed: &[Fault]| {
            let mut listed = listed.to_vec();
            listed.sort_unstable();
            listed == faults
        };
        let all = &explained.explanations;
        let place = all.iter().position(|one| same(&one.faults));
        let rank = match place {
            Some(0) if all.len() == 1 || all[1].odds < all[0].odds => 0,
            Some(at) if (all[at].odds - all[0].odds).abs() < 1e-12 => 1,
            Some(_) => 2,
            None => 3,
        };
        if rank > 1 {
            println!("seed {seed}: {n} sections, {faults:?}; told is {:?}", all.first().map(|one| &one.faults));
        }
        counts[rank] += 1;
    }
    counts
}

fn at_least(share: f64, cases: u64, count: usize) {
    let [alone, tied, lower, absent] = first(cases, count);
    let found = f64::from(alone + tied) / cases as f64;
    println!("{count} faults: {alone} first, {tied} first with others as likely, {lower} lower, {absent} not: {found}");
    assert!(found >= share, "{found}");
}

#[test]
fn one_planted_fault_is_told_first() {
    at_least(0.995, 2_000, 1);
}

#[test]
fn two_planted_faults_are_told_first() {
    at_least(0.97, 1_000, 2);
}

#[test]
#[ignore = "a minute in release; run when the search or the odds change"]
fn planted_faults_are_told_first_in_a_hundred_thousand_books() {
    at_least(0.995, 100_000, 1);
    at_least(0.97, 100_000, 2);
}
