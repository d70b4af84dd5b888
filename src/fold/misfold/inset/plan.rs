//! What a right section is: the numbers of its pages, the leaves that are joined, the middle where an inset lies.

use super::half::HalfSheets;
use super::made_of::MadeOf;
use crate::fold::misfold::{FoundPage, MAX_EXPLAINED, NotExplained};
use crate::fold::{Direction, Landing, Scheme, Section};

/// One of the sheets of a section.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SheetOf {
    /// The only one, or the one that lies outside.
    Outer,
    /// The one that is laid in.
    Inset,
    /// What is laid into the inset in its turn. It is taken to be right.
    Core,
}

/// A sheet of the plan.
#[derive(Clone, Debug)]
struct Sheet {
    scheme: Scheme,
    /// Its pages.
    pages: i64,
    /// The pages before its middle opening.
    middle: i64,
    /// Leaves of the sheet, from 1, that are one piece of paper across the spine.
    joined: Vec<[i64; 2]>,
}

/// A right section: a sheet, or a sheet with another one laid into its middle.
#[derive(Clone, Debug)]
pub struct Plan {
    first: i64,
    outer: Sheet,
    inset: Option<Sheet>,
    /// Sheets that lie in the inset, each in the middle of the one before.
    core: Vec<Sheet>,
    /// The pages of every section that comes from the same sheet, and which of them this one is.
    lanes: (Vec<i64>, usize),
    /// How the sections of the same sheet are folded, where that is known.
    beside: Vec<Vec<Scheme>>,
    halves: Option<HalfSheets>,
}

impl Plan {
    /// The plan of a section that begins with a page.
    ///
    /// # Errors
    /// When a scheme gives no section or too large a one; with the sheet that is to blame.
    pub fn of(scheme: &Scheme, first_page: u32, inset: Option<&Scheme>) -> Result<Self, (SheetOf, NotExplained)> {
        let outer = Sheet::of(scheme).map_err(|why| (SheetOf::Outer, why))?;
        let inset = inset.map(Sheet::of).transpose().map_err(|why| (SheetOf::Inset, why))?;
        let plan = Self {
            first: i64::from(first_page),
            outer,
            inset,
            core: Vec::new(),
            lanes: (Vec::new(), 0),
            beside: Vec::new(),
            halves: None,
        };
        Ok(plan.alone())
    }

    /// The plan of a section of a slit sheet. It begins with a page.
    ///
    /// # Errors
    /// As [`Plan::of`].
    pub fn made_of(made: &MadeOf, first_page: u32) -> Result<Self, (SheetOf, NotExplained)> {
        let mut plan = Self::of_pieces(&made.pieces, first_page)?;
        plan.halves.clone_from(&made.halves);
        plan.beside = made.lanes.iter().map(|lane| lane.pieces.clone()).collect();
        plan.lanes = (made.lanes.iter().map(|lane| i64::from(lane.pages)).collect(), made.lane);
        // What the pieces say of this section holds.
        Ok(if plan.lanes.0.get(made.lane) == Some(&plan.pages()) { plan } else { plan.alone() })
    }

    /// The plan of a section of several pieces, the outermost first.
    fn of_pieces(pieces: &[Scheme], first_page: u32) -> Result<Self, (SheetOf, NotExplained)> {
        let mut pieces = pieces.iter();
        let none = (SheetOf::Outer, NotExplained::TooLarge);
        let mut plan = Self::of(pieces.next().ok_or(none)?, first_page, pieces.next())?;
        plan.core = pieces.map(Sheet::of).collect::<Result<_, _>>().map_err(|why| (SheetOf::Core, why))?;
        Ok(plan)
    }

    /// The plan of another section of the same sheet, or of one like it, so many sections on.
    #[must_use]
    pub fn of_other(&self, offset: i64) -> Option<Self> {
        let (lanes, lane) = &self.lanes;
        let at = (*lane as i64 + offset).rem_euclid(lanes.len().max(1) as i64);
        let pieces = self.beside.get(usize::try_from(at).ok()?)?;
        Self::of_pieces(pieces, u32::try_from(self.start_of(offset)).ok()?).ok()
    }

