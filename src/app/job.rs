//! All that a person made: the book, its sheet, its marks, and the stack as it was gathered.

use crate::fold::{BackMark, Folding, Landing, NamedScheme, Scheme, Section, Showing, library};
use crate::gather::stack::{Placed, Stack, seen};
use crate::marks::{Design, Seen};

/// The most sections a book may have.
pub const MAX_SECTIONS: u32 = 99;
/// The longest title, in characters.
pub const MAX_TITLE: usize = 80;

/// What the check in the Gather room looks at.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum Evidence {
    /// The backs of the stack that was gathered (and spoiled) here.
    #[default]
    Stack,
    /// Marks tapped onto a blank spine: for each back the middles of its bars in mm from the head.
    Tapped(Vec<Vec<f64>>),
    /// A run that was typed, as in `1-6 8-11 12d`.
    Typed(String),
}

/// One job.
#[derive(Clone, Debug, PartialEq)]
pub struct Job {
    /// Title of the book.
    pub title: String,
    /// Sections of the book, all folded by the same scheme.
    pub sections: u32,
    /// How a sheet is folded. It may be unfinished while it is being made.
    pub scheme: Scheme,
    /// The back marks.
    pub design: Design,
    /// The book as it was gathered here.
    pub stack: Stack,
    /// What the check looks at.
    pub evidence: Evidence,
}

impl Default for Job {
    /// An invented book in sixteens.
    fn default() -> Self {
        let sixteen = library().into_iter().find(|s| s.scheme.rows == 2 && s.scheme.columns == 4);
        let scheme = sixteen.map_or_else(|| blank(2, 4), |s| s.scheme);
        Self {
            title: "The Quillmere Almanac".into(),
            sections: 18,
            scheme,
            design: Design::default(),
            stack: Stack::good(18),
            evidence: Evidence::Stack,
        }
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

    /// What a checker sees on the backs of the stack. The fold engine says where each mark went.
    #[must_use]
    pub fn seen(&self) -> Vec<Seen> {
        let showing = |misfold: Option<u32>| {
            let folded = misfold.map_or_else(|| self.scheme.clone(), |f| self.scheme.fold_other_way(f));
            BackMark::printed_and_folded(&self.scheme, &folded).ok().flatten() == Some(Showing::OnSpine)
        };
        // One answer for each way of folding, not one for each section.
        let ways: Vec<bool> =
            std::iter::once(None).chain((1u32..).map(Some).take(self.scheme.folds.len())).map(showing).collect();
        let back_of = |p: &Placed| ways.get(p.misfold.unwrap_or(0) as usize).copied().unwrap_or(false);
        seen(&self.stack, &self.design, &back_of)
    }
}
