//! The logbook: what was practised, and what to practise next.

use super::kind::{Kind, LEVELS};
use super::marked::halves;
use crate::csv::line;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use thiserror::Error;

/// The most entries of a logbook. A bound of this program; more than a person practises in years.
pub const MOST_ENTRIES: usize = 10_000;
/// The longest date, in bytes.
const MOST_DATE: usize = 100;
/// The most half marks of an exercise, and minutes spent on it.
const MOST: u32 = 100_000;

/// How many of the last tries of a kind and level count.
const LAST: usize = 5;
/// Below so many per cent a kind and level is weak. A pass mark of 80 %: common practice, no source.
const PASS_PERCENT: u64 = 80;
/// So many tries good in a row lead on to the next level.
const LEAD_ON: usize = 3;

/// The rules by which the next exercise is chosen: the first one that applies. Simple ones of our own; that practice spaced
/// out lasts longer is known to teaching (from memory).
pub const RULES: [&str; 4] = [
    "What is weak is practised again: the kind and level whose last five tries have fewest marks, if these are below 80 of a \
     hundred.",
    "What was good comes back after a while: a kind and level that was practised n times comes back once as many exercises of \
     other kinds lie behind it as two to the n, at most sixty-four.",
    "What was good three times in a row leads on: the same kind one level higher.",
    "Else the kind that was practised least comes next, at the highest level that was tried.",
];

/// One exercise that was done.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Entry {
    /// Its kind.
    pub kind: Kind,
    /// Its level.
    pub level: u8,
    /// The number it was made from.
    pub seed: u64,
    /// The date, as it was written.
    #[serde(default)]
    pub date: String,
    /// Half marks given.
    pub got: u32,
    /// Half marks that there were.
    pub of: u32,
    /// Hints taken.
    #[serde(default)]
    pub hints: u32,
    /// Minutes spent, as they were given.
    #[serde(default)]
    pub minutes: u32,
}

/// Sums of a kind and level.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Total {
    /// The kind.
    pub kind: Kind,
    /// The level.
    pub level: u8,
    /// How often it was tried.
    pub tries: u32,
    /// Half marks given in all of them.
    pub got: u64,
    /// Half marks that there were.
    pub of: u64,
    /// Hints taken.
    pub hints: u64,
    /// Minutes spent.
    pub minutes: u64,
    /// Of a hundred marks of its last five tries, so many were given; rounded down.
    pub last_percent: u32,
}

/// What to practise next.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Next {
    /// The kind.
    pub kind: Kind,
    /// The level.
    pub level: u8,
    /// The number to make it from: the first one that is not in the logbook.
    pub seed: u64,
    /// The rule, one of [`RULES`].
    pub rule: &'static str,
    /// Why it applies.
    pub says: String,
}

/// Why an entry is not kept.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[error("{says}")]
pub struct NotKept {
    /// The path to it.
    pub at: String,
    /// Why, in a sentence.
    pub says: String,
}

/// A logbook. Nothing is ever taken out of it: what has no place is refused, and what is there stays.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Logbook(Vec<Entry>);

impl Logbook {
    /// A logbook of entries, the oldest first.
    ///
    /// # Errors
    /// When an entry can't be, or there are too many.
    pub fn of(entries: Vec<Entry>) -> Result<Self, NotKept> {
        if entries.len() > MOST_ENTRIES {
            let says = format!("A logbook holds {MOST_ENTRIES} entries. Begin another one; this one stays as it is.");
            return Err(NotKept { at: "logbook".into(), says });
        }
        for (at, entry) in entries.iter().enumerate() {
            entry.check().map_err(|(field, says)| NotKept { at: format!("logbook[{at}].{field}"), says })?;
        }
        Ok(Self(entries))
    }

    /// The entries, the oldest first.
    #[must_use]
    pub fn entries(&self) -> &[Entry] {
        &self.0
    }

    /// Adds an entry at the end.
    ///
    /// # Errors
    /// When it can't be, or the logbook is full. The logbook is then as it was.
    pub fn add(&mut self, entry: Entry) -> Result<(), NotKept> {
        if self.0.len() >= MOST_ENTRIES {
            let says = format!("A logbook holds {MOST_ENTRIES} entries. Begin another one; this one stays as it is.");
            return Err(NotKept { at: "logbook".into(), says });
        }
        entry.check().map_err(|(field, says)| NotKept { at: field.into(), says })?;
        self.0.push(entry);
        Ok(())
    }

