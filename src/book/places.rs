//! Every place of the book, spoken of as page position and as the folio printed there.

use super::extent::{Added, Book, Folios, Run};
use super::folio::{read_roman, roman};
use serde::Serialize;

/// A folio looked up in a book.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Folio {
    /// The page positions where it is printed.
    pub positions: Vec<u32>,
    /// The same in words.
    pub says: String,
}

/// The longest folio that is quoted back, in characters.
const LONGEST: usize = 20;

impl Book {
    /// The folio printed at a page position; `None` where none is printed, or there is no such page.
    #[must_use]
    pub fn folio(&self, position: u32) -> Option<String> {
        let (run, nth) = self.run_at(position)?;
        if run.blank { None } else { run.folios.counted(nth) }
    }

    /// Where a folio is printed: no position, one, or several.
    ///
    /// Roman numerals are read in small letters and in capitals alike.
    #[must_use]
    pub fn positions_of(&self, folio: &str) -> Vec<u32> {
        let folio = folio.trim();
        let arabic = figures(folio);
        let roman = read_roman(folio);
        let mut before = 0_u32;
        let mut found = Vec::new();
        for run in &self.runs {
            let (first, wanted) = match run.folios {
                Folios::Roman { first } | Folios::RomanCapitals { first } => (first, roman),
                Folios::Arabic { first } => (first, arabic),
                Folios::None => (0, None),
            };
            let nth = wanted.and_then(|n| n.checked_sub(first)).filter(|nth| *nth < run.pages && !run.blank);
            found.extend(nth.map(|nth| before.saturating_add(nth).saturating_add(1)));
            before = before.saturating_add(run.pages);
        }
        found
    }

    /// The same with a sentence: that a folio is printed once, more than once, or nowhere.
    #[must_use]
    pub fn find(&self, folio: &str) -> Folio {
        let positions = self.positions_of(folio);
        let quoted: String = folio.trim().chars().take(LONGEST).collect();
        let says = match positions.as_slice() {
            [] if figures(folio.trim()).or_else(|| read_roman(folio.trim())).is_none() => {
                format!("“{quoted}” is no folio: figures or roman numerals are printed on pages.")
            }
            [] => format!("{quoted} is printed on no page of this book."),
            [one] => format!("{quoted} is printed on page {one}."),
            [many @ .., last] => {
                let many: Vec<String> = many.iter().map(u32::to_string).collect();
                format!("{quoted} is printed more than once: on pages {} and {last}.", many.join(", "))
            }
        };
        Folio { positions, says }
    }

    /// A place in words: "page 37, printed 21".
    #[must_use]
    pub fn say(&self, position: u32) -> String {
        let Some((run, nth)) = self.run_at(position) else {
            let last = self.pages();
            return if position == 0 {
                "before the first page".into()
            } else {
                format!("page {position}, beyond the last one, which is {last}")
            };
        };
        match (run.blank, run.folios.counted(nth)) {
            (false, Some(folio)) => format!("page {position}, printed {folio}"),
            (false, None) => format!("page {position}, without a folio"),
            (true, Some(folio)) => format!("page {position}, blank, counted as {folio}"),
            (true, None) => format!("page {position}, blank"),
        }
    }

    /// The section of a page position, from 1, and the page in it, from 1.
    #[must_use]
    pub fn section_of(&self, position: u32) -> Option<(u32, u32)> {
        let mut left = position.checked_sub(1)?;
        for (section, pages) in (1..).zip(&self.sections) {
            if left < *pages {
                return Some((section, left + 1));
            }
            left -= pages;
        }
        None
    }

    /// The page position that a section begins with. For a section that is not there, the one behind the last page.
    #[must_use]
    pub fn first_of(&self, section: u32) -> u32 {
        let before = self.sections.iter().take(section.saturating_sub(1) as usize);
        before.fold(1, |sum: u32, pages| sum.saturating_add(*pages))
    }

    /// The page position that a section ends with; `None` where there is no such section.
    #[must_use]
    pub fn last_of(&self, section: u32) -> Option<u32> {
        let pages = self.sections.get(section.checked_sub(1)? as usize)?;
        Some(self.first_of(section).saturating_add(*pages).saturating_sub(1))
    }

    /// Where something that has no page position of its own lies, in words: "the plate behind page 48, printed 32".
    #[must_use]
    pub fn say_added(&self, added: Added) -> String {
        match added {
            Added::Plate { after: 0, pages } => format!("{} before the first page", plate(pages)),
            Added::Plate { after, pages } => format!("{} behind {}", plate(pages), self.say(after)),
            Added::Wrap { section, pages } => {
                let (first, last) = (self.first_of(section), self.last_of(section).unwrap_or_default());
                format!("the wrap of {pages} pages round section {section}, which is pages {first} to {last}")
            }
            Added::Endpapers { pages } => format!("the endpapers of {pages} pages at the front and at the back"),
        }
    }

    /// The run of a page position, and which of its pages it is, from 0.
    fn run_at(&self, position: u32) -> Option<(&Run, u32)> {
        let mut left = position.checked_sub(1)?;
        for run in &self.runs {
            if left < run.pages {
                return Some((run, left));
            }
            left -= run.pages;
        }
        None
    }
}

fn plate(pages: u32) -> String {
    if pages == 2 { "the plate".into() } else { format!("the {} leaves of plates", pages / 2) }
}

