//! Makes tasks from dice. A try that gives nothing of use is made again with the dice as they lie, so often at the most.

mod books;
mod sheets;
mod spines;

use super::kind::Kind;
use super::task::Task;
use crate::dice::Dice;

/// How often it is tried.
const TRIES: u32 = 200;

/// How many checks there are to choose from.
const CHECKS: usize = 4;

/// The task of a kind, level and seed.
pub(super) fn task(kind: Kind, level: u8, seed: u64) -> Option<Task> {
    // Kind and level are mixed in behind the first roll, so that neighbours have nothing in common.
    let mixed = Dice::new(seed).roll() ^ (u64::from(kind.number()) << 8 | u64::from(level));
    let mut dice = Dice::new(mixed);
    (0..TRIES).find_map(|_| match kind {
        Kind::NumberSheet => sheets::number(level, &mut dice),
        Kind::SetHeads => sheets::heads(level, &mut dice),
        Kind::FindFolds => sheets::folds(level, &mut dice),
        Kind::Bolts => sheets::bolts(level, &mut dice),
        Kind::WrongSheet => sheets::wrong(level, &mut dice),
        Kind::WrongBook => books::wrong(level, &mut dice),
        Kind::MakeUp => books::make_up(level, &mut dice),
        Kind::BackMarks => spines::marks(level, &mut dice),
    })
}

/// One of a list.
fn one_of<'a, T>(list: &'a [T], dice: &mut Dice) -> Option<&'a T> {
    list.get(dice.below(u32::try_from(list.len()).unwrap_or(u32::MAX)) as usize)
}

/// A whole number from `least` to `most`.
fn from_to(least: u32, most: u32, dice: &mut Dice) -> u32 {
    least + dice.below(most.saturating_sub(least) + 1)
}

/// A right check among others, in an order of the dice.
fn checks(right: String, mut others: Vec<String>, dice: &mut Dice) -> Vec<String> {
    let mut checks = vec![right];
    while checks.len() < CHECKS && !others.is_empty() {
        let at = dice.below(u32::try_from(others.len()).unwrap_or(u32::MAX)) as usize;
        if at >= others.len() {
            break;
        }
        let other = others.swap_remove(at);
        if !checks.contains(&other) {
            checks.push(other);
        }
    }
    for last in (1..checks.len()).rev() {
        let with = from_to(0, last as u32, dice) as usize;
        checks.swap(last, with);
    }
    checks
}
