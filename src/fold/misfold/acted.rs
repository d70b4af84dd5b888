//! A cause carried out: the sheet as it lies on the bench, how it is folded, and the wrong section that comes of it.
//!
//! What is printed on the faces and the pages found are reckoned in two ways here, the pages by following each place of
//! the section back to the printed sheet, the faces by carrying the print to where the sheet lies. That the faces,
//! folded, give the pages is a test (`tests/fold_act_out.rs`).

use super::act::{Act, Cell, Copies, Printed};
use super::cause::{Cause, Lies, Mark};
use super::explain::{FoldAt, FoundPage, MAX_EXPLAINED, NotExplained, folded};
use crate::fold::{BackMark, Direction, Face, Landing, Reads, Scheme, Side};
use serde::Serialize;

/// A page as it is printed on the sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct PrintedPage {
    /// Its number.
    pub page: u32,
    /// The way its head points, seen from its own side.
    pub head: Direction,
}

/// A printed sheet as it lies on the bench before the first fold.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sheet {
    /// The side that is up, row by row; `None` where nothing is printed.
    pub side_a: Vec<Vec<Option<PrintedPage>>>,
    /// The side beneath, as seen after turning the sheet left to right.
    pub side_b: Vec<Vec<Option<PrintedPage>>>,
    /// Where the back mark is printed on it.
    pub mark: Option<BackMark>,
}

/// A wrong section, and how to make it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Acted {
    /// The folds that were really made. `head` and `reads` say how the section lies in the end, so that a plain reading
    /// of this scheme finds [`Acted::pages`]: for a section that lies wrong they are other than those of the right one.
    pub folded: Scheme,
    /// The sheet; the one nearer to side A where two were folded as one.
    pub sheet: Sheet,
    /// The sheet beneath it, where two were folded as one.
    pub under: Option<Sheet>,
    /// The pages found from front to back, as [`super::explain`] takes them.
    pub pages: Vec<FoundPage>,
    /// The edge where the last fold is found.
    pub fold_at: FoldAt,
    /// What is seen of the back mark on the back.
    pub mark: Mark,
}

impl Acted {
    /// How many sheets were folded as one.
    #[must_use]
    pub const fn sheets(&self) -> u32 {
        if self.under.is_some() { 2 } else { 1 }
    }
}

/// Carries out a cause in the first of its ways; see [`acts_out_all`].
///
/// # Errors
/// As [`acts_out_all`].
pub fn act_out(scheme: &Scheme, first_page: u32, cause: &Cause) -> Result<Acted, NotExplained> {
    let ways = acts_out_all(scheme, first_page, cause)?;
    ways.into_iter().next().ok_or_else(|| refused("", "there is no way to carry this out"))
}

/// Carries out a cause in every way that it stands for.
///
/// A fault of the second side may be one of either forme, the inner one first; a wrong second side may come from the
/// next section, which comes first, or from the one before; of two sheets folded as one, a fault of a side may be on
/// both, on one of them, or where they touched.
///
/// # Errors
/// When the scheme gives no section or too large a one, the cause names folds or pages that are not there, a fold
/// can't be made so, or two causes at once are more than two or of one family.
pub fn acts_out_all(scheme: &Scheme, first_page: u32, cause: &Cause) -> Result<Vec<Acted>, NotExplained> {
    let bench = Bench::of(scheme, first_page)?;
    bench.act_out(cause)
}

/// The right section and its sheet, as if it were a cause.
pub(super) fn rightly(scheme: &Scheme, first_page: u32) -> Result<Acted, NotExplained> {
    let bench = Bench::of(scheme, first_page)?;
    let way = Way { acts: &[], shift: 0, labels: &[] };
    let Found { folded, pages, fold_at, mark } = bench.way(&way)?;
    Ok(Acted { folded, sheet: bench.sheet(&way, None), under: None, pages, fold_at, mark })
}

fn refused(at: &str, says: impl Into<String>) -> NotExplained {
    NotExplained::Cause { at: at.into(), says: says.into() }
}

