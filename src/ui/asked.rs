//! Asks the worker, each question once, and keeps its newest answer.

use crate::ui::browser::checker::{Checker, NOBODY};
use std::rc::Rc;
use yew::prelude::*;

/// The answer to a question: the question that was answered, and what was read of the answer.
pub type Heard<T> = Rc<Option<(String, Result<T, String>)>>;

/// The answer to the newest question; until it comes, the one before. No question has no answer.
#[hook]
pub fn use_answer<T: 'static>(
    checker: &Checker,
    question: Option<String>,
    read: fn(&str) -> Result<T, String>,
) -> Heard<T> {
    let heard = use_state(|| Rc::new(None));
    let (checker, set) = (checker.clone(), heard.setter());
    use_effect_with(question, move |question| {
        let asked = match question.clone() {
            None => {
                set.set(Rc::new(None));
                None
            }
            Some(line) => {
                let (hears, of) = (set.clone(), line.clone());
                let hears = Callback::from(move |text: String| hears.set(Rc::new(Some((of.clone(), read(&text))))));
                let asked = checker.ask(&line, hears);
                if asked.is_none() {
                    set.set(Rc::new(Some((line, Err(NOBODY.into())))));
                }
                asked
            }
        };
        move || drop(asked)
    });
    (*heard).clone()
}

/// Questions that were answered, with what was read of the answers.
pub type Answers<T> = Rc<Vec<(String, Result<T, String>)>>;

/// The answers to several questions, asked one after another; those that came so far.
#[hook]
pub fn use_answers<T: Clone + PartialEq + 'static>(
    checker: &Checker,
    questions: Rc<[String]>,
    read: fn(&str) -> Result<T, String>,
) -> Answers<T> {
    let heard = use_state(|| Answers::<T>::new(Vec::new()));
    let next = questions.iter().find(|q| !heard.iter().any(|(of, _)| of == *q)).cloned();
    let answer = use_answer(checker, next, read);
    {
        let heard = heard.clone();
        use_effect_with(answer, move |answer| {
            if let Some(one) = answer.as_ref()
                && !heard.iter().any(|(known, _)| *known == one.0)
            {
                let mut all = (**heard).clone();
                all.push(one.clone());
                heard.set(Rc::new(all));
            }
        });
    }
    (*heard).clone()
}
