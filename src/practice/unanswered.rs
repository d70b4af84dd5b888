//! What of an answer is still empty: asked before it is handed in. Nothing here looks at what is right.

use super::answer::{Answer, SheetCells};
use super::exercise::Exercise;
use super::task::Task;
use crate::fold::Worked;

impl Exercise {
    /// What was not answered, in a sentence; `None` if something is said of everything.
    #[must_use]
    pub fn unanswered(&self, answer: &Answer) -> Option<String> {
        let empty = match (&self.task, answer) {
            (Task::NumberSheet { course, .. }, _) => {
                let (numbers, heads) = empty_cells(course.rows, course.columns, answer);
                join([counted(numbers, "number"), counted(heads, "head")])
            }
            (Task::SetHeads { course, .. }, _) => {
                let (_, heads) = empty_cells(course.rows, course.columns, answer);
                join([counted(heads, "head"), None])
            }
            (Task::FindFolds { folds, .. }, _) => {
                let made = if let Answer::Folds(made) = answer { made.len() } else { 0 };
                join([counted((*folds as usize).saturating_sub(made), "fold"), None])
            }
            (Task::WrongSheet { .. }, Answer::WrongSheet { causes, check }) => join([
                counted(usize::from(causes.is_empty()), "cause"),
                counted(usize::from(check.is_none()), "next check"),
            ]),
            (Task::WrongBook { .. }, Answer::WrongBook { faults, check }) => {
                let named = faults.iter().any(|f| f.section.is_some() || f.fault.is_some());
                join([counted(usize::from(!named), "section"), counted(usize::from(check.is_none()), "next check")])
            }
            (Task::Bolts { course, .. }, _) => {
                let leaves = Worked::of(course).ok().and_then(|w| w.landing(0, 0)).map_or(0, |l| l.pages.len() / 2);
                let given: &[_] = if let Answer::Bolts(given) = answer { given } else { &[] };
                let edges = given.iter().take(leaves).flat_map(|l| [l.head, l.tail, l.fore_edge]).flatten().count();
                join([counted((3 * leaves).saturating_sub(edges), "edge"), None])
            }
            (Task::MakeUp { .. }, Answer::MakeUp(sections)) if !sections.is_empty() => None,
            (Task::BackMarks { .. }, Answer::BackMarks(_)) => None,
            _ => Some("the whole answer".into()),
        }?;
        let are =
            if empty.starts_with("1 ") && !empty.contains(" and ") || empty.starts_with("the ") { "is" } else { "are" };
        Some(format!("{}{} {are} missing.", empty.get(..1)?.to_uppercase(), empty.get(1..)?))
    }
}

/// Numbers and heads that are not there.
fn empty_cells(rows: u32, columns: u32, answer: &Answer) -> (usize, usize) {
    let none = SheetCells::default();
    let given = if let Answer::Sheet(given) = answer { given } else { &none };
    let cells = || {
        [&given.side_a, &given.side_b]
            .into_iter()
            .flat_map(|side| side.iter().take(rows as usize).flat_map(|row| row.iter().take(columns as usize)))
    };
    let all = 2 * rows as usize * columns as usize;
    (all - cells().filter(|c| c.page.is_some()).count(), all - cells().filter(|c| c.head.is_some()).count())
}

fn counted(count: usize, what: &str) -> Option<String> {
    (count > 0).then(|| format!("{count} {what}{}", if count > 1 { "s" } else { "" }))
}

fn join([first, second]: [Option<String>; 2]) -> Option<String> {
    match (first, second) {
        (Some(first), Some(second)) => Some(format!("{first} and {second}")),
        (first, second) => first.or(second),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::practice::{Kind, LEVELS};

    #[test]
    fn nothing_is_missing_in_a_right_answer_and_all_in_none() {
        for kind in Kind::ALL {
            for level in 1..=LEVELS {
                let exercise = Exercise::of(kind, level, 3).unwrap();
                assert_eq!(exercise.unanswered(&exercise.right()), None, "{kind:?} {level}");
                assert!(exercise.unanswered(&Answer::Nothing).is_some_and(|s| s.ends_with("missing.")), "{kind:?}");
            }
        }
    }

    #[test]
    fn what_is_empty_is_counted() {
        let exercise = Exercise::of(Kind::NumberSheet, 3, 3).unwrap();
        let Answer::Sheet(mut cells) = exercise.right() else { panic!() };
        cells.side_a[0][0].head = None;
        let says = |cells: &SheetCells| exercise.unanswered(&Answer::Sheet(cells.clone())).unwrap();
        assert_eq!(says(&cells), "1 head is missing.");
        cells.side_b[1][0].page = None;
        assert_eq!(says(&cells), "1 number and 1 head are missing.");
        cells.side_b[0][0].page = None;
        assert_eq!(says(&cells), "2 numbers and 1 head are missing.");
        let none = exercise.unanswered(&Answer::Nothing).unwrap();
        assert_eq!(none, "16 numbers and 16 heads are missing.");
    }
}
