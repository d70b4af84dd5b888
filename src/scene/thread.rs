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

/// An end of a strand away from the page, and the direction in which it leaves there.
type End = (Point, Vec2);

/// Lays the thread. `bench` is the picture that it must not cross, in the same pixels as the knots.
#[must_use]
pub fn lay(knots: &Knots, bench: &Scene) -> Thread {
    let mut thread = Thread::default();
    let taut = knots.cell.map(|cell| Taut::to(cell, knots));
    if let Some(page) = knots.page {
        draw_loop(&mut thread.strands, page);
    }
    if let Some(slip) = knots.slip {
        thread.holes.push(slip.0);
        join(knots, bench, slip, &mut thread);
    }
    if let (Some(cell), Some(taut)) = (knots.cell, taut) {
        draw_loop(&mut thread.strands, cell);
        join(knots, bench, taut.end, &mut thread);
        taut.draw(&mut thread.strands);
    }
    thread
}

/// Joins an end to the page on the bench, or to the packet that it lies in.
fn join(knots: &Knots, bench: &Scene, from: End, thread: &mut Thread) {
    let (to, outwards) = match knots.page {
        Some(page) => door(page, bench, from, thread),
        None => {
            let in_at = outline(bench, from.0, knots.middle);
            (in_at, from.0 - in_at)
        }
    };
    let way = slack(from, (to, outwards));
    if clear(bench, &way) {
        thread.strands.extend(way);
    } else {
        // The straight way is clear: it ends where it first meets the paper.
        thread.strands.move_to(from.0);
        thread.strands.line_to(to);
    }
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

/// The way off a page: over the free edge nearest to where the strand comes from. Draws the piece on the page, and
/// returns where it leaves and in which direction. A page without such an edge has a hole instead, and the thread goes
/// in at the outline of the paper.
fn door(page: Affine, bench: &Scene, from: End, thread: &mut Thread) -> End {
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
    let usable = free.filter(|(p, out)| {
        let (edge, outwards) = (page * *p, page * (*p + *out * 40.0) - page * *p);
        clear(bench, &slack(from, (edge, outwards)))
    });
    let far = |p: Point| (page * p - from.0).hypot();
    let best = usable.min_by(|a, b| far(a.0).total_cmp(&far(b.0)));
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
            let end = outline(bench, from.0, at);
            (end, from.0 - end)
        }
    }
}

/// Where the straight way from outside to a point first meets the paper.
fn outline(bench: &Scene, from: Point, to: Point) -> Point {
    let steps = 160;
    let along = |i: i32| from.lerp(to, f64::from(i) / f64::from(steps));
    (0..=steps).map(along).find(|p| bench.pick(*p).is_some()).unwrap_or(to)
}

/// A gentle curve from one end to the other, leaving each in its own direction.
fn slack(a: End, b: End) -> BezPath {
    let reach = (b.0 - a.0).hypot();
    let unit = |v: Vec2| if v.hypot() > 1e-9 { v / v.hypot() } else { Vec2::ZERO };
    let mut path = BezPath::new();
    path.move_to(a.0);
    path.curve_to(a.0 + unit(a.1) * reach * 0.45, b.0 + unit(b.1) * reach * 0.4, b.0);
    path
}

/// Whether a way stays off the paper, but for its last tenth, which may touch the edge where it goes in.
fn clear(bench: &Scene, way: &BezPath) -> bool {
    way.segments().all(|s| (0..=27).all(|i| bench.pick(s.eval(f64::from(i) / 30.0)).is_none()))
}

/// The taut piece: down the gutter, along a joint, to the loop in the cell.
struct Taut {
    /// Where it begins in the gutter, and the direction from there towards the bench.
    end: End,
    /// Where it leaves the gutter.
    turn: Point,
    /// Where it leaves the joint.
    joint: Point,
    /// Where it meets the loop.
    on_loop: Point,
}

impl Taut {
    fn to(cell: Affine, knots: &Knots) -> Self {
        let foot = cell * Point::new(PAGE_WIDTH * 0.82, PAGE_HEIGHT);
        let below = cell * Point::new(PAGE_WIDTH * 0.82, FIGURE.y + LOOP.1 * 0.76);
        // A page that lies on its side has its foot at an upright joint; come in along the level one instead.
        let upright = (foot.x - below.x).abs() < (foot.y - below.y).abs();
        let (joint, on_loop) = if upright {
            (foot, below)
        } else {
            (cell * Point::new(0.0, FIGURE.y), cell * Point::new(FIGURE.x - LOOP.0, FIGURE.y))
        };
        let turn = Point::new(knots.gutter, joint.y);
        // Where the gutter is narrow, between two flat sides below the bench, the thread comes down it from above.
        let narrow = (knots.flat.x0 - knots.gutter).abs().min((knots.gutter - knots.flat.x1).abs()) < 10.0;
        let end = if narrow {
            (Point::new(knots.gutter, knots.flat.y0 - 34.0), Vec2::new(0.0, -1.0))
        } else {
            (turn, Vec2::new(-1.0, 0.0))
        };
        Self { end, turn, joint, on_loop }
    }

    fn draw(&self, path: &mut BezPath) {
        let (joint, turn, end) = (self.joint, self.turn, self.on_loop);
        let r = 7.0_f64.min((joint.x - turn.x).abs() / 2.0).min((end.y - joint.y).abs() / 2.0);
        let (x, y) = ((joint.x - turn.x).signum(), (end.y - joint.y).signum());
        path.move_to(self.end.0);
        path.line_to(turn);
        path.line_to((joint.x - x * r, joint.y));
        path.quad_to(joint, Point::new(joint.x, joint.y + y * r));
        path.line_to(end);
    }
}
