//! Making one's own scheme: the sheet, then fold after fold, each at a crease with a part that moves.

use super::pieces;
use crate::app::{Action, State, Task};
use crate::fold::{Crease, Direction, Fold, Lands, Part, Reads, fold_name};
use crate::scene::Bench;
use crate::ui::later::{Later, Missing, wasm_split};
use crate::ui::shared::Shared;
use crate::ui::store::Act;
use crate::ui::widgets::{count_field, words};
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::HtmlSelectElement;
use yew::prelude::*;

/// What the maker shows.
pub struct Props {
    /// The state.
    pub state: Rc<State>,
    /// What is on the bench.
    pub bench: Shared<Bench>,
    /// How to say what happened.
    pub act: Act,
    /// The crease that is being considered.
    pub crease: UseStateHandle<Option<(Crease, u32)>>,
}

/// The most rows or columns that can be asked for here.
const MOST: u32 = 32;

/// The way to the maker, which is a later part.
#[wasm_split(dialogs, fallible)]
pub fn way() -> Result<Later<Props>, Missing> {
    Ok(|props| maker(&props))
}

/// The maker.
fn maker(props: &Props) -> Html {
    let scheme = &props.state.sheet().course;
    let (rows, columns) = (scheme.rows, scheme.columns);
    let set_rows = props.act.reform(move |rows| Action::MakeOwn { rows, columns });
    let set_columns = props.act.reform(move |columns| Action::MakeOwn { rows, columns });
    html! {
        <div class="maker">
            { count_field("rows", "rows", rows, MOST, set_rows) }
            { count_field("columns", "columns", columns, MOST, set_columns) }
            { creases(props) }
            { made(props) }
            { ends(props) }
            { pieces::together(&props.state, &props.act) }
            <button type="button" class="plain" hidden={props.state.sheet().is_whole()}
                onclick={props.act.reform(|_: MouseEvent| Action::JoinAgain)}>{ "Join again" }</button>
            <span class="sheet-says" aria-live="polite">{ for props.state.sheet().sheet_says().iter().map(|s| html! { <p>{ words(s) }</p> }) }</span>
            <button type="button" class="plain" onclick={props.act.reform(|_: MouseEvent| Action::Task(Task::Fold))}>{ "Done" }</button>
        </div>
    }
}

/// The list of creases and the four ways to fold at the one chosen.
fn creases(props: &Props) -> Html {
    let all = State::creases(&props.bench);
    if props.state.shows_all_pieces() {
        return html! { <span class="quiet">{ "Take a piece on the bench to fold it on." }</span> };
    }
    if all.is_empty() {
        return html! { <span class="quiet">{ "It is down to one page." }</span> };
    }
    let chosen = props.state.considered(&props.bench, *props.crease);
    // All is named as the sheet lies.
    let r = props.bench.folding.last().extent();
    let size = (r.width().unsigned_abs(), r.height().unsigned_abs());
    let lay = props.state.look.lay;
    let name = |(crease, after): (Crease, u32)| {
        let part = if crease == Crease::Vertical { Part::Left } else { Part::Top };
        let Fold { crease, after, .. } = lay.seen(&Fold::new(after, part, Lands::Over), size);
        match crease {
            Crease::Vertical => format!("upright, {after} from the left"),
            Crease::Horizontal => format!("level, {after} from the top"),
        }
    };
    let choose = {
        let (crease, all) = (props.crease.clone(), all.clone());
        Callback::from(move |e: Event| {
            if let Some(select) = e.target().and_then(|t| t.dyn_into::<HtmlSelectElement>().ok()) {
                crease.set(select.value().parse::<usize>().ok().and_then(|i| all.get(i).copied()));
            }
        })
    };
    let options = all.iter().enumerate().map(|(i, c)| {
        html! { <option value={i.to_string()} selected={chosen == Some(*c)}>{ name(*c) }</option> }
    });
    let ways = chosen.map(|(crease, after)| {
        let parts = match crease {
            Crease::Vertical => [Part::Right, Part::Left],
            Crease::Horizontal => [Part::Top, Part::Bottom],
        };
        let way = |(part, lands): (Part, Lands)| {
            let fold = Fold::new(after, part, lands);
            let (act, crease) = (props.act.clone(), props.crease.clone());
            let onclick = Callback::from(move |_: MouseEvent| {
                crease.set(None);
                act.emit(Action::AddFold(fold));
            });
            html! { <button type="button" class="button" {onclick}>{ fold_name(&lay.seen(&fold, size)) }</button> }
        };
        let ways = parts.into_iter().flat_map(|p| [(p, Lands::Over), (p, Lands::Under)]);
        html! { <>{ for ways.map(way) }</> }
    });
    let slit = chosen.map(|(crease, after)| {
        let onclick = props.act.reform(move |_: MouseEvent| Action::Slit { crease, after });
        html! { <button type="button" class="button" {onclick}>{ "Slit here" }</button> }
    });
    let slit = slit.unwrap_or_default();
    html! {
        <>
            <label for="crease">{ "crease" }
                <select id="crease" class="field" onchange={choose}>
                    { for options }
                </select>
            </label>
            <span class="ways">{ ways.unwrap_or_default() }</span>
            { slit }
        </>
    }
}

/// The folds so far; any can be taken back. Those that can no longer be made are outlined in dashes.
fn made(props: &Props) -> Html {
    let possible = props.bench.folding.steps.len();
    let lay = props.state.look.lay;
    let fold = |(i, fold): (usize, &Fold)| {
        let onclick = props.act.reform(move |_: MouseEvent| Action::RemoveFold(i));
        let name = format!("{} {}", i + 1, fold_name(&lay.seen(fold, (0, 0))));
        let class = classes!("button", (i >= possible).then_some("not-now"));
        html! { <li><button type="button" {class} {onclick} aria-label={format!("Take back fold {name}")}>{ name }{ " ×" }</button></li> }
    };
    html! { <ol class="made" aria-label="Folds made">{ for props.state.scheme().folds.iter().enumerate().map(fold) }</ol> }
}

/// Which end is the head, and which way the book reads, once the section is finished.
fn ends(props: &Props) -> Html {
    let scheme = &props.state.scheme();
    if props.bench.section.is_none() {
        return html! { <span></span> };
    }
    let heads = if scheme.head.is_sideways() {
        [(Direction::Left, "left"), (Direction::Right, "right")]
    } else {
        [(Direction::Up, "top"), (Direction::Down, "bottom")]
    };
    let head = |(head, name): (Direction, &'static str)| {
        let onclick = props.act.reform(move |_: MouseEvent| Action::Head(head));
        html! { <button type="button" class="button" aria-pressed={(scheme.head == head).to_string()} {onclick}>{ format!("Head {name}") }</button> }
    };
    let right_to_left = scheme.reads == Reads::RightToLeft;
    let reads = if right_to_left { Reads::LeftToRight } else { Reads::RightToLeft };
    let turn = props.act.reform(move |_: MouseEvent| Action::Reads(reads));
    html! {
        <span class="made">
            { for heads.into_iter().map(head) }
            <button type="button" class="button" aria-pressed={right_to_left.to_string()} onclick={turn}>{ "Reads right to left" }</button>
        </span>
    }
}
