//! What follows from an action: the one function through which the state changes.

use super::action::{Action, Effect, Spoil};
use super::job::{Evidence, Job};
use super::look::{Look, Room, Task};
use super::state::{State, UNDO_DEPTH};
use crate::gather::Stack;
use crate::gather::stack::What;
use crate::marks::{Lies, MOST_SECTIONS};
use crate::words::sentence;
use std::rc::Rc;

mod book;
mod by_hand;
mod case;
mod layout;
mod sheet;

pub(super) use case::check as check_found;
pub(super) use sheet::FoldsOf;
use sheet::forget_lost_misfolds;

/// Carries out an action.
#[must_use]
pub fn update(state: &State, action: Action) -> (State, Vec<Effect>) {
    carried_out(state, |next, effects| match act_at_once(next, action, effects) {
        Ok(done) => done,
        Err(other) => act_on_request(next, other, effects),
    })
}

/// Carries out an action that anybody may do on the first screen. The others are handed back: what they need is not there from the
/// beginning.
///
/// # Errors
/// The action itself.
pub fn update_at_once(state: &State, action: Action) -> Result<(State, Vec<Effect>), Action> {
    let mut other = None;
    let done = carried_out(state, |next, effects| match act_at_once(next, action, effects) {
        Ok(done) => done,
        Err(action) => {
            other = Some(action);
            Ok(())
        }
    });
    match other {
        None => Ok(done),
        Some(action) => Err(action),
    }
}

fn carried_out(
    state: &State,
    act: impl FnOnce(&mut State, &mut Vec<Effect>) -> Result<(), String>,
) -> (State, Vec<Effect>) {
    let mut next = state.clone();
    next.said = None;
    let mut effects = Vec::new();
    if let Err(why) = act(&mut next, &mut effects) {
        next.said = Some(why);
    }
    let places = next.job.stack.placed().len().max(1) as u32;
    next.look.place = next.look.place.clamp(1, places);
    if next.sheet().is_whole() {
        next.look.piece = None;
    }
    if next.job != state.job || next.look != state.look {
        effects.push(Effect::Save);
    }
    (next, effects)
}

/// What is done on the first screen.
fn act_at_once(state: &mut State, action: Action, effects: &mut Vec<Effect>) -> Result<Result<(), String>, Action> {
    match action {
        Action::Go(room) => state.look.room = room,
        Action::Pick(place) => return Ok(pick(state, place)),
        Action::Follow(page) => state.look.followed = page.filter(|p| (1..=pages_here(state)).contains(p)),
        Action::FollowInBook(page) => return Ok(follow_in_book(state, page)),
        Action::Moved(at) => state.look.at = at,
        Action::Play(folds) => {
            state.look.at = 0.0;
            effects.extend([Effect::Settle(0), Effect::Glide(folds)]);
        }
        Action::Through(through) => state.look.through = through,
        Action::Task(task) if task != Task::WorkBack => state.look.task = task,
        Action::Lay(lay) => state.look.lay = lay,
        Action::Compare(compare) => state.look.compare = compare,
        Action::Pane(pane) => state.look.pane = pane,
        Action::Piece(piece) => {
            state.look.piece = piece.filter(|p| (*p as usize) < state.sheet().course.piece_count());
            state.look.at = 0.0;
            settle(state, effects);
        }
        Action::Say(what) => state.said = Some(what),
        Action::Opened { job, look, by_hand } => {
            if by_hand {
                let opened = change(state, |j| {
                    *j = *job;
                    Ok(())
                });
                if opened.is_err() {
                    return Ok(opened);
                }
                state.said = Some(format!("{} is open. Undo brings the last job back.", state.job.title));
            } else {
                state.job = Rc::new(*job);
            }
            state.look = look;
            settle(state, effects);
        }
        Action::Try { .. } | Action::ByScheme => return Ok(by_hand::act(state, action, effects)),
        other => return Err(other),
    }
    Ok(Ok(()))
}

fn step_back_or_on(state: &mut State, back: bool, effects: &mut Vec<Effect>) -> Result<(), String> {
    let from = if back { &mut state.past } else { &mut state.future };
    let Some(job) = from.pop() else {
        return Err(if back { "There is nothing to undo." } else { "There is nothing to redo." }.into());
    };
    let before = std::mem::replace(&mut state.job, job);
    by_hand::part(state, &before);
    let done = if back { "Undone" } else { "Done again" };
    state.said = elsewhere(&before, &state.job, state.look.room).map(|what| format!("{done}: {what}."));
    if back { &mut state.future } else { &mut state.past }.push(before);
    settle(state, effects);
    Ok(())
}

