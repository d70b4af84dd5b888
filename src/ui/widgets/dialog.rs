//! A modal dialog: the browser's own, which keeps the focus inside and gives it back.

use gloo_utils::document;
use std::cell::Cell;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlDialogElement, HtmlElement};
use yew::prelude::*;

/// A dialog.
#[derive(Clone, PartialEq, Properties)]
pub struct Props {
    /// Whether it is open.
    pub open: bool,
    /// Its heading.
    pub title: AttrValue,
    /// Called when it was closed, by whatever means.
    pub close: Callback<()>,
    /// What it holds.
    pub children: Children,
}

/// A modal dialog with a heading.
#[component]
pub fn Dialog(props: &Props) -> Html {
    let node = use_node_ref();
    // Whether it was closed because it should no longer be open. The browser tells of it later, when it may be open again.
    let told = use_memo((), |()| Cell::new(false));
    {
        let (node, told) = (node.clone(), told.clone());
        use_effect_with(props.open, move |open| {
            if let Some(dialog) = node.cast::<HtmlDialogElement>() {
                if *open && !dialog.open() {
                    let _ = dialog.show_modal();
                } else if !*open && dialog.open() {
                    told.set(true);
                    dialog.close();
                }
            }
        });
    }
    {
        let node = node.clone();
        // What the dialog holds may come after it was opened; until then the dialog itself has the focus.
        use_effect(move || {
            if let Some(dialog) = node.cast::<Element>()
                && document().active_element().as_ref() == Some(&dialog)
                && let Ok(Some(first)) = dialog.query_selector("button, input, select")
                && let Ok(first) = first.dyn_into::<HtmlElement>()
            {
                let _ = first.focus();
            }
        });
    }
    let closed = {
        let close = props.close.clone();
        Callback::from(move |_: Event| {
            if !told.replace(false) {
                close.emit(());
            }
        })
    };
    html! {
        <dialog ref={node} aria-label={props.title.clone()} onclose={closed}>
            <h2>{ props.title.clone() }</h2>
            <div>{ if props.open { html! { <>{ props.children.clone() }</> } } else { Html::default() } }</div>
        </dialog>
    }
}
