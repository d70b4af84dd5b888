//! How the section is made up: a second sheet inside, and sections slit from one sheet.

use crate::app::{Action, SectionCase, SectionEvidence};
use crate::fold::{NamedScheme, Scheme, library};
use crate::ui::store::Act;
use wasm_bindgen::JsCast;
use web_sys::HtmlSelectElement;
use yew::prelude::*;

fn chosen(e: &Event) -> Option<usize> {
    e.target().and_then(|t| t.dyn_into::<HtmlSelectElement>().ok()).and_then(|s| s.value().parse().ok())
}

/// A case as it is kept with another make-up: what was made is made anew.
fn changed(case: &SectionCase, inset: Option<Scheme>, lanes: u32) -> SectionCase {
    SectionCase { inset, lanes, ..case.clone() }
}

/// The disclosure.
pub fn made_up(case: &SectionCase, act: &Act) -> Html {
    let schemes: Vec<NamedScheme> = library();
    let now = case.inset.as_ref().map(|inset| schemes.iter().position(|s| s.scheme == *inset));
    let inset = {
        let (act, case) = (act.clone(), case.clone());
        Callback::from(move |e: Event| {
            let scheme = chosen(&e).and_then(|at| library().into_iter().nth(at)).map(|s| s.scheme);
            act.emit(Action::Section(changed(&case, scheme, case.lanes)));
        })
    };
    let lanes = {
        let (act, case) = (act.clone(), case.clone());
        Callback::from(move |e: Event| {
            if let Some(lanes) = chosen(&e) {
                act.emit(Action::Section(changed(&case, case.inset.clone(), lanes as u32)));
            }
        })
    };
    let option = |(at, named): (usize, &NamedScheme)| {
        let on = now == Some(Some(at));
        html! { <option key={at} value={at.to_string()} selected={on}>{ format!("{}, {} pages", named.name, named.scheme.pages()) }</option> }
    };
    let lane = |n: u32| {
        let says = if n == 1 { "not slit".to_owned() } else { format!("slit into {n}") };
        html! { <option key={n} value={n.to_string()} selected={case.lanes == n}>{ says }</option> }
    };
    let mut counts = vec![1, 2, 4];
    if !counts.contains(&case.lanes) {
        counts.push(case.lanes);
    }
    let open = case.inset.is_some() || case.lanes != 1;
    let made = matches!(case.evidence, SectionEvidence::Made(_));
    html! {
        <details class="made-up" {open}>
            <summary class="plain">{ "How the section is made up" }</summary>
            <label>{ "A second sheet inside" }
                <select class="field words" id="inset" onchange={inset}>
                    <option value="none" selected={case.inset.is_none()}>{ "none" }</option>
                    { for schemes.iter().enumerate().map(option) }
                    if now == Some(None) { <option value="own" selected={true}>{ "your own" }</option> }
                </select>
            </label>
            <label>{ "The sheet is" }
                <select class="field words" id="lanes" onchange={lanes}>{ for counts.into_iter().map(lane) }</select>
            </label>
            <p class="quiet" hidden={!made}>{ "The section is made anew with it." }</p>
        </details>
    }
}
