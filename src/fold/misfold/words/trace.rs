//! What a cause leaves behind beside the pages: where to look, and what is seen there. Which side is up, where the lay
//! corner lies and which part moves are reckoned from the scheme; that the lay corner is at the lower left of side A is
//! this program's convention. What each says about a machine: common practice, no source.

use super::title::{opening, side_word, turned};
use crate::fold::misfold::{Cause, FoundPage, Lies};
use crate::fold::{Crease, Face, Fold, Landing, Scheme, Side};

/// What kind of thing is to be looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::fold::misfold) enum Look {
    /// The pile at the feeder, and the feeder.
    Pile,
    /// A plate, a knife or a stop of the folder.
    Setting,
    /// The print of an open sheet.
    Print,
    /// How something lies: on the table.
    Table,
    /// The bundles and lifts.
    Bundle,
}

/// Where to look for a cause, and what is seen there if it was the cause.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(in crate::fold::misfold) struct Trace {
    pub look: Look,
    /// As `Look …` goes on.
    pub at: String,
    /// As `if it was this, …` goes on.
    pub sign: String,
}

/// What causes leave behind on one sheet.
pub(in crate::fold::misfold) struct Traces<'a> {
    scheme: &'a Scheme,
    landing: Option<Landing>,
    /// The number printed on a page of the sheet, counted from 1.
    number: &'a dyn Fn(u32) -> Option<u32>,
}

impl<'a> Traces<'a> {
    pub(in crate::fold::misfold) fn of(scheme: &'a Scheme, number: &'a dyn Fn(u32) -> Option<u32>) -> Self {
        Self { scheme, landing: Landing::of(scheme).ok(), number }
    }

    /// What a cause leaves behind, each of two at once.
    pub(in crate::fold::misfold) fn of_cause(&self, cause: &Cause) -> Vec<Trace> {
        cause.singles().into_iter().filter_map(|single| self.of_single(single)).collect()
    }

    fn of_single(&self, cause: &Cause) -> Option<Trace> {
        let trace = |look, at: &str, sign: String| Trace { look, at: at.into(), sign };
        Some(match cause {
            Cause::FoldOtherWay { fold } => trace(
                Look::Setting,
                &format!("at the plate or knife of fold {fold}"),
                format!("fold {fold} lands {}", self.fold(*fold).lands.other().word()),
            ),
            Cause::FoldFromOtherEdge { fold } => trace(
                Look::Setting,
                &format!("at the stop of fold {fold}"),
                format!("the {} part moves in fold {fold}", self.fold(*fold).moves.other().word()),
            ),
            Cause::SheetEndForEnd => trace(
                Look::Pile,
                "at the pile",
                format!(
                    "the sheets lie end for end, with {} at the upper right instead of the lower left",
                    self.corner()
                ),
            ),
            Cause::SheetTurnedOver { about } => {
                let corner = if *about == Crease::Vertical { "lower right" } else { "upper left" };
                trace(
                    Look::Pile,
                    "at the pile",
                    format!("{} is up, and {} lies beneath, at the {corner}", self.side(Side::B), self.corner()),
                )
            }
            Cause::SecondSideTurnedRound => trace(
                Look::Print,
                "at an open sheet against the light",
                "its two sides stand half turned round against each other".into(),
            ),
            Cause::SecondSideBlank { side } => {
                trace(Look::Print, "at an open sheet", format!("{} is bare", self.side(*side)))
            }
            Cause::WrongSecondSide => trace(
                Look::Print,
                "at both sides of an open sheet",
                "one of them is the other section's, from edge to edge".into(),
            ),
            Cause::PagesExchanged { pages: [a, b] } => trace(
                Look::Print,
                "at sheets from the same plate",
                format!("every one has {a} and {b} in each other's place"),
            ),
            Cause::PageHeadDown { page } => trace(
                Look::Print,
                "at sheets from the same plate",
                format!("every one has {page} standing on its head"),
            ),
            Cause::SectionLies { lies } => {
                let how = match lies {
                    Lies::HeadToTail => "end for end, the fold staying at the back",
                    Lies::TurnedInPlane => "half round on the table",
                    Lies::SideToSide => "over like a page",
                };
                trace(Look::Table, "at the section alone", format!("it reads right once it is turned {how}"))
            }
            Cause::DoubleSheet => {
                trace(Look::Pile, "between the leaves", "two sheets come apart, each with all its pages".into())
            }
            Cause::Together { .. } => return None,
        })
    }

