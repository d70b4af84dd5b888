//! Documents as the worker answers: a file with its pages, or a page as a picture; how they are named.

use super::part::{Part, Refused};
use crate::json::Json;
use crate::print::Paper;

/// A document as the worker made it.
#[derive(Clone, Debug, PartialEq)]
pub struct PaperTold {
    /// Its title.
    pub title: String,
    /// Width and height of its pages, mm.
    pub pages: Vec<(f64, f64)>,
    /// The file.
    pub pdf: Vec<u8>,
}

/// A document as it will be.
#[derive(Clone, Debug, PartialEq)]
pub struct PreviewTold {
    /// Its title.
    pub title: String,
    /// Width and height of its pages, mm.
    pub pages: Vec<(f64, f64)>,
    /// A page as SVG text.
    pub svg: String,
}

/// The longest name of a file, in characters, without its ending.
const MAX_NAME: usize = 80;

/// Reads a document; the key, where the answer has one.
///
/// # Errors
/// The reason that the answer gives, or that it is none.
pub fn read_paper(answer: &str) -> Result<PaperTold, String> {
    read(answer, |ok| {
        let key = ok.maybe("key").filter(|key| !key.is_null());
        let ok = key.as_ref().unwrap_or(ok);
        let pdf = ok.member("pdf")?;
        let Some(bytes) = bytes_of(pdf.text()?) else { return pdf.refuse("is no file") };
        Ok(PaperTold { title: ok.member("title")?.text()?.to_owned(), pages: sizes(ok)?, pdf: bytes })
    })
}

/// Reads how a document will be.
///
/// # Errors
/// As [`read_paper`].
pub fn read_preview(answer: &str) -> Result<PreviewTold, String> {
    read(answer, |ok| {
        let (title, svg) = (ok.member("title")?.text()?.to_owned(), ok.member("svg")?.text()?.to_owned());
        Ok(PreviewTold { title, pages: sizes(ok)?, svg })
    })
}

fn read<T>(answer: &str, of: impl FnOnce(&Part<'_>) -> Result<T, Refused>) -> Result<T, String> {
    let unreadable = |says: String| format!("The answer can't be read: {says}.");
    let answer = Json::parse(answer).map_err(|_| unreadable("it is cut off".into()))?;
    if let Some(Json::Text(says)) = answer.get("error").and_then(|e| e.get("says")) {
        return Err(crate::words::capital(says));
    }
    let whole = Part::whole(&answer);
    whole.member("ok").and_then(|ok| of(&ok)).map_err(|(at, says)| unreadable(format!("{at} {says}")))
}

fn sizes(ok: &Part<'_>) -> Result<Vec<(f64, f64)>, Refused> {
    let size = |page: &Part<'_>| Ok((page.member("width_mm")?.number()?, page.member("height_mm")?.number()?));
    ok.member("pages")?.list()?.iter().map(size).collect()
}

/// The bytes of a text in base64 with padding (RFC 4648, section 4).
fn bytes_of(text: &str) -> Option<Vec<u8>> {
    let value = |sign: u8| match sign {
        b'A'..=b'Z' => Some(sign - b'A'),
        b'a'..=b'z' => Some(sign - b'a' + 26),
        b'0'..=b'9' => Some(sign - b'0' + 52),
        b'+' => Some(62),
        b'/' => Some(63),
        _ => None,
    };
    if !text.len().is_multiple_of(4) {
        return None;
    }
    let signs = text.trim_end_matches('=');
    if text.len() - signs.len() > 2 {
        return None;
    }
    let mut bytes = Vec::with_capacity(signs.len() / 4 * 3 + 2);
    let (mut held, mut bits) = (0u32, 0u32);
    for sign in signs.bytes() {
        held = (held << 6) | u32::from(value(sign)?);
        bits += 6;
        if bits >= 8 {
            bits -= 8;
            bytes.push((held >> bits) as u8);
        }
    }
    Some(bytes)
}

/// The name of the file of a document: its title, without what no file name may have.
#[must_use]
pub fn paper_name(title: &str) -> String {
    let plain =
        |c: char| if c.is_alphanumeric() || matches!(c, ' ' | '-' | '_' | ',' | '\'' | '’') { c } else { ' ' };
    let mut name = String::new();
    for c in title.chars().map(plain).take(MAX_NAME) {
        if c != ' ' || !name.ends_with(' ') {
            name.push(c);
        }
    }
    let name = name.trim_matches([' ', '-', '_']);
    format!("{}.pdf", if name.is_empty() { "document" } else { name })
}

/// How many pages, and on what: "2 pages, A4".
#[must_use]
pub fn pages_say(pages: &[(f64, f64)]) -> String {
    let many = if pages.len() == 1 { "1 page".to_owned() } else { format!("{} pages", pages.len()) };
    let first = pages.first().copied().unwrap_or_default();
    let same = |p: &Paper| {
        let (w, h) = p.size_mm();
        (w - first.0).abs() < 0.05 && (h - first.1).abs() < 0.05
    };
    Paper::ALL.iter().find(|p| same(p)).map_or_else(|| many.clone(), |p| format!("{many}, {}", p.name()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_no_document_is_refused_in_words() {
        assert!(read_paper("{\"ok\"").unwrap_err().contains("cut off"));
        assert!(read_paper(r#"{"ok": {"title": "x", "pages": [], "pdf": "a"}}"#).unwrap_err().contains("pdf"));
    }

    #[test]
    fn the_examples_of_the_standard() {
        // RFC 4648, section 10.
        for (text, bytes) in [("", ""), ("Zg==", "f"), ("Zm8=", "fo"), ("Zm9v", "foo"), ("Zm9vYmFy", "foobar")] {
            assert_eq!(bytes_of(text).as_deref(), Some(bytes.as_bytes()), "{text}");
        }
        for bad in ["Z", "Zg", "Zg=", "====", "Zm9?", "Zm9v\n"] {
            assert_eq!(bytes_of(bad), None, "{bad}");
        }
    }

    #[test]
    fn files_are_named_after_their_titles() {
        assert_eq!(paper_name("Fault cards: Sixteen, three folds"), "Fault cards Sixteen, three folds.pdf");
        assert_eq!(paper_name("../a/b\\c?"), "a b c.pdf");
        assert_eq!(paper_name(""), "document.pdf");
        assert_eq!(pages_say(&[(210.0, 297.0), (210.0, 297.0)]), "2 pages, A4");
        assert_eq!(pages_say(&[(1.0, 2.0)]), "1 page");
    }
}
