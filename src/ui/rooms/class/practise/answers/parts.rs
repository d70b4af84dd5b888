//! What several ways of answering share: the marks at their places, the list of next checks, a choice of sentences.

use crate::practice::{Item, Marked, halves};
use crate::ui::widgets::{figures, words};
use wasm_bindgen::JsCast;
use web_sys::HtmlInputElement;
use yew::prelude::*;

/// The marks of an item, at the place where it was answered.
pub fn at_place(item: Option<&Item>) -> Html {
    let Some(item) = item else { return html! { <p class="at-place" hidden=true></p> } };
    let right = if item.got < item.of && !item.right.is_empty() {
        format!(" Right: {}.", item.right.trim_end_matches('.'))
    } else {
        String::new()
    };
    // A reason that says what is right says it better.
    let right = if item.says.contains(item.right.as_str()) { String::new() } else { right };
    let says = if item.says.is_empty() { String::new() } else { format!(" {}", item.says) };
    // These marks are a teacher's, and no back marks.
    let got = format!("{} of {}.", halves(item.got), marks(item.of));
    html! {
        <p class={classes!("at-place", (item.got < item.of).then_some("lost"))}>{ figures(&got) }{ words(&(right + &says)) }</p>
    }
}

/// "1 mark", "2 marks", "½ mark".
pub fn marks(count: u32) -> String {
    format!("{} {}", halves(count), if count > 2 { "marks" } else { "mark" })
}

/// The item of this place in the list, once it is marked.
pub fn item(marked: Option<&Marked>, at: usize) -> Option<&Item> {
    marked?.items.get(at)
}

/// Where an answer first departs from what is right.
pub fn departs(marked: Option<&Marked>) -> Html {
    let says = marked.and_then(|m| m.departs.as_ref()).map(|d| d.says.clone()).unwrap_or_default();
    html! { <p class="departs" hidden={says.is_empty()}>{ words(&says) }</p> }
}

/// A choice among sentences: one of them, or as many as `most`.
pub struct Choice<'a> {
    /// Its name in the page.
    pub id: &'static str,
    /// What is chosen.
    pub legend: String,
    /// The sentences.
    pub says: &'a [String],
    /// Which are chosen, from 0.
    pub chosen: Vec<usize>,
    /// Whether more than one can be.
    pub several: bool,
    /// Whether nothing can be changed any more.
    pub closed: bool,
    /// Called with the sentence that was chosen, or let go.
    pub pick: Callback<usize>,
}

/// The choice as a list.
pub fn choice(choice: Choice<'_>) -> Html {
    let Choice { id, legend, says, chosen, several, closed, pick } = choice;
    let kind = if several { "checkbox" } else { "radio" };
    let one = |(at, text): (usize, &String)| {
        let on = chosen.contains(&at);
        let onchange = pick.reform(move |_: Event| at);
        html! {
            <li key={at}>
                <label class={classes!("sentence", on.then_some("on"))}>
                    <input type={kind} name={id} value={at.to_string()} checked={on} disabled={closed} {onchange} />
                    <span>{ figures(text) }</span>
                </label>
            </li>
        }
    };
    html! {
        <fieldset class="choice" {id}>
            <legend>{ legend }</legend>
            <ul>{ for says.iter().enumerate().map(one) }</ul>
        </fieldset>
    }
}

/// The list of checks, of which one is chosen by its number from 1.
pub fn checks(checks: &[String], chosen: Option<u32>, marked: Option<&Marked>, set: &Callback<u32>) -> Html {
    let of = Choice {
        id: "next-check",
        legend: "What would you look at next?".into(),
        says: checks,
        chosen: chosen.and_then(|n| (n as usize).checked_sub(1)).into_iter().collect(),
        several: false,
        closed: marked.is_some(),
        pick: set.reform(|at: usize| at as u32 + 1),
    };
    let mine = marked.and_then(|m| m.items.last());
    html! { <div class="checks">{ choice(of) }{ at_place(mine) }</div> }
}

/// A small number with a key to make it less and one to make it more.
pub struct Stepper<'a> {
    /// Its name in the page.
    pub id: &'static str,
    /// What it is.
    pub label: &'a str,
    /// What it is now, if anything.
    pub now: Option<u32>,
    /// The least and the most that it can be.
    pub within: [u32; 2],
    /// Whether it can't be changed any more.
    pub closed: bool,
    /// Hears what it has become.
    pub set: Callback<u32>,
}

/// The number.
pub fn stepper(of: Stepper<'_>) -> Html {
    let Stepper { id, label, now, within: [least, most], closed, set } = of;
    let most = most.max(least);
    let go = |by: i32| {
        let set = set.clone();
        Callback::from(move |_: MouseEvent| {
            set.emit(now.map_or(least, |n| n.saturating_add_signed(by)).clamp(least, most))
        })
    };
    let (less, more) = (go(-1), go(1));
    let onchange = Callback::from(move |e: Event| {
        let Some(input) = e.target().and_then(|t| t.dyn_into::<HtmlInputElement>().ok()) else { return };
        match input.value().trim().parse::<u32>() {
            Ok(n) => {
                let n = n.clamp(least, most);
                input.set_value(&n.to_string());
                set.emit(n);
            }
            Err(_) => input.set_value(&now.map(|n| n.to_string()).unwrap_or_default()),
        }
    });
    let text = now.map(|n| n.to_string()).unwrap_or_default();
    html! {
        <div class="stepper">
            <label for={id}>{ label.to_owned() }</label>
            <button type="button" class="button" disabled={closed} aria-label={format!("{label}: one less")} onclick={less}>{ "−" }</button>
            <input {id} class="field" inputmode="numeric" autocomplete="off" value={text} disabled={closed} {onchange} />
            <button type="button" class="button" disabled={closed} aria-label={format!("{label}: one more")} onclick={more}>{ "+" }</button>
        </div>
    }
}
