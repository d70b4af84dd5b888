//! The run of a gathering line, and how its stations lie before the counter.

use super::Refusal;
use serde::{Deserialize, Serialize};

/// The largest counter number.
pub const MOST_COUNTER: u32 = 10_000_000;
/// The most stations of a line: as many as a book may have sections.
pub const MOST_STATIONS: u32 = 400;

/// A run of books, by what the counter at the end of the line shows.
///
/// **The convention.** The counter moves by one when a finished book passes it. When it shows N, book N has just
/// passed, and the book that the station with `ahead` books before it fills next is book N + `ahead` + 1. So `ahead` is
/// the number of books that already have (or have missed) this station's section and have not yet passed the counter.
/// A station right at the counter has 0; on a line that fills one book at each place, the station before it has 1, and so on.
/// Books that were taken off the line before the counter do not count.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Line {
    /// The number of the first book of the run.
    pub first: u32,
    /// The number of the last book that was made.
    pub last: u32,
    /// For each station, from station 1, the books between it and the counter; a station that is not in the list has an
    /// unknown number of them.
    #[serde(default)]
    pub ahead: Vec<u32>,
    /// How fast the line ran, books an hour.
    #[serde(default)]
    pub per_hour: Option<u32>,
}

impl Line {
    /// A run of which nothing is known but its counter numbers.
    #[must_use]
    pub const fn of(first: u32, last: u32) -> Self {
        Self { first, last, ahead: Vec::new(), per_hour: None }
    }

    /// A run on a line that fills one book at each place: station 1 is the first that a book passes, the last station
    /// has `after` books between itself and the counter.
    #[must_use]
    pub fn in_a_row(first: u32, last: u32, stations: u32, after: u32) -> Self {
        let ahead = (1..=stations.min(MOST_STATIONS)).rev().map(|s| after.saturating_add(s - 1)).collect();
        Self { first, last, ahead, per_hour: None }
    }

    /// How many books were made.
    #[must_use]
    pub const fn books(&self) -> u32 {
        if self.last < self.first { 0 } else { (self.last - self.first).saturating_add(1) }
    }

    /// The books between a station and the counter, where it is known.
    #[must_use]
    pub fn ahead_of(&self, station: u32) -> Option<u32> {
        self.ahead.get(station.checked_sub(1)? as usize).copied()
    }

    /// Which book a station fills next when the counter shows `counter`. Without `ahead` of it, as if it stood at the
    /// counter: the earliest book that it can be.
    #[must_use]
    pub fn filled_next(&self, station: u32, counter: u32) -> u32 {
        counter.saturating_add(self.ahead_of(station).unwrap_or(0)).saturating_add(1)
    }

    /// The most books that lie between a station and the counter.
    #[must_use]
    pub fn longest(&self) -> u32 {
        self.ahead.iter().copied().max().unwrap_or(0)
    }

    /// Books made in so many minutes, rounded up; 3,600 an hour and 10 minutes are 600 books.
    #[must_use]
    pub fn books_in(&self, minutes: u32) -> Option<u32> {
        let books = (u64::from(self.per_hour?) * u64::from(minutes)).div_ceil(60);
        Some(u32::try_from(books).unwrap_or(u32::MAX))
    }

    /// Whether the run can be worked with.
    ///
    /// # Errors
    /// Where a number is out of bounds.
    pub fn check(&self) -> Result<(), Refusal> {
        if !(1..=MOST_COUNTER).contains(&self.first) {
            return Err(Refusal::new("first", format!("counter numbers go from 1 to {MOST_COUNTER}")));
        }
        if self.last < self.first || self.last > MOST_COUNTER {
            let says = format!("the last book has a number from {} to {MOST_COUNTER}", self.first);
            return Err(Refusal::new("last", says));
        }
        if self.ahead.len() > MOST_STATIONS as usize {
            return Err(Refusal::new("ahead", format!("a line has {MOST_STATIONS} stations at the most")));
        }
        if let Some(i) = self.ahead.iter().position(|a| *a > MOST_COUNTER) {
            let says = format!("there can't be more than {MOST_COUNTER} books between a station and the counter");
            return Err(Refusal::new(format!("ahead[{i}]"), says));
        }
        if self.per_hour.is_some_and(|p| !(1..=1_000_000).contains(&p)) {
            return Err(Refusal::new("per_hour", "a line makes from 1 to 1000000 books an hour"));
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ten_minutes_between_checks_are_six_hundred_books() {
        let line = Line { per_hour: Some(3600), ..Line::of(1, 5000) };
        assert_eq!((line.books_in(10), line.books_in(0), Line::of(1, 2).books_in(10)), (Some(600), Some(0), None));
        assert_eq!(Line { per_hour: Some(u32::MAX), ..line }.books_in(u32::MAX), Some(u32::MAX));
    }

    #[test]
    fn the_first_station_of_a_row_has_most_books_before_the_counter() {
        let line = Line::in_a_row(1, 100, 4, 2);
        assert_eq!(line.ahead, [5, 4, 3, 2]);
        // The counter shows 10: books 11 and 12 have all sections, and station 4 fills 13.
        assert_eq!((line.filled_next(4, 10), line.filled_next(1, 10), line.filled_next(9, 10)), (13, 16, 11));
    }

    #[test]
    fn a_run_out_of_bounds_is_refused_where_it_is() {
        let at = |line: Line| line.check().unwrap_err().at;
        assert_eq!(at(Line::of(0, 5)), "first");
        assert_eq!(at(Line::of(6, 5)), "last");
        assert_eq!(at(Line { ahead: vec![0, u32::MAX], ..Line::of(1, 5) }), "ahead[1]");
        assert_eq!(at(Line { per_hour: Some(0), ..Line::of(1, 5) }), "per_hour");
        assert_eq!(Line::of(5, 5).check(), Ok(()));
    }
}
