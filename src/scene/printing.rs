//! What is printed on a sheet: a page, or nothing, on every face.

use super::face::{PAGE_HEIGHT, PAGE_WIDTH};
use super::panels::Panels;
use crate::fold::{BackMark, Direction, Face, Landing, Measure, Reads, Side};
use std::rc::Rc;

/// A page as it stands on a face.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Figure {
    /// The page of the book: the number that is printed.
    pub page: u32,
    /// The way its head points in the face's own view; `None` where nobody knows, and then it is drawn upright without
    /// a head tick.
    pub head: Option<Direction>,
}

/// What is printed on a sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Printing {
    /// Rows of the sheet.
    pub rows: u32,
    /// Columns of the sheet.
    pub columns: u32,
    /// The page on every face, by [`Printing::index`]; what lies beyond the end is blank. Whether it was printed
    /// rightly is not asked here: this alone is drawn.
    pub cells: Rc<[Option<Figure>]>,
    /// Whether a face differs from what it is compared with, and is marked so; by [`Printing::index`], no beyond the
    /// end.
    pub differs: Rc<[bool]>,
    /// Drawn for a class, if at all: figures are as large as they get, and those of the marked faces are covered by a blank
    /// slip; by [`Printing::index`], no beyond the end. The head tick stays.
    pub before_class: Option<Rc<[bool]>>,
    /// Where the pages were meant to land: names the formes and finds the face of a page, and is not drawn.
    pub landing: Option<Landing>,
    /// Pages before this section.
    pub shift: u32,
    /// The back mark: where, and its near and far end as a share of the spine from the head.
    pub mark: Option<(BackMark, f64, f64)>,
    /// Where the lay corner is as seen from side A: at the right, and at the top. It goes with a sheet that is laid
    /// otherwise than it should be.
    pub lay_corner: (bool, bool),
    /// Whether the sheet lies with the side up that should be down: then A is the side that is named B elsewhere, and has
    /// its paper.
    pub turned_over: bool,
    /// Whether the spine is at the left or at the right of an odd page.
    pub reads: Reads,
    /// Whether the sheet is large, so that hatch and figures are drawn coarser.
    pub coarse: bool,
    /// Whether heads run along the sheet's width, so that panels lie on their sides.
    pub sideways: bool,
    /// The sizes of the panels on the flat sides; without them all are one page large.
    pub panels: Option<Rc<Panels>>,
}

impl Printing {
    /// A blank sheet.
    #[must_use]
    pub fn blank(rows: u32, columns: u32) -> Self {
        Self {
            rows,
            columns,
            cells: [].into(),
            differs: [].into(),
            before_class: None,
            landing: None,
            shift: 0,
            mark: None,
            lay_corner: (false, false),
            turned_over: false,
            reads: Reads::LeftToRight,
            coarse: rows.saturating_mul(columns) > 16,
            sideways: false,
            panels: None,
        }
    }

    /// A sheet that is printed rightly: every page where it lands, `shift` pages of the book before them.
    #[must_use]
    pub fn landed(landing: Landing, shift: u32) -> Self {
        let mut printing = Self { shift, ..Self::blank(landing.rows, landing.columns) };
        printing.sideways = landing.pages.first().is_some_and(|p| p.head.is_sideways());
        let mut cells = vec![None; 2 * (landing.rows * landing.columns) as usize];
        for at in &landing.pages {
            if let Some(cell) = cells.get_mut(printing.index(&at.face)) {
                *cell = Some(Figure { page: at.page + shift, head: Some(at.head) });
            }
        }
        printing.cells = cells.into();
        printing.landing = Some(landing);
        printing
    }

    /// The same sheet with `figure` printed on a face, or nothing.
    #[must_use]
    pub fn printed(mut self, face: &Face, figure: Option<Figure>) -> Self {
        let mut cells = self.cells.to_vec();
        put(&mut cells, self.index(face), figure);
        self.cells = cells.into();
        self
    }

