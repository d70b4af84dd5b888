//! A book spoiled by chance, for a class to find out what is wrong with it.

use super::action::{Action, Spoil};
use super::job::{Evidence, Job};
use super::state::State;
use super::update::update;
use crate::dice::Dice;
use crate::gather::Lies;
use crate::gather::stack::Stack;
use std::rc::Rc;

/// How often another fault is tried where one can't be made in this book.
const TRIES: u32 = 20;

/// The right book of a job with one fault that a hand or a station makes, chosen by the seed. In a book too small for any it stays
/// right.
#[must_use]
pub fn spoiled_book(job: &Job, seed: u64) -> Job {
    let right = Job { stack: Stack::good(job.sections), evidence: Evidence::Stack, ..job.clone() };
    let mut dice = Dice::new(seed);
    let sections = right.sections;
    let begun = State { job: Rc::new(right.clone()), ..State::default() };
    for _ in 0..TRIES {
        // Not the first and not the last section: that one of those is missing, marks don't show.
        let inner = 2 + dice.below(sections.saturating_sub(2));
        let other = 1 + dice.below(sections);
        let spoil = match dice.below(7) {
            0 => Spoil::LeaveOut(inner),
            1 => Spoil::TakeTwo(inner),
            2 => Spoil::Exchange(inner, inner + 1),
            3 => Spoil::Lay(inner, Lies::HeadToTail),
            4 => Spoil::Foreign(inner),
            5 => Spoil::Misfold(inner, 1),
            _ => Spoil::PutIn(inner, other),
        };
        let job = update(&begun, Action::Spoil(spoil)).0.job;
        if job.seen() != right.seen() {
            return (*job).clone();
        }
    }
    right
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::gather::check_backs;
    use std::collections::BTreeSet;

    #[test]
    fn every_seed_spoils_a_book_so_that_its_marks_show_it() {
        let job = Job::default();
        let mut kinds = BTreeSet::new();
        for seed in 1..=30 {
            let spoiled = spoiled_book(&job, seed);
            let told = check_backs(spoiled.sections, &spoiled.design, &spoiled.seen()).unwrap().verdict;
            assert!(!told.right, "seed {seed}");
            kinds.insert(told.lines[0].title.split(' ').skip(2).collect::<Vec<_>>().join(" "));
            assert_eq!(spoiled_book(&job, seed), spoiled, "the same for the same seed");
        }
        assert!(kinds.len() >= 5, "{kinds:?}");
    }

    #[test]
    fn a_book_of_one_section_stays_right() {
        let job = Job { sections: 1, stack: Stack::good(1), ..Job::default() };
        assert_eq!(spoiled_book(&job, 3).stack.placed().len(), 1);
    }
}
