//! How the hands have laid the sheet on the bench, and what a fold of it is called by one who sees it lie so.

use super::geometry::Direction;
use super::scheme::{Crease, Fold, Part};

/// How the hands have laid the sheet on the bench. It does not change the folds, only how they are seen.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Lay {
    /// Whether it was turned over, left to right.
    pub over: bool,
    /// Quarter turns clockwise after that, 0 to 3.
    pub quarters: u8,
}

impl Lay {
    /// Turned over once more, left to right as it then lies.
    #[must_use]
    pub const fn turned_over(self) -> Self {
        Self { over: !self.over, quarters: (4 - self.quarters % 4) % 4 }
    }

    /// Turned a quarter more, clockwise.
    #[must_use]
    pub const fn turned_round(self) -> Self {
        Self { over: self.over, quarters: (self.quarters + 1) % 4 }
    }

    /// The lay that undoes this one.
    #[must_use]
    pub const fn back(self) -> Self {
        if self.over { self } else { Self { over: false, quarters: (4 - self.quarters % 4) % 4 } }
    }

    /// A direction in the packet as it is seen.
    #[must_use]
    pub fn direction(self, direction: Direction) -> Direction {
        let flat = if self.over { direction.turned_over() } else { direction };
        (0..self.quarters % 4).fold(flat, |d, _| d.clockwise())
    }

    /// A fold as it is seen: turned over, right over left is left under right. `size` is the packet's width and height
    /// in panels, as the fold has it.
    ///
    /// [`Lay::back`] and the size as seen give the way back.
    #[must_use]
    pub fn seen(self, fold: &Fold, size: (u32, u32)) -> Fold {
        let moves = match self.direction(fold.moves.direction()) {
            Direction::Left => Part::Left,
            Direction::Right => Part::Right,
            Direction::Up => Part::Top,
            Direction::Down => Part::Bottom,
        };
        // Creases are counted from the left or the top: from the edge where the packet now has another one, they
        // are counted backwards.
        let (from, size) = match fold.crease {
            Crease::Vertical => (Direction::Left, size.0),
            Crease::Horizontal => (Direction::Up, size.1),
        };
        let backwards = matches!(self.direction(from), Direction::Right | Direction::Down);
        let after = if backwards { size.saturating_sub(fold.after) } else { fold.after };
        Fold::new(after, moves, if self.over { fold.lands.other() } else { fold.lands })
    }

    /// A grid of places as it is seen, row by row.
    #[must_use]
    pub fn grid<T: Copy>(self, mut rows: Vec<Vec<T>>) -> Vec<Vec<T>> {
        if self.over {
            rows.iter_mut().for_each(|row| row.reverse());
        }
        for _ in 0..self.quarters % 4 {
            let width = rows.first().map_or(0, Vec::len);
            rows = (0..width).map(|c| rows.iter().rev().filter_map(|row| row.get(c).copied()).collect()).collect();
        }
        rows
    }
}
