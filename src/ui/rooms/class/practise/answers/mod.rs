//! Ways of answering, one for each kind of exercise.
//!
//! - `sheet`: numbers and heads on a sheet; `find_folds`: folds made on a bench
//! - `wrong_sheet`: what was done to this sheet? `wrong_book`: which section is wrong? `make_up`: a book in sections.
//!   `back_marks`: back marks laid out. `bolts`: which bolts the trim opens
//! - `parts`: marks at their places, the list of checks, choices of sentences
//! - `blank_bench`: a blank sheet that folds as it is told; `sheet_stand`: a printed one that can be folded otherwise
//! - `in_step`: an answer folded beside what is right; `side_by_side`: any two benches in step

mod back_marks;
mod blank_bench;
mod bolts;
mod find_folds;
mod in_step;
mod make_up;
mod parts;
mod sheet;
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
        Kind::NumberSheet | Kind::SetHeads => html! { <sheet::SheetAnswer {key} ..props /> },
        Kind::FindFolds => html! { <find_folds::FindFolds {key} ..props /> },
        Kind::WrongSheet => html! { <wrong_sheet::WrongSheet {key} ..props /> },
        Kind::WrongBook => html! { <wrong_book::WrongBook {key} ..props /> },
        Kind::MakeUp => html! { <make_up::MakeUp {key} ..props /> },
        Kind::BackMarks => html! { <back_marks::BackMarks {key} ..props /> },
        Kind::Bolts => html! { <bolts::Bolts {key} ..props /> },
    }
}
