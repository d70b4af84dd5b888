//! The search: what gives the pages that were found. Whatever is named has been acted out and compared.

use super::plan::{Plan, SheetOf};
use super::play::{base, counted, each_way, lie, play, printed, with_pages};
use super::stranger::{Backed, Beside, Forme, Happened, Second, Stranger};
use crate::fold::misfold::{Cause, FoldAt, FoundPage, Lies, Mark, explain};
use std::collections::BTreeMap;

/// How many other sections are thought of, those with the most pages here first.
const OFFSETS: usize = 3;

/// Something that gives the pages found.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(in crate::fold::misfold) struct Fit {
    pub happened: Happened,
    pub mark: Mark,
    /// Fits of one group give the same pages.
    pub group: usize,
}

/// What was found out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(in crate::fold::misfold) struct Sought {
    /// Likelier ones first, and single things before two at once.
    pub fits: Vec<Fit>,
    /// Whether everything was tried and kept.
    pub complete: bool,
}

/// Looks for everything that gives these pages. `lanes` are the deliveries of a slit sheet.
pub(in crate::fold::misfold) fn seek(plan: &Plan, lanes: u32, fold_at: FoldAt, found: &[FoundPage]) -> Sought {
    let mut seek = Seek { plan, lanes, fold_at, found, laid: None, fits: Vec::new(), complete: true };
    seek.sheets();
    seek.strangers();
    if seek.fits.is_empty() {
        seek.other_and_wrong();
    }
    if seek.fits.is_empty() {
        seek.lying();
    }
    Sought { fits: seek.fits, complete: seek.complete }
}

struct Seek<'a> {
    plan: &'a Plan,
    lanes: u32,
    fold_at: FoldAt,
    found: &'a [FoundPage],
    /// How the whole section lies, where that was undone first.
    laid: Option<Lies>,
    fits: Vec<Fit>,
    complete: bool,
}

