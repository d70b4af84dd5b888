//! The question of an act that needs one more pick, with a field for those who type it.

use super::asking::{Ask, Pick};
use crate::fold::{Fold, fold_name};
use crate::ui::widgets::words;
use wasm_bindgen::JsCast;
use web_sys::{HtmlElement, HtmlInputElement, KeyboardEvent};
use yew::prelude::*;

/// The question.
#[derive(Clone, PartialEq, Properties)]
pub struct Props {
    /// What is asked.
    pub ask: Ask,
    /// Why the last answer could not be taken.
    pub refused: Option<AttrValue>,
    /// The folds of the sheet.
    pub folds: Vec<Fold>,
    /// Whether the window is narrow, where a field that has the focus would bring up a keyboard.
    pub narrow: bool,
    /// Called with an answer.
    pub answer: Callback<Pick>,
    /// Called to give up.
    pub give_up: Callback<()>,
}

/// The question, a field, and the way out.
#[component]
pub fn Asker(props: &Props) -> Html {
    let text = use_state(String::new);
    let field = use_node_ref();
    let question = use_node_ref();
    {
        let (text, field, question, narrow) = (text.setter(), field.clone(), question.clone(), props.narrow);
        use_effect_with(props.ask, move |_| {
            text.set(String::new());
            let to = if narrow { question } else { field };
            if let Some(element) = to.cast::<HtmlElement>() {
                let _ = element.focus();
            }
        });
    }
    let typed = {
        let text = text.setter();
        Callback::from(move |e: InputEvent| {
            if let Some(input) = e.target().and_then(|t| t.dyn_into::<HtmlInputElement>().ok()) {
                text.set(input.value());
            }
        })
    };
    let give = {
        let (answer, text) = (props.answer.clone(), (*text).clone());
        move || {
            if let Ok(number) = text.trim().parse() {
                answer.emit(Pick::typed(number));
            }
        }
    };
    let entered = {
        let give = give.clone();
        Callback::from(move |e: KeyboardEvent| {
            if e.key() == "Enter" {
                give();
            }
        })
    };
    let folds = matches!(props.ask, Ask::Fold { .. });
    let fold = |(number, fold): (u32, &Fold)| {
        let onclick = props.answer.reform(move |_: MouseEvent| Pick::typed(number));
        html! { <button type="button" class="button" {onclick}>{ format!("{number} {}", fold_name(fold)) }</button> }
    };
    let folds = html! { <span class="folds" hidden={!folds}>{ for (1u32..).zip(&props.folds).map(fold) }</span> };
    html! {
        <div class="asker" role="group" aria-label="One more thing">
            <p ref={question} class="question" tabindex="-1" aria-live="polite">{ words(&props.ask.sentence()) }</p>
            { folds }
            <label for="answer">{ props.ask.field() }
                <input ref={field} id="answer" class="field" inputmode="numeric" autocomplete="off" value={(*text).clone()}
                    oninput={typed} onkeydown={entered} />
            </label>
            <button type="button" class="button slip" onclick={Callback::from(move |_: MouseEvent| give())}>{ "Take it" }</button>
            <button type="button" class="button" onclick={props.give_up.reform(|_: MouseEvent| ())}>{ "Give up" }</button>
            <p class="wrong" role="status">{ props.refused.clone().unwrap_or_default() }</p>
        </div>
    }
}
