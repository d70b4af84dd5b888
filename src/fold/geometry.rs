//! The small geometry that folding needs: whole panels, four directions, mirror images. Exact throughout.

use serde::{Deserialize, Serialize};

/// One of the two sides of a sheet. Side A is up when folding starts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Side {
    /// The side that is up when folding starts.
    A,
    /// The side that lies on the bench when folding starts.
    B,
}

impl Side {
    /// The side that backs this one.
    #[must_use]
    pub const fn other(self) -> Self {
        match self {
            Self::A => Self::B,
            Self::B => Self::A,
        }
    }
}

/// A direction on the sheet or in the packet, as seen from above: up is towards row 0.
///
/// The same four words name the edges of a packet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Direction {
    /// Towards row 0; the top edge.
    Up,
    /// Towards the last column; the right edge.
    Right,
    /// Towards the last row; the bottom edge.
    Down,
    /// Towards column 0; the left edge.
    Left,
}

impl Direction {
    /// The step one panel in this direction, `(x, y)` with `y` downwards.
    #[must_use]
    pub const fn step(self) -> (i32, i32) {
        // Without a branch: which way the heads of a sheet point is nothing that a processor could guess.
        (
            matches!(self, Self::Right) as i32 - matches!(self, Self::Left) as i32,
            matches!(self, Self::Down) as i32 - matches!(self, Self::Up) as i32,
        )
    }

    /// The quarter turn clockwise, as seen from above: up becomes right.
    #[must_use]
    pub const fn clockwise(self) -> Self {
        match self {
            Self::Up => Self::Right,
            Self::Right => Self::Down,
            Self::Down => Self::Left,
            Self::Left => Self::Up,
        }
    }

    /// The opposite direction.
    #[must_use]
    pub const fn opposite(self) -> Self {
        match self {
            Self::Up => Self::Down,
            Self::Right => Self::Left,
            Self::Down => Self::Up,
            Self::Left => Self::Right,
        }
    }

    /// The same direction after the sheet was turned over left to right: left and right change places.
    #[must_use]
    pub const fn turned_over(self) -> Self {
        self.mirrored(true, false)
    }

    /// The mirror image, left and right exchanged if `x`, up and down if `y`.
    #[must_use]
    pub const fn mirrored(self, x: bool, y: bool) -> Self {
        let exchanged = if self.is_sideways() { x } else { y };
        if exchanged { self.opposite() } else { self }
    }

    /// Whether this direction runs left or right.
    #[must_use]
    pub const fn is_sideways(self) -> bool {
        matches!(self, Self::Left | Self::Right)
    }
}

/// A rectangle of whole panels, `x0..x1` by `y0..y1`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Rect {
    /// Left edge.
    pub x0: i32,
    /// Top edge.
    pub y0: i32,
    /// Right edge.
    pub x1: i32,
    /// Bottom edge.
    pub y1: i32,
}

impl Rect {
    /// Width in panels.
    #[must_use]
    pub const fn width(&self) -> i32 {
        self.x1 - self.x0
    }

    /// Height in panels.
    #[must_use]
    pub const fn height(&self) -> i32 {
        self.y1 - self.y0
    }

    /// The smallest rectangle that holds both.
    #[must_use]
    pub fn union(&self, other: &Self) -> Self {
        Self {
            x0: self.x0.min(other.x0),
            y0: self.y0.min(other.y0),
            x1: self.x1.max(other.x1),
            y1: self.y1.max(other.y1),
        }
    }

    /// The panels inside, row by row, as `(x, y)` of their top left corners.
    pub fn cells(&self) -> impl Iterator<Item = (i32, i32)> + use<> {
        let (x0, x1) = (self.x0, self.x1);
        (self.y0..self.y1).flat_map(move |y| (x0..x1).map(move |x| (x, y)))
    }

    /// Whether the panel whose top left corner is `(x, y)` lies inside.
    #[must_use]
    pub const fn holds(&self, x: i32, y: i32) -> bool {
        self.x0 <= x && x < self.x1 && self.y0 <= y && y < self.y1
    }
}

/// Where a piece of the sheet lies in the packet: `packet = ±sheet + shift`, axis by axis.
///
/// A piece that is mirrored an odd number of times shows side B upwards.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Placement {
    /// Whether `x` runs backwards.
    pub mirror_x: bool,
    /// Whether `y` runs backwards.
    pub mirror_y: bool,
    /// Shift of `x` in panels.
    pub dx: i32,
    /// Shift of `y` in panels.
    pub dy: i32,
}

