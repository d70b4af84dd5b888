//! Landing: the number of every page, placed back on the flat sheet.

use super::error::FoldError;
use super::geometry::{Direction, Face, Side};
use super::scheme::Scheme;
use super::section::{FoundFace, Section};

/// Where one page lands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PageAt {
    /// The page, counted from 1 in the section.
    pub page: u32,
    /// Its face on the sheet.
    pub face: Face,
    /// The way its head points, seen from its own side.
    pub head: Direction,
    /// Its leaf, counted from 1.
    pub leaf: u32,
    /// The page on the other side of the same leaf.
    pub backed_by: u32,
    /// The page on the other half of the same paper across the spine; `None` for a loose leaf.
    pub conjugate: Option<u32>,
}

/// The numbers of a whole sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Landing {
    /// Rows of the sheet.
    pub rows: u32,
    /// Columns of the sheet.
    pub columns: u32,
    /// The pages in order: page k is at k - 1.
    pub pages: Vec<PageAt>,
    /// Leaves, counted from 1, that no crease holds at the spine.
    pub loose_leaves: Vec<u32>,
    /// Page on each face, in the order of [`index`].
    by_face: Vec<u32>,
}

impl Landing {
    /// Folds the scheme and numbers its pages.
    ///
    /// # Errors
    /// When the scheme can't be folded into a section.
    pub fn of(scheme: &Scheme) -> Result<Self, FoldError> {
        Ok(Self::of_section(&Section::of_scheme(scheme)?))
    }

    /// Numbers the pages of a section that was folded already.
    #[must_use]
    pub fn of_section(section: &Section) -> Self {
        let (rows, columns) = (section.rows, section.columns);
        let mut by_face = vec![0; 2 * (rows * columns) as usize];
        for (page, found) in (1u32..).zip(&section.faces) {
            if let Some(slot) = by_face.get_mut(index(columns, &found.face)) {
                *slot = page;
            }
        }
        let mut pages = Vec::with_capacity(section.faces.len());
        let mut loose_leaves = Vec::new();
        for ((leaf, [front, back]), held) in (1u32..).zip(section.faces.as_chunks().0).zip(&section.held) {
            if !held {
                loose_leaves.push(leaf);
            }
            let beside = towards_spine(columns, front);
            let page_at = |page: u32, backed_by: u32, found: &FoundFace| {
                let across = index(columns, &found.face).wrapping_add_signed(beside);
                let conjugate = by_face.get(across).copied().filter(|p| *held && *p > 0);
                PageAt { page, face: found.face, head: found.head, leaf, backed_by, conjugate }
            };
            let recto = 2 * leaf - 1;
            pages.extend([page_at(recto, recto + 1, front), page_at(recto + 1, recto, back)]);
        }
        Self { rows, columns, pages, loose_leaves, by_face }
    }

    /// The page printed on a face.
    #[must_use]
    pub fn page_on(&self, face: &Face) -> Option<u32> {
        self.by_face.get(index(self.columns, face)).copied().filter(|p| *p > 0)
    }

    /// Where a page (counted from 1) lands.
    #[must_use]
    pub fn page(&self, page: u32) -> Option<&PageAt> {
        self.pages.get((page as usize).checked_sub(1)?)
    }

    /// The side that carries page 1: the outer forme. The other one, with page 2, is the inner forme.
    #[must_use]
    pub fn outer_forme(&self) -> Side {
        self.pages.first().map_or(Side::B, |p| p.face.side)
    }

    /// The numbers of one side, row by row, as seen from that side.
    #[must_use]
    pub fn grid(&self, side: Side) -> Vec<Vec<&PageAt>> {
        (0..self.rows)
            .map(|row| {
                (0..self.columns)
                    .filter_map(|seen| {
                        let column = if side == Side::A { seen } else { self.columns - 1 - seen };
                        self.page(self.page_on(&Face { side, row, column })?)
                    })
                    .collect()
            })
            .collect()
    }
}

/// From the index of a face to that of the face beside it across the spine, which is there if the spine holds the leaf.
/// It is the same for the back.
fn towards_spine(columns: u32, found: &FoundFace) -> isize {
    let (dx, dy) = if found.face.side == Side::A { found.spine } else { found.spine.turned_over() }.step();
    2 * (dy * columns.cast_signed() + dx) as isize
}

/// The two faces of a panel beside each other, panel after panel, row by row.
fn index(columns: u32, face: &Face) -> usize {
    2 * (face.row * columns + face.column) as usize + usize::from(face.side == Side::B)
}
