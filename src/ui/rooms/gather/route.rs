//! The way of the thread in this room: from the pile and from the rows that a line of the verdict points at, to the
//! stitch before that line.
//!
//! On paper it is taut and lies along the middle of a row, from beside the mark to the end of the spine; from there it
//! is slack to the stitch. Beside the stack it lies in the joint, at the tail of the spine in a wide window and at the
//! head in a narrow one, where the words stand below. It crosses no word and no mark.

use crate::scene::thread::Thread;
use crate::scene::{PilesLay, StackLay};
use kurbo::{BezPath, ParamCurve, PathSeg, Point, Rect, Vec2};

/// What one line of the verdict joins.
#[derive(Clone, Debug, PartialEq)]
pub struct Ends {
    /// Places in the stack, ascending.
    pub places: Vec<u32>,
    /// The section whose pile is left over.
    pub pile: Option<u32>,
    /// The stitch before the line.
    pub stitch: Rect,
}

/// What the thread runs over, in one set of pixels.
pub struct Ground<'a> {
    /// The stack, and where its picture begins.
    pub stack: &'a StackLay,
    pub stack_at: Vec2,
    /// From where to where each row bears anything, in the picture of the stack.
    pub extents: &'a [Option<(f64, f64)>],
    /// The piles, where their picture begins, and the one whose number is always written.
    pub piles: &'a PilesLay,
    pub piles_at: Vec2,
    pub picked: u32,
    /// The height of the rim below the piles.
    pub rim: f64,
    /// Words that a slack thread keeps off.
    pub words: &'a [Rect],
    /// Whether the words stand below the stack.
    pub narrow: bool,
}

/// Lays the thread.
pub fn lay(ground: &Ground, all: &[Ends]) -> Thread {
    let mut thread = Thread::default();
    for ends in all {
        let target = strands(ground, ends, &mut thread);
        if let Some(pile) = ends.pile {
            from_pile(ground, ends, pile, target, &mut thread);
        }
    }
    thread
}

impl Ground<'_> {
    fn row(&self, place: u32) -> Rect {
        self.stack.row(place) + self.stack_at
    }

    fn extent(&self, place: u32) -> Option<(f64, f64)> {
        let (from, to) = (*self.extents.get((place as usize).checked_sub(1)?)?)?;
        let by = self.stack_at.x;
        Some((from + by, to + by))
    }

    /// The hole beside what a row bears, at the side where the thread leaves.
    fn hole(&self, place: u32) -> Point {
        let row = self.row(place);
        let x = match (self.extent(place), self.narrow) {
            (Some((from, _)), true) => (from - 10.0).max(row.x0 + 5.0),
            (Some((_, to)), false) => (to + 10.0).min(row.x1 - 5.0),
            (None, _) => row.center().x,
        };
        Point::new(x, row.center().y)
    }

    /// The joint beside the spine.
    fn joint(&self) -> f64 {
        if self.narrow { self.stack.face.x0 + self.stack_at.x - 4.0 } else { self.stack.face.x1 + self.stack_at.x }
    }
}

/// From the rows to the stitch. Returns where a thread from above may join.
fn strands(g: &Ground, ends: &Ends, thread: &mut Thread) -> Option<Point> {
    let path = &mut thread.strands;
    let mut exits: Vec<Point> = Vec::new();
    let mut target = None;
    for run in runs(&ends.places) {
        let (first, last) = (*run.first()?, *run.last()?);
        let mut holes: Vec<Point> = if first == last { vec![g.hole(first)] } else { vec![g.hole(first), g.hole(last)] };
        if let ([a, b], true) = (holes.as_mut_slice(), last == first + 1) {
            // Two neighbours are tied together beside both their marks, and leave by one row.
            let x = if g.narrow { a.x.min(b.x) } else { a.x.max(b.x) };
            (a.x, b.x) = (x, x);
            path.move_to(*b);
            path.line_to(*a);
        }
        target = target.or(holes.first().copied());
        let leave = if last == first + 1 { &holes[..1] } else { &holes[..] };
        for hole in leave {
            path.move_to(*hole);
            let end = Point::new(g.joint(), hole.y);
            path.line_to(end);
            exits.push(end);
        }
        // Of two neighbours on thin rows the holes would lie on each other.
        let seen = if last == first + 1 && g.stack.pitch < 10.0 { 1 } else { holes.len() };
        thread.holes.extend(holes.into_iter().take(seen));
    }
    let heights = || exits.iter().map(|exit| exit.y);
    let (top, bottom) = (heights().reduce(f64::min)?, heights().reduce(f64::max)?);
    let joint = g.joint();
    if bottom > top {
        path.move_to((joint, top));
        path.line_to((joint, bottom));
    }
    let end = Point::new(ends.stitch.x0, ends.stitch.center().y);
    if g.narrow {
        // Down the joint, past the foot, along the margin, and in to the stitch.
        let foot = g.stack.face.y1 + g.stack_at.y;
        let margin = 7.0_f64.min(end.x - 4.0);
        path.move_to((joint, bottom));
        path.line_to((joint, foot));
        let below = foot + 34.0;
        path.curve_to((joint, foot + 20.0), (margin, foot + 14.0), (margin, below));
        hook(path, margin, below, end);
    } else {
        let far = |exit: &Point| (exit.y - end.y).abs();
        let start = exits.iter().copied().min_by(|a, b| far(a).total_cmp(&far(b)))?;
        let half = (end.x - start.x) * 0.55;
        path.move_to(start);
        path.curve_to(start + Vec2::new(half, 0.0), end - Vec2::new(half, 0.0), end);
    }
    target
}

