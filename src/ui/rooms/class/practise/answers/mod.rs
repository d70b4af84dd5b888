//! Ways of answering, one for each kind of exercise.
//!
//! - `sheet`: numbers and heads on a sheet; `find_folds`: folds made on a bench
//! - `blank_bench`: a blank sheet that folds as it is told; `in_step`: an answer folded beside what is right

mod blank_bench;
mod find_folds;
mod in_step;
mod sheet;

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
        kind => html! { <p class="quiet" {key}>{ kind.title() }</p> },
    }
}
