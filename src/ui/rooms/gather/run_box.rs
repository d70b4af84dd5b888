//! The run of the book in one line: what was read, to be corrected or typed anew.

use crate::app::{Action, Evidence};
use crate::gather::run::parse_run;
use crate::ui::store::Act;
use wasm_bindgen::JsCast;
use web_sys::{HtmlInputElement, KeyboardEvent};
use yew::prelude::*;

/// The box.
pub struct Props {
    /// The run as it was read.
    pub run: AttrValue,
    /// How to say what happened.
    pub act: Act,
}

/// What may stand behind or in place of a number.
const LEGEND: [(&str, &str); 6] = [
    ("d", "head down"),
    ("b", "back to front"),
    ("t", "turned in its plane"),
    ("_", "no mark"),
    ("x", "foreign"),
    ("?", "unreadable"),
];

/// The run box.
#[hook]
pub fn use_run_box(props: &Props) -> Html {
    let text = use_state(|| props.run.to_string());
    let error = use_state_eq(|| None::<String>);
    {
        // Whatever is read anew stands in the box; a run that can't be read stays there until then.
        let (text, error) = (text.setter(), error.setter());
        use_effect_with(props.run.clone(), move |run| {
            text.set(run.to_string());
            error.set(None);
        });
    }
    let typed = {
        let (text, error) = (text.setter(), error.setter());
        Callback::from(move |e: InputEvent| {
            if let Some(input) = e.target().and_then(|t| t.dyn_into::<HtmlInputElement>().ok()) {
                text.set(input.value());
                error.set(None);
            }
        })
    };
    let read = {
        let (act, text, error) = (props.act.clone(), (*text).clone(), error.setter());
        move || match parse_run(&text) {
            Ok(found) if found.is_empty() => error.set(Some("Type what the backs show, as in 1-6 8 12d.".into())),
            Ok(_) => {
                error.set(None);
                act.emit(Action::Look(Evidence::Typed(text.clone())));
            }
            Err(why) => error.set(Some(why.to_string())),
        }
    };
    let entered = {
        let read = read.clone();
        Callback::from(move |e: KeyboardEvent| {
            if e.key() == "Enter" {
                read();
            }
        })
    };
    let legend = LEGEND.into_iter().map(|(sign, means)| {
        html! { <span><span class="n">{ sign }</span>{ " " }{ means }</span> }
    });
    let wrong = error.is_some();
    html! {
        <div class="run-box">
            <label for="run">{ "The run, top to bottom" }</label>
            <div class="run-line">
                <input id="run" class="field" autocomplete="off" autocapitalize="off" spellcheck="false" value={(*text).clone()}
                    aria-invalid={wrong.to_string()} aria-describedby="run-wrong run-legend" oninput={typed} onkeydown={entered} />
                <button type="button" class="button slip" onclick={Callback::from(move |_: MouseEvent| read())}>{ "Read it" }</button>
            </div>
            <p id="run-wrong" class="wrong" role="status">{ (*error).clone().unwrap_or_default() }</p>
            <p id="run-legend" class="legend quiet">{ for legend }</p>
        </div>
    }
}
