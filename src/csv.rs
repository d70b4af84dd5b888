//! Tables as comma-separated values, for a spreadsheet.

/// Adds a line: RFC 4180 (Shafranovich, 2005), section 2: it ends in CR LF, a field with a comma, a quotation mark or a line
/// break stands in quotation marks, and a quotation mark in it is doubled.
///
/// A spreadsheet takes a field that begins with `=`, `+`, `-` or `@` for a formula and may carry it out. So a text that does
/// gets an apostrophe before it (OWASP, "CSV Injection").
pub fn line(out: &mut String, fields: &[String]) {
    for (i, field) in fields.iter().enumerate() {
        if i > 0 {
            out.push(',');
        }
        let field = text(field);
        if field.contains([',', '"', '\r', '\n']) {
            out.push('"');
            out.push_str(&field.replace('"', "\"\""));
            out.push('"');
        } else {
            out.push_str(&field);
        }
    }
    out.push_str("\r\n");
}

/// A text that no spreadsheet takes for a formula.
fn text(text: &str) -> String {
    let begins = text.trim_start().chars().next();
    // Tabs and line breaks before it would be skipped; a sign as wide as a letter of Chinese is read like a narrow one.
    let formula = begins.is_some_and(|c| matches!(c, '=' | '+' | '-' | '@' | '＝' | '＋' | '－' | '＠'));
    let blank = text.starts_with(['\t', '\r', '\n']);
    if formula || blank { format!("'{text}") } else { text.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_formula_is_a_text() {
        let bad = ["=1+1", "+1", "-1", "@SUM(A1)", " =1", "\t=1", "＝1", "\rx"];
        assert!(bad.iter().all(|b| text(b) == format!("'{b}")));
        let good = ["", "1 − 1", "a=b", "F-16", "'tis"];
        assert!(good.iter().all(|g| text(g) == *g));
    }
}
