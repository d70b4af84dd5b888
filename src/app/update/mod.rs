//! What follows from an action: the one function through which the state changes.

use super::action::{Action, Effect, Spoil};
use super::job::{Evidence, Job, MAX_SECTIONS, MAX_TITLE, blank};
use super::look::{Look, Room, Task};
use super::saved::write_saved;
use super::state::{State, UNDO_DEPTH};
use crate::fold::{Crease, Direction};
use crate::gather::Stack;
use crate::gather::stack::{Placed, What};
use crate::marks::{Lies, MOST_SECTIONS};
use std::rc::Rc;

mod by_hand;
mod layout;

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
        Action::Play(folds) => {
            state.look.at = 0.0;
            effects.extend([Effect::Settle(0), Effect::Glide(folds)]);
        }
        Action::Through(through) => state.look.through = through,
        Action::Task(task) => {
            state.look.task = task;
            // A layout is written down with side A up.
            if task == Task::WorkBack {
                state.look.lay = crate::fold::Lay::default();
            }
        }
        Action::Lay(lay) => state.look.lay = lay,
        Action::Compare(compare) => state.look.compare = compare,
        Action::Inside(cut) => state.look.inside = cut,
        Action::Say(what) => state.said = Some(what),
        Action::Export => {
            let name = file_name(&state.job.title);
            effects.push(Effect::Download { name, text: write_saved(&state.job, &state.look) });
        }
        Action::Undo => {
            let Some(job) = state.past.pop() else { return Err("There is nothing to undo.".into()) };
            let before = std::mem::replace(&mut state.job, job);
            by_hand::part(state, &before);
            state.said = elsewhere(&before, &state.job, state.look.room).map(|what| format!("Undone: {what}."));
            state.future.push(before);
            settle(state, effects);
        }
        Action::Redo => {
            let Some(job) = state.future.pop() else { return Err("There is nothing to redo.".into()) };
            let before = std::mem::replace(&mut state.job, job);
            by_hand::part(state, &before);
            state.said = elsewhere(&before, &state.job, state.look.room).map(|what| format!("Done again: {what}."));
            state.past.push(before);
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
            // Another number of sections is another book; it is gathered afresh.
            if sections != job.sections {
                job.stack = Stack::good(sections);
                job.evidence = Evidence::Stack;
            }
            // Marks that were tapped beyond the end of a shorter spine go with the rest of it.
            if let Evidence::Tapped(backs) = &mut job.evidence {
                backs.iter_mut().for_each(|back| back.retain(|mm| *mm <= design.spine_mm));
            }
            job.sections = sections;
            job.design = design;
            Ok(())
        })?,
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
        Action::Try { .. } | Action::ByScheme | Action::PrintForTried | Action::ReadTried => {
            by_hand::act(state, action, effects)?;
        }
        Action::LayoutSize { .. } | Action::LayoutCell { .. } | Action::LayoutOfScheme | Action::LayoutClear => {
            layout::act(state, action)?;
        }
        Action::Section(case) => change(state, |job| {
            super::job::check_case(&case)?;
            job.section_case = case;
            Ok(())
        })?,
        scheme => own_scheme(state, scheme, effects)?,
    }
    let places = state.job.stack.placed().len().max(1) as u32;
    state.look.place = state.look.place.clamp(1, places);
    Ok(())
}

