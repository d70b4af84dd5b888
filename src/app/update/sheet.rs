//! What is done to the sheet on the bench: its course, and the sizes of its panels. It may be the sheet of one section alone.

use super::{change, sentence, settle};
use crate::app::action::{Action, Effect};
use crate::app::job::{Job, Paper, blank};
use crate::app::look::Task;
use crate::app::sections::{check_measure, heads_lie_sideways, measure_of_leaf};
use crate::app::sheet::Sheet;
use crate::app::state::State;
use crate::fold::{Course, Crease, Direction, End, Fold, Folding, Nest, Parted, Scheme, Slit, Steps, Worked};
use crate::gather::Stack;
use crate::gather::stack::{Placed, What};
use crate::paper::{Length, Margins, Trims};
use std::collections::BTreeMap;
use std::rc::Rc;

pub(super) fn act(state: &mut State, action: Action, effects: &mut Vec<Effect>) -> Result<(), String> {
    let added = matches!(action, Action::AddFold(_));
    let oblong = matches!(action, Action::TakeOblong(_));
    match action {
        Action::Take(course) | Action::TakeOblong(course) => {
            change_sheet(state, |sheet| {
                Worked::of(&course).map_err(|why| sentence(&why.to_string()))?;
                let (width, height) = sheet.leaf();
                sheet.take_course(course);
                if (width > height) != oblong {
                    sheet.measure = measure_of_leaf(&sheet.course, (height, width));
                }
                Ok(())
            })?;
            state.look.task = Task::Fold;
            state.look.at = 0.0;
            state.look.piece = None;
        }
        Action::MakeOwn { rows, columns } => {
            change_sheet(state, |sheet| {
                let scheme = blank(rows, columns);
                scheme.check_size().map_err(|why| sentence(&why.to_string()))?;
                sheet.take_course(Course::of_scheme(&scheme));
                Ok(())
            })?;
            state.look.task = Task::Make;
            state.look.at = 0.0;
            state.look.piece = None;
        }
        Action::AddFold(fold) => {
            let (piece, scheme) = (state.piece(), state.scheme());
            change_sheet(state, |sheet| add_fold(sheet, piece, &scheme, fold))?;
            // The new fold is shown being made.
            state.look.at = state.scheme().folds.len().saturating_sub(1) as f64;
        }
        Action::RemoveFold(i) => {
            let (piece, mut scheme) = (state.piece(), state.scheme());
            change_sheet(state, |sheet| {
                if i >= scheme.folds.len() {
                    return Err("There is no such fold.".into());
                }
                scheme.folds.remove(i);
                match piece {
                    Some(piece) => sheet.fold_piece(piece, scheme),
                    None => {
                        sheet.course.steps.folds.remove(i);
                        sheet.settle_slit()
                    }
                }
            })?;
        }
        Action::Slit { crease, after } => {
            let piece = state.piece();
            change_sheet(state, |sheet| slit(sheet, piece, crease, after))?;
            // Folding goes on with the first part.
            state.look.piece = Some(piece.unwrap_or(0) as u32);
            state.look.at = 0.0;
        }
        Action::JoinAgain => change_sheet(state, |sheet| {
            let scheme = sheet.trunk();
            sheet.take_course(Course::of_scheme(&scheme));
            Ok(())
        })?,
        Action::PutTogether(copies) => change_sheet(state, |sheet| {
            let course = Course { copies, ..sheet.course.clone() };
            Worked::in_the_making(&course).map_err(|why| sentence(&why.to_string()))?;
            sheet.course = course;
            Ok(())
        })?,
        Action::Head(head) => {
            let (piece, scheme) = (state.piece().unwrap_or(0), state.scheme());
            change_sheet(state, |sheet| {
                if scheme.folds.last().is_some_and(|f| (f.crease == Crease::Vertical) == head.is_sideways()) {
                    return Err("The head can't lie at the spine or the fore-edge.".into());
                }
                let whole = sheet.is_whole();
                let turned = sheet.making().and_then(|w| w.own_sheet(piece)).map_or((false, false), |own| own.turned);
                let head = if whole { head } else { head.mirrored(turned.0, turned.1) };
                if let Some(steps) = sheet.course.steps.piece_mut(piece) {
                    steps.end = End::Piece { head };
                }
                Ok(())
            })?;
        }
        Action::Reads(reads) => change_sheet(state, |sheet| {
            sheet.course.reads = reads;
            Ok(())
        })?,
        Action::Paper(paper) => change(state, |job| {
            job.sheets().try_for_each(|sheet| paper.check(sheet.leaf()))?;
            job.paper = paper;
            Ok(())
        })?,
        Action::Measure(measure) => {
            let kind = state.kind();
            change(state, |job| {
                let sheet = job.sheet_mut(kind);
                check_measure(&sheet.course, &measure).map_err(|says| sentence(&format!("the sizes {says}")))?;
                sheet.measure = measure;
                let leaf = sheet.leaf();
                job.paper.check(leaf)
            })?;
        }
        _ => {}
    }
    if !state.sheet().is_whole() {
        state.look.piece = state.look.piece.filter(|p| (*p as usize) < state.sheet().course.piece_count());
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
fn add_fold(sheet: &mut Sheet, piece: Option<usize>, scheme: &Scheme, fold: Fold) -> Result<(), String> {
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
        Some(piece) => sheet.fold_piece(piece, scheme),
        None if sheet.is_whole() => {
            sheet.course.steps = Steps::piece(scheme.folds, scheme.head);
            Ok(())
        }
        None => Err("The sheet is slit after these folds: take a piece on the bench, or join them again.".into()),
    }
}

/// Slits what is on the bench. Each part is a section of its own until it is put elsewhere.
fn slit(sheet: &mut Sheet, piece: Option<usize>, crease: Crease, after: u32) -> Result<(), String> {
    let worked = sheet.making();
    let number = piece.unwrap_or(0);
    let turned = worked.as_ref().and_then(|w| w.own_sheet(number)).filter(|_| piece.is_some());
    let (across, down) = turned.as_ref().map_or((false, false), |own| own.turned);
    let Some(steps) = sheet.course.steps.piece_mut(number) else { return Err("There is no such piece.".into()) };
    let End::Piece { head } = steps.end else { return Err("There is no such piece.".into()) };
    let size = {
        let base = turned.map_or_else(|| sheet.course.scheme(), |own| Some(own.scheme));
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
    if let Some(steps) = sheet.course.steps.piece_mut(number) {
        steps.end = End::Slit(Box::new(Slit { crease, after, then }));
    }
    sheet.settle_slit()
}

impl Sheet {
    /// Takes another course. Leaves keep the size of the first one they had.
    pub(super) fn take_course(&mut self, course: Course) {
        let leaf = self.leaf();
        if (course.rows, course.columns) != (self.course.rows, self.course.columns)
            || heads_lie_sideways(&course) != heads_lie_sideways(&self.course)
        {
            self.measure = measure_of_leaf(&course, leaf);
        }
        self.course = course;
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

impl Paper {
    /// Smaller leaves may have no room for what was cut off the larger ones.
    pub(in crate::app) fn fit(&mut self, leaf: (Length, Length)) {
        if self.check(leaf).is_err() {
            let zero = Length::ZERO;
            self.trims = Trims { head: zero, foot: zero, fore_edge: zero, bleed: zero };
            self.margins = Margins { back: zero, head: zero, fore_edge: zero, foot: zero };
        }
    }
}

/// The folds of each section of the book, and of one of another book.
#[derive(Clone, Debug)]
pub struct FoldsOf(Vec<usize>);

impl FoldsOf {
    /// Those of a job.
    #[must_use]
    pub fn new(job: &Job) -> Self {
        let mut of: BTreeMap<(Option<u32>, usize), usize> = BTreeMap::new();
        let folds = |section: u32| {
            let here = (job.kind(section), job.on_sheet(section));
            *of.entry(here).or_insert_with(|| job.scheme_of(section).map_or(0, |scheme| scheme.folds.len()))
        };
        Self((1..=job.sections.max(1)).map(folds).collect())
    }

    /// The folds of the section at a place of the stack. One of another book is taken for the first of this one.
    #[must_use]
    pub fn at(&self, placed: &Placed) -> usize {
        let section = match placed.what {
            What::Ours(section) => section.saturating_sub(1),
            What::Foreign => 0,
        };
        self.0.get(section as usize).copied().unwrap_or(0)
    }
}

/// Changes the sheet on the bench. Folds made by hand belong to the scheme they depart from; they go with it, in the same
/// change.
pub(super) fn change_sheet(state: &mut State, f: impl FnOnce(&mut Sheet) -> Result<(), String>) -> Result<(), String> {
    let kind = state.kind();
    change(state, |job| {
        job.tried = None;
        f(job.sheet_mut(kind))?;
        let leaf = job.sheet_of_kind(kind).leaf();
        job.paper.fit(leaf);
        job.check_otherwise()
    })
}

/// A fold that the scheme no longer has can't be made the other way. It belongs to the change before it, so that undo
/// brings both back.
pub(super) fn forget_lost_misfolds(state: &mut State) {
    let folds = FoldsOf::new(&state.job);
    let lost = |p: &Placed| p.misfold.is_some_and(|fold| fold as usize > folds.at(p));
    if state.job.stack.placed().iter().any(lost) {
        let placed: Vec<Placed> =
            state.job.stack.placed().iter().map(|p| Placed { misfold: p.misfold.filter(|_| !lost(p)), ..*p }).collect();
        let job = Rc::make_mut(&mut state.job);
        job.stack = Stack::try_from(placed).unwrap_or_else(|_| Stack::good(job.sections));
    }
}
