//! Which plan stands before which, and why.

use super::Plan;
use crate::units::short;

/// By what plans are ranked: each line decides where those above it are alike.
pub const CRITERIA: [&str; 7] = [
    "First the plans that nothing speaks against: the paper takes the folds, the grain runs along the \
         spine, and all pages find a place.",
    "Then those whose sections are not thicker than 2 mm.",
    "Then those in which no odd section of less than sixteen pages stands first or last, and no four is \
         sewn by itself.",
    "Then those that need least paper for the run. Differences of less than 5 % don't count, since the \
         spoilage of a run is usually as much.",
    "Then those with the least work for a copy: pieces to be folded, and pieces to be wrapped round or inset.",
    "Then those with the fewest different sheets to be made ready at the press and set up at the folder.",
    "Then those with the fewest sections to be sewn, and at last those with the fewest sheets.",
];

/// A step of paper that counts, in %: spoilage adds up over the operations to 5 % or more as a rule (the trade
/// figures named at [`super::SET_UP_SHEETS`]).
const BAND_PERCENT: u64 = 5;

/// What decides, in the order of [`CRITERIA`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Rank {
    pub wrong: u32,
    pub too_thick: bool,
    pub weak: u32,
    pub paper_band: u64,
    pub work: u32,
    pub different: u32,
    pub sewn: u32,
    pub sheets: u64,
}

/// Sorts the plans, the best first, and says of each why it stands behind the first. What was made up by hand is
/// measured against them.
pub(super) fn rank(plans: &mut [Plan], by_hand: &mut [Plan]) {
    // Only plans that can be carried out say what paper is needed.
    let fewest = plans.iter().map(|p| p.rank.wrong).min().unwrap_or(0);
    let least = plans.iter().filter(|p| p.rank.wrong == fewest).map(|p| p.sheets_run).min().unwrap_or(0).max(1);
    for plan in plans.iter_mut().chain(by_hand.iter_mut()) {
        plan.rank.paper_band = plan.sheets_run.saturating_sub(least) * 100 / (least * BAND_PERCENT);
    }
    plans.sort_by_key(|plan| plan.rank);
    let Some((first, others)) = plans.split_first_mut() else { return };
    for other in others.iter_mut().chain(by_hand.iter_mut()) {
        other.behind = behind(first, other);
    }
}

/// Why the second one is not before the first.
fn behind(first: &Plan, other: &Plan) -> String {
    let (a, b) = (&first.rank, &other.rank);
    if b < a {
        return "It would stand before the plans below.".into();
    }
    let more = |what: &str, a: u32, b: u32| format!("It has {b} {what}, and the first plan {a}.");
    if a.wrong != b.wrong {
        "Something speaks against it that does not against the first plan.".into()
    } else if a.too_thick != b.too_thick {
        "Its sections are thicker than 2 mm.".into()
    } else if a.weak != b.weak {
        "An odd section stands first or last, or a four is sewn by itself.".into()
    } else if a.paper_band != b.paper_band {
        let percent = 100.0 * other.sheets_run as f64 / first.sheets_run.max(1) as f64 - 100.0;
        format!(
            "It takes {} sheets, {} % more than the first plan.",
            other.sheets_run,
            short((percent * 10.0).round() / 10.0)
        )
    } else if a.work != b.work {
        more("pieces to be folded, wrapped round or inset for a copy", a.work, b.work)
    } else if a.different != b.different {
        more("different sheets to be made ready", a.different, b.different)
    } else if a.sewn != b.sewn {
        more("sections to be sewn", a.sewn, b.sewn)
    } else if a.sheets != b.sheets {
        format!("It takes {} sheets, and the first plan {}.", b.sheets, a.sheets)
    } else {
        "It is as good as the first plan.".into()
    }
}
