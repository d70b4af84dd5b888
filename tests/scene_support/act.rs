//! A scheme on the bench, the same sheet by the geometry of the tests alone, and the two compared.

use super::panel::{Axis, Panel};
use super::random::Random;
use super::{THICK, THIN, TURNS};
use backmark::fold::{Crease, Face, Folding, Landing, Lands, Part, Scheme, Section};
use backmark::scene::{Bench, Group, Ink, Item, Printing, Scene, Shown, Tag, Vec3, View};
use kurbo::{Point, Shape};

/// A scheme on the bench, with what the second opinion needs.
pub struct Act {
    pub name: String,
    pub bench: Bench,
    pub panel: (f64, f64),
}

#[derive(Default)]
pub struct Told {
    pub compared: u64,
    pub skipped: u64,
}

impl Act {
    pub fn of(name: &str, scheme: &Scheme) -> Act {
        let section = Folding::of(scheme).and_then(|folding| Section::of(scheme, &folding)).ok();
        let printing = match section.as_ref().map(Landing::of_section) {
            Some(landing) => Printing::landed(landing, 0),
            None => Printing::blank(scheme.rows, scheme.columns),
        };
        let printing = Printing { reads: scheme.reads, coarse: false, ..printing };
        let panel = printing.panel();
        Act { name: format!("{name} {scheme:?}"), bench: Bench::new(printing, scheme).unwrap(), panel }
    }

    pub fn moments(&self) -> Vec<(usize, f64)> {
        let folds = self.bench.folding.steps.len();
        let moving = (0..folds).flat_map(|fold| TURNS.map(|turn| (fold, turn)));
        moving.chain([(folds, 0.0)]).collect()
    }

    pub fn scene(&self, at: f64, view: &View, leaf: f64) -> Scene {
        self.bench.scene(at, view, &Shown { leaf, crease: None }).scene
    }

    pub fn flat(&self) -> Vec<Panel> {
        let (w, h) = self.panel;
        let (eu, ev) = (Vec3::new(1.0, 0.0, 0.0), Vec3::new(0.0, -1.0, 0.0));
        let all = (0..self.bench.folding.rows).flat_map(|r| (0..self.bench.folding.columns).map(move |c| (r, c)));
        let corner = |r: u32, c: u32| eu * (f64::from(c) * w) + ev * (f64::from(r) * h);
        all.map(|(row, column)| Panel { row, column, corner: corner(row, column), eu, ev }).collect()
    }

    /// Whether a panel lies in the part that moves, and the axis and the angle about it.
    pub fn hinge(&self, fold: usize, height: f64) -> (impl Fn(&Panel) -> bool + use<>, Axis, f64) {
        let turn = &self.bench.folding.steps[fold].turn;
        let (w, h) = self.panel;
        let upright = turn.fold.crease == Crease::Vertical;
        let line = f64::from(turn.at) * if upright { w } else { h };
        let point = if upright { Vec3::new(line, 0.0, height) } else { Vec3::new(0.0, -line, height) };
        let part = turn.fold.moves;
        let moves = move |p: &Panel| {
            let middle = p.at(w / 2.0, h / 2.0);
            match part {
                Part::Right => middle.x > line,
                Part::Left => middle.x < line,
                Part::Bottom => -middle.y > line,
                Part::Top => -middle.y < line,
            }
        };
        // The way about which a right-handed turn lifts the part.
        let way = match part {
            Part::Right => Vec3::new(0.0, -1.0, 0.0),
            Part::Left => Vec3::new(0.0, 1.0, 0.0),
            Part::Top => Vec3::new(1.0, 0.0, 0.0),
            Part::Bottom => Vec3::new(-1.0, 0.0, 0.0),
        };
        let sense = if turn.fold.lands == Lands::Over { 1.0 } else { -1.0 };
        (moves, Axis { point, way }, sense)
    }