fn act_on_stack(job: &mut Job, spoil: Spoil) -> Result<(), String> {
    let stack = &mut job.stack;
    let laid = |stack: &Stack, place: u32| stack.placed().get((place as usize).wrapping_sub(1)).copied();
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
        Spoil::Misfold(_, fold) if fold == 0 || fold as usize > job.scheme.folds.len() => {
            return Err(format!("The sheet has folds 1 to {}.", job.scheme.folds.len()));
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
    let (length, spine) = (job.design.length_mm, job.design.spine_mm);
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

/// Actions on the fold scheme.
fn own_scheme(state: &mut State, action: Action, effects: &mut Vec<Effect>) -> Result<(), String> {
    let added = matches!(action, Action::AddFold(_));
    match action {
        Action::Take(scheme) => {
            change_scheme(state, |job| {
                job.scheme = scheme;
                Ok(())
            })?;
            state.look.task = Task::Fold;
            state.look.at = 0.0;
        }
        Action::MakeOwn { rows, columns } => {
            change_scheme(state, |job| {
                let scheme = blank(rows, columns);
                scheme.check_size().map_err(|why| sentence(&why.to_string()))?;
                job.scheme = scheme;
                Ok(())
            })?;
            state.look.task = Task::Make;
            state.look.at = 0.0;
        }
        Action::AddFold(fold) => {
            change_scheme(state, |job| {
                let folding = crate::fold::Folding::of(&job.scheme).map_err(|why| sentence(&why.to_string()))?;
                if let Some(why) = folding.stopped {
                    return Err(sentence(&format!("{why}; take that fold back first")));
                }
                let step = folding.try_fold(&fold).map_err(|why| sentence(&why.to_string()))?;
                job.scheme.folds.push(step.turn.fold);
                // The heads lie along the last crease; keep them where they can be, at the top if that can be.
                let upright = fold.crease == Crease::Vertical;
                if job.scheme.head.is_sideways() == upright {
                    job.scheme.head = if upright { Direction::Up } else { Direction::Right };
                }
                Ok(())
            })?;
            // The new fold is shown being made.
            state.look.at = (state.job.scheme.folds.len() - 1) as f64;
        }
        Action::RemoveFold(i) => change_scheme(state, |job| {
            if i >= job.scheme.folds.len() {
                return Err("There is no such fold.".into());
            }
            job.scheme.folds.remove(i);
            Ok(())
        })?,
        Action::Head(head) => change_scheme(state, |job| {
            job.scheme.head = head;
            Ok(())
        })?,
        Action::Reads(reads) => change_scheme(state, |job| {
            job.scheme.reads = reads;
            Ok(())
        })?,
        _ => {}
    }
    state.look.followed = None;
    forget_lost_misfolds(state);
    settle(state, effects);
    if added {
        effects.push(Effect::Glide(state.job.scheme.folds.len() as u32));
    }
    Ok(())
}

/// Changes the scheme. Folds made by hand belong to the scheme they depart from; they go with it, in the same change.
fn change_scheme(state: &mut State, f: impl FnOnce(&mut Job) -> Result<(), String>) -> Result<(), String> {
    change(state, |job| {
        job.tried = None;
        f(job)
    })
}

/// A fold that the scheme no longer has can't be made the other way. It belongs to the change before it, so that undo
/// brings both back.
fn forget_lost_misfolds(state: &mut State) {
    let folds = state.job.scheme.folds.len();
    let lost = |p: &Placed| p.misfold.is_some_and(|fold| fold as usize > folds);
    if state.job.stack.placed().iter().any(lost) {
        let job = Rc::make_mut(&mut state.job);
        let placed = job.stack.placed().iter().map(|p| Placed { misfold: p.misfold.filter(|_| !lost(p)), ..*p });
        job.stack = Stack::try_from(placed.collect::<Vec<_>>()).unwrap_or_else(|_| Stack::good(job.sections));
    }
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
    let places = state.job.stack.placed().len() as u32;
    if place == 0 || place > places {
        return Err(format!("The stack has places 1 to {places}."));
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
    let section = (page - 1) / pages + 1;
    let at = state.job.stack.placed().iter().position(|p| p.what == What::Ours(section));
    let Some(at) = at else { return Err(format!("Page {page} is in section {section}, which is not in the stack.")) };
    state.look.place = at as u32 + 1;
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

/// What two jobs differ in that is not seen in a room.
fn elsewhere(a: &Job, b: &Job, room: Room) -> Option<&'static str> {
    if a.section_case != b.section_case && room != Room::Trace {
        return Some("the pages found, in Trace");
    }
    if (&a.stack, &a.evidence) != (&b.stack, &b.evidence) && room != Room::Gather {
        return Some("the book as gathered, in Gather");
    }
    ((&a.scheme, &a.tried, &a.layout) != (&b.scheme, &b.tried, &b.layout) && room != Room::Fold)
        .then_some("the sheet, in Fold")
}

fn sentence(says: &str) -> String {
    let mut says = format!("{says}.");
    if let Some(first) = says.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    says
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
