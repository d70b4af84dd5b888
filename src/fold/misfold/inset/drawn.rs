//! A row of pages with the leaves that carry them, and which of these are one piece of paper: enough for a picture of a
//! section that is put together of several pieces.

use super::plan::SheetOf;
use crate::fold::misfold::{Acted, FoldAt, FoundPage, Lies};
use crate::fold::{Landing, Scheme, Section, Side};
use serde::Serialize;

/// A leaf as it lies in a section.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct LeafOf {
    /// The piece that it belongs to, from 1.
    pub piece: u32,
    /// Leaves of one piece with the same number are one piece of paper across a fold.
    pub paper: u32,
    /// The edge at which that fold lies.
    pub fold_at: FoldAt,
}

/// Pages from front to back. The leaves are there only where a picture is wanted.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Row {
    /// The pages.
    pub pages: Vec<FoundPage>,
    /// The leaves, each of two pages.
    pub leaves: Vec<LeafOf>,
}

/// A piece that was laid into a section.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PieceOf {
    /// Its number.
    pub number: u32,
    /// Where it belongs.
    pub which: SheetOf,
    /// The section that it is of, counted on from this one.
    pub section_offset: i32,
    /// How it lies printed, and how it was folded.
    pub acted: Acted,
    /// How it lies in the section; `None` where it lies right.
    pub lies: Option<Lies>,
}

impl Row {
    /// Puts leaves in behind so many pages.
    pub(super) fn insert(&mut self, at: usize, what: Self) {
        let (page, leaf) = (at.min(self.pages.len()), (at / 2).min(self.leaves.len()));
        self.pages.splice(page..page, what.pages);
        self.leaves.splice(leaf..leaf, what.leaves);
    }

    /// Puts leaves in the place of a leaf, counted from 1.
    pub(super) fn replace(&mut self, leaf: u32, with: Self) {
        let (leaf, end) = ((leaf as usize).saturating_sub(1), leaf as usize);
        let (pages, leaves) = (self.pages.len(), self.leaves.len());
        self.pages.splice((2 * leaf).min(pages)..(2 * end).min(pages), with.pages);
        self.leaves.splice(leaf.min(leaves)..end.min(leaves), with.leaves);
    }

    /// Lays them so.
    pub(super) fn lie(&mut self, lies: Lies) {
        super::play::lie(&mut self.pages, lies);
        if lies != Lies::TurnedInPlane {
            self.leaves.reverse();
        }
        if lies != Lies::HeadToTail {
            for leaf in &mut self.leaves {
                leaf.fold_at = match leaf.fold_at {
                    FoldAt::Spine => FoldAt::ForeEdge,
                    FoldAt::ForeEdge => FoldAt::Spine,
                };
            }
        }
    }
}

/// The leaves of a folded sheet, or of two that were folded as one.
pub(super) fn leaves_of(folded: &Scheme, piece: u32, fold_at: FoldAt, double: bool) -> Vec<LeafOf> {
    let Ok(section) = Section::of_scheme(folded) else { return Vec::new() };
    let landing = Landing::of_section(&section);
    let mut leaves = Vec::new();
    for (leaf, faces) in (1u32..).zip(section.faces.chunks(2)) {
        let other = landing.page(2 * leaf - 1).and_then(|p| p.conjugate).map(|c| c.div_ceil(2));
        let paper = other.unwrap_or(leaf).min(leaf);
        if double {
            // The sheet on side A comes first where side A faces the front.
            let a_first = faces.first().is_some_and(|f| f.face.side == Side::A);
            leaves.extend([a_first, !a_first].map(|upper| LeafOf {
                piece,
                paper: 2 * paper + u32::from(upper),
                fold_at,
            }));
        } else {
            leaves.push(LeafOf { piece, paper, fold_at });
        }
    }
    leaves
}

/// How something lies that lay so and is then laid so with all that it is in.
pub(super) fn lying(inside: Option<Lies>, whole: Lies) -> Option<Lies> {
    let turns = |lies: Option<Lies>| match lies {
        None => (false, false),
        Some(Lies::HeadToTail) => (true, true),
        Some(Lies::TurnedInPlane) => (false, true),
        Some(Lies::SideToSide) => (true, false),
    };
    let (a, b) = (turns(inside), turns(Some(whole)));
    match (a.0 != b.0, a.1 != b.1) {
        (false, false) => None,
        (true, true) => Some(Lies::HeadToTail),
        (false, true) => Some(Lies::TurnedInPlane),
        (true, false) => Some(Lies::SideToSide),
    }
}
