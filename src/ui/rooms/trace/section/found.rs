//! What was found in a section, page by page, and what is due there. No web in here.

use crate::app::{SectionCase, SectionEvidence, SectionTold};
use crate::fold::Direction;
use crate::fold::misfold::{FoundPage, parse_pages, print_pages};
use std::rc::Rc;

/// The pages of a section as they are known here.
#[derive(Clone, Debug, PartialEq)]
pub struct Found {
    /// What was found, from front to back.
    pub pages: Rc<[FoundPage]>,
    /// What is due, from front to back.
    pub due: Rc<[u32]>,
    /// Where and why the typed pages can't be read.
    pub broken: Option<String>,
    /// Whether the section was made here and not found.
    pub made: bool,
}

impl Found {
    /// What a case holds. `told` is the newest answer about it; `first` and `count` say what a right section has.
    pub fn of(case: &SectionCase, told: Option<&SectionTold>, first: u32, count: u32) -> Self {
        let (pages, broken) = match (&case.evidence, told) {
            (SectionEvidence::Typed(text), _) => match parse_pages(text) {
                Ok(pages) => (pages, None),
                Err(why) => {
                    // What stands before the word that can't be read.
                    let before: String = text.chars().take(why.at.saturating_sub(1)).collect();
                    (parse_pages(&before).unwrap_or_default(), Some(why.to_string()))
                }
            },
            (SectionEvidence::Made(_), Some(told)) => (told.found.clone(), None),
            (SectionEvidence::Made(_), None) => (Vec::new(), None),
        };
        let due = match told.filter(|told| told.due.len() == count as usize) {
            Some(told) => told.due.as_slice().into(),
            None => (first..first.saturating_add(count)).collect(),
        };
        Self { pages: pages.into(), due, broken, made: matches!(case.evidence, SectionEvidence::Made(_)) }
    }

    /// Whether another page stands at a place (from 0) than is due, or one head down, or one too many.
    pub fn is_wrong(&self, at: usize) -> bool {
        self.pages
            .get(at)
            .is_some_and(|page| page.page.is_none() || page.page != self.due.get(at).copied() || down(page))
    }

    /// The first wrong place.
    pub fn first_wrong(&self) -> Option<usize> {
        (0..self.pages.len()).find(|at| self.is_wrong(*at))
    }

    /// How many places there are to be shown: those of a right section, or more.
    pub fn places(&self) -> usize {
        self.pages.len().max(self.due.len())
    }

    /// The page that most likely comes at a place: the one that follows on what was found before it.
    pub fn next(&self, at: usize) -> Option<u32> {
        match at.checked_sub(1) {
            None => self.due.first().copied(),
            Some(before) => {
                let page = self.pages.get(before)?;
                let number = page.page?;
                if down(page) { number.checked_sub(1) } else { Some(number + 1) }
            }
        }
    }

    /// The text with a page written at a place, or added at the end.
    pub fn with(&self, at: usize, page: FoundPage) -> String {
        let mut pages = self.pages.to_vec();
        match pages.get_mut(at) {
            Some(old) => *old = page,
            None => pages.push(page),
        }
        print_pages(&pages)
    }

    /// The pages in one line.
    pub fn line(&self) -> String {
        print_pages(&self.pages)
    }

    /// What was found at a place, in words: "4", "5, head down", "blank".
    pub fn says(&self, at: usize) -> String {
        match self.pages.get(at) {
            None => "not entered".into(),
            Some(page) => match page.page {
                None => "blank".into(),
                Some(number) if down(page) => format!("{number}, head down"),
                Some(number) => number.to_string(),
            },
        }
    }

