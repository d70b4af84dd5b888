//! A field whose text is read when it is left. What can't be read stays as it was typed, with the reason under it.

use crate::app::Action;
use crate::ui::store::Act;
use wasm_bindgen::JsCast;
use web_sys::{HtmlInputElement, HtmlSelectElement};
use yew::prelude::*;

/// What a field needs.
#[derive(Clone, PartialEq, Properties)]
pub struct Props {
    /// Its id.
    pub id: &'static str,
    /// What it is called.
    pub label: &'static str,
    /// What stands in it while nothing else was typed.
    pub now: String,
    /// What stands beside it: the unit, or the same in another one.
    #[prop_or_default]
    pub beside: AttrValue,
    /// Whether it takes a line of its own.
    #[prop_or_default]
    pub wide: bool,
    /// How to say what happened.
    pub act: Act,
    /// What a text asks for, or why it can't be read.
    pub read: Callback<String, Result<Option<Action>, String>>,
}

/// A field.
#[component]
pub fn Typed(props: &Props) -> Html {
    let text = use_state(|| props.now.clone());
    let says = use_state(String::new);
    {
        let (text, says) = (text.clone(), says.clone());
        use_effect_with(props.now.clone(), move |now| {
            text.set(now.clone());
            says.set(String::new());
        });
    }
    let typed = {
        let text = text.clone();
        Callback::from(move |e: InputEvent| {
            if let Some(input) = e.target().and_then(|t| t.dyn_into::<HtmlInputElement>().ok()) {
                text.set(input.value());
            }
        })
    };
    let left = {
        let (text, says, read, act) = (text.clone(), says.clone(), props.read.clone(), props.act.clone());
        Callback::from(move |_: Event| match read.emit((*text).clone()) {
            Ok(action) => {
                says.set(String::new());
                if let Some(action) = action {
                    act.emit(action);
                }
            }
            Err(why) => says.set(why),
        })
    };
    let id = props.id;
    let why = format!("{id}-why");
    html! {
        <div class={classes!("typed", props.wide.then_some("wide"))}>
            <label for={id}>{ props.label }</label>
            <input {id} class="field" autocomplete="off" value={(*text).clone()} oninput={typed} onchange={left}
                aria-describedby={why.clone()} aria-invalid={(!says.is_empty()).to_string()} />
            <span class="beside-it">{ props.beside.clone() }</span>
            <p id={why} class="why" role="status">{ (*says).clone() }</p>
        </div>
    }
}

/// The value that a select has come to.
pub fn chosen(e: &Event) -> Option<String> {
    e.target().and_then(|t| t.dyn_into::<HtmlSelectElement>().ok()).map(|s| s.value())
}
