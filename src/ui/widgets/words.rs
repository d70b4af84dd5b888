//! A sentence whose numbers stand in the typeface of figures.

use yew::prelude::*;

/// Sets every number of a sentence apart.
pub fn words(text: &str) -> Html {
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
