//! Tasks about back marks.

use super::from_to;
use crate::dice::Dice;
use crate::marks::Backs;
use crate::practice::judge;
use crate::practice::task::Task;

/// Sections of a book at each level, at least and at most; and how long its spine is, mm.
const BOOKS: [[u32; 4]; 5] =
    [[5, 8, 190, 240], [9, 13, 190, 240], [14, 18, 200, 240], [18, 22, 200, 250], [22, 28, 200, 260]];

pub(super) fn marks(level: u8, dice: &mut Dice) -> Option<Task> {
    let [least, most, short, long] = BOOKS.get(usize::from(level).checked_sub(1)?).copied()?;
    let sections = from_to(least, most, dice);
    let spine_mm = f64::from(from_to(short, long, dice));
    let head_trim_mm = Some(f64::from(from_to(3, 5, dice)));
    let foot_trim_mm = Some(f64::from(from_to(3, 6, dice)));
    let backs = Backs { thickness_mm: None, folds: from_to(2, 3, dice), head_trim_mm, foot_trim_mm };
    judge::design(sections, spine_mm, &backs)?;
    Some(Task::BackMarks { sections, spine_mm, backs })
}
