//! A page of a document as a picture, painted by the worker from the same document that is printed.

use crate::app::{PreviewTold, preview_question, read_preview};
use crate::json::Json;
use crate::print::Printer;
use crate::ui::asked::use_answer;
use crate::ui::browser::checker::Checker;
use yew::prelude::*;

/// What is known of a document before it is made.
#[derive(Clone, PartialEq)]
pub enum Seen {
    /// The worker is at it.
    Asked,
    /// How it will be, and whether that is the newest wish, and not the one before.
    Shown(PreviewTold, bool),
    /// It can't be: why, in a sentence.
    Refused(String),
}

impl Seen {
    /// How many pages it has, if that is known.
    pub fn pages(&self) -> Option<usize> {
        match self {
            Self::Shown(told, true) => Some(told.pages.len()),
            _ => None,
        }
    }

    /// The picture, with what it shows in words.
    pub fn view(&self, says: &str) -> Html {
        let (picture, busy) = match self {
            Self::Shown(told, newest) => (AttrValue::from(told.svg.clone()), !newest),
            Self::Asked => (AttrValue::default(), true),
            Self::Refused(_) => (AttrValue::default(), false),
        };
        html! {
            <div class="page-picture" role="img" aria-label={says.to_owned()} aria-busy={busy.to_string()}>
                { Html::from_html_unchecked(picture) }
            </div>
        }
    }
}

/// A page (from 1) of a document.
#[hook]
pub fn use_picture(checker: &Checker, of: Option<&Json>, printer: &Printer, page: u32) -> Seen {
    let question = of.map(|of| preview_question(of, printer, page));
    let heard = use_answer(checker, question.clone(), read_preview);
    match heard.as_ref() {
        Some((of, Ok(told))) => Seen::Shown(told.clone(), Some(of) == question.as_ref()),
        Some((of, Err(why))) if Some(of) == question.as_ref() => Seen::Refused(why.clone()),
        _ => Seen::Asked,
    }
}
