//! What the check says: a line for each fault, with a stitch of the thread before it.

use crate::gather::{Checked, Line};
use crate::ui::widgets::Words;
use gloo_events::EventListener;
use std::rc::Rc;
use web_sys::HtmlElement;
use yew::prelude::*;

/// The verdict.
#[derive(Clone, PartialEq, Properties)]
pub struct Props {
    /// The check, or why there is none.
    pub check: Rc<Result<Checked, String>>,
    /// Whether marks are about to be tapped.
    pub waiting: bool,
    /// Opens the dialog of the book and its marks.
    pub show_book: Callback<()>,
}

/// The verdict in words.
#[component]
pub fn VerdictView(props: &Props) -> Html {
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
    match &*props.check {
        Ok(_) if props.waiting => waits(),
        Ok(checked) => told(checked, verdict, details),
        Err(why) => refused(why, &props.show_book),
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

fn told(checked: &Checked, node: NodeRef, details: NodeRef) -> Html {
    let verdict = &checked.verdict;
    let stitched = !verdict.right;
    let cannot = verdict.cannot_tell.iter().map(|says| html! { <li><Words text={says.clone()} /></li> });
    html! {
        <section ref={node} class="verdict" aria-label="What the check says">
            <ul aria-live="polite">{ for verdict.lines.iter().map(|one| line(one, stitched)) }</ul>
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
            <h2><Words text={line.title.clone()} /></h2>
            <p hidden={line.detail.is_empty()}><Words text={line.detail.clone()} /></p>
        </li>
    }
}

fn refused(why: &str, show_book: &Callback<()>) -> Html {
    html! {
        <section class="verdict" aria-label="What the check says">
            <ul aria-live="polite">
                <li class="line"><h2>{ "This can’t be checked." }</h2><p><Words text={why.to_owned()} /></p></li>
            </ul>
            <p><button type="button" class="button" onclick={show_book.reform(|_: MouseEvent| ())}>{ "The book and its marks" }</button></p>
            <div hidden={true}></div>
        </section>
    }
}
