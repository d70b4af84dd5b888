//! A typed run of signatures in place of section numbers: `B-E G H-N`, as collators read them at the foot of first pages.

use crate::book::{Alphabet, Signing};
use crate::gather::run::parse_run;
use crate::marks::{Found, Lies, MOST_SECTIONS, Refusal};

/// Reads a run of section numbers, or of signatures where it is said how the book is signed. A book signed with figures
/// is read as numbers.
///
/// # Errors
/// Where a word is neither.
pub fn read_run(text: &str, signing: Option<&Signing>, sections: u32) -> Result<Vec<Found>, Refusal> {
    let numbers = parse_run(text).map_err(|why| Refusal::new("spine.run", why.to_string()));
    let Some(signing) = signing.filter(|signing| signing.alphabet != Alphabet::Figures) else { return numbers };
    // A line without a capital letter is one of numbers; `x` is a section of another job, and `d`, `t` and `b` say how one lies.
    if !text.chars().any(|c| c.is_ascii_uppercase()) {
        return numbers;
    }
    let mut found = Vec::new();
    for word in text.split(|c: char| c.is_whitespace() || c == ',' || c == ';').filter(|word| !word.is_empty()) {
        found.extend(read_word(word, signing, sections)?);
        if found.len() > MOST_SECTIONS as usize {
            return Err(Refusal::new("spine.run", format!("At most {MOST_SECTIONS} backs are read.")));
        }
    }
    Ok(found)
}

fn read_word(word: &str, signing: &Signing, sections: u32) -> Result<Vec<Found>, Refusal> {
    match word {
        "_" => return Ok(vec![Found::NoMark]),
        "x" => return Ok(vec![Found::Foreign]),
        "?" => return Ok(vec![Found::Unread]),
        _ => {}
    }
    // Behind a capital a small letter says how the section lies, except the same letter again, which doubles it.
    let last = word.char_indices().next_back();
    let before = |at: usize| word.get(..at).and_then(|w| w.chars().next_back());
    let doubles = |at: usize, c: char| before(at).is_some_and(|b| b == c.to_ascii_uppercase());
    let (stem, lies) = match last {
        Some((at, 'd')) if at > 0 && !doubles(at, 'd') => (word.get(..at).unwrap_or(word), Lies::HeadToTail),
        Some((at, 't')) if at > 0 && !doubles(at, 't') => (word.get(..at).unwrap_or(word), Lies::TurnedInPlane),
        Some((at, 'b')) if at > 0 && !doubles(at, 'b') => (word.get(..at).unwrap_or(word), Lies::SideToSide),
        _ => (word, Lies::Right),
    };
    let section = |signature: &str| match signing.section(signature, sections) {
        Ok(signed) => Ok(signed.section),
        Err(why) => Err(Refusal::new("spine.run", why.says)),
    };
    let as_found = |section| Found::Section { section, lies };
    match stem.split_once(['-', '–']) {
        None => Ok(vec![as_found(section(stem)?)]),
        Some((first, last)) => {
            let [first, last] = [section(first)?, section(last)?];
            Ok(if first <= last {
                (first..=last).map(as_found).collect()
            } else {
                (last..=first).rev().map(as_found).collect()
            })
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::book::{Doubling, Start};
    use crate::gather::run::print_run;

    fn run(text: &str, sections: u32) -> String {
        let signing = Signing { start: Start::B, doubling: Doubling::Letters, ..Signing::default() };
        print_run(&read_run(text, Some(&signing), sections).unwrap())
    }

    #[test]
    fn letters_and_numbers() {
        // B is the first, J is left out, and the second alphabet begins again at A: Zaehnsdorf, p. 13.
        assert_eq!(run("B-E G K", 12), "1-4 6 9");
        assert_eq!(run("Bd C-Et _ x ?", 12), "1d 2-4t _ x ?");
        assert_eq!(run("Z AA BB Bb Cd", 26), "22-24 24 2d");
        assert_eq!(run("E-B", 12), "4-1");
        assert_eq!(run("1-4 6d", 12), "1-4 6d");
        let signing = Signing::default();
        assert!(read_run("A-Q", Some(&signing), 12).unwrap_err().says.contains("no signature of this book"));
        assert_eq!(read_run("A-C", None, 12).unwrap_err().at, "spine.run");
    }
}
