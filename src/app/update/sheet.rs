//! What is done to a sheet: its course, and the sizes of its panels.

use super::{change, sentence, settle};
use crate::app::action::{Action, Effect};
use crate::app::job::{Job, blank};
use crate::app::look::Task;
use crate::app::sections::{check_measure, heads_lie_sideways, leaf_of, measure_of_leaf};
use crate::app::state::State;
use crate::fold::{Course, Crease, Direction, End, Fold, Folding, Nest, Parted, Scheme, Slit, Steps, Worked};
use crate::gather::Stack;
use crate::gather::stack::{Placed, What};
use crate::paper::{Length, Margins, Trims};
use std::rc::Rc;

pub(super) fn act(state: &mut State, action: Action, effects: &mut Vec<Effect>) -> Result<(), String> {
    let added = matches!(action, Action::AddFold(_));
    let oblong = matches!(action, Action::TakeOblong(_));
    match action {
        Action::Take(course) | Action::TakeOblong(course) => {
            change_sheet(state, |job| {
                Worked::of(&course).map_err(|why| sentence(&why.to_string()))?;
                let (width, height) = job.leaf();
                job.take_course(course);
                if (width > height) != oblong {
                    job.measure = measure_of_leaf(&job.course, (height, width));
                }
                Ok(())
            })?;
            state.look.task = Task::Fold;
            state.look.at = 0.0;
            state.look.piece = None;
        }
        Action::MakeOwn { rows, columns } => {
            change_sheet(state, |job| {
                let scheme = blank(rows, columns);
                scheme.check_size().map_err(|why| sentence(&why.to_string()))?;
                job.take_course(Course::of_scheme(&scheme));
                Ok(())
            })?;
            state.look.task = Task::Make;
            state.look.at = 0.0;
            state.look.piece = None;
        }
        Action::AddFold(fold) => {
            let (piece, scheme) = (state.piece(), state.scheme());
            change_sheet(state, |job| add_fold(job, piece, &scheme, fold))?;
            // The new fold is shown being made.
            state.look.at = state.scheme().folds.len().saturating_sub(1) as f64;
        }
        Action::RemoveFold(i) => {
            let (piece, mut scheme) = (state.piece(), state.scheme());
            change_sheet(state, |job| {
                if i >= scheme.folds.len() {
                    return Err("There is no such fold.".into());
                }
                scheme.folds.remove(i);
                match piece {
                    Some(piece) => job.fold_piece(piece, scheme),
                    None => {
                        job.course.steps.folds.remove(i);
                        job.settle_slit()
                    }
                }
            })?;
        }
        Action::Slit { crease, after } => {
            let piece = state.piece();
            change_sheet(state, |job| slit(job, piece, crease, after))?;
            // Folding goes on with the first part.
            state.look.piece = Some(piece.unwrap_or(0) as u32);
            state.look.at = 0.0;
        }
        Action::JoinAgain => change_sheet(state, |job| {
            let scheme = job.trunk();
            job.take_course(Course::of_scheme(&scheme));
            Ok(())
        })?,
        Action::PutTogether(copies) => change_sheet(state, |job| {
            let course = Course { copies, ..job.course.clone() };
            Worked::in_the_making(&course).map_err(|why| sentence(&why.to_string()))?;
            job.course = course;
            Ok(())
        })?,
        Action::Head(head) => {
            let (piece, scheme) = (state.piece().unwrap_or(0), state.scheme());
            change_sheet(state, |job| {
                if scheme.folds.last().is_some_and(|f| (f.crease == Crease::Vertical) == head.is_sideways()) {
                    return Err("The head can't lie at the spine or the fore-edge.".into());
                }
                let whole = job.is_whole();
                let turned = job.making().and_then(|w| w.own_sheet(piece)).map_or((false, false), |own| own.turned);
                let head = if whole { head } else { head.mirrored(turned.0, turned.1) };
                if let Some(steps) = job.course.steps.piece_mut(piece) {
                    steps.end = End::Piece { head };
                }
                Ok(())
            })?;
        }
        Action::Reads(reads) => change_sheet(state, |job| {
            job.course.reads = reads;
            Ok(())
        })?,
        Action::Paper(paper) => change(state, |job| {
            paper.check(job.leaf())?;
            job.paper = paper;
            Ok(())
        })?,
        Action::Measure(measure) => change(state, |job| {
            check_measure(&job.course, &measure).map_err(|says| sentence(&format!("the sizes {says}")))?;
            let leaf = leaf_of(&job.course, &measure);
            job.paper.check(leaf)?;
            job.measure = measure;
            Ok(())
        })?,
        _ => {}
    }
    if !matches!(state.job.course.steps.end, End::Piece { .. }) {
        state.look.piece = state.look.piece.filter(|p| (*p as usize) < state.job.course.piece_count());
    }
    state.look.followed = None;
    forget_lost_misfolds(state);
    settle(state, effects);
    if added {
        effects.push(Effect::Glide(state.scheme().folds.len() as u32));
    }
    Ok(())
}

/// Adds a fold to what is on the bench.
fn add_fold(job: &mut Job, piece: Option<usize>, scheme: &Scheme, fold: Fold) -> Result<(), String> {
    let folding = Folding::of(scheme).map_err(|why| sentence(&why.to_string()))?;
    if let Some(why) = folding.stopped {
        return Err(sentence(&format!("{why}; take that fold back first")));
    }
    let step = folding.try_fold(&fold).map_err(|why| sentence(&why.to_string()))?;
    let mut scheme = scheme.clone();
    scheme.folds.push(step.turn.fold);
    // The heads lie along the last crease; keep them where they can be, at the top if that can be.
    let upright = fold.crease == Crease::Vertical;
    if scheme.head.is_sideways() == upright {
        scheme.head = if upright { Direction::Up } else { Direction::Right };
    }
    match piece {
        Some(piece) => job.fold_piece(piece, scheme),
        None if job.is_whole() => {
            job.course.steps = Steps::piece(scheme.folds, scheme.head);
            Ok(())
        }
        None => Err("The sheet is slit after these folds: take a piece on the bench, or join them again.".into()),
    }
}

