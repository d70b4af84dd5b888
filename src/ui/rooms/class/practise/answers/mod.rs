//! Ways of answering, one for each kind of exercise.

use crate::practice::{Answer, Exercise, Marked};
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
    html! { <p class="quiet" key={props.exercise.kind.number()}>{ props.exercise.kind.title() }</p> }
}
