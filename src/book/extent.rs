//! The extent of a book as values: runs of pages, sections, and what is added to them.

use crate::marks::{MOST_SECTIONS, Refusal};
use serde::{Deserialize, Serialize};

/// The most pages of a section. A bound of this program: a sheet of 64 pages to a side folded as one.
pub const MOST_SECTION: u32 = 128;
/// The most pages of a book: as many as the most sections can have. A bound of this program.
pub const MOST_PAGES: u32 = MOST_SECTIONS * MOST_SECTION;
/// The highest folio in figures. A bound of this program.
pub const MOST_FOLIO: u32 = 1_000_000;
/// The most runs of pages, and the most things added. A bound of this program.
const MOST_RUNS: usize = 1_000;
/// The longest name of a run, in characters. A bound of this program.
const LONGEST_NAME: usize = 200;

/// How a run of pages is numbered as printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
pub enum Folios {
    /// Small roman numerals, as prelims have them: `i`, `ii`, `iii` …
    Roman {
        /// The number of the first page of the run, 1 to 3,999.
        first: u32,
    },
    /// Roman numerals in capitals: `I`, `II`, `III` …
    RomanCapitals {
        /// The number of the first page of the run, 1 to 3,999.
        first: u32,
    },
    /// Figures, as the text has them.
    Arabic {
        /// The number of the first page of the run, 1 to [`MOST_FOLIO`].
        first: u32,
    },
    /// No folio is printed and none is counted.
    None,
}

/// Pages that follow one another and are numbered alike.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Run {
    /// What they are, as in "prelims".
    #[serde(default)]
    pub name: String,
    /// How many pages.
    pub pages: u32,
    /// How they are numbered.
    pub folios: Folios,
    /// Nothing is printed on them. Where they have folios, these are counted, but not to be seen.
    #[serde(default)]
    pub blank: bool,
}

/// What is in the book beside the pages of its sections.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
pub enum Added {
    /// Leaves tipped in behind a page.
    Plate {
        /// The page position that they lie behind: the second page of a leaf, or 0 for the front of the book.
        after: u32,
        /// Two for each leaf.
        pages: u32,
    },
    /// A folded sheet laid round a section; half of its leaves lie before the section and half behind it.
    Wrap {
        /// The section, from 1.
        section: u32,
        /// Four, or a multiple of four.
        pages: u32,
    },
    /// Endpapers, front and back alike.
    Endpapers {
        /// Pages of one of the two, the pastedown with them: four, or a multiple of two.
        pages: u32,
    },
}

/// What the book is.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Book {
    /// The runs of pages, front to back, blank pages with them.
    pub runs: Vec<Run>,
    /// Plates, wraps and endpapers.
    #[serde(default)]
    pub added: Vec<Added>,
    /// The pages of each section, front to back; together as many as the runs have.
    pub sections: Vec<u32>,
}

impl Book {
    /// The pages of all runs, which is the last page position.
    #[must_use]
    pub fn pages(&self) -> u32 {
        self.runs.iter().fold(0, |sum, run| sum.saturating_add(run.pages))
    }

    /// The pages of all sections.
    #[must_use]
    pub fn pages_of_sections(&self) -> u32 {
        self.sections.iter().fold(0, |sum, pages| sum.saturating_add(*pages))
    }

    /// Whether there is such a book.
    ///
    /// # Errors
    /// The first thing that does not agree, where, and in words.
    pub fn check(&self) -> Result<(), Refusal> {
        self.check_runs()?;
        self.check_sections()?;
        let (pages, held) = (self.pages(), self.pages_of_sections());
        if pages != held {
            let says = if held > pages {
                format!(
                    "The sections hold {held} pages and the runs {pages}. {} blank pages are to be added as a run, or a \
                     section is to be smaller.",
                    held - pages
                )
            } else {
                format!("The runs have {pages} pages and the sections hold {held}: {} find no place.", pages - held)
            };
            return Err(Refusal::new("sections", says));
        }
        if self.added.len() > MOST_RUNS {
            return Err(Refusal::new(
                "added",
                format!("At most {MOST_RUNS} plates, wraps and endpapers are told apart."),
            ));
        }
        let mut endpapers = self.added.iter().enumerate().filter(|(_, a)| matches!(a, Added::Endpapers { .. }));
        if let Some((at, _)) = endpapers.nth(1) {
            return Err(Refusal::new(format!("added[{at}]"), "A book has one pair of endpapers; add their pages up."));
        }
        self.added.iter().enumerate().try_for_each(|(at, added)| self.check_added(&format!("added[{at}]"), *added))
    }

