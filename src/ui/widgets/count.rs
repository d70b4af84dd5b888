//! A field for a small whole number, as of rows or columns.

use wasm_bindgen::JsCast;
use web_sys::HtmlInputElement;
use yew::prelude::*;

/// A labelled field. What is no number leaves the value as it is; what is beyond 1 or `most` becomes that.
pub fn count_field(id: &'static str, label: &'static str, value: u32, most: u32, set: Callback<u32>) -> Html {
    let onchange = Callback::from(move |e: Event| {
        if let Some(input) = e.target().and_then(|t| t.dyn_into::<HtmlInputElement>().ok()) {
            let n = input.value().trim().parse::<u32>().unwrap_or(value).clamp(1, most);
            input.set_value(&n.to_string());
            set.emit(n);
        }
    });
    html! {
        <label for={id}>{ label }
            <input {id} class="field" inputmode="numeric" value={value.to_string()} {onchange} />
        </label>
    }
}