/// What is done in other rooms, and in what is opened.
fn act_on_request(state: &mut State, action: Action, effects: &mut Vec<Effect>) -> Result<(), String> {
    match action {
        // Cells are typed one after another, each seen as it then is: what carries them out comes with the layout.
        Action::Task(task) => {
            state.look.task = task;
            // A layout is written down with side A up.
            state.look.lay = crate::fold::Lay::default();
        }
        Action::FollowPrinted(folio) => {
            let found = state.job.book().find(&folio);
            match found.positions.as_slice() {
                [page] => follow_in_book(state, *page)?,
                _ => return Err(found.says),
            }
        }
        Action::Undo => step_back_or_on(state, true, effects)?,
        Action::Redo => step_back_or_on(state, false, effects)?,
        Action::Export => {
            let name = file_name(&state.job.title);
            effects.push(Effect::Download(name));
        }
        Action::StartOver => {
            change(state, |job| {
                *job = Job::default();
                Ok(())
            })?;
            state.look = Look { room: state.look.room, ..Look::default() };
            settle(state, effects);
        }
        Action::Book(act) => book::act(state, act, effects)?,
        Action::Spoil(spoil) => {
            change(state, |job| {
                act_on_stack(job, spoil)?;
                job.evidence = Evidence::Stack;
                Ok(())
            })?;
            settle(state, effects);
        }
        Action::Look(evidence) => change(state, |job| {
            job.evidence = evidence;
            Ok(())
        })?,
        Action::Tap { place, mm } => change(state, |job| tap(job, place, mm))?,
        Action::TapBacks(count) => change(state, |job| {
            let Evidence::Tapped(backs) = &mut job.evidence else { return Ok(()) };
            if count == 0 || count > MOST_SECTIONS {
                return Err(format!("A spine has 1 to {MOST_SECTIONS} backs here."));
            }
            backs.resize(count as usize, Vec::new());
            Ok(())
        })?,
        Action::PrintForTried | Action::ReadTried => by_hand::act_on_request(state, action, effects)?,
        Action::LayoutSize { .. } | Action::LayoutCell { .. } | Action::LayoutOfScheme | Action::LayoutClear => {
            layout::act(state, action)?;
        }
        Action::Section(case) => change(state, |job| {
            super::job::check_case(&case)?;
            job.section_case = case;
            Ok(())
        })?,
        Action::Case(act) => {
            change(state, |job| case::act(job, act))?;
        }
        Action::Trace(look) => state.look.trace = look,
        sheet => sheet::act(state, sheet, effects)?,
    }
    Ok(())
}

fn act_on_stack(job: &mut Job, spoil: Spoil) -> Result<(), String> {
    let folds_of = FoldsOf::new(job);
    let stack = &mut job.stack;
    let laid = |stack: &Stack, place: u32| stack.placed().get((place as usize).wrapping_sub(1)).copied();
    let folds = |stack: &Stack, place: u32| laid(stack, place).map_or(0, |p| folds_of.at(&p));
    match spoil {
        Spoil::LeaveOut(place) if stack.placed().len() == 1 && place == 1 => {
            return Err("The last section stays; a book without sections has nothing to check.".into());
        }
        Spoil::LeaveOut(place) => stack.leave_out(place),
        Spoil::TakeTwo(place) => stack.take_two(place),
        Spoil::PutIn(_, section) if section == 0 || section > job.sections => {
            return Err(format!("The book has sections 1 to {}.", job.sections));
        }
        Spoil::PutIn(place, section) => stack.put_in(place, section),
        Spoil::Exchange(a, b) => stack.exchange(a, b),
        Spoil::Lay(place, lies) => {
            let again = laid(stack, place).is_some_and(|p| p.lies == lies);
            stack.lay(place, if again { Lies::Right } else { lies })
        }
        Spoil::Foreign(place) => stack.foreign(place),
        Spoil::Misfold(place, fold) if fold == 0 || fold as usize > folds(stack, place) => {
            let folds = folds(stack, place);
            if folds == 0 {
                return Err(
                    "This section was laid together from parts; it has no fold of its own to be made wrong.".into()
                );
            }
            return Err(format!("Its sheet has folds 1 to {folds}."));
        }
        Spoil::Misfold(place, fold) => {
            let again = laid(stack, place).is_some_and(|p| p.misfold == Some(fold));
            stack.misfold(place, (!again).then_some(fold))
        }
        Spoil::Carry(first, last, after) => stack.carry(first..=last, after),
        Spoil::MakeGood => {
            *stack = Stack::good(job.sections);
            Ok(())
        }
    }
    .map_err(|why| why.to_string())
}