/// Where causes are acted out: a right section and the sheet printed for it.
pub(super) struct Bench<'a> {
    scheme: &'a Scheme,
    printed: Printed,
    first: i64,
    pages: i64,
    inner: Side,
}

/// What is done wrong: acts that the engine carries out, how far a wrong second side's numbers lie from these, and
/// faults of single pages.
struct Way<'a> {
    acts: &'a [Act],
    shift: i64,
    labels: &'a [&'a Cause],
}

/// What is found of a wrong section, without the sheet that it was made of.
#[derive(PartialEq)]
pub(super) struct Found {
    folded: Scheme,
    pub(super) pages: Vec<FoundPage>,
    pub(super) fold_at: FoldAt,
    pub(super) mark: Mark,
}

impl<'a> Bench<'a> {
    pub(super) fn of(scheme: &'a Scheme, first_page: u32) -> Result<Self, NotExplained> {
        scheme.check_size()?;
        if scheme.leaves() > MAX_EXPLAINED {
            return Err(NotExplained::TooLarge);
        }
        let right = folded(scheme)?;
        let pages = scheme.pages();
        if first_page == 0 || first_page.checked_add(2 * pages).is_none() {
            return Err(NotExplained::FirstPage(first_page));
        }
        let printed = Printed::for_section(&right);
        let inner = Landing::of_section(&right).outer_forme().other();
        Ok(Self { scheme, printed, first: i64::from(first_page), pages: i64::from(pages), inner })
    }

    /// The pages of the right section.
    pub(super) fn right(&self) -> Vec<FoundPage> {
        let numbers = self.first..self.first + self.pages;
        numbers.map(|page| found_page(Some((page, true)))).collect()
    }

    fn act_out(&self, cause: &Cause) -> Result<Vec<Acted>, NotExplained> {
        self.each_way(cause, |way, found| {
            let double = way.acts.contains(&Act::Double);
            let Found { folded, pages, fold_at, mark } = found;
            let sheet = self.sheet(way, double.then_some(true));
            Acted { folded, sheet, under: double.then(|| self.sheet(way, Some(false))), pages, fold_at, mark }
        })
    }

    /// What is found of each way, without a drawing of the sheet.
    pub(super) fn found(&self, cause: &Cause) -> Result<Vec<Found>, NotExplained> {
        self.each_way(cause, |_, found| found)
    }

    fn each_way<T: PartialEq>(&self, cause: &Cause, told: impl Fn(&Way, Found) -> T) -> Result<Vec<T>, NotExplained> {
        let singles = self.checked(cause)?;
        let mut together: Vec<Vec<Act>> = vec![Vec::new()];
        let double = singles.iter().any(|c| matches!(c, Cause::DoubleSheet));
        for single in &singles {
            let ways = self.ways(single, double);
            if ways.is_empty() {
                continue;
            }
            together = together.iter().flat_map(|t| ways.iter().map(|w| [t.as_slice(), &[*w]].concat())).collect();
        }
        let labels: Vec<&Cause> = singles
            .iter()
            .copied()
            .filter(|c| matches!(c, Cause::PagesExchanged { .. } | Cause::PageHeadDown { .. }))
            .collect();
        let mut all: Vec<T> = Vec::new();
        for acts in &together {
            for shift in self.shifts(acts) {
                let way = Way { acts, shift, labels: &labels };
                let one = told(&way, self.way(&way)?);
                if !all.contains(&one) {
                    all.push(one);
                }
            }
        }
        Ok(all)
    }

