//! Where the layers lie in space at a moment.
//!
//! At any moment the layers form at most three **sheaves**, each a pile of parallel layers in one plane: what stays
//! and what turns, or the two halves of an opened section and the leaf between them. Each sheaf lies wholly on one
//! side of a plane through the crease, so sheaves can be painted one after the other at every angle and from every
//! side, exactly, thickness included.

use super::trig::sin_cos;
use super::view::{Vec3, View};
use crate::fold::{Direction, Lands, Layer, Packet, Part, Reads, Section, Turn};

/// A plane with axes: `point = origin + x * ex + y * ey + w * normal`, all in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    /// Where `x = y = w = 0` lies.
    pub origin: Vec3,
    /// The way of `x`.
    pub ex: Vec3,
    /// The way of `y` (downwards on the paper).
    pub ey: Vec3,
    /// The way of `w`: out of the face that is up when nothing is turned.
    pub normal: Vec3,
}

const X: Vec3 = Vec3::new(1.0, 0.0, 0.0);
const Y_DOWN: Vec3 = Vec3::new(0.0, -1.0, 0.0);
const UP: Vec3 = Vec3::new(0.0, 0.0, 1.0);

impl Frame {
    /// The bench.
    pub const BENCH: Self = Self { origin: Vec3::new(0.0, 0.0, 0.0), ex: X, ey: Y_DOWN, normal: UP };

    /// A point of the plane's space.
    #[must_use]
    pub fn point(&self, x: f64, y: f64, w: f64) -> Vec3 {
        self.origin + self.ex * x + self.ey * y + self.normal * w
    }

    /// A part of the bench turned about a crease by `angle` (radians, 0 to pi), upwards for over, downwards for under.
    ///
    /// `at` is the line of the crease in mm, `axis` the height of its axis above the bench.
    #[must_use]
    pub fn turned(part: Part, at: f64, axis: f64, angle: f64, lands: Lands) -> Self {
        let out = outwards(part);
        let (s, c) = sin_cos(angle);
        let s = if lands == Lands::Over { s } else { -s };
        let arm = out * c + UP * s;
        let normal = UP * c - out * s;
        let hinge = Vec3::new(0.0, 0.0, axis);
        match part {
            Part::Right | Part::Left => {
                let ex = if part == Part::Right { arm } else { arm * -1.0 };
                Self { origin: hinge + X * at - ex * at, ex, ey: Y_DOWN, normal }
            }
            Part::Top | Part::Bottom => {
                let ey = if part == Part::Bottom { arm } else { arm * -1.0 };
                Self { origin: hinge + Y_DOWN * at - ey * at, ex: X, ey, normal }
            }
        }
    }

    /// The direction from a crease into the part that has this frame.
    #[must_use]
    pub fn arm(&self, part: Part) -> Vec3 {
        match part {
            Part::Right => self.ex,
            Part::Left => self.ex * -1.0,
            Part::Bottom => self.ey,
            Part::Top => self.ey * -1.0,
        }
    }

    /// The same frame turned by the matrix whose columns are given.
    fn rotated(&self, columns: [Vec3; 3]) -> Self {
        let r = |v: Vec3| columns[0] * v.x + columns[1] * v.y + columns[2] * v.z;
        Self { origin: self.origin, ex: r(self.ex), ey: r(self.ey), normal: r(self.normal) }
    }
}

/// The direction on the bench from a crease into a part.
const fn outwards(part: Part) -> Vec3 {
    match part {
        Part::Right => X,
        Part::Left => Vec3::new(-1.0, 0.0, 0.0),
        Part::Bottom => Y_DOWN,
        Part::Top => Vec3::new(0.0, 1.0, 0.0),
    }
}

/// Where a layer lies in its frame's plane, mm: what is added to its place on the sheet, mirrored as its placement says.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct At {
    /// To the right.
    pub dx: f64,
    /// Downwards.
    pub dy: f64,
}

/// What one layer shows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Sheet {
    /// A layer of the packet, lying as its placement says in the frame's plane, at its place there.
    Layer(Layer, At),
    /// Leaf number (from 0) of the opened section, lying upright before its reader, front up.
    Leaf(usize),
}

/// One layer and its height in its frame.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lying {
    /// What it shows.
    pub sheet: Sheet,
    /// Height of its middle along the frame's normal, mm.
    pub w: f64,
}