    /// The same with every section like this one.
    fn alone(mut self) -> Self {
        self.lanes = (vec![self.pages()], 0);
        self
    }

    /// What comes of the sheet backed up wrong, where one forme is known to print both its sides.
    #[must_use]
    pub fn halves(&self) -> Option<&HalfSheets> {
        self.halves.as_ref()
    }

    /// The other sections of the same sheet, as so many sections on from this one.
    #[must_use]
    pub fn lane_offsets(&self) -> Vec<i32> {
        let (lanes, lane) = &self.lanes;
        let own = i32::try_from(*lane).unwrap_or(0);
        (0i32..).take(lanes.len()).map(|other| other - own).filter(|offset| *offset != 0).collect()
    }

    /// The first page of the section so many sections on, if all sheets are alike.
    #[must_use]
    pub fn start_of(&self, offset: i64) -> i64 {
        let (lanes, lane) = &self.lanes;
        let (many, total) = (lanes.len().max(1) as i64, lanes.iter().sum::<i64>());
        let at = *lane as i64 + offset;
        let before = |lane: usize| lanes.iter().take(lane).sum::<i64>();
        let within = usize::try_from(at.rem_euclid(many)).map_or(0, before);
        self.first - before(*lane) + at.div_euclid(many) * total + within
    }

    /// The pages of the section so many sections on.
    #[must_use]
    pub fn pages_at(&self, offset: i64) -> i64 {
        self.start_of(offset + 1) - self.start_of(offset)
    }

    /// Whether a second sheet belongs inside.
    #[must_use]
    pub fn has_inset(&self) -> bool {
        self.inset.is_some()
    }

    /// How a sheet should be folded; `None` where there is no inset.
    #[must_use]
    pub fn scheme(&self, which: SheetOf) -> Option<&Scheme> {
        Some(&self.sheet(which)?.scheme)
    }

    /// How the inset should be folded, or the outer sheet where there is none.
    pub(in crate::fold::misfold) fn scheme_of(&self, which: SheetOf) -> &Scheme {
        &self.sheet(which).unwrap_or(&self.outer).scheme
    }

    /// The first page.
    #[must_use]
    pub fn first(&self) -> i64 {
        self.first
    }

    /// The pages of the section.
    #[must_use]
    pub fn pages(&self) -> i64 {
        self.outer.pages + self.inset_pages()
    }

    /// The pages of all that lies in the outer sheet.
    #[must_use]
    pub fn inset_pages(&self) -> i64 {
        self.pages_of(SheetOf::Inset) + self.core_pages()
    }

    /// The pages of what lies in the inset.
    #[must_use]
    pub fn core_pages(&self) -> i64 {
        self.core.iter().map(|sheet| sheet.pages).sum()
    }

    /// The pages before the middle of all that lies in the outer sheet.
    #[must_use]
    pub fn middle_of_insets(&self) -> i64 {
        self.middle_of(SheetOf::Inset) + self.core.iter().map(|sheet| sheet.middle).sum::<i64>()
    }

    /// The pages of one sheet; 0 where there is no inset.
    #[must_use]
    pub fn pages_of(&self, which: SheetOf) -> i64 {
        self.sheet(which).map_or(0, |s| s.pages)
    }

    /// The pages before the middle opening of a sheet.
    #[must_use]
    pub fn middle_of(&self, which: SheetOf) -> i64 {
        self.sheet(which).map_or(0, |s| s.middle)
    }

    fn sheet(&self, which: SheetOf) -> Option<&Sheet> {
        match which {
            SheetOf::Outer => Some(&self.outer),
            SheetOf::Inset => self.inset.as_ref(),
            SheetOf::Core => None,
        }
    }

    /// The right pages of one sheet, from front to back.
    #[must_use]
    pub fn row(&self, which: SheetOf, section_offset: i64) -> Vec<FoundPage> {
        let base = section_offset * self.pages_of(which);
        (1..=self.pages_of(which)).filter_map(|p| upright(self.number(which, base + p))).collect()
    }

