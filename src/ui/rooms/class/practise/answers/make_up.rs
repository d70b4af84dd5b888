//! A book made up in sections: the row of sections under the pages of the book, changed by keys, presses or as a line of numbers.
//! What is placed and what is left is counted; nothing is said of right and wrong before it is handed in.

use super::AnswerProps;
use super::parts::{self, Stepper};
use crate::app::of_sizes;
use crate::app::{MAX_SECTIONS, make_up_text, read_make_up};
use crate::book::{Book, Folios, Job, Run};
use crate::finish::Size;
use crate::paper::{Grain, Length};
use crate::practice::{Answer, Task};
use crate::ui::rooms::job::fields::Text;
use crate::ui::rooms::job::row;
use crate::ui::widgets::{figures, words};
use crate::units::short;
use crate::words::{grouped, how_many};
use web_sys::KeyboardEvent;
use yew::prelude::*;

/// Sizes of sections that can be taken. Whether this sheet gives them is for the learner to know.
const SIZES: [u32; 10] = [4, 8, 12, 16, 20, 24, 32, 36, 48, 64];

/// Something done to the row.
#[derive(Clone, Copy, PartialEq)]
enum Do {
    /// A section of so many pages behind the one that is picked.
    Add(u32),
    Remove,
    /// The next larger (1) or smaller (-1) size.
    Size(i32),
    /// One place on (1) or back (-1).
    Move(i32),
}

/// The row after something was done to it, and which section is picked then (from 0).
fn after(sections: &[u32], picked: usize, what: Do) -> (Vec<u32>, usize) {
    let mut row = sections.to_vec();
    let at = picked.min(row.len().saturating_sub(1));
    match what {
        Do::Add(pages) if row.len() < MAX_SECTIONS as usize => {
            let to = if row.is_empty() { 0 } else { at + 1 };
            row.insert(to, pages);
            return (row, to);
        }
        Do::Remove if !row.is_empty() => {
            row.remove(at);
            return (row.clone(), at.min(row.len().saturating_sub(1)));
        }
        Do::Size(by) => {
            if let Some(pages) = row.get_mut(at) {
                let next = if by > 0 {
                    SIZES.iter().find(|size| **size > *pages)
                } else {
                    SIZES.iter().rev().find(|size| **size < *pages)
                };
                *pages = next.copied().unwrap_or(*pages);
            }
        }
        Do::Move(by) => {
            let to = at.saturating_add_signed(by as isize);
            if to < row.len() && to != at {
                row.swap(at, to);
                return (row, to);
            }
        }
        Do::Add(_) | Do::Remove => {}
    }
    (row, at)
}

/// What is placed and what is left, counted.
fn counted(extent: u32, sections: &[u32]) -> String {
    let pages: u32 = sections.iter().fold(0, |sum, n| sum.saturating_add(*n));
    let row = if sections.is_empty() { "No section yet".to_owned() } else { of_sizes(sections) };
    let left = match pages {
        _ if pages < extent => format!("{} of {extent} pages find no place yet", grouped(extent - pages)),
        _ if pages > extent => format!("{} would stay blank", how_many(pages - extent, "page")),
        _ => "every page has its place, and none stays blank".to_owned(),
    };
    format!("{row}: {} in all; {left}.", how_many(pages, "page"))
}

/// The book with these sections, as the row draws it: the pages that would stay blank are a run of their own.
fn book_of(extent: u32, sections: &[u32]) -> Book {
    let all: u32 = sections.iter().fold(0, |sum, n| sum.saturating_add(*n));
    let run = |name: &str, pages, folios, blank| Run { name: name.into(), pages, folios, blank };
    let mut runs = vec![run("pages of the book", extent, Folios::Arabic { first: 1 }, false)];
    if all > extent {
        runs.push(run("blank", all - extent, Folios::None, true));
    }
    Book { runs, sections: sections.to_vec(), ..Book::default() }
}

