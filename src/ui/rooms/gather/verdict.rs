//! What the check says: a line for each fault, with a stitch of the thread before it.

use super::asked::Check;
use crate::gather::{Line, Told};
use crate::ui::widgets::words;
use gloo_events::EventListener;
use web_sys::HtmlElement;
use yew::prelude::*;

/// The verdict in words. `waiting`: marks are about to be tapped.
#[hook]
pub fn use_verdict(check: &Check, waiting: bool, show_book: &Callback<()>) -> Html {
    let (verdict, details) = (use_node_ref(), use_node_ref());
    {
        // What opens below the edge of the words is brought up.
        let (verdict, details) = (verdict.clone(), details.clone());
        use_effect(move || {
            let found = verdict.cast::<HtmlElement>().zip(details.cast::<HtmlElement>());
            let listening = found.map(|(verdict, details)| {
                let to = details.clone();
                EventListener::new(&details, "toggle", move |_| {
                    if to.has_attribute("open") {
                        verdict.set_scroll_top(to.offset_top());
                    }
                })
            });
            move || drop(listening)
        });
    }
    match check {
        _ if waiting => waits(),
        Some(Ok(checked)) => told(checked, verdict, details),
        Some(Err(why)) => refused(why, show_book),
        None => reading(),
    }
}

fn waits() -> Html {
    html! {
        <section class="verdict" aria-label="What the check says">
            <ul aria-live="polite">
                <li class="line">
                    <h2>{ "Tap each mark where it stands." }</h2>
                    <p>{ "Tap a mark again to take it away." }</p>
                </li>
            </ul>
            <p hidden={true}></p>
            <div hidden={true}></div>
        </section>
    }
}

fn reading() -> Html {
    html! { <section class="verdict" aria-label="What the check says"><p class="quiet">{ "Reading the backs." }</p></section> }
}

fn told(checked: &Told, node: NodeRef, details: NodeRef) -> Html {
    let verdict = &checked.verdict;
    let stitched = !verdict.right;
    let cannot = verdict.cannot_tell.iter().map(|says| html! { <li>{ words(says) }</li> });
    html! {
        <section ref={node} class="verdict" aria-label="What the check says">
            <ul aria-live="polite">{ for verdict.lines.iter().map(|one| line(one, stitched)) }</ul>
            <p class="next" hidden={verdict.next_check.is_none()}>{ words(verdict.next_check.as_deref().unwrap_or_default()) }</p>
            <p class="quiet" hidden={verdict.caution.is_none()}>{ verdict.caution.clone().unwrap_or_default() }</p>
            <details ref={details} hidden={verdict.cannot_tell.is_empty()}>
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
            <p><button type="button" class="button" onclick={show_book.reform(|_: MouseEvent| ())}>{ "What this book is" }</button></p>
            <div hidden={true}></div>
        </section>
    }
}
