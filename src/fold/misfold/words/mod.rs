//! What to look at next, and what to mind while looking, in the words of the shop.

mod apart;
mod title;
mod trace;

pub(super) use crate::words::{capital, small};
pub(super) use apart::apart;
pub(super) use title::{and, lies_words, list, opening, run, the_section};
pub(super) use trace::{Look, Trace, Traces};

use super::cause::{Cause, Lies, Stage};
use crate::fold::{Crease, Side};

impl Cause {
    /// What settles whether this is the cause.
    #[must_use]
    pub fn next_check(&self) -> String {
        match self {
            Self::FoldOtherWay { fold } => {
                format!(
                    "Fold a passed sheet beside this one: does fold {fold} land over where it should land under, \
                 or the reverse? Look at the plate or knife of that fold."
                )
            }
            Self::FoldFromOtherEdge { fold } => {
                format!("See which part moved in fold {fold}, and where the stop of that fold stands.")
            }
            Self::SheetEndForEnd => {
                "Look at the pile and at the lay ticks of the open sheet: does the end lead that should \
                 follow?"
                    .into()
            }
            Self::SheetTurnedOver { about } => format!(
                "Look at the pile: which side is up? The lay ticks of the open sheet tell whether it was \
                 turned over {}.",
                match about {
                    Crease::Vertical => "left to right",
                    Crease::Horizontal => "top to bottom",
                }
            ),
            Self::SecondSideTurnedRound => {
                "Hold the open sheet and a passed one to the light: does each page back its own leaf? Find \
                 where the pile was turned for the second side."
                    .into()
            }
            Self::SecondSideBlank { side } => format!(
                "Open the sheet and look at side {}; leaf through the printed pile for more that missed a \
                 pass.",
                if *side == Side::A { "A" } else { "B" }
            ),
            Self::WrongSecondSide => {
                "Open the sheet and compare each side with a passed one; then look for its twin in the \
                 section whose pages stand here."
                    .into()
            }
            Self::PagesExchanged { pages: [a, b] } => {
                format!(
                    "Compare pages {a} and {b} on an open sheet with the layout; every sheet from that plate \
                 should show the same."
                )
            }
            Self::PageHeadDown { page } => {
                format!("Look at page {page} on an open sheet; every sheet from that plate should show the same.")
            }
            Self::SectionLies { lies: Lies::HeadToTail } => {
                "Take the section out and turn it end for end, the fold staying at the back: does it read \
                 right?"
                    .into()
            }
            Self::SectionLies { lies: Lies::TurnedInPlane } => {
                "Take the section out and turn it half round on the table: does it read right, with its fold \
                 at the back?"
                    .into()
            }
            Self::SectionLies { lies: Lies::SideToSide } => {
                "Take the section out and turn it over like a page: does it read right, with its fold at the \
                 back?"
                    .into()
            }
            Self::DoubleSheet => {
                "Feel the bulk and part the leaves: do two sheets lie one inside the other? Check the \
                 double-sheet detector and the suckers."
                    .into()
            }
            Self::Together { causes } => causes.iter().map(Self::next_check).collect::<Vec<_>>().join(" Then: "),
        }
    }

    /// What to mind: safety at the machine, and what the pages can't tell.
    #[must_use]
    pub fn caution(&self) -> String {
        cautions(self.singles().into_iter().map(Self::stage).collect())
    }
}

/// Stands beside every check at a machine.
const AT_A_MACHINE: &str = "The guards stay shut, the rules of the house come first, and only trained people open a \
     machine.";

/// What to mind at these places of the shop, in the order in which they are given.
pub(super) fn cautions(stages: Vec<Stage>) -> String {
    let mut places: Vec<Stage> = Vec::new();
    for stage in stages {
        if !places.contains(&stage) {
            places.push(stage);
        }
    }
    let said = places.into_iter().map(safety).chain(std::iter::once(AT_A_MACHINE));
    said.collect::<Vec<_>>().join(" ")
}

fn safety(stage: Stage) -> &'static str {
    match stage {
        Stage::Press => {
            "Check printed sheets on the table, away from the running press. Stop the press and wait until it stands \
                 still before you look at it."
        }
        Stage::Folder => "Stop the folder and wait until it stands still before you reach in or look at a setting.",
        Stage::Gathering => {
            "Stop the gathering line and wait until it stands still, and call out before anyone starts it again."
        }
    }
}