/// The way of answering.
#[component]
pub fn MakeUp(props: &AnswerProps) -> Html {
    let picked = use_state_eq(|| 0usize);
    let wrong = use_state_eq(String::new);
    let Task::MakeUp { job } = &props.exercise.task else { return Html::default() };
    let sections = match &*props.answer {
        Answer::MakeUp(sections) => sections.clone(),
        _ => Vec::new(),
    };
    let marked = props.marked.as_deref();
    let closed = marked.is_some();
    let at = (*picked).min(sections.len().saturating_sub(1));
    let act = {
        let (set, sections, picked) = (props.set.clone(), sections.clone(), picked.setter());
        Callback::from(move |what: Do| {
            let (row, to) = after(&sections, at, what);
            picked.set(to);
            if row != sections {
                set.emit(Answer::MakeUp(row));
            }
        })
    };
    let pick = {
        let picked = picked.setter();
        Callback::from(move |number: u32| picked.set(number.saturating_sub(1) as usize))
    };
    let typed = {
        let (set, wrong) = (props.set.clone(), wrong.setter());
        Callback::from(move |text: String| {
            let read = if text.trim().is_empty() { Ok(Vec::new()) } else { read_make_up(&text) };
            match read {
                Ok(row) => {
                    wrong.set(String::new());
                    set.emit(Answer::MakeUp(row));
                }
                Err(why) => wrong.set(why),
            }
        })
    };
    let count = sections.len();
    let usual = sections.iter().copied().max().unwrap_or(0);
    let book = book_of(job.extent, &sections);
    let drawn = row::drawn(&book, (usual, if closed { 0 } else { at as u32 + 1 }), None, props.narrow, &pick);
    let says = counted(job.extent, &sections);
    let right = closed.then(|| props.exercise.right()).and_then(|right| match right {
        Answer::MakeUp(row) => Some(row),
        _ => None,
    });
    let beside = right.map(|row| {
        let usual = row.iter().copied().max().unwrap_or(0);
        let drawn = row::drawn(&book_of(job.extent, &row), (usual, 0), None, props.narrow, &Callback::noop());
        html! {
            <section class="row-beside" aria-label="A right way of making it up">
                <h3>{ "A right way of making it up" }</h3>
                { drawn }
                <p>{ words(&counted(job.extent, &row)) }</p>
                <p class="quiet">{ words(&format!("Front to back: {}.", make_up_text(&row))) }</p>
            </section>
        }
    });
    let keys = {
        let (act, picked) = (act.clone(), picked.setter());
        Callback::from(move |e: KeyboardEvent| {
            let what = match (e.key().as_str(), e.shift_key()) {
                ("ArrowRight", true) => Do::Move(1),
                ("ArrowLeft", true) => Do::Move(-1),
                ("+" | "ArrowUp", _) => Do::Size(1),
                ("-" | "ArrowDown", _) => Do::Size(-1),
                ("Delete" | "Backspace", _) => Do::Remove,
                (key, _) => {
                    let to = match key {
                        "ArrowRight" => at + 1,
                        "ArrowLeft" => at.saturating_sub(1),
                        "Home" => 0,
                        "End" => count.saturating_sub(1),
                        _ => return,
                    };
                    e.prevent_default();
                    e.stop_propagation();
                    return picked.set(to.min(count.saturating_sub(1)));
                }
            };
            e.prevent_default();
            e.stop_propagation();
            act.emit(what);
        })
    };
    let here = match sections.get(at) {
        Some(pages) => format!("Section {} of {count}: {pages} pages", at + 1),
        None => "No section yet".to_owned(),
    };
    let row_box = if closed {
        html! { <div class="row-box">{ drawn }</div> }
    } else {
        html! {
            <div class="row-box" role="slider" tabindex="0" aria-label="The sections of the book" aria-valuemin="1"
                aria-valuemax={count.max(1).to_string()} aria-valuenow={(at + 1).to_string()} aria-valuetext={here.clone()} onkeydown={keys}>
                { drawn }
            </div>
        }
    };
    html! {
        <div class="make-up">
            { ticket(job) }
            <h3 hidden={!closed}>{ "Your row of sections" }</h3>
            { row_box }
            <p class="counted" role="status">{ words(&says) }</p>
            <div hidden={closed}>{ tools(&sections, at, &here, &act, &pick) }</div>
            <div class="by-hand-field" hidden={closed}>
                <Text id="sections" label="Or as a line" now={make_up_text(&sections)} set={typed} />
                <p class="quiet note">{ words("The pages of its sections, front to back: 10x32 8 32.") }</p>
                <p class="why" role="status">{ (*wrong).clone() }</p>
            </div>
            <ul class="marks-here" hidden={!closed}>{ for marked.iter().flat_map(|m| &m.items).map(|item| html! {
                <li key={item.what.clone()}><h3>{ words(&item.what) }</h3>{ parts::at_place(Some(&bare(item))) }</li>
            }) }</ul>
            <div hidden={!closed}>{ beside.unwrap_or_default() }</div>
        </div>
    }
}

