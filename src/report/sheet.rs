//! The lines of the sheet.

use super::Report;
use crate::since::{Books, Held};
use crate::words::{grouped, how_many};
use serde::Serialize;

/// A line of the sheet.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Row {
    /// What it is about. Lines that follow one another may have the same.
    pub label: String,
    /// What it says; empty where it is to be filled in by hand.
    pub value: String,
    /// The books that it is about.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub books: Option<Books>,
    /// A number of books.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub count: Option<u32>,
    /// Whether it is so short that two such lines may share one on paper.
    pub short: bool,
}

/// A sheet: a heading, lines, and who signs.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Sheet {
    /// The heading.
    pub heading: String,
    /// The lines.
    pub rows: Vec<Row>,
    /// Who signs; each has room for a name and a date.
    pub sign: Vec<String>,
}

/// Who signs where nobody is named (common practice, no source).
const SIGN: [&str; 3] = ["Found by", "Line lead", "Released by"];

/// A text on one line.
fn line(text: &str) -> String {
    text.split(char::is_control)
        .flat_map(|part| part.split(' '))
        .filter(|w| !w.is_empty())
        .collect::<Vec<_>>()
        .join(" ")
}

fn row(label: &str, value: impl AsRef<str>) -> Row {
    Row { label: label.into(), value: line(value.as_ref()), ..Row::default() }
}

fn book(label: &str, counter: Option<u32>) -> Row {
    let books = counter.map(|n| Books { from: n, to: n });
    Row { books, short: true, ..row(label, counter.map_or_else(String::new, |n| format!("book {}", grouped(n)))) }
}

fn books(label: &str, count: Option<u32>) -> Row {
    Row { count, short: true, ..row(label, count.map_or_else(String::new, |n| how_many(n, "book"))) }
}

fn number(label: &str, n: Option<u32>) -> Row {
    Row { short: true, ..row(label, n.map_or_else(String::new, |n| n.to_string())) }
}

/// How many books a line of a hold list is about.
const fn count(held: &Held) -> u32 {
    match held.every {
        0 | 1 => held.books.count(),
        every => (held.books.to.saturating_sub(held.books.from)) / every + 1,
    }
}

impl Report {
    /// The sheet.
    #[must_use]
    pub fn sheet(&self) -> Sheet {
        let mut rows = vec![
            row("Title", &self.title),
            row("Ticket", &self.ticket),
            row("Date", &self.date),
            row("Written by", &self.by),
            row("Stage or machine", &self.stage),
            number("Station", self.station),
            number("Section", self.section),
            row("What is wrong", self.what.map_or("", |w| w.words())),
        ];
        let notice = self.notice.or_else(|| self.what.map(super::What::notice));
        rows.push(row("Code", notice.map_or_else(String::new, super::Notice::says)));
        let grade = self.grade.or_else(|| self.what.and_then(super::What::grade));
        rows.push(row("Grade", grade.map_or_else(String::new, super::Grade::says)));
        rows.push(row("Cause", &self.cause));
        rows.push(row("Extent", &self.extent));
        rows.extend([
            book("Last good before", self.last_good),
            book("First bad", self.first_bad),
            book("Last bad", self.last_bad),
            book("First good after", self.first_good),
        ]);
        let counts = &self.counts;
        rows.extend([
            books("Made", counts.made),
            books("Held", counts.held),
            books("Released", counts.released),
            books("Reworked", counts.reworked),
            books("Scrapped", counts.scrapped),
            books("To make good", counts.to_make_good),
        ]);
        for held in &self.hold {
            let count = count(held);
            let says = format!("{}: {}. {}", held.says(), how_many(count, "book"), held.why);
            rows.push(Row { books: Some(held.books), count: Some(count), ..row("Hold", says) });
        }
        let lists = [("Found", &self.evidence), ("Done and to do", &self.action), ("Mind", &self.cautions)];
        for (label, list) in lists {
            rows.extend(list.iter().map(|text| row(label, text)));
        }
        if self.action.is_empty() {
            rows.push(row("Done and to do", ""));
        }
        let sign: Vec<String> = self.sign.iter().map(|s| line(s)).filter(|s| !s.is_empty()).collect();
        let sign = if sign.is_empty() { SIGN.map(str::to_owned).to_vec() } else { sign };
        Sheet { heading: "Report of wrong books".into(), rows, sign }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::What;

    #[test]
    fn what_is_not_known_is_left_to_be_filled_in() {
        let sheet = Report::default().sheet();
        assert!(sheet.rows.iter().all(|r| r.value.is_empty()));
        assert_eq!(sheet.sign, SIGN);
        assert!(sheet.rows.iter().any(|r| r.label == "Scrapped"));
    }

    #[test]
    fn a_fault_brings_its_code_its_grade_and_their_sources() {
        let sheet = Report { what: Some(What::WrongSection), ..Report::default() }.sheet();
        let value = |label: &str| sheet.rows.iter().find(|r| r.label == label).unwrap().value.clone();
        assert_eq!(value("Code"), "F-16, wrong pagination (US GPO Form 1815 and Publication 310.1)");
        assert_eq!(value("Grade"), "critical (Public Works and Government Services Canada, Inspection Guide)");
    }

    #[test]
    fn a_text_is_on_one_line() {
        assert_eq!(line(" a\tb\r\n  c\u{0} "), "a b c");
    }
}
