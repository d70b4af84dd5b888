//! The pieces of a slit sheet: which of them lies on the bench, and how they come together.

use crate::app::{Action, Role, State};
use crate::ui::store::Act;
use wasm_bindgen::JsCast;
use web_sys::HtmlSelectElement;
use yew::prelude::*;

/// The value that a select has come to.
fn chosen(e: &Event) -> Option<String> {
    e.target().and_then(|t| t.dyn_into::<HtmlSelectElement>().ok()).map(|s| s.value())
}

/// Which piece lies on the bench.
pub fn chooser(state: &State, act: &Act) -> Html {
    let whole = state.sheet().is_whole();
    let count = if whole { 0 } else { state.sheet().course.piece_count() };
    let here = state.piece();
    let onchange = {
        let act = act.clone();
        Callback::from(move |e: Event| {
            if let Some(value) = chosen(&e) {
                act.emit(Action::Piece(value.parse().ok()));
            }
        })
    };
    let option = |piece: usize| {
        html! { <option value={piece.to_string()} selected={here == Some(piece)}>{ format!("Piece {}", piece + 1) }</option> }
    };
    html! {
        <label class="pieces" hidden={whole}>{ "On the bench" }
            <select class="field" {onchange}>
                <option value="whole" selected={here.is_none()}>{ "The whole sheet" }</option>
                { for (0..count).map(option) }
            </select>
        </label>
    }
}

/// What becomes of each piece.
pub fn together(state: &State, act: &Act) -> Html {
    if state.sheet().is_whole() {
        return html! { <span></span> };
    }
    let roles = state.sheet().roles();
    let row = |(piece, role): (usize, &Role)| {
        let onchange = {
            let (act, sheet) = (act.clone(), state.sheet().clone());
            Callback::from(move |e: Event| {
                let Some(value) = chosen(&e) else { return };
                let role = match value.split_once('-') {
                    None if value == "section" => Role::Section,
                    Some(("in", of)) => of.parse().map_or(Role::Waste, Role::Inside),
                    Some(("copy", of)) => of.parse().map_or(Role::Waste, Role::Copy),
                    _ => Role::Waste,
                };
                act.emit(match sheet.with_role(piece, role) {
                    Ok(copies) => Action::PutTogether(copies),
                    Err(why) => Action::Say(why),
                });
            })
        };
        let option = |value: String, name: String, this: Role| {
            html! { <option {value} selected={*role == this}>{ name }</option> }
        };
        let others = || (0..roles.len()).filter(move |p| *p != piece);
        let earlier = {
            let copies = state.sheet().earlier(piece);
            act.reform(move |_: MouseEvent| Action::PutTogether(copies.clone()))
        };
        let first = state.sheet().course.copies.iter().take(1).flatten().next().and_then(|n| n.first()) == Some(&piece);
        html! {
            <li key={piece}>
                <label>{ format!("Piece {}", piece + 1) }
                    <select class="field" {onchange}>
                        { option("section".into(), "a section".into(), Role::Section) }
                        { for others().map(|p| option(format!("in-{p}"), format!("in the middle of piece {}", p + 1), Role::Inside(p))) }
                        { for others().map(|p| option(format!("copy-{p}"), format!("a second copy of piece {}", p + 1), Role::Copy(p))) }
                        { option("waste".into(), "waste".into(), Role::Waste) }
                    </select>
                </label>
                <button type="button" class="plain" hidden={*role != Role::Section || first} onclick={earlier}>{ "Earlier" }</button>
            </li>
        }
    };
    html! { <ol class="together" aria-label="What becomes of the pieces">{ for roles.iter().enumerate().map(row) }</ol> }
}
