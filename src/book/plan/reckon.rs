//! What a make-up takes: sheets, waste, folds, thickness.

use super::make_up::{Made, ODD_BELOW, pages_of};
use super::ways::{Suits, Way, Ways};
use super::{Job, Plan, Planned, rank, words};
use crate::finish::section;
use crate::paper::Length;
use serde::Serialize;
use std::collections::BTreeMap;

/// Sheets spoilt in setting up the folder for one kind of sheet: about 40 for two right-angle folds (trade figures of
/// *American Printer*, 1996; finishlinebinderies.com). Deeper sections spoil more; no figure was found.
pub const SET_UP_SHEETS: u64 = 40;
/// Sheets spoilt in folding, in 1 of 1,000: 1.1 % (the same). Sections of four pages spoil twice as much as sixteens
/// (postpressmag.com, "Yields", 2005).
pub const RUNNING_SPOILS: u64 = 11;
/// Sections spoilt in gathering, stitching and trimming, in 1 of 1,000: about 1 % (*American Printer*, 1996).
pub const GATHERING_SPOILS: u64 = 10;
/// How thick a section should be, squeezed: 1 to 2 mm (a worksheet of Brighton University on multi-section binding).
pub const SECTION_AIM: [Length; 2] = [Length::from_whole_mm(1), Length::from_whole_mm(2)];

/// The press sheets that are folded by one course.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PressSheet {
    /// The course of the library for one section, by which it is folded once the sheet is slit.
    pub course: &'static str,
    /// The course of the library that folds and slits the whole sheet, if there is one.
    pub whole_sheet: Option<&'static str>,
    /// Pages of such a section.
    pub pages: u32,
    /// Such sections in one copy.
    pub sections: u32,
    /// Such sections on one sheet.
    pub on_sheet: u32,
    /// Sheets that differ: each is made ready and set up by itself.
    pub different: u32,
    /// Sheets of the run without spoilage.
    pub sheets_net: u64,
    /// With spoilage.
    pub sheets_run: u64,
    /// What is cut off a sheet before the trim, in %.
    pub cut_off_percent: f64,
    /// Folds of a piece.
    pub folds: u32,
    /// Right-angle folds among them.
    pub right_angle_folds: u32,
    /// Whether the leaves stand turned on the sheet, their heads to a side.
    pub turned: bool,
}

/// A make-up with its numbers.
pub(super) fn plan(job: &Job, ways: &Ways, sections: Vec<Made>) -> Plan {
    let pages: u32 = sections.iter().map(|made| pages_of(made)).sum();
    let mut counts: BTreeMap<(std::cmp::Reverse<u32>, &'static str), u32> = BTreeMap::new();
    for part in sections.iter().flatten() {
        *counts.entry((std::cmp::Reverse(part.pages), part.course)).or_default() += 1;
    }
    let used: Vec<(&Way, u32)> = counts.iter().filter_map(|((_, c), n)| Some((ways.named(c)?, *n))).collect();
    let press_sheets: Vec<PressSheet> = used.iter().map(|(way, n)| press_sheet(job, way, *n)).collect();
    let sheets_net = press_sheets.iter().map(|s| s.sheets_net).sum();
    let sheets_run = press_sheets.iter().map(|s| s.sheets_run).sum();
    let area = |leaves: u64, size: crate::finish::Size| leaves as f64 * size.width.mm() * size.height.mm();
    let used_paper = area(u64::from(pages / 2) * u64::from(job.copies), job.leaf());
    let caliper = job.stock.caliper();
    let thickest = sections.iter().map(|m| section(pages_of(m) / 2, caliper)).max().unwrap_or_default();
    let folded: u32 = used.iter().map(|(way, n)| way.pieces * n).sum();
    let rank = rank::Rank {
        wrong: u32::from(used.iter().any(|(w, _)| w.suits == Suits::No))
            + u32::from(used.iter().any(|(w, _)| !w.grain_along))
            + u32::from(pages < job.extent),
        too_thick: thickest > SECTION_AIM[1],
        weak: u32::from(odd_at_end(&sections)) + u32::from(four_alone(&sections)),
        paper_band: 0,
        work: folded + put_together(&sections, ways),
        different: press_sheets.iter().map(|s| s.different).sum(),
        sewn: sections.len() as u32,
        sheets: sheets_run,
    };
    let mut plan = Plan {
        says: words::make_up(&sections),
        pages,
        blanks: pages.saturating_sub(job.extent),
        folded_per_copy: folded,
        sheets_per_copy: used.iter().map(|(way, n)| f64::from(*n) / f64::from(way.on_sheet)).sum(),
        sheets_net,
        sheets_run,
        waste_percent: 100.0 - 100.0 * used_paper / area(sheets_net, job.sheet),
        sections: planned(sections),
        press_sheets,
        findings: Vec::new(),
        behind: String::new(),
        rank,
    };
    plan.findings = words::findings(job, &plan, &used);
    plan
}

/// Whole sheets of sections that differ; the sections that are left over stand several times on one sheet, as often as
/// they all go on it.
fn press_sheet(job: &Job, way: &Way, sections: u32) -> PressSheet {
    let copies = u64::from(job.copies);
    let (full, left) = (sections / way.on_sheet, sections % way.on_sheet);
    let of_left = way.on_sheet.checked_div(left).map_or(0, |times| copies.div_ceil(u64::from(times)));
    let sheets_net = u64::from(full) * copies + of_left;
    let different = full + u32::from(left > 0);
    let folding = if way.pages == 4 { 2 * RUNNING_SPOILS } else { RUNNING_SPOILS };
    let spoilt = (sheets_net * (folding + GATHERING_SPOILS)).div_ceil(1_000) + SET_UP_SHEETS * u64::from(different);
    let leaf = job.leaf();
    let used = f64::from(way.pages / 2 * way.on_sheet) * leaf.width.mm() * leaf.height.mm();
    PressSheet {
        course: way.course,
        whole_sheet: way.whole_sheet,
        pages: way.pages,
        sections,
        on_sheet: way.on_sheet,
        different,
        sheets_net,
        sheets_run: sheets_net + spoilt,
        cut_off_percent: 100.0 - 100.0 * used / (job.sheet.width.mm() * job.sheet.height.mm()),
        folds: way.folds,
        right_angle_folds: way.right_angles,
        turned: way.turned,
    }
}

/// Whether a small odd section stands first or last.
pub(super) fn odd_at_end(sections: &[Made]) -> bool {
    let largest = sections.iter().map(|m| pages_of(m)).max().unwrap_or(0);
    let odd = |made: Option<&Made>| made.is_some_and(|m| pages_of(m) < ODD_BELOW.min(largest));
    odd(sections.first()) || odd(sections.last())
}

/// Whether a four is sewn by itself in a book of larger sections.
fn four_alone(sections: &[Made]) -> bool {
    let four = |made: &Made| pages_of(made) == 4;
    sections.iter().any(four) && !sections.iter().all(four)
}

/// How often one piece is laid into another or round it, for a copy.
fn put_together(sections: &[Made], ways: &Ways) -> u32 {
    let pieces = |made: &Made| made.iter().filter_map(|p| ways.named(p.course)).map(|w| w.pieces).sum::<u32>();
    sections.iter().map(|made| pieces(made).saturating_sub(1)).sum()
}

fn planned(sections: Vec<Made>) -> Vec<Planned> {
    let mut last_page = 0;
    let one = |parts: Made| {
        let pages = pages_of(&parts);
        let first_page = last_page + 1;
        last_page += pages;
        Planned { pages, first_page, last_page, parts }
    };
    sections.into_iter().map(one).collect()
}
