//! What was read, as the pictures and the words beside them need it.

use super::asked::Check;
use super::backs::{Shows, found_words};
use crate::app::{Evidence, Job};
use crate::gather::stack::What;
use crate::gather::{Found, Line, run::print_run};
use crate::marks::Lies;
use crate::scene::StackLay;
use std::rc::Rc;

/// The section that was read at a place.
pub fn section_of(found: &[Found], place: u32) -> Option<u32> {
    match found.get((place as usize).checked_sub(1)?)? {
        Found::Section { section, .. } => Some(*section),
        _ => None,
    }
}

/// The first place where a section was read.
pub fn place_of(found: &[Found], section: u32) -> Option<u32> {
    (1..=found.len() as u32).find(|place| section_of(found, *place) == Some(section))
}

/// The section that lies at a place of the stack.
pub fn section_in_stack(job: &Job, place: u32) -> Option<u32> {
    match job.stack.placed().get((place as usize).checked_sub(1)?)?.what {
        What::Ours(section) => Some(section),
        What::Foreign => None,
    }
}

/// The first place of the stack where a section lies.
pub fn place_in_stack(job: &Job, section: u32) -> Option<u32> {
    (1..=job.stack.placed().len() as u32).find(|place| section_in_stack(job, *place) == Some(section))
}

/// The marks that the stack shows.
pub fn stack_marks(job: &Job) -> Vec<Vec<f64>> {
    job.seen().into_iter().map(|s| s.marks_mm.unwrap_or_default()).collect()
}

/// From where to where a back bears anything in the picture.
pub fn extent(lay: &StackLay, job: &Job, back: &Shows, due: Option<f64>) -> Option<(f64, f64)> {
    let letter_mm = 9.0 * lay.scale / lay.face.width() * lay.spine_mm;
    let due = due.and_then(|due| Shows::bars(vec![due]).extent(&job.design, 0.0));
    let (from, to) = match (back.extent(&job.design, letter_mm), due) {
        (Some(a), Some(b)) => (a.0.min(b.0), a.1.max(b.1)),
        (a, b) => a.or(b)?,
    };
    Some((lay.x(from), lay.x(to)))
}

/// Where the mark of a section that lies head to tail was due.
pub fn due(job: &Job, found: Option<&Found>) -> Option<f64> {
    match found {
        Some(Found::Section { section, lies: Lies::HeadToTail }) => Some(job.design.middle_mm(*section)),
        _ => None,
    }
}

/// The places each line of the verdict points at, and the section whose pile is left over.
pub fn lines(check: &Check) -> Rc<[(Vec<u32>, Option<u32>)]> {
    let Some(Ok(told)) = check else { return Rc::from([]) };
    let line = |line: &Line| {
        let missing = line.section.filter(|section| told.missing.contains(section));
        (line.places.clone(), missing)
    };
    told.verdict.lines.iter().map(line).collect()
}

/// The run as it was read; as it was typed, if it could not be.
pub fn run(check: &Check, job: &Job) -> String {
    match (check, &job.evidence) {
        (Some(Ok(told)), _) => print_run(&told.found),
        (_, Evidence::Typed(run)) => run.clone(),
        (_, _) => String::new(),
    }
}

/// What a row is called: the word on it, if it bears one, and what that means.
pub fn name(found: &[Found], place: u32, back: &Shows) -> String {
    let what = found.get(place as usize - 1).map_or_else(|| "not read".into(), |f| found_words(*f));
    match back {
        Shows::Word(word, _) => format!("Place {place}: {word}, {what}"),
        _ => format!("Place {place}: {what}"),
    }
}
