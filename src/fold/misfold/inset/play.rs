//! What happened, acted out on the row of pages.

use super::half::half_sheet;
use super::plan::{Plan, SheetOf, upright};
use super::stranger::{Beside, Happened, Second, Stranger};
use crate::fold::Direction;
use crate::fold::misfold::{Acted, Cause, FoldAt, FoundPage, Lies, Mark, NotExplained, act_out};
use thiserror::Error;

/// Sections before this one that a sheet is counted from, so that no number of a section further back falls below 1.
const BASE: i64 = 300_000;

/// What comes of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Outcome {
    /// The pages from front to back.
    pub row: Vec<FoundPage>,
    /// The edge where the last fold is found.
    pub fold_at: FoldAt,
    /// What is seen of the back mark on the back.
    pub mark: Mark,
    /// How the sheet is laid and folded, where that is the whole of it.
    pub way: Option<Acted>,
}

/// Why something can't be acted out.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum NotPlayed {
    /// The engine refuses a cause.
    #[error("{0}")]
    Sheet(#[from] NotExplained),
    /// A stranger that does not fit this section.
    #[error("{0}")]
    Stranger(String),
}

fn refused<T>(says: impl Into<String>) -> Result<T, NotPlayed> {
    Err(NotPlayed::Stranger(says.into()))
}

/// Acts out what happened to a section.
///
/// # Errors
/// When a cause names folds, leaves or pages that are not there, or an inset where there is none.
pub fn play(plan: &Plan, happened: &Happened) -> Result<Outcome, NotPlayed> {
    let mut sheet: [Vec<Cause>; 2] = [Vec::new(), Vec::new()];
    let (mut strangers, mut lies) = (Vec::new(), Vec::new());
    // A section that holds more than its own sheet is turned as a whole, last of all.
    let beyond = plan.has_inset() || happened.parts().iter().any(|part| matches!(part, Happened::Stranger(_)));
    for part in happened.parts() {
        match part {
            Happened::Sheet(Cause::SectionLies { lies: how }) if beyond => lies.push(how),
            Happened::Sheet(cause) => sheet[0].push(cause),
            Happened::Stranger(Stranger::OuterSheet { cause }) => sheet[0].extend(cause.singles().into_iter().cloned()),
            Happened::Stranger(Stranger::InsetSheet { cause }) => sheet[1].extend(cause.singles().into_iter().cloned()),
            Happened::Stranger(stranger) => strangers.push(stranger),
            Happened::Together(_) => {}
        }
    }
    let inset = strangers.iter().any(Stranger::about_inset) || !sheet[1].is_empty();
    if inset && !plan.has_inset() {
        return refused("this section has no inset");
    }
    if let Some(half) = half(plan, &strangers)? {
        let Acted { pages, fold_at, mark, .. } = half.clone();
        let alone = happened.parts().len() == 1 && !plan.has_inset();
        return if alone {
            Ok(Outcome { row: pages, fold_at, mark, way: Some(half) })
        } else {
            refused("a half sheet backed up wrong is acted out alone")
        };
    }
    let [on_outer, on_inset] = sheet;
    let outer = acted(plan, SheetOf::Outer, on_outer)?;
    let inset = if plan.has_inset() { Some(acted(plan, SheetOf::Inset, on_inset)?) } else { None };
    let mut hands = Hands { plan, outer, inset };
    let mut outcome = hands.assemble(&strangers)?;
    for stranger in &strangers {
        outcome.tuck(plan, stranger)?;
    }
    for how in lies {
        lie(&mut outcome.row, how);
        (outcome.fold_at, outcome.mark) = match (how, outcome.mark) {
            (Lies::HeadToTail, Mark::Shows) => (outcome.fold_at, Mark::Mirrored),
            (Lies::HeadToTail, Mark::Mirrored) => (outcome.fold_at, Mark::Shows),
            (Lies::HeadToTail, Mark::Blank) => (outcome.fold_at, Mark::Blank),
            _ => (FoldAt::ForeEdge, Mark::Blank),
        };
    }
    Ok(outcome)
}

fn half(plan: &Plan, strangers: &[Stranger]) -> Result<Option<Acted>, NotPlayed> {
    let half = strangers.iter().find_map(|s| match s {
        Stranger::HalfSheet { forme, was } => Some(half_sheet(plan, *forme, *was)),
        _ => None,
    });
    Ok(half.transpose()?)
}

/// Lays a row of pages so.
pub(in crate::fold::misfold) fn lie(row: &mut [FoundPage], lies: Lies) {
    if lies != Lies::TurnedInPlane {
        row.reverse();
    }
    if lies != Lies::SideToSide {
        for page in row {
            page.head = page.head.map(Direction::opposite);
        }
    }
}

/// A sheet as it was folded.
struct Folded {
    row: Vec<FoundPage>,
    fold_at: FoldAt,
    mark: Mark,
    way: Option<Acted>,
}

