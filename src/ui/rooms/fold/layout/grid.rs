//! Both sides of a sheet as cells: a page is typed into each, and its head is turned as it is seen.

use super::Props;
use crate::app::{Action, Cell, Layout, MAX_LAYOUT};
use crate::fold::{Direction, Side};
use crate::ui::widgets::count_field;
use gloo_utils::document;
use wasm_bindgen::JsCast;
use web_sys::{HtmlInputElement, KeyboardEvent};
use yew::prelude::*;

/// A cell: its side, row and column as seen from that side.
type Place = (Side, u32, u32);

/// The two sides.
#[component]
pub fn Grid(props: &Props) -> Html {
    let layout = &props.state.job.layout;
    // The cell that the button turns: the one that had the focus last.
    let here = use_state_eq(|| None::<Place>);
    // What is being typed and is no cell yet; it must outlast an answer that comes meanwhile.
    let draft = use_state_eq(|| None::<(Place, String)>);
    let typing = {
        let draft = draft.setter();
        Callback::from(move |e: InputEvent| draft.set(at(&e).map(|(place, input)| (place, input.value()))))
    };
    let write = {
        let (act, layout, draft) = (props.act.clone(), layout.clone(), draft.setter());
        move |place: Place, text: &str| {
            draft.set(None);
            let cell = typed(&layout, place, text);
            let same = cell_at(&layout, place) == cell;
            if !same {
                act.emit(Action::LayoutCell { side: place.0, row: place.1, column: place.2, cell });
            }
        }
    };
    let turn = {
        let (act, layout, draft) = (props.act.clone(), layout.clone(), draft.setter());
        move |place: Place, text: &str, to: fn(Option<Direction>) -> Option<Direction>| {
            if let Some(cell) = typed(&layout, place, text) {
                draft.set(None);
                let cell = Some(Cell { head: to(cell.head), ..cell });
                act.emit(Action::LayoutCell { side: place.0, row: place.1, column: place.2, cell });
            }
        }
    };
    let changed = {
        let write = write.clone();
        Callback::from(move |e: Event| {
            if let Some((place, input)) = at(&e) {
                write(place, &input.value());
            }
        })
    };
    let focused = {
        let here = here.setter();
        Callback::from(move |e: FocusEvent| {
            // A button that turns the head of a cell takes the focus from it, and the cell stays the one meant.
            if let Some((place, _)) = at(&e) {
                here.set(Some(place));
            }
        })
    };
    let keys = {
        let turn = turn.clone();
        let size = (layout.rows, layout.columns);
        Callback::from(move |e: KeyboardEvent| {
            let Some((place, input)) = at(&e) else { return };
            match e.key().as_str() {
                "v" | "V" => turn(place, &input.value(), half),
                "t" | "T" => turn(place, &input.value(), quarter),
                "?" => turn(place, &input.value(), |_| None),
                "Enter" => {
                    write(place, &input.value());
                    focus(next(place, size));
                }
                "ArrowUp" if place.1 > 0 => focus((place.0, place.1 - 1, place.2)),
                "ArrowDown" => focus((place.0, place.1 + 1, place.2)),
                "ArrowLeft" if place.2 > 0 => focus((place.0, place.1, place.2 - 1)),
                "ArrowRight" => focus((place.0, place.1, place.2 + 1)),
                _ => return,
            }
            e.prevent_default();
            e.stop_propagation();
        })
    };
    let turn_here = |to: fn(Option<Direction>) -> Option<Direction>| {
        let (turn, here) = (turn.clone(), *here);
        Callback::from(move |_: MouseEvent| {
            if let Some(place) = here
                && let Some(input) = input(place)
            {
                turn(place, &input.value(), to);
                let _ = input.focus();
            }
        })
    };
    let (rows, columns) = (layout.rows, layout.columns);
    let set_rows = props.act.reform(move |rows| Action::LayoutSize { rows, columns });
    let set_columns = props.act.reform(move |columns| Action::LayoutSize { rows, columns });
    html! {
        <section class="flats layout" aria-label="The layout" oninput={typing} onchange={changed} onfocusin={focused} onkeydown={keys}>
            { side(layout, Side::A, draft.as_ref()) }
            { side(layout, Side::B, draft.as_ref()) }
            <div class="layout-foot">
                <button type="button" class="button" onclick={turn_here(another)} title="Or the keys v (half round) and t (a quarter) in the cell">
                    { "Turn its head" }
                </button>
                <button type="button" class="button" onclick={turn_here(|_| None)} title="Or the key ? in the cell">
                    { "Head not seen" }
                </button>
                { count_field("layout-rows", "rows", rows, MAX_LAYOUT, set_rows) }
                { count_field("layout-columns", "columns", columns, MAX_LAYOUT, set_columns) }
            </div>
        </section>
    }
}

