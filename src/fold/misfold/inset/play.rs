//! What happened, acted out on the row of pages.

use super::drawn::{LeafOf, PieceOf, Row, leaves_of, lying};
use super::half::half_sheet;
use super::plan::{Plan, SheetOf, upright};
use super::stranger::{Beside, Happened, Second, Stranger};
use crate::fold::Direction;
use crate::fold::misfold::acted::rightly;
use crate::fold::misfold::{Acted, Cause, FoldAt, FoundPage, Lies, Mark, NotExplained, act_out};
use thiserror::Error;

/// Sections before this one that a sheet is counted from, so that no number of a section further back falls below 1.
const BASE: i64 = 300_000;

/// What comes of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Outcome {
    /// The pages from front to back.
    pub row: Row,
    /// The pieces that it is put together of, where a picture is wanted.
    pub pieces: Vec<PieceOf>,
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
    played(plan, &happened.parts(), false)?.into_iter().next().ok_or_else(no_way)
}

/// The same in every way that it stands for, which are several for a half sheet only.
pub(super) fn each_way(plan: &Plan, happened: &Happened) -> Result<Vec<Outcome>, NotPlayed> {
    played(plan, &happened.parts(), false)
}

/// The same, in each way, with the leaves and the pieces for a picture. Nothing that happened gives the right section.
///
/// # Errors
/// As [`play`].
pub(in crate::fold::misfold) fn draw(plan: &Plan, parts: &[Happened]) -> Result<Vec<Outcome>, NotPlayed> {
    played(plan, parts, true)
}

fn no_way() -> NotPlayed {
    NotPlayed::Stranger("the sheet of this section can't be backed up so".into())
}

