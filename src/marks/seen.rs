//! What a checker sees on one back.

use serde::{Deserialize, Deserializer, Serialize};

use super::{AfterWrap, BackMarks, Bar, Inset, Lies};

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
        // Sections inside one another hide their backs, and what is printed there.
        let (label, ends) = match marks.inset {
            Inset::Through { .. } => (None, None),
            _ => (marks.label.as_ref(), marks.ends_mm),
        };
        Self {
            marks_mm: Some(vec![bar.middle_mm]),
            towards: Towards::of(&bar),
            width_mm: second_width(marks).map(|_| bar.width_mm),
            length_mm: ends.map(|_| bar.length_mm),
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

/// What a back looks like: two backs of one design that can't be told apart have equal looks. Heights count by the level
/// that they are in reach of.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Look {
    /// Each bar: its level, or its height in hundredths of a millimetre where it is on none.
    bars: Vec<Result<u32, i64>>,
    towards: Option<Towards>,
    wide: bool,
    long: bool,
    number: Option<u32>,
    title_ours: Option<bool>,
    upside_down: Option<bool>,
}

impl SeenBack {
    /// What this back looks like to one who knows the design.
    #[must_use]
    pub fn look(&self, marks: &BackMarks) -> Look {
        let place = |&mm: &f64| marks.level_at(mm).ok_or((mm * 100.0).round() as i64);
        let second_width = second_width(marks);
        let is = |seen: Option<f64>, usual: f64, other: Option<f64>| match (seen, other) {
            (Some(seen), Some(other)) => nearer(seen, [usual, other]) != usual,
            _ => false,
        };
        Look {
            bars: self.marks_mm.iter().flatten().map(place).collect(),
            towards: self.towards,
            wide: is(self.width_mm, marks.width_mm, second_width),
            long: is(self.length_mm, marks.stairs.length_mm, marks.ends_mm),
            number: self.number,
            title_ours: self.title_ours,
            upside_down: self.upside_down,
        }
    }
}

/// The width of the bars of every second turn, where it is another one and can be seen.
fn second_width(marks: &BackMarks) -> Option<f64> {
    match (marks.after_wrap, marks.inset) {
        (_, Inset::Through { .. }) => None,
        (AfterWrap::Width { width_mm }, _) => Some(width_mm),
        _ => None,
    }
}

/// Which of two lengths a seen one is nearer to; the first on a tie.
fn nearer(seen: f64, [one, other]: [f64; 2]) -> f64 {
    if (seen - other).abs() < (seen - one).abs() { other } else { one }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::marks::{Design, Label};

    fn six_mm() -> BackMarks {
        Design { spine_mm: 216.0, first_mm: 30.0, step_mm: 6.0, length_mm: 6.0, levels: 24 }.into()
    }

    fn look(marks: &BackMarks, section: u32, lies: Lies) -> Look {
        SeenBack::of(marks, section, 48, lies).look(marks)
    }

    #[test]
    fn one_wrap_apart_looks_alike_unless_something_tells() {
        let plain = six_mm();
        assert_eq!(look(&plain, 1, Lies::Right), look(&plain, 25, Lies::Right));
        let label = Label { number: true, of_how_many: false, title: String::new(), from_mm: 2.0, size_mm: 3.0 };
        for marks in [
            BackMarks { after_wrap: AfterWrap::Column { apart_mm: 3.0 }, ..six_mm() },
            BackMarks { after_wrap: AfterWrap::Width { width_mm: 4.0 }, ..six_mm() },
            BackMarks { label: Some(label), ..six_mm() },
        ] {
            assert_ne!(look(&marks, 1, Lies::Right), look(&marks, 25, Lies::Right), "{marks:?}");
        }
    }

    #[test]
    fn a_turned_section_looks_as_another_where_the_staircase_mirrors_itself() {
        // 216 - 33 is 183, between the levels of sections 24 (171) and what would be 26; 216 - 39 is 177.
        let plain = six_mm();
        assert_eq!(look(&plain, 5, Lies::HeadToTail), look(&plain, 22, Lies::Right));
        assert_ne!(look(&plain, 1, Lies::HeadToTail), look(&plain, 24, Lies::Right));
        let columns = BackMarks { after_wrap: AfterWrap::Column { apart_mm: 3.0 }, ..six_mm() };
        assert_eq!(look(&columns, 5, Lies::HeadToTail), look(&columns, 46, Lies::Right));
        assert_ne!(look(&columns, 5, Lies::HeadToTail), look(&columns, 22, Lies::Right));
        assert_eq!(look(&plain, 5, Lies::SideToSide), SeenBack::blank().look(&plain));
    }
}