    /// What an opening shows, in a sentence.
    pub fn sentence(&self, opening: usize) -> String {
        let (left, right) = sides(opening, self.places());
        let there = |at: Option<usize>| at.filter(|at| *at < self.pages.len());
        let wrong = |at: Option<usize>| there(at).filter(|at| self.is_wrong(*at));
        let due = |at: usize| self.due.get(at).map_or_else(|| "none".to_owned(), u32::to_string);
        let found = match (there(left), there(right)) {
            (Some(a), Some(b)) => format!("Open at {} and {}", self.says(a), self.says(b)),
            (None, Some(b)) => format!("In front is {}", self.says(b)),
            (Some(a), None) if right.is_some() => format!("Open at {}", self.says(a)),
            (Some(a), None) => format!("Behind it is {}", self.says(a)),
            (None, None) => return String::new(),
        };
        match (wrong(left), wrong(right)) {
            (Some(a), Some(b)) => format!("{found}, where {} and {} are due.", due(a), due(b)),
            (Some(a), None) | (None, Some(a)) => format!("{found}, where {} is due.", due(a)),
            (None, None) => format!("{found}."),
        }
    }
}

/// Whether a page was found head down.
pub fn down(page: &FoundPage) -> bool {
    page.head == Some(Direction::Down)
}

/// A page as it is entered.
pub fn entered(page: Option<u32>, head_down: bool) -> FoundPage {
    let head = page.map(|_| if head_down { Direction::Down } else { Direction::Up });
    FoundPage { page, head }
}

/// The opening in which a place lies: 0 is the front, and opening k shows places 2k-1 and 2k.
pub const fn opening_of(at: usize) -> usize {
    at.div_ceil(2)
}

/// How many openings so many places make, front and back among them.
pub const fn openings(places: usize) -> usize {
    places / 2 + 1
}

/// The places at the left and at the right of an opening, in a book that reads left to right.
pub fn sides(opening: usize, places: usize) -> (Option<usize>, Option<usize>) {
    let left = (2 * opening).checked_sub(1).filter(|at| *at < places);
    (left, Some(2 * opening).filter(|at| *at < places))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found(text: &str) -> Found {
        let case = SectionCase { evidence: SectionEvidence::Typed(text.into()), ..SectionCase::default() };
        Found::of(&case, None, 1, 8)
    }

    #[test]
    fn pages_are_entered_and_mended_one_by_one() {
        let begun = found("");
        assert_eq!(begun.next(0), Some(1));
        assert_eq!(begun.with(0, entered(Some(3), false)), "3");
        let going = found("3 4v _");
        assert_eq!((going.next(1), going.next(2), going.next(3)), (Some(4), Some(3), None));
        assert_eq!(going.with(1, entered(Some(4), false)), "3 4 _");
        assert_eq!(going.with(3, entered(None, true)), "3 4v _ _");
        assert!(going.is_wrong(2), "a blank side");
    }

    #[test]
    fn a_broken_line_keeps_what_stands_before_it() {
        let broken = found("1-3 q 5");
        assert_eq!(broken.pages.len(), 3);
        assert!(broken.broken.as_deref().is_some_and(|why| why.contains("character 5")));
    }

    #[test]
    fn openings_are_told_with_what_is_due() {
        let wrong = found("3 4 1 2 7 8 5 6");
        assert_eq!(wrong.sentence(0), "In front is 3, where 1 is due.");
        assert_eq!(wrong.sentence(1), "Open at 4 and 1, where 2 and 3 are due.");
        assert_eq!(wrong.sentence(4), "Behind it is 6, where 8 is due.");
        assert_eq!(found("1 2 3v").sentence(1), "Open at 2 and 3, head down, where 3 is due.");
        assert_eq!(found("1 6").sentence(1), "Open at 6, where 2 is due.");
        assert_eq!(found("1-8").sentence(2), "Open at 4 and 5.");
        assert_eq!((openings(8), opening_of(0), opening_of(1), opening_of(2), opening_of(7)), (5, 0, 1, 1, 4));
        assert_eq!((sides(0, 8), sides(4, 8)), ((None, Some(0)), (Some(7), None)));
    }
}
