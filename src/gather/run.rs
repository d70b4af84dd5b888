//! The typed run: a gathered book in one line, from front to back.
//!
//! `1-4 6 5d 7 7 _ x ?` is sections 1 to 4, 6, 5 with its head down, 7 twice, a blank back, a foreign section and a
//! back that can't be read. Words stand apart by spaces or commas. `9-7` runs backwards. A letter behind a number or a
//! range says how the sections lie: `d` head down (head to tail), `t` turned half round in its plane, `b` back to
//! front (side to side).

use std::fmt;

use serde::Serialize;

use crate::marks::{Found, Lies, MOST_SECTIONS};

/// The longest line in characters. A bound of this program, far above 400 backs written singly.
const LONGEST: usize = 8000;

/// What in a typed run can't be read, and where.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct RunError {
    /// The first character of the word, from 1.
    pub at: usize,
    /// The word itself, cut when it is long.
    pub word: String,
    /// Why.
    pub says: String,
}

impl fmt::Display for RunError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "At character {}, “{}”: {}", self.at, self.word, self.says)
    }
}

impl std::error::Error for RunError {}

/// Reads a typed run.
pub fn parse_run(line: &str) -> Result<Vec<Found>, RunError> {
    let error = |at: usize, word: &str, says: String| RunError { at, word: word.chars().take(20).collect(), says };
    if line.chars().nth(LONGEST).is_some() {
        return Err(error(LONGEST + 1, "", format!("The line is longer than {LONGEST} characters.")));
    }
    let mut found = Vec::new();
    for (at, word) in words(line) {
        let backs = read_word(word).map_err(|says| error(at, word, says))?;
        let count = found.len() + backs.len();
        if count > MOST_SECTIONS as usize {
            return Err(error(at, word, format!("At most {MOST_SECTIONS} backs are read.")));
        }
        found.extend(backs);
    }
    Ok(found)
}

/// Writes a run in its shortest form; [`parse_run`] reads it back. `found` that names a section 0 or above
/// [`MOST_SECTIONS`] is written all the same, but can't be read back.
pub fn print_run(found: &[Found]) -> String {
    // The fewest characters for what is left from each back on, and how many backs its first word takes.
    let mut shortest = vec![(0, 0); found.len() + 1];
    for start in (0..found.len()).rev() {
        let mut best = (usize::MAX, 1);
        // A range is taken whole, but for its last back, where another range begins with that, or back by back.
        let most = together(&found[start..]);
        for taken in [1, most.saturating_sub(1).max(1), most] {
            let space = usize::from(start + taken < found.len());
            let length = length(&found[start..start + taken]) + space + shortest[start + taken].0;
            best = best.min((length, taken));
        }
        shortest[start] = best;
    }
    let mut words = Vec::new();
    let mut start = 0;
    while start < found.len() {
        let taken = shortest[start].1;
        words.push(word(&found[start..start + taken]));
        start += taken;
    }
    words.join(" ")
}

/// The words of a line, each with the number of its first character, from 1.
fn words(line: &str) -> impl Iterator<Item = (usize, &str)> {
    let apart = |c: char| c.is_whitespace() || c == ',' || c == ';';
    let mut at = 1;
    line.split(apart).filter_map(move |word| {
        let here = at;
        at += word.chars().count() + 1;
        (!word.is_empty()).then_some((here, word))
    })
}

/// The backs one word stands for.
fn read_word(word: &str) -> Result<Vec<Found>, String> {
    match word {
        "_" => return Ok(vec![Found::NoMark]),
        "x" | "X" => return Ok(vec![Found::Foreign]),
        "?" => return Ok(vec![Found::Unread]),
        _ => {}
    }
    let (numbers, lies) = match word.char_indices().next_back() {
        Some((at, 'd' | 'D')) => (&word[..at], Lies::HeadToTail),
        Some((at, 't' | 'T')) => (&word[..at], Lies::TurnedInPlane),
        Some((at, 'b' | 'B')) => (&word[..at], Lies::SideToSide),
        _ => (word, Lies::Right),
    };
    let section = |section| Found::Section { section, lies };
    match numbers.split_once(['-', '–']) {
        None => Ok(vec![section(number(numbers)?)]),
        Some((first, last)) => {
            let [first, last] = [number(first)?, number(last)?];
            Ok(if first <= last {
                (first..=last).map(section).collect()
            } else {
                (last..=first).rev().map(section).collect()
            })
        }
    }
}

/// One section number.
fn number(digits: &str) -> Result<u32, String> {
    if digits.is_empty() || !digits.bytes().all(|byte| byte.is_ascii_digit()) {
        return Err("A section number, a range such as 1-4, _ , x or ? stands here.".to_owned());
    }
    match digits.parse() {
        Ok(number) if (1..=MOST_SECTIONS).contains(&number) => Ok(number),
        _ => Err(format!("Sections are numbered 1 to {MOST_SECTIONS}.")),
    }
}