fn played(plan: &Plan, parts: &[Happened], draw: bool) -> Result<Vec<Outcome>, NotPlayed> {
    let mut sheet: [Vec<Cause>; 2] = [Vec::new(), Vec::new()];
    let (mut strangers, mut lies) = (Vec::new(), Vec::new());
    // A section that holds more than its own sheet is turned as a whole, last of all.
    let beyond = plan.has_inset() || parts.iter().any(|part| matches!(part, Happened::Stranger(_)));
    for part in parts.iter().cloned() {
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
    if strangers.iter().any(|s| matches!(s, Stranger::HalfSheet { .. })) {
        return if parts.len() == 1 {
            halves(plan, &strangers, draw)
        } else {
            refused("a half sheet backed up wrong is acted out alone")
        };
    }
    let [on_outer, on_inset] = sheet;
    let outer = acted(plan, SheetOf::Outer, on_outer, draw)?;
    let inset = if plan.has_inset() { Some(acted(plan, SheetOf::Inset, on_inset, draw)?) } else { None };
    let mut outcome = Hands { plan, outer, inset, draw }.assemble(&strangers)?;
    for stranger in &strangers {
        outcome.tuck(plan, stranger, draw)?;
    }
    for how in lies {
        outcome.row.lie(how);
        outcome.pieces.iter_mut().for_each(|piece| piece.lies = lying(piece.lies, how));
        (outcome.fold_at, outcome.mark) = match (how, outcome.mark) {
            (Lies::HeadToTail, Mark::Shows) => (outcome.fold_at, Mark::Mirrored),
            (Lies::HeadToTail, Mark::Mirrored) => (outcome.fold_at, Mark::Shows),
            (Lies::HeadToTail, Mark::Blank) => (outcome.fold_at, Mark::Blank),
            _ => (FoldAt::ForeEdge, Mark::Blank),
        };
    }
    if draw {
        let leaves = &outcome.row.leaves;
        outcome.pieces.retain(|piece| leaves.iter().any(|leaf| leaf.piece == piece.number));
    }
    Ok(vec![outcome])
}

/// What half sheets do that are backed up wrong: those of the whole sheet where it is known, and the pages of other
/// sections of the sheet with them.
fn halves(plan: &Plan, strangers: &[Stranger], draw: bool) -> Result<Vec<Outcome>, NotPlayed> {
    let mut outcomes = Vec::new();
    for stranger in strangers {
        let Stranger::HalfSheet { forme, was } = *stranger else { continue };
        if let Some(known) = plan.halves() {
            for half in known.half(forme, was) {
                let right = if draw { self::draw(plan, &[])? } else { Vec::new() };
                let leaves = right.into_iter().next().map(|right| right.row.leaves).unwrap_or_default();
                let row = Row { pages: half.pages.clone(), leaves };
                let (mark, way) = (half.mark, half.way.clone());
                outcomes.push(Outcome { row, pieces: Vec::new(), fold_at: FoldAt::Spine, mark, way });
            }
        } else if plan.has_inset() {
            return refused("a half sheet backed up wrong is acted out on one piece, unless its whole sheet is known");
        } else {
            let half = half_sheet(plan, forme, was)?;
            let leaves = if draw { leaves_of(&half.folded, 1, FoldAt::Spine, false) } else { Vec::new() };
            let row = Row { pages: half.pages.clone(), leaves };
            let (fold_at, mark) = (half.fold_at, half.mark);
            outcomes.push(Outcome { row, pieces: Vec::new(), fold_at, mark, way: Some(half) });
        }
    }
    Ok(outcomes)
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
    row: Row,
    fold_at: FoldAt,
    mark: Mark,
    way: Option<Acted>,
    /// The sheet for a picture, where one is wanted and nothing is wrong with it.
    drawn: Option<Acted>,
}

impl Folded {
    fn nothing() -> Self {
        Self { row: Row::default(), fold_at: FoldAt::Spine, mark: Mark::Blank, way: None, drawn: None }
    }

    /// The sheet as a piece of the section.
    fn piece(&self, number: u32, which: SheetOf) -> Option<PieceOf> {
        let acted = self.way.clone().or_else(|| self.drawn.clone())?;
        Some(PieceOf { number, which, section_offset: 0, acted, lies: None })
    }
}

/// The numbers of the pieces of a section: the sheets as they belong, then what else is laid in.
const OUTER: u32 = 1;
const INSET: u32 = 2;
const CORE: u32 = 3;
const SECOND: u32 = 4;
const SECOND_CORE: u32 = 5;
const STRANGER: u32 = 6;

fn number_of(which: SheetOf) -> u32 {
    match which {
        SheetOf::Outer => OUTER,
        SheetOf::Inset => INSET,
        SheetOf::Core => CORE,
    }
}

/// The leaves of a sheet as it was folded.
fn drawn_leaves(way: &Acted, which: SheetOf) -> Vec<LeafOf> {
    leaves_of(&way.folded, number_of(which), way.fold_at, way.under.is_some())
}

fn acted(plan: &Plan, which: SheetOf, mut causes: Vec<Cause>, draw: bool) -> Result<Folded, NotPlayed> {
    let Some(scheme) = plan.scheme(which) else { return refused("this section has no inset") };
    let cause = match causes.len() {
        0 => {
            let mut right = Folded::nothing();
            right.mark = Mark::Shows;
            if draw {
                let way = numbered(plan, which, 0, rightly(scheme, base(plan, which))?);
                right.row.leaves = drawn_leaves(&way, which);
                right.drawn = Some(way);
            }
            right.row.pages = plan.row(which, 0);
            return Ok(right);
        }
        1 => causes.remove(0),
        _ => Cause::Together { causes },
    };
    let way = if plan.has_inset() {
        let Some(local) = cause_within(plan, which, &cause) else {
            return refused("these pages are not on that sheet");
        };
        numbered(plan, which, 0, act_out(scheme, base(plan, which), &local)?)
    } else {
        let first = u32::try_from(plan.first()).map_err(|_| NotExplained::FirstPage(u32::MAX))?;
        act_out(scheme, first, &cause)?
    };
    let leaves = if draw { drawn_leaves(&way, which) } else { Vec::new() };
    let row = Row { pages: way.pages.clone(), leaves };
    Ok(Folded { row, fold_at: way.fold_at, mark: way.mark, way: Some(way), drawn: None })
}

/// A sheet counted for itself, with the numbers that are printed on it in a section so many sections on.
fn numbered(plan: &Plan, which: SheetOf, offset: i64, mut way: Acted) -> Acted {
    let pages = plan.pages_of(which);
    let outside = |number: u32| plan.number(which, i64::from(number) - BASE * pages + offset * pages);
    for page in &mut way.pages {
        page.page = page.page.and_then(outside);
    }
    for sheet in std::iter::once(&mut way.sheet).chain(way.under.as_mut()) {
        for cell in sheet.side_a.iter_mut().chain(&mut sheet.side_b).flatten().flatten() {
            cell.page = outside(cell.page).unwrap_or(cell.page);
        }
    }
    way
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
    draw: bool,
}

impl Hands<'_> {
    /// Lays the inset in, as it was really done.
    fn assemble(self, strangers: &[Stranger]) -> Result<Outcome, NotPlayed> {
        let Self { plan, outer, inset, draw } = self;
        let mut pieces: Vec<PieceOf> = Vec::new();
        if draw {
            pieces.extend(outer.piece(OUTER, SheetOf::Outer));
            pieces.extend(inset.as_ref().and_then(|inset| inset.piece(INSET, SheetOf::Inset)));
        }
        let Folded { row, fold_at, mark, way, .. } = outer;
        let Some(inset) = inset else { return Ok(Outcome { row, pieces, fold_at, mark, way }) };
        // Everything that lies in the inset goes where it goes.
        let filled = |mut sheet: Row, offset: i64| {
            let times = (sheet.pages.len() / plan.pages_of(SheetOf::Inset).max(1) as usize).max(1);
            let at = times * plan.middle_of(SheetOf::Inset) as usize;
            let core = plan.core_row(offset);
            let of = |paper| LeafOf { piece: CORE, paper, fold_at: FoldAt::Spine };
            let leaves = if draw { plan.core_papers().into_iter().map(of).collect() } else { Vec::new() };
            sheet.insert(at, Row { pages: core, leaves });
            sheet
        };
        let mut leaf = filled(inset.row, 0);
        let mut outcome = Outcome { row, pieces, fold_at, mark, way: way.or(inset.way) };
        let middle =
            |row: &Row, right: i64, middle: i64| (row.pages.len() / right.max(1) as usize).max(1) * middle as usize;
        let of_insets = |row: &Row| middle(row, plan.inset_pages(), plan.middle_of_insets());
        let mut at = middle(&outcome.row, plan.pages_of(SheetOf::Outer), plan.middle_of(SheetOf::Outer));
        for stranger in strangers {
            match stranger {
                Stranger::InsetLeftOut => leaf = Row::default(),
                Stranger::OuterLeftOut => {
                    outcome.row = Row::default();
                    outcome.mark = Mark::Blank;
                    at = 0;
                }
                Stranger::InsetOfOtherSection { section_offset } => {
                    let offset = i64::from(*section_offset);
                    leaf = filled(
                        Row { pages: plan.row(SheetOf::Inset, offset), leaves: inset_leaves(plan, draw) },
                        offset,
                    );
                    if draw && let Some(scheme) = plan.scheme(SheetOf::Inset) {
                        let right = rightly(scheme, base(plan, SheetOf::Inset))?;
                        let acted = numbered(plan, SheetOf::Inset, offset, right);
                        for piece in outcome.pieces.iter_mut().filter(|p| p.number == INSET) {
                            (piece.section_offset, piece.acted) = (*section_offset, acted.clone());
                        }
                    }
                }
                Stranger::InsetTwice { second } => {
                    let mut again = leaf.clone();
                    again.leaves.iter_mut().filter(|l| l.piece == INSET).for_each(|l| l.piece = SECOND);
                    again.leaves.iter_mut().filter(|l| l.piece == CORE).for_each(|l| l.piece = SECOND_CORE);
                    let second_piece = outcome.pieces.iter().find(|p| p.number == INSET).cloned();
                    outcome.pieces.extend(second_piece.map(|piece| PieceOf { number: SECOND, ..piece }));
                    let place = if *second == Second::Inside { of_insets(&leaf) } else { leaf.pages.len() };
                    leaf.insert(place, again);
                }
                Stranger::InsetLies { lies } => {
                    leaf.lie(*lies);
                    let insets = outcome.pieces.iter_mut().filter(|p| p.number != OUTER);
                    insets.for_each(|piece| piece.lies = Some(*lies));
                }
                Stranger::InsetOutside => {
                    let place = of_insets(&leaf);
                    let inside = std::mem::take(&mut outcome.row);
                    leaf.insert(place, inside);
                    outcome.mark = Mark::Blank;
                    at = 0;
                }
                Stranger::InsetBeside { place: Beside::Before, .. } => at = 0,
                Stranger::InsetBeside { place: Beside::Behind, .. } => at = outcome.row.pages.len(),
                Stranger::InsetBeside { place: Beside::AmongLeaves, after } => {
                    at = 2 * after.unwrap_or(0) as usize;
                    if at == 0 || at >= outcome.row.pages.len() {
                        return refused("the inset lies behind a leaf of the outer sheet, and not behind its last");
                    }
                }
                _ => {}
            }
        }
        outcome.row.insert(at, leaf);
        Ok(outcome)
    }
}

