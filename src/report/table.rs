//! The sheet as comma-separated values, for a spreadsheet.

use super::{Row, Sheet};

/// The sheet as a table: RFC 4180 (Shafranovich, 2005), section 2: lines end in CR LF, a field with a comma, a quotation mark
/// or a line break stands in quotation marks, and a quotation mark in it is doubled.
///
/// A spreadsheet takes a field that begins with `=`, `+`, `-` or `@` for a formula and may carry it out. So a text that does
/// gets an apostrophe before it (OWASP, "CSV Injection"). Counter numbers and counts are numbers without commas.
#[must_use]
pub fn csv(sheet: &Sheet) -> String {
    let mut out = String::new();
    write(&mut out, &["Field", "Value", "From", "To", "Books"].map(str::to_owned));
    write(&mut out, &[text("Sheet"), text(&sheet.heading), String::new(), String::new(), String::new()]);
    for Row { label, value, books, count, short: _ } in &sheet.rows {
        let number = |n: Option<u32>| n.map_or_else(String::new, |n| n.to_string());
        let (from, to) = (number(books.map(|b| b.from)), number(books.map(|b| b.to)));
        write(&mut out, &[text(label), text(value), from, to, number(*count)]);
    }
    for role in &sheet.sign {
        write(&mut out, &[text("Signed"), text(role), String::new(), String::new(), String::new()]);
    }
    out
}

/// A text that no spreadsheet takes for a formula.
fn text(text: &str) -> String {
    let begins = text.trim_start().chars().next();
    // Tabs and line breaks before it would be skipped; a sign as wide as a letter of Chinese is read like a narrow one.
    let formula = begins.is_some_and(|c| matches!(c, '=' | '+' | '-' | '@' | '＝' | '＋' | '－' | '＠'));
    let blank = text.starts_with(['\t', '\r', '\n']);
    if formula || blank { format!("'{text}") } else { text.to_owned() }
}

fn write(out: &mut String, fields: &[String; 5]) {
    for (i, field) in fields.iter().enumerate() {
        if i > 0 {
            out.push(',');
        }
        if field.contains([',', '"', '\r', '\n']) {
            out.push('"');
            out.push_str(&field.replace('"', "\"\""));
            out.push('"');
        } else {
            out.push_str(field);
        }
    }
    out.push_str("\r\n");
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

    #[test]
    fn fields_are_quoted_where_they_must_be() {
        let rows = vec![Row { label: "Cause".into(), value: "a, \"b\"".into(), ..Row::default() }];
        let table = csv(&Sheet { heading: "H".into(), rows, sign: vec!["Me".into()] });
        assert_eq!(table, "Field,Value,From,To,Books\r\nSheet,H,,,\r\nCause,\"a, \"\"b\"\"\",,,\r\nSigned,Me,,,\r\n");
    }
}
