//! What a right section is: the numbers of its pages, the leaves that are joined, the middle where an inset lies.

use crate::fold::misfold::{FoundPage, MAX_EXPLAINED, NotExplained};
use crate::fold::{Direction, Landing, Scheme, Section};

/// One of the sheets of a section.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SheetOf {
    /// The only one, or the one that lies outside.
    Outer,
    /// The one that is laid in.
    Inset,
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
}

impl Plan {
    /// The plan of a section that begins with a page.
    ///
    /// # Errors
    /// When a scheme gives no section or too large a one; with the sheet that is to blame.
    pub fn of(scheme: &Scheme, first_page: u32, inset: Option<&Scheme>) -> Result<Self, (SheetOf, NotExplained)> {
        let outer = Sheet::of(scheme).map_err(|why| (SheetOf::Outer, why))?;
        let inset = inset.map(Sheet::of).transpose().map_err(|why| (SheetOf::Inset, why))?;
        Ok(Self { first: i64::from(first_page), outer, inset })
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
        self.outer.pages + self.inset.as_ref().map_or(0, |i| i.pages)
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
        let inset = self.pages_of(SheetOf::Inset);
        let within = match which {
            SheetOf::Inset => self.outer.middle + page,
            SheetOf::Outer if page < self.outer.middle => page,
            SheetOf::Outer => page + inset,
        };
        u32::try_from(self.first + section * self.pages() + within).ok().filter(|n| *n > 0)
    }

    /// The sheet that a printed number belongs to, and its page there; the inverse of [`number`](Self::number).
    #[must_use]
    pub fn page(&self, number: u32) -> (SheetOf, i64) {
        let from_first = i64::from(number) - self.first;
        let (section, within) = (from_first.div_euclid(self.pages()), from_first.rem_euclid(self.pages()));
        let (middle, inset) = (self.outer.middle, self.pages_of(SheetOf::Inset));
        if within < middle {
            (SheetOf::Outer, section * self.outer.pages + within + 1)
        } else if within < middle + inset {
            (SheetOf::Inset, section * inset + within - middle + 1)
        } else {
            (SheetOf::Outer, section * self.outer.pages + within - inset + 1)
        }
    }

    /// How many sections further on a printed number belongs (0: to this one), and its leaf there, from 1.
    #[must_use]
    pub fn leaf(&self, number: u32) -> (i64, i64) {
        let from_first = i64::from(number) - self.first;
        (from_first.div_euclid(self.pages()), from_first.rem_euclid(self.pages()) / 2 + 1)
    }

    /// The leaves of the section, from 1, that are one piece of paper across the spine.
    #[must_use]
    pub fn joined(&self) -> Vec<[i64; 2]> {
        let (before, inset) = (self.outer.middle / 2, self.pages_of(SheetOf::Inset) / 2);
        let outer = |leaf: i64| if leaf <= before { leaf } else { leaf + inset };
        let outside = self.outer.joined.iter().map(|pair| pair.map(outer));
        let inside = self.inset.iter().flat_map(|i| &i.joined).map(|pair| pair.map(|leaf| leaf + before));
        outside.chain(inside).collect()
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