    /// All panels after some folds, each turned as one stiff pile about a crease on top of (or below) the packet.
    pub fn rigid(&self, made: usize, turn: f64) -> Vec<Panel> {
        let mut paper = self.flat();
        for fold in 0..=made {
            let share = if fold < made { 1.0 } else { turn };
            if share == 0.0 {
                break;
            }
            let over = self.bench.folding.steps[fold].turn.fold.lands == Lands::Over;
            let heights = paper.iter().map(|p| p.corner.z);
            let height = if over {
                heights.fold(f64::MIN, f64::max) + THIN / 2.0
            } else {
                heights.fold(f64::MAX, f64::min) - THIN / 2.0
            };
            let (moves, axis, sense) = self.hinge(fold, height);
            let angle = sense * share * std::f64::consts::PI;
            for panel in paper.iter_mut().filter(|p| moves(p)) {
                *panel = panel.turned(&axis, angle);
            }
        }
        paper
    }

    /// The same with the heights that the layers of the folding have, in the thickness that is drawn.
    pub fn piled(&self, made: usize, turn: f64) -> Vec<Panel> {
        let folding = &self.bench.folding;
        let level = |packet: &backmark::fold::Packet, panel: &Panel| {
            let holds = |a: &backmark::fold::Layer| a.area.holds(panel.column.cast_signed(), panel.row.cast_signed());
            packet.layers.iter().position(holds).unwrap()
        };
        let thickness = |packet: &backmark::fold::Packet| THICK.min(24.0 / packet.layers.len() as f64);
        let lay = |panel: &mut Panel, z: f64| panel.corner = Vec3::new(panel.corner.x, panel.corner.y, z);
        let mut paper = self.rigid(made, 0.0);
        let before = folding.packet(made);
        let Some(step) = folding.steps.get(made).filter(|_| turn > 0.0) else {
            let leaf = thickness(before);
            paper.iter_mut().for_each(|p| lay(p, level(before, p) as f64 * leaf));
            return paper;
        };
        let between = |a: f64, b: f64| a + (b - a) * turn;
        let leaf = between(thickness(before), thickness(&step.after));
        let moved = step.turn.parents.len() - step.turn.stayed;
        // Over: on what stays. Under: beneath it, and what stays is lifted by what comes beneath.
        let (axis_before, axis_after) = match step.turn.fold.lands {
            Lands::Over => (step.turn.stayed as f64 - 0.5, step.turn.stayed as f64 - 0.5),
            Lands::Under => (-0.5, moved as f64 - 0.5),
        };
        let height = between(axis_before, axis_after) * leaf;
        let (moves, axis, sense) = self.hinge(made, height);
        for panel in &mut paper {
            let (was, will) = (level(before, panel) as f64, level(&step.after, panel) as f64);
            if moves(panel) {
                lay(panel, height + between(was - axis_before, axis_after - will) * leaf);
                *panel = panel.turned(&axis, sense * turn * std::f64::consts::PI);
            } else {
                lay(panel, between(was, will) * leaf);
            }
        }
        paper
    }

    /// The ring that the hand takes is at a corner of the sheet as it is drawn, within a leaf's thickness.
    pub fn grip_is_a_corner(&self, fold: usize, turn: f64, view: &View, paper: &[Panel]) {
        let shown = Shown { leaf: THICK, crease: None };
        let Some(grip) = self.bench.scene(fold as f64 + turn, view, &shown).grip else { return };
        let corners = paper.iter().flat_map(|p| p.corners(self.panel)).map(|c| (view.project(c) - grip.at).hypot());
        let off = corners.fold(f64::INFINITY, f64::min);
        assert!(off < THICK, "fold {fold}, turn {turn}: the ring is {off} off a corner; {}", self.name);
    }