fn acted(plan: &Plan, which: SheetOf, mut causes: Vec<Cause>) -> Result<Folded, NotPlayed> {
    let right = || Folded { row: plan.row(which, 0), fold_at: FoldAt::Spine, mark: Mark::Shows, way: None };
    let cause = match causes.len() {
        0 => return Ok(right()),
        1 => causes.remove(0),
        _ => Cause::Together { causes },
    };
    let Some(scheme) = plan.scheme(which) else { return refused("this section has no inset") };
    if !plan.has_inset() {
        let first = u32::try_from(plan.first()).map_err(|_| NotExplained::FirstPage(u32::MAX))?;
        let way = act_out(scheme, first, &cause)?;
        return Ok(Folded { row: way.pages.clone(), fold_at: way.fold_at, mark: way.mark, way: Some(way) });
    }
    let Some(local) = cause_within(plan, which, &cause) else {
        return refused("these pages are not on that sheet");
    };
    let mut way = act_out(scheme, base(plan, which), &local)?;
    let outside = |number: u32| printed(plan, which, number);
    for page in &mut way.pages {
        page.page = page.page.and_then(outside);
    }
    for sheet in std::iter::once(&mut way.sheet).chain(way.under.as_mut()) {
        for cell in sheet.side_a.iter_mut().chain(&mut sheet.side_b).flatten().flatten() {
            cell.page = outside(cell.page).unwrap_or(cell.page);
        }
    }
    Ok(Folded { row: way.pages.clone(), fold_at: way.fold_at, mark: way.mark, way: Some(way) })
}

/// The number that the first page of a sheet has when the sheet is counted for itself.
pub(super) fn base(plan: &Plan, which: SheetOf) -> u32 {
    u32::try_from(BASE * plan.pages_of(which) + 1).unwrap_or(1)
}

/// A number printed in the section, from one counted for a sheet itself.
pub(super) fn printed(plan: &Plan, which: SheetOf, counted: u32) -> Option<u32> {
    plan.number(which, i64::from(counted) - BASE * plan.pages_of(which))
}

/// A number counted for a sheet itself, from the one printed; `None` where that is on the other sheet.
pub(super) fn counted(plan: &Plan, which: SheetOf, printed: u32) -> Option<u32> {
    let (on, page) = plan.page(printed);
    if on != which {
        return None;
    }
    u32::try_from(page + BASE * plan.pages_of(which)).ok()
}

/// The same cause with its pages counted for the sheet itself.
fn cause_within(plan: &Plan, which: SheetOf, cause: &Cause) -> Option<Cause> {
    with_pages(cause, &|page| counted(plan, which, page))
}

/// The same cause with other page numbers.
pub(super) fn with_pages(cause: &Cause, number: &dyn Fn(u32) -> Option<u32>) -> Option<Cause> {
    Some(match cause {
        Cause::PagesExchanged { pages: [a, b] } => Cause::PagesExchanged { pages: [number(*a)?, number(*b)?] },
        Cause::PageHeadDown { page } => Cause::PageHeadDown { page: number(*page)? },
        Cause::Together { causes } => {
            Cause::Together { causes: causes.iter().map(|c| with_pages(c, number)).collect::<Option<_>>()? }
        }
        other => other.clone(),
    })
}

/// The sheets in hand, before one is laid into the other.
struct Hands<'a> {
    plan: &'a Plan,
    outer: Folded,
    inset: Option<Folded>,
}

impl Hands<'_> {
    /// Lays the inset in, as it was really done.
    fn assemble(&mut self, strangers: &[Stranger]) -> Result<Outcome, NotPlayed> {
        let Some(inset) = self.inset.take() else {
            let Folded { row, fold_at, mark, way } = std::mem::replace(
                &mut self.outer,
                Folded { row: vec![], fold_at: FoldAt::Spine, mark: Mark::Blank, way: None },
            );
            return Ok(Outcome { row, fold_at, mark, way });
        };
        let plan = self.plan;
        let mut leaf = inset.row;
        let mut outcome = Outcome {
            row: self.outer.row.clone(),
            fold_at: self.outer.fold_at,
            mark: self.outer.mark,
            way: self.outer.way.take().or(inset.way),
        };
        let middle = |row: &[FoundPage], which: SheetOf| {
            let right = plan.pages_of(which).max(1) as usize;
            (row.len() / right).max(1) * plan.middle_of(which) as usize
        };
        let mut at = middle(&outcome.row, SheetOf::Outer);
        for stranger in strangers {
            match stranger {
                Stranger::InsetLeftOut => leaf.clear(),
                Stranger::OuterLeftOut => {
                    outcome.row.clear();
                    outcome.mark = Mark::Blank;
                    at = 0;
                }
                Stranger::InsetOfOtherSection { section_offset } => {
                    leaf = plan.row(SheetOf::Inset, i64::from(*section_offset))
                }
                Stranger::InsetTwice { second } => {
                    let again = leaf.clone();
                    let place = if *second == Second::Inside { middle(&leaf, SheetOf::Inset) } else { leaf.len() };
                    insert(&mut leaf, place, again);
                }
                Stranger::InsetLies { lies } => lie(&mut leaf, *lies),
                Stranger::InsetOutside => {
                    let place = middle(&leaf, SheetOf::Inset);
                    let inside = std::mem::take(&mut outcome.row);
                    insert(&mut leaf, place, inside);
                    outcome.mark = Mark::Blank;
                    at = 0;
                }
                Stranger::InsetBeside { place: Beside::Before, .. } => at = 0,
                Stranger::InsetBeside { place: Beside::Behind, .. } => at = outcome.row.len(),
                Stranger::InsetBeside { place: Beside::AmongLeaves, after } => {
                    at = 2 * after.unwrap_or(0) as usize;
                    if at == 0 || at >= outcome.row.len() {
                        return refused("the inset lies behind a leaf of the outer sheet, and not behind its last");
                    }
                }
                _ => {}
            }
        }
        insert(&mut outcome.row, at, leaf);
        Ok(outcome)
    }
}

