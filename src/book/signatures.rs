//! Signatures: the letter or figure at the foot of the first page of a section, and the section read from it.

use crate::marks::{MOST_SECTIONS, Refusal};
use serde::{Deserialize, Serialize};

/// What sections are signed with.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Alphabet {
    /// 23 letters, without J, V and W: J. W. Zaehnsdorf, *The Art of Bookbinding* (1890), ch. III, p. 13; D. Cockerell,
    /// *Bookbinding and the Care of Books* (1901), p. 43.
    #[default]
    Latin23,
    /// 25 letters, without J: T. MacKellar, *The American Printer* (18th ed., 1893), p. 135 and the table of signatures,
    /// pp. 215-217.
    American25,
    /// Plain figures from 1 on: Cockerell, p. 43.
    Figures,
}

/// The letter of the first section that is signed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Start {
    /// A.
    #[default]
    A,
    /// B, since A is kept for title and prelims (Zaehnsdorf, p. 13, note; Cockerell, p. 38; MacKellar, p. 135). The second
    /// alphabet begins again at A. Plain figures begin with 1 all the same.
    B,
}

/// How letters go on after the last of the alphabet.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Doubling {
    /// A figure before the letter: 2A, 3A (MacKellar's table; Cockerell, p. 43).
    #[default]
    Figure,
    /// The letter again: AA, AAA (Zaehnsdorf, p. 13; Cockerell, p. 43).
    Letters,
}

/// How a book is signed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Signing {
    /// Letters or figures.
    #[serde(default)]
    pub alphabet: Alphabet,
    /// The first one.
    #[serde(default)]
    pub start: Start,
    /// How the second alphabet is written.
    #[serde(default)]
    pub doubling: Doubling,
}

/// What a signature that was found says.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Signed {
    /// The section, from 1.
    pub section: u32,
    /// The leaf of the section that carries it, from 1. Old sheets sign every leaf of their first half: A, A2, A3, A4 on
    /// pages 1, 3, 5 and 7 of an octavo (L. Voet, *The Golden Compasses* I, app. 8).
    pub leaf: u32,
    /// The same in words.
    pub says: String,
}

impl Alphabet {
    /// Its letters; none for figures.
    #[must_use]
    pub const fn letters(self) -> &'static str {
        match self {
            Self::Latin23 => "ABCDEFGHIKLMNOPQRSTUXYZ",
            Self::American25 => "ABCDEFGHIKLMNOPQRSTUVWXYZ",
            Self::Figures => "",
        }
    }
}

impl Signing {
    /// The signature of a section, from 1; 0 is taken as 1.
    #[must_use]
    pub fn signature(&self, section: u32) -> String {
        let Some((times, letter)) = self.letter(section) else { return section.max(1).to_string() };
        match (times, self.doubling) {
            (1, _) => letter.to_string(),
            (_, Doubling::Figure) => format!("{times}{letter}"),
            (_, Doubling::Letters) => (0..times).map(|_| letter).collect(),
        }
    }

    /// The signature as a collational formula has it: as [`Signing::signature`], but doubled letters small after the first, Aa.
    #[must_use]
    pub fn in_formula(&self, section: u32) -> String {
        let signature = self.signature(section);
        let mut letters = signature.chars();
        match (self.doubling, letters.next()) {
            (Doubling::Letters, Some(first)) => format!("{first}{}", letters.as_str().to_ascii_lowercase()),
            _ => signature,
        }
    }

    /// The section that a signature stands for, among so many.
    ///
    /// Capitals and small letters are read alike, and so are both ways of doubling: `2A`, `2 a`, `AA` and `Aa`. A figure behind
    /// the letter counts leaves: `B2`.
    ///
    /// # Errors
    /// A sentence, without a place: what was typed is no signature of this book.
    pub fn section(&self, signature: &str, sections: u32) -> Result<Signed, Refusal> {
        let quoted: String = signature.trim().chars().take(LONGEST).collect();
        let refuse = |why: &str| Refusal::new("", format!("“{quoted}” is no signature of this book: {why}"));
        let letters = self.alphabet.letters();
        let text: String = signature.chars().filter(|c| !c.is_whitespace()).collect();
        let (section, leaf) = if letters.is_empty() {
            let figure = text.parse::<u32>().ok().filter(|_| text.bytes().all(|b| b.is_ascii_digit()));
            (figure.ok_or_else(|| refuse("its sections are signed with figures."))?, 1)
        } else {
            let (before, rest) = split_figures(&text);
            let middle = rest.trim_end_matches(|c: char| c.is_ascii_digit());
            let leaf = rest.get(middle.len()..).unwrap_or_default();
            let mut of_middle = middle.chars().map(|c| c.to_ascii_uppercase());
            let first = of_middle.next().ok_or_else(|| refuse("it has no letter."))?;
            if !of_middle.all(|c| c == first) {
                return Err(refuse("a doubled signature has the same letter again."));
            }
            let nth = letters
                .chars()
                .position(|c| c == first)
                .ok_or_else(|| refuse(&format!("the letters are {letters}.")))?;
            let repeated = middle.chars().count() as u32;
            let times = match (before.is_empty(), repeated) {
                (true, times) => times,
                (false, 1) => before.parse().ok().filter(|n| *n > 0).ok_or_else(|| refuse("no figure is so high."))?,
                _ => return Err(refuse("a figure or a second letter doubles it, and not both.")),
            };
            let leaf = if leaf.is_empty() { Some(1) } else { leaf.parse().ok().filter(|n| *n > 0) };
            let at = (times - 1).saturating_mul(letters.len() as u32).saturating_add(nth as u32);
            let at = at.checked_sub(self.skipped()).ok_or_else(|| refuse("it begins with B."))?;
            (at.saturating_add(1), leaf.ok_or_else(|| refuse("no leaf has that number."))?)
        };
        if section == 0 || section > sections {
            return Err(refuse(&format!(
                "it has {sections} signed sections, the last of them {}.",
                self.signature(sections)
            )));
        }
        Ok(Signed { section, leaf, says: says(&quoted, section, leaf) })
    }

