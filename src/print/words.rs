//! Words as the codes of a typeface, and how wide they are.
//!
//! Words are set in Helvetica with WinAnsiEncoding: Western European letters, typographic quotes and dashes, ×, °, ², ³. Signs
//! of reckoning and arrows come from Symbol. Other superscripts and subscripts are small figures, raised or lowered. A
//! letter of another alphabet loses its accents, or becomes a question mark; the title of the document keeps it.

use super::document::Weight;
use super::{helvetica, type_cut};

/// A face of type that a document may use.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Face {
    /// Words.
    Plain,
    /// Headings.
    Bold,
    /// Signs that the words' face does not have.
    Signs,
    /// Figures.
    Figures,
}

/// Letters that follow each other in one face at one height.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Run {
    /// The face.
    pub face: Face,
    /// Their codes.
    pub codes: Vec<u8>,
    /// Their size, as a share of the size of the line.
    pub size: f64,
    /// How far they are raised, as a share of the size of the line.
    pub rise: f64,
    /// Their width for a line of size 1.
    pub width: f64,
}

/// Longer lines are cut. A bound on work, not on paper.
const MAX_LETTERS: usize = 2000;

/// Signs of Symbol: the letter, its code, its width in thousandths. Source: Adobe, Core 14 AFM files, Symbol.
pub(super) const SIGNS: [(char, u8, u16); 16] = [
    ('≤', 0xA3, 549),
    ('≥', 0xB3, 549),
    ('≠', 0xB9, 549),
    ('→', 0xAE, 987),
    ('←', 0xAC, 987),
    ('↑', 0xAD, 603),
    ('↓', 0xAF, 603),
    ('≈', 0xBB, 549),
    ('≡', 0xBA, 549),
    ('π', 0x70, 549),
    ('√', 0xD6, 549),
    ('∞', 0xA5, 713),
    ('−', 0x2D, 549),
    ('′', 0xA2, 247),
    ('″', 0xB2, 411),
    ('Δ', 0x44, 612),
];

/// The letters of WinAnsiEncoding at the codes 0x80 to 0x9F (ISO 32000-1, annex D); a blank where there is none.
const MIDDLE: &str = "€ ‚ƒ„…†‡ˆ‰Š‹Œ Ž  ‘’“”•–—˜™š›œ žŸ";

/// The letters U+0100 to U+017F without their accents.
const BARE: &str = "AaAaAaCcCcCcCcDdDdEeEeEeEeEeGgGgGgGgHhHhIiIiIiIiIiIiJjKkkLlLlLlLlLlNnNnNnnNnOoOoOoOoRrRrRrSsSsSsSs\
                    TtTtTtUuUuUuUuUuUuWwYyYZzZzZzs";

/// The code of a letter in WinAnsiEncoding.
fn win_ansi(letter: char) -> Option<u8> {
    let code = letter as u32;
    match code {
        0x20..=0x7E | 0xA1..=0xFF => u8::try_from(code).ok(),
        _ if letter == ' ' => None,
        _ => MIDDLE.chars().zip(0x80_u8..).find(|(c, _)| *c == letter).map(|(_, code)| code),
    }
}

/// The letters and codes of WinAnsiEncoding, by code.
pub(super) fn win_ansi_codes() -> Vec<(u8, char)> {
    let middle = MIDDLE.chars().zip(0x80_u8..).filter(|(c, _)| *c != ' ').map(|(c, code)| (code, c));
    let low = (0x20_u8..=0x7E).map(|code| (code, char::from(code)));
    let high = (0xA1_u8..=0xFF).map(|code| (code, char::from(code)));
    low.chain(middle).chain(high).collect()
}

/// A raised (or lowered) figure as the plain one, and how far.
const fn raised(letter: char) -> Option<(char, f64)> {
    let up = 0.33;
    let down = -0.12;
    match letter {
        '⁰' => Some(('0', up)),
        '⁴' => Some(('4', up)),
        '⁵' => Some(('5', up)),
        '⁶' => Some(('6', up)),
        '⁷' => Some(('7', up)),
        '⁸' => Some(('8', up)),
        '⁹' => Some(('9', up)),
        '⁺' => Some(('+', up)),
        '⁻' => Some(('–', up)),
        'ⁿ' => Some(('n', up)),
        '₀' => Some(('0', down)),
        '₁' => Some(('1', down)),
        '₂' => Some(('2', down)),
        '₃' => Some(('3', down)),
        '₄' => Some(('4', down)),
        '₅' => Some(('5', down)),
        '₆' => Some(('6', down)),
        '₇' => Some(('7', down)),
        '₈' => Some(('8', down)),
        '₉' => Some(('9', down)),
        _ => None,
    }
}

/// What stands for a letter that no face has.
fn instead(letter: char) -> u8 {
    match letter {
        '\u{a0}' | '\u{2002}'..='\u{200a}' | '\u{202f}' | '\t' | '\n' | '\r' => b' ',
        '\u{2010}' | '\u{2011}' | '\u{ad}' => b'-',
        '\u{100}'..='\u{17f}' => BARE.as_bytes().get(letter as usize - 0x100).copied().unwrap_or(b'?'),
        _ => b'?',
    }
}

