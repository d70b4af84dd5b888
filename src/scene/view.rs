//! How the bench is looked at: a parallel projection, turned and tilted.

use super::trig::sin_cos;
use crate::fold::Lay;
use kurbo::Point;

/// A point or direction above the bench in mm: `x` right, `y` away from the viewer, `z` up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Vec3 {
    /// To the right.
    pub x: f64,
    /// Away from the viewer.
    pub y: f64,
    /// Up.
    pub z: f64,
}

impl Vec3 {
    /// A vector from its parts.
    #[must_use]
    pub const fn new(x: f64, y: f64, z: f64) -> Self {
        Self { x, y, z }
    }

    /// The scalar product.
    #[must_use]
    pub fn dot(self, o: Self) -> f64 {
        self.x * o.x + self.y * o.y + self.z * o.z
    }
}

impl std::ops::Add for Vec3 {
    type Output = Self;
    fn add(self, o: Self) -> Self {
        Self::new(self.x + o.x, self.y + o.y, self.z + o.z)
    }
}

impl std::ops::Sub for Vec3 {
    type Output = Self;
    fn sub(self, o: Self) -> Self {
        self + o * -1.0
    }
}

impl std::ops::Mul<f64> for Vec3 {
    type Output = Self;
    fn mul(self, k: f64) -> Self {
        Self::new(self.x * k, self.y * k, self.z * k)
    }
}

/// How the sheet was turned in the hands: where its own axes point on the bench.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Turned {
    x: Vec3,
    y: Vec3,
    z: Vec3,
}

impl Turned {
    /// As its scheme has it: nothing is turned.
    pub const NOT: Self =
        Self { x: Vec3::new(1.0, 0.0, 0.0), y: Vec3::new(0.0, 1.0, 0.0), z: Vec3::new(0.0, 0.0, 1.0) };

    /// Laid like this, by so large a share of all its turns.
    #[must_use]
    pub fn of(lay: Lay, share: f64) -> Self {
        let over = if lay.over { 180.0 * share } else { 0.0 };
        Self::NOT.over(over).round(f64::from(lay.quarters % 4) * 90.0 * share)
    }

    /// Turned over by degrees, left to right: the left edge is lifted and led to the right.
    #[must_use]
    pub fn over(self, degrees: f64) -> Self {
        if degrees == 0.0 {
            return self;
        }
        let (s, c) = sin_cos(degrees.to_radians());
        let turn = |v: Vec3| Vec3::new(v.x * c + v.z * s, v.y, v.z * c - v.x * s);
        Self { x: turn(self.x), y: turn(self.y), z: turn(self.z) }
    }

    /// Turned round on the bench by degrees, clockwise.
    #[must_use]
    pub fn round(self, degrees: f64) -> Self {
        if degrees == 0.0 {
            return self;
        }
        let (s, c) = sin_cos(degrees.to_radians());
        let turn = |v: Vec3| Vec3::new(v.x * c + v.y * s, v.y * c - v.x * s, v.z);
        Self { x: turn(self.x), y: turn(self.y), z: turn(self.z) }
    }

    /// This turning of something that was turned so before.
    #[must_use]
    pub fn after(self, before: Self) -> Self {
        Self { x: self.on_bench(before.x), y: self.on_bench(before.y), z: self.on_bench(before.z) }
    }

    /// A point or direction of the sheet, on the bench.
    #[must_use]
    pub fn on_bench(&self, p: Vec3) -> Vec3 {
        self.x * p.x + self.y * p.y + self.z * p.z
    }

    /// A direction on the bench, as the sheet has it.
    fn on_sheet(&self, v: Vec3) -> Vec3 {
        Vec3::new(self.x.dot(v), self.y.dot(v), self.z.dot(v))
    }

    /// 1 if the sheet's upper side lies up, -1 if it lies down, between while it is turned over.
    #[must_use]
    pub const fn up(&self) -> f64 {
        self.z.z
    }
}

/// Where the eye is, and how the sheet lies before it. Nothing recedes: parallel edges stay parallel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct View {
    /// The turn of the sheet in degrees; its right side goes away from the viewer.
    pub turn: f64,
    /// The height of the eye over the bench in degrees; negative looks from beneath.
    pub eye: f64,
    /// Pixels for a millimetre.
    pub scale: f64,
    /// Where the bench's origin appears.
    pub origin: Point,
    /// How the sheet lies on the bench.
    pub lay: Turned,
}

impl View {
    /// The view that the room opens with, at scale 1.
    pub const OPENING: Self = Self { turn: 11.0, eye: 50.0, scale: 1.0, origin: Point::ORIGIN, lay: Turned::NOT };

    fn turned(&self, p: Vec3) -> Vec3 {
        let (s, c) = sin_cos(self.turn.to_radians());
        Vec3::new(p.x * c - p.y * s, p.x * s + p.y * c, p.z)
    }

    /// Where a point of the sheet's space appears.
    #[must_use]
    pub fn project(&self, p: Vec3) -> Point {
        let q = self.turned(self.lay.on_bench(p));
        let (s, c) = sin_cos(self.eye.to_radians());
        self.origin + kurbo::Vec2::new(q.x, -(q.y * s + q.z * c)) * self.scale
    }

    /// The view of something that lies elsewhere, so far from where its own places say. Nothing recedes, so it is the
    /// same picture.
    #[must_use]
    pub fn moved(&self, by: Vec3) -> Self {
        Self { origin: self.project(by), ..*self }
    }

    /// The direction from the sheet to the eye, in the sheet's space.
    #[must_use]
    pub fn towards_eye(&self) -> Vec3 {
        let (s, c) = sin_cos(self.eye.to_radians());
        let (ts, tc) = sin_cos(self.turn.to_radians());
        // Turned back from (0, -c, s).
        self.lay.on_sheet(Vec3::new(-c * ts, -c * tc, s))
    }

    /// Whether the sheet is seen from above, as its scheme has it: its side A, when it is flat.
    #[must_use]
    pub fn from_above(&self) -> bool {
        self.towards_eye().z > 0.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_nearer_the_eye_moves_nothing_on_screen() {
        let view = View { scale: 1.7, ..View::OPENING };
        let p = Vec3::new(30.0, -12.0, 4.0);
        let (a, b) = (view.project(p), view.project(p + view.towards_eye() * 50.0));
        assert!((a - b).hypot() < 1e-9, "{a:?} {b:?}");
    }

    #[test]
    fn the_right_side_goes_away_and_up() {
        let view = View::OPENING;
        assert!(view.project(Vec3::new(100.0, 0.0, 0.0)).y < 0.0);
        assert!(view.project(Vec3::new(0.0, 0.0, 10.0)).y < 0.0);
        let beneath = View { eye: -50.0, ..view };
        assert!(beneath.project(Vec3::new(0.0, 100.0, 0.0)).y > 0.0, "from beneath, away is down");
    }
}
