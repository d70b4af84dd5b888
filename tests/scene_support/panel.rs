//! One panel of the sheet as a rigid body in space, and how it turns about a crease.

use backmark::fold::{Direction, Side};
use backmark::scene::Vec3;
use kurbo::Point;

/// The middle of an edge of a panel, in the view of the face that it is an edge of.
pub fn edge_middle((w, h): (f64, f64), edge: Direction) -> Point {
    match edge {
        Direction::Up => Point::new(w / 2.0, 0.0),
        Direction::Right => Point::new(w, h / 2.0),
        Direction::Down => Point::new(w / 2.0, h),
        Direction::Left => Point::new(0.0, h / 2.0),
    }
}

/// One panel of the sheet in space: `corner + u * eu + v * ev`, with `u` along its row and `v` down its column as
/// side A sees them.
#[derive(Clone, Copy, Debug)]
pub struct Panel {
    pub row: u32,
    pub column: u32,
    pub corner: Vec3,
    pub eu: Vec3,
    pub ev: Vec3,
}

impl Panel {
    pub fn at(&self, u: f64, v: f64) -> Vec3 {
        self.corner + self.eu * u + self.ev * v
    }

    /// Out of side A.
    pub fn normal(&self) -> Vec3 {
        cross(self.ev, self.eu)
    }

    pub fn side_towards(&self, eye: Vec3) -> Side {
        if self.normal().dot(eye) > 0.0 { Side::A } else { Side::B }
    }

    /// A point of a face, given in that face's own view.
    pub fn on_face(&self, side: Side, p: Point, (w, _): (f64, f64)) -> Vec3 {
        self.at(if side == Side::A { p.x } else { w - p.x }, p.y)
    }

    /// How far from `from` the line towards the eye meets the panel's plane, and where (`u`, `v`).
    pub fn met(&self, from: Vec3, eye: Vec3) -> Option<(f64, f64, f64)> {
        let n = self.normal();
        let slope = n.dot(eye);
        (slope.abs() > 1e-9).then(|| {
            let far = n.dot(self.corner - from) / slope;
            let here = from + eye * far - self.corner;
            (far, here.dot(self.eu), here.dot(self.ev))
        })
    }

    pub fn corners(&self, (w, h): (f64, f64)) -> [Vec3; 4] {
        [self.at(0.0, 0.0), self.at(w, 0.0), self.at(w, h), self.at(0.0, h)]
    }

    pub fn turned(&self, about: &Axis, angle: f64) -> Panel {
        Panel {
            corner: about.point + rotated(self.corner - about.point, about.way, angle),
            eu: rotated(self.eu, about.way, angle),
            ev: rotated(self.ev, about.way, angle),
            ..*self
        }
    }
}

/// A crease in space.
pub struct Axis {
    pub point: Vec3,
    pub way: Vec3,
}

pub fn cross(a: Vec3, b: Vec3) -> Vec3 {
    Vec3::new(a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x)
}

/// Rodrigues' formula.
pub fn rotated(v: Vec3, about: Vec3, angle: f64) -> Vec3 {
    let (s, c) = angle.sin_cos();
    v * c + cross(about, v) * s + about * (about.dot(v) * (1.0 - c))
}