    /// The right pages of the section, from front to back.
    #[must_use]
    pub fn due(&self) -> Vec<FoundPage> {
        (self.first..self.first + self.pages()).filter_map(|n| upright(u32::try_from(n).ok())).collect()
    }

    /// The number printed on a page of a sheet, counted from 1 in it. Pages of the same sheet of other sections come
    /// before and after, as if they were printed alone. `None` where that is below 1.
    #[must_use]
    pub fn number(&self, which: SheetOf, page: i64) -> Option<u32> {
        let pages = self.pages_of(which).max(1);
        let (section, page) = ((page - 1).div_euclid(pages), (page - 1).rem_euclid(pages));
        let within = match which {
            SheetOf::Inset if page < self.middle_of(SheetOf::Inset) => self.outer.middle + page,
            SheetOf::Inset => self.outer.middle + page + self.core_pages(),
            SheetOf::Outer if page < self.outer.middle => page,
            SheetOf::Outer => page + self.inset_pages(),
            SheetOf::Core => return None,
        };
        u32::try_from(self.start_of(section) + within).ok().filter(|n| *n > 0)
    }

    /// The right pages of what lies in the inset.
    #[must_use]
    pub fn core_row(&self, section_offset: i64) -> Vec<FoundPage> {
        let from = self.start_of(section_offset) + self.outer.middle + self.middle_of(SheetOf::Inset);
        (from..from + self.core_pages()).filter_map(|n| upright(u32::try_from(n).ok().filter(|n| *n > 0))).collect()
    }

    /// For each leaf of what lies in the inset, the number of its paper: joined leaves have the same.
    #[must_use]
    pub fn core_papers(&self) -> Vec<u32> {
        let before = (self.outer.middle + self.middle_of(SheetOf::Inset)) / 2;
        let joined = self.joined();
        let paper = |leaf: i64| joined.iter().find(|pair| pair.contains(&leaf)).map_or(leaf, |pair| pair[0]);
        (before + 1..=before + self.core_pages() / 2).filter_map(|leaf| u32::try_from(paper(leaf)).ok()).collect()
    }

    /// The sheet that a printed number belongs to, and its page there; the inverse of [`number`](Self::number).
    #[must_use]
    pub fn page(&self, number: u32) -> (SheetOf, i64) {
        let (section, within) = self.within(number);
        let (middle, inset, core) = (self.outer.middle, self.pages_of(SheetOf::Inset), self.core_pages());
        let inside = self.middle_of(SheetOf::Inset);
        if within < middle {
            (SheetOf::Outer, section * self.outer.pages + within + 1)
        } else if within < middle + inside {
            (SheetOf::Inset, section * inset + within - middle + 1)
        } else if within < middle + inside + core {
            (SheetOf::Core, section * core + within - middle - inside + 1)
        } else if within < middle + inset + core {
            (SheetOf::Inset, section * inset + within - middle - core + 1)
        } else {
            (SheetOf::Outer, section * self.outer.pages + within - inset - core + 1)
        }
    }

    /// How many sections further on a printed number belongs, and how many pages of its section stand before it.
    fn within(&self, number: u32) -> (i64, i64) {
        let (lanes, lane) = &self.lanes;
        let from_sheet = i64::from(number) - self.start_of(-(*lane as i64));
        let total = lanes.iter().sum::<i64>().max(1);
        let (sheet, mut rest) = (from_sheet.div_euclid(total), from_sheet.rem_euclid(total));
        let mut section = sheet * lanes.len() as i64 - *lane as i64;
        for pages in lanes {
            if rest < *pages {
                break;
            }
            rest -= pages;
            section += 1;
        }
        (section, rest)
    }

    /// How many sections further on a printed number belongs (0: to this one), and its leaf there, from 1.
    #[must_use]
    pub fn leaf(&self, number: u32) -> (i64, i64) {
        let (section, within) = self.within(number);
        (section, within / 2 + 1)
    }