/// An item of which the drawing says what is right.
fn bare(item: &crate::practice::Item) -> crate::practice::Item {
    crate::practice::Item { right: String::new(), ..item.clone() }
}

/// What is known of the book.
fn ticket(job: &Job) -> Html {
    let size = |size: Size| format!("{} × {} mm", short(size.width.mm()), short(size.height.mm()));
    let grain = match job.stock.grain {
        Grain::Upright => "its grain runs upright",
        Grain::Level => "its grain runs level",
    };
    let cut = |name: &str, length: Length| format!("{} at the {name}", length.text());
    let lines = [
        (
            "The book",
            format!("{} pages of {} after the cut, {} copies", job.extent, size(job.page), grouped(job.copies)),
        ),
        (
            "Cut off",
            [cut("head", job.trims.head), cut("tail", job.trims.foot), cut("fore-edge", job.trims.fore_edge)]
                .join(", "),
        ),
        (
            "The sheet",
            format!("{} as it lies in the press, {} g/m²; {grain}", size(job.sheet), short(job.stock.grammage)),
        ),
    ];
    html! {
        <dl class="ticket">{ for lines.into_iter().map(|(name, says)| html! {
            <div key={name}><dt>{ name }</dt><dd>{ words(&says) }</dd></div>
        }) }</dl>
    }
}

/// What is done to the row by presses.
fn tools(sections: &[u32], at: usize, here: &str, act: &Callback<Do>, pick: &Callback<u32>) -> Html {
    let none = sections.is_empty();
    let button = |name: String, what: Do, off: bool| {
        let onclick = act.reform(move |_: MouseEvent| what);
        html! { <button type="button" class="button" disabled={off} {onclick}>{ figures(&name) }</button> }
    };
    let number = Stepper {
        id: "picked",
        label: "Section",
        now: (!none).then_some(at as u32 + 1),
        within: [1, sections.len().max(1) as u32],
        closed: none,
        set: pick.clone(),
    };
    html! {
        <div class="row-tools">
            <p class="quiet" aria-live="polite">{ words(&format!("{here}.")) }</p>
            <div class="class-row">
                { parts::stepper(number) }
                { button("Larger".into(), Do::Size(1), none) }
                { button("Smaller".into(), Do::Size(-1), none) }
                { button("Forwards".into(), Do::Move(-1), none || at == 0) }
                { button("Backwards".into(), Do::Move(1), none || at + 1 >= sections.len()) }
                { button("Take it away".into(), Do::Remove, none) }
            </div>
            <div class="class-row" role="group" aria-label="Add a section behind it">
                <span>{ "Add one of" }</span>
                { for SIZES.into_iter().map(|pages| button(pages.to_string(), Do::Add(pages), false)) }
                <span>{ "pages" }</span>
            </div>
        </div>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_row_is_changed_section_by_section() {
        let (row, at) = after(&[], 0, Do::Add(32));
        assert_eq!((row.as_slice(), at), (&[32][..], 0));
        let (row, at) = after(&row, at, Do::Add(16));
        assert_eq!((row.as_slice(), at), (&[32, 16][..], 1));
        assert_eq!(after(&row, at, Do::Size(1)).0, [32, 20]);
        assert_eq!(after(&row, at, Do::Size(-1)).0, [32, 12]);
        assert_eq!(after(&row, at, Do::Move(-1)), (vec![16, 32], 0));
        assert_eq!(after(&row, at, Do::Move(1)), (vec![32, 16], 1));
        assert_eq!(after(&row, 0, Do::Remove), (vec![16], 0));
        assert_eq!(after(&[64], 0, Do::Size(1)).0, [64]);
        assert_eq!(after(&[], 0, Do::Remove), (vec![], 0));
        assert_eq!(after(&[32; 99], 3, Do::Add(4)).0.len(), 99);
    }

    #[test]
    fn pages_are_counted_and_not_judged() {
        assert_eq!(counted(64, &[]), "No section yet: 0 pages in all; 64 of 64 pages find no place yet.");
        assert_eq!(
            counted(64, &[32, 32]),
            "2 sections of 32: 64 pages in all; every page has its place, and none stays blank."
        );
        assert_eq!(counted(62, &[32, 32]), "2 sections of 32: 64 pages in all; 2 pages would stay blank.");
        assert_eq!(book_of(62, &[32, 32]).pages(), 64);
    }
}
