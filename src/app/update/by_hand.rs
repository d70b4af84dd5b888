//! Folding the printed sheet otherwise than its scheme says.

use super::{change, forget_lost_misfolds, sentence, settle};
use crate::app::action::{Action, Effect};
use crate::app::job::{Job, SectionEvidence, Tried};
use crate::app::look::{Room, Subject};
use crate::app::state::State;
use crate::fold::{Course, Fold, Folding, FoundFace, Scheme, Section};

pub(super) fn act(state: &mut State, action: Action, effects: &mut Vec<Effect>) -> Result<(), String> {
    match action {
        Action::Try { folds, at } => {
            let (kind, piece, scheme) = (state.kind(), state.piece(), state.scheme());
            change(state, |job| {
                let tried = Scheme { folds: folds.clone(), ..scheme.clone() };
                let folding = Folding::of(&tried).map_err(|why| sentence(&why.to_string()))?;
                if let Some(why) = folding.stopped {
                    return Err(sentence(&why.to_string()));
                }
                job.tried = (!begins_with(&scheme.folds, &folds)).then_some(Tried { kind, piece, folds });
                Ok(())
            })?;
            if at.is_finite() {
                state.look.at = at;
            }
            settle(state, effects);
        }
        Action::ByScheme => {
            change(state, |job| {
                job.tried = None;
                Ok(())
            })?;
            state.look.at = 0.0;
            settle(state, effects);
        }
        _ => {}
    }
    Ok(())
}

/// What can be done with a sheet that was folded otherwise.
pub(super) fn act_on_request(state: &mut State, action: Action, effects: &mut Vec<Effect>) -> Result<(), String> {
    match action {
        Action::PrintForTried => {
            change(state, |job| {
                let tried = job.tried_scheme().ok_or("The sheet is folded by its scheme.")?;
                let of = job.tried.take();
                let sheet = job.sheet_mut(of.as_ref().and_then(|t| t.kind));
                match of.and_then(|t| t.piece) {
                    None => sheet.take_course(Course::of_scheme(&tried)),
                    Some(piece) => sheet.fold_piece(piece, tried)?,
                }
                job.check_otherwise()
            })?;
            state.look.followed = None;
            forget_lost_misfolds(state);
            settle(state, effects);
        }
        Action::ReadTried => {
            let text = pages_of_tried(state)?;
            change(state, |job| {
                job.section_case.evidence = SectionEvidence::Typed(text);
                job.section_case.fore_edge = false;
                job.section_case.made_up = None;
                Ok(())
            })?;
            state.look.room = Room::Trace;
            state.look.trace.subject = Subject::Section;
        }
        _ => {}
    }
    Ok(())
}

/// A fold by hand that is undone or redone: the sheet goes back to where the two ways part, if it is beyond that.
pub(super) fn part(state: &mut State, before: &Job) {
    if state.job.tried == before.tried || (&state.job.sheet, &state.job.otherwise) != (&before.sheet, &before.otherwise)
    {
        return;
    }
    let scheme = state.scheme().folds;
    let [a, b] = [before, &*state.job].map(|job| job.tried.as_ref().map_or(&scheme, |t| &t.folds));
    let common = a.iter().zip(b).take_while(|(a, b)| a == b).count();
    state.look.at = state.look.at.min(common as f64);
}

/// Whether these folds are the first ones of the scheme.
fn begins_with(scheme: &[Fold], folds: &[Fold]) -> bool {
    scheme.starts_with(folds)
}

/// The pages as they follow in the section that the folds made by hand end in, as a checker writes them down. A piece of a
/// nest lies in it as it should, with what belongs inside it in its middle.
fn pages_of_tried(state: &State) -> Result<String, String> {
    let unfinished = || "Fold it down to one page first; then its pages can be read.".to_owned();
    let tried = state.tried_scheme().ok_or("The sheet is folded by its scheme, and reads right.")?;
    let printing = state.printing();
    let folding = Folding::of(&tried).map_err(|why| sentence(&why.to_string()))?;
    let section = Section::of(&tried, &folding).map_err(|_| unfinished())?;
    let word = |found: &FoundFace| match printing.figure(&found.face) {
        Some(page) if page.head.is_some_and(|head| head != found.head) => format!("{}v", page.page),
        Some(page) => page.page.to_string(),
        None => "_".into(),
    };
    let mut words: Vec<String> = section.faces.iter().map(word).collect();
    if let Some((around, inside)) = rest_of_nest(state) {
        let text = |pages: &[u32]| pages.iter().map(u32::to_string).collect::<Vec<_>>();
        let middle = words.len() / 4 * 2;
        words.splice(middle..middle, text(&inside));
        let half = around.len() / 2;
        words.splice(0..0, text(around.get(..half).unwrap_or_default()));
        words.extend(text(around.get(half..).unwrap_or_default()));
    }
    Ok(words.join(" "))
}

/// The pages of the pieces around the one on the bench, and of those inside it, if it is one of a nest: both as they
/// should follow.
fn rest_of_nest(state: &State) -> Option<(Vec<u32>, Vec<u32>)> {
    let (job, piece, here) = (&state.job, state.piece()?, state.section_on_bench());
    let nest = job.pieces_of(here);
    let at = nest.iter().position(|p| *p == piece)?;
    let worked = state.sheet().worked()?;
    let pages = |pieces: &[usize]| worked.pages_of(&pieces.to_vec());
    let before = pages(nest.get(..at)?) / 2;
    let own = pages(nest.get(at..=at)?);
    let inside = pages(nest.get(at + 1..)?);
    let first = state.shift() + 1;
    let whole = pages(&nest);
    let around = (first..first + before).chain(first + whole - before..first + whole).collect();
    let inner = first + before + own / 4 * 2;
    Some((around, (inner..inner + inside).collect()))
}
