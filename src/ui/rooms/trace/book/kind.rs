//! The kinds of find: what can be noted of a book, and of the run.

use crate::trace::{Case, SeenBook, Spine};

/// A kind of find.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// Openings as printed.
    Openings,
    /// The spine.
    Spine,
    /// Bulk and section count.
    Bulk,
    /// Pages inside one section.
    Inside,
    /// What stopped the line at it.
    Stopped,
    /// Plates and wraps.
    Plates,
    /// The run: its counter numbers and the books opened in it.
    Run,
    /// Stops, jams and reloads.
    Log,
    /// What was left over at the stations.
    Left,
}

impl Kind {
    /// All, in the order in which they are shown.
    pub const ALL: [Self; 9] = [
        Self::Openings,
        Self::Spine,
        Self::Bulk,
        Self::Inside,
        Self::Stopped,
        Self::Plates,
        Self::Run,
        Self::Left,
        Self::Log,
    ];

    /// What it is called.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Openings => "Openings",
            Self::Spine => "The spine",
            Self::Bulk => "Bulk and count",
            Self::Inside => "Pages of one section",
            Self::Stopped => "What stopped the line",
            Self::Plates => "Plates and wraps",
            Self::Run => "The run",
            Self::Log => "Stops and reloads",
            Self::Left => "What is left over",
        }
    }

    /// Its word in the page.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Openings => "openings",
            Self::Spine => "spine",
            Self::Bulk => "bulk",
            Self::Inside => "inside",
            Self::Stopped => "stopped",
            Self::Plates => "plates",
            Self::Run => "run",
            Self::Log => "log",
            Self::Left => "left",
        }
    }

    /// Whether it is about the run and not about one book.
    #[must_use]
    pub const fn of_run(self) -> bool {
        matches!(self, Self::Run | Self::Log | Self::Left)
    }

    /// Whether something of this kind was found.
    #[must_use]
    pub fn is_there(self, case: &Case, book: Option<&SeenBook>) -> bool {
        let of = |found: fn(&SeenBook) -> bool| book.is_some_and(found);
        match self {
            Self::Openings => of(|b| !b.openings.is_empty()),
            Self::Spine => of(|b| b.spine != Spine::Unseen),
            Self::Bulk => of(|b| b.bulk_mm.is_some() || b.count.is_some()),
            Self::Inside => of(|b| b.inside.is_some()),
            Self::Stopped => of(|b| b.stopped.is_some()),
            Self::Plates => of(|b| b.plates.is_some() || b.wraps.is_some()),
            Self::Run => case.line_known() || case.books.iter().filter(|b| b.counter.is_some()).count() > 1,
            Self::Log => !case.log.is_empty(),
            Self::Left => !case.left.is_empty(),
        }
    }
}
