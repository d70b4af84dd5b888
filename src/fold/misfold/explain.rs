//! The search: every single cause, then every two at once, acted out and compared with what was found.

use super::act::{Act, Cell, Printed, Reading};
use super::cause::{Cause, Mark, Stage};
use super::labels::{self, Agrees, Shown};
use crate::fold::{Direction, FoldError, Place, Scheme, Section};
use serde::{Deserialize, Serialize};
use thiserror::Error;

/// The most panels of a sheet whose section is explained. A bound on work: every fold is tried both ways.
pub const MAX_EXPLAINED: u32 = 128;

/// How many layers and pages may be handled before the search for two causes at once is cut.
const MAX_WORK: u64 = 3_000_000;

/// How many other causes stand under one that gives the same pages, and how many such groups are shown.
const MAX_SHOWN: usize = 64;

/// A page found, front to back.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FoundPage {
    /// The number printed; `None` where nothing is printed. The field must be there.
    #[serde(deserialize_with = "Option::deserialize")]
    pub page: Option<u32>,
    /// Up where the head points as that of a right page; `None` where it was not looked at.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub head: Option<Direction>,
}

/// The edge on which the last fold of the section was found.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum FoldAt {
    /// At the back, where it belongs.
    #[default]
    Spine,
    /// At the edge that opens.
    ForeEdge,
}

/// A cause that gives the pages found.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Explanation {
    /// The cause.
    pub cause: Cause,
    /// Where it lies.
    pub stage: Stage,
    /// What is seen of the back mark.
    pub mark: Mark,
    /// Other causes that give the same pages; only a look at the sheet or the machine tells them apart.
    pub same_pages_as: Vec<Cause>,
    /// What settles it.
    pub next_check: String,
    /// What to mind while looking.
    pub caution: String,
}

/// What was found out about a section.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Explained {
    /// The causes, best first. None where the pages are right, and none where nothing known gives them.
    pub causes: Vec<Explanation>,
    /// Whether the pages are right.
    pub right: bool,
    /// Whether every single cause and every two at once were tried and shown.
    pub complete: bool,
}

/// Why a section is not explained.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum NotExplained {
    /// The scheme gives no section.
    #[error("{0}")]
    Fold(#[from] FoldError),
    /// The sheet is too large.
    #[error("rows times columns may be {MAX_EXPLAINED} at the most where a section is explained")]
    TooLarge,
    /// Neither the pages of one sheet nor those of two.
    #[error("this section has {one} pages, or {} where two sheets were folded as one; {given} are given", 2 * .one)]
    Count {
        /// The pages of the scheme.
        one: usize,
        /// The pages given.
        given: usize,
    },
    /// Page numbers would leave what a number can hold.
    #[error("the section can't begin with page {0}")]
    FirstPage(u32),
    /// A cause that can't be acted out on this sheet.
    #[error("{says}")]
    Cause {
        /// The path from the cause to what is wrong, as in `causes[1].fold`; empty for the cause as a whole.
        at: String,
        /// What is wrong there.
        says: String,
    },
}

impl NotExplained {
    /// The part of the scheme that is to blame; `None` where the pages or the cause are.
    #[must_use]
    pub const fn place(&self) -> Option<Place> {
        match self {
            Self::Fold(why) => Some(why.place()),
            Self::TooLarge => Some(Place::Columns),
            Self::Count { .. } | Self::FirstPage(_) | Self::Cause { .. } => None,
        }
    }
}

/// Finds what was done wrong to a section that should read `first_page` onward.
///
/// # Errors
/// When the scheme gives no section or too large a one, or the number of pages fits neither one sheet nor two.
pub fn explain(
    scheme: &Scheme,
    first_page: u32,
    fold_at: FoldAt,
    found: &[FoundPage],
) -> Result<Explained, NotExplained> {
    explain_by(labels::same, scheme, first_page, fold_at, found)
}

