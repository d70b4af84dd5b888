//! Half sheets: one forme carries the pages of both sides of a section and prints both sides of a double sheet, which is
//! then cut into two like sections.
//!
//! The two halves of the forme stand side by side where the pile is turned (left to right) for the second side, and one
//! above the other where it is tumbled (top to bottom). Done the other way, each half is backed by itself. Turned where
//! it should be tumbled, a page is backed as it stands; tumbled where it should be turned, half turned round.
//!
//! Where the whole sheet is known, [`HalfSheets`] prints its forme wrongly and folds the pieces. Where only one of its
//! sections is, that section's sheet is taken for a half.

use super::plan::{Plan, SheetOf};
use super::stranger::{Backed, Forme};
use crate::fold::misfold::{Acted, FoldAt, FoundPage, Mark, NotExplained, PrintedPage, Sheet};
use crate::fold::{BackMark, Course, Direction, Face, FoundFace, Landing, Piece, Section, Side, nested};

/// What one forme prints on a face, where it is brought to the second side so: the face of the forme, and whether it
/// comes there half turned round. `forme` is the side that it printed first.
fn printed_from(face: Face, forme: Side, backed: Backed, rows: u32, columns: u32) -> (Face, bool) {
    if face.side == forme {
        return (face, false);
    }
    let seen = face.column_seen(columns);
    let (row, seen, turned) = match backed {
        Backed::Turned => (face.row, seen, false),
        Backed::Tumbled => (rows - 1 - face.row, columns - 1 - seen, true),
    };
    let column = if forme == Side::A { seen } else { columns - 1 - seen };
    (Face { side: forme, row, column }, turned)
}

/// A page with its head, seen from its own side, as it is found on a face of a section.
fn found_on(found: &FoundFace, printed: Option<(Option<u32>, Direction)>) -> FoundPage {
    let Some((page, head)) = printed else { return FoundPage { page: None, head: None } };
    let head = if head == found.head { Direction::Up } else { Direction::Down };
    FoundPage { page, head: Some(head) }
}

/// The section that is folded from such a half, with the pages of one forme on both sides.
pub(super) fn half_sheet(plan: &Plan, forme: Forme, was: Backed) -> Result<Acted, NotExplained> {
    let scheme = plan.scheme_of(SheetOf::Outer);
    let right = Section::of_scheme(scheme)?;
    let landing = Landing::of_section(&right);
    let outer = landing.outer_forme();
    let kept = if forme == Forme::Outer { outer } else { outer.other() };
    let (rows, columns) = (landing.rows, landing.columns);
    // What is printed on a face: the page and the way its head points, seen from the side of the face.
    let printed = |face: Face| {
        let (from, turned) = printed_from(face, kept, was, rows, columns);
        let page = landing.page(landing.page_on(&from)?)?;
        let number = plan.number(SheetOf::Outer, i64::from(page.page));
        Some((number, if turned { page.head.opposite() } else { page.head }))
    };
    let pages = right.faces.iter().map(|found| found_on(found, printed(found.face))).collect();
    let mark = if forme == Forme::Outer { BackMark::on_sheet(&right, &landing) } else { None };
    Ok(Acted {
        folded: scheme.clone(),
        sheet: sheet(rows, columns, mark, printed),
        under: None,
        pages,
        fold_at: FoldAt::Spine,
        mark: if mark.is_some() { Mark::Shows } else { Mark::Blank },
    })
}

/// Both sides of a sheet, from what is printed on its faces.
fn sheet(
    rows: u32,
    columns: u32,
    mark: Option<BackMark>,
    printed: impl Fn(Face) -> Option<(Option<u32>, Direction)>,
) -> Sheet {
    let side = |side: Side| {
        let row = |row: u32| {
            let cell = |seen: u32| {
                let column = if side == Side::A { seen } else { columns - 1 - seen };
                let (page, head) = printed(Face { side, row, column })?;
                Some(PrintedPage { page: page?, head })
            };
            (0..columns).map(cell).collect()
        };
        (0..rows).map(row).collect()
    };
    Sheet { side_a: side(Side::A), side_b: side(Side::B), mark }
}

/// A sheet that one forme prints on both sides, and what comes of each copy on it when the pile is brought to its second
/// side the other way.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HalfSheets {
    right: Backed,
    halves: Vec<Half>,
}

/// A section of a copy that was backed up wrong.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Half {
    /// The forme whose pages are on both sides.
    pub(super) forme: Forme,
    /// Its pages from front to back.
    pub(super) pages: Vec<FoundPage>,
    /// What is seen of the back mark.
    pub(super) mark: Mark,
    /// How its outermost piece lies printed, where that is all of it.
    pub(super) way: Option<Acted>,
}

