//! The words before a class: what is asked, the slips of the answer, what was told, and the line of keys, which fades.

use super::pictures::Seen;
use crate::class::show::{On, ShowAct, ShowKey};
use crate::ui::widgets::words;
use yew::prelude::*;

/// What the words need.
pub struct Props {
    /// The picture.
    pub seen: Seen,
    /// Whether the sheet is on its way: nothing is asked then.
    pub moving: bool,
    /// Counts how often the line of keys was asked for.
    pub keys: u32,
    /// What a key does.
    pub press: Callback<ShowKey>,
}

/// The front edge.
pub fn front(props: &Props) -> Html {
    let Props { seen, moving, keys, press } = props;
    let picture = &seen.picture;
    let asked = seen.question();
    let slip = |(at, text): (u32, &String)| {
        let filled = picture.answered.contains(&at);
        let name = if filled { text.clone() } else { format!("Answer {}, blank", at + 1) };
        let figure = text.bytes().all(|b| b.is_ascii_digit());
        let onclick = press.reform(move |_: MouseEvent| ShowKey::Act(ShowAct::Slip(at)));
        html! {
            <button key={at} type="button" class={classes!("answer-slip", (!figure).then_some("in-words"))} aria-label={name} {onclick}
                onmousedown={stay}>{ if filled { text.clone() } else { String::new() } }</button>
        }
    };
    let pointed = picture.pointing && picture.followed.is_some_and(|face| picture.covered.contains(&face));
    let slip_of_page = |_: ()| {
        let onclick = press.reform(|_: MouseEvent| ShowKey::Act(ShowAct::AnswerOrOn));
        html! { <button type="button" class="answer-slip" aria-label="Answer, blank" {onclick} onmousedown={stay}></button> }
    };
    let slips: Html = match pointed {
        true => slip_of_page(()),
        false => (0u32..).zip(&asked.answers).map(slip).collect(),
    };
    let quiet = *moving && picture.on == On::Bench;
    html! {
        <div class="show-front">
            <p class="asks" aria-live="polite">{ words(if quiet { "" } else { &asked.says }) }</p>
            <div class="show-answer">
                <div class="answer-slips" role="group" aria-label="Answer" hidden={quiet || (asked.answers.is_empty() && !pointed)}>{ slips }</div>
                <p class="told" aria-live="polite">{ words(&seen.told()) }</p>
            </div>
            <div class="key-line" key={*keys} role="group" aria-label="Keys">{ key_line(picture.on, press) }</div>
        </div>
    }
}

fn key_line(on: On, press: &Callback<ShowKey>) -> Html {
    let act = ShowKey::Act;
    let bench = [
        ("Space", "next fold", act(ShowAct::On)),
        ("Back", "unfold", act(ShowAct::Back)),
        ("N", "numbers", act(ShowAct::Figures)),
        ("Enter", "answer", act(ShowAct::Answer)),
        ("P", "pointer", act(ShowAct::Pointer)),
        ("G", "spine", act(ShowAct::Turn)),
        ("Esc", "leave", ShowKey::Leave),
    ];
    let spine = [
        ("Space", "next section", act(ShowAct::On)),
        ("Back", "one off", act(ShowAct::Back)),
        ("End", "all", act(ShowAct::Last)),
        ("Enter", "answer", act(ShowAct::Answer)),
        ("X", "spoil", act(ShowAct::Spoil)),
        ("G", "bench", act(ShowAct::Turn)),
        ("Esc", "leave", ShowKey::Leave),
    ];
    let one = |(key, does, what): (&'static str, &'static str, ShowKey)| {
        let onclick = press.reform(move |_: MouseEvent| what);
        html! {
            <button type="button" class="key-word" {onclick} onmousedown={stay}><kbd>{ key }</kbd><span>{ does }</span></button>
        }
    };
    (if on == On::Bench { bench } else { spine }).into_iter().map(one).collect()
}

/// A press with the mouse leaves the focus where it is: the next space folds, and does not press the button again.
fn stay(e: MouseEvent) {
    e.prevent_default();
}
