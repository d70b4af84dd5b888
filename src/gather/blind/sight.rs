//! The rows as they are seen by one design: which look right, which look like each other, and why.

use std::collections::BTreeMap;

use super::acts::Books;
use super::table::{Code, Table, Why, why};
use crate::marks::{BackMarks, Inset};

/// The faults that don't show, or not apart, for one reason. Numbers are those of the rows.
#[derive(Clone, Debug, Default)]
pub(super) struct Tally {
    /// Rows that look right.
    pub(super) right: Vec<usize>,
    /// Rows that look like an earlier one: that one, and the row.
    pub(super) alike: Vec<(usize, usize)>,
}

impl Tally {
    /// Some sets of rows that look alike, spread over all of them. What looks right stands alone in its set.
    pub(super) fn examples(&self, most: usize) -> Vec<Vec<usize>> {
        let spread = |count: usize| (0..most.min(count)).map(move |i| i * count / most.min(count).max(1));
        let mut sets =
            spread(self.right.len()).filter_map(|i| self.right.get(i)).map(|&at| vec![at]).collect::<Vec<_>>();
        let mut groups = BTreeMap::<usize, Vec<usize>>::new();
        for &(first, other) in &self.alike {
            groups.entry(first).or_insert_with(|| vec![first]).push(other);
        }
        let groups = groups.into_values().collect::<Vec<_>>();
        sets.extend(spread(groups.len()).filter_map(|i| groups.get(i)).cloned());
        sets.truncate(most);
        sets
    }
}

/// What is blind about a design, by reasons.
pub(super) struct Sight {
    pub(super) by_why: BTreeMap<Why, Tally>,
    /// Rows that look like no other, from the first.
    pub(super) plain: Vec<usize>,
    /// By row: how blind these marks are to it.
    pub(super) blind: Vec<Blind>,
}

/// How blind marks are to a row.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Blind {
    /// It looks like no other.
    #[default]
    Not,
    /// It shows, but looks like another one.
    LooksLikeAnother,
    /// It looks right, or leaves no gap.
    LooksRight,
}

impl Sight {
    /// Looks at all rows.
    pub(super) fn of(books: &Books, table: &Table, marks: &BackMarks) -> Self {
        let right = seen(books.row(0), table);
        let shows_ends = shows_ends(marks, table.sections);
        let mut prints = Vec::with_capacity(books.len() + 1);
        let mut by_why = BTreeMap::<Why, Tally>::new();
        let mut blind = vec![Blind::Not; books.len() + 1];
        for at in 0..=books.len() {
            let looks = seen(books.row(at), table);
            if at > 0 && !shows_ends && has_no_gap(&looks, &right) {
                by_why.entry(Why::NoGap).or_default().right.push(at);
                is(&mut blind, at, Blind::LooksRight);
            } else {
                prints.push((print(&looks), at));
            }
        }
        // Rows that look alike come to stand together, the earliest first.
        prints.sort_unstable();
        let mut plain = Vec::new();
        for group in prints.chunk_by(|(one, _), (other, _)| one == other) {
            let Some((&(_, first), others)) = group.split_first() else { continue };
            if others.is_empty() && first > 0 {
                plain.push(first);
            }
            for &(_, other) in others {
                let tally = by_why.entry(why_alike(books.row(first), books.row(other))).or_default();
                if first == 0 {
                    tally.right.push(other);
                    is(&mut blind, other, Blind::LooksRight);
                } else {
                    tally.alike.push((first, other));
                    is(&mut blind, first, Blind::LooksLikeAnother);
                    is(&mut blind, other, Blind::LooksLikeAnother);
                }
            }
        }
        plain.sort_unstable();
        Self { by_why, plain, blind }
    }
}

fn is(blind: &mut [Blind], at: usize, how: Blind) {
    if let Some(row) = blind.get_mut(at) {
        *row = how;
    }
}

/// Whether the first and the last back of a book of so many sections show that they are its ends.
pub(super) fn shows_ends(marks: &BackMarks, sections: u32) -> bool {
    let numbered = marks.label.as_ref().is_some_and(|label| label.number);
    // Where there is no section between the ends, their longer bars stand beside nothing shorter.
    let longer = marks.ends_mm.is_some() && sections > 2;
    !matches!(marks.inset, Inset::Through { .. }) && sections > 1 && (numbered || longer)
}

/// Whether a row is a part of the right one, without a gap. An empty row is that of a book of one section.
fn has_no_gap(looks: &[u16], right: &[u16]) -> bool {
    match looks.len() {
        0 => right.len() == 1,
        length => length < right.len() && right.windows(length).any(|part| part == looks),
    }
}

fn seen(row: &[Code], table: &Table) -> Vec<u16> {
    row.iter().map(|&code| table.look(code)).collect()
}

/// Why two different rows look alike: by the first place where they differ.
fn why_alike(one: &[Code], other: &[Code]) -> Why {
    let differ = one.iter().zip(other).find(|(a, b)| a != b);
    differ.map_or(Why::ReadOtherwise, |(&a, &b)| why(a, b))
}

/// A row as one number of 128 bits, so that rows compare at once: two ways of mixing (FNV-1a, and a rotation with the
/// golden ratio). That two of some ten thousand rows share it by chance is out of question.
pub(super) fn print(row: &[u16]) -> u128 {
    let (mut one, mut other) = (0xcbf2_9ce4_8422_2325_u64, 0x9e37_79b9_7f4a_7c15_u64);
    for &code in row {
        one = (one ^ u64::from(code)).wrapping_mul(0x100_0000_01b3);
        other = (other.rotate_left(23) ^ u64::from(code)).wrapping_mul(0x9e37_79b9_7f4a_7c15);
    }
    (u128::from(one ^ ((row.len() as u64) << 48)) << 64) | u128::from(other)
}
