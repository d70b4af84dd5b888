//! Numbers and heads on a sheet: both flat sides to write on, beside the blank sheet and what is done to it.

use super::AnswerProps;
use super::blank_bench::BlankBench;
use super::in_step::InStep;
use crate::app::lies_sideways;
use crate::fold::{Course, Side, course_in_words};
use crate::practice::{Answer, Cell, Item, Marked, SheetCells, Task, halves};
use crate::ui::widgets::cells::{Beside, Cells, Place, Written};
use crate::ui::widgets::words;
use std::rc::Rc;
use yew::prelude::*;

/// The answer.
#[component]
pub fn SheetAnswer(props: &AnswerProps) -> Html {
    let course = use_memo(props.exercise.clone(), |exercise| match &exercise.task {
        Task::NumberSheet { course, .. } | Task::SetHeads { course, .. } => Rc::new(course.clone()),
        _ => Rc::new(Course::of_scheme(&crate::fold::sixteen().scheme)),
    });
    let (name, first_page, printed) = match &props.exercise.task {
        Task::NumberSheet { name, first_page, .. } => (name, *first_page, None),
        Task::SetHeads { name, first_page, side_a, side_b, .. } => (name, *first_page, Some([side_a, side_b])),
        _ => return Html::default(),
    };
    let (rows, columns) = (course.rows, course.columns);
    let written = |side: Side| -> Rc<[Written]> {
        let cell = |row: usize, column: usize| {
            let given = given(&props.answer, side, row, column);
            let stands = printed.and_then(|[a, b]| if side == Side::A { a } else { b }.get(row)?.get(column).copied());
            Written { page: stands.or(given.page), head: given.head }
        };
        (0..rows as usize)
            .flat_map(|row| (0..columns as usize).map(move |column| (row, column)))
            .map(|(r, c)| cell(r, c))
            .collect()
    };
    let put = {
        let (set, answer, typed) = (props.set.clone(), props.answer.clone(), printed.is_none());
        Callback::from(move |((side, row, column), written): (Place, Written)| {
            let mut cells = if let Answer::Sheet(cells) = &*answer { cells.clone() } else { SheetCells::default() };
            let cell = Cell { page: written.page.filter(|_| typed), head: written.head };
            put_in(&mut cells, side, (row as usize, column as usize), (rows as usize, columns as usize), cell);
            set.emit(Answer::Sheet(cells));
        })
    };
    let beside: Rc<[Beside]> = props.marked.as_ref().map(|m| marks_at(m, printed.is_none())).unwrap_or_default();
    let pages = 2 * rows * columns;
    let ticket = format!("{name}. Pages {first_page} to {}.", first_page + pages - 1);
    let steps = course_in_words(&course);
    let left = match &props.marked {
        Some(marked) => {
            html! { <InStep exercise={props.exercise.clone()} answer={props.answer.clone()} marked={marked.clone()} narrow={props.narrow} /> }
        }
        None => html! { <BlankBench course={(*course).clone()} narrow={props.narrow} /> },
    };
    // Sides that are higher than wide stand beside each other. Pages are about as 5 to 7.
    let tall = (rows * 7 > columns * 5) != lies_sideways(&course);
    let keys = if printed.is_none() { NUMBER_KEYS } else { HEAD_KEYS };
    html! {
        <div class={classes!("sheet-answer", tall.then_some("tall"))}>
            <div class="ticket">
                <h3>{ words(&ticket) }</h3>
                <ol class="steps">{ for steps.iter().map(|says| html! { <li>{ words(says) }</li> }) }</ol>
            </div>
            <div class="answer-left">{ left }</div>
            <Cells {rows} {columns} side_a={written(Side::A)} side_b={written(Side::B)} typed={printed.is_none()}
                closed={props.marked.is_some()} {beside} {put} label="Both sides of the sheet"
                no_head={(", head not said", "Take its head away")}>
                <p class="quiet keys-say" hidden={props.marked.is_some()}>{ keys }</p>
            </Cells>
        </div>
    }
}

const NUMBER_KEYS: &str =
    "In a cell: a number, t head up and a quarter on, v head down and half round. Enter: the next cell.";
const HEAD_KEYS: &str =
    "On a cell: a press turns its head, as t (a quarter) and v (half round) do. Arrows: another cell.";

fn given(answer: &Answer, side: Side, row: usize, column: usize) -> Cell {
    let Answer::Sheet(cells) = answer else { return Cell::default() };
    let side = if side == Side::A { &cells.side_a } else { &cells.side_b };
    side.get(row).and_then(|row| row.get(column)).copied().unwrap_or_default()
}

/// Puts a cell into a sheet of so many rows and columns, whatever of it was there.
fn put_in(
    cells: &mut SheetCells,
    side: Side,
    (row, column): (usize, usize),
    (rows, columns): (usize, usize),
    cell: Cell,
) {
    for side in [&mut cells.side_a, &mut cells.side_b] {
        side.resize(rows, Vec::new());
        side.iter_mut().for_each(|row| row.resize(columns, Cell::default()));
    }
    let side = if side == Side::A { &mut cells.side_a } else { &mut cells.side_b };
    if let Some(slot) = side.get_mut(row).and_then(|row| row.get_mut(column)) {
        *slot = cell;
    }
}

/// What is said at each place: marks, and what belongs there. Items come cell by cell, side A first: the number, if it was
/// asked for, and the head.
fn marks_at(marked: &Marked, numbers: bool) -> Rc<[Beside]> {
    let one = |items: &[Item]| {
        let (got, of): (u32, u32) = items.iter().fold((0, 0), |(got, of), item| (got + item.got, of + item.of));
        let (number, head) = if numbers { (items.first(), items.get(1)) } else { (None, items.first()) };
        let differs = items.iter().any(|item| item.given != item.right);
        let right = Written {
            page: number.and_then(|item| item.right.parse().ok()),
            head: head.and_then(|item| head_of(&item.right)),
        };
        let is = if numbers {
            format!("Right: {}, head {}. ", number.map_or("", |n| &n.right), head.map_or("", |h| &h.right))
        } else {
            format!("Right: head {}. ", head.map_or("", |h| &h.right))
        };
        let is = if differs { is } else { String::new() };
        let note = if got < of { format!("{} of {}", halves(got), halves(of)) } else { String::new() };
        Beside {
            right: differs.then_some(right),
            note: note.into(),
            says: format!("{is}{} of {} {}", halves(got), halves(of), if of > 2 { "marks" } else { "mark" }).into(),
        }
    };
    marked.items.chunks(if numbers { 2 } else { 1 }).map(one).collect()
}

fn head_of(word: &str) -> Option<crate::fold::Direction> {
    use crate::fold::Direction::{Down, Left, Right, Up};
    [("up", Up), ("right", Right), ("down", Down), ("left", Left)]
        .into_iter()
        .find_map(|(w, head)| (w == word).then_some(head))
}
