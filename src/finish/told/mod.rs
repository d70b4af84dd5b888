//! All that is found out about a section, as sentences for a binder.

mod cut;
mod paper;
mod size;
mod text;

use super::leaves::Leaves;
use super::size::Size;
use crate::fold::{Measure, Nest, Worked};
use crate::paper::{Length, Margins, Stock, Trims};

/// What a finding is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum About {
    /// Sizes of leaf and page.
    Size,
    /// Bolts and the knives.
    Bolts,
    /// Creep, margins and bleed.
    Creep,
    /// Thickness.
    Thickness,
    /// The grain.
    Grain,
    /// Air and perforation.
    Air,
    /// Folds and grammage.
    Folds,
}

/// How much a finding matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// As it should be.
    Fine,
    /// To be borne in mind.
    Mind,
    /// It will not come out right.
    Wrong,
}

/// One finding.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Finding {
    /// What it is about.
    pub about: About,
    /// How much it matters.
    pub severity: Severity,
    /// The finding, in whole sentences.
    pub says: String,
    /// The sum, with its numbers put in; empty where there is none.
    pub reckoned: String,
    /// Where the rule comes from.
    pub source: &'static str,
}

/// A section and all that is known of paper and knives.
#[derive(Clone, Copy, Debug)]
pub struct Work<'a> {
    /// The sheet, folded.
    pub worked: &'a Worked,
    /// The pieces of the section, the outermost first.
    pub nest: &'a Nest,
    /// The panels in millimetres.
    pub measure: &'a Measure,
    /// The paper.
    pub stock: Stock,
    /// The knives.
    pub trims: Trims,
    /// The page that is wanted after the cut.
    pub page: Option<Size>,
    /// The margins that the pages are laid out with.
    pub margins: Option<Margins>,
}

/// Thicker than any board (a bound of this program).
const THICKEST: Length = Length::from_whole_mm(10);

/// What can be said of a section, by subject. A section that is not folded down to a page is told about as far as it
/// goes.
#[must_use]
pub fn told(work: &Work) -> Vec<Finding> {
    // What no paper is, is held to what can be reckoned with.
    let caliper = work.stock.caliper().clamp(Length::ZERO, THICKEST);
    let mut all = size::unfinished(work);
    if let Some(leaves) = Leaves::of(work.worked, work.nest, work.measure).filter(|_| all.is_empty()) {
        all.extend(size::told(work, &leaves));
        all.extend(cut::bolts(&leaves, &work.trims, caliper));
        all.extend(cut::creep(work, &leaves, caliper));
        all.extend(cut::bleed(&leaves, &work.trims, caliper));
        all.extend(paper::thickness(work, leaves.leaves.len() as u32, caliper));
    }
    all.extend(paper::grain(work));
    for piece in work.nest {
        all.extend(paper::folds(work, *piece, caliper));
    }
    all
}

#[cfg(test)]
mod tests;
