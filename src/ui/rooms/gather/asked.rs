//! Asks the worker about the job's evidence whenever the job changes.

use crate::app::{Job, read_told};
use crate::gather::Told;
use crate::ui::browser::checker::{Checker, NOBODY};
use std::rc::Rc;
use yew::prelude::*;

/// What the check says: nothing before its first answer, then the newest answer, or why there is none.
pub type Check = Option<Result<Told, String>>;

/// The answer to the newest job; until it comes, the one before.
#[hook]
pub fn use_check(checker: &Checker, job: &Rc<Job>) -> Rc<Check> {
    let told = use_state(|| Rc::new(None));
    let (checker, set) = (checker.clone(), told.setter());
    use_effect_with(job.clone(), move |job| {
        let heard = set.clone();
        let heard = Callback::from(move |text: String| heard.set(Rc::new(Some(read_told(&text)))));
        let asked = job.question().and_then(|line| checker.ask(&line, heard).ok_or_else(|| NOBODY.into()));
        if let Err(why) = &asked {
            set.set(Rc::new(Some(Err(why.clone()))));
        }
        move || drop(asked)
    });
    (*told).clone()
}
