//! An explanation accounted for: why it ranks where it does, in what the next ones are worse, what would be seen if it
//! were so, how the book is mended, and the book it makes, to be drawn beside the right one.

use serde::Serialize;

use super::odds::Odds;
use super::straight::{MOST, Straight};
use super::work::Work;
use super::{Explained, Explanation, remedy, words};
use crate::gather::fault::Fault;
use crate::gather::places::retold;
use crate::gather::run::print_run;
use crate::gather::say;
use crate::marks::Found;
use crate::units;

/// Steps for the explanations with more faults.
const FARTHER_STEPS: u64 = 300_000;
/// Weights that differ by less than this share are equal.
const ALIKE: f64 = 1e-9;

/// One explanation with everything that is to be said of it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Account {
    /// The faults, as in [`Explanation::faults`].
    pub faults: Vec<Fault>,
    /// The faults in a few words.
    pub says: String,
    /// The share among the explanations found, 0 to 1.
    pub odds: f64,
    /// Sections more (or less) than in a good book.
    pub bulk: i32,
    /// Why it ranks where it does: how many faults, how often such faults are met.
    pub why: String,
    /// In what it is worse than the first, and what would have to be seen besides for it; empty for the first.
    pub why_not: String,
    /// What else is seen if it is so: over and short at the stations, the books on either side.
    pub seen_if: Vec<String>,
    /// What to look at next.
    pub next_check: String,
    /// What to mind while looking at a machine; empty where no machine is to be looked at.
    pub caution: String,
    /// How the book is mended, and those made like it.
    pub remedy: String,
    /// The book these faults make, from front to back.
    pub makes: Vec<Found>,
    /// The same as a typed run.
    pub run: String,
    /// Other names for the same order.
    pub same_order_as: Vec<Also>,
}

/// Another name for the same order.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Also {
    /// The faults.
    pub faults: Vec<Fault>,
    /// The faults in a few words.
    pub says: String,
    /// What else is seen if it is so.
    pub seen_if: Vec<String>,
    /// What to look at next.
    pub next_check: String,
    /// How the book is mended.
    pub remedy: String,
}

/// An explanation that takes more faults than the fewest.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Farther {
    /// The faults.
    pub faults: Vec<Fault>,
    /// The faults in a few words.
    pub says: String,
    /// Why it is not told first, and what would have to be seen besides for it.
    pub why_not: String,
}

/// Accounts for the first explanations of what was found in a book of `sections` sections, at most `most`. `odds` are
/// those by which they were ranked.
#[must_use]
pub fn accounts(odds: &Odds, sections: u32, found: &[Found], explained: &Explained, most: usize) -> Vec<Account> {
    let Some(first) = explained.explanations.first() else {
        return Vec::new();
    };
    let top = Ranked::of(odds, first);
    let ranked = |one| Ranked::of(odds, one);
    let all = explained.explanations.iter().map(ranked);
    let alike = all.filter(|one| one.as_likely_as(&top)).count();
    let account = |(place, one): (usize, &Explanation)| {
        let ranked = Ranked::of(odds, one);
        let makes = made(sections, found, &one.faults);
        Account {
            why: why(&ranked, place, explained, alike),
            why_not: if place == 0 { String::new() } else { less_likely(&top, &ranked) },
            says: say::faults(&one.faults),
            seen_if: ranked.seen_if,
            next_check: one.next_check.clone(),
            caution: one.caution.clone(),
            remedy: remedy::remedy(&one.faults, |index| shifted(one, index)),
            run: print_run(&makes),
            makes,
            same_order_as: one.same_order_as.iter().map(|faults| also(faults)).collect(),
            faults: one.faults.clone(),
            odds: one.odds,
            bulk: one.bulk,
        }
    };
    explained.explanations.iter().take(most).enumerate().map(account).collect()
}

/// Explanations that take more faults than the fewest, likeliest first, at most `most`: those of single stations, with
/// as few more as there are any. None for a right book and for one that was not explained.
#[must_use]
pub fn farther(odds: &Odds, sections: u32, found: &[Found], explained: &Explained, most: usize) -> Vec<Farther> {
    let Some(first) = explained.explanations.first() else {
        return Vec::new();
    };
    let is_lying = |fault: &Fault| matches!(fault, Fault::Lies { .. });
    let lying = first.faults.iter().copied().filter(is_lying).collect::<Vec<_>>();
    let straight = Straight::new(sections as usize, found);
    let fewest = first.faults.len() - lying.len();
    for count in fewest + 1..=MOST {
        let mut work = Work::new(FARTHER_STEPS);
        work.begin();
        let ways = straight.ways(count, &mut work).into_iter().map(|mut faults| {
            faults.extend_from_slice(&lying);
            let weight = faults.iter().map(|fault| odds.of(fault, false).0).product::<f64>();
            (weight, faults)
        });
        let mut ways = ways.collect::<Vec<_>>();
        if ways.is_empty() {
            continue;
        }
        ways.sort_by(|(weight, faults), (other, also)| other.total_cmp(weight).then_with(|| faults.cmp(also)));
        let top = Ranked::of(odds, first);
        let told = ways.into_iter().take(most).map(|(_, faults)| Farther {
            says: say::faults(&faults),
            why_not: format!(
                "It takes {} where {} explain{} the book.{}",
                counted(faults.len()),
                counted(first.faults.len()),
                if first.faults.len() == 1 { "s" } else { "" },
                besides(&top.seen_if, &remedy::seen_if(&faults, |_| false))
            ),
            faults,
        });
        return told.collect();
    }
    Vec::new()
}

