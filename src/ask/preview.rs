//! `preview`: a page of a document as a picture, before its file is made.

use super::error::Refusal;
use super::file::Size;
use super::{dummy, print, request, worksheet};
use crate::print::page_svg;
use serde::{Deserialize, Serialize};
use serde_json::{Map, Value};

/// The request.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Ask {
    of: Map<String, Value>,
    #[serde(default = "super::explain_section::one")]
    page: u32,
}

/// The answer.
#[derive(Serialize)]
pub(super) struct Shown {
    title: String,
    pages: Vec<Size>,
    svg: String,
}

pub(super) fn answer(ask: Ask) -> Result<Shown, Refusal> {
    let Ask { mut of, page } = ask;
    let what = of.remove("ask");
    let document = match what.as_ref().and_then(Value::as_str) {
        Some("dummy") => request::read(of).and_then(dummy::document),
        Some("print") => request::read(of).and_then(print::document),
        Some("worksheet") => request::read(of).and_then(worksheet::document),
        _ => {
            let says = "what is shown is a request for a document: `dummy`, `print` or `worksheet`";
            return Err(Refusal::new("of.ask", says));
        }
    };
    let document = document.map_err(|refused| refused.under("of"))?;
    let shown = (page as usize).checked_sub(1).and_then(|at| document.pages.get(at));
    let Some(shown) = shown else {
        let says = format!("this document has pages 1 to {}", document.pages.len());
        return Err(Refusal::new("page", says));
    };
    let svg = page_svg(shown, "paper-page");
    Ok(Shown { svg, pages: document.pages.iter().map(Size::of).collect(), title: document.title })
}
