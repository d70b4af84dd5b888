//! Tasks about a book: its faults, its sections.

use super::{checks, from_to, one_of};
use crate::book::Job;
use crate::dice::Dice;
use crate::finish::Size;
use crate::gather::{Fault, retold};
use crate::marks::Lies;
use crate::paper::{Grain, Length, Stock, Trims};
use crate::practice::judge;
use crate::practice::task::Task;

/// Sections of a book at each level, at least and at most.
const SECTIONS: [[u32; 2]; 5] = [[4, 6], [6, 9], [8, 12], [10, 14], [10, 14]];

/// A fault that a level may have.
fn fault(level: u8, sections: u32, dice: &mut Dice) -> Option<Fault> {
    let any = |dice: &mut Dice| from_to(1, sections, dice);
    let section = any(dice);
    let other = any(dice);
    let kinds = [2, 4, 8, 11, 9].get(usize::from(level).checked_sub(1)?).copied()?;
    let pair = |a: u32, b: u32| (a != b).then_some([a.min(b), a.max(b)]);
    Some(match dice.below(kinds) {
        0 => Fault::Missing { section },
        1 => Fault::Double { section },
        2 => Fault::WrongSection { at: section, section: if other == section { return None } else { other } },
        3 => Fault::Exchanged { sections: pair(section, other)? },
        4 => Fault::Lies { section, lies: Lies::HeadToTail },
        5 => Fault::Foreign { at: section },
        6 => Fault::NoMark { at: section },
        7 => Fault::WrongSection { at: section, section: if section == 1 { 2 } else { section - 1 } },
        8 => {
            let sections = pair(section, other)?;
            Fault::Moved { sections, after: any(dice) }
        }
        9 => Fault::Reversed,
        _ => Fault::DividedWrong { after: section },
    })
}

pub(super) fn wrong(level: u8, dice: &mut Dice) -> Option<Task> {
    let [least, most] = SECTIONS.get(usize::from(level).checked_sub(1)?).copied()?;
    let sections = from_to(least, most, dice);
    let wrong = if level == 5 { 2 } else { 1 };
    let faults: Vec<Fault> = (0..wrong).map(|_| fault(level, sections, dice)).collect::<Option<_>>()?;
    if let [Fault::Moved { sections: [a, b], after }] = faults.as_slice()
        && (*a..=*b).contains(after)
    {
        return None;
    }
    let found = retold(sections, &faults);
    let accepted = judge::faults(sections, &found, wrong as usize)?;
    let right = accepted.iter().find(|e| e.faults.len() == faults.len())?.next_check.clone();
    let mut others = Vec::new();
    for _ in 0..12 {
        let Some(another) = fault(level.max(3), sections, dice) else { continue };
        let Some(explained) = judge::faults(sections, &retold(sections, &[another]), 1) else { continue };
        let fits = |check: &String| accepted.iter().any(|e| e.next_check == *check);
        others.extend(explained.into_iter().map(|e| e.next_check).filter(|check| !fits(check)).take(1));
    }
    let checks = checks(right, others, dice);
    (checks.len() > 1).then_some(Task::WrongBook { sections, found, wrong, checks })
}

/// Pages after the cut, width and height in mm: those of ISO 216 and common book sizes (common practice, no source).
const PAGES: [[i64; 2]; 4] = [[148, 210], [135, 210], [170, 240], [120, 190]];
/// Press sheets in mm as they lie: B1 of ISO 216, and common sizes (common practice, no source).
const SHEETS: [[i64; 2]; 4] = [[1000, 707], [707, 1000], [900, 640], [640, 900]];

/// The least pages of most sections of a book that is set.
const MAIN: u32 = 16;

pub(super) fn make_up(level: u8, dice: &mut Dice) -> Option<Task> {
    let size =
        |[width, height]: [i64; 2]| Size { width: Length::from_whole_mm(width), height: Length::from_whole_mm(height) };
    let extent = match level {
        1 => 32 * from_to(2, 6, dice),
        2 => 16 * from_to(5, 15, dice),
        3 => 8 * from_to(12, 30, dice),
        4 => 4 * from_to(24, 80, dice),
        // Whatever is done, pages stay blank.
        _ => 4 * from_to(30, 90, dice) + 2,
    };
    let grammage = f64::from(from_to(8, 10, dice) * 10);
    let mut job = Job {
        extent,
        page: size(*one_of(&PAGES, dice)?),
        trims: Trims::default(),
        sheet: size(*one_of(&SHEETS, dice)?),
        stock: Stock { grammage, bulk: 1.25, grain: Grain::Upright },
        copies: 500 * from_to(1, 6, dice),
    };
    if dice.below(2) == 1 {
        job.stock.grain = Grain::Level;
    }
    let plans = judge::plans(&job)?;
    // Something must speak for one of them: at the lower levels all pages find a place without blanks.
    // And a book that only fours suit, for the grain's sake, is no book to learn from.
    let best = plans.plans.first()?;
    let largest = best.pages_of_sections().into_iter().max()?;
    (largest >= MAIN && (level > 3 || best.blanks == 0)).then_some(Task::MakeUp { job })
}