    /// The section of a book whose first `unsigned` ones carry no signature.
    ///
    /// # Errors
    /// As [`Signing::section`].
    pub fn section_of_book(&self, signature: &str, sections: u32, unsigned: u32) -> Result<Signed, Refusal> {
        let mut found = self.section(signature, sections.saturating_sub(unsigned))?;
        found.section = found.section.saturating_add(unsigned);
        found.says = says(signature.trim(), found.section, found.leaf);
        Ok(found)
    }

    /// How often a letter is written, and which; `None` for figures.
    fn letter(&self, section: u32) -> Option<(u32, char)> {
        let letters = self.alphabet.letters();
        let count = u32::try_from(letters.len()).ok().filter(|n| *n > 0)?;
        let at = section.saturating_sub(1).saturating_add(self.skipped());
        Some((at / count + 1, letters.chars().nth((at % count) as usize)?))
    }

    const fn skipped(&self) -> u32 {
        match self.start {
            Start::A => 0,
            Start::B => 1,
        }
    }
}

fn says(signature: &str, section: u32, leaf: u32) -> String {
    let quoted: String = signature.chars().take(LONGEST).collect();
    match leaf {
        1 => format!("{quoted} is the signature of section {section}."),
        leaf => format!("{quoted} stands on leaf {leaf} of section {section}."),
    }
}

/// The longest signature that is quoted back, in characters.
const LONGEST: usize = 20;

/// Figures at the beginning, and what follows them.
fn split_figures(text: &str) -> (&str, &str) {
    let rest = text.trim_start_matches(|c: char| c.is_ascii_digit());
    (text.get(..text.len() - rest.len()).unwrap_or_default(), rest)
}

/// The signatures of so many sections.
///
/// # Errors
/// If there are none, or too many.
pub fn signatures(sections: u32, signing: &Signing) -> Result<Vec<String>, Refusal> {
    if sections == 0 || sections > MOST_SECTIONS {
        return Err(Refusal::new("sections", format!("A book here has 1 to {MOST_SECTIONS} sections.")));
    }
    Ok((1..=sections).map(|n| signing.signature(n)).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn signing(alphabet: Alphabet, start: Start, doubling: Doubling) -> Signing {
        Signing { alphabet, start, doubling }
    }

    #[test]
    fn letters_are_doubled_and_the_second_alphabet_begins_at_a() {
        let from_b = signing(Alphabet::Latin23, Start::B, Doubling::Figure);
        let all = signatures(46, &from_b).unwrap();
        assert_eq!([&all[0], &all[21], &all[22], &all[44], &all[45]], ["B", "Z", "2A", "2Z", "3A"]);
        let letters = Signing { doubling: Doubling::Letters, ..from_b };
        assert_eq!([letters.signature(23), letters.in_formula(23), letters.in_formula(46)], ["AA", "Aa", "Aaa"]);
        let figures = signing(Alphabet::Figures, Start::B, Doubling::Figure);
        assert_eq!(signatures(3, &figures).unwrap(), ["1", "2", "3"]);
        assert_eq!(signatures(401, &figures).unwrap_err().at, "sections");
        assert_eq!(signatures(0, &figures).unwrap_err().at, "sections");
    }

    #[test]
    fn a_signature_is_read_as_it_may_be_written() {
        let from_b = signing(Alphabet::Latin23, Start::B, Doubling::Figure);
        let read = |text: &str| from_b.section(text, 30).map(|s| (s.section, s.leaf)).map_err(|r| r.says);
        assert_eq!(["B", "b", "Z", "2A", "2 a", "AA", "Aa"].map(|t| read(t).unwrap().0), [1, 1, 22, 23, 23, 23, 23]);
        assert_eq!(read("2B3"), Ok((24, 3)));
        assert_eq!(from_b.section("B2", 30).unwrap().says, "B2 stands on leaf 2 of section 1.");
        for bad in
            ["", "A", "W", "J", "2AA", "AB", "3A", "0B", "B0", "7", "2", "B*", "99999999999B", "é", "4294967295Z"]
        {
            assert!(read(bad).is_err(), "{bad}: {:?}", read(bad));
        }
        assert!(read("W").unwrap_err().contains("ABCDEFGHIKLMNOPQRSTUXYZ"));
        assert!(read("3A").unwrap_err().contains("30 signed sections, the last of them 2H"));
        let figures = signing(Alphabet::Figures, Start::A, Doubling::Figure);
        assert_eq!(figures.section("12", 30).unwrap().section, 12);
        for bad in ["0", "31", "+3", "B", ""] {
            assert!(figures.section(bad, 30).is_err(), "{bad}");
        }
    }
}
