//! What a checker has: one or several books that are out of order, and what else was noted.

use crate::book::Signing;
use crate::fold::misfold::{FoundPage, parse_pages};
use crate::marks::{MOST_SECTIONS, Refusal, Seen};
pub use crate::since::Stopper;
use crate::since::{Judged, Left, Line, Logged, MOST_COUNTER, check_left, check_log};
use serde::{Deserialize, Serialize};

/// The most books of a case. A bound of this program.
pub const MOST_BOOKS: usize = 200;
/// The longest typed line of a book, in characters. A bound of this program.
pub const LONGEST: usize = 8000;
/// The thickest book in mm. A bound of this program.
const THICKEST_MM: f64 = 1000.0;

/// The line stopped at this book.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Stopped {
    /// The station, from 1.
    pub station: u32,
    /// What stopped it.
    pub by: Stopper,
}

/// One section of the book, opened and read from front to back.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Inside {
    /// The section, by its number in a right book.
    pub section: u32,
    /// Its pages, typed: `3 4 1 2 7 8 5 6`, or as they are printed in the book, `35 36 33 34`. `v` behind a figure is head
    /// down, `_` a side that nothing is printed on.
    pub pages: String,
    /// Whether its last fold was found at the fore-edge.
    #[serde(default)]
    pub fore_edge: bool,
}

/// What was seen along the spine.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Spine {
    /// Nobody looked.
    #[default]
    Unseen,
    /// Typed as a run of sections, `1-6 8-11 12d`, as [`crate::gather::run`] reads it; or of signatures, `B-G I-M Nd`, where
    /// [`Case::signing`] says how the book is signed.
    Run(String),
    /// The marks on each back, from front to back.
    Marks(Vec<Seen>),
}

/// One book, and what was seen of it. What nobody looked at is left empty.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct SeenBook {
    /// What the counter showed for it.
    pub counter: Option<u32>,
    /// The spine.
    pub spine: Spine,
    /// Openings as printed, one a group: `30 31 | 48 49`. Roman figures as they are printed; `_` is a page that nothing is
    /// printed on, `?` one that can't be read; `v` behind a page is head down.
    pub openings: String,
    /// The pages inside one section.
    pub inside: Option<Inside>,
    /// How thick it is.
    pub bulk_mm: Option<f64>,
    /// How many sections were counted.
    pub count: Option<u32>,
    /// What stopped the line at it.
    pub stopped: Option<Stopped>,
    /// Good or bad, as somebody judged it.
    pub judged: Option<Judged>,
    /// The pages, as printed, behind which a plate was found: `48 112`. Empty where none was found, `null` where nobody
    /// looked.
    pub plates: Option<String>,
    /// The sections round which a wrap was found: `5 7`. Empty where none was found, `null` where nobody looked.
    pub wraps: Option<String>,
}

/// A case: books, and what was noted of the run.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Case {
    /// The bulk of a good book.
    pub good_bulk_mm: Option<f64>,
    /// The books that were looked at.
    pub books: Vec<SeenBook>,
    /// Stops, jams and reloads.
    pub log: Vec<Logged>,
    /// What was left over at the stations.
    pub left: Vec<Left>,
    /// The run; [`Case::unknown_line`] where nobody said.
    pub line: Line,
    /// How the sections are signed, where a spine may be typed as signatures: `B-E G-N`.
    pub signing: Option<Signing>,
}

impl Default for Case {
    fn default() -> Self {
        let line = Self::unknown_line();
        Self { good_bulk_mm: None, books: Vec::new(), log: Vec::new(), left: Vec::new(), line, signing: None }
    }
}

impl Case {
    /// A run of which nothing is known: from the first number that a counter has to the last.
    #[must_use]
    pub const fn unknown_line() -> Line {
        Line::of(1, MOST_COUNTER)
    }

    /// Whether it was said which books the run had.
    #[must_use]
    pub const fn line_known(&self) -> bool {
        self.line.last < MOST_COUNTER
    }

    /// Whether everything is within bounds. What is typed is read later.
    ///
    /// # Errors
    /// Where it is not, and why.
    pub fn check(&self, sections: u32) -> Result<(), Refusal> {
        if self.books.len() > MOST_BOOKS {
            return Err(Refusal::new("books", format!("At most {MOST_BOOKS} books are looked at together.")));
        }
        thickness("good_bulk_mm", self.good_bulk_mm)?;
        let under = |path: &'static str| {
            move |why: Refusal| {
                let dot = if why.at.is_empty() || why.at.starts_with('[') { "" } else { "." };
                Refusal::new(format!("{path}{dot}{}", why.at), why.says)
            }
        };
        self.line.check().map_err(under("line"))?;
        check_log(&self.line, &self.log).map_err(under("log"))?;
        check_left(&self.left).map_err(under("left"))?;
        for (i, book) in self.books.iter().enumerate() {
            book.check(sections).map_err(|why| Refusal::new(format!("books[{i}].{}", why.at), why.says))?;
        }
        Ok(())
    }
}

