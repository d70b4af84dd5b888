//! Tasks about back marks.

use super::from_to;
use crate::dice::Dice;
use crate::marks::Backs;
use crate::practice::judge;
use crate::practice::task::Task;

/// Sections of a book at each level, at least and at most; and how long its spine is, mm. At the highest level it is as long as
/// the marks need, and a little more.
const BOOKS: [[u32; 4]; 5] =
    [[5, 8, 190, 240], [9, 13, 190, 240], [14, 18, 200, 240], [18, 22, 200, 250], [30, 44, 2, 7]];

pub(super) fn marks(level: u8, dice: &mut Dice) -> Option<Task> {
    let [least, most, short, long] = BOOKS.get(usize::from(level).checked_sub(1)?).copied()?;
    let sections = from_to(least, most, dice);
    let more_mm = f64::from(from_to(short, long, dice));
    let [head_mm, foot_mm] = [5, 6].map(|most| f64::from(from_to(3, most, dice)));
    let [head_trim_mm, foot_trim_mm] = [head_mm, foot_mm].map(Some);
    let backs = Backs { thickness_mm: None, folds: from_to(2, 3, dice), head_trim_mm, foot_trim_mm };
    // Where the least step alone fits, it has to be found, and a place for the first mark at which no section that is turned
    // looks like another.
    let least_mm = (2.0 * backs.least_step_mm()).ceil() / 2.0;
    let marks_mm = (f64::from(sections) * least_mm).ceil();
    let spine_mm = if level == 5 { head_mm + marks_mm + foot_mm + more_mm } else { more_mm };
    judge::design(sections, spine_mm, &backs)?;
    Some(Task::BackMarks { sections, spine_mm, backs })
}
