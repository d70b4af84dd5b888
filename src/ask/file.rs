//! A document as an answer: its file in base64, and the sizes of its pages.

use crate::print::{Document, pdf};
use serde::Serialize;

/// The answer.
#[derive(Serialize)]
pub(super) struct File {
    title: String,
    pages: Vec<Size>,
    pdf: String,
}

#[derive(Serialize)]
struct Size {
    width_mm: f64,
    height_mm: f64,
}

impl File {
    pub(super) fn of(document: &Document) -> Self {
        let pages = document.pages.iter().map(|p| Size { width_mm: p.width_mm, height_mm: p.height_mm }).collect();
        Self { title: document.title.clone(), pages, pdf: base64(&pdf(document)) }
    }
}

/// Base64 with padding, RFC 4648, section 4.
fn base64(bytes: &[u8]) -> String {
    const SIGNS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let mut text = String::with_capacity(bytes.len().div_ceil(3) * 4);
    for three in bytes.chunks(3) {
        let at = |i: usize| u32::from(three.get(i).copied().unwrap_or(0));
        let bits = at(0) << 16 | at(1) << 8 | at(2);
        for i in 0..4 {
            let sign = SIGNS.get((bits >> (18 - 6 * i)) as usize & 63).copied().unwrap_or(b'=');
            text.push(if i <= three.len() { char::from(sign) } else { '=' });
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::base64;

    #[test]
    fn the_examples_of_the_standard() {
        // RFC 4648, section 10.
        let all = ["", "f", "fo", "foo", "foob", "fooba", "foobar"].map(|t| base64(t.as_bytes()));
        assert_eq!(all, ["", "Zg==", "Zm8=", "Zm9v", "Zm9vYg==", "Zm9vYmE=", "Zm9vYmFy"]);
    }
}
