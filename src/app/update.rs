//! What follows from an action: the one function through which the state changes.

use super::action::{Action, Effect};
use super::job::{Job, MAX_SECTIONS, MAX_TITLE, blank};
use super::look::Look;
use super::saved::write_saved;
use super::state::{State, UNDO_DEPTH};
use std::rc::Rc;

/// Carries out an action.
#[must_use]
pub fn update(state: &State, action: Action) -> (State, Vec<Effect>) {
    let mut next = state.clone();
    next.said = None;
    let mut effects = Vec::new();
    match act(&mut next, action, &mut effects) {
        Ok(()) => {}
        Err(why) => next.said = Some(why),
    }
    if next.job != state.job || next.look != state.look {
        effects.push(Effect::Save(write_saved(&next.job, &next.look)));
    }
    (next, effects)
}

fn act(state: &mut State, action: Action, effects: &mut Vec<Effect>) -> Result<(), String> {
    match action {
        Action::Go(room) => state.look.room = room,
        Action::Pick(place) => pick(state, place)?,
        Action::Follow(page) => state.look.followed = page.filter(|p| (1..=state.job.scheme.pages()).contains(p)),
        Action::FollowInBook(page) => follow_in_book(state, page)?,
        Action::Moved(at) => state.look.at = at,
        Action::Through(through) => state.look.through = through,
        Action::Making(making) => state.look.making = making,
        Action::Say(what) => state.said = Some(what),
        Action::Export => {
            let name = file_name(&state.job.title);
            effects.push(Effect::Download { name, text: write_saved(&state.job, &state.look) });
        }
        Action::Undo => {
            let Some(job) = state.past.pop() else { return Err("There is nothing to undo.".into()) };
            state.future.push(std::mem::replace(&mut state.job, job));
            settle(state, effects);
        }
        Action::Redo => {
            let Some(job) = state.future.pop() else { return Err("There is nothing to redo.".into()) };
            state.past.push(std::mem::replace(&mut state.job, job));
            settle(state, effects);
        }
        Action::StartOver => {
            change(state, |job| {
                *job = Job::default();
                Ok(())
            })?;
            state.look = Look { room: state.look.room, ..Look::default() };
            settle(state, effects);
        }
        Action::Opened { job, look, by_hand } => {
            if by_hand {
                change(state, |j| {
                    *j = *job;
                    Ok(())
                })?;
                state.said = Some(format!("{} is open. Undo brings the last job back.", state.job.title));
            } else {
                state.job = Rc::new(*job);
            }
            state.look = look;
            settle(state, effects);
        }
        Action::Book { title, sections, design } => change(state, |job| {
            let title = title.trim();
            if title.is_empty() || title.chars().count() > MAX_TITLE {
                return Err(format!("A title has 1 to {MAX_TITLE} characters."));
            }
            if sections == 0 || sections > MAX_SECTIONS {
                return Err(format!("A book has 1 to {MAX_SECTIONS} sections."));
            }
            design.check(sections).map_err(|why| why.to_string())?;
            job.title = title.into();
            job.sections = sections;
            job.design = design;
            Ok(())
        })?,
        scheme => own_scheme(state, scheme, effects)?,
    }
    state.look.place = state.look.place.clamp(1, state.job.sections);
    Ok(())
}

/// Actions on the fold scheme.
fn own_scheme(state: &mut State, action: Action, effects: &mut Vec<Effect>) -> Result<(), String> {
    match action {
        Action::Take(scheme) => {
            change(state, |job| {
                job.scheme = scheme;
                Ok(())
            })?;
            state.look.making = false;
            state.look.at = 0.0;
        }
        Action::MakeOwn { rows, columns } => {
            change(state, |job| {
                let scheme = blank(rows, columns);
                scheme.check_size().map_err(|why| sentence(&why.to_string()))?;
                job.scheme = scheme;
                Ok(())
            })?;
            state.look.making = true;
            state.look.at = 0.0;
        }
        Action::AddFold(fold) => {
            change(state, |job| {
                let folding = crate::fold::Folding::of(&job.scheme).map_err(|why| sentence(&why.to_string()))?;
                if let Some(why) = folding.stopped {
                    return Err(sentence(&format!("{why}; take that fold back first")));
                }
                let step = folding.try_fold(&fold).map_err(|why| sentence(&why.to_string()))?;
                job.scheme.folds.push(step.turn.fold);
                // The heads lie along the last crease; keep them where they can be.
                if job.scheme.head.is_sideways() == (fold.crease == crate::fold::Crease::Vertical) {
                    job.scheme.head = job.scheme.head.clockwise();
                }
                Ok(())
            })?;
            // The new fold is shown being made.
            state.look.at = (state.job.scheme.folds.len() - 1) as f64;
        }
        Action::RemoveFold(i) => change(state, |job| {
            if i >= job.scheme.folds.len() {
                return Err("There is no such fold.".into());
            }
            job.scheme.folds.remove(i);
            Ok(())
        })?,
        Action::Head(head) => change(state, |job| {
            job.scheme.head = head;
            Ok(())
        })?,
        Action::Reads(reads) => change(state, |job| {
            job.scheme.reads = reads;
            Ok(())
        })?,
        _ => {}
    }
    state.look.followed = None;
    settle(state, effects);
    Ok(())
}

/// Changes the job so that it can be undone. A change that changes nothing leaves no trace.
fn change(state: &mut State, f: impl FnOnce(&mut Job) -> Result<(), String>) -> Result<(), String> {
    let mut job = (*state.job).clone();
    f(&mut job)?;
    if job != *state.job {
        state.past.push(std::mem::replace(&mut state.job, Rc::new(job)));
        if state.past.len() > UNDO_DEPTH {
            state.past.remove(0);
        }
        state.future.clear();
    }
    Ok(())
}

fn pick(state: &mut State, place: u32) -> Result<(), String> {
    if place == 0 || place > state.job.sections {
        return Err(format!("The stack has places 1 to {}.", state.job.sections));
    }
    state.look.place = place;
    Ok(())
}

fn follow_in_book(state: &mut State, page: u32) -> Result<(), String> {
    let pages = state.job.scheme.pages();
    let last = pages * state.job.sections;
    if page == 0 || page > last {
        return Err(format!("The book has pages 1 to {last}."));
    }
    state.look.place = (page - 1) / pages + 1;
    state.look.followed = Some((page - 1) % pages + 1);
    Ok(())
}

/// Keeps moment and followed page inside what now lies on the bench, and brings the bench there.
fn settle(state: &mut State, effects: &mut Vec<Effect>) {
    if state.look.followed.is_some_and(|p| p > state.job.scheme.pages()) {
        state.look.followed = None;
    }
    effects.push(Effect::Settle((state.look.at.max(0.0) * 1000.0) as u32));
}

fn sentence(says: &str) -> String {
    let mut chars = says.chars();
    let first = chars.next().map(|c| c.to_uppercase().collect::<String>()).unwrap_or_default();
    first + chars.as_str() + "."
}

fn file_name(title: &str) -> String {
    let mut name: String = title.chars().map(|c| if c.is_alphanumeric() { c } else { '-' }).collect();
    while name.contains("--") {
        name = name.replace("--", "-");
    }
    let name = name.trim_matches('-').to_lowercase();
    format!("{}.backmark.json", if name.is_empty() { "job" } else { &name })
}

#[cfg(test)]
mod tests;
