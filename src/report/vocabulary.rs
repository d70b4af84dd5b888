//! Kinds of fault, and what two published vocabularies call them.

use crate::gather::Fault;
use crate::marks::Lies;
use serde::{Deserialize, Serialize};

/// What is wrong with the books, as far as a report distinguishes it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum What {
    /// A section is missing.
    MissingSection,
    /// A section is there twice.
    DoubleSection,
    /// Another section of the job stands in the place of one.
    WrongSection,
    /// A section of another job stands in the place of one.
    ForeignSection,
    /// Sections stand in another order.
    OutOfOrder,
    /// Pages within a section are in another order: folded or printed wrongly.
    PagesOutOfOrder,
    /// A section stands on its head.
    UpsideDown,
    /// The cover stands on its head.
    CoverUpsideDown,
    /// Pages that should be printed are blank.
    BlankPages,
    /// A fold stands in the wrong place or is skew.
    FoldPosition,
}

/// A code of the quality defect notice of the US Government Publishing Office.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Notice {
    /// F-4.
    FoldPosition,
    /// F-12.
    MissingPages,
    /// F-13.
    CoverUpsideDown,
    /// F-14.
    PagesUpsideDown,
    /// F-15.
    BlankPages,
    /// F-16.
    WrongPagination,
}

/// Where the codes come from.
pub const NOTICE_SOURCE: &str = "US GPO Form 1815 and Publication 310.1";
/// Where the grades come from.
const GRADE_SOURCE: &str = "Public Works and Government Services Canada, Inspection Guide";

impl Notice {
    /// The code.
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::FoldPosition => "F-4",
            Self::MissingPages => "F-12",
            Self::CoverUpsideDown => "F-13",
            Self::PagesUpsideDown => "F-14",
            Self::BlankPages => "F-15",
            Self::WrongPagination => "F-16",
        }
    }

    /// What it is for.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::FoldPosition => "position or skew of a fold",
            Self::MissingPages => "missing pages",
            Self::CoverUpsideDown => "cover upside down",
            Self::PagesUpsideDown => "pages upside down",
            Self::BlankPages => "blank pages",
            Self::WrongPagination => "wrong pagination",
        }
    }

    /// As it stands on the sheet.
    #[must_use]
    pub fn says(self) -> String {
        format!("{}, {} ({NOTICE_SOURCE})", self.code(), self.words())
    }
}

/// How grave a fault is, in Canada's three grades.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Grade {
    /// The book serves all the same.
    Minor,
    /// The book serves less well.
    Major,
    /// The book doesn't serve.
    Critical,
}

impl Grade {
    /// As it stands on the sheet.
    #[must_use]
    pub fn says(self) -> String {
        let word = match self {
            Self::Minor => "minor",
            Self::Major => "major",
            Self::Critical => "critical",
        };
        format!("{word} ({GRADE_SOURCE})")
    }
}

impl What {
    /// In words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::MissingSection => "a section is missing",
            Self::DoubleSection => "a section is there twice",
            Self::WrongSection => "another section stands in the place of one",
            Self::ForeignSection => "a section of another job stands in the place of one",
            Self::OutOfOrder => "sections stand in another order",
            Self::PagesOutOfOrder => "pages of a section are in another order",
            Self::UpsideDown => "a section stands on its head",
            Self::CoverUpsideDown => "the cover stands on its head",
            Self::BlankPages => "pages are blank",
            Self::FoldPosition => "a fold stands in the wrong place or is skew",
        }
    }

    /// The code that fits best. Which code a fault gets that is not named there is our own reading.
    #[must_use]
    pub const fn notice(self) -> Notice {
        match self {
            Self::MissingSection => Notice::MissingPages,
            Self::DoubleSection
            | Self::WrongSection
            | Self::ForeignSection
            | Self::OutOfOrder
            | Self::PagesOutOfOrder => Notice::WrongPagination,
            Self::UpsideDown => Notice::PagesUpsideDown,
            Self::CoverUpsideDown => Notice::CoverUpsideDown,
            Self::BlankPages => Notice::BlankPages,
            Self::FoldPosition => Notice::FoldPosition,
        }
    }

    /// The grade, where the source names the fault: transposed text and missing pages or sections are critical. A wrong or
    /// foreign section is a missing one in its place. The others have to be graded by whoever signs.
    #[must_use]
    pub const fn grade(self) -> Option<Grade> {
        match self {
            Self::MissingSection
            | Self::WrongSection
            | Self::ForeignSection
            | Self::OutOfOrder
            | Self::PagesOutOfOrder => Some(Grade::Critical),
            Self::DoubleSection | Self::UpsideDown | Self::CoverUpsideDown | Self::BlankPages | Self::FoldPosition => {
                None
            }
        }
    }

    /// What a fault of a gathered book is in a report.
    #[must_use]
    pub const fn of(fault: &Fault) -> Self {
        match fault {
            Fault::Missing { .. } => Self::MissingSection,
            Fault::Double { .. } => Self::DoubleSection,
            Fault::WrongSection { .. } => Self::WrongSection,
            Fault::Foreign { .. } => Self::ForeignSection,
            Fault::Lies { lies: Lies::HeadToTail | Lies::TurnedInPlane, .. } => Self::UpsideDown,
            Fault::Lies { .. } | Fault::NoMark { .. } => Self::PagesOutOfOrder,
            Fault::Exchanged { .. } | Fault::Moved { .. } | Fault::Reversed | Fault::DividedWrong { .. } => {
                Self::OutOfOrder
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn codes_are_those_of_the_form() {
        let codes = [
            (What::FoldPosition, "F-4"),
            (What::MissingSection, "F-12"),
            (What::CoverUpsideDown, "F-13"),
            (What::UpsideDown, "F-14"),
            (What::BlankPages, "F-15"),
            (What::PagesOutOfOrder, "F-16"),
            (What::of(&Fault::WrongSection { at: 5, section: 9 }), "F-16"),
            (What::of(&Fault::Missing { section: 5 }), "F-12"),
        ];
        for (what, code) in codes {
            assert_eq!(what.notice().code(), code);
        }
        assert_eq!(Notice::WrongPagination.says(), "F-16, wrong pagination (US GPO Form 1815 and Publication 310.1)");
    }

    #[test]
    fn only_what_the_source_names_is_graded() {
        assert_eq!(What::OutOfOrder.grade(), Some(Grade::Critical));
        assert_eq!(What::MissingSection.grade(), Some(Grade::Critical));
        assert_eq!(What::FoldPosition.grade(), None);
    }
}
