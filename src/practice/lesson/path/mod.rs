//! The lessons, from one fold to a wrong book. The order of what is taught: common practice, no source.
//!
//! Each word of the trade is said in other words where it comes first. Layouts, orders of pages and where marks go are the
//! engine's; tests play every lesson through.

mod books;
mod sheets;
mod wrong;

use super::bench::OnBench;
use super::{BY_HAND, Deed, Goal, Lesson, Step};
use crate::fold::misfold::Cause;
use crate::fold::{Direction, Fold, Lands, Part, Reads, Scheme, sixteen};

/// All lessons in the order in which they are learnt.
#[must_use]
pub fn lessons() -> Vec<Lesson> {
    let mut path = sheets::lessons();
    path.extend(wrong::lessons());
    path.extend(books::lessons());
    path
}

const fn over(after: u32, part: Part) -> Fold {
    Fold::new(after, part, Lands::Over)
}

const fn under(after: u32, part: Part) -> Fold {
    Fold::new(after, part, Lands::Under)
}

/// The three folds of the sixteen.
const SIXTEEN: [Fold; 3] = [over(2, Part::Right), over(1, Part::Top), over(1, Part::Right)];

fn sheet(rows: u32, columns: u32, folds: &[Fold]) -> OnBench {
    let (head, reads) = (Direction::Up, Reads::LeftToRight);
    OnBench::sheet(Scheme { rows, columns, folds: folds.to_vec(), head, reads })
}

fn flat_sixteen() -> OnBench {
    OnBench::sheet(sixteen().scheme)
}

fn step(does: &'static str, goal: Goal, deeds: &[Deed], shows: &'static str) -> Step {
    Step { does, goal, deeds: deeds.to_vec(), shows, finds: false }
}

/// A step in which the folds are to be found.
fn find(does: &'static str, goal: Goal, deeds: &[Deed], shows: &'static str) -> Step {
    Step { finds: true, ..step(does, goal, deeds, shows) }
}

fn hand(title: &'static str, start: OnBench, steps: Vec<Step>) -> Lesson {
    Lesson { title, note: BY_HAND, start, steps }
}

const fn other_way(fold: u32) -> Cause {
    Cause::FoldOtherWay { fold }
}
