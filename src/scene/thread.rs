//! The thread that joins a page's places: from the section on the spine, through the page on the bench, to its cell on
//! the flat side.
//!
//! It is slack over the bench (one gentle curve) and taut on paper, where it lies in joints. It enters a page over a
//! free edge; where the page has none, or lies inside the packet, it goes in at the outline and is not seen.

use super::face::{PAGE_HEIGHT, PAGE_WIDTH};
use super::item::Scene;
use super::trig::sin_cos;
use kurbo::{Affine, BezPath, ParamCurve, Point, Rect, Vec2};

/// What the thread joins. All in one set of pixels.
#[derive(Clone, Debug, Default)]
pub struct Knots {
    /// The hole in the section on the spine, and the way out of it.
    pub slip: Option<(Point, Vec2)>,
    /// The upright page on the bench (page units to pixels), if it is seen.
    pub page: Option<Affine>,
    /// The middle of what lies on the bench.
    pub middle: Point,
    /// The upright page on its flat side.
    pub cell: Option<Affine>,
    /// The flat side.
    pub flat: Rect,
    /// The upright strip of bench beside the flat side where the thread runs: its `x`.
    pub gutter: f64,
}

/// The thread as it is drawn.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Thread {
    /// The lines.
    pub strands: BezPath,
    /// Holes through which it goes.
    pub holes: Vec<Point>,
}

const FIGURE: Point = Point::new(PAGE_WIDTH / 2.0, PAGE_HEIGHT / 2.0 + 4.0);
const LOOP: (f64, f64) = (72.0, 64.0);

/// Lays the thread. `bench` is the picture that it must not cross, in the same pixels as the knots.
#[must_use]
pub fn lay(knots: &Knots, bench: &Scene) -> Thread {
    let mut thread = Thread::default();
    let start = knots.slip.map(|s| s.0);
    let goal = knots.cell.map(|_| Point::new(knots.gutter, knots.flat.center().y));
    let (mut into, mut out) = (None, None);
    if let Some(page) = knots.page {
        draw_loop(&mut thread.strands, page);
        into = start.map(|s| door(page, bench, s, &mut thread));
        out = goal.map(|g| door(page, bench, g, &mut thread));
    } else {
        let march = |from: Option<Point>| from.map(|p| (outline(bench, p, knots.middle), knots.middle - p));
        into = into.or(march(start).map(|(p, v)| (p, -v)));
        out = out.or(march(goal).map(|(p, v)| (p, -v)));
    }
    if let (Some((hole, way)), Some((end, outwards))) = (knots.slip, into) {
        thread.holes.push(hole);
        slack(&mut thread.strands, hole, way, end, outwards);
    }
    if let Some(cell) = knots.cell {
        draw_loop(&mut thread.strands, cell);
        taut(&mut thread.strands, knots, cell, out);
    }
    thread
}

/// One open loop around the figure.
fn draw_loop(path: &mut BezPath, page: Affine) {
    let steps = 28;
    for i in 0..=steps {
        // From just right of the top, anticlockwise, not quite closed.
        let a = (-60.0 - 340.0 * f64::from(i) / f64::from(steps)).to_radians();
        let (sin, cos) = sin_cos(a);
        let p = page * (FIGURE + Vec2::new(LOOP.0 * cos, LOOP.1 * sin));
        if i == 0 { path.move_to(p) } else { path.line_to(p) }
    }
}

