//! What these marks can't show, asked of the worker (`blind_spots` of the ask protocol), and the answer.

use super::asked::texts;
use super::form_marks::{design_json, read_design};
use super::job::Job;
use super::part::{Part, Refused};
use crate::finish;
use crate::json::Json;
use crate::marks::{BackMarks, Backs};

/// What the marks of a book can't show, in words.
#[derive(Clone, Debug, PartialEq)]
pub struct BlindTold {
    /// How many faults were acted out, how many of them look right, and how many like another.
    pub counts: [u32; 3],
    /// What was not acted out in full.
    pub sampled: Vec<String>,
    /// The blind spots.
    pub spots: Vec<SpotTold>,
    /// What does not fit the backs.
    pub misfits: Vec<String>,
    /// What no mark shows.
    pub never: Vec<String>,
}

/// One blind spot in words.
#[derive(Clone, Debug, PartialEq)]
pub struct SpotTold {
    /// It in one sentence.
    pub title: String,
    /// What to do about it.
    pub detail: String,
    /// The sections it is about; empty where it is about all.
    pub sections: Vec<u32>,
    /// Examples: what looks alike, and what it is read as.
    pub examples: Vec<(String, String)>,
    /// The smallest change that removes it, in words, or that there is none.
    pub remedy: String,
    /// The marks with that change.
    pub change: Option<BackMarks>,
}

impl Job {
    /// What the marks are printed on: the thickness of the first section pressed flat, its folds, and the trims.
    #[must_use]
    pub fn backs(&self) -> Backs {
        let leaves = self.section(1).map(|(_, landing)| landing.pages.len() as u32 / 2);
        let thick = leaves.map(|leaves| finish::section(leaves, self.paper.stock.caliper()).mm());
        let folds = self.scheme_of(1).map(|scheme| scheme.folds.len() as u32);
        let trims = &self.paper.trims;
        Backs {
            thickness_mm: thick.filter(|thick| *thick > 0.0),
            folds: folds.unwrap_or(Backs::default().folds),
            head_trim_mm: Some(trims.head.mm()),
            foot_trim_mm: Some(trims.foot.mm()),
        }
    }

    /// The question what marks can't show in this book: its own, or others that are thought of.
    #[must_use]
    pub fn blind_question(&self, marks: &BackMarks) -> String {
        let backs = self.backs();
        let lengths = [
            ("thickness_mm", backs.thickness_mm),
            ("head_trim_mm", backs.head_trim_mm),
            ("foot_trim_mm", backs.foot_trim_mm),
        ];
        let mut on = vec![("folds".to_owned(), backs.folds.into())];
        on.extend(lengths.into_iter().filter_map(|(name, length)| Some((name.to_owned(), length?.into()))));
        let title = self.title.chars().take(crate::marks::MOST_LETTERS).collect::<String>();
        Json::object([
            ("ask", "blind_spots".into()),
            ("sections", self.sections.into()),
            ("marks", design_json(marks)),
            ("backs", Json::Object(on)),
            ("title", title.as_str().into()),
        ])
        .write()
    }
}

/// Reads the answer to [`Job::blind_question`].
///
/// # Errors
/// The reason that the answer gives, or that it is none.
pub fn read_blind(answer: &str) -> Result<BlindTold, String> {
    let unreadable = |says: String| format!("The answer can't be read: {says}.");
    let answer = Json::parse(answer).map_err(|_| unreadable("it is cut off".into()))?;
    if let Some(Json::Text(says)) = answer.get("error").and_then(|e| e.get("says")) {
        return Err(says.clone());
    }
    told(&Part::whole(&answer)).map_err(|(at, says)| unreadable(format!("{at} {says}")))
}

fn told(answer: &Part<'_>) -> Result<BlindTold, Refused> {
    let ok = answer.member("ok")?;
    let count = |name: &str| ok.member(name)?.whole_number();
    Ok(BlindTold {
        counts: [count("acted")?, count("look_right")?, count("look_alike")?],
        sampled: texts(&ok.member("sampled")?)?,
        spots: ok.member("spots")?.list()?.iter().map(spot).collect::<Result<_, _>>()?,
        misfits: texts(&ok.member("misfits")?)?,
        never: texts(&ok.member("never")?)?,
    })
}

fn spot(part: &Part<'_>) -> Result<SpotTold, Refused> {
    let text = |name: &str| part.member(name)?.text().map(str::to_owned);
    let example = |part: &Part<'_>| -> Result<(String, String), Refused> {
        Ok((part.member("says")?.text()?.to_owned(), part.member("read_as")?.text()?.to_owned()))
    };
    let change = part.maybe("change").filter(|change| !change.is_null());
    Ok(SpotTold {
        title: text("title")?,
        detail: text("detail")?,
        sections: part.member("sections")?.list()?.iter().map(Part::whole_number).collect::<Result<_, _>>()?,
        examples: part.member("examples")?.list()?.iter().map(example).collect::<Result<_, _>>()?,
        remedy: text("remedy")?,
        change: change.map(|change| read_design(&change.member("marks")?)).transpose()?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_jobs_own_marks_are_asked_about_and_a_change_is_read() {
        let job = Job::default();
        let told = read_blind(&crate::ask::answer(&job.blind_question(&job.design))).unwrap();
        assert!(told.counts[0] > 1000 && told.counts[1] > 0, "{:?}", told.counts);
        let gap = told.spots.iter().find(|spot| spot.sections == [1, 18]).unwrap();
        assert!(gap.change.as_ref().is_some_and(|marks| marks.ends_mm.is_some()), "{gap:?}");
        // A sixteen of the default paper: eight leaves, three folds, 3 mm off at head and foot.
        let backs = job.backs();
        assert!(backs.thickness_mm.is_some_and(|thick| (0.5..1.5).contains(&thick)), "{backs:?}");
        assert_eq!((backs.folds, backs.head_trim_mm), (3, Some(3.0)));
        assert!(read_blind("{").is_err());
        assert!(read_blind(&crate::ask::answer(r#"{"ask":"blind_spots"}"#)).is_err());
    }
}