/// The same with the comparison given. All that is told comes from comparing what the acts give with what was found; a
/// comparison that always or never agrees tells nothing (`tests.rs`).
pub(super) fn explain_by(
    agrees: Agrees,
    scheme: &Scheme,
    first_page: u32,
    fold_at: FoldAt,
    found: &[FoundPage],
) -> Result<Explained, NotExplained> {
    scheme.check_size()?;
    if scheme.leaves() > MAX_EXPLAINED {
        return Err(NotExplained::TooLarge);
    }
    let right = folded(scheme)?;
    let one = right.faces.len();
    if found.len() != one && found.len() != 2 * one {
        return Err(NotExplained::Count { one, given: found.len() });
    }
    let printed = Printed::for_section(&right);
    let first = i64::from(first_page);
    let mut search = Search {
        printed,
        agrees,
        found,
        own: first..first + one as i64,
        copies: found.len() / one,
        fore_edge: fold_at == FoldAt::ForeEdge,
        fits: Vec::new(),
    };
    let good = search.printed.read(&right, &[]);
    if search.fits_as_it_is(&good) {
        return Ok(Explained { causes: Vec::new(), right: true, complete: true });
    }
    search.compare(&good, &[], 2);
    let tried = search.singles(scheme, &right, &good);
    let complete = search.pairs(scheme, &right, &good, &tried);
    Ok(search.shown(complete))
}

pub(super) fn folded(scheme: &Scheme) -> Result<Section, FoldError> {
    Section::of_scheme(scheme)
}

/// A single act that changes something, the section folded under it, and what it gives.
struct Tried {
    act: Act,
    section: Option<Section>,
    reading: Reading,
}

/// A cause that gives what was found.
struct Fit {
    cause: Cause,
    shown: Vec<Shown>,
    mark: Mark,
}

struct Search<'a> {
    printed: Printed,
    agrees: Agrees,
    found: &'a [FoundPage],
    own: std::ops::Range<i64>,
    copies: usize,
    fore_edge: bool,
    fits: Vec<Fit>,
}

