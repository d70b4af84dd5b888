//! What the check says: a line for each fault, with a stitch of the thread before it.

use crate::gather::{Checked, Line};
use crate::ui::widgets::words;
use std::rc::Rc;
use yew::prelude::*;

/// The verdict.
#[derive(Clone, PartialEq, Properties)]
pub struct Props {
    /// The check, or why there is none.
    pub check: Rc<Result<Checked, String>>,
    /// Opens the dialog of the book and its marks.
    pub show_book: Callback<()>,
}

/// The verdict in words.
#[component]
pub fn VerdictView(props: &Props) -> Html {
    match &*props.check {
        Ok(checked) => told(checked),
        Err(why) => refused(why, &props.show_book),
    }
}

fn told(checked: &Checked) -> Html {
    let verdict = &checked.verdict;
    let stitched = !verdict.right;
    let cannot = verdict.cannot_tell.iter().map(|says| html! { <li>{ words(says) }</li> });
    html! {
        <section class="verdict" aria-label="What the check says">
            <ul aria-live="polite">{ for verdict.lines.iter().map(|one| line(one, stitched)) }</ul>
            <p class="quiet" hidden={verdict.caution.is_none()}>{ verdict.caution.clone().unwrap_or_default() }</p>
            <details hidden={verdict.cannot_tell.is_empty()}>
                <summary class="button">{ "Marks can’t tell" }</summary>
                <ul class="quiet">{ for cannot }</ul>
            </details>
        </section>
    }
}

fn line(line: &Line, stitched: bool) -> Html {
    html! {
        <li class="line">
            <span class={if stitched { "stitch" } else { "no-stitch" }}></span>
            <h2>{ words(&line.title) }</h2>
            <p hidden={line.detail.is_empty()}>{ words(&line.detail) }</p>
        </li>
    }
}

fn refused(why: &str, show_book: &Callback<()>) -> Html {
    html! {
        <section class="verdict" aria-label="What the check says">
            <ul aria-live="polite">
                <li class="line"><h2>{ "This can’t be checked." }</h2><p>{ words(why) }</p></li>
            </ul>
            <p><button type="button" class="button" onclick={show_book.reform(|_: MouseEvent| ())}>{ "The book and its marks" }</button></p>
            <div hidden={true}></div>
        </section>
    }
}
