//! Refusals: where in the request something is wrong, and what, in plain words.
//!
//! The reader of JSON speaks of types ("invalid type: floating point `1.5`, expected u32"). Whoever wrote the request
//! thinks of lists, words and whole numbers, so its sentences are put into those words here.

use super::MAX_LINE;
use crate::fold::FoldError;
use serde::Serialize;

/// Why a request is refused.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub(super) struct Refusal {
    /// The path into the request, lists counted from 0; empty for the line as a whole.
    at: String,
    /// What is wrong there.
    says: String,
}

impl Refusal {
    pub(super) fn new(at: impl Into<String>, says: impl Into<String>) -> Self {
        Self { at: at.into(), says: says.into() }
    }

    /// The same refusal inside something that stands at a path.
    pub(super) fn under(self, path: &str) -> Self {
        let dot = if self.at.is_empty() || self.at.starts_with('[') { "" } else { "." };
        Self { at: format!("{path}{dot}{}", self.at), ..self }
    }

    pub(super) fn too_long() -> Self {
        Self::new("", format!("this line is too long; a request may be {MAX_LINE} bytes at the most"))
    }

    pub(super) fn unknown_request<'a>(ask: &str, served: impl Iterator<Item = &'a str>) -> Self {
        let served = served.collect::<Vec<_>>().join(", ");
        Self::new("ask", format!("{} is no request; the requests are {served}", quoted(ask)))
    }

    /// A scheme that can't be folded or read.
    pub(super) fn fold(scheme_at: &str, why: &FoldError) -> Self {
        Self::new(format!("{scheme_at}.{}", why.place().path()), why.to_string())
    }

    /// A request of the wrong shape.
    pub(super) fn shape(why: &serde_path_to_error::Error<serde_json::Error>) -> Self {
        let path = why.path().to_string();
        let path = if path == "." { "" } else { path.as_str() };
        let message = why.inner().to_string();
        if let Some(field) = message.strip_prefix("missing field `").and_then(|m| m.strip_suffix('`')) {
            let at = if path.is_empty() { field.to_owned() } else { format!("{path}.{field}") };
            return Self::new(at, "this field is missing");
        }
        if let Some((field, _)) = named(&message, "unknown field `") {
            // Where one object may have different fields, its fields are only known once all of it is read.
            if !path.is_empty() && path != field && !path.ends_with(&format!(".{field}")) {
                return Self::new(format!("{path}.{field}"), plain(&message));
            }
        }
        Self::new(path, plain(&message))
    }
}

/// Marks and books name the place as a path into the request already.
impl From<crate::marks::Refusal> for Refusal {
    fn from(refused: crate::marks::Refusal) -> Self {
        Self::new(refused.at, refused.says)
    }
}

/// A text of the request in quotation marks, cut where it is long.
fn quoted(text: &str) -> String {
    const LONGEST: usize = 40;
    match text.char_indices().nth(LONGEST) {
        Some((end, _)) => format!("\"{}…\"", text.get(..end).unwrap_or_default()),
        None => format!("\"{text}\""),
    }
}

/// The reader's sentence in plain words; one that is not known here stays as it is.
fn plain(message: &str) -> String {
    if let Some((field, known)) = named(message, "unknown field `") {
        return match known {
            "there are no fields" => format!("{} is no field; nothing else is asked here", quoted(field)),
            known => format!("{} is no field here; the fields are {}", quoted(field), list(known)),
        };
    }
    if let Some((word, known)) = named(message, "unknown variant `") {
        return format!("this is {}, and may be {}", quoted(word), list(known));
    }
    if let Some((items, _)) = message.strip_prefix("invalid length ").and_then(|m| m.split_once(", expected ")) {
        return format!("this list has {items} in it, which is too many or too few");
    }
    let wrong = message.strip_prefix("invalid type: ").or_else(|| message.strip_prefix("invalid value: "));
    match wrong.and_then(|w| w.rsplit_once(", expected ")) {
        Some((found, expected)) => format!("this should be {}, not {}", wanted(expected), given(found)),
        None => message.to_owned(),
    }
}

/// Splits "unknown field `x`, expected …" into `x` and what was expected.
fn named<'a>(message: &'a str, start: &str) -> Option<(&'a str, &'a str)> {
    let rest = message.strip_prefix(start)?;
    let (name, rest) = rest.rsplit_once("`, ").filter(|(_, rest)| *rest == "there are no fields").or_else(|| {
        let (name, rest) = rest.split_once("`, expected ")?;
        Some((name, rest.strip_prefix("one of ").unwrap_or(rest)))
    })?;
    Some((name, rest))
}

fn list(known: &str) -> String {
    known.replace('`', "")
}

fn wanted(expected: &str) -> &str {
    match expected {
        "u32" => "a whole number from 0 to 4294967295",
        "u8" => "a whole number from 0 to 255",
        "i32" | "i64" => "a whole number",
        "f32" | "f64" => "a number",
        "a sequence" => "a list",
        "a string" | "string or map" => "a word in quotation marks",
        "a map" => "an object",
        "a boolean" => "true or false",
        other if other.starts_with("variant") || other.starts_with("enum") => "a word in quotation marks",
        other if other.starts_with("struct") => "an object",
        other => other,
    }
}

fn given(found: &str) -> String {
    let inside = |kind: &str| found.strip_prefix(kind)?.strip_prefix(" `")?.strip_suffix('`');
    if let Some(value) = ["integer", "floating point", "boolean"].into_iter().find_map(inside) {
        return value.to_owned();
    }
    match found.strip_prefix("string \"").and_then(|f| f.strip_suffix('"')) {
        Some(text) => format!("the text {}", quoted(text)),
        None => match found {
            "map" => "an object".into(),
            "sequence" => "a list".into(),
            other => other.into(),
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_readers_sentences_become_plain() {
        for (message, says) in [
            (
                "invalid type: floating point `1.5`, expected u32",
                "this should be a whole number from 0 to 4294967295, not 1.5",
            ),
            ("invalid value: integer `-1`, expected u32", "this should be a whole number from 0 to 4294967295, not -1"),
            ("invalid type: map, expected a sequence", "this should be a list, not an object"),
            (
                "invalid type: string \"2, expected 3\", expected u32",
                "this should be a whole number from 0 to 4294967295, not the text \"2, expected 3\"",
            ),
            ("unknown variant `up`, expected `top` or `bottom`", "this is \"up\", and may be top or bottom"),
            (
                "unknown field `slit`, expected one of `crease`, `after`",
                "\"slit\" is no field here; the fields are crease, after",
            ),
            ("invalid length 1, expected an array of length 2", "this list has 1 in it, which is too many or too few"),
            ("something else", "something else"),
        ] {
            assert_eq!(plain(message), says);
        }
    }

    #[test]
    fn a_long_text_is_cut_between_characters() {
        assert_eq!(quoted(&"é".repeat(50)), format!("\"{}…\"", "é".repeat(40)));
    }
}
