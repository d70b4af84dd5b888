//! The saved form: one versioned JSON text, in the browser's store and as a file.
#![doc = include_str!("FORMAT.md")]

use super::job::{Evidence, Job, MAX_SECTIONS, MAX_TITLE};
use super::look::Look;
use crate::marks::MOST_SECTIONS;
use serde::{Deserialize, Serialize};
use thiserror::Error;

/// The version that this program writes.
pub const FORMAT: u32 = 1;

/// The longest text that is read, in bytes.
const MAX_BYTES: usize = 4_000_000;

/// What a saved text holds.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Saved {
    /// The version of the form, which also says whose file it is.
    pub backmark: u32,
    /// The job.
    pub job: Job,
    /// Where its maker stood.
    #[serde(default)]
    pub look: Look,
}

/// The one member that says whose file it is; what else is in it is read later.
#[derive(Deserialize)]
struct Header {
    backmark: u64,
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
    /// A part is missing or has the wrong shape.
    #[error("the file is damaged: {says}")]
    Shape {
        /// What is wrong, with its line and column.
        says: String,
    },
    /// A part is readable but can't be.
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
    let saved = Saved { backmark: FORMAT, job: job.clone(), look: look.clone() };
    serde_json::to_string_pretty(&saved).unwrap_or_default()
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
    let header: Header = serde_json::from_str(text).map_err(|e| match e.classify() {
        serde_json::error::Category::Data => SavedError::Foreign,
        _ => SavedError::NotJson { line: e.line(), column: e.column() },
    })?;
    match header.backmark {
        0 => return Err(SavedError::Foreign),
        found if found > u64::from(FORMAT) => return Err(SavedError::Newer { found }),
        _ => {}
    }
    let saved: Saved = serde_json::from_str(text).map_err(|e| SavedError::Shape { says: e.to_string() })?;
    check(&saved)?;
    Ok(saved)
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
    if let Err(why) = job.scheme.check_size() {
        return value(&format!("job.scheme.{}", why.place().path()), format!("can't be: {why}"));
    }
    if job.scheme.folds.len() > 8192 {
        return value("job.scheme.folds", "has more folds than any sheet can take".into());
    }
    if let Err(why) = job.design.check(job.sections) {
        return value("job.design", format!("can't be: {why}"));
    }
    if job.stack.placed().is_empty() {
        return value("job.stack", "is empty; a book without sections has nothing to check".into());
    }
    if let Evidence::Tapped(backs) = &job.evidence {
        let fine = |m: &f64| m.is_finite() && (0.0..=job.design.spine_mm).contains(m);
        if backs.is_empty() || backs.len() > MOST_SECTIONS as usize || !backs.iter().flatten().all(fine) {
            return value("job.evidence", "holds marks that no spine has".into());
        }
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
        assert!(says(&good[..good.len() / 2]).contains("line"));
        assert_eq!(says(r#"{"name": "something else"}"#), "the file is not a Backmark job");
        assert!(says("[1, 2]").contains("not a job"));
        assert!(says(&good.replace("\"backmark\": 1", "\"backmark\": 2")).contains("form 2"));
        assert!(says(&good.replace("\"rows\": 2", "\"rows\": -2")).contains("line"));
        assert!(says(&good.replace("\"rows\": 2", "\"rows\": 90000")).contains("job.scheme.rows"));
        assert!(says(&good.replace("\"sections\": 18", "\"sections\": 100")).contains("job.sections"));
        assert!(says(&good.replace("\"title\"", "\"tilte\"")).contains("tilte"));
    }
}