/// One letter: face, code, size, rise and width.
fn letter(c: char, weight: Weight) -> (Face, u8, f64, f64, f64) {
    if weight == Weight::Figures
        && let Some(width) = type_cut::width(c)
    {
        return (Face::Figures, type_cut::code(c), 1.0, 0.0, width);
    }
    let (face, widths) = match weight {
        Weight::Plain => (Face::Plain, &helvetica::PLAIN),
        Weight::Bold | Weight::Figures => (Face::Bold, &helvetica::BOLD),
    };
    let wide = |code: u8| f64::from(widths.get(usize::from(code).wrapping_sub(32)).copied().unwrap_or(0)) / 1000.0;
    if let Some(code) = win_ansi(c) {
        return (face, code, 1.0, 0.0, wide(code));
    }
    if let Some((_, code, width)) = SIGNS.iter().find(|(sign, ..)| *sign == c) {
        return (Face::Signs, *code, 1.0, 0.0, f64::from(*width) / 1000.0);
    }
    if let Some((plain, rise)) = raised(c) {
        let code = win_ansi(plain).unwrap_or(b'?');
        return (face, code, SMALL, rise, SMALL * wide(code));
    }
    let code = instead(c);
    (face, code, 1.0, 0.0, wide(code))
}

/// The size of raised and lowered figures.
const SMALL: f64 = 0.6;

/// A line of words as runs.
pub(super) fn runs(words: &str, weight: Weight) -> Vec<Run> {
    let mut runs: Vec<Run> = Vec::new();
    for c in words.chars().take(MAX_LETTERS) {
        let (face, code, size, rise, width) = letter(c, weight);
        match runs.last_mut() {
            Some(run) if (run.face, run.size, run.rise) == (face, size, rise) => {
                run.codes.push(code);
                run.width += width;
            }
            _ => runs.push(Run { face, codes: vec![code], size, rise, width }),
        }
    }
    runs
}

/// How wide words are, mm, in type of a size in mm.
#[must_use]
pub fn width_of(words: &str, weight: Weight, size_mm: f64) -> f64 {
    size_mm * words.chars().take(MAX_LETTERS).map(|c| letter(c, weight).4).sum::<f64>()
}

/// Words broken into lines that are no wider than `room_mm`, at blanks where there are any.
#[must_use]
pub fn lines_of(words: &str, weight: Weight, size_mm: f64, room_mm: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    let mut line = String::new();
    for word in words.split_whitespace() {
        let longer = if line.is_empty() { word.to_owned() } else { format!("{line} {word}") };
        if width_of(&longer, weight, size_mm) <= room_mm {
            line = longer;
            continue;
        }
        if !line.is_empty() {
            lines.push(std::mem::take(&mut line));
        }
        // A word that is wider than the room is broken where it has to be.
        for c in word.chars() {
            if !line.is_empty() && width_of(&line, weight, size_mm) + size_mm * letter(c, weight).4 > room_mm {
                lines.push(std::mem::take(&mut line));
            }
            line.push(c);
        }
    }
    if !line.is_empty() {
        lines.push(line);
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn letters_have_their_codes() {
        let set = |words: &str| runs(words, Weight::Plain);
        let [run] = set("“é ü × – ‘’ ²").try_into().unwrap();
        assert_eq!(run.codes, b"\x93\xe9 \xfc \xd7 \x96 \x91\x92 \xb2");
        assert_eq!(set("a ≤ b").iter().map(|r| r.face).collect::<Vec<_>>(), [Face::Plain, Face::Signs, Face::Plain]);
        assert_eq!(set("Łódź").concat_codes(), b"L\xf3dz");
        assert_eq!(set("日").concat_codes(), b"?");
        assert_eq!((set("2⁷").len(), set("2⁷").concat_codes()), (2, b"27".to_vec()));
    }

    trait Codes {
        fn concat_codes(&self) -> Vec<u8>;
    }

    impl Codes for Vec<Run> {
        fn concat_codes(&self) -> Vec<u8> {
            self.iter().flat_map(|r| r.codes.clone()).collect()
        }
    }

    #[test]
    fn tables_are_whole() {
        assert_eq!((BARE.len(), MIDDLE.chars().count()), (128, 32));
        assert_eq!(win_ansi_codes().len(), 217);
        // Adobe's Helvetica.afm: a 556, A 667, W 944, emdash 1000.
        let thousandths = |c: &str| (width_of(c, Weight::Plain, 1.0) * 1000.0).round();
        assert_eq!(["a", "A", "W", "—"].map(thousandths), [556.0, 667.0, 944.0, 1000.0]);
    }

    #[test]
    fn lines_are_no_wider_than_their_room() {
        let words = "Right over left, then the head down, then Aneverendingwordthatfitsnowhereatall once more";
        for room in [5.0, 20.0, 40.0, 400.0] {
            let lines = lines_of(words, Weight::Plain, 4.0, room);
            assert!(lines.iter().all(|l| width_of(l, Weight::Plain, 4.0) <= room), "{room}: {lines:?}");
            assert_eq!(lines.concat().replace(' ', ""), words.replace(' ', ""));
        }
    }
}
