//! Lengths as people type and read them: millimetres, centimetres, and inches with their fractions.

use super::length::Length;
use thiserror::Error;

/// What a bare number is counted in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Unit {
    /// Millimetres.
    #[default]
    Mm,
    /// Inches.
    Inch,
}

/// The longest length that is read: no press takes a sheet of 5 m (a bound on numbers, not on paper).
pub const LONGEST: Length = Length::from_whole_mm(5_000);

/// Why a length can't be read.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
pub enum NotALength {
    /// Nothing, or no number.
    #[error("a length is a number, as in 216, 107.5 mm, 8 1/2 in or 3/16 in")]
    NoNumber,
    /// More decimals than are kept.
    #[error("a length is read to the nanometre: at most six decimals of a millimetre")]
    TooFine,
    /// Longer than anything here.
    #[error("a length is at most 5 m")]
    TooLong,
}

impl Length {
    /// Reads a length: `216`, `107,5 mm`, `12.7 cm`, `45 in`, `45"`, `8 1/2 in`, `3/16"`. `unit` is that of a bare
    /// number.
    ///
    /// # Errors
    /// When it is no length, finer than a nanometre or longer than [`LONGEST`].
    pub fn parse(text: &str, unit: Unit) -> Result<Self, NotALength> {
        let text = text.trim();
        let cut = |end: &str| text.strip_suffix(end).map(str::trim_end);
        let inches =
            cut("inches").or_else(|| cut("inch")).or_else(|| cut("in")).or_else(|| cut("\"")).or_else(|| cut("″"));
        let (number, nm) = match (cut("mm"), cut("cm"), inches, unit) {
            (Some(n), ..) => (n, Self::MM.nm()),
            (None, Some(n), ..) => (n, 10 * Self::MM.nm()),
            (None, None, Some(n), _) => (n, Self::INCH.nm()),
            (None, None, None, Unit::Mm) => (text, Self::MM.nm()),
            (None, None, None, Unit::Inch) => (text, Self::INCH.nm()),
        };
        let length = read_number(number, nm)?;
        if length > LONGEST { Err(NotALength::TooLong) } else { Ok(length) }
    }

    /// Millimetres for people: at most three decimals, without needless noughts: `107.5`.
    #[must_use]
    pub fn short_mm(self) -> String {
        let um = (self.nm().abs() + 500) / 1_000;
        let sign = if self.nm() < 0 && um > 0 { "-" } else { "" };
        decimal(sign, um.unsigned_abs() / 1_000, um.unsigned_abs() % 1_000, 3)
    }

    /// The same with its unit: `107.5 mm`.
    #[must_use]
    pub fn text(self) -> String {
        self.short_mm() + " mm"
    }

    /// Every nanometre: `107.5 mm`, as files keep it. [`Length::parse`] reads it back.
    #[must_use]
    pub fn exact_text(self) -> String {
        let nm = self.nm().unsigned_abs();
        let sign = if self.nm() < 0 { "-" } else { "" };
        decimal(sign, nm / 1_000_000, nm % 1_000_000, 6) + " mm"
    }

    /// In inches: `8 1/2 in` where it is whole 64ths, else to three decimals.
    #[must_use]
    pub fn inches_text(self) -> String {
        let inch = Self::INCH.nm();
        let (nm, sign) = (self.nm().unsigned_abs(), if self.nm() < 0 { "-" } else { "" });
        let inch = inch.unsigned_abs();
        if (nm * 64).is_multiple_of(inch) {
            let (whole, mut part, mut of) = (nm / inch, nm % inch * 64 / inch, 64);
            while part > 0 && part.is_multiple_of(2) {
                (part, of) = (part / 2, of / 2);
            }
            return match (whole, part) {
                (whole, 0) => format!("{sign}{whole} in"),
                (0, part) => format!("{sign}{part}/{of} in"),
                (whole, part) => format!("{sign}{whole} {part}/{of} in"),
            };
        }
        let thousandths = (nm * 1_000 + inch / 2) / inch;
        decimal(sign, thousandths / 1_000, thousandths % 1_000, 3) + " in"
    }
}

/// A decimal number with so many places at the most, without needless noughts.
fn decimal(sign: &str, whole: u64, rest: u64, places: usize) -> String {
    let rest = rest.to_string();
    let rest = "0".repeat(places.saturating_sub(rest.len())) + &rest;
    let rest = rest.trim_end_matches('0');
    if rest.is_empty() { format!("{sign}{whole}") } else { format!("{sign}{whole}.{rest}") }
}

