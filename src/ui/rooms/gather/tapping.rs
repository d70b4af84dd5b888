//! The foot of the room while marks are tapped, or while a typed run is looked at: how many backs, and the way back.

use crate::app::{Action, Evidence};
use crate::ui::store::Act;
use wasm_bindgen::JsCast;
use web_sys::HtmlInputElement;
use yew::prelude::*;

/// What the foot is made of.
pub struct Props {
    /// How many backs there are.
    pub backs: u32,
    /// Whether marks are tapped.
    pub tapping: bool,
    /// The marks that the stack shows, to begin from.
    pub stack: Vec<Vec<f64>>,
    /// How to say what happened.
    pub act: Act,
    /// Begins to tap marks.
    pub tap: Callback<MouseEvent>,
}

/// The foot.
pub fn tapping(props: &Props) -> Html {
    let count = props.backs;
    let changed = props.act.reform(move |e: Event| {
        let input = e.target().and_then(|t| t.dyn_into::<HtmlInputElement>().ok());
        let number = input.as_ref().and_then(|i| i.value().trim().parse().ok());
        if let Some(input) = input.filter(|_| number.is_none()) {
            input.set_value(&count.to_string());
        }
        Action::TapBacks(number.unwrap_or(count))
    });
    let copy = {
        let stack = props.stack.clone();
        props.act.reform(move |_: MouseEvent| Action::Look(Evidence::Tapped(stack.clone())))
    };
    let blank = props.act.reform(move |_: MouseEvent| Action::Look(Evidence::Tapped(vec![Vec::new(); count as usize])));
    let more = props.act.reform(move |_: MouseEvent| Action::TapBacks(count + 1));
    let fewer = props.act.reform(move |_: MouseEvent| Action::TapBacks(count.saturating_sub(1)));
    let back = props.act.reform(|_: MouseEvent| Action::Look(Evidence::Stack));
    html! {
        <div class="acts tapping">
            <span class="tap-tools" hidden={!props.tapping}>
                <label for="tap-backs">{ "backs" }
                    <input id="tap-backs" class="field" inputmode="numeric" autocomplete="off" value={count.to_string()} onchange={changed} />
                </label>
                <button type="button" class="button" onclick={more}>{ "One more" }</button>
                <button type="button" class="button" onclick={fewer}>{ "One fewer" }</button>
                <button type="button" class="button" onclick={blank}>{ "Blank backs" }</button>
                <button type="button" class="button" onclick={copy}>{ "As in the stack" }</button>
            </span>
            <span class="tap-tools" hidden={props.tapping}>
                <button type="button" class="button" onclick={props.tap.clone()}>{ "Tap marks" }</button>
            </span>
            <span class="push"></span>
            <button type="button" class="button slip" onclick={back}>{ "Back to the stack" }</button>
        </div>
    }
}
