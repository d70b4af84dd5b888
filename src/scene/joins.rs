//! Which layers of a pile are one piece of paper across a folded edge: told from where the layers lie, and from
//! nothing else.

use crate::fold::{Direction, Layer, Rect};

/// Two layers that are neighbours on the sheet and hang together at an edge of the pile: a bolt, or the spine.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Join {
    /// The edge, as the pile lies.
    pub edge: Direction,
    /// The lower layer, counted from 0 at the bottom of the pile.
    pub low: usize,
    /// The upper layer.
    pub high: usize,
    /// The line of the edge: `x` of a left or right one, `y` of an upper or lower one, in panels.
    pub line: i32,
    /// Where along that line it begins.
    pub from: i32,
    /// Where it ends.
    pub to: i32,
}

impl Join {
    /// Whether this one lies around the other, so that the other can't be seen from outside.
    #[must_use]
    pub fn holds(&self, other: &Self) -> bool {
        (self.edge, self.line) == (other.edge, other.line)
            && self.low <= other.low
            && other.high <= self.high
            && self.from <= other.from
            && other.to <= self.to
    }
}

/// All joins of a pile, by layer from the bottom up. `rows` and `columns` are those of the sheet; `one_paper` says whether
/// two neighbouring panels of it were not slit apart.
#[must_use]
pub fn joins(
    layers: &[Layer],
    rows: u32,
    columns: u32,
    one_paper: impl Fn((i32, i32), (i32, i32)) -> bool,
) -> Vec<Join> {
    let sheet = Rect { x0: 0, y0: 0, x1: columns.cast_signed(), y1: rows.cast_signed() };
    let cell = |x: i32, y: i32| sheet.holds(x, y).then_some((y * sheet.x1 + x).unsigned_abs() as usize);
    let mut holder = vec![None; (rows * columns) as usize];
    for (i, layer) in layers.iter().enumerate() {
        for (x, y) in layer.area.cells() {
            if let Some(slot) = cell(x, y).and_then(|c| holder.get_mut(c)) {
                *slot = Some(i);
            }
        }
    }
    let mut all = Vec::new();
    for (i, layer) in layers.iter().enumerate() {
        let a = layer.area;
        let r = layer.footprint();
        for way in [Direction::Up, Direction::Right, Direction::Down, Direction::Left] {
            let (here, beyond) = match way {
                Direction::Up => ((a.x0, a.y0), (a.x0, a.y0 - 1)),
                Direction::Right => ((a.x1 - 1, a.y0), (a.x1, a.y0)),
                Direction::Down => ((a.x0, a.y1 - 1), (a.x0, a.y1)),
                Direction::Left => ((a.x0, a.y0), (a.x0 - 1, a.y0)),
            };
            let other = cell(beyond.0, beyond.1).and_then(|c| *holder.get(c)?).filter(|j| *j > i);
            let other = other.filter(|_| one_paper(here, beyond));
            let Some((high, beside)) = other.and_then(|j| Some((j, layers.get(j)?))) else { continue };
            // Folded at that edge, and not lying on as one flat piece.
            let (p, q) = (layer.placement, beside.placement);
            let folded = if way.is_sideways() { p.mirror_x != q.mirror_x } else { p.mirror_y != q.mirror_y };
            let edge = p.direction(way);
            let (line, from, to) = edge_of(&r, edge);
            if folded {
                all.push(Join { edge, low: i, high, line, from, to });
            }
        }
    }
    all
}

/// The line of an edge of a rectangle, and where along it the edge begins and ends.
#[must_use]
pub fn edge_of(r: &Rect, edge: Direction) -> (i32, i32, i32) {
    match edge {
        Direction::Up => (r.y0, r.x0, r.x1),
        Direction::Down => (r.y1, r.x0, r.x1),
        Direction::Left => (r.x0, r.y0, r.y1),
        Direction::Right => (r.x1, r.y0, r.y1),
    }
}

/// Those that can be seen from outside.
#[must_use]
pub fn outermost(all: &[Join]) -> Vec<Join> {
    // Around another one only a join of a lower layer can lie, so it has been kept already.
    let mut kept: Vec<Join> = Vec::new();
    for join in all {
        if !kept.iter().any(|k| k.holds(join)) {
            kept.push(*join);
        }
    }
    kept
}
