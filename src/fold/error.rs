//! Why a scheme is refused, in words a binder understands, and where the reason lies.

use super::scheme::MAX_PANELS;
use thiserror::Error;

/// The part of a scheme that an error is about. Folds are counted from 0 here, as in a path into a list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// The number of rows.
    Rows,
    /// The number of columns.
    Columns,
    /// The list of folds as a whole.
    Folds,
    /// Where the crease of a fold lies.
    After(usize),
    /// Which part moves in a fold.
    Moves(usize),
    /// The head edge.
    Head,
}

impl Place {
    /// The path from the scheme to this place, as in `folds[1].after`.
    #[must_use]
    pub fn path(&self) -> String {
        match self {
            Self::Rows => "rows".into(),
            Self::Columns => "columns".into(),
            Self::Folds => "folds".into(),
            Self::After(i) => format!("folds[{i}].after"),
            Self::Moves(i) => format!("folds[{i}].moves"),
            Self::Head => "head".into(),
        }
    }
}

/// Why a scheme can't be folded or read.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum FoldError {
    /// A sheet without panels.
    #[error("a sheet has at least one row and one column")]
    NoPanels {
        /// Rows or columns.
        at: Place,
    },
    /// More panels than the program takes.
    #[error("rows times columns may be {MAX_PANELS} at the most")]
    TooManyPanels {
        /// Rows or columns.
        at: Place,
    },
    /// The crease lies on or beyond the edge of the packet.
    #[error(
        "fold {} has its crease after {after} panels, but the packet is then {} {} and a crease lies inside it",
        .fold + 1, panels(*.size), if *.vertical { "wide" } else { "high" }
    )]
    CreaseOutside {
        /// The fold, counted from 0.
        fold: usize,
        /// Where the crease was asked for.
        after: u32,
        /// How large the packet is across the crease.
        size: u32,
        /// Whether the crease is vertical.
        vertical: bool,
    },
    /// The moving part does not lie beside such a crease.
    #[error(
        "fold {} has a {} crease, so the part that moves is {}",
        .fold + 1,
        if *.vertical { "vertical" } else { "horizontal" },
        if *.vertical { "left or right" } else { "top or bottom" }
    )]
    PartBesideOtherCrease {
        /// The fold, counted from 0.
        fold: usize,
        /// Whether the crease is vertical.
        vertical: bool,
    },
    /// No fold at all.
    #[error("a sheet without a fold has no spine")]
    NoFold,
    /// The packet is still larger than a page.
    #[error("after the last fold the packet is {rows} by {columns} panels; a section is one panel large")]
    Unfinished {
        /// Rows that are left.
        rows: u32,
        /// Columns that are left.
        columns: u32,
    },
    /// The head is given at the spine or the fore-edge.
    #[error("the last crease is {}, so the heads point to {}",
        if *.vertical { "vertical" } else { "horizontal" },
        if *.vertical { "the top or the bottom" } else { "the left or the right" })]
    HeadOnSpine {
        /// Whether the last crease is vertical.
        vertical: bool,
    },
}

fn panels(n: u32) -> String {
    if n == 1 { "one panel".into() } else { format!("{n} panels") }
}

impl FoldError {
    /// The part of the scheme that the error is about.
    #[must_use]
    pub const fn place(&self) -> Place {
        match self {
            Self::NoPanels { at } | Self::TooManyPanels { at } => *at,
            Self::CreaseOutside { fold, .. } => Place::After(*fold),
            Self::PartBesideOtherCrease { fold, .. } => Place::Moves(*fold),
            Self::NoFold | Self::Unfinished { .. } => Place::Folds,
            Self::HeadOnSpine { .. } => Place::Head,
        }
    }
}
