//! What can have gone wrong with a section, and where in the shop.

use super::written::Written;
use crate::fold::{Crease, Side};
use serde::{Deserialize, Serialize};

/// How a section lies among the others.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Lies {
    /// Upside down, the fold still at the back.
    HeadToTail,
    /// Turned half round in its plane: upside down, the fold at the fore-edge.
    TurnedInPlane,
    /// Turned over sideways: upright and back to front, the fold at the fore-edge.
    SideToSide,
}

/// Something that was done wrong. Folds and pages count from 1; pages are the numbers printed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "snake_case", try_from = "Written")]
pub enum Cause {
    /// The fold landed under instead of over, or the reverse.
    FoldOtherWay {
        /// The fold.
        fold: u32,
    },
    /// The other part moved.
    FoldFromOtherEdge {
        /// The fold.
        fold: u32,
    },
    /// The sheet was turned half round in its plane before folding.
    SheetEndForEnd,
    /// The sheet was turned over before folding.
    SheetTurnedOver {
        /// The middle line that it was turned about.
        about: Crease,
    },
    /// One side was printed half turned round against the other.
    SecondSideTurnedRound,
    /// One side was never printed.
    SecondSideBlank {
        /// That side.
        side: Side,
    },
    /// One side carries pages of another section.
    WrongSecondSide,
    /// Two pages stand in each other's place on the forme.
    PagesExchanged {
        /// The two, the smaller one first.
        pages: [u32; 2],
    },
    /// A page stands head down on the forme.
    PageHeadDown {
        /// The page.
        page: u32,
    },
    /// The section is right, but does not lie right.
    SectionLies {
        /// How it lies.
        lies: Lies,
    },
    /// Two sheets were folded as one.
    DoubleSheet,
    /// Two of the above at once.
    Together {
        /// The two.
        causes: Vec<Cause>,
    },
}

/// Where in the shop a cause lies, in the order of the work.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Stage {
    /// Printing.
    Press,
    /// Folding, with the feeding of the sheet.
    Folder,
    /// Gathering.
    Gathering,
}

/// What is seen of the back mark on the back.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Mark {
    /// It stands at its place. Where the outer forme is that of another section, the mark is that section's, too.
    Shows,
    /// There is none.
    Blank,
    /// It stands as far from the tail as it should from the head.
    Mirrored,
}

impl Cause {
    /// Where the cause lies; of two at once the earlier stage, since the later one is looked at afterwards.
    #[must_use]
    pub fn stage(&self) -> Stage {
        match self {
            Self::FoldOtherWay { .. }
            | Self::FoldFromOtherEdge { .. }
            | Self::SheetEndForEnd
            | Self::SheetTurnedOver { .. }
            | Self::DoubleSheet => Stage::Folder,
            Self::SecondSideTurnedRound
            | Self::SecondSideBlank { .. }
            | Self::WrongSecondSide
            | Self::PagesExchanged { .. }
            | Self::PageHeadDown { .. } => Stage::Press,
            Self::SectionLies { .. } => Stage::Gathering,
            Self::Together { causes } => causes.iter().map(Self::stage).min().unwrap_or(Stage::Folder),
        }
    }

    /// The single causes in it.
    #[must_use]
    pub fn singles(&self) -> Vec<&Self> {
        match self {
            Self::Together { causes } => causes.iter().collect(),
            one => vec![one],
        }
    }

    /// Less is looked at sooner. Common practice, without a count behind it: a fold or a pile is set wrong more often
    /// than a forme is made up wrong.
    pub(super) fn order(&self) -> u32 {
        match self {
            Self::FoldOtherWay { .. } => 1,
            Self::SheetTurnedOver { .. } => 2,
            Self::SheetEndForEnd => 3,
            Self::FoldFromOtherEdge { .. } => 4,
            Self::SectionLies { .. } => 5,
            Self::DoubleSheet => 6,
            Self::SecondSideTurnedRound => 7,
            Self::SecondSideBlank { .. } => 8,
            Self::WrongSecondSide => 9,
            Self::PageHeadDown { .. } => 10,
            Self::PagesExchanged { .. } => 11,
            Self::Together { causes } => 100 + causes.iter().map(Self::order).sum::<u32>(),
        }
    }
}