    /// The leaves of the section, from 1, that are one piece of paper across the spine.
    #[must_use]
    pub fn joined(&self) -> Vec<[i64; 2]> {
        let sheets: Vec<&Sheet> = std::iter::once(&self.outer).chain(&self.inset).chain(&self.core).collect();
        let (mut all, mut before) = (Vec::new(), 0);
        for (i, sheet) in sheets.iter().enumerate() {
            let inside: i64 = sheets.iter().skip(i + 1).map(|s| s.pages / 2).sum();
            let middle = sheet.middle / 2;
            let leaf = |leaf: i64| before + if leaf <= middle { leaf } else { leaf + inside };
            all.extend(sheet.joined.iter().map(|pair| pair.map(leaf)));
            before += middle;
        }
        all
    }
}

impl Sheet {
    fn of(scheme: &Scheme) -> Result<Self, NotExplained> {
        scheme.check_size()?;
        if scheme.leaves() > MAX_EXPLAINED {
            return Err(NotExplained::TooLarge);
        }
        let landing = Landing::of_section(&Section::of_scheme(scheme)?);
        let pages = i64::from(scheme.pages());
        let leaf = |page: u32| i64::from(page.div_ceil(2));
        let joined: Vec<[i64; 2]> = landing
            .pages
            .iter()
            .filter(|p| p.page % 2 == 0)
            .filter_map(|p| p.conjugate.filter(|c| *c > p.page).map(|c| [leaf(p.page), leaf(c)]))
            .collect();
        // The middle is where two joined leaves lie on each other; without one, after half of the leaves.
        let meet = joined.iter().filter(|[a, b]| a + 1 == *b).map(|[a, _]| 2 * a);
        let half = pages / 4 * 2;
        let middle = meet.min_by_key(|m| (m - half).abs()).unwrap_or(half);
        Ok(Self { scheme: scheme.clone(), pages, middle, joined })
    }
}

/// A page with its head up.
pub(super) fn upright(number: Option<u32>) -> Option<FoundPage> {
    Some(FoundPage { page: Some(number?), head: Some(Direction::Up) })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fold::library;

    fn named(name: &str) -> Scheme {
        library().into_iter().find(|n| n.name == name).unwrap().scheme
    }

    #[test]
    fn one_sheet_counts_on_from_its_first_page() {
        for named in library() {
            let plan = Plan::of(&named.scheme, 17, None).unwrap();
            assert_eq!(plan.row(SheetOf::Outer, 0), plan.due());
            assert_eq!(plan.due().first().unwrap().page, Some(17));
            assert_eq!(plan.due().len() as u32, named.scheme.pages());
            assert_eq!(plan.middle_of(SheetOf::Outer) as u32, named.scheme.pages() / 2 / 2 * 2, "{}", named.name);
        }
    }

    #[test]
    fn an_inset_lies_in_the_middle_and_pages_number_through() {
        let (sixteen, eight) = (named("Sixteen, three folds"), named("Eight, two right-angle folds"));
        let plan = Plan::of(&sixteen, 25, Some(&eight)).unwrap();
        let numbers = |row: Vec<FoundPage>| row.into_iter().filter_map(|p| p.page).collect::<Vec<_>>();
        assert_eq!(numbers(plan.due()), (25..49).collect::<Vec<_>>());
        assert_eq!(numbers(plan.row(SheetOf::Outer, 0)), (25..33).chain(41..49).collect::<Vec<_>>());
        assert_eq!(numbers(plan.row(SheetOf::Inset, 0)), (33..41).collect::<Vec<_>>());
        assert_eq!(numbers(plan.row(SheetOf::Inset, -1)), (9..17).collect::<Vec<_>>());
        assert_eq!(plan.joined(), [[1, 12], [2, 11], [3, 10], [4, 9], [5, 8], [6, 7]]);
        for number in 1..200 {
            let (which, page) = plan.page(number);
            assert_eq!(plan.number(which, page), Some(number));
        }
        assert_eq!(plan.leaf(48), (0, 12));
        assert_eq!(plan.leaf(24), (-1, 12));
    }
}