impl Seek<'_> {
    /// Acts something out and keeps it if it gives what was found.
    fn try_out(&mut self, happened: impl Into<Happened>) {
        let happened = happened.into();
        let Ok(outcomes) = each_way(self.plan, &happened) else { return };
        let fit = |o: &&super::play::Outcome| o.fold_at == self.fold_at && fits(&o.row.pages, self.found);
        if let Some(mark) = outcomes.iter().find(fit).map(|outcome| outcome.mark) {
            self.keep(happened, mark, 0);
        }
    }

    fn keep(&mut self, happened: Happened, mark: Mark, group: usize) {
        let lies = self.laid.map(|lies| Happened::Sheet(Cause::SectionLies { lies }));
        let Some(happened) = Happened::all(std::iter::once(happened).chain(lies).collect()) else { return };
        let mark = match self.laid {
            None => mark,
            Some(Lies::HeadToTail) if mark == Mark::Shows => Mark::Mirrored,
            Some(_) => Mark::Blank,
        };
        if !self.fits.iter().any(|fit| fit.happened == happened) {
            self.fits.push(Fit { happened, mark, group });
        }
    }

    /// The causes of single sheets.
    fn sheets(&mut self) {
        if self.plan.has_inset() {
            self.sheets_apart();
            return;
        }
        let first = self.plan.first();
        for (causes, mark, group) in self.explained(SheetOf::Outer, first, self.fold_at, self.found) {
            for cause in causes {
                self.keep(cause.into(), mark, group);
            }
        }
    }

    /// The groups of causes that give these pages of a sheet counted from a page.
    fn explained(
        &mut self,
        which: SheetOf,
        first: i64,
        fold_at: FoldAt,
        found: &[FoundPage],
    ) -> Vec<(Vec<Cause>, Mark, usize)> {
        let (Some(scheme), Ok(first)) = (self.plan.scheme(which), u32::try_from(first)) else { return vec![] };
        let Ok(explained) = explain(scheme, first, fold_at, found) else { return vec![] };
        self.complete &= explained.complete || !explained.causes.is_empty();
        let of = |(group, e): (usize, super::super::Explanation)| {
            (std::iter::once(e.cause).chain(e.same_pages_as).collect(), e.mark, group)
        };
        (0..).zip(explained.causes).map(of).collect()
    }

    /// The outer sheet and the inset, each for itself: one of them wrong, or both by one cause each.
    fn sheets_apart(&mut self) {
        let middle = self.plan.middle_of(SheetOf::Outer) as usize;
        let (outer, inset) = (self.plan.pages_of(SheetOf::Outer) as usize, self.plan.inset_pages() as usize);
        for (outers, insets) in [(1, 1), (2, 1), (1, 2)] {
            if self.found.len() != outers * outer + insets * inset {
                continue;
            }
            let (from, end) = (outers * middle, outers * middle + insets * inset);
            let Some(inside) = self.without_core(self.found.get(from..end).unwrap_or_default(), insets) else {
                continue;
            };
            let outside =
                [self.found.get(..from).unwrap_or_default(), self.found.get(end..).unwrap_or_default()].concat();
            let outer_right = fits(&self.plan.row(SheetOf::Outer, 0), &outside);
            let inset_right = fits(&self.plan.row(SheetOf::Inset, 0), &inside);
            if outer_right && inset_right {
                continue;
            }
            let on_outer = if outer_right { vec![] } else { self.of_one(SheetOf::Outer, self.fold_at, &outside) };
            let on_inset = if inset_right { vec![] } else { self.of_one(SheetOf::Inset, FoldAt::Spine, &inside) };
            if inset_right {
                for (cause, mark, group) in on_outer {
                    self.keep(Stranger::OuterSheet { cause }.into(), mark, group);
                }
            } else if outer_right {
                for (cause, _, group) in on_inset {
                    self.keep(Stranger::InsetSheet { cause }.into(), Mark::Shows, group);
                }
            } else {
                let single = |(cause, ..): &&(Cause, Mark, usize)| !matches!(cause, Cause::Together { .. });
                for (a, mark, one) in on_outer.iter().filter(single) {
                    for (b, _, other) in on_inset.iter().filter(single) {
                        let both = [
                            Stranger::OuterSheet { cause: a.clone() }.into(),
                            Stranger::InsetSheet { cause: b.clone() }.into(),
                        ];
                        if let Some(both) = Happened::all(both.to_vec()) {
                            self.keep(both, *mark, one + other);
                        }
                    }
                }
            }
        }
    }

    /// What was found of one or two insets, without what lies in them; `None` where that is not right.
    fn without_core(&self, inside: &[FoundPage], insets: usize) -> Option<Vec<FoundPage>> {
        let (core, from) = (self.plan.core_row(0), insets * self.plan.middle_of(SheetOf::Inset) as usize);
        if core.is_empty() {
            return Some(inside.to_vec());
        }
        let end = from + core.len();
        let right = insets == 1 && fits(&core, inside.get(from..end)?);
        right.then(|| [inside.get(..from).unwrap_or_default(), inside.get(end..).unwrap_or_default()].concat())
    }

    /// The causes on one of two sheets, with the numbers printed. How it lies in the other is no cause of the sheet.
    fn of_one(&mut self, which: SheetOf, fold_at: FoldAt, found: &[FoundPage]) -> Vec<(Cause, Mark, usize)> {
        let plan = self.plan;
        // A number of the other sheet is none that this one could show.
        let alone = |p: &FoundPage| FoundPage { page: p.page.map(|n| counted(plan, which, n).unwrap_or(1)), ..*p };
        let found: Vec<FoundPage> = found.iter().map(alone).collect();
        let groups = self.explained(which, i64::from(base(plan, which)), fold_at, &found);
        let mut causes = Vec::new();
        for (group, mark, n) in groups {
            for cause in group.iter().filter_map(|c| with_pages(c, &|page| printed(plan, which, page))) {
                if !cause.singles().iter().any(|c| matches!(c, Cause::SectionLies { .. })) {
                    causes.push((cause, mark, n));
                }
            }
        }
        causes
    }

    fn strangers(&mut self) {
        for offset in self.offsets() {
            if self.same_sheet(offset) {
                self.try_out(Stranger::LanesMixed { section_offset: offset });
            }
            self.try_out(Stranger::OtherSection { section_offset: offset });
        }
        if self.plan.has_inset() {
            self.insets();
        }
        if self.plan.halves().is_some() || !self.plan.has_inset() {
            for forme in [Forme::Outer, Forme::Inner] {
                for was in [Backed::Tumbled, Backed::Turned] {
                    self.try_out(Stranger::HalfSheet { forme, was });
                }
            }
        }
        self.leaves();
    }

    /// Whether a section so many sections on comes from the same sheet, as far as is known.
    fn same_sheet(&self, offset: i32) -> bool {
        let known = self.plan.lane_offsets();
        if known.is_empty() { offset.unsigned_abs() < self.lanes } else { known.contains(&offset) }
    }

    /// How far the sections lie from this one whose pages are here.
    fn offsets(&self) -> Vec<i32> {
        let mut count: BTreeMap<i64, i64> = BTreeMap::new();
        for page in self.found.iter().filter_map(|p| p.page) {
            *count.entry(self.plan.leaf(page).0).or_default() += 1;
        }
        count.remove(&0);
        let mut offsets: Vec<(i64, i64)> = count.into_iter().map(|(offset, pages)| (-pages, offset)).collect();
        offsets.sort_unstable();
        offsets.into_iter().take(OFFSETS).filter_map(|(_, offset)| i32::try_from(offset).ok()).collect()
    }

    fn insets(&mut self) {
        for offset in self.offsets() {
            self.try_out(Stranger::InsetOfOtherSection { section_offset: offset });
            let others = Stranger::OtherSection { section_offset: offset };
            let its_own = Stranger::InsetOfOtherSection { section_offset: -offset };
            if let Some(both) = Happened::all(vec![others.into(), its_own.into()]) {
                self.try_out(both);
            }
        }
        self.try_out(Stranger::InsetLeftOut);
        self.try_out(Stranger::OuterLeftOut);
        for second in [Second::Inside, Second::Behind] {
            self.try_out(Stranger::InsetTwice { second });
        }
        for lies in [Lies::HeadToTail, Lies::TurnedInPlane, Lies::SideToSide] {
            self.try_out(Stranger::InsetLies { lies });
        }
        self.try_out(Stranger::InsetOutside);
        for place in [Beside::Before, Beside::Behind] {
            self.try_out(Stranger::InsetBeside { place, after: None });
        }
        for after in 1..self.plan.pages_of(SheetOf::Outer) / 2 {
            if 2 * after != self.plan.middle_of(SheetOf::Outer) {
                let after = u32::try_from(after).ok();
                self.try_out(Stranger::InsetBeside { place: Beside::AmongLeaves, after });
            }
        }
    }

    /// Single leaves and joined ones that are gone, too many, or others.
    fn leaves(&mut self) {
        let (due, joined) = (self.plan.due(), self.plan.joined());
        let (many, found) = (due.len(), self.found.len());
        let leaves = many / 2;
        let wide = |leaf: i64| u32::try_from(leaf).unwrap_or(0);
        if leaves < 2 {
            return;
        }
        if found == many {
            let wrong: Vec<usize> = (0..leaves).filter(|l| !fits(&due[2 * l..2 * l + 2], self.leaf_at(*l))).collect();
            match wrong.as_slice() {
                [one] => {
                    if let Some((offset, leaf)) = self.whose(*one) {
                        let stranger = Stranger::LeafOfOtherSection {
                            leaf: wide(*one as i64 + 1),
                            from_leaf: Some(leaf),
                            section_offset: offset,
                        };
                        self.try_out(stranger);
                    }
                }
                [one, other] if leaves > 2 && joined.contains(&[*one as i64 + 1, *other as i64 + 1]) => {
                    if let Some((offset, _)) = self.whose(*one) {
                        let leaves = [*one as i64 + 1, *other as i64 + 1].map(wide);
                        self.try_out(Stranger::PairOfOtherSection { leaves, section_offset: offset });
                    }
                }
                _ => {}
            }
        } else if found + 2 == many {
            for leaf in 1..=leaves as i64 {
                self.try_out(Stranger::LeafMissing { leaf: wide(leaf) });
            }
        } else if found + 4 == many && leaves > 2 {
            for pair in &joined {
                self.try_out(Stranger::PairMissing { leaves: pair.map(wide) });
            }
        } else if found == many + 2 {
            for after in self.extra_at(&due) {
                if let Some((section_offset, from_leaf)) = self.whose(after) {
                    self.try_out(Stranger::LeafTuckedIn { after: wide(after as i64), from_leaf, section_offset });
                }
            }
        } else if found == many + 4 {
            // Joined leaves lie on each other, or round as many leaves before the middle as behind it.
            let middle = leaves as i64;
            for after in 0..=leaves as i64 {
                for [a, b] in [[after, after], [after, middle - after]] {
                    let whose = |at: i64| self.whose(usize::try_from(at).ok()?);
                    let (Some((offset, one)), Some((also, other))) = (whose(a), whose(b + 1)) else { continue };
                    if a <= b && offset == also && joined.contains(&[one, other].map(i64::from)) {
                        let (after, from_leaves) = ([a, b].map(wide), [one, other]);
                        self.try_out(Stranger::PairTuckedIn { after, from_leaves, section_offset: offset });
                    }
                }
            }
        }
    }

    fn leaf_at(&self, leaf: usize) -> &[FoundPage] {
        self.found.get(2 * leaf..2 * leaf + 2).unwrap_or_default()
    }

    /// The section and the leaf there that a leaf found (from 0) is.
    fn whose(&self, leaf: usize) -> Option<(i32, u32)> {
        let number = self.leaf_at(leaf).first()?.page?;
        let (offset, leaf) = self.plan.leaf(number);
        Some((i32::try_from(offset).ok()?, u32::try_from(leaf).ok()?))
    }

    /// The leaves found (from 0) without which the others would be right.
    fn extra_at(&self, due: &[FoundPage]) -> Vec<usize> {
        let end = due.len();
        let front = (0..end / 2).take_while(|l| fits(&due[2 * l..2 * l + 2], self.leaf_at(*l))).count();
        let back =
            (0..end / 2).take_while(|l| fits(&due[end - 2 * l - 2..end - 2 * l], self.leaf_at(end / 2 - l))).count();
        ((end / 2 - back)..=front).collect()
    }

    /// A section of another number that is wrong besides.
    fn other_and_wrong(&mut self) {
        if self.plan.has_inset() {
            self.inset_and_wrong();
            return;
        }
        for offset in self.offsets() {
            if self.plan.pages_at(i64::from(offset)) != self.plan.pages() {
                continue;
            }
            let first = self.plan.start_of(i64::from(offset));
            for (causes, mark, group) in self.explained(SheetOf::Outer, first, self.fold_at, self.found) {
                for cause in causes.iter().filter(|c| !matches!(c, Cause::Together { .. })) {
                    // Its pages are written as those of the section that should be here.
                    let back =
                        |page: u32| u32::try_from(i64::from(page) - first + self.plan.first()).ok().filter(|n| *n > 0);
                    let Some(cause) = with_pages(cause, &back) else { continue };
                    let other = Stranger::OtherSection { section_offset: offset };
                    if let Some(both) = Happened::all(vec![other.into(), cause.into()]) {
                        self.keep(both, mark, group);
                    }
                }
            }
        }
    }

    /// An inset that is missing, or of another section, or lies wrong, in an outer sheet that is wrong besides.
    fn inset_and_wrong(&mut self) {
        let lies = [Lies::HeadToTail, Lies::TurnedInPlane, Lies::SideToSide];
        let mut strangers = vec![Stranger::InsetLeftOut];
        strangers
            .extend(self.offsets().into_iter().map(|section_offset| Stranger::InsetOfOtherSection { section_offset }));
        strangers.extend(lies.map(|lies| Stranger::InsetLies { lies }));
        strangers.extend([Second::Inside, Second::Behind].map(|second| Stranger::InsetTwice { second }));
        let outer = self.plan.pages_of(SheetOf::Outer) as usize;
        let from = self.plan.middle_of(SheetOf::Outer) as usize;
        for stranger in strangers {
            let Ok(alone) = play(self.plan, &stranger.clone().into()) else { continue };
            let end = from + alone.row.pages.len().saturating_sub(outer);
            let inside = |row: &[FoundPage]| row.get(from..end).map(<[FoundPage]>::to_vec).unwrap_or_default();
            if alone.row.pages.len() != self.found.len() || !fits(&inside(&alone.row.pages), &inside(self.found)) {
                continue;
            }
            let outside =
                [self.found.get(..from).unwrap_or_default(), self.found.get(end..).unwrap_or_default()].concat();
            for (cause, mark, group) in self.of_one(SheetOf::Outer, self.fold_at, &outside) {
                let single = !matches!(cause, Cause::Together { .. });
                let both = Happened::all(vec![stranger.clone().into(), Stranger::OuterSheet { cause }.into()]);
                if let Some(both) = both.filter(|_| single) {
                    self.keep(both, mark, group);
                }
            }
        }
    }

    /// The section does not lie right and something else is wrong besides.
    fn lying(&mut self) {
        let all = [Lies::HeadToTail, Lies::TurnedInPlane, Lies::SideToSide];
        let at = |lies: &Lies| (*lies == Lies::HeadToTail) == (self.fold_at == FoldAt::Spine);
        for lies in all.into_iter().filter(at) {
            let mut row = self.found.to_vec();
            lie(&mut row, lies);
            let (plan, lanes) = (self.plan, self.lanes);
            let complete = self.complete;
            let fits_due = fits(&plan.due(), &row);
            let mut upright =
                Seek { plan, lanes, fold_at: FoldAt::Spine, found: &row, laid: None, fits: Vec::new(), complete };
            if fits_due {
                upright.keep(Happened::Sheet(Cause::SectionLies { lies }), Mark::Blank, 0);
                if let Some(fit) = upright.fits.first_mut().filter(|_| lies == Lies::HeadToTail) {
                    fit.mark = Mark::Mirrored;
                }
            } else {
                upright.laid = Some(lies);
                if plan.has_inset() {
                    upright.sheets();
                }
                upright.strangers();
            }
            self.complete = upright.complete;
            for fit in upright.fits {
                if !self.fits.contains(&fit) {
                    self.fits.push(fit);
                }
            }
        }
    }
}

/// Whether pages are those found. A head that was not looked at fits both ways.
pub(in crate::fold::misfold) fn fits(row: &[FoundPage], found: &[FoundPage]) -> bool {
    let same = |(a, f): (&FoundPage, &FoundPage)| {
        a.page == f.page && (a.page.is_none() || f.head.is_none() || a.head == f.head)
    };
    row.len() == found.len() && row.iter().zip(found).all(same)
}
