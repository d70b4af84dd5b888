//! The saved form: one versioned JSON text, in the browser's store and as a file.
#![doc = include_str!("FORMAT.md")]

use super::form::{job_json, look_json, read_job, read_look};
use super::job::{Evidence, Job, MAX_LAYOUT, MAX_LAYOUT_PANELS, MAX_SECTIONS, MAX_TITLE, Paper, check_case};
use super::look::Look;
use super::part::{Part, Refused};
use super::sections::{MAX_OTHERWISE, check_measure};
use super::sheet::Sheet;
use super::update::{FoldsOf, check_found};
use crate::fold::Worked;
use crate::gather::stack::Placed;
use crate::json::{Json, NotJson};
use crate::marks::MOST_SECTIONS;
use thiserror::Error;

/// The version that this program writes.
pub const FORMAT: u32 = 4;

/// The longest text that is read, in bytes.
const MAX_BYTES: usize = 4_000_000;

/// What a saved text holds.
#[derive(Clone, Debug, PartialEq)]
pub struct Saved {
    /// The job.
    pub job: Job,
    /// Where its maker stood.
    pub look: Look,
}

/// Why a text is refused.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum SavedError {
    /// Too long.
    #[error("the file is larger than 4 MB; a job is far smaller")]
    TooLong,
    /// Not JSON, or cut off.
    #[error("the file is damaged or not a job: line {line}, column {column} can't be read")]
    NotJson {
        /// Line, from 1.
        line: usize,
        /// Column, from 1.
        column: usize,
    },
    /// JSON of something else.
    #[error("the file is not a Backmark job")]
    Foreign,
    /// From a later program.
    #[error("the file has form {found}, and this program reads form {FORMAT} and older; it was left as it is")]
    Newer {
        /// Its version.
        found: u64,
    },
    /// A part is missing, has the wrong shape, or can't be.
    #[error("the file can't be used: {at} {says}")]
    Value {
        /// A path into the file.
        at: String,
        /// What is wrong there.
        says: String,
    },
}

/// Writes a job and where its maker stands.
#[must_use]
pub fn write_saved(job: &Job, look: &Look) -> String {
    Json::object([("backmark", FORMAT.into()), ("job", job_json(job)), ("look", look_json(look))]).write()
}

/// Reads a saved text.
///
/// # Errors
/// When the text is not a job of this or an older form, is damaged, or holds what can't be. Nothing is changed then.
pub fn read_saved(text: &str) -> Result<Saved, SavedError> {
    if text.len() > MAX_BYTES {
        return Err(SavedError::TooLong);
    }
    let text = text.trim_start_matches('\u{feff}');
    let json = Json::parse(text).map_err(|NotJson { line, column }| SavedError::NotJson { line, column })?;
    match json.get("backmark") {
        Some(Json::Number(n)) if *n >= 1.0 && *n <= f64::from(FORMAT) && n.fract() == 0.0 => {}
        Some(Json::Number(n)) if *n > f64::from(FORMAT) => {
            return Err(SavedError::Newer { found: n.min(9e15) as u64 });
        }
        _ => return Err(SavedError::Foreign),
    }
    let saved = saved(&Part::whole(&json)).map_err(|(at, says)| SavedError::Value { at, says })?;
    check(&saved)?;
    Ok(saved)
}

fn saved(part: &Part<'_>) -> Result<Saved, Refused> {
    part.only(&["backmark", "job", "look"])?;
    let look = part.maybe("look").map_or_else(|| Ok(Look::default()), |l| read_look(&l))?;
    Ok(Saved { job: read_job(&part.member("job")?)?, look })
}

/// More folds than any sheet can take.
const MOST_FOLDS: usize = 8192;

/// A sheet in the making may be unfinished, but one that is slit is worked to its end.
fn check_sheet(sheet: &Sheet, paper: &Paper, at: &str) -> Result<(), SavedError> {
    let value = |part: &str, says: String| Err(SavedError::Value { at: format!("{at}.{part}"), says });
    let course = &sheet.course;
    if let Err(why) = sheet.trunk().check_size() {
        return value(&format!("course.{}", why.place().path()), format!("can't be: {why}"));
    }
    if course.steps.pieces().iter().any(|s| s.folds.len() > MOST_FOLDS) || course.steps.folds.len() > MOST_FOLDS {
        return value("course.steps", "has more folds than any sheet can take".into());
    }
    if let (false, Err(why)) = (sheet.is_whole(), Worked::in_the_making(course)) {
        return value(&format!("course.{}", why.at), format!("can't be: {why}"));
    }
    check_measure(course, &sheet.measure).or_else(|says| value("measure", says))?;
    let fits = paper.check(sheet.leaf());
    fits.map_err(|says| SavedError::Value { at: "job.paper".into(), says: format!("can't be: {says}") })
}

