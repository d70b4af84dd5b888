//! Numbers as text, and text as numbers. Written by hand since the general printer and parser of the standard library
//! bring tables that weigh a tenth of the page.

/// A number with at most two decimals, the same on every machine. What is no number prints as 0.
#[must_use]
pub fn short(v: f64) -> String {
    let hundredths = (v * 100.0).round();
    if !hundredths.is_finite() || hundredths.abs() > 1e12 {
        return "0".into();
    }
    let n = hundredths as i64;
    let (sign, n) = (if n < 0 { "-" } else { "" }, n.unsigned_abs());
    match (n / 100, n % 100) {
        (whole, 0) => format!("{sign}{whole}"),
        (whole, rest) if rest % 10 == 0 => format!("{sign}{whole}.{}", rest / 10),
        (whole, rest) => format!("{sign}{whole}.{rest:02}"),
    }
}

/// The nearest number from `low` to `high`; `low` for what is no number.
///
/// In place of the standard library's way, which panics where `low` is above `high` and prints both: that brings the
/// printer of floats into the page.
#[must_use]
#[allow(clippy::manual_clamp, reason = "that is what this is for")]
pub const fn between(v: f64, low: f64, high: f64) -> f64 {
    v.max(low).min(high)
}

/// A length in mm to a tenth, as a rule shows it.
#[must_use]
pub fn mm(v: f64) -> String {
    short((v * 10.0).round() / 10.0)
}

/// A decimal number as it is typed: digits, and after a point or a comma up to two more.
#[must_use]
pub fn parse_decimal(text: &str) -> Option<f64> {
    let (whole, decimals) = text.split_once(['.', ',']).unwrap_or((text, ""));
    if whole.len() > 7 || decimals.len() > 2 || (whole.is_empty() && decimals.is_empty()) {
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
    use super::*;

    #[test]
    fn numbers_are_short() {
        let all = [0.0, 1.0, -2.5, 2.456, -0.001, f64::NAN].map(short);
        assert_eq!(all, ["0", "1", "-2.5", "2.46", "0", "0"]);
        assert_eq!(mm(36.249), "36.2");
    }

    #[test]
    fn lengths_as_people_type_them() {
        assert_eq!(parse_decimal("216"), Some(216.0));
        assert_eq!(parse_decimal("36.2"), Some(36.2));
        assert_eq!(parse_decimal("0,5"), Some(0.5));
        assert_eq!(parse_decimal(".25"), Some(0.25));
        for bad in ["", ".", "1.2.3", "-4", "1e5", "12a", "99999999", "1.234", "é"] {
            assert_eq!(parse_decimal(bad), None, "{bad}");
        }
    }
}
