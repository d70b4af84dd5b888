//! What the page asks the worker about a job, as lines of the ask protocol (`tell_book`), and the answer.

use super::form::LIES;
use super::form_marks::{back_json, design_json};
use super::job::{Evidence, Job};
use super::part::{Part, Refused, word_for};
use crate::gather::run::parse_run;
use crate::gather::{Line, Told, Verdict};
use crate::json::Json;
use crate::marks::{Found, Lies, SeenBack};

impl Job {
    /// The question to be asked about the evidence: by the marks alone, or by the run that was typed.
    ///
    /// # Errors
    /// When a typed run can't be read; says where and why.
    pub fn question(&self) -> Result<String, String> {
        if self.evidence == Evidence::Stack && self.sheets().any(|sheet| sheet.worked().is_none()) {
            return Err(
                "The sheet is not folded down to one page yet, so no mark reaches a back. Finish its folds in the \
                        Fold room."
                    .into(),
            );
        }
        let mut members = vec![("ask".to_owned(), "tell_book".into()), ("sections".to_owned(), self.sections.into())];
        let mut seen = |backs: Vec<SeenBack>| {
            members.push(("marks".to_owned(), design_json(&self.design)));
            members.push(("seen".to_owned(), Json::list(backs.iter().map(back_json))));
        };
        match &self.evidence {
            Evidence::Stack => seen(self.seen()),
            Evidence::Tapped(backs) => seen(tapped_so_far(backs)),
            Evidence::Typed(run) => {
                let found = parse_run(run).map_err(|e| e.to_string())?;
                members.push(("found".to_owned(), Json::list(found.iter().map(found_json))));
            }
        }
        Ok(Json::Object(members).write())
    }
}

/// Backs at the end on which nothing was tapped yet are not blank but unread. A single one may well be blank.
fn tapped_so_far(backs: &[Vec<f64>]) -> Vec<SeenBack> {
    let tapped = backs.iter().rposition(|b| !b.is_empty()).map_or(0, |i| i + 1);
    let read = if backs.len() - tapped > 1 { tapped } else { backs.len() };
    let back = |(i, b): (usize, &Vec<f64>)| SeenBack { marks_mm: (i < read).then(|| b.clone()), ..SeenBack::default() };
    backs.iter().enumerate().map(back).collect()
}

fn found_json(found: &Found) -> Json {
    match found {
        Found::Section { section, lies } => {
            Json::object([("section", (*section).into()), ("lies", word_for(&LIES, lies))])
        }
        Found::NoMark => Json::object([("no_mark", true.into())]),
        Found::Foreign => Json::object([("foreign", true.into())]),
        Found::Unread => Json::object([("unread", true.into())]),
    }
}

/// Reads the answer to [`Job::question`].
///
/// # Errors
/// The reason that the answer gives, or that it is none.
pub fn read_told(answer: &str) -> Result<Told, String> {
    let unreadable = |says: String| format!("The answer can't be read: {says}.");
    let answer = Json::parse(answer).map_err(|_| unreadable("it is cut off".into()))?;
    if let Some(Json::Text(says)) = answer.get("error").and_then(|e| e.get("says")) {
        return Err(says.clone());
    }
    told(&Part::whole(&answer)).map_err(|(at, says)| unreadable(format!("{at} {says}")))
}

fn told(answer: &Part<'_>) -> Result<Told, Refused> {
    let told = answer.member("ok")?;
    let all = |name: &str| told.member(name)?.list();
    let verdict = told.member("verdict")?;
    Ok(Told {
        found: all("found")?.iter().map(read_found).collect::<Result<_, _>>()?,
        missing: all("missing")?.iter().map(Part::whole_number).collect::<Result<_, _>>()?,
        verdict: Verdict {
            lines: verdict.member("lines")?.list()?.iter().map(read_line).collect::<Result<_, _>>()?,
            cannot_tell: texts(&verdict.member("cannot_tell")?)?,
            next_check: maybe_text(verdict.maybe("next_check"))?,
            caution: maybe_text(verdict.maybe("caution"))?,
            right: verdict.member("right")?.truth()?,
        },
    })
}

fn maybe_text(part: Option<Part<'_>>) -> Result<Option<String>, Refused> {
    part.filter(|p| !p.is_null()).map(|p| p.text().map(str::to_owned)).transpose()
}

pub(super) fn texts(part: &Part<'_>) -> Result<Vec<String>, Refused> {
    part.list()?.iter().map(|p| p.text().map(str::to_owned)).collect()
}

/// A find of the protocol.
pub(super) fn read_found(part: &Part<'_>) -> Result<Found, Refused> {
    if let Some(section) = part.maybe("section") {
        let lies = part.maybe("lies").map_or(Ok(Lies::Right), |l| l.word(&LIES))?;
        return Ok(Found::Section { section: section.whole_number()?, lies });
    }
    let kinds = [("no_mark", Found::NoMark), ("foreign", Found::Foreign), ("unread", Found::Unread)];
    let found = kinds.into_iter().find(|(name, _)| part.maybe(name).is_some());
    found.map_or_else(|| part.refuse("is no find"), |(_, found)| Ok(found))
}

fn read_line(part: &Part<'_>) -> Result<Line, Refused> {
    Ok(Line {
        title: part.member("title")?.text()?.to_owned(),
        detail: part.member("detail")?.text()?.to_owned(),
        places: part.member("places")?.list()?.iter().map(Part::whole_number).collect::<Result<_, _>>()?,
        section: part.maybe("section").filter(|s| !s.is_null()).map(|s| s.whole_number()).transpose()?,
    })
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