    /// The single causes, if they can be acted out together.
    fn checked<'c>(&self, cause: &'c Cause) -> Result<Vec<&'c Cause>, NotExplained> {
        let Cause::Together { causes } = cause else {
            self.check(cause, "", matches!(cause, Cause::WrongSecondSide))?;
            return Ok(vec![cause]);
        };
        let [one, other] = causes.as_slice() else {
            return Err(refused("causes", "two causes are acted out at once, no more and no fewer"));
        };
        let alien = causes.contains(&Cause::WrongSecondSide);
        self.check(one, "causes[0].", alien)?;
        self.check(other, "causes[1].", alien)?;
        let of_one_family = |a: &Cause, b: &Cause| {
            let acts = |c: &Cause| self.ways(c, false).into_iter().next();
            a == b || acts(a).zip(acts(b)).is_some_and(|(a, b)| !a.goes_with(b))
        };
        if of_one_family(one, other) {
            let says = "these two are of one family: together they are another one of it, or nothing at all";
            return Err(refused("causes", says));
        }
        Ok(vec![one, other])
    }

    fn check(&self, cause: &Cause, under: &str, alien: bool) -> Result<(), NotExplained> {
        let (from, end) = (self.first, self.first + self.pages);
        let page = |page: u32, at: String| {
            let page = i64::from(page);
            let reach = if alien { self.pages } else { 0 };
            if ((from - reach).max(1)..end + reach).contains(&page) {
                return Ok(());
            }
            Err(refused(&at, format!("this section has pages {from} to {}", end - 1)))
        };
        match cause {
            Cause::FoldOtherWay { fold } | Cause::FoldFromOtherEdge { fold } => {
                let folds = self.scheme.folds.len();
                if (1..=folds).contains(&(*fold as usize)) {
                    return Ok(());
                }
                Err(refused(&format!("{under}fold"), format!("folds are numbered from 1 to {folds}")))
            }
            Cause::PageHeadDown { page: p } => page(*p, format!("{under}page")),
            Cause::PagesExchanged { pages: [a, b] } => {
                page(*a, format!("{under}pages[0]"))?;
                page(*b, format!("{under}pages[1]"))?;
                if a < b {
                    return Ok(());
                }
                Err(refused(&format!("{under}pages"), "two pages are exchanged, the smaller number first"))
            }
            Cause::Together { .. } => Err(refused(&format!("{under}kind"), "a cause inside together is a single one")),
            _ => Ok(()),
        }
    }

    /// The acts that a single cause may be; none where only the print of single pages is wrong.
    fn ways(&self, cause: &Cause, double: bool) -> Vec<Act> {
        let sides = [self.inner, self.inner.other()];
        let copies: &[Copies] = if double { &Copies::ONE } else { &[Copies::All] };
        let each = |act: &dyn Fn(Copies) -> Vec<Act>| copies.iter().flat_map(|copies| act(*copies)).collect();
        let fold = |fold: u32| (fold as usize).saturating_sub(1);
        match cause {
            Cause::FoldOtherWay { fold: f } => vec![Act::Way(fold(*f))],
            Cause::FoldFromOtherEdge { fold: f } => vec![Act::Edge(fold(*f))],
            Cause::SheetEndForEnd => vec![Act::Laid { x: true, y: true }],
            Cause::SheetTurnedOver { about } => {
                let x = *about == crate::fold::Crease::Vertical;
                vec![Act::Laid { x, y: !x }]
            }
            Cause::SecondSideTurnedRound => each(&|copies| sides.map(|side| Act::Turned(side, copies)).to_vec()),
            Cause::WrongSecondSide => each(&|copies| sides.map(|side| Act::Alien(side, copies)).to_vec()),
            Cause::SecondSideBlank { side } if double => Copies::BLANK.map(|c| Act::Blank(*side, c)).to_vec(),
            Cause::SecondSideBlank { side } => vec![Act::Blank(*side, Copies::All)],
            Cause::SectionLies { lies } => vec![Act::Lies(*lies)],
            Cause::DoubleSheet => vec![Act::Double],
            Cause::PagesExchanged { .. } | Cause::PageHeadDown { .. } | Cause::Together { .. } => Vec::new(),
        }
    }

    /// How far the numbers of the other section lie from those of this one.
    fn shifts(&self, acts: &[Act]) -> Vec<i64> {
        if !acts.iter().any(|a| matches!(a, Act::Alien(..))) {
            return vec![0];
        }
        let mut shifts = vec![self.pages];
        if self.first > self.pages {
            shifts.push(-self.pages);
        }
        shifts
    }

    fn way(&self, way: &Way) -> Result<Found, NotExplained> {
        let made = way.acts.iter().fold(self.scheme.clone(), |scheme, act| act.refolded(&scheme));
        let section = folded(&made).map_err(|why| refused("", format!("with this no section can be folded: {why}")))?;
        let reading = self.printed.read(&section, way.acts);
        let mut shown: Vec<Label> = reading.cells.iter().map(|cell| self.label(cell, way.shift)).collect();
        way.mislabel(&mut shown);
        Ok(Found {
            folded: way.acts.iter().fold(made, |scheme, act| lying(scheme, *act)),
            pages: shown.into_iter().map(found_page).collect(),
            fold_at: if reading.fore_edge { FoldAt::ForeEdge } else { FoldAt::Spine },
            mark: reading.mark,
        })
    }

    fn label(&self, cell: &Cell, shift: i64) -> Label {
        match *cell {
            Cell::Blank => None,
            Cell::Page { page, up, alien } => {
                Some((self.first - 1 + i64::from(page) + if alien { shift } else { 0 }, up))
            }
        }
    }

    /// What is printed on one sheet as it lies; `upper` says which of two it is.
    fn sheet(&self, way: &Way, upper: Option<bool>) -> Sheet {
        let (rows, columns) = (self.scheme.rows, self.scheme.columns);
        let seen = |side: Side| {
            let row = |row: u32| {
                let page = |seen: u32| {
                    let column = if side == Side::A { seen } else { columns - 1 - seen };
                    let face = Face { side, row, column };
                    let (cell, head) = self.printed.face(face, way.acts, upper)?;
                    // Up stands for the head as it is printed where nothing is wrong with this one page.
                    let mut label = [self.label(&cell, way.shift)];
                    way.mislabel(&mut label);
                    let (page, up) = label.first().copied().flatten()?;
                    let head = if up { head } else { head.opposite() };
                    Some(PrintedPage { page: u32::try_from(page).ok()?, head })
                };
                (0..columns).map(page).collect()
            };
            (0..rows).map(row).collect()
        };
        Sheet { side_a: seen(Side::A), side_b: seen(Side::B), mark: self.printed.mark_as_it_lies(way.acts, upper) }
    }
}

