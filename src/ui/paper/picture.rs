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
    /// How it will be; of an older wish, if the newest is not answered yet.
    Shown(PreviewTold),
    /// It can't be: why, in a sentence.
    Refused(String),
}

impl Seen {
    /// How many pages it has, if that is known.
    pub fn pages(&self) -> Option<usize> {
        match self {
            Self::Shown(told) => Some(told.pages.len()),
            _ => None,
        }
    }

    /// The picture, with what it shows in words.
    pub fn view(&self, says: &str) -> Html {
        let (picture, busy) = match self {
            Self::Shown(told) => (AttrValue::from(told.svg.clone()), false),
            _ => (AttrValue::default(), true),
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
    let heard = use_answer(checker, question, read_preview);
    match heard.as_ref() {
        Some((_, Ok(told))) => Seen::Shown(told.clone()),
        Some((_, Err(why))) => Seen::Refused(why.clone()),
        None => Seen::Asked,
    }
}