impl Placement {
    /// The flat sheet on the bench, side A up.
    pub const FLAT: Self = Self { mirror_x: false, mirror_y: false, dx: 0, dy: 0 };

    /// The side that is up.
    #[must_use]
    pub const fn side_up(&self) -> Side {
        if self.mirror_x == self.mirror_y { Side::A } else { Side::B }
    }

    /// A point of the sheet, in the packet.
    #[must_use]
    pub const fn packet_from_sheet(&self, x: i32, y: i32) -> (i32, i32) {
        (sign(self.mirror_x) * x + self.dx, sign(self.mirror_y) * y + self.dy)
    }

    /// A point of the packet, on the sheet.
    #[must_use]
    pub const fn sheet_from_packet(&self, x: i32, y: i32) -> (i32, i32) {
        (sign(self.mirror_x) * (x - self.dx), sign(self.mirror_y) * (y - self.dy))
    }

    /// A rectangle of the sheet, in the packet.
    #[must_use]
    pub const fn rect_in_packet(&self, r: &Rect) -> Rect {
        let (x0, x1) = ends(self.mirror_x, r.x0, r.x1);
        let (y0, y1) = ends(self.mirror_y, r.y0, r.y1);
        Rect { x0: x0 + self.dx, y0: y0 + self.dy, x1: x1 + self.dx, y1: y1 + self.dy }
    }

    /// A direction in the packet as it points on the sheet seen from side A. It is its own inverse.
    #[must_use]
    pub const fn direction(&self, d: Direction) -> Direction {
        d.mirrored(self.mirror_x, self.mirror_y)
    }

    /// The mirror image about the line `x = at`.
    #[must_use]
    pub const fn mirrored_about_x(&self, at: i32) -> Self {
        Self { mirror_x: !self.mirror_x, dx: 2 * at - self.dx, ..*self }
    }

    /// The mirror image about the line `y = at`.
    #[must_use]
    pub const fn mirrored_about_y(&self, at: i32) -> Self {
        Self { mirror_y: !self.mirror_y, dy: 2 * at - self.dy, ..*self }
    }
}

/// The two ends of a stretch, the lesser first again where it is mirrored about 0.
const fn ends(mirrored: bool, low: i32, high: i32) -> (i32, i32) {
    if mirrored { (-high, -low) } else { (low, high) }
}

const fn sign(mirrored: bool) -> i32 {
    if mirrored { -1 } else { 1 }
}

/// One face of one panel, named by its place on the sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Face {
    /// The side of the sheet.
    pub side: Side,
    /// Row, counted from 0 at the top.
    pub row: u32,
    /// Column **as seen from side A**, counted from 0 at the left. [`Face::column_seen`] gives it as seen.
    pub column: u32,
}

impl Face {
    /// The column as seen from this face's own side, side B being seen after turning the sheet left to right.
    #[must_use]
    pub const fn column_seen(&self, columns: u32) -> u32 {
        match self.side {
            Side::A => self.column,
            Side::B => columns - 1 - self.column,
        }
    }

    /// The face on the other side of the same panel.
    #[must_use]
    pub const fn back(&self) -> Self {
        Self { side: self.side.other(), ..*self }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_mirrors_do_not_commute_with_a_shift() {
        let p = Placement::FLAT.mirrored_about_x(3).mirrored_about_x(1);
        assert_eq!(p.packet_from_sheet(0, 0), (-4, 0), "first about 3, then about 1");
        let q = Placement::FLAT.mirrored_about_x(1).mirrored_about_x(3);
        assert_eq!(q.packet_from_sheet(0, 0), (4, 0));
    }

    #[test]
    fn sheet_from_packet_undoes_packet_from_sheet() {
        let p = Placement { mirror_x: true, mirror_y: false, dx: 5, dy: -2 };
        let (x, y) = p.packet_from_sheet(3, 7);
        assert_eq!(p.sheet_from_packet(x, y), (3, 7));
        assert_eq!(p.side_up(), Side::B);
    }

    #[test]
    fn clockwise_is_as_seen_on_the_bench() {
        assert_eq!(Direction::Up.clockwise(), Direction::Right);
        assert_eq!(Direction::Left.clockwise(), Direction::Up);
        assert_eq!(Direction::Left.turned_over(), Direction::Right);
        assert_eq!(Direction::Up.turned_over(), Direction::Up);
    }
}