/// The leaves of a right inset.
fn inset_leaves(plan: &Plan, draw: bool) -> Vec<LeafOf> {
    let scheme = plan.scheme(SheetOf::Inset).filter(|_| draw);
    scheme.map_or_else(Vec::new, |scheme| leaves_of(scheme, INSET, FoldAt::Spine, false))
}

impl Outcome {
    /// Does what a stranger does to the finished row.
    fn tuck(&mut self, plan: &Plan, stranger: &Stranger, draw: bool) -> Result<(), NotPlayed> {
        let offset = i64::from(stranger.offset());
        let own_end = u32::try_from(plan.pages() / 2).unwrap_or(0);
        let end = u32::try_from(plan.pages_at(offset) / 2).unwrap_or(0);
        let here = |leaf: u32| (1..=own_end).contains(&leaf);
        let there = |leaf: u32| (1..=end).contains(&leaf);
        let bad = || format!("leaves are numbered from 1 to {own_end}, and pages from 1");
        // A leaf from elsewhere; two of them with one number are one piece of paper.
        let of = |leaf: u32, paper: u32| -> Option<Row> {
            let from = plan.start_of(offset) + 2 * i64::from(leaf) - 2;
            let number = |n: i64| upright(u32::try_from(n).ok().filter(|n| *n > 0));
            let pages = [from, from + 1].into_iter().map(number).collect::<Option<_>>()?;
            let of = LeafOf { piece: STRANGER, paper, fold_at: FoldAt::Spine };
            Some(Row { pages, leaves: if draw { vec![of] } else { Vec::new() } })
        };
        match stranger {
            Stranger::OtherSection { .. } | Stranger::LanesMixed { .. } => {
                self.become_other(plan, offset, draw).ok_or_else(|| NotPlayed::Stranger(bad()))?;
            }
            Stranger::LeafOfOtherSection { leaf, from_leaf, .. } => {
                let from = from_leaf.unwrap_or(*leaf);
                let (true, true, Some(other)) = (here(*leaf), there(from), of(from, 1)) else { return refused(bad()) };
                self.row.replace(*leaf, other);
            }
            Stranger::PairOfOtherSection { leaves: [a, b], .. } => {
                let fit = [*a, *b].into_iter().all(|leaf| here(leaf) && there(leaf));
                let (true, Some(one), Some(other)) = (fit, of(*a, 1), of(*b, 1)) else { return refused(bad()) };
                self.row.replace(*a, one);
                self.row.replace(*b, other);
            }
            Stranger::LeafTuckedIn { after, from_leaf, .. } => {
                let (true, Some(other)) = (there(*from_leaf) && *after <= own_end, of(*from_leaf, 1)) else {
                    return refused(bad());
                };
                self.row.insert(2 * *after as usize, other);
            }
            Stranger::PairTuckedIn { after: [a, b], from_leaves: [one, other], .. } => {
                let (true, Some(front), Some(back)) = (there(*one) && there(*other), of(*one, 1), of(*other, 1)) else {
                    return refused(bad());
                };
                if a > b || *b > own_end {
                    return refused(bad());
                }
                self.row.insert(2 * *b as usize, back);
                self.row.insert(2 * *a as usize, front);
            }
            Stranger::LeafMissing { leaf } => {
                if !here(*leaf) {
                    return refused(bad());
                }
                self.row.replace(*leaf, Row::default());
            }
            Stranger::PairMissing { leaves: [a, b] } => {
                if !here(*a) || !here(*b) || a >= b {
                    return refused(bad());
                }
                self.row.replace(*b, Row::default());
                self.row.replace(*a, Row::default());
            }
            _ => return Ok(()),
        }
        self.way = None;
        Ok(())
    }