fn side(layout: &Layout, side: Side, draft: Option<&(Place, String)>) -> Html {
    let letter = letter(side);
    let cell = |row: u32, column: u32| {
        let known = cell_at(layout, (side, row, column));
        let name = format!("Side {letter}, row {}, column {}{}", row + 1, column + 1, head_words(known));
        let class = match known.and_then(|c| c.head) {
            _ if known.is_none() => "empty",
            Some(Direction::Up) => "head-up",
            Some(Direction::Right) => "head-right",
            Some(Direction::Down) => "head-down",
            Some(Direction::Left) => "head-left",
            None => "head-unknown",
        };
        let value = match draft {
            Some((place, text)) if *place == (side, row, column) => text.clone(),
            _ => known.map(|c| c.page.to_string()).unwrap_or_default(),
        };
        // What could be read upside down has a foot rule, as on the sheet.
        let rule = value.contains(['6', '9']).then_some("turns-over");
        html! {
            <td key={column} class={classes!(class, rule)}>
                <input inputmode="numeric" autocomplete="off" maxlength="4" data-cell={format!("{letter} {row} {column}")}
                    aria-label={name} {value} />
            </td>
        }
    };
    let rows = (0..layout.rows).map(|row| {
        html! { <tr key={row}>{ for (0..layout.columns).map(|column| cell(row, column)) }</tr> }
    });
    let class = if side == Side::A { "cells side-a" } else { "cells side-b" };
    let many = layout.columns > 6 || layout.rows > 6;
    html! {
        <div class="flat-box">
            <p class="flat-head"><span class="letter">{ letter }</span></p>
            <table class={classes!(class, many.then_some("many"))} aria-label={format!("Side {letter}, as seen from that side")}>
                <tbody>{ for rows }</tbody>
            </table>
        </div>
    }
}

fn head_words(cell: Option<Cell>) -> &'static str {
    match cell.map(|c| c.head) {
        None => "",
        Some(Some(Direction::Up)) => ", head up",
        Some(Some(Direction::Right)) => ", head right",
        Some(Some(Direction::Down)) => ", head down",
        Some(Some(Direction::Left)) => ", head left",
        Some(None) => ", head not seen",
    }
}

const fn letter(side: Side) -> &'static str {
    if matches!(side, Side::A) { "A" } else { "B" }
}

fn cell_at(layout: &Layout, (side, row, column): Place) -> Option<Cell> {
    if row >= layout.rows || column >= layout.columns {
        return None;
    }
    layout.side(side).get((row * layout.columns + column) as usize).copied().flatten()
}

/// What a cell holds once this was typed into it. A head keeps its way; the first one of a cell is as its neighbour's in
/// the row, since heads of a row mostly point the same way.
fn typed(layout: &Layout, place: Place, text: &str) -> Option<Cell> {
    let page = text.trim().parse().ok()?;
    let before = cell_at(layout, place);
    let beside = |column: u32| cell_at(layout, (place.0, place.1, column)).and_then(|c| c.head);
    let left = place.2.checked_sub(1).and_then(beside);
    let head = match before {
        Some(cell) => cell.head,
        None => Some(left.or_else(|| beside(place.2 + 1)).unwrap_or(Direction::Up)),
    };
    Some(Cell { page, head })
}

fn quarter(head: Option<Direction>) -> Option<Direction> {
    Some(head.map_or(Direction::Up, Direction::clockwise))
}

/// From up to down, which is what most sheets have, then to either side.
fn another(head: Option<Direction>) -> Option<Direction> {
    Some(match head {
        Some(Direction::Up) => Direction::Down,
        Some(Direction::Down) => Direction::Left,
        Some(Direction::Left) => Direction::Right,
        Some(Direction::Right) | None => Direction::Up,
    })
}

fn half(head: Option<Direction>) -> Option<Direction> {
    Some(head.map_or(Direction::Down, Direction::opposite))
}

/// The cell after one: along the row, then the next row, then the other side.
fn next((side, row, column): Place, (rows, columns): (u32, u32)) -> Place {
    match (column + 1 < columns, row + 1 < rows) {
        (true, _) => (side, row, column + 1),
        (false, true) => (side, row + 1, 0),
        (false, false) => (side.other(), 0, 0),
    }
}

/// The cell that an event is in.
fn at(e: &web_sys::Event) -> Option<(Place, HtmlInputElement)> {
    let input = e.target()?.dyn_into::<HtmlInputElement>().ok()?;
    let name = input.get_attribute("data-cell")?;
    let mut words = name.split(' ');
    let side = if words.next()? == "A" { Side::A } else { Side::B };
    Some(((side, words.next()?.parse().ok()?, words.next()?.parse().ok()?), input))
}

fn input((side, row, column): Place) -> Option<HtmlInputElement> {
    let css = format!("[data-cell=\"{} {row} {column}\"]", letter(side));
    document().query_selector(&css).ok()??.dyn_into().ok()
}

fn focus(place: Place) {
    if let Some(input) = input(place) {
        let _ = input.focus();
        input.select();
    }
}