    /// Sums by kind and level, in the order in which they are learnt.
    #[must_use]
    pub fn totals(&self) -> Vec<Total> {
        let mut tries: BTreeMap<(Kind, u8), Vec<&Entry>> = BTreeMap::new();
        for entry in &self.0 {
            tries.entry((entry.kind, entry.level)).or_default().push(entry);
        }
        let total = |((kind, level), entries): ((Kind, u8), Vec<&Entry>)| {
            let sum = |of: fn(&Entry) -> u32| entries.iter().map(|e| u64::from(of(e))).sum();
            let (mut got, mut of) = (0, 0);
            for entry in entries.iter().rev().take(LAST) {
                got += u64::from(entry.got);
                of += u64::from(entry.of);
            }
            Total {
                kind,
                level,
                tries: entries.len() as u32,
                got: sum(|e| e.got),
                of: sum(|e| e.of),
                hints: sum(|e| e.hints),
                minutes: sum(|e| e.minutes),
                last_percent: (got * 100).checked_div(of).unwrap_or(0) as u32,
            }
        };
        tries.into_iter().map(total).collect()
    }

    /// What is weak, the weakest first.
    #[must_use]
    pub fn weak(&self) -> Vec<Total> {
        let mut weak = self.totals();
        weak.retain(|total| u64::from(total.last_percent) < PASS_PERCENT);
        weak.sort_by_key(|total| total.last_percent);
        weak
    }

    /// What to practise next, by the first of [`RULES`] that applies.
    #[must_use]
    pub fn next(&self) -> Next {
        let totals = self.totals();
        let next = |kind: Kind, level: u8, rule: usize, says: String| Next {
            kind,
            level,
            seed: self.new_seed(kind, level),
            rule: RULES.get(rule).copied().unwrap_or_default(),
            says,
        };
        if let Some(weak) = self.weak().first() {
            let says = format!(
                "In the last tries of \u{201c}{}\u{201d}, level {}, {} of a hundred marks were had.",
                weak.kind.title(),
                weak.level,
                weak.last_percent
            );
            return next(weak.kind, weak.level, 0, says);
        }
        let behind = |t: &Total| self.0.iter().rev().take_while(|e| (e.kind, e.level) != (t.kind, t.level)).count();
        let due = |t: &&Total| behind(t) >= 1_usize << t.tries.min(6);
        if let Some(due) = totals.iter().filter(due).max_by_key(|t| behind(t)) {
            let says = format!(
                "\u{201c}{}\u{201d}, level {}, was last practised {} exercises ago.",
                due.kind.title(),
                due.level,
                behind(due)
            );
            return next(due.kind, due.level, 1, says);
        }
        let good = |e: &&Entry| u64::from(e.got) * 100 >= u64::from(e.of) * PASS_PERCENT;
        let leads = |t: &&Total| {
            let last = self.0.iter().rev().filter(|e| (e.kind, e.level) == (t.kind, t.level)).take(LEAD_ON);
            let higher = totals.iter().any(|o| o.kind == t.kind && o.level > t.level);
            t.level < LEVELS && !higher && last.filter(good).count() == LEAD_ON
        };
        if let Some(total) = totals.iter().find(leads) {
            let says = format!(
                "\u{201c}{}\u{201d}, level {}, was good three times in a row.",
                total.kind.title(),
                total.level
            );
            return next(total.kind, total.level + 1, 2, says);
        }
        let tries = |kind: Kind| totals.iter().filter(|t| t.kind == kind).map(|t| t.tries).sum::<u32>();
        let kind = Kind::ALL.into_iter().min_by_key(|kind| tries(*kind)).unwrap_or(Kind::NumberSheet);
        let known = totals.iter().filter(|t| t.kind == kind).map(|t| t.level);
        // It was tried and is not good three times in a row yet: it goes on where it is.
        let level = known.max().unwrap_or(1);
        let says = match tries(kind) {
            0 => format!("\u{201c}{}\u{201d} was not tried yet.", kind.title()),
            times => format!("\u{201c}{}\u{201d} was tried least: {times} times.", kind.title()),
        };
        next(kind, level, 3, says)
    }

    /// The first number from which this kind and level was not made.
    #[must_use]
    pub fn new_seed(&self, kind: Kind, level: u8) -> u64 {
        let used: std::collections::BTreeSet<u64> =
            self.0.iter().filter(|e| (e.kind, e.level) == (kind, level)).map(|e| e.seed).collect();
        (1..).find(|seed| !used.contains(seed)).unwrap_or(1)
    }

