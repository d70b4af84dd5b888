//! The ways of making the book up: the question to the worker (`plan_book`), and the answer.

use super::asked::texts;
use super::book_act::BookAct;
use super::job::Job;
use super::part::{Part, Refused};
use crate::finish::Severity;
use crate::fold::courses;
use crate::json::Json;
use crate::paper::Grain;

/// A finding: the sentence, the sum behind it, and where the rule comes from.
#[derive(Clone, Debug, PartialEq)]
pub struct FindingTold {
    /// How much it matters.
    pub severity: Severity,
    /// In whole sentences.
    pub says: String,
    /// The sum with its numbers put in.
    pub reckoned: String,
    /// Where the rule comes from.
    pub source: String,
}

/// A section of a plan.
#[derive(Clone, Debug, PartialEq)]
pub struct PlannedTold {
    /// Its pages.
    pub pages: u32,
    /// Its first page.
    pub first: u32,
    /// The names of the courses that fold its sheets, and how many pages each has, the main one first.
    pub parts: Vec<(String, u32)>,
}

/// A way of making the book up.
#[derive(Clone, Debug, PartialEq)]
pub struct PlanTold {
    /// In a sentence.
    pub says: String,
    /// The sections, front to back.
    pub sections: Vec<PlannedTold>,
    /// Pages that stay blank.
    pub blanks: u32,
    /// Pieces that are folded for one copy.
    pub folded: u32,
    /// Sheets for a copy.
    pub sheets: f64,
    /// Sheets of the run, with spoilage.
    pub sheets_run: f64,
    /// What of the paper does not come into the book, in %.
    pub waste: f64,
    /// What is to be said of it.
    pub findings: Vec<FindingTold>,
    /// Why it stands behind the first.
    pub behind: String,
}

/// All that the worker told.
#[derive(Clone, Debug, PartialEq)]
pub struct PlansTold {
    /// The one that a person made up.
    pub by_hand: Option<PlanTold>,
    /// The best first.
    pub plans: Vec<PlanTold>,
    /// How many more there are.
    pub more: u32,
    /// By what they are ranked.
    pub ranked_by: Vec<String>,
    /// What concerns all of them.
    pub findings: Vec<FindingTold>,
}

impl Job {
    /// The question how the book may be made up; `made_up` is a way that a person thinks of.
    #[must_use]
    pub fn plan_question(&self, made_up: Option<&[u32]>) -> String {
        let page = self.paper.trims.page(self.sheet.leaf());
        let (stock, trims) = (&self.paper.stock, &self.paper.trims);
        let sides = |width: f64, height: f64| Json::object([("width_mm", width.into()), ("height_mm", height.into())]);
        let grain = if stock.grain == Grain::Level { "level" } else { "upright" };
        let mut members = vec![
            ("ask".to_owned(), "plan_book".into()),
            ("extent".to_owned(), self.extent().into()),
            ("page".to_owned(), sides(page.0.mm(), page.1.mm())),
            ("sheet".to_owned(), sides(self.planning.sheet.0.mm(), self.planning.sheet.1.mm())),
            (
                "paper".to_owned(),
                Json::object([
                    ("grammage", stock.grammage.into()),
                    ("bulk", stock.bulk.into()),
                    ("grain", grain.into()),
                ]),
            ),
            ("copies".to_owned(), self.planning.copies.into()),
            (
                "trims".to_owned(),
                Json::object([
                    ("head_mm", trims.head.mm().into()),
                    ("foot_mm", trims.foot.mm().into()),
                    ("fore_edge_mm", trims.fore_edge.mm().into()),
                ]),
            ),
        ];
        members.extend(made_up.map(|made_up| ("made_up".to_owned(), Json::list(made_up.iter().map(|p| (*p).into())))));
        Json::Object(members).write()
    }
}

impl PlanTold {
    /// What makes the book so.
    ///
    /// # Errors
    /// Why this can't be laid on the bench, in a sentence.
    pub fn act(&self) -> Result<BookAct, String> {
        let all = courses();
        let mut each = Vec::new();
        for (number, section) in (1u32..).zip(&self.sections) {
            let [(name, _)] = section.parts.as_slice() else {
                return Err(format!(
                    "Section {number} is put together from several sheets, which the bench can’t show as one."
                ));
            };
            let named = all.iter().find(|named| named.name == name && named.course.sections() == 1);
            let Some(named) = named else { return Err(format!("No sheet at hand is folded as section {number} is.")) };
            each.push(&named.course);
        }
        let count = |course: &&crate::fold::Course| each.iter().filter(|other| *other == course).count();
        // Of equally many the first.
        let Some(usual) = each.iter().rev().max_by_key(|course| count(course)).copied() else {
            return Err("There is no section.".into());
        };
        let others = (1u32..).zip(&each).filter(|(_, course)| **course != usual);
        Ok(BookAct::MadeUp {
            sections: each.len() as u32,
            course: Box::new(usual.clone()),
            otherwise: others.map(|(section, course)| (section, (*course).clone())).collect(),
        })
    }
}

