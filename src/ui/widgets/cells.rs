//! Both sides of a sheet as cells: a page is typed into each, or stands there, and its head is turned as it is seen.
//!
//! Whoever works a layout back writes what is printed there; whoever answers an exercise, what belongs there.

use crate::fold::{Direction, Side};
use gloo_utils::document;
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::{HtmlElement, HtmlInputElement, KeyboardEvent};
use yew::prelude::*;

/// A cell: its side, row and column as seen from that side.
pub type Place = (Side, u32, u32);

/// What stands in a cell.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Written {
    /// The page.
    pub page: Option<u32>,
    /// The way its head points, seen from its own side.
    pub head: Option<Direction>,
}

/// What is said of a cell beside what stands in it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Beside {
    /// What belongs there, where it is something else.
    pub right: Option<Written>,
    /// A few signs at the foot of the cell.
    pub note: AttrValue,
    /// It in words.
    pub says: AttrValue,
}

/// What the cells need. Lists go row by row, as seen from their own side.
#[derive(Clone, PartialEq, Properties)]
pub struct Props {
    /// Rows.
    pub rows: u32,
    /// Columns.
    pub columns: u32,
    /// What stands on side A.
    pub side_a: Rc<[Written]>,
    /// What stands on side B.
    pub side_b: Rc<[Written]>,
    /// Whether pages are typed; otherwise they stand there, and only heads are turned.
    #[prop_or(true)]
    pub typed: bool,
    /// Whether the first head of a cell is taken to be as its neighbour's in the row.
    #[prop_or_default]
    pub guesses: bool,
    /// Whether nothing can be changed.
    #[prop_or_default]
    pub closed: bool,
    /// What is said of each cell, side A first; may be empty.
    #[prop_or_default]
    pub beside: Rc<[Beside]>,
    /// Words for a head that nothing is said of: in a cell's name, and on the button that makes it so.
    pub no_head: (&'static str, &'static str),
    /// What it is.
    pub label: AttrValue,
    /// Says what a cell now holds.
    pub put: Callback<(Place, Written)>,
    /// What stands at the foot, behind the buttons.
    #[prop_or_default]
    pub children: Html,
}

