//! What the check says: a line for each fault, with a stitch of the thread before it.

use super::asked::Check;
use crate::gather::{Line, Told};
use crate::ui::widgets::words;
use yew::prelude::*;

/// The verdict in words.
#[must_use]
pub fn verdict_view(check: &Check, show_book: &Callback<()>) -> Html {
    match check {
        Some(Ok(checked)) => told(checked),
        Some(Err(why)) => refused(why, show_book),
        None => {
            html! { <section class="verdict" aria-label="What the check says"><p class="quiet">{ "Reading the backs." }</p></section> }
        }
    }
}

fn told(checked: &Told) -> Html {
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