    /// The same section so many sections on. Where that one has more pages, or fewer, it is the right one.
    fn become_other(&mut self, plan: &Plan, offset: i64, draw: bool) -> Option<()> {
        let (first, start, pages) = (plan.first(), plan.start_of(offset), plan.pages_at(offset));
        if pages != plan.pages() {
            let numbers = start..start + pages;
            let number = |n: i64| upright(u32::try_from(n).ok().filter(|n| *n > 0));
            self.row = Row { pages: numbers.map(number).collect::<Option<_>>()?, leaves: Vec::new() };
            self.pieces.clear();
            let other = plan.of_other(offset).filter(|_| draw).and_then(|other| self::draw(&other, &[]).ok());
            if let Some(other) = other.and_then(|ways| ways.into_iter().next()) {
                self.row.leaves = other.row.leaves;
                let section_offset = i32::try_from(offset).ok()?;
                self.pieces.extend(other.pieces.into_iter().map(|piece| PieceOf { section_offset, ..piece }));
            }
            return Some(());
        }
        let moved = |number: u32| u32::try_from(i64::from(number) + start - first).ok().filter(|n| *n > 0);
        for page in &mut self.row.pages {
            page.page = page.page.map(|n| moved(n).ok_or(())).transpose().ok()?;
        }
        for piece in &mut self.pieces {
            piece.section_offset += i32::try_from(offset).ok()?;
            let sheets = std::iter::once(&mut piece.acted.sheet).chain(piece.acted.under.as_mut());
            for cell in sheets.flat_map(|s| s.side_a.iter_mut().chain(&mut s.side_b)).flatten().flatten() {
                cell.page = moved(cell.page).unwrap_or(cell.page);
            }
            piece.acted.pages.iter_mut().for_each(|p| p.page = p.page.and_then(moved));
        }
        Some(())
    }
}
