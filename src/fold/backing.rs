//! How the second side of a sheet is printed: from a forme of its own, or from the same one, the sheet turned or tumbled.

use super::geometry::{Direction, Face, Side};
use super::worked::Worked;

/// How the second side is printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Backing {
    /// Each side has a forme of its own.
    Sheetwise,
    /// One forme prints both sides; the sheet is turned left to right between them, its gripper edge staying the same.
    WorkAndTurn,
    /// One forme prints both sides; the sheet is tumbled head over foot between them, and the grippers take the other edge.
    WorkAndTumble,
}

/// How the two sides of a sheet compare, side A lying with its first row away.
///
/// Where both ways will do, it is turned: the gripper edge then stays the same (common practice, no source).
#[must_use]
pub fn backing(worked: &Worked) -> Backing {
    let (rows, columns) = (worked.course.rows, worked.course.columns);
    let mut printed: Vec<Option<(usize, u32, Direction)>> = vec![None; 2 * (rows * columns) as usize];
    let index = |side: Side, row: u32, seen: u32| {
        (row * columns + seen) as usize + if side == Side::A { 0 } else { (rows * columns) as usize }
    };
    for (copy, sections) in worked.course.copies.iter().enumerate() {
        for section in 0..sections.len() {
            let pages = worked.landing(copy, section).map_or_else(Vec::new, |l| l.pages);
            let alone = pages.len() == 2;
            for page in pages {
                let Face { side, row, .. } = page.face;
                // A leaf without a fold may lie either way up, and is known as a leaf alone.
                let number = if alone { page.leaf } else { page.page };
                if let Some(slot) = printed.get_mut(index(side, row, page.face.column_seen(columns))) {
                    *slot = Some((section, number, page.head));
                }
            }
        }
    }
    let at = |side, row, seen| printed.get(index(side, row, seen)).copied().flatten();
    let all = |same: &dyn Fn(u32, u32) -> bool| (0..rows).all(|r| (0..columns).all(|c| same(r, c)));
    if all(&|r, c| at(Side::A, r, c) == at(Side::B, r, c)) {
        return Backing::WorkAndTurn;
    }
    let turned = |cell: Option<(usize, u32, Direction)>| cell.map(|(s, p, head)| (s, p, head.opposite()));
    if all(&|r, c| at(Side::A, r, c) == turned(at(Side::B, rows - 1 - r, columns - 1 - c))) {
        return Backing::WorkAndTumble;
    }
    Backing::Sheetwise
}
