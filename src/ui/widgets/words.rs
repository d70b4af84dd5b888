//! A sentence whose numbers stand in the typeface of figures, and whose trade words lead to their entries.
//!
//! Trade words come with a later part (`ui/words`). Until it is there a sentence has none; afterwards [`words`] leaves
//! each sentence to that part.

use std::cell::Cell;
use yew::prelude::*;

/// How a sentence is shown.
type Shows = fn(&str) -> Html;

thread_local! {
    /// How the later part shows a sentence, once it is there.
    static LINKED: Cell<Option<Shows>> = const { Cell::new(None) };
}

/// A sentence. Its trade words can be pressed, so it must not stand in anything that is pressed itself: there [`figures`]
/// belongs.
pub fn words(text: &str) -> Html {
    LINKED.get().map_or_else(|| figures(text), |linked| linked(text))
}

/// From now on sentences are shown so.
pub fn show_words_by(linked: fn(&str) -> Html) {
    LINKED.set(Some(linked));
}

/// Sets every number of a text apart.
pub fn figures(text: &str) -> Html {
    let mut parts: Vec<(bool, String)> = Vec::new();
    for c in text.chars() {
        let digit = c.is_ascii_digit();
        match parts.last_mut() {
            Some((d, part)) if *d == digit => part.push(c),
            _ => parts.push((digit, c.to_string())),
        }
    }
    let part = |(digit, text): (bool, String)| {
        if digit {
            html! { <span class="n">{ text }</span> }
        } else {
            html! { text }
        }
    };
    html! { <>{ for parts.into_iter().map(part) }</> }
}