fn check(saved: &Saved) -> Result<(), SavedError> {
    let value = |at: &str, says: String| Err(SavedError::Value { at: at.into(), says });
    let job = &saved.job;
    if job.title.chars().count() > MAX_TITLE {
        return value("job.title", format!("is longer than {MAX_TITLE} characters"));
    }
    if job.sections == 0 || job.sections > MAX_SECTIONS {
        return value("job.sections", format!("must be 1 to {MAX_SECTIONS}"));
    }
    check_sheet(&job.sheet, &job.paper, "job.sheet")?;
    for (i, other) in job.otherwise.iter().enumerate().take(MAX_OTHERWISE) {
        check_sheet(&other.sheet, &job.paper, &format!("job.otherwise[{i}]"))?;
    }
    job.check_otherwise().or_else(|says| value("job.otherwise", format!("can't be: {says}")))?;
    job.planning.check().or_else(|says| value("job.planning", format!("can't be: {says}")))?;
    job.casing.check().or_else(|says| value("job.casing", format!("can't be: {says}")))?;
    job.check_book().or_else(|says| value("job.runs", format!("can't be, or what is added: {says}")))?;
    if let Err(why) = job.design.check(job.sections) {
        return value("job.design", format!("can't be: {why}"));
    }
    if job.stack.placed().is_empty() {
        return value("job.stack", "is empty; a book without sections has nothing to check".into());
    }
    let folds = FoldsOf::new(job);
    let no_such_fold = |p: &Placed| p.misfold.is_some_and(|f| f == 0 || f as usize > folds.at(p));
    if let Some(i) = job.stack.placed().iter().position(no_such_fold) {
        return value(&format!("job.stack[{i}].misfold"), "is a fold that the scheme has not".into());
    }
    if let Evidence::Tapped(backs) = &job.evidence {
        let fine = |m: &f64| m.is_finite() && (0.0..=job.design.stairs.spine_mm).contains(m);
        if backs.is_empty() || backs.len() > MOST_SECTIONS as usize || !backs.iter().flatten().all(fine) {
            return value("job.evidence", "holds marks that no spine has".into());
        }
    }
    if let Some(tried) = &job.tried {
        let scheme = if tried.folds.len() > MOST_FOLDS { None } else { job.tried_scheme() };
        if scheme.is_none_or(|s| crate::fold::Folding::of(&s).is_ok_and(|f| f.stopped.is_some())) {
            return value("job.tried", "holds a fold that can't be made".into());
        }
    }
    let (rows, columns) = (job.layout.rows, job.layout.columns);
    let most = 1..=MAX_LAYOUT;
    if !most.contains(&rows) || !most.contains(&columns) || rows * columns > MAX_LAYOUT_PANELS {
        return value("job.layout", "is larger than a layout can be here".into());
    }
    if let Err(why) = check_case(&job.section_case) {
        return value("job.section", format!("can't be: {why}"));
    }
    if let Err(why) = check_found(job) {
        return value("job.case", format!("can't be: {why}"));
    }
    if !saved.look.at.is_finite() {
        return value("look.at", "is not a number".into());
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_not_a_job_of_ours_is_refused_with_the_reason() {
        let good = write_saved(&Job::default(), &Look::default());
        assert!(read_saved(&good).is_ok());
        let says = |text: &str| read_saved(text).unwrap_err().to_string();
        assert!(says("").contains("damaged or not a job"));
        assert!(says(&good[..good.len() / 2]).contains("line 1"));
        assert_eq!(says(r#"{"name": "something else"}"#), "the file is not a Backmark job");
        assert_eq!(says("[1, 2]"), "the file is not a Backmark job");
        let with = |from: &str, to: &str| {
            assert!(good.contains(from), "{good}");
            says(&good.replacen(from, to, 1))
        };
        assert!(with("\"backmark\":4", "\"backmark\":5").contains("form 5"));
        assert!(with("\"rows\":2", "\"rows\":-2").contains("job.sheet.course.rows must be a whole number"));
        assert!(with("\"rows\":2", "\"rows\":90000").contains("job.sheet.course.rows"));
        assert!(with("\"564 mm\"", "\"0 mm\"").contains("job.sheet.measure"));
        assert!(with("\"sections\":18", "\"sections\":100").contains("job.sections"));
        assert!(with("\"title\"", "\"tilte\"").contains("tilte"));
        assert!(
            with("\"lands\":\"over\"", "\"lands\":\"on\"").contains("job.sheet.course.steps[0].lands must be one of")
        );
    }
}
