//! Lengths as people type them.

/// A decimal number as it is typed: digits, and after a point or a comma up to three more.
///
/// Written by hand since the general parser of the standard library brings a table of powers that weighs a twentieth of
/// the page.
#[must_use]
pub fn parse_mm(text: &str) -> Option<f64> {
    let (whole, decimals) = text.split_once(['.', ',']).unwrap_or((text, ""));
    if whole.len() > 7 || decimals.len() > 3 || (whole.is_empty() && decimals.is_empty()) {
        return None;
    }
    let digits = |s: &str| s.bytes().all(|b| b.is_ascii_digit()).then_some(());
    digits(whole)?;
    digits(decimals)?;
    let scale = 10_u32.pow(decimals.len() as u32);
    let number = |s: &str| s.bytes().fold(0_u32, |n, b| 10 * n + u32::from(b - b'0'));
    Some(f64::from(number(whole)) + f64::from(number(decimals)) / f64::from(scale))
}

#[cfg(test)]
mod tests {
    use super::parse_mm;

    #[test]
    fn lengths_as_people_type_them() {
        assert_eq!(parse_mm("216"), Some(216.0));
        assert_eq!(parse_mm("36.2"), Some(36.2));
        assert_eq!(parse_mm("0,5"), Some(0.5));
        assert_eq!(parse_mm(".25"), Some(0.25));
        for bad in ["", ".", "1.2.3", "-4", "1e5", "12a", "99999999", "1.2345", "é"] {
            assert_eq!(parse_mm(bad), None, "{bad}");
        }
    }
}
