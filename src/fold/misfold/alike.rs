//! Look-alikes: which single causes make the same section, so that its pages alone can't tell them apart.

use super::acted::Bench;
use super::cause::{Cause, Lies, Mark};
use super::explain::{FoldAt, FoundPage, NotExplained};
use crate::fold::{Crease, Scheme, Side};
use serde::Serialize;

/// Causes that make the same pages, the fold lying at the same edge.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Alike {
    /// The causes, the one that is looked at first at the front.
    pub causes: Vec<Cause>,
    /// The pages found from front to back.
    pub pages: Vec<FoundPage>,
    /// The edge where the last fold is found.
    pub fold_at: FoldAt,
    /// What is seen of the back mark on the back.
    pub mark: Mark,
    /// Whether the cause is one example of a fault that any page, or any two, may have.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub example: bool,
}

/// What every single cause does to one scheme.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Alikes {
    /// The wrong sections that there are.
    pub groups: Vec<Alike>,
    /// Causes that leave the section right.
    pub no_harm: Vec<Cause>,
}

/// Acts out every single cause, and puts those together that make the same section. A cause that stands for several
/// acts (either forme turned, the next section or the one before) is in several groups.
///
/// # Errors
/// When the scheme gives no section or too large a one, or page numbers would leave what a number can hold.
pub fn look_alikes(scheme: &Scheme, first_page: u32) -> Result<Alikes, NotExplained> {
    let bench = Bench::of(scheme, first_page)?;
    let right: Vec<FoundPage> = bench.right();
    let mut alikes = Alikes { groups: Vec::new(), no_harm: Vec::new() };
    let folds = u32::try_from(scheme.folds.len()).unwrap_or(u32::MAX);
    for cause in singles(folds, first_page) {
        for found in bench.found(&cause)? {
            let example = matches!(cause, Cause::PagesExchanged { .. } | Cause::PageHeadDown { .. });
            let same = |g: &&mut Alike| (g.fold_at, &g.pages, g.example) == (found.fold_at, &found.pages, example);
            if found.fold_at == FoldAt::Spine && found.pages == right {
                if !alikes.no_harm.contains(&cause) {
                    alikes.no_harm.push(cause.clone());
                }
            } else if let Some(group) = alikes.groups.iter_mut().find(same) {
                if !group.causes.contains(&cause) {
                    group.causes.push(cause.clone());
                }
            } else {
                let (pages, fold_at, mark) = (found.pages, found.fold_at, found.mark);
                alikes.groups.push(Alike { causes: vec![cause.clone()], pages, fold_at, mark, example });
            }
        }
    }
    Ok(alikes)
}

/// Every single cause, in the order in which they are looked at; one example of the faults of single pages.
fn singles(folds: u32, first_page: u32) -> Vec<Cause> {
    let mut causes: Vec<Cause> = (1..=folds)
        .flat_map(|fold| [Cause::FoldOtherWay { fold }, Cause::FoldFromOtherEdge { fold }])
        .chain([Crease::Vertical, Crease::Horizontal].map(|about| Cause::SheetTurnedOver { about }))
        .chain([Lies::HeadToTail, Lies::TurnedInPlane, Lies::SideToSide].map(|lies| Cause::SectionLies { lies }))
        .chain([Side::A, Side::B].map(|side| Cause::SecondSideBlank { side }))
        .chain([Cause::SheetEndForEnd, Cause::DoubleSheet, Cause::SecondSideTurnedRound, Cause::WrongSecondSide])
        .collect();
    // Pages 2 and 3 face each other, on one forme wherever folds halve the packet.
    causes.push(Cause::PageHeadDown { page: first_page + 1 });
    causes.push(Cause::PagesExchanged { pages: [first_page + 1, first_page + 2] });
    causes.sort_by_key(Cause::order);
    causes
}
