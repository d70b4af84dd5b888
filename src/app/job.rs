//! All that a person made: the book, its sheet, its marks, and the stack as it was gathered.

use crate::fold::{Folding, Landing, NamedScheme, Scheme, Section, library};
use crate::marks::Design;
use serde::{Deserialize, Serialize};

/// The most sections a book may have.
pub const MAX_SECTIONS: u32 = 99;
/// The longest title, in characters.
pub const MAX_TITLE: usize = 80;

/// One job.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Job {
    /// Title of the book.
    pub title: String,
    /// Sections of the book, all folded by the same scheme.
    pub sections: u32,
    /// How a sheet is folded. It may be unfinished while it is being made.
    pub scheme: Scheme,
    /// The back marks.
    pub design: Design,
}

impl Default for Job {
    /// An invented book in sixteens.
    fn default() -> Self {
        let sixteen = library().into_iter().find(|s| s.scheme.rows == 2 && s.scheme.columns == 4);
        let scheme = sixteen.map_or_else(|| blank(2, 4), |s| s.scheme);
        Self { title: "The Quillmere Almanac".into(), sections: 18, scheme, design: Design::default() }
    }
}

/// A sheet without a fold.
#[must_use]
pub fn blank(rows: u32, columns: u32) -> Scheme {
    Scheme { rows, columns, folds: Vec::new(), head: crate::fold::Direction::Up, reads: crate::fold::Reads::default() }
}

impl Job {
    /// The trade name of the scheme, if it is one of those at hand.
    #[must_use]
    pub fn trade_name(&self) -> Option<&'static str> {
        library().into_iter().find(|n: &NamedScheme| n.scheme == self.scheme).map(|n| n.name)
    }

    /// The finished section and its landing, unless the scheme is unfinished.
    #[must_use]
    pub fn section(&self) -> Option<(Section, Landing)> {
        let folding = Folding::of(&self.scheme).ok()?;
        let section = Section::of(&self.scheme, &folding).ok()?;
        let landing = Landing::of_section(&section);
        Some((section, landing))
    }
}