impl SeenBook {
    fn check(&self, sections: u32) -> Result<(), Refusal> {
        if self.counter.is_some_and(|c| !(1..=MOST_COUNTER).contains(&c)) {
            return Err(Refusal::new("counter", format!("Counter numbers go from 1 to {MOST_COUNTER}.")));
        }
        thickness("bulk_mm", self.bulk_mm)?;
        if self.count.is_some_and(|count| count > MOST_SECTIONS) {
            return Err(Refusal::new("count", format!("At most {MOST_SECTIONS} sections are counted.")));
        }
        if let Some(stopped) = self.stopped
            && !(1..=sections).contains(&stopped.station)
        {
            return Err(Refusal::new("stopped.station", format!("The stations are numbered from 1 to {sections}.")));
        }
        if let Some(inside) = &self.inside
            && !(1..=sections).contains(&inside.section)
        {
            return Err(Refusal::new("inside.section", format!("The sections are numbered from 1 to {sections}.")));
        }
        let typed = [
            ("openings", Some(self.openings.as_str())),
            ("plates", self.plates.as_deref()),
            ("wraps", self.wraps.as_deref()),
            ("inside.pages", self.inside.as_ref().map(|inside| inside.pages.as_str())),
        ];
        for (at, text) in typed {
            if text.is_some_and(|text| text.chars().nth(LONGEST).is_some()) {
                return Err(Refusal::new(at, format!("This is longer than {LONGEST} characters.")));
            }
        }
        Ok(())
    }
}

impl Inside {
    /// The pages as they were typed.
    ///
    /// # Errors
    /// Where a word is no page.
    pub(super) fn typed(&self) -> Result<Vec<FoundPage>, Refusal> {
        parse_pages(&self.pages).map_err(|why| Refusal::new("inside.pages", why.to_string()))
    }
}

fn thickness(at: &str, mm: Option<f64>) -> Result<(), Refusal> {
    match mm {
        Some(mm) if !(mm.is_finite() && mm > 0.0 && mm <= THICKEST_MM) => {
            let most = crate::units::mm(THICKEST_MM);
            Err(Refusal::new(at, format!("A book is thicker than 0 mm and at most {most} mm.")))
        }
        _ => Ok(()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::since::{Fed, Happened};

    #[test]
    fn written_as_a_script_writes_it() {
        let text = r#"{
            "good_bulk_mm": 18.0,
            "books": [
                {"counter": 1430, "spine": {"run": "1-4 9 6-12"}, "openings": "64 129", "judged": "bad", "bulk_mm": 18,
                 "stopped": {"station": 5, "by": "camera"}, "inside": {"section": 5, "pages": "1-16"}},
                {"spine": {"marks": [{"marks_mm": [33.0]}, {"marks_mm": null}]}},
                {"spine": "unseen", "plates": "48"}
            ],
            "log": [{"counter": 1380, "what": {"kind": "reload", "station": 5, "lift": 80, "left": 40, "fed": "bottom"}}],
            "left": [{"station": 5, "over": 80}, {"station": 9, "over": -80}],
            "line": {"first": 1, "last": 5000}
        }"#;
        let case: Case = serde_json::from_str(text).unwrap();
        assert_eq!(case.check(12), Ok(()));
        assert_eq!(case.books[0].stopped, Some(Stopped { station: 5, by: Stopper::Camera }));
        assert_eq!(case.log[0].what, Happened::Reload { station: 5, lift: 80, left: 40, fed: Fed::Bottom });
        assert_eq!(case.books[2].plates.as_deref(), Some("48"));
        let again: Case = serde_json::from_str(&serde_json::to_string(&case).unwrap()).unwrap();
        assert_eq!(again, case);
        let empty: Case = serde_json::from_str("{}").unwrap();
        assert_eq!(empty, Case::default());
        assert!(!empty.line_known());
        assert!(serde_json::from_str::<Case>(r#"{"books": [{"marks": []}]}"#).is_err());
    }

    #[test]
    fn what_is_out_of_bounds_is_refused_where_it_is() {
        let of = |book: SeenBook| Case { books: vec![SeenBook::default(), book], ..Case::default() };
        let at = |case: Case| case.check(12).unwrap_err().at;
        assert_eq!(at(of(SeenBook { counter: Some(0), ..SeenBook::default() })), "books[1].counter");
        assert_eq!(at(of(SeenBook { bulk_mm: Some(f64::NAN), ..SeenBook::default() })), "books[1].bulk_mm");
        let inside = Some(Inside { section: 13, ..Inside::default() });
        assert_eq!(at(of(SeenBook { inside, ..SeenBook::default() })), "books[1].inside.section");
        let stopped = Some(Stopped { station: 0, by: Stopper::Caliper });
        assert_eq!(at(of(SeenBook { stopped, ..SeenBook::default() })), "books[1].stopped.station");
        let openings = "1".repeat(LONGEST + 1);
        assert_eq!(at(of(SeenBook { openings, ..SeenBook::default() })), "books[1].openings");
        let left = vec![Left { station: 0, over: 1 }];
        assert_eq!(at(Case { left, ..Case::default() }), "left[0].station");
        assert_eq!(at(Case { line: Line::of(3, 2), ..Case::default() }), "line.last");
        assert_eq!(at(Case { books: vec![SeenBook::default(); 201], ..Case::default() }), "books");
    }
}