/// Places that follow one another, together.
fn runs(places: &[u32]) -> Vec<Vec<u32>> {
    let mut runs: Vec<Vec<u32>> = Vec::new();
    for &place in places {
        match runs.last_mut() {
            Some(run) if run.last().is_some_and(|last| last + 1 == place) => run.push(place),
            _ => runs.push(vec![place]),
        }
    }
    runs
}

/// Down the margin to the height of a stitch, and round the corner into it.
fn hook(path: &mut BezPath, x: f64, from: f64, end: Point) {
    let r = (end.x - x).min(8.0);
    path.line_to((x, (end.y - r).max(from)));
    path.quad_to((x, end.y), (x + r, end.y));
    path.line_to(end);
}

/// From a pile to the row, slack, if nothing lies in the way; else along the rim and down beside the stack.
fn from_pile(g: &Ground, ends: &Ends, pile: u32, target: Option<Point>, thread: &mut Thread) {
    let hole = g.piles.hole(pile) + g.piles_at;
    let gap = g.piles.gap(pile, g.picked) + g.piles_at.x;
    thread.holes.push(hole);
    let path = &mut thread.strands;
    path.move_to(hole);
    path.curve_to((hole.x + 8.0, hole.y - 6.0), (gap, hole.y - 4.0), (gap, hole.y + 16.0));
    path.line_to((gap, g.rim));
    let start = Point::new(gap, g.rim);
    let slack = target.and_then(|target| {
        let bows = [0.5, 0.25, 0.75, 0.1, 0.9];
        bows.into_iter().map(|bow| curve(start, target, bow)).find(|curve| clear(g, curve, target))
    });
    if let Some(PathSeg::Cubic(c)) = slack {
        path.curve_to(c.p1, c.p2, c.p3);
        return;
    }
    let end = Point::new(ends.stitch.x0, ends.stitch.center().y);
    if g.narrow {
        let margin = 7.0_f64.min(end.x - 4.0);
        path.line_to((margin + 8.0, g.rim));
        path.quad_to((margin, g.rim), (margin, g.rim + 8.0));
        hook(path, margin, g.rim + 8.0, end);
    } else {
        let gutter = end.x - 12.0;
        path.line_to((gutter - (gutter - gap).signum() * 8.0, g.rim));
        path.quad_to((gutter, g.rim), (gutter, g.rim + 8.0));
        hook(path, gutter, g.rim + 8.0, end);
    }
}

/// Straight down from the rim, then over to the row.
fn curve(start: Point, target: Point, bow: f64) -> PathSeg {
    let drop = target.y - start.y;
    PathSeg::Cubic(kurbo::CubicBez::new(
        start,
        start + Vec2::new(0.0, drop * (0.45 + 0.5 * bow)),
        target + Vec2::new((start.x - target.x) * 0.6, -drop * 0.35 * (1.0 - bow)),
        target,
    ))
}

