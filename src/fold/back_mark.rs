//! The back mark: printed on the flat sheet, folded with it, and seen (or not) on an edge of the section.
//!
//! It straddles the crease between the section's last and first page, on the outer forme (common practice, no source;
//! Roberts and Etherington, *Bookbinding and the Conservation of Books*, "black step", put it on the back fold).

use super::error::FoldError;
use super::folding::Folding;
use super::geometry::{Direction, Face};
use super::landing::Landing;
use super::scheme::Scheme;
use super::section::Section;

/// Where the mark is printed: on the edge that the first page shares with the last.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct BackMark {
    /// The face of page 1, beside whose spine edge the mark stands.
    pub first_page: Face,
    /// The face of the last page, on the other side of that edge.
    pub last_page: Face,
    /// The way to the spine from page 1, seen from its own side.
    pub spine: Direction,
    /// The way the head of page 1 points, seen from its own side.
    pub head: Direction,
}

/// Where a printed mark is found once a sheet is folded.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Showing {
    /// On the outside of the spine, its distance measured from the head.
    OnSpine,
    /// On the outside of the spine, but with the head of its page at the tail of the section.
    OnSpineFromTail,
    /// On the outside of another edge (a bolt) of the packet.
    OnEdge(Direction),
    /// Inside the section.
    Inside,
}

impl BackMark {
    /// Where the mark is printed, or `None` where the first and the last page share no crease at the spine (a loose
    /// leaf): such a section has no place for one.
    #[must_use]
    pub fn on_sheet(section: &Section, landing: &Landing) -> Option<Self> {
        let last = landing.pages.len() as u32;
        let found = section.faces.first()?;
        if landing.page(1)?.conjugate != Some(last) {
            return None;
        }
        let last_page = landing.page(last)?.face;
        Some(Self { first_page: found.face, last_page, spine: found.spine, head: found.head })
    }

    /// Where the mark shows in a section that was folded from the printed sheet, rightly or wrongly.
    #[must_use]
    pub fn showing(&self, section: &Section) -> Showing {
        // The crease is outermost only between the first and the last leaf, and only if the mark is on the outside.
        let (Some(front), Some(back)) = (section.faces.first(), section.faces.last()) else {
            return Showing::Inside;
        };
        let outside = [front, back].map(|f| f.face);
        if !outside.contains(&self.first_page) || !outside.contains(&self.last_page) {
            return Showing::Inside;
        }
        let page = if front.face == self.first_page { front } else { back };
        if page.spine != self.spine {
            return Showing::OnEdge(match self.spine {
                d if d == page.spine.opposite() => section.spine.opposite(),
                d if d == page.head => section.head,
                _ => section.head.opposite(),
            });
        }
        if page.head == self.head { Showing::OnSpine } else { Showing::OnSpineFromTail }
    }

    /// Prints the mark by one scheme, folds the sheet by another of the same size, and says where the mark is.
    ///
    /// `None` when the printed scheme has no place for a mark.
    ///
    /// # Errors
    /// When either scheme can't be folded into a section.
    pub fn printed_and_folded(printed: &Scheme, folded: &Scheme) -> Result<Option<Showing>, FoldError> {
        let right = Section::of(printed, &Folding::of(printed)?)?;
        let mark = Self::on_sheet(&right, &Landing::of_section(&right));
        let found = Section::of(folded, &Folding::of(folded)?)?;
        Ok(mark.map(|m| m.showing(&found)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fold::library;

    #[test]
    fn every_scheme_at_hand_shows_its_mark_and_a_fold_made_the_other_way_hides_it() {
        for named in library() {
            let right = &named.scheme;
            let showing = |folded: &Scheme| BackMark::printed_and_folded(right, folded).unwrap();
            assert_eq!(showing(right), Some(Showing::OnSpine), "{}", named.name);
            for fold in 1..=right.folds.len() as u32 {
                let seen = showing(&right.fold_other_way(fold));
                // The first fold of this one rolls two thirds of the sheet in; the other way, its first and last page
                // still come to lie outside.
                let outside_still = named.name == "Twenty-four, twelves without cutting" && fold == 1;
                assert_eq!(seen == Some(Showing::OnSpine), outside_still, "{}, fold {fold}", named.name);
                assert_ne!(seen, Some(Showing::OnSpineFromTail), "{}, fold {fold}", named.name);
            }
        }
    }

    #[test]
    fn a_loose_first_leaf_has_no_place_for_a_mark() {
        use crate::fold::{Fold, Lands, Part, Reads};
        // Three panels in a row: the right one over the middle one, then those two over the left one. The leaf of the
        // right panel has a true edge at the spine.
        let scheme = Scheme {
            rows: 1,
            columns: 3,
            folds: vec![Fold::new(2, Part::Right, Lands::Over), Fold::new(1, Part::Right, Lands::Over)],
            head: Direction::Up,
            reads: Reads::LeftToRight,
        };
        let section = Section::of(&scheme, &Folding::of(&scheme).unwrap()).unwrap();
        assert!(section.held.iter().any(|h| !h));
    }
}
