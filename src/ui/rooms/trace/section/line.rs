//! The pages in one line, to be typed or corrected, and where the fold was found.

use super::found::Found;
use crate::app::{Action, SectionCase, SectionEvidence};
use crate::ui::store::Act;
use wasm_bindgen::JsCast;
use web_sys::{HtmlTextAreaElement, KeyboardEvent};
use yew::prelude::*;

/// The line.
pub struct Props {
    /// The case.
    pub case: SectionCase,
    /// Its pages.
    pub found: Found,
    /// Whether the fold is at the fore-edge.
    pub fore_edge: bool,
    /// How to say what happened.
    pub act: Act,
    /// Called when a line was read.
    pub read: Callback<()>,
}

/// The line of pages.
#[hook]
pub fn use_line(props: &Props) -> Html {
    let stands: AttrValue = match &props.case.evidence {
        SectionEvidence::Typed(text) => text.clone().into(),
        SectionEvidence::Made(_) => props.found.line().into(),
    };
    let text = use_state(|| stands.to_string());
    {
        let text = text.setter();
        use_effect_with(stands.clone(), move |stands| text.set(stands.to_string()));
    }
    let typed = {
        let text = text.setter();
        Callback::from(move |e: InputEvent| {
            if let Some(input) = e.target().and_then(|t| t.dyn_into::<HtmlTextAreaElement>().ok()) {
                text.set(input.value());
            }
        })
    };
    let changed = text.trim() != stands.trim();
    let read = {
        let (act, read, case, text) = (props.act.clone(), props.read.clone(), props.case.clone(), (*text).clone());
        move || {
            if changed {
                let evidence = SectionEvidence::Typed(text.trim().to_owned());
                act.emit(Action::Section(SectionCase { evidence, ..case.clone() }));
            }
            read.emit(());
        }
    };
    let entered = {
        let read = read.clone();
        Callback::from(move |e: KeyboardEvent| {
            if e.key() == "Enter" {
                e.prevent_default();
                read();
            }
        })
    };
    let left = {
        let read = read.clone();
        Callback::from(move |_: Event| read())
    };
    let clear = {
        let (act, case) = (props.act.clone(), props.case.clone());
        Callback::from(move |_: MouseEvent| {
            let evidence = SectionEvidence::Typed(String::new());
            act.emit(Action::Section(SectionCase { evidence, fore_edge: false, ..case.clone() }));
        })
    };
    let wrong = props.found.broken.clone();
    html! {
        <div class="page-line">
            <div class="line-head">
                <label for="pages">{ "Its pages, front to back" }</label>
                <button type="button" class="plain" hidden={stands.is_empty()} onclick={clear}>{ "Begin anew" }</button>
            </div>
            <div class="run-line">
                <textarea id="pages" class="field" rows="2" autocomplete="off" autocapitalize="off" spellcheck="false" value={(*text).clone()}
                    aria-invalid={wrong.is_some().to_string()} aria-describedby="pages-wrong pages-legend"
                    oninput={typed} onkeydown={entered} onchange={left} />
                <button type="button" class="button slip" onclick={Callback::from(move |_: MouseEvent| read())}>{ "Read it" }</button>
            </div>
            <p id="pages-wrong" class="wrong" role="status">{ wrong.unwrap_or_default() }</p>
            <p id="pages-legend" class="legend quiet">
                <span><span class="n">{ "4v" }</span>{ " head down" }</span><span><span class="n">{ "_" }</span>{ " blank" }</span>
                <span><span class="n">{ "1-8" }</span>{ " in order" }</span>
            </p>
            { fold_at(props) }
        </div>
    }
}

/// Where the last fold was found.
fn fold_at(props: &Props) -> Html {
    let set = |fore_edge: bool, name: &'static str| {
        let (act, case, found) = (props.act.clone(), props.case.clone(), props.found.clone());
        let chosen = Callback::from(move |_: MouseEvent| {
            // A section that was made and is then found otherwise is one that was found.
            let evidence = SectionEvidence::Typed(match &case.evidence {
                SectionEvidence::Typed(text) => text.clone(),
                SectionEvidence::Made(_) => found.line(),
            });
            act.emit(Action::Section(SectionCase { evidence, fore_edge, ..case.clone() }));
        });
        let on = props.fore_edge == fore_edge;
        html! { <button type="button" class="button" aria-pressed={on.to_string()} onclick={chosen}>{ name }</button> }
    };
    html! {
        <div class="fold-at" role="group" aria-label="Fold found at">
            <span>{ "Fold found at the" }</span>{ set(false, "spine") }{ set(true, "fore-edge") }
        </div>
    }
}