fn insert(row: &mut Vec<FoundPage>, at: usize, what: Vec<FoundPage>) {
    let at = at.min(row.len());
    row.splice(at..at, what);
}

impl Outcome {
    /// Does what a stranger does to the finished row.
    fn tuck(&mut self, plan: &Plan, stranger: &Stranger) -> Result<(), NotPlayed> {
        let offset = i64::from(stranger.offset());
        let [first, end] = [1, plan.pages() / 2].map(|leaf| u32::try_from(leaf).unwrap_or(0));
        let there = |leaf: u32| (first..=end).contains(&leaf);
        let of = |leaf: u32| -> Option<Vec<FoundPage>> {
            let from = plan.first() + offset * plan.pages() + 2 * i64::from(leaf) - 2;
            [from, from + 1].into_iter().map(|n| upright(u32::try_from(n).ok().filter(|n| *n > 0))).collect()
        };
        let spot = |leaf: u32| 2 * (leaf as usize - 1)..2 * leaf as usize;
        let bad = || format!("leaves are numbered from 1 to {end}, and pages from 1");
        match stranger {
            Stranger::OtherSection { .. } | Stranger::LanesMixed { .. } => {
                for page in &mut self.row {
                    if let Some(number) = page.page {
                        let moved = u32::try_from(i64::from(number) + offset * plan.pages()).ok().filter(|n| *n > 0);
                        page.page = Some(moved.ok_or_else(|| NotPlayed::Stranger(bad()))?);
                    }
                }
            }
            Stranger::LeafOfOtherSection { leaf, from_leaf, .. } => {
                let from = from_leaf.unwrap_or(*leaf);
                let (true, true, Some(pages)) = (there(*leaf), there(from), of(from)) else { return refused(bad()) };
                self.replace(spot(*leaf), pages);
            }
            Stranger::PairOfOtherSection { leaves: [a, b], .. } => {
                let (true, true, Some(one), Some(other)) = (there(*a), there(*b), of(*a), of(*b)) else {
                    return refused(bad());
                };
                self.replace(spot(*a), one);
                self.replace(spot(*b), other);
            }
            Stranger::LeafTuckedIn { after, from_leaf, .. } => {
                let (true, Some(pages)) = (there(*from_leaf) && *after <= end, of(*from_leaf)) else {
                    return refused(bad());
                };
                insert(&mut self.row, 2 * *after as usize, pages);
            }
            Stranger::PairTuckedIn { after: [a, b], from_leaves: [one, other], .. } => {
                let (true, Some(front), Some(back)) = (there(*one) && there(*other), of(*one), of(*other)) else {
                    return refused(bad());
                };
                if a > b || *b > end {
                    return refused(bad());
                }
                insert(&mut self.row, 2 * *b as usize, back);
                insert(&mut self.row, 2 * *a as usize, front);
            }
            Stranger::LeafMissing { leaf } => {
                if !there(*leaf) {
                    return refused(bad());
                }
                self.replace(spot(*leaf), vec![]);
            }
            Stranger::PairMissing { leaves: [a, b] } => {
                if !there(*a) || !there(*b) || a >= b {
                    return refused(bad());
                }
                self.replace(spot(*b), vec![]);
                self.replace(spot(*a), vec![]);
            }
            _ => return Ok(()),
        }
        self.way = None;
        Ok(())
    }

    fn replace(&mut self, at: std::ops::Range<usize>, with: Vec<FoundPage>) {
        let len = self.row.len();
        self.row.splice(at.start.min(len)..at.end.min(len), with);
    }
}
