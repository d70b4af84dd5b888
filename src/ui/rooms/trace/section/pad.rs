//! The pad: slips with the pages of the section, to be tapped one after another.

use super::found::Found;
use gloo_utils::document;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlElement, HtmlInputElement, KeyboardEvent};
use yew::prelude::*;

/// What the pad is made of.
pub struct Props {
    /// What was found so far.
    pub found: Found,
    /// The place that is entered next.
    pub entering: Option<usize>,
    /// Called with a page, or `None` for a blank side, and whether its head is down.
    pub enter: Callback<(Option<u32>, bool)>,
    /// Goes back by a leaf.
    pub back: Callback<()>,
}

/// The pad.
#[hook]
pub fn use_pad(props: &Props) -> Html {
    let head_down = use_state_eq(|| false);
    let other = use_state(String::new);
    let down = *head_down;
    let found = &props.found;
    let next = props.entering.and_then(|at| found.next(at));
    let stuck = found.broken.is_some();
    let slip = |page: &u32| {
        let page = *page;
        let used = found.pages.iter().any(|p| p.page == Some(page));
        let follows = next == Some(page);
        let label = format!(
            "Page {page}{}{}",
            if follows { ", which follows" } else { "" },
            if used { ", entered already" } else { "" }
        );
        let class = classes!("page-slip", used.then_some("used"), follows.then_some("follows"), down.then_some("down"));
        let enter = props.enter.reform(move |_: MouseEvent| (Some(page), down));
        html! {
            <li key={page}>
                <button type="button" {class} aria-label={label} disabled={stuck} onclick={enter}><span>{ page }</span></button>
            </li>
        }
    };
    let turn = {
        let head_down = head_down.setter();
        Callback::from(move |_: MouseEvent| head_down.set(!down))
    };
    let typed = {
        let other = other.setter();
        Callback::from(move |e: InputEvent| {
            if let Some(input) = e.target().and_then(|t| t.dyn_into::<HtmlInputElement>().ok()) {
                other.set(input.value());
            }
        })
    };
    let give = {
        let (enter, other) = (props.enter.clone(), other.clone());
        move || {
            if let Some(page) = other.trim().parse().ok().filter(|page| (1..=1_000_000u32).contains(page)) {
                enter.emit((Some(page), down));
                other.set(String::new());
            }
        }
    };
    let entered = {
        let give = give.clone();
        Callback::from(move |e: KeyboardEvent| {
            if e.key() == "Enter" {
                e.prevent_default();
                give();
            }
        })
    };
    let pad = use_node_ref();
    {
        let pad = pad.clone();
        // The pad goes with the last page; whoever was at it hears what the opening shows.
        use_effect_with(props.entering.is_none(), move |gone| {
            let at = document().active_element();
            let was_here = pad.cast::<Element>().is_some_and(|pad| pad.contains(at.as_deref()));
            if *gone
                && was_here
                && let Ok(Some(says)) = document().query_selector(".hand-says")
                && let Ok(says) = says.dyn_into::<HtmlElement>()
            {
                let _ = says.focus();
            }
        });
    }
    html! {
        <div ref={pad} class="pad" role="group" aria-label="What the page says" hidden={props.entering.is_none()}>
            <ul class="page-slips">{ for found.due.iter().map(slip) }</ul>
            <div class="pad-tools">
                <button type="button" class="button" aria-pressed={down.to_string()} onclick={turn}>{ "Head down" }</button>
                <button type="button" class="button" disabled={stuck} onclick={props.enter.reform(move |_: MouseEvent| (None, down))}>
                    { "Blank" }
                </button>
                <input id="other-page" class="field" inputmode="numeric" autocomplete="off" disabled={stuck}
                    aria-label="Another number" placeholder="other" value={(*other).clone()} oninput={typed}
                    onkeydown={entered} onchange={Callback::from(move |_: Event| give())} />
                <button type="button" class="button" disabled={stuck || props.entering == Some(0)} onclick={props.back.reform(|_: MouseEvent| ())}>
                    { "Back one leaf" }
                </button>
            </div>
        </div>
    }
}
