//! Which exercise: what the logbook's rule says, a kind and level, a code from paper, or one that lies aside.

use super::Which;
use crate::class::OnDesk;
use crate::link;
use crate::practice::{Kind, LEVELS, code, exercise_of, outcomes};
use crate::ui::rooms::class::desk::Desk;
use crate::ui::widgets::{chosen, figures, words};
use wasm_bindgen::JsCast;
use web_sys::{HtmlInputElement, KeyboardEvent};
use yew::prelude::*;

/// What it needs.
#[derive(Clone, PartialEq, Properties)]
pub struct Props {
    /// The desk.
    pub desk: Desk,
    /// Sets an exercise.
    pub set: Callback<Which>,
}

/// The quiet row above an exercise.
#[component]
pub fn Choose(props: &Props) -> Html {
    let (desk, set) = (&props.desk.desk, &props.set);
    let typed = use_state(String::new);
    let refused = use_state_eq(String::new);
    let next = desk.logbook.next();
    let on = desk.on_desk.as_ref();
    let (kind, level) = on.map_or((next.kind, next.level), |on| (on.kind, on.level));
    let pick = |to: Pick| {
        let (set, logbook) = (set.clone(), desk.logbook.clone());
        Callback::from(move |e: Event| {
            if let Some((kind, level)) = chosen(&e).and_then(|value| to((kind, level), &value)) {
                set.emit((kind, level, logbook.new_seed(kind, level)));
            }
        })
    };
    let by_kind = pick(|(_, level), value| Some((Kind::of_number(value.parse().ok()?)?, level)));
    let by_level = pick(|(kind, _), value| Some((kind, value.parse().ok()?)));
    let typing = {
        let typed = typed.clone();
        Callback::from(move |e: InputEvent| {
            if let Some(input) = e.target().and_then(|t| t.dyn_into::<HtmlInputElement>().ok()) {
                typed.set(input.value());
            }
        })
    };
    let open_code = {
        let (set, typed, refused) = (set.clone(), typed.clone(), refused.setter());
        move || match exercise_of(&typed) {
            Ok(found) => {
                refused.set(String::new());
                typed.set(String::new());
                if let Some(kind) = Kind::of_number(found.kind) {
                    set.emit((kind, found.level, found.seed));
                }
            }
            Err(why) => refused.set(why.to_string()),
        }
    };
    let entered = {
        let open_code = open_code.clone();
        Callback::from(move |e: KeyboardEvent| {
            if e.key() == "Enter" {
                open_code();
            }
        })
    };
    let opened = Callback::from(move |_: MouseEvent| open_code());
    let own_code = on.and_then(code_of).map(|code| format!("Code {code}")).unwrap_or_default();
    let to_next = set.reform(move |_: MouseEvent| (next.kind, next.level, next.seed));
    let kinds = Kind::ALL.into_iter().map(|k| {
        html! { <option value={k.number().to_string()} selected={k == kind}>{ k.title() }</option> }
    });
    let levels = (1..=LEVELS)
        .map(|l| html! { <option value={l.to_string()} selected={l == level}>{ format!("Level {l}") }</option> });
    html! {
        <div class="choose">
            <div class="class-row">
                <select class="field words" aria-label="Kind of exercise" ~value={kind.number().to_string()} onchange={by_kind}>{ for kinds }</select>
                <select class="field words" aria-label="Level" ~value={level.to_string()} onchange={by_level}>{ for levels }</select>
                <span class="quiet own-code">{ own_code }</span>
                <button type="button" class="button next-exercise" onclick={to_next} title={next.rule}>{ "Next exercise" }</button>
                <details class="more-choice">
                    <summary>{ "More" }</summary>
                    <div class="more-box">
                        <p>{ figures(&format!("Next exercise: {}, level {}. {}", next.kind.title(), next.level, next.rule)) }</p>
                        <p>{ figures(&next.says) }</p>
                        <div class="class-row">
                            <label for="exercise-code">{ "A code from paper" }</label>
                            <input id="exercise-code" class="field" maxlength="12" autocomplete="off" autocapitalize="characters"
                                value={(*typed).clone()} oninput={typing} onkeydown={entered} aria-describedby="code-refused" />
                            <button type="button" class="button open-code" onclick={opened}>{ "Set it" }</button>
                        </div>
                        <p id="code-refused" class="why" role="status">{ words(&refused) }</p>
                        { serves(kind) }
                    </div>
                </details>
            </div>
            { aside(&desk.aside, set) }
        </div>
    }
}

/// What kind and level become once this was picked.
type Pick = fn((Kind, u8), &str) -> Option<(Kind, u8)>;

fn code_of(on: &OnDesk) -> Option<String> {
    code(&link::Exercise { kind: on.kind.number(), level: on.level, seed: on.seed })
}

/// The published outcomes that it serves.
fn serves(kind: Kind) -> Html {
    let one = |outcome: &crate::practice::Outcome| {
        html! { <li>{ words(outcome.says) }<span class="quiet source">{ words(outcome.source) }</span></li> }
    };
    let mut found = outcomes(kind).peekable();
    if found.peek().is_none() {
        return html! { <p class="quiet">{ "No published outcome was found that it serves." }</p> };
    }
    html! {
        <>
            <p>{ "It serves these published outcomes, told in our words:" }</p>
            <ul class="outcomes">{ for found.map(one) }</ul>
        </>
    }
}

/// What was begun and lies aside.
fn aside(aside: &[OnDesk], set: &Callback<Which>) -> Html {
    let one = |on: &OnDesk| {
        let which = (on.kind, on.level, on.seed);
        let name = format!("{}, level {}", on.kind.title(), on.level);
        html! {
            <li key={format!("{which:?}")}>
                <button type="button" class="plain" onclick={set.reform(move |_: MouseEvent| which)}>{ figures(&name) }</button>
            </li>
        }
    };
    html! {
        <div class="aside" hidden={aside.is_empty()}>
            <span class="quiet">{ "Laid aside:" }</span>
            <ul aria-label="Exercises laid aside, to be taken up again">{ for aside.iter().map(one) }</ul>
        </div>
    }
}
