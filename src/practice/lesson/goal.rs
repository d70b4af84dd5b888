//! What has to have come about.

use super::bench::{OnBench, Ticks};
use crate::fold::Showing;
use crate::fold::misfold::Cause;
use crate::gather::{Fault, explain, retold};
use crate::marks::Found;

/// What has to have come about.
#[derive(Clone, Debug, PartialEq)]
pub enum Goal {
    /// So many folds are made.
    Folds(usize),
    /// So many steps of the course are done.
    Steps(usize),
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
    /// The folded section reads as one to which this was done, whatever was really done.
    ReadsAs(Cause),
    /// The back mark stands on the spine.
    MarkOnSpine,
    /// This page is followed.
    Followed(u32),
    /// The section is open so that these two pages face each other.
    Facing([u32; 2]),
    /// A right book of so many sections lies there.
    RightBook(u32),
    /// A book lies there as this fault makes it.
    BookWith(Fault),
    /// What was named explains the book with the fewest faults.
    Explained,
    /// So many of the causes that were named make the section that was folded.
    CausesFit(usize),
    /// The lay ticks were looked at.
    Looked,
    /// The cause that was named last makes the section, and goes with where the lay ticks lie.
    Proven,
    /// A good book and a wrong one of the run lie side by side, and both were opened.
    Bracketed,
    /// As many books are held as are wrong.
    HeldAll,
}

impl Goal {
    /// Whether it is reached.
    #[must_use]
    pub fn reached(&self, bench: &OnBench) -> bool {
        match self {
            Self::Folds(count) => bench.made.len() == *count,
            Self::Steps(count) => bench.done == *count && bench.open_at == 0,
            Self::Open { turned_over } => bench.made.is_empty() && bench.turned_over == *turned_over,
            Self::OnTop(page) => !bench.made.is_empty() && bench.outsides().is_some_and(|[top, _]| top.contains(page)),
            Self::Outside(page) => {
                !bench.made.is_empty() && bench.outsides().is_some_and(|sides| sides.iter().any(|s| s.contains(page)))
            }
            Self::InOrder => bench.reads().is_some_and(|pages| (1..).zip(&pages).all(|(k, page)| k == *page)),
            Self::ReadsAs(cause) => bench.is_made_by(cause),
            Self::MarkOnSpine => bench.back_mark() == Some(Showing::OnSpine),
            Self::Followed(page) => bench.followed == Some(*page),
            Self::Facing(pages) => bench.facing() == Some(*pages),
            Self::RightBook(sections) => {
                let right = |(k, back): (u32, &Found)| *back == Found::right(k);
                bench.sections == *sections && bench.row.len() == *sections as usize && (1..).zip(&bench.row).all(right)
            }
            Self::BookWith(fault) => bench.row == retold(bench.sections, &[*fault]),
            Self::Explained => bench.named.as_ref().is_some_and(|fault| {
                explain(bench.sections, &bench.row).is_ok_and(|e| {
                    e.explanations.iter().any(|e| {
                        e.faults.as_slice() == [*fault] || e.same_order_as.iter().any(|f| f.as_slice() == [*fault])
                    })
                })
            }),
            Self::CausesFit(count) => bench.named_causes.iter().filter(|c| bench.is_made_by(c)).count() >= *count,
            Self::Looked => bench.looked,
            Self::Proven => bench.named_causes.last().is_some_and(|cause| {
                bench.looked && bench.is_made_by(cause) && bench.ticks.is_some_and(|ticks| goes_with(cause, ticks))
            }),
            Self::Bracketed => bench.run.as_ref().is_some_and(super::Run::closed),
            Self::HeldAll => bench.run.as_ref().is_some_and(|run| bench.held == Some(run.to_hold())),
        }
    }
}

/// Whether lay ticks can lie so if this was done: a sheet that was laid in another way has them at other edges, and one
/// that was folded another way has them where they should be.
pub(super) fn goes_with(cause: &Cause, ticks: Ticks) -> bool {
    let fed = matches!(cause, Cause::SheetTurnedOver { .. } | Cause::SheetEndForEnd);
    fed == (ticks == Ticks::Elsewhere)
}
