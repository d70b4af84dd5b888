//! Landing: the number of every page, placed back on the flat sheet.

use super::error::FoldError;
use super::folding::Folding;
use super::geometry::{Direction, Face, Side};
use super::scheme::Scheme;
use super::section::Section;

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
    /// Page on each face: side A row by row, then side B row by row, columns as seen from side A.
    by_face: Vec<u32>,
}

impl Landing {
    /// Folds the scheme and numbers its pages.
    ///
    /// # Errors
    /// When the scheme can't be folded into a section.
    pub fn of(scheme: &Scheme) -> Result<Self, FoldError> {
        let folding = Folding::end_of(scheme)?;
        Ok(Self::of_section(&Section::of(scheme, &folding)?))
    }

    /// Numbers the pages of a section that was folded already.
    #[must_use]
    pub fn of_section(section: &Section) -> Self {
        let (rows, columns) = (section.rows, section.columns);
        let mut by_face = vec![0; 2 * (rows * columns) as usize];
        for (page, found) in (1u32..).zip(&section.faces) {
            if let Some(slot) = by_face.get_mut(index(rows, columns, &found.face)) {
                *slot = page;
            }
        }
        let mut landing =
            Self { rows, columns, pages: Vec::with_capacity(section.faces.len()), loose_leaves: Vec::new(), by_face };
        for (page, found) in (1u32..).zip(&section.faces) {
            let leaf = page.div_ceil(2);
            let held = section.held.get(leaf as usize - 1).copied().unwrap_or(false);
            let backed_by = if page % 2 == 1 { page + 1 } else { page - 1 };
            let conjugate = if held { landing.page_beside(&found.face, found.spine) } else { None };
            landing.pages.push(PageAt { page, face: found.face, head: found.head, leaf, backed_by, conjugate });
        }
        landing.loose_leaves = (1u32..).zip(&section.held).filter(|(_, held)| !**held).map(|(l, _)| l).collect();
        landing
    }

    /// The page printed on a face.
    #[must_use]
    pub fn page_on(&self, face: &Face) -> Option<u32> {
        self.by_face.get(index(self.rows, self.columns, face)).copied().filter(|p| *p > 0)
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

    /// The page on the panel next to a face, in a direction as seen from the face's own side.
    fn page_beside(&self, face: &Face, towards: Direction) -> Option<u32> {
        let (dx, dy) = if face.side == Side::A { towards } else { towards.turned_over() }.step();
        let column = face.column.checked_add_signed(dx).filter(|c| *c < self.columns)?;
        let row = face.row.checked_add_signed(dy).filter(|r| *r < self.rows)?;
        self.page_on(&Face { row, column, ..*face })
    }
}

fn index(rows: u32, columns: u32, face: &Face) -> usize {
    let side = if face.side == Side::A { 0 } else { rows * columns };
    (side + face.row * columns + face.column) as usize
}
