//! A sheet folded whole as folding parameters.

use crate::fold::{Course, Crease, Direction, FoldError, Lands, Measure, Part, stops};
use crate::paper::Length;
use thiserror::Error;

/// Folding parameters as text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Written {
    /// The XML.
    pub text: String,
    /// The edge of the finished packet that the heads point to, as it lies after these folds.
    pub head: Direction,
}

/// Why a course can't be written.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum NotWritten {
    /// It is slit.
    #[error(
        "The sheet is slit. Folding parameters are one list for one packet: they can't say how each piece goes on or \
         how pieces are put into one another."
    )]
    Slit,
    /// It can't be folded.
    #[error("The sheet can't be folded: {0}.")]
    Fold(#[from] FoldError),
    /// The sizes are not those of its panels.
    #[error("The sizes of the panels are not those of this sheet.")]
    Sizes,
}

/// Writes a course.
///
/// Only the left or near part moves in folding parameters. The right part brought over the left makes the same packet
/// as the left brought over the right, but turned over: what follows is then written for the packet so turned.
///
/// # Errors
/// When folding parameters can't say it.
pub fn write_xjdf(course: &Course, measure: &Measure) -> Result<Written, NotWritten> {
    let scheme = course.scheme().ok_or(NotWritten::Slit)?;
    if measure.columns.len() != scheme.columns as usize || measure.rows.len() != scheme.rows as usize {
        return Err(NotWritten::Sizes);
    }
    let (mut mirror_x, mut mirror_y) = (false, false);
    let mut folds = String::new();
    for stop in stops(&scheme, measure)? {
        let fold = stop.fold;
        let upright = fold.moves.crease() == Crease::Vertical;
        // A packet turned over once, either way, lies with its other side up.
        let lands = if mirror_x == mirror_y { fold.lands } else { fold.lands.other() };
        let (mirrored, size) = if upright { (mirror_x, stop.packet.0) } else { (mirror_y, stop.packet.1) };
        let at = if mirrored { size - fold.stop } else { fold.stop };
        let moves = if mirrored { fold.moves.other() } else { fold.moves };
        // Right over left is left over right turned over left to right.
        if matches!(moves, Part::Right) {
            mirror_x = !mirror_x;
        }
        if matches!(moves, Part::Top) {
            mirror_y = !mirror_y;
        }
        let (from, travel) = if upright { ("Left", at) } else { ("Front", size - at) };
        let to = if lands == Lands::Over { "Up" } else { "Down" };
        folds += &format!("  <Fold From=\"{from}\" To=\"{to}\" Travel=\"{}\"/>\n", points(travel));
    }
    let mirrored = match scheme.head {
        Direction::Left | Direction::Right => mirror_x,
        Direction::Up | Direction::Down => mirror_y,
    };
    let head = match (mirrored, scheme.head) {
        (false, head) => head,
        (true, Direction::Left) => Direction::Right,
        (true, Direction::Right) => Direction::Left,
        (true, Direction::Up) => Direction::Down,
        (true, Direction::Down) => Direction::Up,
    };
    let text = format!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n\
         <FoldingParams xmlns=\"http://www.CIP4.org/JDFSchema_2_0\">\n{folds}</FoldingParams>\n"
    );
    Ok(Written { text, head })
}

/// Points to the millionth, which is less than a nanometre.
fn points(length: Length) -> String {
    let millionths = (i128::from(length.nm()) * 360 + 63) / 127;
    let text = format!("{}.{:06}", millionths / 1_000_000, millionths % 1_000_000);
    text.trim_end_matches('0').trim_end_matches('.').into()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fold::{Worked, courses, library};
    use crate::setup::read_xjdf;

    #[test]
    fn an_inch_is_72_points() {
        assert_eq!(points(Length::INCH), "72");
        assert_eq!(points(Length::MM), "2.834646");
    }

    /// What was written and is read again lays the same pages on the same places.
    #[test]
    fn every_scheme_comes_back_with_its_pages() {
        let landing = |course: &Course| Worked::of(course).unwrap().landing(0, 0).unwrap();
        for named in library() {
            for turned in 0..1_u32 << named.scheme.folds.len().min(6) {
                let mut scheme = named.scheme.clone();
                // Other parts move, and other ways.
                for (i, fold) in scheme.folds.iter_mut().enumerate() {
                    if turned >> i & 1 == 1 {
                        fold.lands = fold.lands.other();
                        fold.moves = if i % 2 == 0 { fold.moves.other() } else { fold.moves };
                    }
                }
                let course = Course::of_scheme(&scheme);
                if Worked::of(&course).is_err() {
                    continue;
                }
                let mm = Length::from_whole_mm;
                let measure = Measure::equal(scheme.rows, scheme.columns, mm(1000), mm(700));
                let written = write_xjdf(&course, &measure).unwrap();
                let read = read_xjdf(&written.text, mm(1000), mm(700)).unwrap();
                let again = Course::of_scheme(&read.creased.scheme(written.head, scheme.reads));
                assert_eq!(landing(&again), landing(&course), "{} {turned}\n{}", named.name, written.text);
            }
        }
    }

    #[test]
    fn a_slit_sheet_is_refused() {
        let slit = courses().into_iter().find(|c| c.course.scheme().is_none()).unwrap().course;
        let mm = Length::from_whole_mm;
        let measure = Measure::equal(slit.rows, slit.columns, mm(1000), mm(700));
        assert_eq!(write_xjdf(&slit, &measure), Err(NotWritten::Slit));
    }
}