    /// What settles whether it was this, said of the sheet's own folds where that says more.
    pub(in crate::fold::misfold) fn check(&self, cause: &Cause) -> String {
        match cause {
            Cause::FoldOtherWay { fold } => {
                let lands = self.fold(*fold).lands;
                format!(
                    "Fold a passed sheet beside this one: fold {fold} should land {}. See at its plate or knife whether \
                     it lands {}.",
                    lands.word(),
                    lands.other().word()
                )
            }
            other => other.next_check(),
        }
    }

    /// What was done to the sheet, in a sentence.
    pub(in crate::fold::misfold) fn did(&self, cause: &Cause) -> String {
        match cause {
            Cause::FoldOtherWay { fold } => {
                let Fold { moves, lands, .. } = self.fold(*fold);
                format!(
                    "The {} part went {} the {} part, where it should go {}.",
                    moves.word(),
                    lands.other().word(),
                    moves.other().word(),
                    lands.word()
                )
            }
            Cause::FoldFromOtherEdge { fold } => {
                let Fold { moves, lands, .. } = self.fold(*fold);
                format!(
                    "The {} part moved {} the {} part, where the {} part should move.",
                    moves.other().word(),
                    lands.word(),
                    moves.word(),
                    moves.word()
                )
            }
            Cause::SheetEndForEnd => "It lay half turned round in its plane: the end led that should follow.".into(),
            Cause::SheetTurnedOver { about } => {
                format!("It was turned over {}, so {} was up.", turned(*about), self.side(Side::B))
            }
            Cause::SecondSideTurnedRound => {
                "The pile was turned for the second side where it should be tumbled, or the reverse, so each leaf \
                 carries pages of two leaves."
                    .into()
            }
            Cause::SecondSideBlank { side } => {
                format!("A sheet missed a pass, so pages {} are blank.", self.pages_of(*side))
            }
            Cause::WrongSecondSide => {
                "The sheet was backed up with the forme of another section, so each leaf carries one page of each."
                    .into()
            }
            Cause::PagesExchanged { .. } => {
                "A fold moves whole leaves and never two single pages, so they were put wrong on the forme.".into()
            }
            Cause::PageHeadDown { .. } => {
                "A fold turns whole leaves and never one page, so it was put wrong on the forme.".into()
            }
            Cause::SectionLies { lies: Lies::HeadToTail } => {
                "It is folded right but upside down, its fold still at the back.".into()
            }
            Cause::SectionLies { lies: Lies::TurnedInPlane } => {
                "It is folded right but upside down, with its fold at the fore-edge.".into()
            }
            Cause::SectionLies { lies: Lies::SideToSide } => {
                "It is folded right and upright, but turned over, with its fold at the fore-edge.".into()
            }
            Cause::DoubleSheet => "Two sheets went in together, so every leaf is there twice.".into(),
            Cause::Together { causes } => causes.iter().map(|c| self.did(c)).collect::<Vec<_>>().join(" "),
        }
    }

    /// A fold, counted from 1. One that is not there has no trace; nothing asks for it.
    fn fold(&self, number: u32) -> Fold {
        let at = (number as usize).saturating_sub(1);
        let none = Fold::new(1, crate::fold::Part::Right, crate::fold::Lands::Over);
        self.scheme.folds.get(at).copied().unwrap_or(none)
    }

    /// `side B, with 1`: a side and the lowest page on it.
    fn side(&self, side: Side) -> String {
        let lowest = self.on(side).first().copied();
        lowest.map_or_else(|| format!("side {}", side_word(side)), |n| format!("side {}, with {n},", side_word(side)))
    }

    /// The lay corner, with the page beside it.
    fn corner(&self) -> String {
        let face = Face { side: Side::A, row: self.scheme.rows.saturating_sub(1), column: 0 };
        let page = self.landing.as_ref().and_then(|l| l.page_on(&face)).and_then(|p| (self.number)(p));
        page.map_or_else(|| "the lay corner".to_owned(), |page| format!("the lay corner (beside {page})"))
    }

    fn pages_of(&self, side: Side) -> String {
        let page = |n: u32| FoundPage { page: Some(n), head: None };
        opening(&self.on(side).into_iter().map(page).collect::<Vec<_>>())
    }

    /// The numbers printed on a side, ascending.
    fn on(&self, side: Side) -> Vec<u32> {
        let pages = self.landing.iter().flat_map(|l| &l.pages).filter(|p| p.face.side == side);
        pages.filter_map(|p| (self.number)(p.page)).collect()
    }
}
