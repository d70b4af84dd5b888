//! What the back marks can't show: the question to the worker (`blind_spots`), and the answer.

use super::form_marks::{design_json, read_design};
use super::job::Job;
use super::part::{Part, Refused};
use super::plan_asked::{read_ok, texts};
use crate::json::Json;
use crate::marks::BackMarks;

/// Faults that the marks don't show, or not apart, for one reason.
#[derive(Clone, Debug, PartialEq)]
pub struct SpotTold {
    /// It in a sentence.
    pub title: String,
    /// What to do about it.
    pub detail: String,
    /// Faults that look like a right book.
    pub look_right: u32,
    /// Faults that look like another.
    pub look_alike: u32,
    /// Some of them: the faults, and what the marks are read as.
    pub examples: Vec<(String, String)>,
    /// The smallest change that removes it, in a sentence, or that there is none.
    pub remedy: String,
    /// The marks with that change.
    pub change: Option<BackMarks>,
}

/// All that the worker told.
#[derive(Clone, Debug, PartialEq)]
pub struct BlindTold {
    /// Books that were acted out, those that look right, and those that look like another.
    pub acted: [u32; 3],
    /// What was not tried in full.
    pub sampled: Vec<String>,
    /// The blind spots.
    pub spots: Vec<SpotTold>,
    /// What does not fit the backs.
    pub misfits: Vec<String>,
    /// What no mark shows.
    pub never: Vec<String>,
}

impl Job {
    /// The question what these marks can't show of this book.
    #[must_use]
    pub fn blind_question(&self) -> String {
        let pages = self.pages_of(1);
        let thickness = self.paper.stock.caliper().mm() * f64::from(pages / 2);
        let folds = self.scheme_of(1).map_or(0, |scheme| scheme.folds.len() as u32);
        let trims = &self.paper.trims;
        let title: String = self.title.chars().take(crate::marks::MOST_LETTERS.min(20)).collect();
        Json::object([
            ("ask", "blind_spots".into()),
            ("sections", self.sections.into()),
            ("marks", design_json(&self.design)),
            (
                "backs",
                Json::object([
                    ("thickness_mm", thickness.into()),
                    ("folds", folds.into()),
                    ("head_trim_mm", trims.head.mm().into()),
                    ("foot_trim_mm", trims.foot.mm().into()),
                ]),
            ),
            ("title", title.as_str().into()),
        ])
        .write()
    }
}

/// Reads the answer.
///
/// # Errors
/// The reason that the answer gives, or that it is none.
pub fn read_blind(answer: &str) -> Result<BlindTold, String> {
    read_ok(answer, |told| {
        let number = |name| told.member(name)?.whole_number();
        Ok(BlindTold {
            acted: [number("acted")?, number("look_right")?, number("look_alike")?],
            sampled: texts(&told.member("sampled")?)?,
            spots: told.member("spots")?.list()?.iter().map(spot).collect::<Result<_, _>>()?,
            misfits: texts(&told.member("misfits")?)?,
            never: texts(&told.member("never")?)?,
        })
    })
}

fn spot(part: &Part<'_>) -> Result<SpotTold, Refused> {
    let text = |part: &Part<'_>, name: &str| part.member(name)?.text().map(str::to_owned);
    let example = |part: &Part<'_>| -> Result<(String, String), Refused> {
        Ok((text(part, "says")?, text(part, "read_as")?))
    };
    let change = part.maybe("change").filter(|p| !p.is_null());
    Ok(SpotTold {
        title: text(part, "title")?,
        detail: text(part, "detail")?,
        look_right: part.member("look_right")?.whole_number()?,
        look_alike: part.member("look_alike")?.whole_number()?,
        examples: part.member("examples")?.list()?.iter().map(example).collect::<Result<_, _>>()?,
        remedy: text(part, "remedy")?,
        change: change.map(|change| read_design(&change.member("marks")?)).transpose()?,
    })
}