/// The book that these faults make. Of two copies of a section the one lies wrong that was found so.
fn made(sections: u32, found: &[Found], faults: &[Fault]) -> Vec<Found> {
    let lying_right = |fault: &&Fault| !matches!(fault, Fault::Lies { .. });
    let mut makes = retold(sections, &faults.iter().filter(lying_right).copied().collect::<Vec<_>>());
    for (back, seen) in makes.iter_mut().zip(found) {
        if let (Found::Section { section, .. }, Found::Section { section: also, .. }) = (*back, *seen)
            && section == also
        {
            *back = *seen;
        }
    }
    makes
}

/// An explanation with its weight and what would be seen.
struct Ranked<'a> {
    faults: &'a [Fault],
    weight: f64,
    /// The figures that make the weight, with their words.
    factors: Vec<(f64, &'static str)>,
    seen_if: Vec<String>,
}

impl<'a> Ranked<'a> {
    fn of(odds: &Odds, one: &'a Explanation) -> Self {
        let factors =
            one.faults.iter().enumerate().map(|(index, fault)| odds.of(fault, shifted(one, index))).collect::<Vec<_>>();
        Self {
            faults: &one.faults,
            weight: factors.iter().map(|(figure, _)| figure).product(),
            factors,
            seen_if: remedy::seen_if(&one.faults, |index| shifted(one, index)),
        }
    }

    fn as_likely_as(&self, other: &Self) -> bool {
        (self.weight - other.weight).abs() <= ALIKE * other.weight
    }

    /// The factors as words: `a station that misses a feed (30)`.
    fn says(&self) -> String {
        say::list(
            &self
                .factors
                .iter()
                .map(|(figure, says)| format!("{says} ({})", figure_short(*figure)))
                .collect::<Vec<_>>(),
        )
    }
}

/// Is the fault at an index a move round the whole row? Then another name of the explanation divides the book there.
fn shifted(one: &Explanation, index: usize) -> bool {
    matches!(one.faults.get(index), Some(Fault::Moved { .. }))
        && one.same_order_as.iter().any(|also| matches!(also.get(index), Some(Fault::DividedWrong { .. })))
}

fn why(one: &Ranked, place: usize, explained: &Explained, alike: usize) -> String {
    let all = explained.explanations.len();
    let fewest = format!(
        "{} explain{} the book, and nothing explains it with fewer.",
        say::capital(&counted(one.faults.len())),
        if one.faults.len() == 1 { "s" } else { "" }
    );
    let rank = if all == 1 && explained.complete {
        "Nothing else explains it with as few.".to_owned()
    } else {
        let share = explained.explanations.get(place).map_or(0.0, |one| one.odds * 100.0);
        let of = if explained.complete { format!("the {all}") } else { format!("the first {all}") };
        let tied = if place == 0 && alike > 1 {
            format!(" {} of them are as likely; only what is seen besides decides.", say::capital(&number(alike)))
        } else {
            String::new()
        };
        format!(
            "Among {of} explanations with as few it has {} of 100 parts, by how often such faults are met: {}.{tied}",
            units::short(share),
            one.says()
        )
    };
    format!("{fewest} {rank}")
}

/// In what one is worse than the first.
fn less_likely(first: &Ranked, one: &Ranked) -> String {
    let seen = besides(&first.seen_if, &one.seen_if);
    if one.as_likely_as(first) {
        return format!(
            "It takes as many faults as the first and is as likely; the order here is that of the stations.{seen}"
        );
    }
    format!(
        "It takes as many faults as the first, but is {} times less likely: {} instead of {}.{seen}",
        units::short(first.weight / one.weight),
        one.says(),
        first.says()
    )
}

/// What would have to be seen besides, that is not seen with the first one.
fn besides(first: &[String], one: &[String]) -> String {
    let more = one.iter().filter(|sentence| !first.contains(sentence)).cloned().collect::<Vec<_>>();
    if more.is_empty() { String::new() } else { format!(" For it, this would have to be seen: {}", more.join(" ")) }
}

fn also(faults: &[Fault]) -> Also {
    Also {
        says: say::faults(faults),
        seen_if: remedy::seen_if(faults, |_| false),
        next_check: words::next_check(faults, false),
        remedy: remedy::remedy(faults, |_| false),
        faults: faults.to_vec(),
    }
}

/// `one fault`, `two faults`.
fn counted(faults: usize) -> String {
    format!("{} fault{}", number(faults), if faults == 1 { "" } else { "s" })
}

fn number(count: usize) -> String {
    match count {
        1 => "one".to_owned(),
        2 => "two".to_owned(),
        3 => "three".to_owned(),
        4 => "four".to_owned(),
        5 => "five".to_owned(),
        count => count.to_string(),
    }
}

/// A figure with as many decimals as it needs to be told from 0.
fn figure_short(figure: f64) -> String {
    match units::short(figure).as_str() {
        "0" => "under 0.01".to_owned(),
        text => text.to_owned(),
    }
}
