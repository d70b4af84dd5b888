//! Where a back mark stands on the flat sheet, in millimetres: a bar has a length along the spine and a width across it,
//! so it stands on both pages beside the crease, or on one of them where it is off the fold.

use super::back_mark::BackMark;
use super::geometry::{Direction, Face, Side};
use super::measure::Measure;

/// A bar as it is wanted on the back, in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MarkSize {
    /// Where it begins, from the untrimmed head.
    pub from_mm: f64,
    /// Where it ends.
    pub to_mm: f64,
    /// Its width across the back.
    pub width_mm: f64,
    /// Its middle from the fold, counted towards the last page.
    pub across_mm: f64,
}

/// A part of a bar on one face, in mm of the sheet as it is seen from that side: `x` from its left edge, `y` from its
/// top.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MarkOnSheet {
    /// The side of the sheet.
    pub side: Side,
    /// Left edge.
    pub x0: f64,
    /// Top edge.
    pub y0: f64,
    /// Right edge.
    pub x1: f64,
    /// Bottom edge.
    pub y1: f64,
}

impl BackMark {
    /// The parts of a bar on the flat sheet: on the first page, then on the last; only one where it stands wholly
    /// beside the fold. A sheet of other panels has none.
    #[must_use]
    pub fn on_flat_sheet(&self, measure: &Measure, size: &MarkSize) -> Vec<MarkOnSheet> {
        let half = size.width_mm / 2.0;
        let pages =
            [(&self.first_page, self.spine, -size.across_mm), (&self.last_page, self.spine.opposite(), size.across_mm)];
        let part = |(face, spine, across): (&Face, Direction, f64)| {
            let (near, far) = ((across - half).max(0.0), across + half);
            (far > near).then(|| on_face(measure, face, (spine, self.head), (near, far), (size.from_mm, size.to_mm)))?
        };
        pages.into_iter().filter_map(part).collect()
    }
}

/// A rectangle on a face that lies so far from its spine edge and from its head.
fn on_face(
    measure: &Measure,
    face: &Face,
    (spine, head): (Direction, Direction),
    across: (f64, f64),
    down: (f64, f64),
) -> Option<MarkOnSheet> {
    let (width, height) = (measure.columns.get(face.column as usize)?.mm(), measure.rows.get(face.row as usize)?.mm());
    let column = i32::try_from(face.column).ok()?;
    let left = match face.side {
        Side::A => measure.line_x(column).mm(),
        // Turned over left to right, the sheet's right edge is at the left.
        Side::B => measure.width().mm() - measure.line_x(column + 1).mm(),
    };
    let top = measure.line_y(i32::try_from(face.row).ok()?).mm();
    let (mut x, mut y) = ((0.0, 0.0), (0.0, 0.0));
    for (edge, (near, far)) in [(spine, across), (head, down)] {
        match edge {
            Direction::Left => x = (near, far),
            Direction::Right => x = (width - far, width - near),
            Direction::Up => y = (near, far),
            Direction::Down => y = (height - far, height - near),
        }
    }
    Some(MarkOnSheet { side: face.side, x0: left + x.0, y0: top + y.0, x1: left + x.1, y1: top + y.1 })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fold::{Folding, Landing, Section, sixteen};
    use crate::paper::Length;

    /// The sixteen of the protocol: side B reads `5v 12v 9v 8v` over `4 13 16 1`, so pages 16 and 1 meet at a crease
    /// three panels from the left of that side.
    #[test]
    fn the_mark_of_a_sixteen_stands_between_its_pages_16_and_1() {
        let scheme = sixteen().scheme;
        let section = Section::of(&scheme, &Folding::of(&scheme).unwrap()).unwrap();
        let mark = BackMark::on_sheet(&section, &Landing::of_section(&section)).unwrap();
        let mm = Length::from_whole_mm;
        let measure = Measure::equal(2, 4, mm(564), mm(444));
        let size = MarkSize { from_mm: 30.0, to_mm: 36.0, width_mm: 2.0, across_mm: 0.0 };
        let parts = mark.on_flat_sheet(&measure, &size);
        let part = |x0: f64, x1: f64| MarkOnSheet { side: Side::B, x0, y0: 252.0, x1, y1: 258.0 };
        // 3 * 141 is 423, and the lower row begins at 222.
        assert_eq!(parts, [part(423.0, 424.0), part(422.0, 423.0)]);
        // In a column towards the last page nothing is left on the first.
        let column = mark.on_flat_sheet(&measure, &MarkSize { across_mm: 1.5, ..size });
        assert_eq!(column, [part(420.5, 422.5)]);
        let astride = mark.on_flat_sheet(&measure, &MarkSize { across_mm: -0.25, ..size });
        assert_eq!(astride, [part(423.0, 424.25), part(422.25, 423.0)]);
        assert_eq!(mark.on_flat_sheet(&Measure::equal(1, 1, mm(100), mm(100)), &size), []);
    }
}
