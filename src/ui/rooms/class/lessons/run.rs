//! Books of a run by their counter numbers: one is opened after the other, and it is said how many are held.

use super::laid::Own;
use crate::practice::lesson::{Goal, Run};
use crate::ui::widgets::{figures, words};
use crate::units::{between, short as s};
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlInputElement, KeyboardEvent, PointerEvent};
use yew::prelude::*;

/// Units of the drawing: a book across, and its height.
const PITCH: f64 = 28.0;
const HIGH: f64 = 150.0;

/// What the run needs.
#[derive(Clone, PartialEq, Properties)]
pub struct Props {
    /// Whether the window is narrow.
    pub narrow: bool,
    /// What is to come about.
    pub goal: Goal,
    /// What was said and opened.
    pub own: Own,
    /// Says or opens something.
    pub change: Callback<Own>,
}

#[component]
pub fn RunView(props: &Props) -> Html {
    let run = props.own.run.clone().unwrap_or(Run::new(1, 2, 2));
    let cursor = use_state_eq(|| run.good);
    let node = use_node_ref();
    let here = (*cursor).clamp(run.good, run.wrong);
    let count = run.wrong - run.good + 1;
    let opens = props.goal == Goal::Bracketed;
    let open = {
        let (own, change) = (props.own.clone(), props.change.clone());
        Callback::from(move |book: u32| {
            let mut said = own.clone();
            if let Some(run) = &mut said.run {
                run.open(book);
            }
            change.emit(said);
        })
    };
    let press = {
        let (node, cursor, open, first) = (node.clone(), cursor.setter(), open.clone(), run.good);
        Callback::from(move |e: PointerEvent| {
            let Some(svg) = node.cast::<Element>().and_then(|n| n.query_selector("svg").ok().flatten()) else { return };
            let box_ = svg.get_bounding_client_rect();
            let share = (f64::from(e.client_x()) - box_.left()) / box_.width().max(1.0);
            let at = between((share * f64::from(count)).floor(), 0.0, f64::from(count - 1)) as u32;
            cursor.set(first + at);
            if opens {
                open.emit(first + at);
            }
        })
    };
    let keys = {
        let (cursor, open, first, last) = (cursor.setter(), open.clone(), run.good, run.wrong);
        Callback::from(move |e: KeyboardEvent| {
            let to = match e.key().as_str() {
                "ArrowRight" | "ArrowDown" => here + 1,
                "ArrowLeft" | "ArrowUp" => here.saturating_sub(1),
                "PageDown" => here + 5,
                "PageUp" => here.saturating_sub(5),
                "Home" => first,
                "End" => last,
                "Enter" | " " if opens && !e.repeat() => {
                    open.emit(here);
                    here
                }
                _ => return,
            };
            e.prevent_default();
            e.stop_propagation();
            cursor.set(to.clamp(first, last));
        })
    };
    let onclick = open.reform(move |_: MouseEvent| here);
    let width = PITCH * f64::from(count);
    html! {
        <div class="lesson-run">
            <p class="quiet">{ words(&format!("Books {} to {} as they came off the line. Book {here} is picked: {}.", run.good, run.wrong, known(&run, here))) }</p>
            <div ref={node} class="run-books" role="listbox" tabindex="0" aria-label="Books of the run, by their counter numbers"
                aria-activedescendant={format!("book-{here}")} onpointerup={press} onkeydown={keys}>
                <svg role="presentation" viewBox={format!("0 0 {} {}", s(width), s(HIGH + 34.0))} preserveAspectRatio="none">
                    { for (run.good..=run.wrong).map(|book| drawn(&run, book, here)) }
                </svg>
            </div>
            <p class="run-ends" aria-hidden="true">{ words(&run.good.to_string()) }<span class="push"></span>{ words(&run.wrong.to_string()) }</p>
            <div class="class-row">
                <button type="button" class="button" hidden={!opens} {onclick}>{ figures(&format!("Open book {here}")) }</button>
                { held(props) }
            </div>
        </div>
    }
}

fn known(run: &Run, book: u32) -> &'static str {
    match run.is_good(book) {
        Some(true) => "opened, good",
        Some(false) => "opened, wrong",
        None => "not opened",
    }
}

/// A book as its spine stands: closed in outline, opened as paper, its marks in a staircase, with one out of line in a wrong one.
fn drawn(run: &Run, book: u32, here: u32) -> Html {
    let x = f64::from(book - run.good) * PITCH + 3.0;
    let wide = PITCH - 6.0;
    let opened = run.is_good(book);
    let mark = |k: u32| {
        let out = k == 4 && opened == Some(false);
        let level = if out { 8 } else { k };
        let y = 12.0 + f64::from(level) * 10.0;
        let (left, wide) = (x + f64::from(k) * wide / 12.0, wide / 12.0);
        html! { <rect class="slip-mark" x={s(left)} y={s(y)} width={s(wide)} height="10" /> }
    };
    let marks = if opened.is_some() { (0..12).map(mark).collect::<Html>() } else { Html::default() };
    let class = classes!(
        "run-book",
        match opened {
            Some(true) => "good",
            Some(false) => "wrong",
            None => "closed",
        },
        (book == here).then_some("here")
    );
    html! {
        <g key={book} id={format!("book-{book}")} role="option" aria-selected={(book == here).to_string()}
            aria-label={format!("book {book}, {}", known(run, book))} data-book={book.to_string()} {class}>
            <rect class="run-paper" x={s(x)} y="4" width={s(wide)} height={s(HIGH)} />
            { marks }
            <path class="run-here" d={format!("M{} {}h{}", s(x), s(HIGH + 16.0), s(wide))} />
        </g>
    }
}

/// How many are held, typed.
fn held(props: &Props) -> Html {
    let (own, change) = (props.own.clone(), props.change.clone());
    let say = move |input: &HtmlInputElement| {
        if let Ok(books) = input.value().trim().parse::<u32>() {
            change.emit(Own { held: Some(books), ..own.clone() });
        }
    };
    let field = |e: &web_sys::Event| e.target().and_then(|t| t.dyn_into::<HtmlInputElement>().ok());
    let entered = {
        let say = say.clone();
        Callback::from(move |e: KeyboardEvent| {
            if e.key() == "Enter"
                && let Some(input) = field(&e)
            {
                say(&input);
            }
        })
    };
    let left = Callback::from(move |e: Event| {
        if let Some(input) = field(&e) {
            say(&input);
        }
    });
    html! {
        <label class="page-typed" for="lesson-held" hidden={props.goal != Goal::HeldAll}>{ "Books to hold" }
            <input id="lesson-held" class="field" inputmode="numeric" autocomplete="off" onkeydown={entered} onchange={left} />
        </label>
    }
}
