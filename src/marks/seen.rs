//! What a checker sees on one back.

use serde::{Deserialize, Deserializer, Serialize};

use super::{AfterWrap, BackMarks, Bar, Lies};

/// The heights of the bars on one back, and nothing else.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Seen {
    /// The middle of each mark in mm from the head; empty for a blank back, none for one that can't be read.
    #[serde(deserialize_with = "written")]
    pub marks_mm: Option<Vec<f64>>,
}

/// Asks for the key to be there, which an optional value otherwise does not.
fn written<'de, D: Deserializer<'de>>(from: D) -> Result<Option<Vec<f64>>, D::Error> {
    Option::deserialize(from)
}

/// Towards which end of the book a bar stands off the fold.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Towards {
    /// The front of the book.
    Front,
    /// The back of the book.
    Back,
}

impl Towards {
    /// On which side of the fold a bar stands, if not on the fold.
    #[must_use]
    pub fn of(bar: &Bar) -> Option<Self> {
        match bar.across_mm {
            across if across < 0.0 => Some(Self::Front),
            across if across > 0.0 => Some(Self::Back),
            _ => None,
        }
    }
}

/// All that is seen on one back. What nobody looked at, or these marks don't have, is `None`.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SeenBack {
    /// The middle of each bar in mm from the head; empty for a blank back, none for bars that can't be read.
    #[serde(deserialize_with = "written")]
    pub marks_mm: Option<Vec<f64>>,
    /// On which side of the fold the bar stands.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub towards: Option<Towards>,
    /// The width of the bar across the back, in mm.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub width_mm: Option<f64>,
    /// The length of the bar along the spine, in mm.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub length_mm: Option<f64>,
    /// The number that is printed there.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub number: Option<u32>,
    /// Whether the title that is printed there is that of this book.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub title_ours: Option<bool>,
    /// Whether what is printed there stands on its head.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub upside_down: Option<bool>,
}

impl From<Seen> for SeenBack {
    fn from(seen: Seen) -> Self {
        Self { marks_mm: seen.marks_mm, ..Self::default() }
    }
}

impl SeenBack {
    /// A back without a mark.
    #[must_use]
    pub fn blank() -> Self {
        Self { marks_mm: Some(Vec::new()), ..Self::default() }
    }

    /// The back of a section of a book of so many, as these marks show it to a checker who looks at everything that
    /// can matter.
    #[must_use]
    pub fn of(marks: &BackMarks, section: u32, sections: u32, lies: Lies) -> Self {
        let Some(bar) = marks.bar_lying(section, sections, lies) else { return Self::blank() };
        let label = marks.label.as_ref();
        Self {
            marks_mm: Some(vec![bar.middle_mm]),
            towards: Towards::of(&bar),
            width_mm: matches!(marks.after_wrap, AfterWrap::Width { .. }).then_some(bar.width_mm),
            length_mm: marks.ends_mm.map(|_| bar.length_mm),
            number: label.filter(|l| l.number).map(|_| section),
            title_ours: label.filter(|l| !l.title.is_empty()).map(|_| true),
            upside_down: label.map(|_| lies == Lies::HeadToTail),
        }
    }

    /// Whether a section that lies so has on its back what was seen here, its height apart.
    pub(super) fn could_be(&self, marks: &BackMarks, section: u32, sections: u32, lies: Lies) -> bool {
        let Some(bar) = marks.bar_lying(section, sections, lies) else { return false };
        let column = self.towards.is_none() || Towards::of(&bar).is_none() || self.towards == Towards::of(&bar);
        let width = match (self.width_mm, marks.after_wrap) {
            (Some(seen), AfterWrap::Width { width_mm }) => nearer(seen, [marks.width_mm, width_mm]) == bar.width_mm,
            _ => true,
        };
        let length = match (self.length_mm, marks.ends_mm) {
            (Some(seen), Some(ends_mm)) => nearer(seen, [marks.stairs.length_mm, ends_mm]) == bar.length_mm,
            _ => true,
        };
        let label = marks.label.as_ref().is_none_or(|label| {
            let number = self.number.is_none_or(|number| !label.number || number == section);
            number && self.upside_down.is_none_or(|down| down == (lies == Lies::HeadToTail))
        });
        column && width && length && label
    }
}

/// Which of two lengths a seen one is nearer to; the first on a tie.
fn nearer(seen: f64, [one, other]: [f64; 2]) -> f64 {
    if (seen - other).abs() < (seen - one).abs() { other } else { one }
}
