//! Signatures: with which letters sections are signed.

use super::fields::choice;
use crate::app::{Action, BookAct, DescribedTold, State};
use crate::book::{Alphabet, Doubling, Signing, Start};
use crate::ui::store::Act;
use crate::ui::widgets::words;
use yew::prelude::*;

const ALPHABETS: [Alphabet; 3] = [Alphabet::Latin23, Alphabet::American25, Alphabet::Figures];

/// How sections are signed, and the signatures.
pub fn signed(state: &State, act: &Act) -> Html {
    let job = &state.job;
    let signing = job.signing;
    let set = |f: fn(&mut Signing, usize)| {
        act.reform(move |at: usize| {
            let mut signing = signing;
            f(&mut signing, at);
            Action::Book(BookAct::Signing(signing))
        })
    };
    let letters = ALPHABETS.iter().position(|a| *a == signing.alphabet).unwrap_or(0);
    let all: Vec<String> = (1..=job.sections).map(|section| signing.signature(section)).collect();
    let says = match all.as_slice() {
        [first, .., last] => format!("Section 1 is signed {first}, section {} {last}.", all.len()),
        [one] => format!("The section is signed {one}."),
        [] => String::new(),
    };
    html! {
        <>
            <h2>{ "Signatures" }</h2>
            <div class="job-fields">
                { choice("alphabet", "Letters", &["23, without J, V, W", "25, without J", "figures"], letters, set(|s, at| {
                    s.alphabet = ALPHABETS.get(at).copied().unwrap_or_default();
                })) }
                { choice("signed-from", "First", &["A", "B"], usize::from(signing.start == Start::B), set(|s, at| {
                    s.start = if at == 1 { Start::B } else { Start::A };
                })) }
                { choice("doubling", "After the last", &["2A, 2B", "AA, BB"], usize::from(signing.doubling == Doubling::Letters),
                    set(|s, at| s.doubling = if at == 1 { Doubling::Letters } else { Doubling::Figure })) }
            </div>
            <p class="quiet">{ words(&says) }</p>
        </>
    }
}

/// The collational formula, and how it is read aloud.
pub fn formula(told: Option<&Result<DescribedTold, String>>) -> Html {
    let (text, spoken) = match told {
        Some(Ok(told)) => (told.formula.clone(), told.spoken.clone()),
        _ => (String::new(), String::new()),
    };
    html! {
        <div class="formula" hidden={text.is_empty()}>
            <h2>{ "Collational formula" }</h2>
            <p class="formula-text">{ text }</p>
            <p class="quiet">{ spoken }</p>
        </div>
    }
}
