//! Books of a run by their counter numbers: which were opened, and between which two the trouble begins.
//!
//! One fault that came and stayed, so a book is good before it and wrong from it on. Where a fault comes and goes,
//! [`crate::since`] knows more.

use std::collections::BTreeSet;

/// A run of books, of which one is known to be good and a later one to be wrong.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Run {
    /// A good book.
    pub good: u32,
    /// A wrong book after it.
    pub wrong: u32,
    /// The first wrong one. Whoever looks for it does not see it here.
    pub since: u32,
    /// Books that were opened beside these two.
    pub opened: BTreeSet<u32>,
}

impl Run {
    /// A run of which nothing was opened yet.
    #[must_use]
    pub const fn new(good: u32, since: u32, wrong: u32) -> Self {
        Self { good, wrong, since, opened: BTreeSet::new() }
    }

    /// Opens a book, if it lies between the two that are known.
    pub fn open(&mut self, book: u32) {
        if (self.good..=self.wrong).contains(&book) {
            self.opened.insert(book);
        }
    }

    /// What is known of a book: whether it is good. `None` for one that nobody opened.
    #[must_use]
    pub fn is_good(&self, book: u32) -> Option<bool> {
        let known = book == self.good || book == self.wrong || self.opened.contains(&book);
        known.then_some(book < self.since)
    }

    /// The last book that is known to be good, and the first one known to be wrong.
    #[must_use]
    pub fn between(&self) -> (u32, u32) {
        let good = self.opened.iter().copied().filter(|b| *b < self.since).max();
        let wrong = self.opened.iter().copied().find(|b| *b >= self.since);
        (good.unwrap_or(self.good).max(self.good), wrong.unwrap_or(self.wrong).min(self.wrong))
    }

    /// Whether these two lie side by side.
    #[must_use]
    pub fn closed(&self) -> bool {
        let (good, wrong) = self.between();
        wrong.saturating_sub(good) <= 1
    }

    /// The book in the middle of what is not known yet: opening it leaves the fewest books, whatever it shows.
    #[must_use]
    pub fn middle(&self) -> u32 {
        let (good, wrong) = self.between();
        good + wrong.saturating_sub(good) / 2
    }

    /// How many books are wrong, up to the one that was found.
    #[must_use]
    pub const fn to_hold(&self) -> u32 {
        self.wrong.saturating_sub(self.since) + 1
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Halving 32 books takes five openings wherever the first wrong one is: 2 to the 5th is 32.
    #[test]
    fn five_openings_close_a_bracket_of_thirty_two() {
        for since in 1449..=1480 {
            let mut run = Run::new(1448, since, 1480);
            let mut openings = 0;
            while !run.closed() {
                run.open(run.middle());
                openings += 1;
            }
            assert!(openings <= 5, "{since}: {openings}");
            assert_eq!(run.between(), (since - 1, since));
            assert_eq!(run.to_hold(), 1481 - since);
        }
    }

    #[test]
    fn books_outside_are_not_opened_and_unopened_ones_not_known() {
        let mut run = Run::new(10, 14, 20);
        run.open(5);
        assert_eq!((run.opened.len(), run.is_good(5), run.is_good(12)), (0, None, None));
        assert_eq!((run.is_good(10), run.is_good(20)), (Some(true), Some(false)));
        run.open(13);
        assert_eq!((run.is_good(13), run.between()), (Some(true), (13, 20)));
    }
}
