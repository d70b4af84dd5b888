//! A document as an answer: its file in base64, and the sizes of its pages.

use crate::link::six_bits;
use crate::print::{Document, Page, pdf};
use serde::Serialize;

/// The answer.
#[derive(Serialize)]
pub(super) struct File {
    title: String,
    pages: Vec<Size>,
    pdf: String,
}

/// The size of a page.
#[derive(Serialize)]
pub(super) struct Size {
    width_mm: f64,
    height_mm: f64,
}

impl Size {
    pub(super) const fn of(page: &Page) -> Self {
        Self { width_mm: page.width_mm, height_mm: page.height_mm }
    }
}

impl File {
    pub(super) fn of(document: &Document) -> Self {
        let pages = document.pages.iter().map(Size::of).collect();
        Self { title: document.title.clone(), pages, pdf: base64(&pdf(document)) }
    }
}

/// Base64 with padding, RFC 4648, section 4.
fn base64(bytes: &[u8]) -> String {
    const SIGNS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let sign = |value: u8| char::from(SIGNS.get(usize::from(value)).copied().unwrap_or(b'='));
    let signs = six_bits(bytes);
    let padding = (4 - signs.len() % 4) % 4;
    signs.into_iter().map(sign).chain(std::iter::repeat_n('=', padding)).collect()
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
