//! Where a person stands: the room, the section on the bench, the page that is followed.

use crate::fold::{Crease, Lay};

/// A room on the same job.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Room {
    /// A sheet on the bench.
    #[default]
    Fold,
    /// Sections in stations, stack and spine.
    Gather,
    /// What was found in a wrong section, and what would make it so.
    Trace,
    /// Can I do it myself? Exercises, lessons, paper, and the bench before a class.
    Class,
    /// What the book is: its pages, its sections, its marks.
    Job,
}

/// What is done at the bench.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Task {
    /// The sheet is folded, by its scheme or otherwise.
    #[default]
    Fold,
    /// A scheme of one's own is made.
    Make,
    /// A layout is worked back to its folds.
    WorkBack,
}

/// What lies beside the bench.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Pane {
    /// Both flat sides of the sheet.
    #[default]
    Sides,
    /// The packet cut through: the direction of the cut, and the row or column of panels it goes through.
    Inside(Crease, u32),
    /// The sheet in millimetres, its paper and its lays.
    Paper,
    /// The folded section at the trimmer: bolts, creep, thickness.
    Trim,
    /// The set-up sheet of the folder.
    Folder,
}

/// What the Trace room is about.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Subject {
    /// A whole wrong book, or several.
    #[default]
    Book,
    /// One wrong section.
    Section,
}

/// Where a person stands in the Trace room.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct TraceLook {
    /// What it is about.
    pub subject: Subject,
    /// The cause that is looked at, from 0.
    pub cause: u32,
    /// Whether the fault report lies open.
    pub report: bool,
}

/// What is looked at, and how.
#[derive(Clone, Debug, PartialEq)]
pub struct Look {
    /// The room.
    pub room: Room,
    /// The place in the stack whose section is on the bench, from 1.
    pub place: u32,
    /// The piece of a slit sheet that lies on the bench alone, from 0.
    pub piece: Option<u32>,
    /// The page of the section that is followed, from 1.
    pub followed: Option<u32>,
    /// The moment on the rule where the bench came to rest or was last heard of.
    pub at: f64,
    /// What is done at the bench.
    pub task: Task,
    /// How the sheet lies.
    pub lay: Lay,
    /// Whether the scheme's way and the way folded by hand lie side by side.
    pub compare: bool,
    /// What lies beside the bench.
    pub pane: Pane,
    /// Whether side B is seen through the paper.
    pub through: bool,
    /// Where they stand in the Trace room.
    pub trace: TraceLook,
}

impl Default for Look {
    fn default() -> Self {
        Self {
            room: Room::Fold,
            place: 1,
            piece: None,
            followed: None,
            at: 0.0,
            task: Task::Fold,
            lay: Lay::default(),
            compare: false,
            pane: Pane::default(),
            through: false,
            trace: TraceLook::default(),
        }
    }
}