/// The two sides.
#[component]
pub fn Cells(props: &Props) -> Html {
    // The cell that the button turns: the one that had the focus last.
    let here = use_state_eq(|| None::<Place>);
    // What is being typed and is no cell yet; it must outlast an answer that comes meanwhile.
    let draft = use_state_eq(|| None::<(Place, String)>);
    let typing = {
        let draft = draft.setter();
        Callback::from(move |e: InputEvent| draft.set(at(&e).and_then(|(place, cell)| Some((place, value(&cell)?)))))
    };
    let write = {
        let (props, draft) = (props.clone(), draft.setter());
        move |place: Place, cell: &HtmlElement| {
            draft.set(None);
            let written = props.written(place, cell);
            if !props.closed && props.cell(place) != written {
                props.put.emit((place, written));
            }
        }
    };
    let turn = {
        let (props, draft) = (props.clone(), draft.setter());
        move |place: Place, cell: &HtmlElement, to: Turn| {
            let written = props.written(place, cell);
            // A head that was seen belongs to a page that was seen.
            if props.closed || (props.guesses && written.page.is_none()) {
                return;
            }
            draft.set(None);
            props.put.emit((place, Written { head: to(written.head), ..written }));
        }
    };
    let changed = {
        let write = write.clone();
        Callback::from(move |e: Event| {
            if let Some((place, cell)) = at(&e) {
                write(place, &cell);
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
    let pressed = {
        let turn = turn.clone();
        Callback::from(move |e: MouseEvent| {
            // A cell that can't be typed into is turned by a press, as by Enter.
            if let Some((place, cell)) = at(&e).filter(|(_, cell)| value(cell).is_none()) {
                turn(place, &cell, another);
            }
        })
    };
    let keys = {
        let turn = turn.clone();
        let size = (props.rows, props.columns);
        Callback::from(move |e: KeyboardEvent| {
            let Some((place, cell)) = at(&e).filter(|_| !e.ctrl_key() && !e.meta_key() && !e.alt_key()) else { return };
            match e.key().as_str() {
                "v" | "V" => turn(place, &cell, half),
                "t" | "T" => turn(place, &cell, quarter),
                "?" => turn(place, &cell, |_| None),
                "Enter" if value(&cell).is_some() => {
                    write(place, &cell);
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
    let turn_here = |to: Turn| {
        let (turn, here) = (turn.clone(), *here);
        Callback::from(move |_: MouseEvent| {
            if let Some((place, cell)) = here.and_then(|place| Some((place, element(place)?))) {
                turn(place, &cell, to);
                let _ = cell.focus();
            }
        })
    };
    let keys_help = "Or the keys v (half round) and t (a quarter) in the cell";
    html! {
        <section class="flats layout" aria-label={props.label.clone()} oninput={typing} onchange={changed} onfocusin={focused}
            onclick={pressed} onkeydown={keys}>
            { side(props, Side::A, draft.as_ref()) }
            { side(props, Side::B, draft.as_ref()) }
            <div class="layout-foot">
                <button type="button" class="button" hidden={props.closed} onclick={turn_here(another)} title={keys_help}>
                    { "Turn its head" }
                </button>
                <button type="button" class="button" hidden={props.closed} onclick={turn_here(|_| None)} title="Or the key ? in the cell">
                    { props.no_head.1 }
                </button>
                { props.children.clone() }
            </div>
        </section>
    }
}

type Turn = fn(Option<Direction>) -> Option<Direction>;

impl Props {
    fn cell(&self, (side, row, column): Place) -> Written {
        let cells = if side == Side::A { &self.side_a } else { &self.side_b };
        let inside = row < self.rows && column < self.columns;
        cells.get((row * self.columns + column) as usize).copied().filter(|_| inside).unwrap_or_default()
    }

    /// What a cell holds with what was typed into it. A head keeps its way; the first one of a cell may be as its
    /// neighbour's in the row, since heads of a row mostly point the same way.
    fn written(&self, place: Place, cell: &HtmlElement) -> Written {
        let before = self.cell(place);
        let page = match value(cell) {
            Some(text) => text.trim().parse().ok(),
            None => before.page,
        };
        let guess = || {
            let beside = |column: u32| self.cell((place.0, place.1, column)).head;
            place.2.checked_sub(1).and_then(beside).or_else(|| beside(place.2 + 1)).unwrap_or(Direction::Up)
        };
        let head = match (page, before.page) {
            (Some(_), None) if self.guesses => Some(guess()),
            (None, _) if self.guesses => None,
            _ => before.head,
        };
        Written { page, head }
    }

    fn beside(&self, (side, row, column): Place) -> Option<&Beside> {
        let first = if side == Side::A { 0 } else { self.rows * self.columns };
        self.beside.get((first + row * self.columns + column) as usize)
    }
}

fn side(props: &Props, side: Side, draft: Option<&(Place, String)>) -> Html {
    let letter = letter(side);
    let cell = |row: u32, column: u32| {
        let place = (side, row, column);
        let known = props.cell(place);
        let beside = props.beside(place);
        let number = known.page.filter(|_| !props.typed).map(|p| format!(", page {p}")).unwrap_or_default();
        let says = beside.map(|b| format!(". {}", b.says)).unwrap_or_default();
        let name =
            format!("Side {letter}, row {}, column {}{number}{}{says}", row + 1, column + 1, props.head_words(known));
        let value = match draft {
            Some((at, text)) if *at == place => text.clone(),
            _ => known.page.map(|p| p.to_string()).unwrap_or_default(),
        };
        // What could be read upside down has a foot rule, as on the sheet.
        let rule = value.contains(['6', '9']).then_some("turns-over");
        let data = format!("{letter} {row} {column}");
        let inside = if props.typed {
            html! {
                <input inputmode="numeric" autocomplete="off" maxlength="4" data-cell={data} aria-label={name} {value}
                    readonly={props.closed} data-kept={known.page.map(|p| p.to_string()).unwrap_or_default()} />
            }
        } else {
            html! {
                <button type="button" data-cell={data} aria-label={name} aria-disabled={props.closed.then_some("true")}>
                    <span>{ value }</span>
                </button>
            }
        };
        let right = beside.and_then(|b| b.right).map(|right| {
            let page = right.page.map(|p| p.to_string()).unwrap_or_default();
            html! { <span class={classes!("right", head_class(right))} aria-hidden="true"><span>{ page }</span></span> }
        });
        let note = beside.map(|b| html! { <span class="note" aria-hidden="true">{ b.note.clone() }</span> });
        html! {
            <td key={column} class={classes!(head_class(known), rule, right.is_some().then_some("other"))}>
                { inside }
                { right.unwrap_or_default() }
                { note.unwrap_or_default() }
            </td>
        }
    };
    let rows = (0..props.rows).map(|row| {
        html! { <tr key={row}>{ for (0..props.columns).map(|column| cell(row, column)) }</tr> }
    });
    let class = if side == Side::A { "cells side-a" } else { "cells side-b" };
    let many = props.columns > 6 || props.rows > 6;
    html! {
        <div class="flat-box">
            <p class="flat-head"><span class="letter">{ letter }</span></p>
            <table class={classes!(class, many.then_some("many"))} aria-label={format!("Side {letter}, as seen from that side")}>
                <tbody>{ for rows }</tbody>
            </table>
        </div>
    }
}

impl Props {
    fn head_words(&self, cell: Written) -> &'static str {
        match (cell.head, cell.page) {
            (Some(Direction::Up), _) => ", head up",
            (Some(Direction::Right), _) => ", head right",
            (Some(Direction::Down), _) => ", head down",
            (Some(Direction::Left), _) => ", head left",
            (None, Some(_)) => self.no_head.0,
            (None, None) => "",
        }
    }
}

const fn head_class(cell: Written) -> &'static str {
    match (cell.head, cell.page) {
        (Some(Direction::Up), _) => "head-up",
        (Some(Direction::Right), _) => "head-right",
        (Some(Direction::Down), _) => "head-down",
        (Some(Direction::Left), _) => "head-left",
        (None, Some(_)) => "head-unknown",
        (None, None) => "empty",
    }
}

const fn letter(side: Side) -> &'static str {
    if matches!(side, Side::A) { "A" } else { "B" }
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
fn at(e: &web_sys::Event) -> Option<(Place, HtmlElement)> {
    let cell = e.target()?.dyn_into::<web_sys::Element>().ok()?.closest("[data-cell]").ok()??;
    let name = cell.get_attribute("data-cell")?;
    let mut words = name.split(' ');
    let side = if words.next()? == "A" { Side::A } else { Side::B };
    Some(((side, words.next()?.parse().ok()?, words.next()?.parse().ok()?), cell.dyn_into().ok()?))
}

/// What is typed in a cell, if it can be typed into.
fn value(cell: &HtmlElement) -> Option<String> {
    cell.dyn_ref::<HtmlInputElement>().map(HtmlInputElement::value)
}

fn element((side, row, column): Place) -> Option<HtmlElement> {
    let css = format!("[data-cell=\"{} {row} {column}\"]", letter(side));
    document().query_selector(&css).ok()??.dyn_into().ok()
}

fn focus(place: Place) {
    if let Some(cell) = element(place) {
        let _ = cell.focus();
        if let Some(input) = cell.dyn_ref::<HtmlInputElement>() {
            input.select();
        }
    }
}
