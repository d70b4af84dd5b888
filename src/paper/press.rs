//! How the sheet lay in the press: the edge that the grippers held, and the side that it was pushed against.
//!
//! The folder takes the same two edges, or register is lost (an old principle: side-registering drop-roller folders are so
//! described in *Modern Mechanism*, 1890s).

use super::length::Length;
use serde::Deserialize;

/// An edge of the sheet, as it lies with side A up and its first row away.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Edge {
    /// The edge of row 0.
    Top,
    /// The edge of the last column.
    Right,
    /// The edge of the last row.
    Bottom,
    /// The edge of column 0.
    Left,
}

impl Edge {
    /// All four, clockwise.
    pub const ALL: [Self; 4] = [Self::Top, Self::Right, Self::Bottom, Self::Left];

    /// Whether it is a side edge.
    #[must_use]
    pub const fn is_upright(self) -> bool {
        matches!(self, Self::Left | Self::Right)
    }

    /// The same edge of the paper seen from side B, after turning left to right.
    #[must_use]
    pub const fn seen_from_b(self) -> Self {
        match self {
            Self::Left => Self::Right,
            Self::Right => Self::Left,
            other => other,
        }
    }

    /// The edge opposite.
    #[must_use]
    pub const fn opposite(self) -> Self {
        match self {
            Self::Top => Self::Bottom,
            Self::Right => Self::Left,
            Self::Bottom => Self::Top,
            Self::Left => Self::Right,
        }
    }

    /// `top`, `right`, `bottom` or `left`.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Top => "top",
            Self::Right => "right",
            Self::Bottom => "bottom",
            Self::Left => "left",
        }
    }
}

/// The lays of a sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Press {
    /// The edge that the grippers held.
    pub gripper: Edge,
    /// The edge that was pushed against the side lay. It lies at a right angle to the gripper edge.
    pub side_lay: Edge,
    /// What the grippers hold, and can't be printed.
    pub gripper_margin: Length,
}

impl Default for Press {
    /// Gripper edge at the foot of side A and side lay at its left, 10 mm held (common practice, no source).
    fn default() -> Self {
        Self { gripper: Edge::Bottom, side_lay: Edge::Left, gripper_margin: Length::from_whole_mm(10) }
    }
}

impl Press {
    /// Whether a sheet can lie so.
    ///
    /// # Errors
    /// A sentence.
    pub fn check(&self) -> Result<(), String> {
        if self.gripper.is_upright() == self.side_lay.is_upright() {
            return Err("The side lay lies at a right angle to the gripper edge.".into());
        }
        if self.gripper_margin < Length::ZERO || self.gripper_margin > Length::from_whole_mm(100) {
            return Err("Grippers hold 0 to 100 mm.".into());
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lays_cross() {
        assert_eq!(Press::default().check(), Ok(()));
        let along = Press { side_lay: Edge::Top, ..Press::default() };
        assert!(along.check().is_err());
        assert!(Edge::ALL.into_iter().all(|e| e.opposite().opposite() == e && e.seen_from_b().seen_from_b() == e));
    }
}
