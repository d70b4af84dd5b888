//! A course in as few bits as it takes: any sheet, with its folds, slits and the way its pieces are put together.

use super::bits::{Reader, Writer};
use crate::fold::{
    Course, Crease, Direction, End, Fold, Lands, MAX_PANELS, MAX_PIECES, Nest, Part, Parted, Reads, Slit, Steps,
};

/// The most folds and slits of a course in a link. A bound on work, not on paper.
const MOST_STEPS: usize = 512;

/// How deep slits may lie in one another.
const DEEPEST: u32 = 64;

const PARTS: [Part; 4] = [Part::Left, Part::Right, Part::Top, Part::Bottom];
const EDGES: [Direction; 4] = [Direction::Up, Direction::Right, Direction::Down, Direction::Left];
const CREASES: [Crease; 2] = [Crease::Vertical, Crease::Horizontal];
const LANDS: [Lands; 2] = [Lands::Over, Lands::Under];

/// Where a value stands in a list, for so many bits.
pub(super) fn put<T: PartialEq>(out: &mut Writer, all: &[T], value: &T) {
    let at = all.iter().position(|v| v == value).unwrap_or(0) as u32;
    out.bits(at, all.len().next_power_of_two().trailing_zeros());
}

/// The value of a list.
pub(super) fn take<T: Copy>(from: &mut Reader<'_>, all: &[T]) -> Option<T> {
    all.get(from.bits(all.len().next_power_of_two().trailing_zeros())? as usize).copied()
}

/// Writes a course. `None` if it has more steps than a link takes.
pub(super) fn write_course(out: &mut Writer, course: &Course) -> Option<()> {
    out.number(course.rows);
    out.number(course.columns);
    out.bit(course.reads == Reads::RightToLeft);
    let mut left = MOST_STEPS;
    write_steps(out, &course.steps, &mut left, 0)?;
    // One piece that is one section of one copy is what most sheets give.
    let usual = course.copies == [[[0]]];
    out.bit(usual);
    if !usual {
        let number = |out: &mut Writer, n: usize| out.number(u32::try_from(n).unwrap_or(u32::MAX));
        number(out, course.copies.len());
        for copy in &course.copies {
            number(out, copy.len());
            for nest in copy {
                number(out, nest.len());
                nest.iter().for_each(|piece| number(out, *piece));
            }
        }
    }
    Some(())
}

fn write_steps(out: &mut Writer, steps: &Steps, left: &mut usize, depth: u32) -> Option<()> {
    *left = left.checked_sub(steps.folds.len() + 1)?;
    if depth > DEEPEST {
        return None;
    }
    for fold in &steps.folds {
        out.bit(true);
        put(out, &PARTS, &fold.moves);
        put(out, &LANDS, &fold.lands);
        out.number(fold.after.saturating_sub(1));
    }
    out.bit(false);
    match &steps.end {
        End::Piece { head } => {
            out.bit(false);
            put(out, &EDGES, head);
        }
        End::Slit(slit) => {
            out.bit(true);
            put(out, &CREASES, &slit.crease);
            out.number(slit.after);
            match &slit.then {
                Parted::Apart { first, second } => {
                    out.bit(false);
                    write_steps(out, first, left, depth + 1)?;
                    write_steps(out, second, left, depth + 1)?;
                }
                Parted::Laid { moves, lands, then } => {
                    out.bit(true);
                    put(out, &PARTS, moves);
                    put(out, &LANDS, lands);
                    write_steps(out, then, left, depth + 1)?;
                }
            }
        }
    }
    Some(())
}

/// Reads a course. Whether it can be is not looked at.
pub(super) fn read_course(from: &mut Reader<'_>) -> Option<Course> {
    let (rows, columns) = (from.number(MAX_PANELS)?, from.number(MAX_PANELS)?);
    let reads = if from.bit()? { Reads::RightToLeft } else { Reads::LeftToRight };
    let mut left = MOST_STEPS;
    let steps = read_steps(from, &mut left, 0)?;
    let copies = if from.bit()? { vec![vec![vec![0]]] } else { read_copies(from)? };
    Some(Course { rows, columns, steps, copies, reads })
}

fn read_steps(from: &mut Reader<'_>, left: &mut usize, depth: u32) -> Option<Steps> {
    if depth > DEEPEST {
        return None;
    }
    *left = left.checked_sub(1)?;
    let mut folds = Vec::new();
    while from.bit()? {
        *left = left.checked_sub(1)?;
        let (moves, lands) = (take(from, &PARTS)?, take(from, &LANDS)?);
        folds.push(Fold::new(from.number(MAX_PANELS)? + 1, moves, lands));
    }
    if !from.bit()? {
        return Some(Steps::piece(folds, take(from, &EDGES)?));
    }
    let (crease, after) = (take(from, &CREASES)?, from.number(MAX_PANELS)?);
    let then = if from.bit()? {
        let (moves, lands) = (take(from, &PARTS)?, take(from, &LANDS)?);
        Parted::Laid { moves, lands, then: read_steps(from, left, depth + 1)? }
    } else {
        Parted::Apart { first: read_steps(from, left, depth + 1)?, second: read_steps(from, left, depth + 1)? }
    };
    Some(Steps { folds, end: End::Slit(Box::new(Slit { crease, after, then })) })
}

fn read_copies(from: &mut Reader<'_>) -> Option<Vec<Vec<Nest>>> {
    const MOST: u32 = MAX_PIECES as u32;
    // Every piece stands once at the most, so there are no more copies, sections or places in all than pieces.
    let mut left = 3 * MAX_PIECES;
    let mut count = |from: &mut Reader<'_>| {
        let n = from.number(MOST)?;
        left = left.checked_sub(n as usize)?;
        Some(n)
    };
    let mut copies = Vec::new();
    for _ in 0..count(from)? {
        let mut copy = Vec::new();
        for _ in 0..count(from)? {
            let mut nest = Nest::new();
            for _ in 0..count(from)? {
                nest.push(from.number(MOST)? as usize);
            }
            copy.push(nest);
        }
        copies.push(copy);
    }
    Some(copies)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fold::courses;

    #[test]
    fn every_course_at_hand_is_written_and_read_as_it_is() {
        for named in courses() {
            let mut out = Writer::default();
            write_course(&mut out, &named.course).unwrap();
            let bytes = out.done();
            let mut reader = Reader::new(&bytes);
            assert_eq!(read_course(&mut reader).as_ref(), Some(&named.course), "{}", named.name);
            assert!(reader.ended());
            // No end that comes too soon is read as something.
            for end in 0..bytes.len() {
                assert_eq!(read_course(&mut Reader::new(&bytes[..end])), None, "{}", named.name);
            }
        }
    }

    #[test]
    fn a_course_without_end_is_refused() {
        assert_eq!(read_course(&mut Reader::new(&[0xff; 4_000])), None);
        assert_eq!(read_course(&mut Reader::new(&[0xaa; 4_000])), None);
        let fold = Fold::new(1, Part::Left, Lands::Over);
        let mut course = courses().swap_remove(0).course;
        course.steps.folds = vec![fold; MOST_STEPS];
        assert_eq!(write_course(&mut Writer::default(), &course), None);
    }
}
