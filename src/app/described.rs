//! What the book is, told by the worker (`describe_book`): extent, collational formula, block and case.

use super::asked::texts;
use super::form_book::{added_json, run_json, signing_json};
use super::job::Job;
use super::part::{Part, Refused};
use super::plan_asked::{FindingTold, read_finding, read_ok};
use crate::book::{Back, Run};
use crate::json::Json;
use crate::paper::Grain;

/// Block and case. Lengths in mm, the width first.
#[derive(Clone, Debug, PartialEq)]
pub struct BoundTold {
    /// Thickness of the block at the fore-edge.
    pub block: f64,
    /// Width of the back of the sewn block, the swell with it.
    pub back: f64,
    /// How far a rounded back stands out.
    pub rise: f64,
    /// A board.
    pub board: (f64, f64),
    /// The strip of the spine.
    pub strip: (f64, f64),
    /// Width of a joint.
    pub joint: f64,
    /// The cloth.
    pub cloth: (f64, f64),
    /// Each figure with its sum and its source.
    pub findings: Vec<FindingTold>,
}

/// What the book is.
#[derive(Clone, Debug, PartialEq)]
pub struct DescribedTold {
    /// Its extent, in sentences.
    pub extent: Vec<String>,
    /// The collational formula.
    pub formula: String,
    /// The same to be read aloud.
    pub spoken: String,
    /// Block and case.
    pub bound: Option<BoundTold>,
}

impl Job {
    /// The question what this book is.
    #[must_use]
    pub fn describe_question(&self) -> String {
        let book = self.book();
        let page = self.paper.trims.page(self.sheet.leaf());
        let (stock, casing) = (&self.paper.stock, &self.casing);
        let grain = if stock.grain == Grain::Level { "level" } else { "upright" };
        let back = if casing.back == Back::Round { "round" } else { "flat" };
        let mut binding = vec![
            ("page".to_owned(), Json::object([("width_mm", page.0.mm().into()), ("height_mm", page.1.mm().into())])),
            (
                "paper".to_owned(),
                Json::object([
                    ("grammage", stock.grammage.into()),
                    ("bulk", stock.bulk.into()),
                    ("grain", grain.into()),
                ]),
            ),
            ("thread_mm".to_owned(), casing.thread.mm().into()),
            ("nipped_percent".to_owned(), casing.nipped_percent.into()),
            ("back".to_owned(), back.into()),
            ("board_mm".to_owned(), casing.board.mm().into()),
            ("square_mm".to_owned(), casing.square.mm().into()),
            ("turn_in_mm".to_owned(), casing.turn_in.mm().into()),
        ];
        binding.extend(casing.joint.map(|joint| ("joint_mm".to_owned(), joint.mm().into())));
        Json::object([
            ("ask", "describe_book".into()),
            (
                "book",
                Json::object([
                    ("runs", Json::list(book.runs.iter().map(asked_run))),
                    ("added", Json::list(book.added.iter().map(added_json))),
                    ("sections", Json::list(book.sections.iter().map(|pages| (*pages).into()))),
                ]),
            ),
            ("signing", signing_json(&self.signing)),
            ("binding", Json::Object(binding)),
        ])
        .write()
    }
}

/// A run as the protocol words it: its folios are a part of their own.
fn asked_run(run: &Run) -> Json {
    let kept = run_json(run);
    let part = |name: &str| kept.get(name).cloned().unwrap_or(Json::Null);
    let folios = match run.folios {
        crate::book::Folios::None => Json::object([("kind", "none".into())]),
        _ => Json::object([("kind", part("folios")), ("first", part("first"))]),
    };
    Json::object([("name", part("name")), ("pages", part("pages")), ("folios", folios), ("blank", part("blank"))])
}

/// Reads the answer.
///
/// # Errors
/// The reason that the answer gives, or that it is none.
pub fn read_described(answer: &str) -> Result<DescribedTold, String> {
    read_ok(answer, |told| {
        let formula = told.member("formula")?;
        let text = |name| formula.member(name)?.text().map(str::to_owned);
        let bound = told.maybe("bound").filter(|p| !p.is_null());
        Ok(DescribedTold {
            extent: texts(&told.member("extent")?)?,
            formula: text("text")?,
            spoken: text("spoken")?,
            bound: bound.map(|bound| read_bound(&bound)).transpose()?,
        })
    })
}

fn read_bound(part: &Part<'_>) -> Result<BoundTold, Refused> {
    let mm = |name| part.member(name)?.number();
    let pair = |name| {
        let part = part.member(name)?;
        match part.list()?.as_slice() {
            [width, height] => Ok((width.number()?, height.number()?)),
            _ => part.refuse("must be a width and a height"),
        }
    };
    Ok(BoundTold {
        block: mm("block_mm")?,
        back: mm("back_mm")?,
        rise: mm("rise_mm")?,
        board: pair("board_mm")?,
        strip: pair("strip_mm")?,
        joint: mm("joint_mm")?,
        cloth: pair("cloth_mm")?,
        findings: part.member("findings")?.list()?.iter().map(read_finding).collect::<Result<_, _>>()?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::book::{Added, Folios};

    #[test]
    fn a_job_is_described() {
        let mut job = Job::default();
        let run = |pages, folios| Run { name: "a run".into(), pages, folios, blank: false };
        job.runs = vec![run(16, Folios::Roman { first: 1 }), run(256, Folios::Arabic { first: 1 })];
        job.added = vec![Added::Plate { after: 32, pages: 2 }];
        job.casing.back = Back::Round;
        let told = read_described(&crate::ask::answer(&job.describe_question())).unwrap();
        assert!(told.formula.contains("i–xvi") && told.formula.contains("144 leaves"), "{}", told.formula);
        let bound = told.bound.unwrap();
        assert!(bound.rise > 0.0 && bound.cloth.0 > 2.0 * bound.board.0, "{bound:?}");
        assert!(!bound.findings.is_empty());
    }
}