/// A whole number, a decimal one, a fraction, or a whole number and a fraction, in units of so many nanometres.
fn read_number(text: &str, nm: i64) -> Result<Length, NotALength> {
    let (whole, fraction) = match text.split_once('/') {
        None => return read_decimal(text, nm),
        Some((before, of)) => {
            let (whole, part) = before.trim_end().rsplit_once(' ').unwrap_or(("", before.trim_end()));
            (whole.trim(), (digits(part)?, digits(of.trim())?))
        }
    };
    let whole = if whole.is_empty() { 0 } else { digits(whole)? };
    let (part, of) = fraction;
    if of == 0 || of > 1_000 {
        return Err(NotALength::NoNumber);
    }
    if (part * nm) % of != 0 {
        return Err(NotALength::TooFine);
    }
    Ok(Length::from_nm(whole * nm + part * nm / of))
}

fn read_decimal(text: &str, nm: i64) -> Result<Length, NotALength> {
    let (whole, decimals) = text.split_once(['.', ',']).unwrap_or((text, ""));
    if whole.is_empty() && decimals.is_empty() {
        return Err(NotALength::NoNumber);
    }
    let whole = if whole.is_empty() { 0 } else { digits(whole)? };
    let decimals = decimals.trim_end_matches('0');
    if decimals.len() > 8 {
        return Err(NotALength::TooFine);
    }
    let scale = 10_i64.pow(decimals.len() as u32);
    let part = if decimals.is_empty() { 0 } else { digits(decimals)? } * nm;
    if part % scale != 0 {
        return Err(NotALength::TooFine);
    }
    Ok(Length::from_nm(whole * nm + part / scale))
}

/// A number of at most eight digits.
fn digits(text: &str) -> Result<i64, NotALength> {
    if text.is_empty() || !text.bytes().all(|b| b.is_ascii_digit()) {
        return Err(NotALength::NoNumber);
    }
    if text.len() > 8 {
        return Err(NotALength::TooLong);
    }
    Ok(text.bytes().fold(0, |n, b| 10 * n + i64::from(b - b'0')))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn nm(text: &str) -> Option<i64> {
        Length::parse(text, Unit::Mm).ok().map(Length::nm)
    }

    #[test]
    fn as_people_type_them() {
        assert_eq!(nm("216"), Some(216_000_000));
        assert_eq!(nm(" 107,5 mm "), Some(107_500_000));
        assert_eq!(nm("12.7cm"), Some(127_000_000));
        assert_eq!(nm("45 in"), Some(1_143_000_000));
        assert_eq!(nm("45\""), Some(1_143_000_000));
        assert_eq!(nm("8 1/2 inches"), Some(215_900_000));
        assert_eq!(nm("3/16\""), Some(4_762_500));
        assert_eq!(nm("1/64 in"), Some(396_875));
        assert_eq!(nm(".25 in"), Some(6_350_000));
        assert_eq!(Length::parse("8 1/2", Unit::Inch).map(Length::nm), Ok(215_900_000));
    }

    #[test]
    fn what_is_no_length_says_why() {
        for bad in ["", "mm", "-4", "1e5", "1.2.3", "1/0", "a/2", "1 2/", "٣", "½ in", "/", ".", "1/2/3"] {
            assert_eq!(Length::parse(bad, Unit::Mm), Err(NotALength::NoNumber), "{bad}");
        }
        assert_eq!(Length::parse("1/3", Unit::Mm), Err(NotALength::TooFine));
        assert_eq!(Length::parse("0.1234567", Unit::Mm), Err(NotALength::TooFine));
        assert_eq!(Length::parse("5000.1", Unit::Mm), Err(NotALength::TooLong));
        assert_eq!(Length::parse("99999999999", Unit::Mm), Err(NotALength::TooLong));
    }

    #[test]
    fn as_people_read_them() {
        let inches = |text| Length::parse(text, Unit::Inch).unwrap();
        assert_eq!(inches("45 1/2").inches_text(), "45 1/2 in");
        assert_eq!(inches("3/16").inches_text(), "3/16 in");
        assert_eq!(inches("20").inches_text(), "20 in");
        assert_eq!(Length::from_whole_mm(100).inches_text(), "3.937 in");
        assert_eq!(inches("3/16").text(), "4.763 mm");
        assert_eq!(Length::from_nm(-107_500_000).text(), "-107.5 mm");
        assert_eq!(Length::from_nm(-400).text(), "0 mm");
    }

    proptest! {
        #[test]
        fn what_is_written_reads_back(nm in 0..5_000_000_000_i64) {
            let length = Length::from_nm(nm);
            prop_assert_eq!(Length::parse(&length.exact_text(), Unit::Inch), Ok(length));
        }

        #[test]
        fn no_text_panics(text in ".{0,24}") {
            let _ = Length::parse(&text, Unit::Inch);
        }
    }
}
