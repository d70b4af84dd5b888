//! Which pages can be read from above, and from beneath, at a moment.

use super::bench::Bench;
use super::moment::Stage;
use crate::fold::{Direction, Face, Layer, Side};

/// A face as it lies before somebody who looks at it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Readable {
    /// The face.
    pub face: Face,
    /// The page on it, if it is not blank.
    pub page: Option<u32>,
    /// The way its head points as it lies there, if that is known.
    pub head: Option<Direction>,
}

/// The faces that can be read from one side, row by row, in the places where they are seen; `None` where no paper lies.
///
/// The moment counts as the whole step that it follows. Seen from beneath, as the bench is shown from there, left stays
/// left and the upper row is the lowest one. An opened section is one row: what lies at the left, what lies at the right.
#[must_use]
pub fn uppermost(bench: &Bench, at: f64, beneath: bool) -> Vec<Vec<Option<Readable>>> {
    let packet = match bench.rule.stage(at) {
        Stage::Leaf { turned, .. } => return opened(bench, turned, beneath),
        Stage::Fold { made, .. } => bench.folding.packet(made),
        _ => bench.folding.last(),
    };
    let grid = if beneath { packet.undermost() } else { packet.uppermost() };
    let lies = |face: Face| {
        let holds = |l: &&Layer| l.area.holds(face.column.cast_signed(), face.row.cast_signed());
        let layer = packet.layers.iter().find(holds);
        seen(bench, face, beneath, |head| layer.map(|l| in_packet(l, &face, head)))
    };
    let mut rows: Vec<Vec<_>> = grid.into_iter().map(|row| row.into_iter().map(|f| f.map(lies)).collect()).collect();
    if beneath {
        rows.reverse();
    }
    rows
}

/// The way that a head points in the packet seen from above, from its way in the face's own view.
pub(super) const fn in_packet(layer: &Layer, face: &Face, head: Direction) -> Direction {
    let on_sheet = match face.side {
        Side::A => head,
        Side::B => head.turned_over(),
    };
    layer.placement.direction(on_sheet)
}

fn seen(bench: &Bench, face: Face, beneath: bool, lying: impl Fn(Direction) -> Option<Direction>) -> Readable {
    let figure = bench.printing.figure(&face);
    let head = figure.and_then(|f| f.head).and_then(lying).map(|d| d.mirrored(false, beneath));
    Readable { face, page: figure.map(|f| f.page), head }
}

/// An opened section with some leaves turned: left and right, as the reader (or somebody beneath the bench) sees it.
fn opened(bench: &Bench, turned: usize, beneath: bool) -> Vec<Vec<Option<Readable>>> {
    let Some(section) = &bench.section else { return Vec::new() };
    let leaves = section.held.len();
    let back = |leaf: usize| 2 * leaf + 1;
    let (read, unread) = if beneath {
        ((turned > 0).then_some(0), (turned < leaves).then(|| back(leaves - 1)))
    } else {
        (turned.checked_sub(1).map(back), (turned < leaves).then_some(2 * turned))
    };
    let lies = |place: Option<usize>| {
        let found = section.faces.get(place?)?;
        // From above the section's head is away. What is seen from beneath is mirrored top to bottom, and so its head
        // points down.
        Some(seen(bench, found.face, beneath, |head| Some(from_upright(found.head, head))))
    };
    let (read, unread) = (lies(read), lies(unread));
    vec![match bench.printing.reads {
        crate::fold::Reads::LeftToRight => vec![read, unread],
        crate::fold::Reads::RightToLeft => vec![unread, read],
    }]
}

/// How a head points where the way `up` has been turned upright.
pub(super) fn from_upright(up: Direction, head: Direction) -> Direction {
    let (mut at, mut turned) = (up, Direction::Up);
    while at != head {
        (at, turned) = (at.clockwise(), turned.clockwise());
    }
    turned
}