/// Whether a curve keeps off the words and off all marks but the one beside its end.
fn clear(g: &Ground, curve: &PathSeg, target: Point) -> bool {
    let steps = 60;
    (0..steps).map(|i| curve.eval(f64::from(i) / f64::from(steps))).all(|p| {
        let words = g.words.iter().any(|word| word.inflate(6.0, 4.0).contains(p));
        let local = p - g.stack_at;
        let on_rows = (g.stack.face.y0..g.stack.face.y1).contains(&local.y);
        let mark = on_rows && (p - target).hypot() > 9.0 && {
            let (place, margin) = (g.stack.place_at(local.y), if g.stack.pitch > 10.0 { 5.0 } else { 2.0 });
            g.extent(place).is_some_and(|(from, to)| (from - margin..=to + margin).contains(&p.x))
        };
        !words && !mark
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scene::Space;
    use kurbo::PathEl;

    const SPACE: Space = Space { width: 640.0, height: Some(460.0), scale: 1.0 };

    /// All points of a path, closely.
    fn points(path: &BezPath) -> Vec<Point> {
        assert!(path.elements().iter().all(|e| !matches!(e, PathEl::ClosePath)));
        path.segments().flat_map(|s| (0..=40).map(move |i| s.eval(f64::from(i) / 40.0))).collect()
    }

    fn try_all(count: u32, narrow: bool, levels: u32) {
        let space = if narrow { Space { width: 343.0, height: None, scale: 1.0 } } else { SPACE };
        let stack = StackLay::new(space, count, 216.0);
        let piles = PilesLay::new(Space { width: if narrow { 343.0 } else { 1176.0 }, ..space }, count);
        let design = crate::marks::Design { levels, ..Default::default() };
        let extents: Vec<_> =
            (1..=count).map(|s| design.middle_mm(s)).map(|m| Some((stack.x(m - 4.5), stack.x(m + 4.5)))).collect();
        let stack_at = Vec2::new(28.0, 240.0);
        let title = Rect::new(62.0, 212.0, 345.0, 234.0);
        for first in 1..=count {
            for places in [vec![first], vec![first, (first + 1).min(count)], vec![1, first], (1..=first).collect()] {
                let mut places = places;
                places.dedup();
                let stitch =
                    if narrow { Rect::new(16.0, 700.0, 19.0, 730.0) } else { Rect::new(700.0, 300.0, 703.0, 330.0) };
                let ground = Ground {
                    stack: &stack,
                    stack_at: if narrow { Vec2::new(16.0, 240.0) } else { stack_at },
                    extents: &extents,
                    piles: &piles,
                    piles_at: Vec2::new(28.0, 80.0),
                    picked: 2,
                    rim: 200.0,
                    words: &[title],
                    narrow,
                };
                let thread = lay(&ground, &[Ends { places: places.clone(), pile: Some(first), stitch }]);
                for p in points(&thread.strands) {
                    assert!(!title.contains(p), "{count} {places:?} {p:?}");
                    let row = (1..=count).find(|place| ground.row(*place).contains(p));
                    if let Some((from, to)) = row.and_then(|place| ground.extent(place)) {
                        // Rows that are hardly thicker than the thread are touched at their very edges.
                        assert!(stack.pitch < 8.0 || p.x <= from || p.x >= to, "{count} {places:?} {p:?}");
                    }
                    for s in (1..=count).filter(|s| piles.numbered(*s, 2)) {
                        let at = piles.pile(s).center().x + ground.piles_at.x;
                        let number = Rect::new(at - 8.0, ground.rim - 20.0, at + 8.0, ground.rim - 6.0);
                        assert!(count > 60 || !number.contains(p), "{count} pile {s} {p:?}");
                    }
                }
            }
        }
    }

    #[test]
    fn it_crosses_no_word_and_no_mark() {
        for narrow in [false, true] {
            try_all(1, narrow, 20);
            try_all(18, narrow, 20);
            try_all(30, narrow, 20);
            try_all(99, narrow, 20);
        }
    }

    #[test]
    fn nothing_pointed_at_is_no_thread() {
        let (stack, piles) = (StackLay::new(SPACE, 3, 216.0), PilesLay::new(SPACE, 3));
        let ground = Ground {
            stack: &stack,
            stack_at: Vec2::ZERO,
            extents: &[],
            piles: &piles,
            piles_at: Vec2::ZERO,
            picked: 1,
            rim: 0.0,
            words: &[],
            narrow: false,
        };
        let ends = Ends { places: vec![], pile: None, stitch: Rect::ZERO };
        assert_eq!(lay(&ground, &[ends]), Thread::default());
    }
}
