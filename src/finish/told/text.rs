//! Lengths and lists as they stand in sentences.

use crate::paper::Length;

/// Millimetres, to the micrometre: "123", "0.117".
pub(super) fn fine(length: Length) -> String {
    let um = length.nm().saturating_add(500).div_euclid(1_000);
    let (sign, um) = (if um < 0 { "-" } else { "" }, um.unsigned_abs());
    let (whole, rest) = (um / 1_000, um % 1_000);
    if rest == 0 {
        return format!("{sign}{whole}");
    }
    let decimals = format!("{rest:03}");
    format!("{sign}{whole}.{}", decimals.trim_end_matches('0'))
}

/// Millimetres to a hundredth: "1.1".
pub(super) fn mm(length: Length) -> String {
    crate::units::short(length.mm())
}

/// "a leaf", "3 leaves".
pub(super) fn count(n: usize, one: &str, more: &str) -> String {
    if n == 1 { format!("1 {one}") } else { format!("{n} {more}") }
}

/// The most that a sentence names one by one.
const NAMED: usize = 6;

/// Things in a row: "1, 2 and 3"; of many the first ones, and how many more.
pub(super) fn list(all: &[String]) -> String {
    crate::words::list_of(all, NAMED, NAMED - 1)
}

/// "leaf 3 (pages 5 and 6)".
pub(super) fn leaf(number: u32) -> String {
    format!("leaf {number} (pages {} and {})", 2 * number - 1, 2 * number)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_and_lists() {
        let um = Length::from_um;
        assert_eq!([um(123_000), um(117), um(100), um(-1_500)].map(fine), ["123", "0.117", "0.1", "-1.5"]);
        let names = |n: u32| list(&(1..=n).map(|i| i.to_string()).collect::<Vec<_>>());
        assert_eq!([names(1), names(3), names(8)], ["1", "1, 2 and 3", "1, 2, 3, 4, 5 and 3 more"]);
    }
}
