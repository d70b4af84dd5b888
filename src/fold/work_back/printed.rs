//! What is known of a printed sheet.

use crate::fold::{Direction, Face, Landing, Side};

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
    /// The face of each page, at page - 1.
    places: Vec<Option<usize>>,
    /// Whether every page is one of this section and stands once.
    sound: bool,
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
        Self { rows, columns, faces, places: Vec::new(), sound: true }.placed()
    }

    /// Looks up where each page stands.
    fn placed(mut self) -> Self {
        self.places = vec![None; self.faces.len()];
        self.sound = true;
        for (i, known) in self.faces.iter().enumerate() {
            let Some(page) = known.page else { continue };
            match (page as usize).checked_sub(1).and_then(|p| self.places.get_mut(p)) {
                Some(slot @ None) => *slot = Some(i),
                _ => self.sound = false,
            }
        }
        self
    }

    /// Pages of the section.
    pub(super) const fn pages(&self) -> u32 {
        2 * self.rows * self.columns
    }

    pub(super) fn known(&self) -> &[Known] {
        &self.faces
    }

    /// The leaf (panel) of a place in [`Printed::known`].
    pub(super) fn leaf(&self, at: usize) -> usize {
        at % (self.faces.len() / 2).max(1)
    }

    pub(super) fn at(&self, face: &Face) -> Known {
        let panels = self.rows * self.columns;
        let i = face.row * self.columns + face.column + if face.side == Side::A { 0 } else { panels };
        self.faces.get(i as usize).copied().unwrap_or_default()
    }

    /// The same sheet with what is known changed.
    pub(super) fn with(&self, change: impl FnOnce(&mut Vec<Known>)) -> Self {
        let mut other = self.clone();
        change(&mut other.faces);
        other.placed()
    }

    /// The leaves whose two pages can't be one leaf, and `None` where no folding at all can print this.
    pub(super) fn broken(&self) -> Option<Vec<usize>> {
        let (a, b) = self.faces.split_at(self.faces.len() / 2);
        let leaf_holds = |(a, b): (&Known, &Known)| {
            // Seen through the sheet, both heads of a leaf point the same way.
            let heads = a.head.zip(b.head).is_none_or(|(a, b)| a == b.turned_over());
            heads && self.go_together(a.page, b.page, |p| if p % 2 == 1 { p.saturating_add(1) } else { p - 1 })
        };
        let broken = (0..).zip(a.iter().zip(b)).filter(|(_, leaf)| !leaf_holds(*leaf)).map(|(i, _)| i).collect();
        self.sound.then_some(broken)
    }

    /// Whether two faces that touch may do so: pages 2j and 2j + 1.
    pub(super) fn may_touch(&self, one: Option<u32>, other: Option<u32>) -> bool {
        self.go_together(one, other, |p| if p % 2 == 0 { p + 1 } else { p - 1 })
    }

    /// Whether two faces carry each other's partner. One that is not known may be any page that is nowhere else.
    fn go_together(&self, one: Option<u32>, other: Option<u32>, partner: impl Fn(u32) -> u32) -> bool {
        let free = |page: u32| {
            (page as usize).checked_sub(1).and_then(|p| self.places.get(p)).is_some_and(|place| place.is_none())
        };
        match (one, other) {
            (Some(one), Some(other)) => one != 0 && partner(one) == other,
            (Some(page), None) | (None, Some(page)) => page != 0 && free(partner(page)),
            (None, None) => true,
        }
    }

    /// Whether a scheme that lands so prints everything that is known.
    pub(super) fn agrees(&self, landing: &Landing) -> bool {
        landing.pages.iter().all(|at| {
            let known = self.at(&at.face);
            known.page.is_none_or(|p| p == at.page) && known.head.is_none_or(|h| h == at.head)
        })
    }
}
