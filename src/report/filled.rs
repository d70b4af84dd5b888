//! The report as a person and the program fill it in.

use super::{Grade, Notice, Refusal, What};
use crate::since::{Evidence, Held, Hold, MOST_COUNTER, MOST_STATIONS};
use serde::{Deserialize, Serialize};

/// The longest text, in characters.
pub const MOST_TEXT: usize = 2_000;
/// The most lines of a list.
pub const MOST_LINES: usize = 200;

/// How many books; what is not given is left to be filled in by hand.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Counts {
    /// Made in the run.
    pub made: Option<u32>,
    /// Held back.
    pub held: Option<u32>,
    /// Put right.
    pub reworked: Option<u32>,
    /// Thrown away.
    pub scrapped: Option<u32>,
    /// Still to be made in their place.
    pub to_make_good: Option<u32>,
    /// Let go again.
    pub released: Option<u32>,
}

/// A report. Every part may be empty; what the sheet needs and is empty is left to be filled in by hand.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Report {
    /// The title of the book.
    pub title: String,
    /// The number of the job ticket.
    pub ticket: String,
    /// The date, as it is to stand there.
    pub date: String,
    /// Who wrote it.
    pub by: String,
    /// The machine or the stage.
    pub stage: String,
    /// The station.
    pub station: Option<u32>,
    /// The section.
    pub section: Option<u32>,
    /// What is wrong with the books.
    pub what: Option<What>,
    /// The code, if it is to be another one than the usual one for `what`.
    pub notice: Option<Notice>,
    /// The grade, if a person graded it.
    pub grade: Option<Grade>,
    /// What happened.
    pub cause: String,
    /// What was found, a sentence each.
    pub evidence: Vec<String>,
    /// How the fault is spread.
    pub extent: String,
    /// The last good book before.
    pub last_good: Option<u32>,
    /// The first bad book.
    pub first_bad: Option<u32>,
    /// The last bad book.
    pub last_bad: Option<u32>,
    /// The first good book after.
    pub first_good: Option<u32>,
    /// How many books.
    pub counts: Counts,
    /// Books to hold.
    pub hold: Vec<Held>,
    /// What was and is to be done, a sentence each.
    pub action: Vec<String>,
    /// What to mind while doing it.
    pub cautions: Vec<String>,
    /// Who signs.
    pub sign: Vec<String>,
}

impl Report {
    /// The report with what the opened books, log and leftovers say, wherever it is empty: counter numbers, counts, hold
    /// list, extent; and their evidence after its own.
    #[must_use]
    pub fn with(mut self, evidence: &Evidence, hold: &Hold) -> Self {
        let blocks = &hold.brackets.blocks;
        if let (Some(first), Some(last)) = (blocks.first(), blocks.last()) {
            self.last_good = self.last_good.or(first.last_good);
            self.first_bad = self.first_bad.or(Some(first.first_bad));
            self.last_bad = self.last_bad.or(Some(last.last_bad));
            self.first_good = self.first_good.or(last.first_good);
        }
        self.station = self.station.or(evidence.station);
        if self.extent.is_empty() {
            self.extent = hold.pattern.map_or_else(String::new, crate::since::Pattern::words);
        }
        if self.hold.is_empty() {
            self.hold = hold.safe.iter().take(MOST_LINES).cloned().collect();
            if hold.safe.len() > MOST_LINES {
                let more = hold.safe.len() - MOST_LINES;
                self.evidence.push(format!("The hold list has {more} more lines than fit on this sheet."));
            }
        }
        let counts = &mut self.counts;
        counts.made = counts.made.or(Some(evidence.line.books()));
        counts.held = counts.held.or(Some(hold.safe_count));
        counts.released = counts.released.or(Some(hold.release_count));
        let lifts = hold.lifts.iter().filter(|l| self.station == Some(l.station)).map(|l| &l.says);
        let found = hold.brackets.says.iter().chain(hold.left.reckoned.iter().map(|r| &r.says)).chain(lifts);
        for says in found.chain(&hold.disagrees) {
            if self.evidence.len() < MOST_LINES && !self.evidence.contains(says) {
                self.evidence.push(says.clone());
            }
        }
        if hold.likely_count != hold.safe_count {
            self.action.extend(hold.says.first().filter(|_| self.action.len() < MOST_LINES).cloned());
        }
        self
    }

    /// Whether it can be written.
    ///
    /// # Errors
    /// Where a text or a list is too long, or a number out of bounds.
    pub fn check(&self) -> Result<(), Refusal> {
        let texts = [
            ("title", &self.title),
            ("ticket", &self.ticket),
            ("date", &self.date),
            ("by", &self.by),
            ("stage", &self.stage),
            ("cause", &self.cause),
            ("extent", &self.extent),
        ];
        for (at, text) in texts {
            short(text, || at.to_owned())?;
        }
        let lists = [
            ("evidence", &self.evidence),
            ("action", &self.action),
            ("cautions", &self.cautions),
            ("sign", &self.sign),
        ];
        for (at, list) in lists {
            few(list.len(), at)?;
            for (i, text) in list.iter().enumerate() {
                short(text, || format!("{at}[{i}]"))?;
            }
        }
        few(self.hold.len(), "hold")?;
        for (i, held) in self.hold.iter().enumerate() {
            short(&held.why, || format!("hold[{i}].why"))?;
            if held.books.from > held.books.to || held.books.to > MOST_COUNTER || held.every == 0 {
                let says = format!("books go from one number to the same or a later one, {MOST_COUNTER} at the most");
                return Err(Refusal::new(format!("hold[{i}].books"), says));
            }
        }
        for (at, number) in [("station", self.station), ("section", self.section)] {
            if number.is_some_and(|n| !(1..=MOST_STATIONS).contains(&n)) {
                return Err(Refusal::new(at, format!("stations and sections are numbered from 1 to {MOST_STATIONS}")));
            }
        }
        Ok(())
    }
}

fn short(text: &str, at: impl FnOnce() -> String) -> Result<(), Refusal> {
    if text.chars().nth(MOST_TEXT).is_none() {
        return Ok(());
    }
    Err(Refusal::new(at(), format!("a text may have {MOST_TEXT} characters at the most")))
}

fn few(lines: usize, at: &str) -> Result<(), Refusal> {
    if lines <= MOST_LINES {
        return Ok(());
    }
    Err(Refusal::new(at, format!("a list may have {MOST_LINES} lines at the most")))
}
