//! Parts of the page whose program is a file of its own, fetched when they are first shown.
//!
//! The build takes what is reachable only from the body of a function marked `wasm_split` out of the first file
//! (`xtask/src/split.rs`). The function hands out how the part is shown; [`use_later`] calls it when the part is wanted.

use std::future::Future;
use std::pin::Pin;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::spawn_local;
pub use wasm_split_helpers::{SplitLoaderError as Missing, wasm_split};
use web_sys::{Element, HtmlDialogElement};
use yew::prelude::*;

/// How a part is shown, given what it needs.
pub type Later<P> = fn(P) -> Html;

/// How far a part has come.
#[derive(Clone, Copy, PartialEq)]
enum Stage {
    /// Nobody wanted it yet, or it is being fetched.
    Away,
    /// It is here.
    Here,
    /// It could not be fetched.
    Missing,
}

/// Fetches a part, puts it where it is looked for, and says whether it came.
type Fetching = Pin<Box<dyn Future<Output = bool>>>;

/// A part that is fetched by `fetch` once it is `wanted`: how it is shown (or what else it does), or what to show in its
/// place until then. If it can't be fetched, that is a sentence with a button to try again; being wanted anew tries again
/// too.
///
/// # Errors
/// While the part isn't there.
#[hook]
pub fn use_later<T, F>(wanted: bool, fetch: fn() -> F) -> Result<T, Html>
where
    T: Copy + 'static,
    F: Future<Output = Result<T, Missing>> + 'static,
{
    let part = use_mut_ref(|| None::<T>);
    let fetching: Fetching = {
        let part = part.clone();
        Box::pin(async move {
            let came = fetch().await.ok();
            *part.borrow_mut() = came;
            came.is_some()
        })
    };
    let meanwhile = use_stage(wanted, fetching);
    let part = *part.borrow();
    part.ok_or(meanwhile)
}

/// The same for whatever part it is: this is in the first file once, and not once for each part.
#[hook]
fn use_stage(wanted: bool, fetching: Fetching) -> Html {
    let stage = use_state(|| Stage::Away);
    let tries = use_state(|| 0u32);
    {
        let stage = stage.clone();
        use_effect_with((wanted, *tries), move |(wanted, _)| match *stage {
            Stage::Here => {}
            _ if *wanted => spawn_local(async move {
                stage.set(if fetching.await { Stage::Here } else { Stage::Missing });
            }),
            Stage::Missing => stage.set(Stage::Away),
            Stage::Away => {}
        });
    }
    match *stage {
        Stage::Here => Html::default(),
        Stage::Away => waiting(),
        Stage::Missing => missing(Callback::from(move |_: MouseEvent| {
            stage.set(Stage::Away);
            tries.set(*tries + 1);
        })),
    }
}

fn waiting() -> Html {
    html! { <p class="later" role="status">{ "Loading…" }</p> }
}

fn missing(again: Callback<MouseEvent>) -> Html {
    html! {
        <div class="later" role="alert">
            <p>{ "This part of Backmark could not be loaded. Nothing of yours is lost; if trying again doesn’t help, load the page anew." }</p>
            <div class="dialog-foot">
                <button type="button" class="button" onclick={again}>{ "Try again" }</button>
                <button type="button" class="button in-dialog" onclick={Callback::from(close)}>{ "Close" }</button>
            </div>
        </div>
    }
}

/// Closes the dialog in which the button stands, since the part that would have brought another is not there.
fn close(e: MouseEvent) {
    let button = e.target().and_then(|t| t.dyn_into::<Element>().ok());
    let dialog = button.and_then(|b| b.closest("dialog").ok().flatten());
    if let Some(dialog) = dialog.and_then(|d| d.dyn_into::<HtmlDialogElement>().ok()) {
        dialog.close();
    }
}
