//! Faults to choose from, in the words of the Trace room, one for each kind of wrong section.

use crate::app::{LookAlikes, cause_title, look_alikes_question, read_look_alikes};
use crate::fold::Course;
use crate::json::Json;
use crate::ui::asked::use_answer;
use crate::ui::browser::checker::Checker;
use yew::prelude::*;

/// The faults of a sheet that is folded whole; none while they are being acted out, or of another sheet.
#[hook]
pub fn use_faults(checker: &Checker, course: &Course, wanted: bool) -> Vec<(Json, String)> {
    let question = course.scheme().filter(|_| wanted).map(|scheme| look_alikes_question(&scheme, 1));
    let heard = use_answer(checker, question.clone(), read_look_alikes);
    match (heard.as_ref(), question) {
        (Some((of, Ok(all))), Some(question)) if *of == question => causes(all),
        _ => Vec::new(),
    }
}

/// Every cause once, in the order of the answer, with its title.
fn causes(all: &LookAlikes) -> Vec<(Json, String)> {
    let mut once: Vec<(Json, String)> = Vec::new();
    for cause in all.groups.iter().flat_map(|group| &group.causes) {
        if let Some(title) = cause_title(cause).filter(|_| once.iter().all(|(known, _)| known != cause)) {
            once.push((cause.clone(), title));
        }
    }
    once
}
