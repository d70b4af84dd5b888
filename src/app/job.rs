//! All that a person made: the book, its sheet, its marks, and the stack as it was gathered.

use crate::fold::{BackMark, Folding, Landing, NamedScheme, Scheme, Section, Showing, library};
use crate::gather::stack::{Placed, Stack, seen};
use crate::gather::{Told, run::parse_run};
use crate::marks::{Design, Found, Seen};
use serde::{Deserialize, Serialize};

/// The most sections a book may have.
pub const MAX_SECTIONS: u32 = 99;
/// The longest title, in characters.
pub const MAX_TITLE: usize = 80;

/// What the check in the Gather room looks at.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Evidence {
    /// The backs of the stack that was gathered (and spoiled) here.
    #[default]
    Stack,
    /// Marks tapped onto a blank spine: for each back the middles of its bars in mm from the head.
    Tapped(Vec<Vec<f64>>),
    /// A run that was typed, as in `1-6 8-11 12d`.
    Typed(String),
}

/// One job.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Job {
    /// Title of the book.
    pub title: String,
    /// Sections of the book, all folded by the same scheme.
    pub sections: u32,
    /// How a sheet is folded. It may be unfinished while it is being made.
    pub scheme: Scheme,
    /// The back marks.
    pub design: Design,
    /// The book as it was gathered here.
    pub stack: Stack,
    /// What the check looks at.
    #[serde(default)]
    pub evidence: Evidence,
}

impl Default for Job {
    /// An invented book in sixteens.
    fn default() -> Self {
        let sixteen = library().into_iter().find(|s| s.scheme.rows == 2 && s.scheme.columns == 4);
        let scheme = sixteen.map_or_else(|| blank(2, 4), |s| s.scheme);
        Self {
            title: "The Quillmere Almanac".into(),
            sections: 18,
            scheme,
            design: Design::default(),
            stack: Stack::good(18),
            evidence: Evidence::Stack,
        }
    }
}

/// A sheet without a fold.
#[must_use]
pub fn blank(rows: u32, columns: u32) -> Scheme {
    Scheme { rows, columns, folds: Vec::new(), head: crate::fold::Direction::Up, reads: crate::fold::Reads::default() }
}

impl Job {
    /// The trade name of the scheme, if it is one of those at hand.
    #[must_use]
    pub fn trade_name(&self) -> Option<&'static str> {
        library().into_iter().find(|n: &NamedScheme| n.scheme == self.scheme).map(|n| n.name)
    }

    /// The finished section and its landing, unless the scheme is unfinished.
    #[must_use]
    pub fn section(&self) -> Option<(Section, Landing)> {
        let folding = Folding::of(&self.scheme).ok()?;
        let section = Section::of(&self.scheme, &folding).ok()?;
        let landing = Landing::of_section(&section);
        Some((section, landing))
    }

    /// What a checker sees on the backs of the stack. The fold engine says where each mark went.
    #[must_use]
    pub fn seen(&self) -> Vec<Seen> {
        let showing = |misfold: Option<u32>| {
            let folded = misfold.map_or_else(|| self.scheme.clone(), |f| self.scheme.fold_other_way(f));
            BackMark::printed_and_folded(&self.scheme, &folded).ok().flatten() == Some(Showing::OnSpine)
        };
        // One answer for each way of folding, not one for each section.
        let ways: Vec<bool> =
            std::iter::once(None).chain((1u32..).map(Some).take(self.scheme.folds.len())).map(showing).collect();
        let back_of = |p: &Placed| ways.get(p.misfold.unwrap_or(0) as usize).copied().unwrap_or(false);
        seen(&self.stack, &self.design, &back_of)
    }

    /// The question to be asked about the evidence, as a line of the ask protocol (`tell_book`): by the marks alone, or
    /// by the run that was typed.
    ///
    /// # Errors
    /// When a typed run can't be read; says where and why.
    pub fn question(&self) -> Result<String, String> {
        let found = match &self.evidence {
            Evidence::Typed(run) => Some(parse_run(run).map_err(|e| e.to_string())?),
            _ => None,
        };
        let seen = match &self.evidence {
            Evidence::Stack => Some(self.seen()),
            Evidence::Tapped(backs) => Some(backs.iter().map(|b| Seen { marks_mm: Some(b.clone()) }).collect()),
            Evidence::Typed(_) => None,
        };
        let marks = seen.is_some().then_some(&self.design);
        let question = Question { ask: "tell_book", sections: self.sections, marks, seen, found };
        serde_json::to_string(&question).map_err(|e| e.to_string())
    }
}

#[derive(Serialize)]
struct Question<'a> {
    ask: &'static str,
    sections: u32,
    #[serde(skip_serializing_if = "Option::is_none")]
    marks: Option<&'a Design>,
    #[serde(skip_serializing_if = "Option::is_none")]
    seen: Option<Vec<Seen>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    found: Option<Vec<Found>>,
}

/// Reads the answer to [`Job::question`].
///
/// # Errors
/// The reason that the answer gives, or that it is none.
pub fn read_told(answer: &str) -> Result<Told, String> {
    #[derive(Deserialize)]
    #[serde(rename_all = "snake_case")]
    enum Answer {
        Ok(Told),
        Error { says: String },
    }
    match serde_json::from_str(answer) {
        Ok(Answer::Ok(told)) => Ok(told),
        Ok(Answer::Error { says }) => Err(says),
        Err(why) => Err(format!("The answer can't be read: {why}.")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::{Action, Spoil, State, update};

    fn told(state: &State) -> Told {
        read_told(&crate::ask::answer(&state.job.question().unwrap())).unwrap()
    }

    #[test]
    fn a_spoiled_stack_is_told_by_its_marks() {
        assert!(told(&State::default()).verdict.right);
        let spoiled = update(&State::default(), Action::Spoil(Spoil::LeaveOut(7))).0;
        let told = told(&spoiled);
        assert_eq!(told.verdict.lines.first().map(|l| l.title.as_str()), Some("Section 7 is missing."));
        assert_eq!(told.found.len(), 17);
    }

    #[test]
    fn a_typed_run_is_told_and_a_wrong_one_says_where() {
        let typed = |run: &str| update(&State::default(), Action::Look(Evidence::Typed(run.into()))).0;
        assert!(told(&typed("1-18")).verdict.right);
        assert!(typed("1-6 8 q").job.question().unwrap_err().contains('q'));
    }

    /// The fold engine hides the mark of a misfolded section; nothing else is told about it.
    #[test]
    fn a_misfolded_section_shows_a_blank_back() {
        let state = update(&State::default(), Action::Spoil(Spoil::Misfold(8, 2))).0;
        assert_eq!(state.job.seen()[7].marks_mm, Some(Vec::new()));
        assert!(told(&state).verdict.lines[0].title.contains('8'), "{:?}", told(&state).verdict.lines);
    }
}
