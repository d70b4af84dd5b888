//! The typeface of the figures: Besley, weight 600, cut down to figures and a few letters as on the screen.
//!
//! `type/folio.ttf` is `www/folio.woff2` unpacked with fontTools, without its layout tables; `type/README.md` says how. The
//! font's licence is in `www/OFL-Besley.txt`. It is embedded whole, since a cut of ten figures would save two thousand
//! bytes and cost a second cutter.

/// The font file.
pub(super) const FILE: &[u8] = include_bytes!("type/folio.ttf");
/// What its numbers are counted in: thousandths of the size times two.
const UNITS: f64 = 2000.0;
/// Bounding box of all letters, ascent, descent and height of a capital, thousandths of the size.
pub(super) const BOX: [f32; 4] = [-118.0, -271.0, 1243.5, 1035.0];
/// How far it goes up.
pub(super) const ASCENT: f32 = 1250.0;
/// How far it goes down.
pub(super) const DESCENT: f32 = -425.0;
/// How high a figure is.
pub(super) const CAP_HEIGHT: f32 = 750.0;

/// The letters that there are, and their widths in units of the file.
const LETTERS: [(char, u16); 39] = [
    (' ', 600),
    (',', 566),
    ('-', 920),
    ('.', 521),
    ('0', 1235),
    ('1', 1095),
    ('2', 1225),
    ('3', 1112),
    ('4', 1149),
    ('5', 1111),
    ('6', 1169),
    ('7', 1094),
    ('8', 1129),
    ('9', 1169),
    ('?', 1121),
    ('A', 1774),
    ('B', 1556),
    ('C', 1645),
    ('F', 1499),
    ('G', 1785),
    ('J', 1253),
    ('T', 1571),
    ('_', 1120),
    ('a', 1197),
    ('b', 1338),
    ('c', 1135),
    ('d', 1338),
    ('e', 1143),
    ('h', 1372),
    ('k', 1325),
    ('l', 698),
    ('m', 1944),
    ('o', 1184),
    ('r', 1067),
    ('s', 1051),
    ('t', 787),
    ('x', 1248),
    ('°', 639),
    ('–', 1432),
];

/// The width of a letter for type of size 1; `None` where the cut does not have it.
pub(super) fn width(letter: char) -> Option<f64> {
    LETTERS.iter().find(|(c, _)| *c == letter).map(|(_, w)| f64::from(*w) / UNITS)
}

/// The code of a letter, as in WinAnsiEncoding.
pub(super) const fn code(letter: char) -> u8 {
    match letter {
        '–' => 0x96,
        '°' => 0xB0,
        // All others are ASCII.
        other => other as u8,
    }
}

/// The letters and their codes, by code.
pub(super) fn codes() -> Vec<(u8, char)> {
    let mut all: Vec<(u8, char)> = LETTERS.iter().map(|(c, _)| (code(*c), *c)).collect();
    all.sort_unstable();
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A table of a TrueType file: its tag, and where it begins (OpenType specification, "Table Directory").
    fn table(tag: &[u8; 4]) -> &'static [u8] {
        let long = |at: usize| u32::from_be_bytes(FILE[at..at + 4].try_into().unwrap()) as usize;
        let count = usize::from(u16::from_be_bytes(FILE[4..6].try_into().unwrap()));
        let at = (0..count).map(|i| 12 + 16 * i).find(|at| &FILE[*at..*at + 4] == tag).unwrap();
        &FILE[long(at + 8)..][..long(at + 12)]
    }

    #[test]
    fn widths_are_those_of_the_file() {
        let short = |bytes: &[u8], at: usize| u16::from_be_bytes(bytes[at..at + 2].try_into().unwrap());
        assert_eq!(f64::from(short(table(b"head"), 18)), UNITS);
        let metrics = table(b"hmtx");
        let count = usize::from(short(table(b"hhea"), 34));
        let mut file: Vec<u16> = (0..count).map(|i| short(metrics, 4 * i)).collect();
        file.sort_unstable();
        // Every letter's width is in the file, and ten figures are ten of them.
        assert!(LETTERS.iter().all(|(_, w)| file.binary_search(w).is_ok()), "{file:?}");
        assert_eq!(LETTERS.iter().filter(|(c, _)| c.is_ascii_digit()).count(), 10);
    }
}
