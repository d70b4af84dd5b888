//! `tell_section`: a folded section whose pages are wrong, told in plain words.

use super::error::Refusal;
use super::explain_section::{check_first, check_pages, one, refusal};
use crate::fold::Scheme;
use crate::fold::misfold::{
    self, Cause, FoldAt, FoundPage, Given, Happened, MAX_TYPED, NotExplained, NotPlayed, NotTold, Question, SheetOf,
    Stranger, Told, parse_pages,
};
use serde::Deserialize;
use serde_json::Value;

/// The most deliveries of one slit sheet; a bound of this program.
const MAX_LANES: u32 = 64;

/// The request: what was found, typed or written out, or what is to be done.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Ask {
    scheme: Scheme,
    #[serde(default = "one")]
    first_page: u32,
    #[serde(default)]
    fold_at: FoldAt,
    pages: Option<Vec<FoundPage>>,
    typed: Option<String>,
    made: Option<Vec<Value>>,
    inset: Option<Scheme>,
    #[serde(default = "one")]
    lanes: u32,
}

pub(super) fn answer(ask: Ask) -> Result<Told, Refusal> {
    check_first(ask.first_page)?;
    if !(1..=MAX_LANES).contains(&ask.lanes) {
        return Err(Refusal::new("lanes", format!("a sheet is slit into 1 to {MAX_LANES} deliveries")));
    }
    let Ask { scheme, first_page, fold_at, pages, typed, made, inset, lanes } = ask;
    let question = Question { scheme: &scheme, inset: inset.as_ref(), first_page, lanes };
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
        NotTold::Scheme(SheetOf::Inset, why) => {
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