/// Sections as they are typed: "11x32 8 32".
///
/// # Errors
/// What can't be read.
pub fn read_make_up(text: &str) -> Result<Vec<u32>, String> {
    let mut sections = Vec::new();
    for word in text.split(|c: char| c.is_whitespace() || c == ',' || c == '+').filter(|w| !w.is_empty()) {
        let (times, pages) = word.split_once(['x', '×', '*']).unwrap_or(("1", word));
        let number = |text: &str| text.parse::<u32>().ok().filter(|n| *n > 0);
        let (Some(times), Some(pages)) = (number(times), number(pages)) else {
            return Err(format!("“{word}” is no section: write 32, or 11x32 for eleven of them."));
        };
        if sections.len() + times as usize > super::job::MAX_SECTIONS as usize {
            return Err(format!("A book has 1 to {} sections.", super::job::MAX_SECTIONS));
        }
        sections.extend(std::iter::repeat_n(pages, times as usize));
    }
    if sections.is_empty() { Err("Write the pages of its sections, front to back.".into()) } else { Ok(sections) }
}

/// The same written.
#[must_use]
pub fn make_up_text(sections: &[u32]) -> String {
    let mut words: Vec<(u32, u32)> = Vec::new();
    for pages in sections {
        match words.last_mut() {
            Some((times, of)) if of == pages => *times += 1,
            _ => words.push((1, *pages)),
        }
    }
    let word = |(times, pages): &(u32, u32)| if *times == 1 { pages.to_string() } else { format!("{times}x{pages}") };
    words.iter().map(word).collect::<Vec<_>>().join(" ")
}

/// Reads the answer.
///
/// # Errors
/// The reason that the answer gives, or that it is none.
pub fn read_plans(answer: &str) -> Result<PlansTold, String> {
    read_ok(answer, |told| {
        let by_hand = told.maybe("by_hand").filter(|p| !p.is_null());
        Ok(PlansTold {
            by_hand: by_hand.map(|p| plan(&p)).transpose()?,
            plans: told.member("plans")?.list()?.iter().map(plan).collect::<Result<_, _>>()?,
            more: told.member("more")?.whole_number()?,
            ranked_by: texts(&told.member("ranked_by")?)?,
            findings: told.member("findings")?.list()?.iter().map(read_finding).collect::<Result<_, _>>()?,
        })
    })
}

/// Reads what an answer holds, if it is no refusal.
pub(super) fn read_ok<T>(answer: &str, read: impl Fn(&Part<'_>) -> Result<T, Refused>) -> Result<T, String> {
    let unreadable = |says: String| format!("The answer can't be read: {says}.");
    let answer = Json::parse(answer).map_err(|_| unreadable("it is cut off".into()))?;
    if let Some(Json::Text(says)) = answer.get("error").and_then(|e| e.get("says")) {
        return Err(says.clone());
    }
    let told = Part::whole(&answer).member("ok").and_then(|told| read(&told));
    told.map_err(|(at, says)| unreadable(format!("{at} {says}")))
}

pub(super) fn read_finding(part: &Part<'_>) -> Result<FindingTold, Refused> {
    let text = |name| part.member(name)?.text().map(str::to_owned);
    let severities = [("fine", Severity::Fine), ("mind", Severity::Mind), ("wrong", Severity::Wrong)];
    Ok(FindingTold {
        severity: part.member("severity")?.word(&severities)?,
        says: text("says")?,
        reckoned: text("reckoned")?,
        source: text("source")?,
    })
}

fn plan(part: &Part<'_>) -> Result<PlanTold, Refused> {
    let section = |part: &Part<'_>| -> Result<PlannedTold, Refused> {
        let of = |part: &Part<'_>| -> Result<(String, u32), Refused> {
            Ok((part.member("course")?.text()?.to_owned(), part.member("pages")?.whole_number()?))
        };
        Ok(PlannedTold {
            pages: part.member("pages")?.whole_number()?,
            first: part.member("first_page")?.whole_number()?,
            parts: part.member("parts")?.list()?.iter().map(of).collect::<Result<_, _>>()?,
        })
    };
    Ok(PlanTold {
        says: part.member("says")?.text()?.to_owned(),
        sections: part.member("sections")?.list()?.iter().map(section).collect::<Result<_, _>>()?,
        blanks: part.member("blanks")?.whole_number()?,
        folded: part.member("folded_per_copy")?.whole_number()?,
        sheets: part.member("sheets_per_copy")?.number()?,
        sheets_run: part.member("sheets_run")?.number()?,
        waste: part.member("waste_percent")?.number()?,
        findings: part.member("findings")?.list()?.iter().map(read_finding).collect::<Result<_, _>>()?,
        behind: part.member("behind")?.text()?.to_owned(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sections_are_written_short() {
        let sections = [vec![32; 10], vec![8, 32]].concat();
        assert_eq!(make_up_text(&sections), "10x32 8 32");
        assert_eq!(read_make_up("10x32 8, 32"), Ok(sections));
        assert_eq!(read_make_up("2×16+8"), Ok(vec![16, 16, 8]));
        for bad in ["", "x", "0x8", "8x0", "100x4", "9999999999x4", "32 s"] {
            assert!(read_make_up(bad).is_err(), "{bad}");
        }
    }
}