/// Sets a bar, or takes away the one that is there already.
fn tap(job: &mut Job, place: u32, mm: f64) -> Result<(), String> {
    let (length, spine) = (job.design.stairs.length_mm, job.design.stairs.spine_mm);
    let Evidence::Tapped(backs) = &mut job.evidence else { return Ok(()) };
    let back = (place as usize).checked_sub(1).and_then(|i| backs.get_mut(i));
    let Some(back) = back else { return Err("There is no such back.".into()) };
    if !mm.is_finite() || mm < 0.0 || mm > spine {
        return Err(format!("The spine is {} mm long.", crate::units::mm(spine)));
    }
    match back.iter().position(|m| (m - mm).abs() <= length / 2.0) {
        Some(i) => {
            back.remove(i);
        }
        None if back.len() >= 8 => return Err("A back takes eight bars at the most.".into()),
        None => {
            let mm = (mm * 10.0).round() / 10.0;
            back.insert(back.partition_point(|m| *m < mm), mm);
        }
    }
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

/// The pages of the section on the bench.
fn pages_here(state: &State) -> u32 {
    state.job.pages_of(state.section_on_bench())
}

fn pick(state: &mut State, place: u32) -> Result<(), String> {
    let places = state.job.stack.placed().len() as u32;
    if place == 0 || place > places {
        return Err(format!("The stack has places 1 to {places}."));
    }
    state.look.place = place;
    Ok(())
}

fn follow_in_book(state: &mut State, page: u32) -> Result<(), String> {
    let Some((section, in_section)) = state.job.section_of_page(page) else {
        return Err(format!("The book has pages 1 to {}.", state.job.pages()));
    };
    let at = state.job.stack.placed().iter().position(|p| p.what == What::Ours(section));
    let Some(at) = at else { return Err(format!("Page {page} is in section {section}, which is not in the stack.")) };
    state.look.place = at as u32 + 1;
    state.look.followed = Some(in_section);
    // A page that is not on the piece that lies there alone is followed on the whole sheet.
    let on_piece = |state: &State| state.lone_bench().is_some_and(|bench| state.followed_face(&bench).is_some());
    if state.piece().is_some() && !on_piece(state) {
        state.look.piece = None;
    }
    Ok(())
}

/// Keeps moment and followed page inside what now lies on the bench, and brings the bench there.
fn settle(state: &mut State, effects: &mut Vec<Effect>) {
    if state.look.followed.is_some_and(|p| p > pages_here(state)) {
        state.look.followed = None;
    }
    effects.push(Effect::Settle((state.look.at.max(0.0) * 1000.0) as u32));
}

/// What two jobs differ in that is not seen in a room.
fn elsewhere(a: &Job, b: &Job, room: Room) -> Option<&'static str> {
    if a.case != b.case && room != Room::Trace {
        return Some("the finds of the wrong book, in Trace");
    }
    if a.section_case != b.section_case && room != Room::Trace {
        return Some("the pages found, in Trace");
    }
    let made = (&a.sheet, &a.otherwise) != (&b.sheet, &b.otherwise);
    let other = (a.paper, &a.tried, &a.layout) != (b.paper, &b.tried, &b.layout);
    if room != Room::Fold && (other || (made && room != Room::Job)) {
        return Some("the sheet, in Fold");
    }
    let said = |job: &Job| (job.title.clone(), job.sections, job.signing, job.planning, job.casing);
    if (said(a), &a.runs, &a.added, &a.design) != (said(b), &b.runs, &b.added, &b.design) {
        return (room != Room::Job).then_some("the book, in Job");
    }
    ((&a.stack, &a.evidence) != (&b.stack, &b.evidence) && room != Room::Gather)
        .then_some("the book as gathered, in Gather")
}

/// Letters and figures of every script stay; what a file system could take amiss becomes a dash.
fn file_name(title: &str) -> String {
    let mut name = String::new();
    for c in title.chars() {
        if !c.is_ascii() || c.is_ascii_alphanumeric() {
            name.push(c.to_ascii_lowercase());
        } else if !name.is_empty() && !name.ends_with('-') {
            name.push('-');
        }
    }
    let name = name.trim_end_matches('-');
    format!("{}.backmark.json", if name.is_empty() { "job" } else { name })
}

#[cfg(test)]
mod tests;
