//! How the section is made up: a second sheet inside, and sections slit from one sheet.

use crate::app::{Action, MadeUp, SectionCase, SectionEvidence, SectionOf};
use crate::fold::{NamedScheme, library};
use crate::ui::store::Act;
use wasm_bindgen::JsCast;
use web_sys::HtmlSelectElement;
use yew::prelude::*;

fn chosen(e: &Event) -> Option<usize> {
    e.target().and_then(|t| t.dyn_into::<HtmlSelectElement>().ok()).and_then(|s| s.value().parse().ok())
}

/// A case with another make-up. What is as the sheet says goes on being so.
fn changed(case: &SectionCase, by_sheet: &MadeUp, to: MadeUp) -> Action {
    Action::Section(SectionCase { made_up: (to != *by_sheet).then_some(to), ..case.clone() })
}

/// The disclosure. What the sheet of the job says stands there until a person chooses something else.
pub fn made_up(case: &SectionCase, of: Option<&SectionOf>, per_sheet: u32, act: &Act) -> Html {
    let schemes: Vec<NamedScheme> = library();
    let by_sheet = MadeUp { inset: of.and_then(|of| of.inset.clone()), lanes: per_sheet };
    let stands = case.made_up.clone().unwrap_or_else(|| by_sheet.clone());
    let inset = {
        let (act, case, by_sheet, stands) = (act.clone(), case.clone(), by_sheet.clone(), stands.clone());
        Callback::from(move |e: Event| {
            let inset = chosen(&e).and_then(|at| library().into_iter().nth(at)).map(|s| s.scheme);
            act.emit(changed(&case, &by_sheet, MadeUp { inset, ..stands.clone() }));
        })
    };
    let lanes = {
        let (act, case, by_sheet, stands) = (act.clone(), case.clone(), by_sheet.clone(), stands.clone());
        Callback::from(move |e: Event| {
            if let Some(lanes) = chosen(&e) {
                act.emit(changed(&case, &by_sheet, MadeUp { lanes: lanes as u32, ..stands.clone() }));
            }
        })
    };
    let as_sheet = {
        let (act, case) = (act.clone(), case.clone());
        Callback::from(move |_: MouseEvent| act.emit(Action::Section(SectionCase { made_up: None, ..case.clone() })))
    };
    let MadeUp { inset: inside, lanes: now_lanes } = &stands;
    let now = inside.as_ref().map(|inset| schemes.iter().position(|s| s.scheme == *inset));
    let option = |(at, named): (usize, &NamedScheme)| {
        let on = now == Some(Some(at));
        html! { <option key={at} value={at.to_string()} selected={on}>{ format!("{}, {} pages", named.name, named.scheme.pages()) }</option> }
    };
    let lane = |n: u32| {
        let says = if n == 1 { "not slit".to_owned() } else { format!("slit into {n}") };
        html! { <option key={n} value={n.to_string()} selected={*now_lanes == n}>{ says }</option> }
    };
    let mut counts = vec![1, 2, 4];
    for lanes in [*now_lanes, by_sheet.lanes] {
        if !counts.contains(&lanes) {
            counts.push(lanes);
        }
    }
    counts.sort_unstable();
    let open = inside.is_some() || *now_lanes != 1 || case.made_up.is_some();
    let made = matches!(case.evidence, SectionEvidence::Made(_));
    html! {
        <details class="made-up" {open}>
            <summary class="plain">{ "How the section is made up" }</summary>
            <label>{ "A second sheet inside" }
                <select class="field words" id="inset" onchange={inset}>
                    <option value="none" selected={inside.is_none()}>{ "none" }</option>
                    { for schemes.iter().enumerate().map(option) }
                    if now == Some(None) { <option value="own" selected={true}>{ inside.as_ref().map_or_else(String::new, |s| format!("a sheet of its own, {} pages", s.pages())) }</option> }
                </select>
            </label>
            <label>{ "The sheet is" }
                <select class="field words" id="lanes" onchange={lanes}>{ for counts.into_iter().map(lane) }</select>
            </label>
            <p hidden={case.made_up.is_none()}>
                <button type="button" class="plain" onclick={as_sheet}>{ "As the sheet says" }</button>
            </p>
            <p class="quiet" hidden={!made}>{ "The section is made anew with it." }</p>
        </details>
    }
}