    /// The logbook as rows of text, with a heading: what is printed, and what the table holds.
    #[must_use]
    pub fn rows(&self) -> Vec<[String; 8]> {
        let heading = ["Date", "Exercise", "Level", "Number", "Marks", "Of", "Hints", "Minutes"].map(str::to_owned);
        let mut rows = vec![heading];
        rows.extend(self.0.iter().map(|e| {
            let (kind, level, seed) = (e.kind.title().to_owned(), e.level.to_string(), e.seed.to_string());
            let (hints, minutes) = (e.hints.to_string(), e.minutes.to_string());
            [e.date.clone(), kind, level, seed, halves(e.got), halves(e.of), hints, minutes]
        }));
        rows
    }

    /// The logbook as a table of comma-separated values.
    #[must_use]
    pub fn csv(&self) -> String {
        let mut out = String::new();
        for row in self.rows() {
            line(&mut out, &row);
        }
        out
    }
}

impl Entry {
    fn check(&self) -> Result<(), (&'static str, String)> {
        if self.level == 0 || self.level > LEVELS {
            return Err(("level", format!("Exercises have levels 1 to {LEVELS}.")));
        }
        if self.of == 0 || self.of > MOST {
            return Err(("of", format!("An exercise has 1 to {MOST} half marks.")));
        }
        if self.got > self.of {
            return Err(("got", "More marks were given than there are.".into()));
        }
        if self.hints > 3 {
            return Err(("hints", "An exercise has three hints.".into()));
        }
        if self.minutes > MOST {
            return Err(("minutes", format!("At most {MOST} minutes are written down.")));
        }
        if self.date.len() > MOST_DATE {
            return Err(("date", format!("A date is {MOST_DATE} bytes long at the most.")));
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn entry(kind: Kind, level: u8, seed: u64, got: u32) -> Entry {
        Entry { kind, level, seed, date: "Monday".into(), got, of: 10, hints: 0, minutes: 5 }
    }

    #[test]
    fn each_rule_applies_in_its_turn() {
        let mut book = Logbook::default();
        let next = book.next();
        assert_eq!((next.kind, next.level, next.seed, next.rule), (Kind::NumberSheet, 1, 1, RULES[3]));
        book.add(entry(Kind::NumberSheet, 1, 1, 7)).unwrap();
        let next = book.next();
        assert_eq!((next.kind, next.level, next.seed, next.rule), (Kind::NumberSheet, 1, 2, RULES[0]));
        book.add(entry(Kind::NumberSheet, 1, 2, 10)).unwrap();
        book.add(entry(Kind::NumberSheet, 1, 3, 10)).unwrap();
        assert_eq!(book.totals()[0].last_percent, 90);
        assert_eq!(book.next().kind, Kind::SetHeads);
        book.add(entry(Kind::NumberSheet, 1, 4, 8)).unwrap();
        let next = book.next();
        assert_eq!((next.kind, next.level, next.seed, next.rule), (Kind::NumberSheet, 2, 1, RULES[2]));
        book.add(entry(Kind::SetHeads, 1, 1, 10)).unwrap();
        for seed in 5..7 {
            book.add(entry(Kind::NumberSheet, 1, seed, 10)).unwrap();
        }
        let next = book.next();
        assert_eq!((next.kind, next.rule), (Kind::SetHeads, RULES[1]));
    }

    #[test]
    fn what_has_no_place_is_refused_and_nothing_is_lost() {
        let mut book = Logbook::of(vec![entry(Kind::Bolts, 1, 1, 10); MOST_ENTRIES]).unwrap();
        let before = book.clone();
        assert_eq!(book.add(entry(Kind::Bolts, 1, 1, 10)).unwrap_err().at, "logbook");
        assert_eq!(book, before);
        let bad = [
            ("level", Entry { level: 6, ..entry(Kind::Bolts, 1, 1, 1) }),
            ("of", Entry { of: 0, ..entry(Kind::Bolts, 1, 1, 0) }),
            ("got", entry(Kind::Bolts, 1, 1, 11)),
            ("hints", Entry { hints: 4, ..entry(Kind::Bolts, 1, 1, 1) }),
            ("minutes", Entry { minutes: u32::MAX, ..entry(Kind::Bolts, 1, 1, 1) }),
            ("date", Entry { date: "x".repeat(101), ..entry(Kind::Bolts, 1, 1, 1) }),
        ];
        for (at, entry) in bad {
            assert_eq!(Logbook::of(vec![entry]).unwrap_err().at, format!("logbook[0].{at}"));
        }
    }

    #[test]
    fn the_table_quotes_and_guards() {
        let entry = Entry { date: "=1+1, \"x\"".into(), ..entry(Kind::Bolts, 2, 41, 7) };
        let table = Logbook::of(vec![entry]).unwrap().csv();
        let row = table.split("\r\n").nth(1).unwrap();
        assert_eq!(row, "\"'=1+1, \"\"x\"\"\",Which bolts does the trim open?,2,41,3½,5,0,5");
    }
}