/// Layers in one plane, in the order of their `w`, lowest first.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheaf {
    /// The plane.
    pub frame: Frame,
    /// The layers.
    pub layers: Vec<Lying>,
    /// The direction from the crease into this sheaf.
    pub arm: Vec3,
    /// Height among sheaves whose arms coincide.
    pub level: f64,
    /// Thickness of each layer, mm.
    pub leaf: f64,
}

fn lerp(a: f64, b: f64, t: f64) -> f64 {
    a + (b - a) * t
}

/// A packet at rest. `leaf` is the thickness of a layer in mm.
#[must_use]
pub fn at_rest(packet: &Packet, places: &[At], leaf: f64) -> Vec<Sheaf> {
    let layers = lying(packet, places, leaf);
    vec![Sheaf { frame: Frame::BENCH, layers, arm: X, level: 0.0, leaf }]
}

/// The axis of a fold, in leaves above the lowest layer: before it is made, and once it is down.
fn axis(made: &Turn) -> (f64, f64) {
    match made.fold.lands {
        Lands::Over => (made.stayed as f64 - 0.5, made.stayed as f64 - 0.5),
        Lands::Under => (-0.5, (made.parents.len() - made.stayed) as f64 - 0.5),
    }
}

/// The plane of the part that moves in a fold that has gone `turn` of its way. `at` is the line of the crease, mm.
fn hinged(made: &Turn, turn: f64, leaf: f64, at: f64) -> Frame {
    let (start, end) = axis(made);
    let angle = turn * std::f64::consts::PI;
    Frame::turned(made.fold.moves, at, lerp(start, end, turn) * leaf, angle, made.fold.lands)
}

/// Where a point of a moved layer is in a fold on its way: layer `i` after the fold, at `x` and `y` in mm as it lay
/// before. `line` is that of the crease.
#[must_use]
pub fn moved_point(made: &Turn, i: usize, at: (f64, f64), turn: f64, leaf: f64, line: f64) -> Vec3 {
    let (start, end) = axis(made);
    let before = made.parents.get(i).map_or(0.0, |p| f64::from(*p));
    let w = lerp(before - start, end - i as f64, turn) * leaf;
    hinged(made, turn, leaf, line).point(at.0, at.1, w)
}

/// A fold on its way. `after` is the packet that it ends in, `before` the places of the layers before it, `turn` the share
/// of its half turn, `line` that of its crease in mm. What stays comes first.
#[must_use]
pub fn half_folded(after: &Packet, before: &[At], made: &Turn, turn: f64, leaf: f64, line: f64) -> Vec<Sheaf> {
    let (part, lands) = (made.fold.moves, made.fold.lands);
    let moved_count = made.parents.len() - made.stayed;
    let (start, end) = axis(made);
    let mut stays = Vec::with_capacity(made.stayed);
    let mut moves = Vec::with_capacity(moved_count);
    for (i, (layer, &parent)) in after.layers.iter().zip(&made.parents).enumerate() {
        let place = before.get(parent as usize).copied().unwrap_or_default();
        let (before, now) = (f64::from(parent), i as f64);
        if made.moved(i) {
            let flat = layer.flat_again(made);
            let w = lerp(before - start, end - now, turn) * leaf;
            moves.push(Lying { sheet: Sheet::Layer(flat, place), w });
        } else {
            stays.push(Lying { sheet: Sheet::Layer(*layer, place), w: lerp(before, now, turn) * leaf });
        }
    }
    // What moved lies in reverse order once it is down; in its own plane it is still as it was.
    moves.reverse();
    let frame = hinged(made, turn, leaf, line);
    let level = if lands == Lands::Over { 1.0 } else { -1.0 };
    vec![
        Sheaf { frame: Frame::BENCH, layers: stays, arm: outwards(part) * -1.0, level: 0.0, leaf },
        Sheaf { frame, layers: moves, arm: frame.arm(part), level, leaf },
    ]
}