    /// The same sheet with some faces marked as differing, and no others.
    #[must_use]
    pub fn marking<'a>(mut self, faces: impl IntoIterator<Item = &'a Face>) -> Self {
        let mut differs = Vec::new();
        for face in faces {
            put(&mut differs, self.index(face), true);
        }
        self.differs = differs.into();
        self
    }

    /// Where a face comes in the lists: side A row by row, then side B row by row, columns as seen from side A. A face
    /// that is not on the sheet comes nowhere.
    #[must_use]
    pub const fn index(&self, face: &Face) -> usize {
        if face.row >= self.rows || face.column >= self.columns {
            return usize::MAX;
        }
        let side = match face.side {
            Side::A => 0,
            Side::B => self.rows as usize * self.columns as usize,
        };
        side + face.row as usize * self.columns as usize + face.column as usize
    }

    /// All faces, in the order of [`Printing::index`].
    pub fn faces(&self) -> impl Iterator<Item = Face> + use<> {
        let (rows, columns) = (self.rows, self.columns);
        [Side::A, Side::B].into_iter().flat_map(move |side| {
            (0..rows).flat_map(move |row| (0..columns).map(move |column| Face { side, row, column }))
        })
    }

    /// The side by whose paper and hatch a side is drawn.
    #[must_use]
    pub const fn paper(&self, side: Side) -> Side {
        if self.turned_over { side.other() } else { side }
    }

    /// Width and height of a panel.
    #[must_use]
    pub fn panel(&self) -> (f64, f64) {
        if self.sideways { (PAGE_HEIGHT, PAGE_WIDTH) } else { (PAGE_WIDTH, PAGE_HEIGHT) }
    }

    /// The same sheet with panels of given sizes.
    #[must_use]
    pub fn measured(self, measure: &Measure) -> Self {
        Self { panels: Some(Rc::new(Panels::of(measure))), ..self }
    }

    /// Drawn units in a true millimetre.
    #[must_use]
    pub fn scale(&self) -> f64 {
        self.panels.as_ref().map_or(1.0, |p| p.scale)
    }

    /// Where the line left of a column lies, from the left as seen from side A.
    #[must_use]
    pub fn line_x(&self, column: u32) -> f64 {
        self.panels.as_ref().map_or_else(|| self.panel().0 * f64::from(column), |p| p.line_x(column))
    }

    /// Where the line above a row lies.
    #[must_use]
    pub fn line_y(&self, row: u32) -> f64 {
        self.panels.as_ref().map_or_else(|| self.panel().1 * f64::from(row), |p| p.line_y(row))
    }

    /// Width and height of the sheet.
    #[must_use]
    pub fn sheet(&self) -> (f64, f64) {
        (self.line_x(self.columns), self.line_y(self.rows))
    }

    /// Width and height of the panel of a face.
    #[must_use]
    pub fn size(&self, face: &Face) -> (f64, f64) {
        let Some(panels) = &self.panels else { return self.panel() };
        let (row, column) = (face.row, face.column);
        (panels.line_x(column + 1) - panels.line_x(column), panels.line_y(row + 1) - panels.line_y(row))
    }

    /// The figure on a face.
    #[must_use]
    pub fn figure(&self, face: &Face) -> Option<Figure> {
        *self.cells.get(self.index(face))?
    }

    /// The same sheet drawn for a class, with the figures of some faces covered, by [`Printing::index`].
    #[must_use]
    pub fn before_class(self, covered: impl IntoIterator<Item = usize>) -> Self {
        let mut list = Vec::new();
        for at in covered {
            put(&mut list, at, true);
        }
        Self { before_class: Some(list.into()), ..self }
    }

    /// Whether the figure of a face is covered.
    #[must_use]
    pub fn is_covered(&self, face: &Face) -> bool {
        self.before_class.as_ref().and_then(|c| c.get(self.index(face))).is_some_and(|c| *c)
    }

    /// Whether a face is marked as differing.
    #[must_use]
    pub fn is_marked(&self, face: &Face) -> bool {
        self.differs.get(self.index(face)).is_some_and(|d| *d)
    }
}

/// Puts a value at a place of a list that may be shorter. A place beyond the largest sheet is none.
fn put<T: Clone + Default>(list: &mut Vec<T>, at: usize, value: T) {
    if at >= 2 * crate::fold::MAX_PANELS as usize {
        return;
    }
    if list.len() <= at {
        list.resize(at + 1, T::default());
    }
    if let Some(slot) = list.get_mut(at) {
        *slot = value;
    }
}
