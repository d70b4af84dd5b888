//! What lies on the bench, as far as lessons look at it.

use crate::fold::misfold::{Cause, act_out};
use crate::fold::{Fold, Folding, Landing, Scheme};
use crate::gather::{Fault, explain, retold};
use crate::marks::Found;

/// What lies on the bench. A program of any kind can fill it in.
#[derive(Clone, Debug, PartialEq)]
pub struct OnBench {
    /// The sheet as it is printed: its layout is that of this scheme.
    pub printed: Scheme,
    /// The folds that were really made.
    pub made: Vec<Fold>,
    /// Whether the packet, or the sheet, was turned over.
    pub turned_over: bool,
    /// The page that is followed.
    pub followed: Option<u32>,
    /// The leaf at which the folded section is open, from 1; 0 while it is closed.
    pub open_at: u32,
    /// Sections of the book on the bench; 0 for none.
    pub sections: u32,
    /// The backs of that book, front to back.
    pub row: Vec<Found>,
    /// What was said to be wrong with the book.
    pub named: Option<Fault>,
    /// What was said to have been done to the sheet.
    pub named_cause: Option<Cause>,
}

/// What is done in a step.
#[derive(Clone, Debug, PartialEq)]
pub enum Deed {
    /// A fold is made.
    Make(Fold),
    /// The last fold is undone.
    Undo,
    /// What lies there is turned over, left to right.
    TurnOver,
    /// A page is followed.
    Follow(u32),
    /// The section is opened before this leaf, from 1.
    OpenAt(u32),
    /// A right book of so many sections is laid out.
    Gather(u32),
    /// The book is spoiled.
    Spoil(Fault),
    /// A fault is named.
    Name(Fault),
    /// A cause is named.
    NameCause(Cause),
}

/// What has to have come about.
#[derive(Clone, Debug, PartialEq)]
pub enum Goal {
    /// So many folds are made.
    Folds(usize),
    /// The sheet lies open, with this side of it down if it was turned over.
    Open {
        /// Whether it was turned over.
        turned_over: bool,
    },
    /// This page is seen on top of the packet.
    OnTop(u32),
    /// This page is on the outside of the packet, above or beneath.
    Outside(u32),
    /// The folded section reads in order.
    InOrder,
    /// The folded section is one page large and does not read in order.
    OutOfOrder,
    /// This page is followed.
    Followed(u32),
    /// The section is open so that these two pages face each other.
    Facing([u32; 2]),
    /// A right book of so many sections lies there.
    RightBook(u32),
    /// A book lies there that is not right.
    WrongBook,
    /// What was named explains the book with the fewest faults.
    Explained,
    /// What was named makes the section that was folded.
    CauseFits,
}

impl OnBench {
    /// A sheet, flat, with nothing else.
    #[must_use]
    pub const fn sheet(printed: Scheme) -> Self {
        Self {
            printed,
            made: Vec::new(),
            turned_over: false,
            followed: None,
            open_at: 0,
            sections: 0,
            row: Vec::new(),
            named: None,
            named_cause: None,
        }
    }

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
            Deed::TurnOver => next.turned_over = !self.turned_over,
            Deed::Follow(page) => next.followed = Some(*page),
            Deed::OpenAt(leaf) => next.open_at = *leaf,
            Deed::Gather(sections) => {
                next.sections = (*sections).min(crate::marks::MOST_SECTIONS);
                next.row = (1..=next.sections).map(Found::right).collect();
            }
            Deed::Spoil(fault) => next.row = retold(self.sections, &[*fault]),
            Deed::Name(fault) => next.named = Some(*fault),
            Deed::NameCause(cause) => next.named_cause = Some(cause.clone()),
        }
        next
    }

    /// The sheet with the folds that were made.
    fn folded(&self) -> Scheme {
        Scheme { folds: self.made.clone(), ..self.printed.clone() }
    }

    /// The pages from front to back, if it is folded down to a page.
    #[must_use]
    pub fn reads(&self) -> Option<Vec<u32>> {
        let numbers = Landing::of(&self.printed).ok()?;
        let lies = Landing::of(&self.folded()).ok()?;
        lies.pages.iter().map(|p| numbers.page_on(&p.face)).collect()
    }

    /// The pages on top of the packet and beneath it.
    fn outsides(&self) -> Option<[Vec<u32>; 2]> {
        let numbers = Landing::of(&self.printed).ok()?;
        let folding = Folding::of(&self.folded()).ok().filter(|f| f.stopped.is_none())?;
        let last = folding.last();
        let pages = |faces: Vec<Vec<Option<crate::fold::Face>>>| -> Vec<u32> {
            faces.into_iter().flatten().flatten().filter_map(|f| numbers.page_on(&f)).collect()
        };
        let (top, beneath) = (pages(last.uppermost()), pages(last.undermost()));
        Some(if self.turned_over { [beneath, top] } else { [top, beneath] })
    }
}

impl Goal {
    /// Whether it is reached.
    #[must_use]
    pub fn reached(&self, bench: &OnBench) -> bool {
        match self {
            Self::Folds(count) => bench.made.len() == *count,
            Self::Open { turned_over } => bench.made.is_empty() && bench.turned_over == *turned_over,
            Self::OnTop(page) => !bench.made.is_empty() && bench.outsides().is_some_and(|[top, _]| top.contains(page)),
            Self::Outside(page) => {
                !bench.made.is_empty() && bench.outsides().is_some_and(|sides| sides.iter().any(|s| s.contains(page)))
            }
            Self::InOrder => bench.reads().is_some_and(|pages| (1..).zip(&pages).all(|(k, page)| k == *page)),
            Self::OutOfOrder => bench.reads().is_some_and(|pages| (1..).zip(&pages).any(|(k, page)| k != *page)),
            Self::Followed(page) => bench.followed == Some(*page),
            Self::Facing([left, right]) => bench.reads().is_some_and(|pages| {
                let at = (bench.open_at as usize).saturating_mul(2);
                at >= 2 && pages.get(at - 1) == Some(left) && pages.get(at) == Some(right)
            }),
            Self::RightBook(sections) => {
                let right = |(k, back): (u32, &Found)| *back == Found::right(k);
                bench.sections == *sections && bench.row.len() == *sections as usize && (1..).zip(&bench.row).all(right)
            }
            Self::WrongBook => explain(bench.sections, &bench.row).is_ok_and(|e| !e.right()),
            Self::Explained => bench.named.as_ref().is_some_and(|fault| {
                explain(bench.sections, &bench.row).is_ok_and(|e| {
                    e.explanations.iter().any(|e| {
                        e.faults.as_slice() == [*fault] || e.same_order_as.iter().any(|f| f.as_slice() == [*fault])
                    })
                })
            }),
            Self::CauseFits => bench.named_cause.as_ref().is_some_and(|cause| {
                let Some(pages) = bench.reads() else { return false };
                act_out(&bench.printed, 1, cause)
                    .is_ok_and(|acted| acted.pages.iter().map(|f| f.page).eq(pages.iter().map(|p| Some(*p))))
            }),
        }
    }
}