/// A folio in figures, without zeros before it.
fn figures(text: &str) -> Option<u32> {
    let plain = !text.is_empty() && !text.starts_with('0') && text.bytes().all(|b| b.is_ascii_digit());
    if plain { text.parse().ok() } else { None }
}

impl Folios {
    /// The number of page `nth` (from 0) of the run, printed or not.
    pub(super) fn counted(&self, nth: u32) -> Option<String> {
        match self {
            Self::Roman { first } => roman(first.saturating_add(nth)),
            Self::RomanCapitals { first } => roman(first.saturating_add(nth)).map(|n| n.to_ascii_uppercase()),
            Self::Arabic { first } => Some(first.saturating_add(nth).to_string()),
            Self::None => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Prelims to xvi, of which the last two are blank; an unnumbered leaf; 344 pages of text; six blanks.
    pub(super) fn book() -> Book {
        let run = |name: &str, pages, folios, blank| Run { name: name.into(), pages, folios, blank };
        Book {
            runs: vec![
                run("prelims", 14, Folios::Roman { first: 1 }, false),
                run("", 2, Folios::Roman { first: 15 }, true),
                run("divisional title", 2, Folios::None, false),
                run("text", 344, Folios::Arabic { first: 1 }, false),
                run("", 6, Folios::None, true),
            ],
            added: vec![
                Added::Plate { after: 48, pages: 2 },
                Added::Wrap { section: 2, pages: 4 },
                Added::Endpapers { pages: 4 },
            ],
            sections: [[32; 11].as_slice(), &[16]].concat(),
        }
    }

    #[test]
    fn a_place_has_a_position_and_a_folio() {
        let book = book();
        assert_eq!(book.check(), Ok(()));
        let said = [0, 12, 15, 17, 39, 363, 369].map(|p| book.say(p));
        assert_eq!(
            said,
            [
                "before the first page",
                "page 12, printed xii",
                "page 15, blank, counted as xv",
                "page 17, without a folio",
                "page 39, printed 21",
                "page 363, blank",
                "page 369, beyond the last one, which is 368"
            ]
        );
        assert_eq!([book.folio(15), book.folio(17), book.folio(362)], [None, None, Some("344".into())]);
        assert_eq!(
            (book.section_of(33), book.section_of(368), book.section_of(369)),
            (Some((2, 1)), Some((12, 16)), None)
        );
        assert_eq!(
            (book.first_of(1), book.first_of(12), book.last_of(12), book.last_of(13)),
            (1, 353, Some(368), None)
        );
    }

    #[test]
    fn a_folio_may_stand_once_twice_or_nowhere() {
        let mut book = book();
        assert_eq!(book.find("XII").says, "XII is printed on page 12.");
        assert_eq!(book.positions_of("31"), [49]);
        assert_eq!(book.find("xv").says, "xv is printed on no page of this book.");
        assert_eq!(book.find("12b").says, "“12b” is no folio: figures or roman numerals are printed on pages.");
        // A second part that begins again with 1.
        book.runs[3].pages = 172;
        book.runs.insert(4, Run { folios: Folios::Arabic { first: 1 }, ..book.runs[3].clone() });
        assert_eq!(book.find("1").says, "1 is printed more than once: on pages 19 and 191.");
    }

    #[test]
    fn what_is_added_has_no_position() {
        let book = book();
        let said: Vec<String> = book.added.iter().map(|a| book.say_added(*a)).collect();
        assert_eq!(
            said,
            [
                "the plate behind page 48, printed 30",
                "the wrap of 4 pages round section 2, which is pages 33 to 64",
                "the endpapers of 4 pages at the front and at the back"
            ]
        );
        assert_eq!(book.say_added(Added::Plate { after: 0, pages: 4 }), "the 2 leaves of plates before the first page");
    }

    #[test]
    fn books_that_do_not_agree_are_refused_where_they_are_wrong() {
        let at = |change: &dyn Fn(&mut Book)| {
            let mut book = book();
            change(&mut book);
            book.check().unwrap_err().at
        };
        assert_eq!(at(&|b| b.runs.clear()), "runs");
        assert_eq!(at(&|b| b.runs[1].pages = 0), "runs[1].pages");
        assert_eq!(at(&|b| b.runs[0].folios = Folios::Roman { first: 3_990 }), "runs[0].folios");
        assert_eq!(at(&|b| b.runs[0].name = "x".repeat(201)), "runs[0].name");
        assert_eq!(at(&|b| b.sections[11] = 15), "sections[11]");
        assert_eq!(at(&|b| b.sections[0] = 130), "sections[0]");
        assert_eq!(at(&|b| b.sections[11] = 8), "sections");
        assert_eq!(at(&|b| b.added[0] = Added::Plate { after: 47, pages: 2 }), "added[0].after");
        assert_eq!(at(&|b| b.added[0] = Added::Plate { after: 370, pages: 2 }), "added[0].after");
        assert_eq!(at(&|b| b.added[1] = Added::Wrap { section: 13, pages: 4 }), "added[1].section");
        assert_eq!(at(&|b| b.added[1] = Added::Wrap { section: 2, pages: 2 }), "added[1].pages");
        assert_eq!(at(&|b| b.added.push(Added::Endpapers { pages: 4 })), "added[3]");
        let (mut more, mut fewer) = (book(), book());
        more.sections.push(8);
        fewer.sections.pop();
        assert!(more.check().unwrap_err().says.contains("8 blank pages"));
        assert!(fewer.check().unwrap_err().says.contains("16 find no place"));
    }
}
