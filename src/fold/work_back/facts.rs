//! What a print says of the finished section, brought into one frame: the panel at the top left, side A up.
//!
//! Every crease between two panels is folded in the end, so of two neighbours one lies face up and the other face down,
//! and one is the mirror image of the other. How the panel in row `r` and column `c` lies is therefore known from how
//! the first panel lies: mirrored in `x` if `c` is odd, in `y` if `r` is odd, turned over if `r + c` is odd. One known
//! page settles which side of each panel faces the front; one known head settles all of them.

use super::printed::Printed;
use crate::fold::Direction;

/// The facts that a section folded from a sheet must agree with.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Facts {
    /// Rows of the sheet.
    pub(super) rows: u32,
    /// Columns of the sheet.
    pub(super) columns: u32,
    /// The leaf, from 1 at the front, that each panel becomes, row by row; 0 where it isn't known.
    pub(super) leaves: Vec<u8>,
    /// Whether side A of the first panel faces the front, if a page is known.
    pub(super) side_a_to_front: Option<bool>,
    /// The way the head of the first panel points, seen from side A, if a head is known.
    pub(super) head: Option<Direction>,
}

impl Facts {
    /// `None` where what is known contradicts itself, so that nothing can print it.
    pub(super) fn of(printed: &Printed) -> Option<Self> {
        let (rows, columns) = (printed.rows, printed.columns);
        let panels = (rows * columns) as usize;
        let mut facts = Self { rows, columns, leaves: vec![0; panels], side_a_to_front: None, head: None };
        let mut taken = 0u128;
        for (at, known) in printed.known().iter().enumerate() {
            if let Some(page) = known.page {
                let leaf = u8::try_from(page.div_ceil(2)).ok().filter(|leaf| (1..=panels).contains(&(*leaf).into()))?;
                let to_front = printed.side_a_to_front(at, page);
                if *facts.side_a_to_front.get_or_insert(to_front) != to_front {
                    return None;
                }
                let slot = facts.leaves.get_mut(printed.panel(at))?;
                let bit = 1 << (leaf - 1);
                if *slot != leaf && (*slot != 0 || taken & bit != 0) {
                    return None;
                }
                *slot = leaf;
                taken |= bit;
            }
            if let Some(head) = known.head {
                let (row_odd, column_odd) = printed.is_odd(at);
                let seen_from_a = if printed.on_side_b(at) { head.turned_over() } else { head };
                let head = seen_from_a.mirrored(column_odd, row_odd);
                if *facts.head.get_or_insert(head) != head {
                    return None;
                }
            }
        }
        Some(facts)
    }
}
