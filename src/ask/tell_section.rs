//! `tell_section`: a folded section whose pages are wrong, told in plain words.

use super::error::Refusal;
use super::explain_section::{check_first, check_pages, one, refusal};
use super::pieces::course;
use crate::fold::misfold::{
    self, Cause, FoldAt, FoundPage, Given, Happened, MAX_TYPED, MadeOf, NotExplained, NotMade, NotPlayed, NotTold,
    Question, SheetOf, Stranger, Told, parse_pages,
};
use crate::fold::{Course, Nest, Reads, Scheme};
use serde::Deserialize;
use serde_json::Value;

/// The most deliveries of one slit sheet; a bound of this program.
const MAX_LANES: u32 = 64;

/// The request: what was found, typed or written out, or what is to be done.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Ask {
    scheme: Option<Scheme>,
    sheet: Option<OfSheet>,
    #[serde(default = "one")]
    section: u32,
    #[serde(default = "one")]
    first_page: u32,
    #[serde(default)]
    fold_at: FoldAt,
    pages: Option<Vec<FoundPage>>,
    typed: Option<String>,
    made: Option<Vec<Value>>,
    inset: Option<Scheme>,
    lanes: Option<u32>,
}

/// The whole sheet that a section comes from: its steps as `pieces` takes them, and its copies.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct OfSheet {
    rows: u32,
    columns: u32,
    steps: Vec<Value>,
    copies: Vec<Vec<Nest>>,
    #[serde(default)]
    reads: Reads,
}

pub(super) fn answer(ask: Ask) -> Result<Told, Refusal> {
    check_first(ask.first_page)?;
    if !ask.lanes.is_none_or(|lanes| (1..=MAX_LANES).contains(&lanes)) {
        return Err(Refusal::new("lanes", format!("a sheet is slit into 1 to {MAX_LANES} deliveries")));
    }
    let Ask { scheme, sheet, section, first_page, fold_at, pages, typed, made, inset, lanes } = ask;
    let (scheme, made_of) = match (scheme, sheet) {
        (Some(scheme), None) => (scheme, None),
        (None, Some(sheet)) => {
            let made = made_of(sheet, section, first_page)?;
            let outermost = made.pieces.first().cloned();
            (outermost.ok_or_else(|| Refusal::new("section", "no piece is put here"))?, Some(made))
        }
        _ => return Err(Refusal::new("", "give either `scheme` or `sheet`")),
    };
    // What is said of the section beside its sheet holds.
    let made_of = made_of.map(|mut made| {
        if let Some(inset) = &inset {
            made.pieces = vec![scheme.clone(), inset.clone()];
        }
        if lanes.is_some() {
            made.lanes.clear();
        }
        made
    });
    let (inset, made_of, lanes) = (inset.as_ref(), made_of.as_ref(), lanes.unwrap_or(1));
    let question = Question { scheme: &scheme, inset, made_of, first_page, lanes };
    let (pages, given) = match (pages, typed, made) {
        (Some(pages), None, None) => {
            check_pages(&pages)?;
            (pages, "pages")
        }
        (None, Some(typed), None) => {
            (parse_pages(&typed).map_err(|why| Refusal::new("typed", why.to_string()))?, "typed")
        }
        (None, None, Some(made)) => {
            let alone = made.len() == 1;
            let made = happened(made)?;
            let told = misfold::tell(&question, Given::Made(&made));
            return told.map_err(|why| refused(why, alone));
        }
        _ => return Err(Refusal::new("", "give one of `pages`, `typed` and `made`")),
    };
    if pages.is_empty() || pages.len() > MAX_TYPED {
        return Err(Refusal::new(given, format!("a section has from 1 to {MAX_TYPED} pages here")));
    }
    misfold::tell(&question, Given::Found(&pages, fold_at)).map_err(|why| refused(why, false))
}

/// What a section of a sheet is made of.
fn made_of(sheet: OfSheet, section: u32, first_page: u32) -> Result<MadeOf, Refusal> {
    let OfSheet { rows, columns, steps, copies, reads } = sheet;
    let steps = course::steps(steps, "sheet.steps")?;
    let course = Course { rows, columns, steps, copies, reads };
    let section = section.checked_sub(1).ok_or_else(|| Refusal::new("section", "sections are numbered from 1"))?;
    MadeOf::of(&course, section as usize, first_page).map_err(|why| match why {
        NotMade::Course(why) => {
            // In a list of copies every copy has its place.
            let at =
                if why.at.starts_with("gather") { why.at.replacen("gather", "copies[0]", 1) } else { why.at.clone() };
            Refusal::new(format!("sheet.{at}").replace(".inset", ""), why.to_string())
        }
        NotMade::NoSection(_) => Refusal::new("section", why.to_string()),
        NotMade::TooLarge | NotMade::LaidTogether => Refusal::new("sheet", why.to_string()),
    })
}

/// Reads what is to be done: one cause, or two at once.
fn happened(made: Vec<Value>) -> Result<Happened, Refusal> {
    let many = made.len();
    let read = |(at, value): (usize, Value)| {
        let under =
            |why: serde_path_to_error::Error<serde_json::Error>| Refusal::shape(&why).under(&format!("made[{at}]"));
        let kind = value.get("kind").and_then(Value::as_str);
        if kind.is_some_and(|kind| Stranger::KINDS.contains(&kind)) {
            serde_path_to_error::deserialize::<_, Stranger>(value).map(Happened::from).map_err(under)
        } else {
            serde_path_to_error::deserialize::<_, Cause>(value).map(Happened::from).map_err(under)
        }
    };
    let parts = made.into_iter().enumerate().map(read).collect::<Result<Vec<_>, _>>()?;
    let two = || Refusal::new("made", "one cause is acted out, or two at once");
    if many > 2 { Err(two()) } else { Happened::all(parts).ok_or_else(two) }
}

fn refused(why: NotTold, alone: bool) -> Refusal {
    match why {
        NotTold::Scheme(SheetOf::Outer, why) => refusal(&why),
        NotTold::Scheme(SheetOf::Inset | SheetOf::Core, why) => {
            let at = why.place().map_or_else(|| "inset".into(), |place| format!("inset.{}", place.path()));
            Refusal::new(at, why.to_string())
        }
        NotTold::Made(NotPlayed::Sheet(NotExplained::Cause { at, says })) if alone && !at.is_empty() => {
            Refusal::new(format!("made[0].{at}"), says)
        }
        NotTold::Made(NotPlayed::Sheet(why @ NotExplained::FirstPage(_))) => refusal(&why),
        NotTold::Made(why) => Refusal::new(if alone { "made[0]" } else { "made" }, why.to_string()),
    }
}
