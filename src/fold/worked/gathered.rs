//! Whether the pieces can be put together as a course says.

use super::error::{CourseError, CourseFault};
use super::{Piece, Unfinished};
use crate::fold::course::Course;

/// Every nest has pieces that are there and stand nowhere else, and a middle for what is laid into them.
pub(super) fn check_copies(course: &Course, pieces: &[Piece]) -> Result<(), CourseError> {
    let mut placed = vec![false; pieces.len()];
    for (copy, sections) in course.copies.iter().enumerate() {
        if sections.is_empty() {
            return Err(CourseError { at: gather_path(copy), why: CourseFault::NoPiece });
        }
        for (i, nest) in sections.iter().enumerate() {
            let single = nest.len() == 1;
            let at = |k: usize| {
                let section = format!("{}[{i}]", gather_path(copy));
                if single { section } else { format!("{section}.inset[{k}]") }
            };
            if nest.is_empty() {
                let at = format!("{}[{i}].inset", gather_path(copy));
                return Err(CourseError { at, why: CourseFault::NoPiece });
            }
            for (k, &piece) in nest.iter().enumerate() {
                let fault = |why| Err(CourseError { at: at(k), why });
                let (Some(found), Some(placed)) = (pieces.get(piece), placed.get_mut(piece)) else {
                    return fault(CourseFault::NoSuchPiece { piece, count: pieces.len() });
                };
                if std::mem::replace(placed, true) {
                    return fault(CourseFault::PieceTwice { piece });
                }
                let leaves = found.section.held.len();
                if k + 1 < nest.len() && leaves % 2 == 1 {
                    return fault(CourseFault::NoMiddle { piece, leaves });
                }
            }
        }
    }
    if course.copies.is_empty() {
        return Err(CourseError { at: gather_path(0), why: CourseFault::NoPiece });
    }
    Ok(())
}

/// Every piece that stands somewhere is a section. Waste need not be.
pub(super) fn check_finished(course: &Course, unfinished: &[Unfinished]) -> Result<(), CourseError> {
    let stands = |piece: usize| course.copies.iter().flatten().flatten().any(|p| *p == piece);
    match unfinished.iter().find(|u| stands(u.piece)) {
        Some(u) => Err(CourseError { at: u.at.clone(), why: u.why.clone().into() }),
        None => Ok(()),
    }
}

fn gather_path(copy: usize) -> String {
    if copy == 0 { "gather".into() } else { format!("copies[{copy}]") }
}