/// The finished packet on its way from the bench to its reader: head away, front up. `centre` is the middle of the packet
/// as it lies, `page` the size of its page, mm.
#[must_use]
pub fn offered(
    packet: &Packet,
    places: &[At],
    section: &Section,
    turn: f64,
    leaf: f64,
    centre: (f64, f64),
    page: (f64, f64),
) -> Vec<Sheaf> {
    let mut quarter_turns = 0;
    let mut head = section.head;
    while head != Direction::Up && quarter_turns < 4 {
        head = head.clockwise();
        quarter_turns += 1;
    }
    let quarter_turns = if quarter_turns == 3 { -1.0 } else { f64::from(quarter_turns) };
    // Clockwise as seen from above is negative about the upward axis.
    let (s, c) = sin_cos(-quarter_turns * std::f64::consts::FRAC_PI_2 * turn);
    let flat = Frame::BENCH.rotated([Vec3::new(c, s, 0.0), Vec3::new(-s, c, 0.0), UP]);
    let flip = if section.front_up { 0.0 } else { std::f64::consts::PI * turn };
    let (fs, fc) = sin_cos(flip);
    let turned = flat.rotated([Vec3::new(fc, 0.0, fs), Vec3::new(0.0, 1.0, 0.0), Vec3::new(-fs, 0.0, fc)]);
    let half = (packet.layers.len() as f64 - 1.0) / 2.0 * leaf;
    let to = (page.0 / 2.0, page.1 / 2.0);
    let (cx, cy) = centre;
    let middle = Vec3::new(lerp(cx, to.0, turn), -lerp(cy, to.1, turn), half + fs * page.0 / 2.0);
    let origin = middle - turned.ex * cx - turned.ey * cy - turned.normal * half;
    let layers = lying(packet, places, leaf);
    vec![Sheaf { frame: Frame { origin, ..turned }, layers, arm: X, level: 0.0, leaf }]
}

/// The layers of a packet on one another.
fn lying(packet: &Packet, places: &[At], leaf: f64) -> Vec<Lying> {
    let layers = packet.layers.iter().zip(places).enumerate();
    layers.map(|(i, (l, at))| Lying { sheet: Sheet::Layer(*l, *at), w: i as f64 * leaf }).collect()
}

/// The opened section: `turned` leaves lie on the other side of the spine and the next one has gone `turn` of its way.
///
/// The spine is the line `x = 0` (or `x` = page width when read right to left).
#[must_use]
pub fn opened(leaves: usize, turned: usize, turn: f64, leaf: f64, page_width: f64, reads: Reads) -> Vec<Sheaf> {
    let (part, at) = match reads {
        Reads::LeftToRight => (Part::Right, 0.0),
        Reads::RightToLeft => (Part::Left, page_width),
    };
    let mut sheaves = Vec::with_capacity(3);
    let rest = if turn > 0.0 { turned + 1 } else { turned };
    let pile = (rest..leaves).rev();
    let unread = pile.map(|i| Lying { sheet: Sheet::Leaf(i), w: (leaves - 1 - i) as f64 * leaf }).collect::<Vec<_>>();
    // A turned leaf lies upside down: its height above the bench runs against its frame's normal.
    let read = (0..turned).rev().map(|i| Lying { sheet: Sheet::Leaf(i), w: -(i as f64) * leaf }).collect::<Vec<_>>();
    let mut push =
        |frame: Frame, layers, level| sheaves.push(Sheaf { frame, layers, arm: frame.arm(part), level, leaf });
    let over = |axis, angle| Frame::turned(part, at, axis, angle, Lands::Over);
    if !read.is_empty() {
        push(over(0.0, std::f64::consts::PI), read, 0.0);
    }
    if !unread.is_empty() {
        push(Frame::BENCH, unread, 0.0);
    }
    if turn > 0.0 && turned < leaves {
        let (from, to) = ((leaves - 1 - turned) as f64 + 0.5, turned as f64 - 0.5);
        let frame = over(lerp(from, to, turn) * leaf, turn * std::f64::consts::PI);
        push(frame, vec![Lying { sheet: Sheet::Leaf(turned), w: -0.5 * leaf }], 1.0);
    }
    sheaves
}

/// Sorts the sheaves about one crease from the farthest to the nearest to the eye.
///
/// Two half-planes that meet at a crease are parted by the plane that halves their angle, so the one whose arm
/// reaches farther towards the eye is in front. Arms that coincide (a fold all but down) are told apart by height.
pub fn farthest_first(sheaves: &mut [Sheaf], view: &View) {
    let eye = view.towards_eye();
    let nearer = |a: &Sheaf, b: &Sheaf| {
        let apart = eye.dot(a.arm) - eye.dot(b.arm);
        if apart.abs() > 1e-12 { apart > 0.0 } else { a.level * eye.z > b.level * eye.z }
    };
    // At most three: each is carried past those that are nearer.
    for end in (1..sheaves.len()).rev() {
        for i in 0..end {
            if nearer(&sheaves[i], &sheaves[i + 1]) {
                sheaves.swap(i, i + 1);
            }
        }
    }
}
