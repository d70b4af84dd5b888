//! What is typed and chosen in the room: texts, numbers that the arrow keys change, and choices.

use crate::ui::widgets::chosen;
use crate::units::{parse_decimal, short};
use wasm_bindgen::JsCast;
use web_sys::{HtmlInputElement, KeyboardEvent};
use yew::prelude::*;

/// A text.
#[derive(Clone, PartialEq, Properties)]
pub struct TextProps {
    /// Its id.
    pub id: AttrValue,
    /// What it is called.
    pub label: AttrValue,
    /// What it is.
    pub now: AttrValue,
    /// Called with what it has become.
    pub set: Callback<String>,
}

/// A field for a text, which is taken when the field is left.
#[component]
pub fn Text(props: &TextProps) -> Html {
    let TextProps { id, label, now, set } = props;
    let onchange = set.reform(|e: Event| value(&e));
    html! {
        <div class="job-field text">
            <label for={id.clone()}>{ label.clone() }</label>
            <input id={id.clone()} class="field words" autocomplete="off" value={now.clone()} {onchange} />
        </div>
    }
}

fn value(e: &Event) -> String {
    e.target().and_then(|t| t.dyn_into::<HtmlInputElement>().ok()).map(|i| i.value()).unwrap_or_default()
}

/// A number.
#[derive(Clone, PartialEq, Properties)]
pub struct NumberProps {
    /// Its id.
    pub id: AttrValue,
    /// What it is called.
    pub label: AttrValue,
    /// What it is.
    pub now: f64,
    /// What it is counted in.
    #[prop_or_default]
    pub unit: AttrValue,
    /// What an arrow key adds or takes away.
    #[prop_or(1.0)]
    pub step: f64,
    /// Called with what it has become.
    pub set: Callback<f64>,
}

/// A field for a number: taken when the field is left, or when an arrow key changes it.
#[component]
pub fn Number(props: &NumberProps) -> Html {
    let NumberProps { id, label, now, unit, step, set } = props;
    let says = use_state_eq(String::new);
    let text = short(*now);
    let onchange = {
        let (says, set, text) = (says.setter(), set.clone(), text.clone());
        Callback::from(move |e: Event| {
            let typed = value(&e);
            match parse_decimal(typed.trim()) {
                _ if typed.trim() == text => says.set(String::new()),
                Some(number) => {
                    says.set(String::new());
                    set.emit(number);
                }
                None => says.set(format!("“{}” is not a number.", typed.trim())),
            }
        })
    };
    let onkeydown = {
        let (set, now, step) = (set.clone(), *now, *step);
        Callback::from(move |e: KeyboardEvent| {
            let by = match e.key().as_str() {
                "ArrowUp" => step,
                "ArrowDown" => -step,
                _ => return,
            };
            e.prevent_default();
            // A step lands on a round number.
            set.emit(((now + by) / step).round() * step);
        })
    };
    let why = format!("{id}-why");
    html! {
        <div class="job-field">
            <label for={id.clone()}>{ label.clone() }</label>
            <input id={id.clone()} class="field" inputmode="decimal" autocomplete="off" value={text} {onchange} {onkeydown}
                aria-describedby={why.clone()} aria-invalid={(!says.is_empty()).to_string()} />
            <span class="unit">{ unit.clone() }</span>
            <p id={why} class="why" role="status">{ (*says).clone() }</p>
        </div>
    }
}

/// A choice among a few: the names, which of them it is, and who hears which it has become.
pub fn choice(id: &str, label: &str, names: &[&str], now: usize, set: Callback<usize>) -> Html {
    chosen_among("job-field", id, label, names, now, set)
}

/// The same with long names, on a line of its own.
pub fn wide_choice(id: &str, label: &str, names: &[&str], now: usize, set: Callback<usize>) -> Html {
    chosen_among("job-field wide", id, label, names, now, set)
}

fn chosen_among(class: &'static str, id: &str, label: &str, names: &[&str], now: usize, set: Callback<usize>) -> Html {
    let onchange = Callback::from(move |e: Event| {
        if let Some(at) = chosen(&e).and_then(|value| value.parse().ok()) {
            set.emit(at);
        }
    });
    let option = |(at, name): (usize, &&str)| {
        html! { <option value={at.to_string()} selected={at == now}>{ (*name).to_owned() }</option> }
    };
    html! {
        <div {class}>
            <label for={id.to_owned()}>{ label.to_owned() }</label>
            <select id={id.to_owned()} class="field words" {onchange}>{ for names.iter().enumerate().map(option) }</select>
        </div>
    }
}