/// Slits what is on the bench. Each part is a section of its own until it is put elsewhere.
fn slit(job: &mut Job, piece: Option<usize>, crease: Crease, after: u32) -> Result<(), String> {
    let worked = job.making();
    let number = piece.unwrap_or(0);
    let turned = worked.as_ref().and_then(|w| w.own_sheet(number)).filter(|_| piece.is_some());
    let (across, down) = turned.as_ref().map_or((false, false), |own| own.turned);
    let Some(steps) = job.course.steps.piece_mut(number) else { return Err("There is no such piece.".into()) };
    let End::Piece { head } = steps.end else { return Err("There is no such piece.".into()) };
    let size = {
        let base = turned.map_or_else(|| job.course.scheme(), |own| Some(own.scheme));
        let folding = base.and_then(|s| Folding::of(&s).ok());
        let extent = folding.map(|f| f.last().extent());
        extent.map_or((0, 0), |r| (r.width().unsigned_abs(), r.height().unsigned_abs()))
    };
    let (size, backwards) = if crease == Crease::Vertical { (size.0, across) } else { (size.1, down) };
    if after == 0 || after >= size {
        return Err("A slit lies between two panels.".into());
    }
    let after = if backwards { size - after } else { after };
    let part = || Steps::piece(Vec::new(), head);
    let then = Parted::Apart { first: part(), second: part() };
    if let Some(steps) = job.course.steps.piece_mut(number) {
        steps.end = End::Slit(Box::new(Slit { crease, after, then }));
    }
    job.settle_slit()
}

impl Job {
    /// Takes another course. Leaves keep the size of the first one they had.
    pub(super) fn take_course(&mut self, course: Course) {
        let leaf = self.leaf();
        if (course.rows, course.columns) != (self.course.rows, self.course.columns)
            || heads_lie_sideways(&course) != heads_lie_sideways(&self.course)
        {
            self.measure = measure_of_leaf(&course, leaf);
        }
        self.course = course;
        // Smaller leaves may have no room for what was cut off the larger ones.
        if self.paper.check(self.leaf()).is_err() {
            let zero = Length::ZERO;
            self.paper.trims = Trims { head: zero, foot: zero, fore_edge: zero, bleed: zero };
            self.paper.margins = Margins { back: zero, head: zero, fore_edge: zero, foot: zero };
        }
    }

    /// Folds a piece by another scheme. What was done to it before it was slit stays.
    pub(super) fn fold_piece(&mut self, piece: usize, scheme: Scheme) -> Result<(), String> {
        let lost = || "This piece is no sheet of its own.".to_owned();
        let worked = self.making().ok_or_else(lost)?;
        let own = worked.own_sheet(piece).ok_or_else(lost)?;
        let Some(folds) = own.folds_after_slit(&scheme) else {
            return Err(
                "This piece was folded before it was slit; those folds can't be made otherwise for it alone.".into()
            );
        };
        let steps = self.course.steps.piece_mut(piece).ok_or_else(lost)?;
        *steps = Steps::piece(folds, scheme.head.mirrored(own.turned.0, own.turned.1));
        self.settle_slit()
    }

    /// Puts the pieces together anew where their number has changed: each is a section.
    fn settle_slit(&mut self) -> Result<(), String> {
        let count = self.course.piece_count();
        let placed = self.course.copies.iter().flatten().flatten().filter(|p| **p < count).count();
        let known = self.course.copies.iter().flatten().flatten().count();
        if placed != known || known < count {
            let each = (0..count).map(|p| vec![p]).collect::<Vec<Nest>>();
            self.course.copies = vec![each];
        }
        Ok(())
    }
}

/// The folds of each section that a sheet gives.
#[must_use]
pub fn folds_on_sheet(job: &Job) -> Vec<usize> {
    (1..=job.per_sheet()).map(|s| job.scheme_of(s).map_or(0, |scheme| scheme.folds.len())).collect()
}

/// The folds of the section at a place of the stack.
#[must_use]
pub fn folds_at(per_sheet: u32, folds: &[usize], placed: &Placed) -> usize {
    let section = match placed.what {
        What::Ours(section) => section.saturating_sub(1) % per_sheet.max(1),
        What::Foreign => 0,
    };
    folds.get(section as usize).copied().unwrap_or(0)
}

/// Changes the sheet. Folds made by hand belong to the scheme they depart from; they go with it, in the same change.
fn change_sheet(state: &mut State, f: impl FnOnce(&mut Job) -> Result<(), String>) -> Result<(), String> {
    change(state, |job| {
        job.tried = None;
        f(job)
    })
}

/// A fold that the scheme no longer has can't be made the other way. It belongs to the change before it, so that undo
/// brings both back.
pub(super) fn forget_lost_misfolds(state: &mut State) {
    let folds = folds_on_sheet(&state.job);
    let lost = |p: &Placed| p.misfold.is_some_and(|fold| fold as usize > folds_at(state.job.per_sheet(), &folds, p));
    if state.job.stack.placed().iter().any(lost) {
        let placed: Vec<Placed> =
            state.job.stack.placed().iter().map(|p| Placed { misfold: p.misfold.filter(|_| !lost(p)), ..*p }).collect();
        let job = Rc::make_mut(&mut state.job);
        job.stack = Stack::try_from(placed).unwrap_or_else(|_| Stack::good(job.sections));
    }
}
