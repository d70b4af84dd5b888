//! How a section is put together of several pieces, read from an answer.

use super::job::Layout;
use super::part::{Part, Refused};
use super::section_asked::{pages, printed, read_fold_at};
use crate::fold::Scheme;
use crate::fold::misfold::{FoldAt, FoundPage, LeafOf};

/// A section put together of pieces.
#[derive(Clone, Debug, PartialEq)]
pub struct NestTold {
    /// Its pages from front to back.
    pub pages: Vec<FoundPage>,
    /// Its leaves from front to back, each of two pages.
    pub leaves: Vec<LeafOf>,
    /// The pieces that are whole sheets: the number, how it is folded, and what is printed on it.
    pub pieces: Vec<(u32, Scheme, Layout)>,
}

impl NestTold {
    /// The numbers on a piece of it, from front to back.
    #[must_use]
    pub fn on_piece(&self, piece: u32) -> Vec<u32> {
        let leaves = self.leaves.iter().zip(self.pages.chunks(2)).filter(|(leaf, _)| leaf.piece == piece);
        leaves.flat_map(|(_, pages)| pages).filter_map(|page| page.page).collect()
    }
}

pub(super) fn nest(part: &Part<'_>) -> Result<NestTold, Refused> {
    let leaf = |part: &Part<'_>| -> Result<LeafOf, Refused> {
        let number = |name: &str| part.member(name)?.whole_number();
        let fold_at = if read_fold_at(part)? { FoldAt::ForeEdge } else { FoldAt::Spine };
        Ok(LeafOf { piece: number("piece")?, paper: number("paper")?, fold_at })
    };
    let piece = |part: &Part<'_>| -> Result<(u32, Scheme, Layout), Refused> {
        let (scheme, sheet) = printed(part)?;
        Ok((part.member("piece")?.whole_number()?, scheme, sheet))
    };
    Ok(NestTold {
        pages: pages(&part.member("pages")?)?,
        leaves: part.member("leaves")?.list()?.iter().map(leaf).collect::<Result<_, _>>()?,
        pieces: part.member("pieces")?.list()?.iter().map(piece).collect::<Result<_, _>>()?,
    })
}
