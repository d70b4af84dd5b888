//! Where a person stands: the room, the section on the bench, the page that is followed.

/// A room on the same job.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Room {
    /// A sheet on the bench.
    #[default]
    Fold,
    /// Sections in stations, stack and spine.
    Gather,
}

/// What is looked at, and how.
#[derive(Clone, Debug, PartialEq)]
pub struct Look {
    /// The room.
    pub room: Room,
    /// The place in the stack whose section is on the bench, from 1.
    pub place: u32,
    /// The page of the section that is followed, from 1.
    pub followed: Option<u32>,
    /// The moment on the rule where the bench came to rest or was last heard of.
    pub at: f64,
    /// Whether one's own scheme is being made.
    pub making: bool,
    /// Whether side B is seen through the paper.
    pub through: bool,
}

impl Default for Look {
    fn default() -> Self {
        Self { room: Room::Fold, place: 1, followed: None, at: 0.0, making: false, through: false }
    }
}
