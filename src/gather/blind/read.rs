//! What the reader of marks makes of a row, and rows that show but are read as others.

use super::acts::Books;
use super::sight::Sight;
use super::table::{Code, FOREIGN, How, Table, Why, how_of, section_of};
use super::{EXAMPLES, Example, Spot, Wrong, say};
use crate::gather::explain::{Explained, MOST_FAULTS, explain_within};
use crate::gather::places::retold;
use crate::gather::say as words;
use crate::marks::{BackMarks, Found, Lies, read_backs};

/// Steps for each part of the search for an explanation.
const STEPS: u64 = 300_000;

/// Rows that look like no other and are read all the same.
const READ: usize = 40;

/// What the reader finds on the backs of a row, and how it explains that.
fn read(sections: u32, marks: &BackMarks, table: &Table, row: &[Code]) -> Option<(Vec<Found>, Explained)> {
    let backs = row.iter().map(|&code| table.back(code)).collect::<Vec<_>>();
    let found = read_backs(sections, marks, &backs).ok()?.found;
    let explained = explain_within(sections, &found, MOST_FAULTS, STEPS).ok()?;
    Some((found, explained))
}

/// The same in a sentence.
pub(super) fn as_read(sections: u32, marks: &BackMarks, table: &Table, row: &[Code]) -> String {
    let Some((_, explained)) = read(sections, marks, table, row) else {
        return "Its backs can't be read.".to_owned();
    };
    match explained.explanations.first() {
        _ if explained.right() => "The marks call it a right book.".to_owned(),
        Some(first) => format!("The marks are read so: {}.", words::faults(&first.faults)),
        None => "The marks are read as a book of more than three faults.".to_owned(),
    }
}

/// Rows that look like no other but whose explanations do not name what was done.
pub(super) fn otherwise(sections: u32, marks: &BackMarks, books: &Books, table: &Table, sight: &Sight) -> Option<Spot> {
    let plain = sight.plain.iter().copied().filter(|&at| truth(books.row(at)).is_some());
    let plain = plain.filter(|&at| matches!(books.wrongs(at), [Wrong::Fault(_)])).collect::<Vec<_>>();
    let count = READ.min(plain.len());
    let mut missed = Vec::new();
    for at in (0..count).filter_map(|i| plain.get(i * plain.len() / count.max(1)).copied()) {
        let Some((found, explained)) = read(sections, marks, table, books.row(at)) else { continue };
        let Some(truth) = truth(books.row(at)) else { continue };
        let named = explained.explanations.iter().any(|explanation| {
            let names = std::iter::once(&explanation.faults).chain(&explanation.same_order_as);
            names.into_iter().any(|faults| retold(sections, faults) == truth)
        });
        if found != truth || !named {
            missed.push(at);
        }
    }
    if missed.is_empty() {
        return None;
    }
    let example = |&at: &usize| {
        let wrongs = books.wrongs(at).to_vec();
        let says = wrongs.iter().map(Wrong::says).collect::<Vec<_>>().join(" with ");
        Example {
            says: format!("{}.", words::capital(&says)),
            read_as: as_read(sections, marks, table, books.row(at)),
            faults: vec![wrongs],
        }
    };
    Some(Spot {
        why: Why::ReadOtherwise,
        title: say::title(Why::ReadOtherwise, sections, table),
        detail: say::detail(Why::ReadOtherwise, sections).to_owned(),
        sections: Vec::new(),
        look_right: 0,
        look_alike: missed.len() as u32,
        examples: missed.iter().take(EXAMPLES).map(example).collect(),
        change: None,
        remedy: format!("Of {count} faults that look like no other, {} were read otherwise.", missed.len()),
    })
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
