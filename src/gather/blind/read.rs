//! What the reader of marks makes of a row, and rows that show but are read as others.

use super::acts::Books;
use super::sight::Sight;
use super::table::{Code, FOREIGN, How, Table, Why, how_of, section_of};
use super::{Change, EXAMPLES, Example, Spot, Wrong, say};
use crate::gather::explain::{Explained, MOST_FAULTS, explain_within};
use crate::gather::places::retold;
use crate::gather::say as words;
use crate::marks::{BackMarks, Found, Lies, read_backs};

/// Steps for each part of the search for an explanation.
const STEPS: u64 = 300_000;

/// Rows that look like no other and are read all the same.
const READ: usize = 40;

/// What the reader finds on the backs of a row, and how it explains that.
fn read(marks: &BackMarks, table: &Table, row: &[Code]) -> Option<(Vec<Found>, Explained)> {
    let sections = table.sections;
    let backs = row.iter().map(|&code| table.back(code)).collect::<Vec<_>>();
    let found = read_backs(sections, marks, &backs).ok()?.found;
    let explained = explain_within(sections, &found, MOST_FAULTS, STEPS).ok()?;
    Some((found, explained))
}

/// The same in a sentence.
pub(super) fn as_read(marks: &BackMarks, table: &Table, row: &[Code]) -> String {
    let Some((_, explained)) = read(marks, table, row) else {
        return "Its backs can't be read.".to_owned();
    };
    match explained.explanations.first() {
        _ if explained.right() => "The marks call it a right book.".to_owned(),
        Some(first) => format!("The marks are read so: {}.", words::faults(&first.faults)),
        None => "The marks are read as a book of more than three faults.".to_owned(),
    }
}

/// Rows that look like no other but whose explanations do not name what was done; and of the changes proposed for other
/// blind spots the first that mends this, too.
pub(super) fn otherwise(
    marks: &BackMarks,
    books: &Books,
    table: &Table,
    sight: &Sight,
    spots: &[Spot],
) -> Option<Spot> {
    let sections = table.sections;
    let plain = sight.plain.iter().copied().filter(|&at| truth(books.row(at)).is_some());
    let plain = plain.filter(|&at| matches!(books.wrongs(at), [Wrong::Fault(_)])).collect::<Vec<_>>();
    let count = READ.min(plain.len());
    let some = (0..count).filter_map(|i| plain.get(i * plain.len() / count.max(1)).copied()).collect::<Vec<_>>();
    let missed = some.into_iter().filter(|&at| is_missed(marks, table, books.row(at))).collect::<Vec<_>>();
    if missed.is_empty() {
        return None;
    }
    let mends = |change: &&Change| {
        let table = Table::of(&change.marks, sections);
        !missed.iter().any(|&at| is_missed(&change.marks, &table, books.row(at)))
    };
    let change = spots.iter().filter_map(|spot| spot.change.as_ref()).find(mends).cloned();
    let example = |&at: &usize| {
        let wrongs = books.wrongs(at).to_vec();
        let says = wrongs.iter().map(Wrong::says).collect::<Vec<_>>().join(" with ");
        let says = format!("{}.", words::capital(&says));
        Example { says, read_as: as_read(marks, table, books.row(at)), faults: vec![wrongs] }
    };
    let found = format!("Of {count} faults that look like no other, {} were read otherwise.", missed.len());
    Some(Spot {
        why: Why::ReadOtherwise,
        title: say::title(Why::ReadOtherwise, sections, table),
        detail: format!("{found} {}", say::detail(Why::ReadOtherwise, sections)),
        sections: Vec::new(),
        look_right: 0,
        look_alike: missed.len() as u32,
        examples: missed.iter().take(EXAMPLES).map(example).collect(),
        remedy: match &change {
            Some(change) => change.says.clone(),
            None => say::no_change(Why::ReadOtherwise).to_owned(),
        },
        change,
    })
}

/// Whether no explanation of a row names what was done.
fn is_missed(marks: &BackMarks, table: &Table, row: &[Code]) -> bool {
    let (Some((found, explained)), Some(truth)) = (read(marks, table, row), truth(row)) else { return false };
    let named = explained.explanations.iter().any(|explanation| {
        let mut names = std::iter::once(&explanation.faults).chain(&explanation.same_order_as);
        names.any(|faults| retold(table.sections, faults) == truth)
    });
    found != truth || !named
}

/// What a checker who saw everything would find in a row, if backs can show that.
fn truth(row: &[Code]) -> Option<Vec<Found>> {
    let found = |&code: &Code| match how_of(code) {
        _ if code == FOREIGN => Some(Found::Foreign),
        How::Right => Some(Found::right(section_of(code))),
        How::HeadToTail => Some(Found::Section { section: section_of(code), lies: Lies::HeadToTail }),
        _ => None,
    };
    row.iter().map(found).collect()
}