impl Search<'_> {
    fn singles(&mut self, scheme: &Scheme, right: &Section, good: &Reading) -> Vec<Tried> {
        let mut tried = Vec::new();
        for act in Act::all(scheme.folds.len()) {
            // A fold that cannot be made so, because a later one then misses the packet, is no cause.
            let section = if act.folds() { folded(&act.refolded(scheme)).ok() } else { None };
            if act.folds() && section.is_none() {
                continue;
            }
            let reading = self.printed.read(section.as_ref().unwrap_or(right), &[act]);
            if act.alone() {
                if same_pages(&reading, good) {
                    continue;
                }
                self.compare(&reading, &[act], 1);
            }
            tried.push(Tried { act, section, reading });
        }
        tried
    }

    /// Every two at once; `false` where the work was cut.
    fn pairs(&mut self, scheme: &Scheme, right: &Section, good: &Reading, tried: &[Tried]) -> bool {
        let folding = scheme.folds.len() as u64 * u64::from(scheme.leaves());
        let reading = self.found.len() as u64;
        let mut work = 0;
        for (i, one) in tried.iter().enumerate() {
            for other in tried.iter().skip(i + 1).filter(|other| one.act.goes_with(other.act)) {
                // Only two sheets fill twice the pages.
                if (self.copies == 2) != [one.act, other.act].contains(&Act::Double) {
                    continue;
                }
                let both_fold = one.act.folds() && other.act.folds();
                work += if both_fold { folding + reading } else { reading };
                if work > MAX_WORK {
                    return false;
                }
                let anew = if both_fold { folded(&other.act.refolded(&one.act.refolded(scheme))).ok() } else { None };
                if both_fold && anew.is_none() {
                    continue;
                }
                let section = anew.as_ref().or(one.section.as_ref()).or(other.section.as_ref()).unwrap_or(right);
                let both = self.printed.read(section, &[one.act, other.act]);
                // Where one of the two changes nothing, the other alone says as much.
                if [good, &one.reading, &other.reading].iter().any(|r| same_pages(r, &both)) {
                    continue;
                }
                self.compare(&both, &[one.act, other.act], 0);
            }
        }
        true
    }

    fn fits_as_it_is(&self, reading: &Reading) -> bool {
        let own = |c: &Cell| self.number(c, 0);
        reading.fore_edge == self.fore_edge
            && reading.cells.len() == self.found.len()
            && reading.cells.iter().zip(self.found).all(|(c, f)| (self.agrees)(&own(c), f))
    }

    fn number(&self, cell: &Cell, shift: i64) -> Shown {
        match cell {
            Cell::Blank => None,
            Cell::Page { page, up, alien } => {
                Some((self.own.start - 1 + i64::from(*page) + if *alien { shift } else { 0 }, *up))
            }
        }
    }

    /// Compares what the acts give with what was found, with up to `most` faults of single pages besides.
    fn compare(&mut self, reading: &Reading, acts: &[Act], most: usize) {
        if reading.fore_edge != self.fore_edge || reading.cells.len() != self.found.len() {
            return;
        }
        for shift in self.shifts(reading) {
            let shown: Vec<Shown> = reading.cells.iter().map(|c| self.number(c, shift)).collect();
            for (faults, shown) in labels::faults(&shown, self.found, most, &self.own, self.copies, self.agrees) {
                let mut causes: Vec<Cause> = acts.iter().map(|act| act.cause()).chain(faults).collect();
                causes.sort_by_key(Cause::order);
                let cause = match causes.len() {
                    0 => continue,
                    1 => causes.remove(0),
                    _ => Cause::Together { causes },
                };
                if !self.fits.iter().any(|fit| fit.cause == cause && fit.shown == shown) {
                    self.fits.push(Fit { cause, shown, mark: reading.mark });
                }
            }
        }
    }

    /// How far the numbers of the other section may lie from those of this one, as the first pages from there say.
    fn shifts(&self, reading: &Reading) -> Vec<i64> {
        const FIRST: usize = 3;
        if !reading.cells.iter().any(|c| matches!(c, Cell::Page { alien: true, .. })) {
            return vec![0];
        }
        let pages = self.own.end - self.own.start;
        let mut shifts = Vec::new();
        let aliens = reading.cells.iter().zip(self.found).filter_map(|(cell, found)| match cell {
            Cell::Page { page, alien: true, .. } => {
                Some(i64::from(found.page?) - (self.own.start - 1 + i64::from(*page)))
            }
            _ => None,
        });
        for shift in aliens.take(FIRST).filter(|s| s.abs() >= pages) {
            if !shifts.contains(&shift) {
                shifts.push(shift);
            }
        }
        shifts
    }

    fn shown(mut self, mut complete: bool) -> Explained {
        self.fits.sort_by_key(|fit| fit.cause.order());
        let mut groups: Vec<(Vec<Shown>, Explanation)> = Vec::new();
        for Fit { cause, shown, mark } in self.fits {
            let among = groups.iter().position(|(other, _)| *other == shown);
            if let Some((_, group)) = among.and_then(|i| groups.get_mut(i)) {
                if group.same_pages_as.len() < MAX_SHOWN {
                    group.same_pages_as.push(cause);
                } else {
                    complete = false;
                }
            } else if groups.len() < MAX_SHOWN {
                let (stage, next_check, caution) = (cause.stage(), cause.next_check(), cause.caution());
                let same_pages_as = Vec::new();
                groups.push((shown, Explanation { cause, stage, mark, same_pages_as, next_check, caution }));
            } else {
                complete = false;
            }
        }
        let causes = groups.into_iter().map(|(_, group)| group.told()).collect();
        Explained { causes, right: false, complete }
    }
}

fn same_pages(a: &Reading, b: &Reading) -> bool {
    a.fore_edge == b.fore_edge && a.cells == b.cells
}

impl Explanation {
    /// Says what tells look-alikes apart, where there are any single ones.
    fn told(mut self) -> Self {
        if self.same_pages_as.iter().any(|c| !matches!(c, Cause::Together { .. })) {
            self.caution = format!(
                "The pages alone can't tell this from what else gives them; look before you set anything. {}",
                self.caution
            );
        }
        self
    }
}
