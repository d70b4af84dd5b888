//! A fold scheme as data: the sheet and the list of its folds.

use super::error::{FoldError, Place};
use super::geometry::Direction;
use serde::{Deserialize, Serialize};

/// The most panels a sheet may have (rows times columns). A bound on work, not on paper.
pub const MAX_PANELS: u32 = 4096;

/// Which way a crease runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Crease {
    /// From top to bottom.
    Vertical,
    /// From left to right.
    Horizontal,
}

/// The part of the packet that moves in a fold.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Part {
    /// Left of a vertical crease.
    Left,
    /// Right of a vertical crease.
    Right,
    /// Above a horizontal crease.
    Top,
    /// Below a horizontal crease.
    Bottom,
}

impl Part {
    /// The direction from the crease into this part.
    #[must_use]
    pub const fn direction(self) -> Direction {
        match self {
            Self::Left => Direction::Left,
            Self::Right => Direction::Right,
            Self::Top => Direction::Up,
            Self::Bottom => Direction::Down,
        }
    }

    /// The part on the other side of the crease.
    #[must_use]
    pub const fn other(self) -> Self {
        match self {
            Self::Left => Self::Right,
            Self::Right => Self::Left,
            Self::Top => Self::Bottom,
            Self::Bottom => Self::Top,
        }
    }

    /// The crease that this part lies beside.
    #[must_use]
    pub const fn crease(self) -> Crease {
        match self {
            Self::Left | Self::Right => Crease::Vertical,
            Self::Top | Self::Bottom => Crease::Horizontal,
        }
    }

    /// `left`, `right`, `top` or `bottom`.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Left => "left",
            Self::Right => "right",
            Self::Top => "top",
            Self::Bottom => "bottom",
        }
    }
}

/// Where the moving part comes to lie.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Lands {
    /// On the part that stays.
    Over,
    /// Beneath the part that stays.
    Under,
}

impl Lands {
    /// The other one.
    #[must_use]
    pub const fn other(self) -> Self {
        match self {
            Self::Over => Self::Under,
            Self::Under => Self::Over,
        }
    }

    /// `over` or `under`.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Over => "over",
            Self::Under => "under",
        }
    }
}

/// One fold of the whole packet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Fold {
    /// Which way the crease runs.
    pub crease: Crease,
    /// Panels between the left edge (vertical) or top edge (horizontal) of the packet, as it then lies, and the crease.
    pub after: u32,
    /// The part that moves. It may be the larger one.
    pub moves: Part,
    /// Where that part comes to lie.
    pub lands: Lands,
}

impl Fold {
    /// A fold of the part `moves` after `after` panels; the crease follows from the part.
    #[must_use]
    pub const fn new(after: u32, moves: Part, lands: Lands) -> Self {
        Self { crease: moves.crease(), after, moves, lands }
    }
}

/// The direction in which a book is read.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Reads {
    /// The spine is at the reader's left when the front is up.
    #[default]
    LeftToRight,
    /// The spine is at the reader's right when the front is up.
    RightToLeft,
}

/// A sheet and how it is folded. The spine is the last crease.
#[derive(Clone, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Scheme {
    /// Rows of panels.
    pub rows: u32,
    /// Columns of panels.
    pub columns: u32,
    /// The folds in order.
    pub folds: Vec<Fold>,
    /// The edge of the finished packet, as it lies, that the heads point to: top or bottom for a vertical last
    /// crease, left or right for a horizontal one.
    #[serde(with = "edge_word")]
    pub head: Direction,
    /// The reading direction, which decides which face of the packet is the front.
    #[serde(default)]
    pub reads: Reads,
}

impl Scheme {
    /// Leaves of the section: panels of the sheet.
    #[must_use]
    pub const fn leaves(&self) -> u32 {
        self.rows * self.columns
    }

    /// Pages of the section: two to a leaf.
    #[must_use]
    pub const fn pages(&self) -> u32 {
        2 * self.leaves()
    }

    /// The same scheme with fold `number` (counted from 1) landing under instead of over, or the reverse.
    #[must_use]
    pub fn fold_other_way(&self, number: u32) -> Self {
        let mut other = self.clone();
        if let Some(fold) = (number as usize).checked_sub(1).and_then(|i| other.folds.get_mut(i)) {
            fold.lands = fold.lands.other();
        }
        other
    }

    /// Checks the size of the sheet alone.
    ///
    /// # Errors
    /// When there is no panel, or there are more than [`MAX_PANELS`].
    pub fn check_size(&self) -> Result<(), FoldError> {
        if self.rows == 0 {
            return Err(FoldError::NoPanels { at: Place::Rows });
        }
        if self.columns == 0 {
            return Err(FoldError::NoPanels { at: Place::Columns });
        }
        if self.rows > MAX_PANELS {
            return Err(FoldError::TooManyPanels { at: Place::Rows });
        }
        if self.columns > MAX_PANELS || self.rows * self.columns > MAX_PANELS {
            return Err(FoldError::TooManyPanels { at: Place::Columns });
        }
        Ok(())
    }
}

/// Writes a head edge as `top`, `bottom`, `left` or `right`, since it names an edge and not a way to point.
pub(crate) mod edge_word {
    use super::Direction;
    use serde::{Deserialize, Deserializer, Serializer};

    pub(crate) fn serialize<S: Serializer>(d: &Direction, s: S) -> Result<S::Ok, S::Error> {
        s.serialize_str(match d {
            Direction::Up => "top",
            Direction::Right => "right",
            Direction::Down => "bottom",
            Direction::Left => "left",
        })
    }

    #[derive(Deserialize)]
    #[serde(rename_all = "snake_case")]
    enum Edge {
        Top,
        Right,
        Bottom,
        Left,
    }

    pub(crate) fn deserialize<'de, D: Deserializer<'de>>(d: D) -> Result<Direction, D::Error> {
        Ok(match Edge::deserialize(d)? {
            Edge::Top => Direction::Up,
            Edge::Right => Direction::Right,
            Edge::Bottom => Direction::Down,
            Edge::Left => Direction::Left,
        })
    }
}