/// How many backs from the first on make one range, up or down.
fn together(found: &[Found]) -> usize {
    let longest = |down: bool| {
        let goes_on = |pair: &[Found]| match *pair {
            [Found::Section { section: one, lies }, Found::Section { section: next, lies: also }] => {
                lies == also && if down { one.checked_sub(1) == Some(next) } else { one.checked_add(1) == Some(next) }
            }
            _ => false,
        };
        1 + found.windows(2).take_while(|pair| goes_on(pair)).count()
    };
    longest(false).max(longest(true))
}

/// The word for one back, or for a range.
fn word(found: &[Found]) -> String {
    match *found {
        [Found::NoMark, ..] => "_".to_owned(),
        [Found::Foreign, ..] => "x".to_owned(),
        [Found::Unread, ..] => "?".to_owned(),
        [Found::Section { section, lies }] => format!("{section}{}", letter(lies)),
        [Found::Section { section: first, lies }, .., Found::Section { section: last, .. }] => {
            format!("{first}-{last}{}", letter(lies))
        }
        _ => String::new(),
    }
}

/// How many characters [`word`] has.
fn length(found: &[Found]) -> usize {
    let number = |section: u32| section.checked_ilog10().unwrap_or(0) as usize + 1;
    match *found {
        [Found::NoMark | Found::Foreign | Found::Unread, ..] => 1,
        [Found::Section { section, lies }] => number(section) + letter(lies).len(),
        [Found::Section { section: first, lies }, .., Found::Section { section: last, .. }] => {
            number(first) + 1 + number(last) + letter(lies).len()
        }
        _ => 0,
    }
}

/// The letter behind a number.
fn letter(lies: Lies) -> &'static str {
    match lies {
        Lies::Right => "",
        Lies::HeadToTail => "d",
        Lies::TurnedInPlane => "t",
        Lies::SideToSide => "b",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lying(section: u32, lies: Lies) -> Found {
        Found::Section { section, lies }
    }

    #[test]
    fn every_word() {
        let found = parse_run("1-4 6 5d,7, 7 _ x ?  9-7 3t 2b").unwrap();
        let mut expected = [1, 2, 3, 4, 6].map(Found::right).to_vec();
        expected.push(lying(5, Lies::HeadToTail));
        expected.extend([7, 7].map(Found::right));
        expected.extend([Found::NoMark, Found::Foreign, Found::Unread]);
        expected.extend([9, 8, 7].map(Found::right));
        expected.extend([lying(3, Lies::TurnedInPlane), lying(2, Lies::SideToSide)]);
        assert_eq!(found, expected);
        assert_eq!(print_run(&found), "1-4 6 5d 7 7 _ x ? 9-7 3t 2b");
        assert_eq!(parse_run(" , ").unwrap(), vec![]);
    }

    #[test]
    fn the_shortest_form() {
        for (long, short) in [
            ("1 2", "1 2"),
            ("1 2 3", "1-3"),
            ("1 2 3 2 1", "1 2 3-1"),
            ("5d 6d", "5-6d"),
            ("1-2d 3", "1-2d 3"),
            ("10 11 12 5", "10-12 5"),
            ("4-4", "4"),
        ] {
            assert_eq!(print_run(&parse_run(long).unwrap()), short);
        }
    }

    #[test]
    fn no_other_form_is_shorter() {
        // Every way to cut a run into words, for many runs of a few numbers.
        fn fewest(found: &[Found]) -> usize {
            let ways = 1..=together(found);
            let rest = |taken: usize| match &found[taken..] {
                [] => 0,
                rest => 1 + fewest(rest),
            };
            ways.map(|taken| word(&found[..taken]).len() + rest(taken)).min().unwrap_or(0)
        }
        for number in 0..3_u32.pow(8) {
            // From 9 on up, down or once more, so that there are numbers of one digit and of two.
            let mut section = 9_u32;
            let found = (0..8).map(|place| {
                section = (section + 1).saturating_sub(number / 3_u32.pow(place) % 3);
                Found::right(section)
            });
            let found = found.collect::<Vec<_>>();
            let printed = print_run(&found);
            assert_eq!(printed.len(), fewest(&found), "{printed}");
        }
    }

    #[test]
    fn errors_say_where() {
        for (line, at, word) in [
            ("1-4 6 q", 7, "q"),
            ("1,,2-", 4, "2-"),
            ("é 1", 1, "é"),
            ("1 0", 3, "0"),
            ("1 401", 3, "401"),
            ("1 99999999999999999999", 3, "99999999999999999999"),
            ("1--3", 1, "1--3"),
            ("d", 1, "d"),
            ("1-400 1", 7, "1"),
            ("-", 1, "-"),
        ] {
            let error = parse_run(line).unwrap_err();
            assert_eq!((error.at, error.word.as_str()), (at, word), "{line}: {error}");
        }
        assert!(parse_run(&"1".repeat(9000)).is_err());
        assert!(parse_run(&" ".repeat(9000)).is_err());
    }
}