    fn check_runs(&self) -> Result<(), Refusal> {
        if self.runs.is_empty() || self.runs.len() > MOST_RUNS {
            return Err(Refusal::new("runs", format!("A book has 1 to {MOST_RUNS} runs of pages.")));
        }
        for (i, run) in self.runs.iter().enumerate() {
            let at = |field: &str| format!("runs[{i}].{field}");
            if run.name.chars().nth(LONGEST_NAME).is_some() {
                return Err(Refusal::new(at("name"), format!("A name has {LONGEST_NAME} characters at the most.")));
            }
            if run.pages == 0 || run.pages > MOST_PAGES {
                return Err(Refusal::new(at("pages"), format!("A run has 1 to {MOST_PAGES} pages.")));
            }
            if let Some((first, most)) = run.folios.first_and_most() {
                let last = first.saturating_add(run.pages - 1);
                if first == 0 || last > most {
                    let kind = if most == MOST_FOLIO { "Folios in figures" } else { "Roman folios" };
                    return Err(Refusal::new(
                        at("folios"),
                        format!("{kind} go from 1 to {most}; these end with {last}."),
                    ));
                }
            }
        }
        if self.pages() > MOST_PAGES {
            return Err(Refusal::new("runs", format!("A book here has {MOST_PAGES} pages at the most.")));
        }
        Ok(())
    }

    fn check_sections(&self) -> Result<(), Refusal> {
        if self.sections.is_empty() || self.sections.len() > MOST_SECTIONS as usize {
            return Err(Refusal::new("sections", format!("A book here has 1 to {MOST_SECTIONS} sections.")));
        }
        for (i, pages) in self.sections.iter().enumerate() {
            let at = || format!("sections[{i}]");
            if *pages == 0 || *pages > MOST_SECTION {
                return Err(Refusal::new(at(), format!("A section has 2 to {MOST_SECTION} pages.")));
            }
            if pages % 2 != 0 {
                return Err(Refusal::new(at(), "A leaf has two pages, so that a section has an even number of them."));
            }
        }
        Ok(())
    }

    fn check_added(&self, at: &str, added: Added) -> Result<(), Refusal> {
        let bounded = |pages: u32, of: u32, what: &str| {
            if pages == 0 || !pages.is_multiple_of(of) || pages > MOST_SECTION {
                let says = format!("{what} {of} pages or a multiple of {of}, {MOST_SECTION} at the most.");
                return Err(Refusal::new(format!("{at}.pages"), says));
            }
            Ok(())
        };
        match added {
            Added::Plate { after, pages } => {
                bounded(pages, 2, "A plate has")?;
                let last = self.pages();
                if after > last {
                    let says = format!("The plate lies behind page {after}, but the last page is {last}.");
                    return Err(Refusal::new(format!("{at}.after"), says));
                }
                if after % 2 != 0 {
                    let says = format!(
                        "Pages {after} and {} are two sides of one leaf, and no plate fits between them. It lies behind \
                         page {} or {}.",
                        after + 1,
                        after - 1,
                        after + 1
                    );
                    return Err(Refusal::new(format!("{at}.after"), says));
                }
                Ok(())
            }
            Added::Wrap { section, pages } => {
                bounded(pages, 4, "A wrap has")?;
                let sections = self.sections.len();
                if section == 0 || section as usize > sections {
                    let says = format!("There are sections 1 to {sections}, and no section {section} to be wrapped.");
                    return Err(Refusal::new(format!("{at}.section"), says));
                }
                Ok(())
            }
            Added::Endpapers { pages } => bounded(pages, 2, "An endpaper has"),
        }
    }
}

impl Folios {
    /// The first number and the highest that can be written so.
    pub(super) const fn first_and_most(&self) -> Option<(u32, u32)> {
        match self {
            Self::Roman { first } | Self::RomanCapitals { first } => Some((*first, super::folio::MOST_ROMAN)),
            Self::Arabic { first } => Some((*first, MOST_FOLIO)),
            Self::None => None,
        }
    }
}
