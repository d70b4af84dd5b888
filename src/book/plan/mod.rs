//! The ways of making a book up in sections, each with what it takes of paper and work.
//!
//! ```text
//! Job ── ways (courses of the library, on this sheet, of this paper)
//!           └─ make_up (which sections, where the odd one goes) ── reckon (sheets, waste, folds, thickness) ── rank
//! ```
//!
//! A way that a person made up by hand is reckoned and told like any other.

mod make_up;
mod rank;
mod reckon;
mod ways;
mod words;

use super::told::Finding;
use crate::finish::Size;
use crate::marks::{MOST_SECTIONS, Refusal};
use crate::paper::{Length, Stock, Trims};
use serde::Serialize;

pub use make_up::{Joined, Part};
pub use rank::CRITERIA;
pub use reckon::{GATHERING_SPOILS, PressSheet, RUNNING_SPOILS, SECTION_AIM, SET_UP_SHEETS};

/// The most pages that are planned for: as many as the most sections have in thirty-twos. A bound of this program.
pub const MOST_EXTENT: u32 = MOST_SECTIONS * 32;
/// The most copies of a run. A bound of this program.
pub const MOST_COPIES: u32 = 10_000_000;
/// The most plans that are told.
const MOST_PLANS: usize = 40;
/// The longest side of a sheet or a page (a bound of this program).
const LONGEST_MM: i64 = 5_000;

/// A book that is to be made up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Job {
    /// Pages that are to be printed, blank ones that are wanted with them.
    pub extent: u32,
    /// The page after the cut.
    pub page: Size,
    /// What the knives take off.
    pub trims: Trims,
    /// The press sheet as it lies: its width and its height. What the grippers hold is not taken off, since it falls
    /// on a margin.
    pub sheet: Size,
    /// The paper; its grain is that of the sheet as it lies.
    pub stock: Stock,
    /// Copies of the run.
    pub copies: u32,
}

/// One section of a plan.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Planned {
    /// Its pages.
    pub pages: u32,
    /// Its first page position.
    pub first_page: u32,
    /// Its last page position.
    pub last_page: u32,
    /// What it is folded from, the outermost first.
    pub parts: Vec<Part>,
}

/// One way of making a book up.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Plan {
    /// Its sections in a sentence.
    pub says: String,
    /// The sections, front to back.
    pub sections: Vec<Planned>,
    /// The pages of all sections.
    pub pages: u32,
    /// Pages more than the extent: they stay blank.
    pub blanks: u32,
    /// Pieces that are folded for one copy, insets and wraps counted by themselves.
    pub folded_per_copy: u32,
    /// The sheets by the course that folds them.
    pub press_sheets: Vec<PressSheet>,
    /// Sheets of one copy; a fraction, where a sheet serves several copies.
    pub sheets_per_copy: f64,
    /// Sheets of the run without spoilage.
    pub sheets_net: u64,
    /// Sheets of the run with what is spoilt in setting up and running.
    pub sheets_run: u64,
    /// What of the paper of the run does not come into the book, in %, spoilage left out.
    pub waste_percent: f64,
    /// What is to be said of it, with the sums.
    pub findings: Vec<Finding>,
    /// Why it stands behind the first; empty for the first.
    pub behind: String,
    /// By what it is ranked.
    #[serde(skip)]
    rank: rank::Rank,
}

/// All plans for a book.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Plans {
    /// The leaf before the cut: its width and height in mm.
    pub leaf_mm: [f64; 2],
    /// The one that a person made up, if one did.
    pub by_hand: Option<Plan>,
    /// The best first.
    pub plans: Vec<Plan>,
    /// How many more there are, which are not told.
    pub more: u32,
    /// By what they are ranked, in this order.
    pub ranked_by: Vec<&'static str>,
    /// What concerns all of them.
    pub findings: Vec<Finding>,
}

impl Plan {
    /// The pages of each section, front to back, as a [`crate::book::Book`] has them.
    #[must_use]
    pub fn pages_of_sections(&self) -> Vec<u32> {
        self.sections.iter().map(|section| section.pages).collect()
    }

    /// Whether nothing in [`CRITERIA`] puts it behind another plan for the same book.
    #[must_use]
    pub fn stands_no_lower_than(&self, other: &Self) -> bool {
        self.rank <= other.rank
    }
}

impl Job {
    /// The leaf before the cut.
    #[must_use]
    pub fn leaf(&self) -> Size {
        Size {
            width: self.page.width + self.trims.fore_edge,
            height: self.page.height + self.trims.head + self.trims.foot,
        }
    }

    fn check(&self) -> Result<(), Refusal> {
        let refuse = |at: &str, says: String| Err(Refusal::new(at, says));
        if self.extent == 0 || self.extent > MOST_EXTENT {
            return refuse("extent", format!("Books of 1 to {MOST_EXTENT} pages are planned here."));
        }
        if self.copies == 0 || self.copies > MOST_COPIES {
            return refuse("copies", format!("A run has 1 to {MOST_COPIES} copies."));
        }
        let sides = |s: Size| [s.width, s.height];
        let fits = |l: &Length| *l >= Length::from_whole_mm(10) && *l <= Length::from_whole_mm(LONGEST_MM);
        for (at, size) in [("page", self.page), ("sheet", self.sheet)] {
            if !sides(size).iter().all(fits) {
                return refuse(at, format!("Its sides are 10 to {LONGEST_MM} mm long."));
            }
        }
        let leaf = self.leaf();
        self.trims.check((leaf.width, leaf.height)).or_else(|says| refuse("trims", says))?;
        self.stock.check().or_else(|says| refuse("paper", says))
    }
}

/// The ways of making a book up, the best first; and one that a person made up, as the pages of its sections.
///
/// # Errors
/// What of the job can't be worked with.
pub fn plan(job: &Job, by_hand: Option<&[u32]>) -> Result<Plans, Refusal> {
    job.check()?;
    let ways = ways::Ways::on(job);
    if ways.is_empty() {
        let leaf = job.leaf();
        let says = format!(
            "A sheet of {} × {} mm is too small for two leaves of {} × {} mm side by side.",
            super::told::mm(job.sheet.width),
            super::told::mm(job.sheet.height),
            super::told::mm(leaf.width),
            super::told::mm(leaf.height)
        );
        return Err(Refusal::new("sheet", says));
    }
    let by_hand = by_hand.map(|pages| make_up::by_hand(pages, &ways)).transpose()?.unwrap_or_default();
    let mut by_hand: Vec<Plan> = by_hand.into_iter().map(|sections| reckon::plan(job, &ways, sections)).collect();
    let mut plans: Vec<Plan> =
        make_up::all(job.extent, &ways).into_iter().map(|sections| reckon::plan(job, &ways, sections)).collect();
    if plans.is_empty() {
        let largest = ways.iter().map(|w| w.pages).max().unwrap_or(0);
        let says = format!(
            "This sheet gives sections of {largest} pages at the most, and {} pages would need more than \
                 {MOST_SECTIONS} of them.",
            job.extent
        );
        return Err(Refusal::new("extent", says));
    }
    rank::rank(&mut plans, &mut by_hand);
    let more = plans.len().saturating_sub(MOST_PLANS) as u32;
    plans.truncate(MOST_PLANS);
    let leaf = job.leaf();
    Ok(Plans {
        leaf_mm: [leaf.width.mm(), leaf.height.mm()],
        // Of the ways of folding what a person made up, the best.
        by_hand: by_hand.into_iter().min_by_key(|plan| plan.rank),
        plans,
        more,
        ranked_by: CRITERIA.to_vec(),
        findings: words::of_job(job, &ways),
    })
}
