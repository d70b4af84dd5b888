//! The pages of the book as they are numbered, and how a page is spoken of.

use super::job::Job;
use crate::book::{Added, Book, Folios, MOST_PAGES, MOST_SECTION, Run};

/// The most runs of pages, and the most plates, wraps and endpapers, that a job keeps.
pub const MAX_RUNS: usize = 60;

impl Job {
    /// What the book is: its runs of pages as they were said, with blank pages at the end where the sections hold more, and
    /// the sections as they are made.
    #[must_use]
    pub fn book(&self) -> Book {
        let sections = self.pages_each(self.sections);
        let held = sections.iter().fold(0u32, |sum, pages| sum.saturating_add(*pages));
        let mut runs = self.runs.clone();
        if runs.is_empty() {
            let folios = Folios::Arabic { first: 1 };
            runs.push(Run { name: String::new(), pages: held, folios, blank: false });
        }
        let left = held.saturating_sub(self.extent());
        if left > 0 && !self.runs.is_empty() {
            runs.push(Run { name: "blank".into(), pages: left, folios: Folios::None, blank: true });
        }
        Book { runs, added: self.added.clone(), sections }
    }

    /// The pages that were said, or that the sections hold if none were.
    #[must_use]
    pub fn extent(&self) -> u32 {
        if self.runs.is_empty() {
            return self.pages();
        }
        self.runs.iter().fold(0, |sum, run| sum.saturating_add(run.pages))
    }

    /// The folio printed on a page, where it is another than its place in the book.
    #[must_use]
    pub fn printed(&self, page: u32) -> Option<String> {
        if self.runs.is_empty() {
            return None;
        }
        self.book().folio(page).filter(|folio| *folio != page.to_string())
    }

    /// The folios of pages that follow one another, where they are others than their places: "printed i to xvi".
    #[must_use]
    pub fn printed_from(&self, first: u32, last: u32) -> Option<String> {
        let (from, to) = (self.printed(first), self.printed(last));
        if from.is_none() && to.is_none() {
            return None;
        }
        let book = self.book();
        let folio = |page: u32| book.folio(page).unwrap_or_else(|| "no folio".into());
        Some(format!("printed {} to {}", folio(first), folio(last)))
    }

    /// Whether runs and what is added can be kept. That they don't fit what the sections are made of is no error but a
    /// finding ([`Job::book_says`]): pages are said before sections are planned for them, and sheets are changed afterwards.
    ///
    /// # Errors
    /// A sentence.
    pub(super) fn check_book(&self) -> Result<(), String> {
        if self.runs.len() > MAX_RUNS || self.added.len() > MAX_RUNS {
            return Err(format!(
                "A job keeps at most {MAX_RUNS} runs of pages, and as many plates, wraps and endpapers."
            ));
        }
        if !self.runs.is_empty() {
            let (pages, mut sections, mut runs) = (self.extent(), Vec::new(), self.runs.clone());
            // As many sections as the pages need, as large as one can be.
            let mut left = pages.min(MOST_PAGES + 2);
            while left > 0 {
                sections.push(left.min(MOST_SECTION).next_multiple_of(2));
                left -= left.min(MOST_SECTION);
            }
            if pages % 2 == 1 && pages < MOST_PAGES {
                runs.push(Run { name: String::new(), pages: 1, folios: Folios::None, blank: true });
            }
            Book { runs, added: Vec::new(), sections }.check().map_err(|why| why.says)?;
        }
        let pages_of = |added: &Added| match added {
            Added::Plate { pages, .. } | Added::Wrap { pages, .. } | Added::Endpapers { pages } => *pages,
        };
        if self.added.iter().any(|added| !(1..=MOST_SECTION).contains(&pages_of(added))) {
            return Err(format!("A plate, a wrap or endpapers have 1 to {MOST_SECTION} pages."));
        }
        Ok(())
    }

    /// What is wrong between the pages that were said and the sections as they are made, in a sentence.
    #[must_use]
    pub fn book_says(&self) -> Option<String> {
        self.book().check().err().map(|why| why.says)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn run(pages: u32, folios: Folios) -> Run {
        Run { name: String::new(), pages, folios, blank: false }
    }

    #[test]
    fn pages_are_spoken_of_as_they_are_printed() {
        let mut job = Job::default();
        assert_eq!((job.extent(), job.printed(17)), (288, None));
        job.runs = vec![run(16, Folios::Roman { first: 1 }), run(262, Folios::Arabic { first: 1 })];
        assert_eq!(job.check_book(), Ok(()));
        assert_eq!([3, 17, 280].map(|p| job.printed(p)), [Some("iii".into()), Some("1".into()), None]);
        let book = job.book();
        assert_eq!((book.pages(), book.runs.len(), book.check()), (288, 3, Ok(())));
    }

    #[test]
    fn more_pages_than_sections_hold_are_a_plan_and_no_error() {
        let job = Job { runs: vec![run(361, Folios::Arabic { first: 1 })], ..Job::default() };
        assert_eq!((job.check_book(), job.extent()), (Ok(()), 361));
        assert!(job.book_says().unwrap().contains("73 find no place"), "{:?}", job.book_says());
        let job = Job { runs: vec![run(4000, Folios::Roman { first: 1 })], ..Job::default() };
        assert!(job.check_book().unwrap_err().contains("Roman"));
    }
}
