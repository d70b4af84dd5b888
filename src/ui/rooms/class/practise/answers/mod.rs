//! Ways of answering, one for each kind of exercise.
//!
//! - `wrong_sheet`: what was done to this sheet? `wrong_book`: which section is wrong? `make_up`: a book in sections.
//!   `back_marks`: back marks laid out. `bolts`: which bolts the trim opens
//! - `parts`: marks at their places, the list of checks, choices of sentences
//! - `sheet_stand`: a sheet on a bench of its own; `side_by_side`: two benches in step

mod back_marks;
mod bolts;
mod make_up;
mod parts;
mod sheet_stand;
mod side_by_side;
mod wrong_book;
mod wrong_sheet;

use crate::practice::{Answer, Exercise, Kind, Marked};
use std::rc::Rc;
use yew::prelude::*;

/// What a way of answering needs.
#[derive(Clone, PartialEq, Properties)]
pub struct AnswerProps {
    /// What is set.
    pub exercise: Rc<Exercise>,
    /// The answer so far; [`Answer::Nothing`] to begin with.
    pub answer: Rc<Answer>,
    /// Takes the whole answer as it is now.
    pub set: Callback<Answer>,
    /// The marks, once it was handed in: then nothing can be changed, and each item is shown where it was answered.
    pub marked: Option<Rc<Marked>>,
    /// Whether the window is narrow.
    pub narrow: bool,
}

/// How an exercise is answered, and below it, once it was handed in, what the answer makes beside what is right.
pub fn view(props: AnswerProps) -> Html {
    let key = format!("{}-{}-{}", props.exercise.kind.number(), props.exercise.level, props.exercise.seed);
    match props.exercise.kind {
        Kind::WrongSheet => html! { <wrong_sheet::WrongSheet {key} ..props /> },
        Kind::WrongBook => html! { <wrong_book::WrongBook {key} ..props /> },
        Kind::MakeUp => html! { <make_up::MakeUp {key} ..props /> },
        Kind::BackMarks => html! { <back_marks::BackMarks {key} ..props /> },
        Kind::Bolts => html! { <bolts::Bolts {key} ..props /> },
        kind => html! { <p class="quiet" {key}>{ kind.title() }</p> },
    }
}