/// The way off a page: over the free edge nearest to `towards`. Draws the piece on the page, and returns where it
/// leaves and in which direction. A page without a free edge has a hole instead, and the thread goes in at the outline.
fn door(page: Affine, bench: &Scene, towards: Point, thread: &mut Thread) -> (Point, Vec2) {
    let (w, h) = (PAGE_WIDTH, PAGE_HEIGHT);
    // Beside the tick and the foot rule, not over them.
    let edges = [
        (Point::new(w * 0.78, 0.0), Vec2::new(0.0, -1.0)),
        (Point::new(w * 0.82, h), Vec2::new(0.0, 1.0)),
        (Point::new(0.0, FIGURE.y), Vec2::new(-1.0, 0.0)),
        (Point::new(w, FIGURE.y), Vec2::new(1.0, 0.0)),
    ];
    let free = edges.into_iter().filter(|(p, out)| bench.pick(page * (*p + *out * 6.0)).is_none());
    // Only over an edge from which the way stays off the paper, so that it crosses no other figure.
    let clear = free.filter(|(p, out)| {
        let (edge, outwards) = (page * *p, page * (*p + *out * 40.0) - page * *p);
        let mut way = BezPath::new();
        slack(&mut way, towards, Vec2::ZERO, edge, outwards);
        way.segments().all(|s| (0..=24).all(|i| bench.pick(s.eval(f64::from(i) / 25.0)).is_none()))
    });
    let best = clear.min_by(|a, b| (page * a.0 - towards).hypot().total_cmp(&(page * b.0 - towards).hypot()));
    match best {
        Some((edge, out)) => {
            let on_loop = match (out.x as i32, out.y as i32) {
                (0, -1) => Point::new(edge.x, FIGURE.y - LOOP.1 * 0.78),
                (0, _) => Point::new(edge.x, FIGURE.y + LOOP.1 * 0.76),
                (x, _) => Point::new(FIGURE.x + f64::from(x) * LOOP.0, FIGURE.y),
            };
            thread.strands.move_to(page * on_loop);
            thread.strands.line_to(page * edge);
            (page * edge, page * (edge + out * 40.0) - page * edge)
        }
        None => {
            let at = page * Point::new(FIGURE.x + LOOP.0 * 0.75, FIGURE.y - LOOP.1 * 0.75);
            thread.holes.push(at);
            let end = outline(bench, towards, at);
            (end, towards - end)
        }
    }
}

/// Where the straight way from outside to a point first meets the paper.
fn outline(bench: &Scene, from: Point, to: Point) -> Point {
    let steps = 160;
    let along = |i: i32| from.lerp(to, f64::from(i) / f64::from(steps));
    (0..=steps).map(along).find(|p| bench.pick(*p).is_some()).unwrap_or(to)
}

/// A gentle curve that leaves `a` the way `out` and arrives at `b` against `outwards`.
fn slack(path: &mut BezPath, a: Point, out: Vec2, b: Point, outwards: Vec2) {
    let reach = (b - a).hypot();
    let unit = |v: Vec2| if v.hypot() > 1e-9 { v / v.hypot() } else { Vec2::ZERO };
    path.move_to(a);
    path.curve_to(a + unit(out) * reach * 0.45, b + unit(outwards) * reach * 0.4, b);
}

/// From the bench to the gutter, down the gutter, along the joint at the foot of the page, to the loop.
fn taut(path: &mut BezPath, knots: &Knots, cell: Affine, out: Option<(Point, Vec2)>) {
    let foot = cell * Point::new(PAGE_WIDTH * 0.82, PAGE_HEIGHT);
    let on_loop = cell * Point::new(PAGE_WIDTH * 0.82, FIGURE.y + LOOP.1 * 0.76);
    // A page that lies on its side has its foot at an upright joint; come in along the level one instead.
    let level = (foot.x - on_loop.x).abs() < (foot.y - on_loop.y).abs();
    let (joint, end) = if level {
        (foot, on_loop)
    } else {
        let corner = cell * Point::new(0.0, FIGURE.y);
        (corner, cell * Point::new(FIGURE.x - LOOP.0, FIGURE.y))
    };
    let turn = Point::new(knots.gutter, joint.y);
    if let Some((start, outwards)) = out {
        // Arrive in the gutter at the height of the joint, level.
        let way = if start.x < knots.gutter { Vec2::new(-1.0, 0.0) } else { Vec2::new(0.0, -1.0) };
        slack(path, start, outwards, turn, way);
    } else {
        path.move_to(turn);
    }
    let r = 7.0_f64.min((joint.x - turn.x).abs() / 2.0).min((end.y - joint.y).abs() / 2.0);
    let x = (joint.x - turn.x).signum();
    let y = (end.y - joint.y).signum();
    path.line_to((joint.x - x * r, joint.y));
    path.quad_to(joint, Point::new(joint.x, joint.y + y * r));
    path.line_to(end);
}
