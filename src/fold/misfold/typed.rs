//! Typed pages: what is found in a section, in one line, from front to back.
//!
//! `1-4 6 7v _ 8` is pages 1 to 4, 6, 7 with its head down, a side that is not printed, and 8. Words stand apart by
//! spaces, commas or semicolons. A bare number is a page whose head points up as the section is held. `v` (or `d`, as
//! in a typed run of sections) behind a number or a range says head down. `16-13` runs backwards. `_`, or a dash that
//! stands alone, is an unprinted side; so a range is written without spaces.

use super::explain::FoundPage;
use crate::fold::Direction;
use serde::Serialize;
use std::fmt;

/// The longest line in characters. A bound of this program, far above the pages that are read, written singly.
const LONGEST: usize = 16_000;
/// The most pages that are read: a sheet of 128 leaves with another one laid in, and all of it double.
pub const MAX_TYPED: usize = 1024;
/// The highest page number, so that a slip of the finger is told as one.
const MAX_PAGE: u32 = 1_000_000;

/// What in typed pages can't be read, and where.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct TypedError {
    /// The first character of the word, from 1.
    pub at: usize,
    /// The word itself, cut when it is long.
    pub word: String,
    /// Why.
    pub says: String,
}

impl fmt::Display for TypedError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "At character {}, “{}”: {}", self.at, self.word, self.says)
    }
}

impl std::error::Error for TypedError {}

/// Reads typed pages.
///
/// # Errors
/// When a word is no page, or the line or the section is too long.
pub fn parse_pages(line: &str) -> Result<Vec<FoundPage>, TypedError> {
    let error = |at: usize, word: &str, says: String| TypedError { at, word: word.chars().take(20).collect(), says };
    if line.chars().nth(LONGEST).is_some() {
        return Err(error(LONGEST + 1, "", format!("The line is longer than {LONGEST} characters.")));
    }
    let mut found = Vec::new();
    for (at, word) in words(line) {
        let room = MAX_TYPED - found.len();
        found.extend(read_word(word, room).map_err(|says| error(at, word, says))?);
    }
    Ok(found)
}

/// Writes pages so that [`parse_pages`] reads them back; runs of three and more become ranges. A head that nobody
/// looked at is written as one that points up.
#[must_use]
pub fn print_pages(found: &[FoundPage]) -> String {
    const SHORTEST_RANGE: usize = 3;
    let mut words = Vec::new();
    let mut rest = found;
    while let Some((first, _)) = rest.split_first() {
        let run = together(rest);
        let taken = if run >= SHORTEST_RANGE { run } else { 1 };
        let (word, after) = rest.split_at(taken);
        let v = if down(first) { "v" } else { "" };
        words.push(match (first.page, word.last().and_then(|p| p.page)) {
            (None, _) => "_".to_owned(),
            (Some(a), Some(b)) if a != b => format!("{a}-{b}{v}"),
            (Some(a), _) => format!("{a}{v}"),
        });
        rest = after;
    }
    words.join(" ")
}

/// The words of a line, each with the number of its first character, from 1.
fn words(line: &str) -> impl Iterator<Item = (usize, &str)> {
    let mut at = 1;
    line.split(|c: char| c.is_whitespace() || c == ',' || c == ';').filter_map(move |word| {
        let here = at;
        at += word.chars().count() + 1;
        (!word.is_empty()).then_some((here, word))
    })
}

/// The pages that one word stands for, as many as there is room for.
fn read_word(word: &str, room: usize) -> Result<Vec<FoundPage>, String> {
    let full = || format!("At most {MAX_TYPED} pages are read.");
    if matches!(word, "_" | "-" | "–" | "—") {
        return if room > 0 { Ok(vec![FoundPage { page: None, head: None }]) } else { Err(full()) };
    }
    let (numbers, head) = heading(word);
    let page = |page| FoundPage { page: Some(page), head: Some(head) };
    let (first, last) = match numbers.split_once(['-', '–']) {
        None => (number(numbers)?, None),
        Some((_, "")) => return Err("The last page of this range is missing, as in 1-8.".to_owned()),
        Some((first, last)) => {
            let (first, other) = heading(first);
            if other != head && other == Direction::Down {
                return Err("A range is head down as a whole, with v at its end, as in 8-1v.".to_owned());
            }
            (number(first)?, Some(number(last)?))
        }
    };
    let last = last.unwrap_or(first);
    if first.abs_diff(last) as usize >= room {
        return Err(full());
    }
    Ok(if first <= last { (first..=last).map(page).collect() } else { (last..=first).rev().map(page).collect() })
}

