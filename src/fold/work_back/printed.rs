//! What is known of a printed sheet.

use crate::fold::Direction;

/// What is known of one face.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Known {
    /// The page printed.
    pub page: Option<u32>,
    /// The way its head points, seen from its own side.
    pub head: Option<Direction>,
}

/// Both sides of a sheet, as far as they are known.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Printed {
    /// Rows of the sheet.
    pub rows: u32,
    /// Columns of the sheet.
    pub columns: u32,
    /// Side A row by row, then side B, columns as seen from side A.
    faces: Vec<Known>,
}

/// A side, row by row, as seen from that side.
pub type View = Vec<Vec<Known>>;

impl Printed {
    /// A sheet of `rows` by `columns`; `side_a` and `side_b` as seen, each from its own side.
    #[must_use]
    pub fn new(rows: u32, columns: u32, side_a: &View, side_b: &View) -> Self {
        let mut faces = Vec::with_capacity(2 * (rows * columns) as usize);
        faces.extend(side_a.iter().flatten().copied());
        faces.extend(side_b.iter().flat_map(|row| row.iter().rev()).copied());
        faces.resize(2 * (rows * columns) as usize, Known::default());
        Self { rows, columns, faces }
    }

    /// Pages of the section.
    pub(super) const fn pages(&self) -> u32 {
        2 * self.rows * self.columns
    }

    /// Side A row by row, then side B, columns as seen from side A. The indexes are called places here.
    pub(super) fn known(&self) -> &[Known] {
        &self.faces
    }

    /// The panel of a place.
    pub(super) fn panel(&self, at: usize) -> usize {
        at % (self.faces.len() / 2).max(1)
    }

    /// Whether the row and the column of a place are odd.
    pub(super) fn is_odd(&self, at: usize) -> (bool, bool) {
        let columns = (self.columns as usize).max(1);
        (self.panel(at) / columns % 2 == 1, self.panel(at) % columns % 2 == 1)
    }

    /// Whether a place is on side B.
    pub(super) fn on_side_b(&self, at: usize) -> bool {
        2 * at >= self.faces.len()
    }

    /// Whether side A of the first panel faces the front of the section if `page` stands in a place: an odd page is the
    /// face of its leaf that lies towards the front, and neighbours lie face up and face down in turn.
    pub(super) fn side_a_to_front(&self, at: usize, page: u32) -> bool {
        let (row, column) = self.is_odd(at);
        ((page % 2 == 1) != self.on_side_b(at)) != (row != column)
    }

    /// The same sheet with what is known changed.
    pub(super) fn with(&self, change: impl FnOnce(&mut [Known])) -> Self {
        let mut other = self.clone();
        change(&mut other.faces);
        other
    }

    /// The pages that are seen and their places, unless one of them isn't of this section or stands twice.
    pub(super) fn seen(&self) -> Option<Vec<(usize, u32)>> {
        let seen: Vec<(usize, u32)> =
            (0..).zip(&self.faces).filter_map(|(at, known)| Some((at, known.page?))).collect();
        let mut pages: Vec<u32> = seen.iter().map(|(_, page)| *page).collect();
        pages.sort_unstable();
        let sound = pages.iter().all(|page| (1..=self.pages()).contains(page)) && pages.is_sorted_by(|a, b| a < b);
        sound.then_some(seen)
    }

    /// The panels whose two pages, both seen, can't be one leaf.
    pub(super) fn broken(&self) -> Vec<usize> {
        let (a, b) = self.faces.split_at(self.faces.len() / 2);
        let one_leaf = |a: &Known, b: &Known| a.page.zip(b.page).is_none_or(|(a, b)| a.div_ceil(2) == b.div_ceil(2));
        (0..).zip(a.iter().zip(b)).filter(|(_, (a, b))| !one_leaf(a, b)).map(|(panel, _)| panel).collect()
    }
}
