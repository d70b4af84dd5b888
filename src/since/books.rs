//! Books from one counter number to another, and lists of them.

use super::Line;
use crate::words::grouped;
use serde::{Deserialize, Serialize};

/// Books that follow one another, both ends included.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Books {
    /// The first.
    pub from: u32,
    /// The last, which is not before the first.
    pub to: u32,
}

impl Books {
    /// From one book to another; none where the last would stand before the first.
    #[must_use]
    pub const fn of(from: u32, to: u32) -> Option<Self> {
        if from <= to { Some(Self { from, to }) } else { None }
    }

    /// All books of a run; one book where its ends are the wrong way round.
    #[must_use]
    pub const fn all(line: &Line) -> Self {
        Self { from: line.first, to: if line.last < line.first { line.first } else { line.last } }
    }

    /// How many.
    #[must_use]
    pub const fn count(&self) -> u32 {
        self.to.saturating_sub(self.from).saturating_add(1)
    }

    /// Whether a book is among them.
    #[must_use]
    pub const fn has(&self, counter: u32) -> bool {
        self.from <= counter && counter <= self.to
    }

    /// Those that are also among others.
    #[must_use]
    pub fn among(&self, other: &Self) -> Option<Self> {
        Self::of(self.from.max(other.from), self.to.min(other.to))
    }

    /// As a binder says it: `book 7`, `books 1,421 to 1,500`.
    #[must_use]
    pub fn says(&self) -> String {
        if self.from == self.to {
            return format!("book {}", grouped(self.from));
        }
        format!("books {} to {}", grouped(self.from), grouped(self.to))
    }
}

/// The same books in rising order, those that touch or overlap put together.
#[must_use]
pub fn joined(mut list: Vec<Books>) -> Vec<Books> {
    list.sort_unstable();
    let mut out: Vec<Books> = Vec::with_capacity(list.len());
    for books in list {
        match out.last_mut() {
            Some(last) if books.from <= last.to.saturating_add(1) => last.to = last.to.max(books.to),
            _ => out.push(books),
        }
    }
    out
}

/// What remains of books when those of a list are taken away.
#[must_use]
pub fn without(whole: Books, taken: &[Books]) -> Vec<Books> {
    let (mut out, mut next) = (Vec::new(), whole.from);
    for books in joined(taken.to_vec()) {
        if books.to < next || books.from > whole.to {
            continue;
        }
        out.extend(books.from.checked_sub(1).and_then(|before| Books::of(next, before)));
        next = books.to.saturating_add(1);
    }
    out.extend(Books::of(next, whole.to));
    out
}

/// How many books a list has, each counted once.
#[must_use]
pub fn count(list: &[Books]) -> u32 {
    joined(list.to_vec()).iter().fold(0, |n, b| n.saturating_add(b.count()))
}

/// A list in words: `books 1 to 5, book 7 and books 9 to 12`; after ten it says how many more.
#[must_use]
pub fn list_says(list: &[Books]) -> String {
    const TOLD: usize = 10;
    let mut parts: Vec<String> = list.iter().take(TOLD).map(Books::says).collect();
    if list.len() > TOLD {
        parts.push(format!("{} more", list.len() - TOLD));
    }
    match parts.split_last() {
        Some((last, rest)) if !rest.is_empty() => format!("{} and {last}", rest.join(", ")),
        Some((only, _)) => only.clone(),
        None => "no book".into(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const fn b(from: u32, to: u32) -> Books {
        Books { from, to }
    }

    #[test]
    fn lists_are_joined_and_taken_away() {
        let list = vec![b(9, 12), b(1, 3), b(4, 5), b(11, 20)];
        assert_eq!(joined(list.clone()), [b(1, 5), b(9, 20)]);
        assert_eq!(count(&list), 17);
        assert_eq!(without(b(2, 25), &list), [b(6, 8), b(21, 25)]);
        assert_eq!(without(b(1, 4), &[]), [b(1, 4)]);
        assert_eq!(without(b(3, 4), &list), []);
        assert_eq!(list_says(&joined(list)), "books 1 to 5 and books 9 to 20");
        assert_eq!(list_says(&[b(7, 7)]), "book 7");
    }
}