    /// Compares the picture with the paper in space, at points spread over every panel.
    pub fn compare(&self, at: f64, view: &View, leaf: f64, paper: &[Panel], random: &mut Random, told: &mut Told) {
        let scene = self.scene(at, view, leaf);
        let eye = view.towards_eye();
        let (w, h) = self.panel;
        let outlines: Vec<[Point; 4]> = paper.iter().map(|p| p.corners((w, h)).map(|c| view.project(c))).collect();
        for panel in paper {
            for _ in 0..3 {
                let from = panel.at(random.share() * w, random.share() * h);
                let screen = view.project(from);
                // The foremost panel on the line to the eye, by the maths of this file alone.
                let mut nearest: Option<(f64, &Panel)> = None;
                let mut depth = Vec::with_capacity(paper.len());
                for other in paper {
                    let met = other.met(from, eye);
                    depth.push(met.map_or(f64::INFINITY, |m| m.0));
                    let inside = met.filter(|(_, u, v)| (0.0..=w).contains(u) && (0.0..=h).contains(v));
                    if let Some((far, ..)) = inside.filter(|m| nearest.is_none_or(|n| m.0 > n.0)) {
                        nearest = Some((far, other));
                    }
                }
                let (far, winner) = nearest.unwrap_or((0.0, panel));
                // Where an outline in front or at the same depth is close by, rounding and thickness decide.
                let near = |(d, outline): (&f64, &[Point; 4])| {
                    *d >= far - 30.0 * leaf.max(0.01) && off(outline, screen) < 0.5 + leaf
                };
                if depth.iter().zip(&outlines).any(near) {
                    told.skipped += 1;
                    continue;
                }
                let drawn = match drawn(&scene, screen) {
                    Drawn::PileSide => {
                        told.skipped += 1;
                        continue;
                    }
                    Drawn::Face(face, place) => Some((face, place)),
                    Drawn::Bench => None,
                };
                let (row, column) = (winner.row, winner.column);
                let expected = Face { side: winner.side_towards(eye), row, column };
                let seen = drawn.as_ref().map(|d| d.0);
                assert_eq!(seen, Some(expected), "at {at}, {view:?}, {screen:?} of {}", self.name);
                told.compared += 1;
                // The drawn face lies where the panel lies, the same way up.
                let Some((face, place)) = drawn.filter(|_| leaf == THIN) else { continue };
                for corner in [Point::ORIGIN, Point::new(w, 0.0), Point::new(0.0, h)] {
                    let expected = view.project(winner.on_face(face.side, corner, (w, h)));
                    let off = (place * corner - expected).hypot();
                    assert!(off < 0.1, "at {at}, {view:?}: a corner of {face:?} is off by {off}; {}", self.name);
                }
            }
        }
    }
}

pub enum Drawn {
    Face(Face, kurbo::Affine),
    PileSide,
    Bench,
}

/// What was painted last at a point, besides lines and shadows.
pub fn drawn(scene: &Scene, at: Point) -> Drawn {
    for item in scene.items.iter().rev() {
        match item {
            Item::Path { path, fill: Some(Ink::Edge), .. } if path.contains(at) => return Drawn::PileSide,
            Item::Group(Group { place, tag: Some(Tag::Face(face)), size, .. }) if place.determinant().abs() > 1e-9 => {
                let p = place.inverse() * at;
                if (0.0..=size.0).contains(&p.x) && (0.0..=size.1).contains(&p.y) {
                    return Drawn::Face(*face, *place);
                }
            }
            _ => {}
        }
    }
    Drawn::Bench
}

/// The distance from a point to an outline.
pub fn off(outline: &[Point; 4], p: Point) -> f64 {
    let sides = (0..4).map(|i| (outline[i], outline[(i + 1) % 4]));
    let distance = |(a, b): (Point, Point)| {
        let (way, to) = (b - a, p - a);
        let share =
            if way.hypot2() > 0.0 { backmark::units::between(to.dot(way) / way.hypot2(), 0.0, 1.0) } else { 0.0 };
        (to - way * share).hypot()
    };
    sides.map(distance).fold(f64::INFINITY, f64::min)
}