impl HalfSheets {
    /// Reads a course: `None` where no forme prints both of its sides. `section` counts from 0 in each copy, and begins
    /// with page `first`.
    #[must_use]
    pub fn of(course: &Course, section: usize, first: u32) -> Option<Self> {
        let worked = crate::fold::Worked::of(course).ok()?;
        let print = Print::of(course, &worked.pieces)?;
        let right = [Backed::Turned, Backed::Tumbled].into_iter().find(|b| print.is_backed(*b))?;
        let before = print.before.get(section).copied()?;
        let number = |page: u32| u32::try_from(i64::from(page) - before + i64::from(first)).ok().filter(|n| *n > 0);
        let mut halves: Vec<Half> = Vec::new();
        for copy in &course.copies {
            let nest = copy.get(section)?;
            let found = nested(&worked.pieces, nest)?;
            let landing = Landing::of_section(&found);
            let outer = landing.outer_forme();
            for forme in [Side::A, Side::B] {
                let printed = |face: Face| {
                    let (from, turned) = printed_from(face, forme, right.other(), print.rows, print.columns);
                    let (page, head) = print.on(&from)?;
                    Some((number(page), if turned { head.opposite() } else { head }))
                };
                let pages: Vec<FoundPage> = found.faces.iter().map(|f| found_on(f, printed(f.face))).collect();
                let of = if forme == outer { Forme::Outer } else { Forme::Inner };
                if halves.iter().any(|h| (h.forme, &h.pages) == (of, &pages)) {
                    continue;
                }
                let marked = if of == Forme::Outer { BackMark::on_sheet(&found, &landing) } else { None };
                let mark = if marked.is_some() { Mark::Shows } else { Mark::Blank };
                let own = nest.first().filter(|_| nest.len() == 1).and_then(|piece| worked.own_sheet(*piece));
                let way = own.map(|own| {
                    let (left, top) = (own.area.x0.unsigned_abs(), own.area.y0.unsigned_abs());
                    let on_whole = |f: Face| Face { row: f.row + top, column: f.column + left, ..f };
                    let sheet = sheet(own.scheme.rows, own.scheme.columns, None, |face| printed(on_whole(face)));
                    let pages = pages.clone();
                    Acted { folded: own.scheme, sheet, under: None, pages, fold_at: FoldAt::Spine, mark }
                });
                halves.push(Half { forme: of, pages, mark, way });
            }
        }
        Some(Self { right, halves })
    }

    /// How the pile should be brought to its second side.
    #[must_use]
    pub fn right(&self) -> Backed {
        self.right
    }

    pub(super) fn half(&self, forme: Forme, was: Backed) -> impl Iterator<Item = &Half> {
        self.halves.iter().filter(move |h| h.forme == forme && was != self.right)
    }
}

/// What the right sheet carries: on each face a page, counted from 1 through all sections of a copy, and its head.
struct Print {
    rows: u32,
    columns: u32,
    cells: Vec<Option<(u32, Direction)>>,
    /// The pages before each section.
    before: Vec<i64>,
}

impl Print {
    fn of(course: &Course, pieces: &[Piece]) -> Option<Self> {
        let (rows, columns) = (course.rows, course.columns);
        let mut print = Self { rows, columns, cells: vec![None; 2 * (rows * columns) as usize], before: Vec::new() };
        if course.copies.len() < 2 {
            return None;
        }
        for copy in &course.copies {
            let mut before = 0;
            print.before.clear();
            for nest in copy {
                print.before.push(i64::from(before) + 1);
                let section = nested(pieces, nest)?;
                for (page, found) in (before + 1..).zip(&section.faces) {
                    let at = print.index(&found.face);
                    if let Some(cell) = print.cells.get_mut(at) {
                        *cell = Some((page, found.head));
                    }
                }
                before += section.faces.len() as u32;
            }
        }
        Some(print)
    }

    fn index(&self, face: &Face) -> usize {
        2 * (face.row * self.columns + face.column) as usize + usize::from(face.side == Side::B)
    }

    fn on(&self, face: &Face) -> Option<(u32, Direction)> {
        self.cells.get(self.index(face)).copied().flatten()
    }

    /// Whether the forme of side A prints side B too, brought there so.
    fn is_backed(&self, backed: Backed) -> bool {
        let faces = (0..self.rows).flat_map(|row| (0..self.columns).map(move |column| (row, column)));
        faces.into_iter().all(|(row, column)| {
            let face = Face { side: Side::B, row, column };
            let (from, turned) = printed_from(face, Side::A, backed, self.rows, self.columns);
            let printed = self.on(&from).map(|(page, head)| (page, if turned { head.opposite() } else { head }));
            printed == self.on(&face)
        })
    }
}
