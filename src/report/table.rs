//! The sheet as comma-separated values, for a spreadsheet.

use super::{Row, Sheet};
use crate::csv::line;

/// The sheet as a table. Counter numbers and counts are numbers without commas.
#[must_use]
pub fn csv(sheet: &Sheet) -> String {
    let mut out = String::new();
    line(&mut out, &["Field", "Value", "From", "To", "Books"].map(str::to_owned));
    line(&mut out, &["Sheet".into(), sheet.heading.clone(), String::new(), String::new(), String::new()]);
    for Row { label, value, books, count, short: _ } in &sheet.rows {
        let number = |n: Option<u32>| n.map_or_else(String::new, |n| n.to_string());
        let (from, to) = (number(books.map(|b| b.from)), number(books.map(|b| b.to)));
        line(&mut out, &[label.clone(), value.clone(), from, to, number(*count)]);
    }
    for role in &sheet.sign {
        line(&mut out, &["Signed".into(), role.clone(), String::new(), String::new(), String::new()]);
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fields_are_quoted_where_they_must_be() {
        let rows = vec![Row { label: "Cause".into(), value: "a, \"b\"".into(), ..Row::default() }];
        let table = csv(&Sheet { heading: "H".into(), rows, sign: vec!["Me".into()] });
        assert_eq!(table, "Field,Value,From,To,Books\r\nSheet,H,,,\r\nCause,\"a, \"\"b\"\"\",,,\r\nSigned,Me,,,\r\n");
    }
}
