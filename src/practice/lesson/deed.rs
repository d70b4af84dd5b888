//! What is done on the bench.

use super::bench::OnBench;
use crate::fold::misfold::Cause;
use crate::fold::{Fold, Folding};
use crate::gather::{Fault, retold};
use crate::marks::Found;

/// What is done in a step.
#[derive(Clone, Debug, PartialEq)]
pub enum Deed {
    /// A fold is made.
    Make(Fold),
    /// The last fold is undone.
    Undo,
    /// The next step of a course is done: slit pieces are folded together.
    Step,
    /// What lies there is turned over, left to right.
    TurnOver,
    /// A page is followed.
    Follow(u32),
    /// The section is opened before this leaf, from 1; closed at 0.
    OpenAt(u32),
    /// A right book of so many sections is laid out, whatever lies there.
    Gather(u32),
    /// The book is spoiled.
    Spoil(Fault),
    /// A fault is named.
    Name(Fault),
    /// A cause is named.
    NameCause(Cause),
    /// An open sheet is looked at for its lay ticks. What was named before is open again.
    Look,
    /// A book of the run is opened.
    Open(u32),
    /// It is said how many books of the run are held.
    Hold(u32),
}

impl OnBench {
    /// Does something. What can't be done changes nothing.
    #[must_use]
    pub fn after(&self, deed: &Deed) -> Self {
        let mut next = self.clone();
        match deed {
            Deed::Make(fold) => {
                let can = Folding::of(&self.folded()).is_ok_and(|f| f.stopped.is_none() && f.try_fold(fold).is_ok());
                if can {
                    next.made.push(*fold);
                }
            }
            Deed::Undo => {
                next.made.pop();
            }
            Deed::Step => next.done = (self.done + 1).min(self.course_steps()),
            Deed::TurnOver => next.turned_over = !self.turned_over,
            Deed::Follow(page) => next.followed = Some(*page),
            Deed::OpenAt(leaf) => next.open_at = *leaf,
            Deed::Gather(sections) => {
                next.sections = (*sections).min(crate::marks::MOST_SECTIONS);
                next.row = (1..=next.sections).map(Found::right).collect();
                next.named = None;
            }
            Deed::Spoil(fault) => {
                next.row = retold(self.sections, &[*fault]);
                next.named = None;
            }
            Deed::Name(fault) => next.named = Some(*fault),
            Deed::NameCause(cause) => {
                next.named_causes.retain(|named| named != cause);
                next.named_causes.push(cause.clone());
            }
            Deed::Look if self.ticks.is_some() => {
                next.looked = true;
                next.named_causes.clear();
            }
            Deed::Look => {}
            Deed::Open(book) => {
                if let Some(run) = &mut next.run {
                    run.open(*book);
                }
            }
            Deed::Hold(books) => next.held = Some(*books),
        }
        next
    }
}