/// A word without the letter behind it, and what the letter says.
fn heading(word: &str) -> (&str, Direction) {
    match word.strip_suffix(['v', 'V', 'd', 'D']) {
        Some(rest) => (rest, Direction::Down),
        None => (word, Direction::Up),
    }
}

/// One page number.
fn number(digits: &str) -> Result<u32, String> {
    if digits.is_empty() || !digits.bytes().all(|byte| byte.is_ascii_digit()) {
        return Err(
            "That is no page. Write 4 for a page, 4v for one head down, 1-8 for a run, _ for a blank side.".to_owned()
        );
    }
    match digits.parse() {
        Ok(number) if (1..=MAX_PAGE).contains(&number) => Ok(number),
        _ => Err(format!("Pages are numbered from 1 to {MAX_PAGE}.")),
    }
}

/// How many pages from the first on make one range, up or down.
fn together(found: &[FoundPage]) -> usize {
    let run = |step: i64| {
        let goes_on = |pair: &[FoundPage]| match pair {
            [a, b] => match (a.page, b.page) {
                (Some(p), Some(q)) => i64::from(p) + step == i64::from(q) && down(a) == down(b),
                _ => false,
            },
            _ => false,
        };
        1 + found.windows(2).take_while(|pair| goes_on(pair)).count()
    };
    run(1).max(run(-1))
}

fn down(page: &FoundPage) -> bool {
    page.head == Some(Direction::Down)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn up(page: u32) -> FoundPage {
        FoundPage { page: Some(page), head: Some(Direction::Up) }
    }

    fn v(page: u32) -> FoundPage {
        FoundPage { page: Some(page), head: Some(Direction::Down) }
    }

    const BLANK: FoundPage = FoundPage { page: None, head: None };

    #[test]
    fn every_word() {
        let found = parse_pages("1-3 6,7v, 8d _ - – — 16-14  4–3v 2v-1v;9V").unwrap();
        let wanted = [
            vec![up(1), up(2), up(3), up(6), v(7), v(8), BLANK, BLANK, BLANK, BLANK],
            vec![up(16), up(15), up(14), v(4), v(3), v(2), v(1), v(9)],
        ];
        assert_eq!(found, wanted.concat());
        assert_eq!(print_pages(&found), "1-3 6 7v 8v _ _ _ _ 16-14 4-1v 9v");
        assert_eq!(parse_pages(" ,; ").unwrap(), vec![]);
        assert_eq!(print_pages(&[]), "");
        assert_eq!(print_pages(&[up(1), up(2), up(1), up(1)]), "1 2 1 1");
    }

    #[test]
    fn errors_say_where_and_why() {
        for (line, at, word, says) in [
            ("1-4 6 q", 7, "q", "no page. Write 4"),
            ("1,,2-", 4, "2-", "The last page of this range is missing"),
            ("é 1", 1, "é", "no page"),
            ("1 0", 3, "0", "from 1 to 1000000"),
            ("1 1000001", 3, "1000001", "from 1 to"),
            ("1 99999999999999999999", 3, "99999999999999999999", "from 1 to"),
            ("1--3", 1, "1--3", "no page"),
            ("2v-3", 1, "2v-3", "head down as a whole"),
            ("v", 1, "v", "no page"),
            ("4?", 1, "4?", "no page"),
            ("xii", 1, "xii", "no page"),
            ("1-1025", 1, "1-1025", "At most 1024"),
            ("1-1024 _", 8, "_", "At most 1024"),
            ("1-1000000", 1, "1-1000000", "At most 1024"),
        ] {
            let error = parse_pages(line).unwrap_err();
            assert_eq!((error.at, error.word.as_str()), (at, word), "{line}: {error}");
            assert!(error.says.contains(says) && error.says.ends_with('.'), "{line}: {error}");
        }
        assert!(parse_pages(&"1".repeat(LONGEST + 1)).is_err());
        assert_eq!(parse_pages("1-1024").unwrap().len(), MAX_TYPED);
    }
}
