//! A number or a title printed on the back, beside the bar.

use serde::{Deserialize, Serialize};

use super::Refusal;
use crate::units::mm;

/// The longest short title, in characters. A bound of this program.
pub const MOST_LETTERS: usize = 40;

/// The width of a letter or figure as a share of its size, about that of a sans-serif (from memory).
const LETTER: f64 = 0.6;

/// The largest letters in mm. A bound of this program.
const LARGEST_MM: f64 = 20.0;

/// What is printed on every back beside its bar: many Japanese books carry number and title beside the stepped block
/// (seibundo.jp, on *sechō* and *sehyō*).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Label {
    /// Whether the number of the section is printed.
    pub number: bool,
    /// Whether the number of sections of the book stands behind it, as in 3/24.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub of_how_many: bool,
    /// The short title of the book, with its edition; empty where none is printed.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub title: String,
    /// Where it begins, in mm from the head. It is read along the spine, from the head down.
    pub from_mm: f64,
    /// The size of its letters, in mm.
    pub size_mm: f64,
}

impl Label {
    /// The text on the back of a section.
    #[must_use]
    pub fn text(&self, section: u32, sections: u32) -> String {
        let number = match (self.number, self.of_how_many) {
            (false, _) => String::new(),
            (true, false) => section.to_string(),
            (true, true) => format!("{section}/{sections}"),
        };
        match (number.is_empty(), self.title.is_empty()) {
            (false, false) => format!("{number} {}", self.title),
            (true, _) => self.title.clone(),
            (_, true) => number,
        }
    }

    /// How long it is on the back of a section, in mm.
    #[must_use]
    pub fn long_mm(&self, section: u32, sections: u32) -> f64 {
        self.text(section, sections).chars().count() as f64 * LETTER * self.size_mm
    }

    /// How long it is at the most in a book of so many sections, in mm.
    #[must_use]
    pub fn length_mm(&self, sections: u32) -> f64 {
        self.long_mm(sections, sections)
    }

    /// Is it of use, and does it stand on the spine?
    pub(super) fn check(&self, spine_mm: f64, sections: u32) -> Result<(), Refusal> {
        if self.title.chars().count() > MOST_LETTERS {
            return Err(Refusal::new("label.title", format!("A short title has at most {MOST_LETTERS} letters.")));
        }
        if !self.number && self.title.trim().is_empty() {
            return Err(Refusal::new("label", "A number, a short title or both must be printed."));
        }
        if !(self.size_mm.is_finite() && self.size_mm > 0.0 && self.size_mm <= LARGEST_MM) {
            return Err(Refusal::new(
                "label.size_mm",
                format!("The letters must be larger than 0 mm and at most {} mm.", mm(LARGEST_MM)),
            ));
        }
        let ends = self.from_mm + self.length_mm(sections);
        if !(self.from_mm.is_finite() && self.from_mm >= 0.0 && ends <= spine_mm + 0.01) {
            return Err(Refusal::new(
                "label.from_mm",
                format!(
                    "What is printed on the back would end {} mm from the head; the spine is {} mm long.",
                    mm(ends),
                    mm(spine_mm)
                ),
            ));
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_printed() {
        let label = Label { number: true, of_how_many: false, title: "Almanac".into(), from_mm: 180.0, size_mm: 3.0 };
        assert_eq!(label.text(3, 24), "3 Almanac");
        assert_eq!(Label { of_how_many: true, title: String::new(), ..label.clone() }.text(3, 24), "3/24");
        assert_eq!(Label { number: false, ..label.clone() }.text(3, 24), "Almanac");
        // Ten letters of 1.8 mm.
        assert!((label.length_mm(24) - 18.0).abs() < 1e-9);
        label.check(198.0, 24).unwrap();
        assert_eq!(label.check(197.0, 24).unwrap_err().at, "label.from_mm");
        let none = Label { number: false, title: " ".into(), ..label.clone() };
        assert_eq!(none.check(216.0, 24).unwrap_err().at, "label");
        assert_eq!(Label { title: "x".repeat(41), ..label.clone() }.check(216.0, 24).unwrap_err().at, "label.title");
        assert_eq!(Label { size_mm: f64::NAN, ..label }.check(216.0, 24).unwrap_err().at, "label.size_mm");
    }
}