/// The number printed, and whether the head points right.
type Label = Option<(i64, bool)>;

fn found_page(label: Label) -> FoundPage {
    let head = label.map(|(_, up)| if up { Direction::Up } else { Direction::Down });
    FoundPage { page: label.and_then(|(page, _)| u32::try_from(page).ok()), head }
}

impl Way<'_> {
    /// Puts single pages in each other's place and on their heads. A page that stands head down does so wherever it
    /// stands, so the exchanges come first.
    fn mislabel(&self, shown: &mut [Label]) {
        for (page, up) in shown.iter_mut().flatten() {
            for label in self.labels {
                if let Cause::PagesExchanged { pages: [a, b] } = label {
                    let (a, b) = (i64::from(*a), i64::from(*b));
                    *page = match *page {
                        p if p == a => b,
                        p if p == b => a,
                        p => p,
                    };
                }
            }
            *up ^= self.labels.iter().any(|l| matches!(l, Cause::PageHeadDown { page: p } if i64::from(*p) == *page));
        }
    }
}

/// How the finished section is held: head to tail is the head at its other end, side to side the fold on the reader's
/// other side.
fn lying(mut scheme: Scheme, act: Act) -> Scheme {
    let Act::Lies(lies) = act else { return scheme };
    if lies != Lies::SideToSide {
        scheme.head = scheme.head.opposite();
    }
    if lies != Lies::HeadToTail {
        scheme.reads = match scheme.reads {
            Reads::LeftToRight => Reads::RightToLeft,
            Reads::RightToLeft => Reads::LeftToRight,
        };
    }
    scheme
}
