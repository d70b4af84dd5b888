//! What is typed and chosen.

use crate::ui::widgets::chosen;
use crate::units::{parse_decimal, short};
use wasm_bindgen::JsCast;
use web_sys::HtmlInputElement;
use yew::prelude::*;

/// A choice among a few: the names, which of them it is, and who hears which it has become.
pub fn choice(id: &'static str, label: &'static str, names: &[String], now: usize, set: Callback<usize>) -> Html {
    let onchange = Callback::from(move |e: Event| {
        if let Some(at) = chosen(&e).and_then(|value| value.parse().ok()) {
            set.emit(at);
        }
    });
    let option = |(at, name): (usize, &String)| {
        html! { <option value={at.to_string()} selected={at == now}>{ name.clone() }</option> }
    };
    html! {
        <div class="paper-field">
            <label for={id}>{ label }</label>
            <select {id} class="field words" {onchange}>{ for names.iter().enumerate().map(option) }</select>
        </div>
    }
}

/// The same with names that don't change.
pub fn fixed(id: &'static str, label: &'static str, names: &[&str], now: usize, set: Callback<usize>) -> Html {
    choice(id, label, &names.iter().map(|n| (*n).to_owned()).collect::<Vec<_>>(), now, set)
}

/// A text, taken when the field is left.
pub fn text(id: &'static str, label: &'static str, now: &str, hint: &'static str, set: Callback<String>) -> Html {
    let onchange = Callback::from(move |e: Event| set.emit(value(&e)));
    html! {
        <div class="paper-field">
            <label for={id}>{ label }</label>
            <input {id} class="field words" autocomplete="off" maxlength="60" placeholder={hint} value={now.to_owned()} {onchange} />
        </div>
    }
}

/// A length in mm that may be below 0. What is no number leaves it as it is; beyond `most` it becomes that.
pub fn offset(id: &'static str, label: &'static str, now: f64, most: f64, set: Callback<f64>) -> Html {
    let onchange = Callback::from(move |e: Event| {
        let typed = value(&e);
        let typed = typed.trim();
        let (sign, rest) = match typed.strip_prefix(['-', '−']) {
            Some(rest) => (-1.0, rest),
            None => (1.0, typed),
        };
        let mm = parse_decimal(rest.trim()).map_or(now, |mm| crate::units::between(sign * mm, -most, most));
        if let Some(input) = e.target().and_then(|t| t.dyn_into::<HtmlInputElement>().ok()) {
            input.set_value(&short(mm));
        }
        set.emit(mm);
    });
    html! {
        <div class="paper-field">
            <label for={id}>{ label }</label>
            <span class="with-unit"><input {id} class="field" autocomplete="off" value={short(now)} {onchange} />{ " mm" }</span>
        </div>
    }
}

/// Something that is so or not.
pub fn tick(id: String, label: Html, now: bool, set: Callback<bool>) -> Html {
    let onchange = Callback::from(move |e: Event| {
        if let Some(input) = e.target().and_then(|t| t.dyn_into::<HtmlInputElement>().ok()) {
            set.emit(input.checked());
        }
    });
    html! {
        <label class="paper-tick" for={id.clone()}><input {id} type="checkbox" checked={now} {onchange} /><span>{ label }</span></label>
    }
}

fn value(e: &Event) -> String {
    e.target().and_then(|t| t.dyn_into::<HtmlInputElement>().ok()).map(|i| i.value()).unwrap_or_default()
}
