//! The picture of the bench against a second opinion: every panel of the sheet as a rigid body in space, turned about
//! the creases by its own little geometry. What the picture shows at a point has to be what a ray from the eye meets
//! first there, at every angle of every fold and from every side.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test ends at the first surprise")]

use backmark::fold::{
    Crease, Direction, Face, Fold, Folding, FoundFace, Landing, Lands, Part, Reads, Scheme, Section, Side, library,
};
use backmark::scene::{Bench, Group, Ink, Item, Printing, Scene, Shown, Tag, Turned, Vec3, View};
use kurbo::{Point, Shape};
use std::collections::BTreeMap;

/// Schemes made up at random, besides those at hand.
const SCHEMES: u32 = 150;
/// The angles of each fold, as shares of the half turn.
const TURNS: [f64; 5] = [0.0, 0.2, 0.45, 0.7, 0.95];
/// Paper so thin that its thickness moves nothing, and paper as the room shows it.
const THIN: f64 = 1e-4;
const THICK: f64 = 3.2;

#[test]
fn the_picture_shows_what_is_nearest_the_eye() {
    let mut told = Told::default();
    for (name, scheme) in schemes(0x5EED_0001) {
        let mut random = Random::new(u64::from(scheme.pages()) * 31 + scheme.folds.len() as u64);
        let act = Act::of(&name, &scheme);
        for (fold, turn) in act.moments() {
            let paper = act.rigid(fold, turn);
            let at = fold as f64 + turn;
            for view in views(&mut random) {
                act.compare(at, &view, THIN, &paper, &mut random, &mut told);
            }
        }
    }
    println!("{} points compared, {} too near an outline", told.compared, told.skipped);
    assert!(told.compared > 100_000 && told.compared > told.skipped, "too few points say anything");
}

/// With thickness the piles have sides, which cover; the layers are where the fold engine numbers them.
#[test]
fn thickness_changes_nothing_but_edges() {
    let mut told = Told::default();
    for (name, scheme) in schemes(0x5EED_0002) {
        let mut random = Random::new(u64::from(scheme.pages()) * 37 + scheme.folds.len() as u64);
        let act = Act::of(&name, &scheme);
        for (fold, turn) in act.moments() {
            let paper = act.piled(fold, turn);
            for view in [View::OPENING, View { eye: -50.0, ..View::OPENING }, any_view(&mut random)] {
                act.compare(fold as f64 + turn, &view, THICK, &paper, &mut random, &mut told);
                act.grip_is_a_corner(fold, turn, &view, &paper);
            }
        }
    }
    println!("{} points compared, {} too near an outline or on a pile's side", told.compared, told.skipped);
    assert!(told.compared > 50_000, "too few points say anything");
}

#[test]
fn whole_steps_show_the_outside_of_the_packet() {
    for (name, scheme) in schemes(0x5EED_0003) {
        let act = Act::of(&name, &scheme);
        let (pw, ph) = act.bench.printing.panel();
        for made in 0..=act.bench.folding.steps.len() {
            let packet = act.bench.folding.packet(made);
            let extent = packet.extent();
            for (eye, grid) in [(90.0, packet.uppermost()), (-90.0, packet.undermost())] {
                let view = View { turn: 0.0, eye, ..View::OPENING };
                let scene = act.scene(made as f64, &view, THIN);
                for (x, y) in extent.cells() {
                    let face = grid[(y - extent.y0) as usize][(x - extent.x0) as usize];
                    let middle = Vec3::new((f64::from(x) + 0.5) * pw, -(f64::from(y) + 0.5) * ph, 0.0);
                    let seen = scene.pick(view.project(middle)).map(|(tag, _)| tag);
                    assert_eq!(seen, face.map(Tag::Face), "{name}: {made} folds made, eye {eye}, panel ({x}, {y})");
                }
            }
        }
    }
}

#[test]
fn opened_leaves_lie_as_a_book_does() {
    let mut finished = 0;
    for (name, scheme) in schemes(0x5EED_0004) {
        let act = Act::of(&name, &scheme);
        let Some(section) = act.bench.section.clone() else { continue };
        finished += 1;
        let (leaves, open) = (section.held.len(), act.bench.rule.folds + 2);
        let page = if section.head.is_sideways() { (act.panel.1, act.panel.0) } else { act.panel };
        let left_to_right = scheme.reads == Reads::LeftToRight;
        for turned in 0..=leaves {
            let view = View { turn: 8.0, eye: 62.0, ..View::OPENING };
            let scene = act.scene((open + turned) as f64, &view, THIN);
            let spine = if left_to_right { 0.0 } else { page.0 };
            let at = |x: f64, y: f64| view.project(Vec3::new(spine + x, -y, 0.0));
            let (earlier, later) = (turned.checked_sub(1).map(|i| 2 * i + 1), (turned < leaves).then_some(2 * turned));
            let (left, right) = if left_to_right { (earlier, later) } else { (later, earlier) };
            for (from, index) in [(-page.0, left), (0.0, right)] {
                let what = format!("{name}: {turned} leaves turned, page beginning at {from}");
                let drawn = scene.pick(at(from + page.0 / 2.0, page.1 / 2.0)).map(|(tag, _)| tag);
                let expected = index.map(|i| section.faces[i]);
                assert_eq!(drawn, expected.map(|f| Tag::Face(f.face)), "{what}");
                let Some(found) = expected else { continue };
                let group = scene.group(Tag::Face(found.face)).unwrap();
                let upright = [(found.head, (from + page.0 / 2.0, 0.0)), (found.spine, (0.0, page.1 / 2.0))];
                for (edge, (x, y)) in upright {
                    let drawn = group.place * edge_middle(act.panel, edge);
                    assert!((drawn - at(x, y)).hypot() < 0.1, "{what}: {edge:?} is at {drawn:?}, not {:?}", at(x, y));
                }
            }
        }
        turning_leaves(&act, &section, page, left_to_right, &name);
    }
    assert!(finished > 60, "only {finished} sections were finished");
}

/// A leaf on its way shows the page that looks at the eye, over whatever lies beneath it.
fn turning_leaves(act: &Act, section: &Section, page: (f64, f64), left_to_right: bool, name: &str) {
    let leaves = section.held.len();
    let mut random = Random::new(leaves as u64);
    let mut told = Told::default();
    for turned in 0..leaves {
        let turn = TURNS[1 + turned % 4];
        let lying = |leaf: usize| {
            let share = match leaf {
                l if l < turned => 1.0,
                l if l == turned => turn,
                _ => 0.0,
            };
            let level = if leaf < turned { leaf as f64 } else { (leaves - leaf) as f64 };
            let level = if leaf == turned { leaves as f64 } else { level };
            bound_leaf([section.faces[2 * leaf], section.faces[2 * leaf + 1]], share, level, page, left_to_right, act)
        };
        let paper: Vec<Panel> = (0..leaves).map(lying).collect();
        let at = (act.bench.rule.folds + 2 + turned) as f64 + turn;
        for view in [View::OPENING, View { eye: -50.0, ..View::OPENING }, any_view(&mut random)] {
            act.compare(at, &view, THIN, &paper, &mut random, &mut told);
        }
    }
    assert!(told.compared > 0, "{name}");
}

/// A leaf of the bound section as the panel of the sheet that it is.
fn bound_leaf(
    found: [FoundFace; 2],
    share: f64,
    level: f64,
    page: (f64, f64),
    left_to_right: bool,
    act: &Act,
) -> Panel {
    let (s, c) = (share * std::f64::consts::PI).sin_cos();
    let out = if left_to_right { Vec3::new(c, 0.0, s) } else { Vec3::new(-c, 0.0, s) };
    let spine = Vec3::new(if left_to_right { 0.0 } else { page.0 }, 0.0, level * THIN);
    let head = Vec3::new(0.0, 1.0, 0.0);
    // The front page as its own side sees it: head away, spine towards the axis.
    let front = found[0];
    let way = |d: Direction| match d {
        d if d == front.head => head,
        d if d == front.head.opposite() => head * -1.0,
        d if d == front.spine => out * -1.0,
        _ => out,
    };
    let middle = spine + out * (page.0 / 2.0) + head * (-page.1 / 2.0);
    let (right, down) = (way(Direction::Right), way(Direction::Down));
    let corner = middle - right * (act.panel.0 / 2.0) - down * (act.panel.1 / 2.0);
    let (row, column) = (front.face.row, front.face.column);
    match front.face.side {
        Side::A => Panel { row, column, corner, eu: right, ev: down },
        Side::B => Panel { row, column, corner: corner + right * act.panel.0, eu: right * -1.0, ev: down },
    }
}

#[test]
fn figures_stand_as_the_landing_says() {
    for (name, scheme) in schemes(0x5EED_0005) {
        let act = Act::of(&name, &scheme);
        let Some(landing) = act.bench.printing.landing.clone() else { continue };
        for made in 0..=act.bench.folding.steps.len() {
            let paper = act.rigid(made, 0.0);
            for view in [View::OPENING, View { eye: -50.0, ..View::OPENING }] {
                let scene = act.scene(made as f64, &view, THIN);
                for group in scene.items.iter().filter_map(faced) {
                    let (face, group) = group;
                    let page = landing.page(landing.page_on(&face).unwrap()).unwrap();
                    let panel = paper.iter().find(|p| (p.row, p.column) == (face.row, face.column)).unwrap();
                    let head = edge_middle(act.panel, page.head);
                    let expected = view.project(panel.on_face(face.side, head, act.panel));
                    let drawn = group.place * head;
                    assert!(
                        (drawn - expected).hypot() < 0.1,
                        "{name}: page {} after {made} folds has its head at {drawn:?}, not {expected:?}",
                        page.page
                    );
                }
            }
        }
    }
}

/// Where the rule passes a whole step, nothing may jump.
#[test]
fn nothing_jumps_at_a_whole_step() {
    for (name, scheme) in schemes(0x5EED_0006) {
        let act = Act::of(&name, &scheme);
        let end = act.bench.rule.end() as u32;
        for step in 1..=end {
            let at = f64::from(step);
            for view in [View::OPENING, View { eye: -50.0, ..View::OPENING }] {
                let [before, now] = [at - 1e-7, at].map(|at| act.scene(at, &view, THICK));
                let mut places = now.items.iter().filter_map(faced);
                let jumped = places.find(|(face, group)| {
                    let was = before.group(Tag::Face(*face));
                    let visible = |g: &Group| now.pick(middle(g)).map(|(tag, _)| tag) == Some(Tag::Face(*face));
                    visible(group) && was.is_none_or(|w| (middle(w) - middle(group)).hypot() > 0.5)
                });
                let jumped = jumped.map(|(face, group)| (face, middle(group)));
                assert_eq!(jumped, None, "{name}: at {at}, eye {}", view.eye);
            }
        }
    }
}

fn middle(group: &Group) -> Point {
    group.place * Point::new(group.size.0 / 2.0, group.size.1 / 2.0)
}

fn faced(item: &Item) -> Option<(Face, &Group)> {
    match item {
        Item::Group(group) => match group.tag {
            Some(Tag::Face(face)) => Some((face, group)),
            _ => None,
        },
        _ => None,
    }
}

/// The middle of an edge of a panel, in the view of the face that it is an edge of.
fn edge_middle((w, h): (f64, f64), edge: Direction) -> Point {
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
struct Panel {
    row: u32,
    column: u32,
    corner: Vec3,
    eu: Vec3,
    ev: Vec3,
}

impl Panel {
    fn at(&self, u: f64, v: f64) -> Vec3 {
        self.corner + self.eu * u + self.ev * v
    }

    /// Out of side A.
    fn normal(&self) -> Vec3 {
        cross(self.ev, self.eu)
    }

    fn side_towards(&self, eye: Vec3) -> Side {
        if self.normal().dot(eye) > 0.0 { Side::A } else { Side::B }
    }

    /// A point of a face, given in that face's own view.
    fn on_face(&self, side: Side, p: Point, (w, _): (f64, f64)) -> Vec3 {
        self.at(if side == Side::A { p.x } else { w - p.x }, p.y)
    }

    /// How far from `from` the line towards the eye meets the panel's plane, and where (`u`, `v`).
    fn met(&self, from: Vec3, eye: Vec3) -> Option<(f64, f64, f64)> {
        let n = self.normal();
        let slope = n.dot(eye);
        (slope.abs() > 1e-9).then(|| {
            let far = n.dot(self.corner - from) / slope;
            let here = from + eye * far - self.corner;
            (far, here.dot(self.eu), here.dot(self.ev))
        })
    }

    fn corners(&self, (w, h): (f64, f64)) -> [Vec3; 4] {
        [self.at(0.0, 0.0), self.at(w, 0.0), self.at(w, h), self.at(0.0, h)]
    }

    fn turned(&self, about: &Axis, angle: f64) -> Panel {
        Panel {
            corner: about.point + rotated(self.corner - about.point, about.way, angle),
            eu: rotated(self.eu, about.way, angle),
            ev: rotated(self.ev, about.way, angle),
            ..*self
        }
    }
}

/// A crease in space.
struct Axis {
    point: Vec3,
    way: Vec3,
}

fn cross(a: Vec3, b: Vec3) -> Vec3 {
    Vec3::new(a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x)
}

/// Rodrigues' formula.
fn rotated(v: Vec3, about: Vec3, angle: f64) -> Vec3 {
    let (s, c) = angle.sin_cos();
    v * c + cross(about, v) * s + about * (about.dot(v) * (1.0 - c))
}

/// A scheme on the bench, with what the second opinion needs.
struct Act {
    name: String,
    bench: Bench,
    panel: (f64, f64),
}

#[derive(Default)]
struct Told {
    compared: u64,
    skipped: u64,
}

impl Act {
    fn of(name: &str, scheme: &Scheme) -> Act {
        let section = Folding::of(scheme).and_then(|folding| Section::of(scheme, &folding)).ok();
        let printing = Printing {
            rows: scheme.rows,
            columns: scheme.columns,
            sideways: scheme.head.is_sideways() && section.is_some(),
            landing: section.as_ref().map(Landing::of_section),
            shift: 0,
            mark: None,
            reads: scheme.reads,
            coarse: false,
        };
        let panel = printing.panel();
        Act { name: format!("{name} {scheme:?}"), bench: Bench::new(printing, scheme).unwrap(), panel }
    }

    fn moments(&self) -> Vec<(usize, f64)> {
        let folds = self.bench.folding.steps.len();
        let moving = (0..folds).flat_map(|fold| TURNS.map(|turn| (fold, turn)));
        moving.chain([(folds, 0.0)]).collect()
    }

    fn scene(&self, at: f64, view: &View, leaf: f64) -> Scene {
        self.bench.scene(at, view, &Shown { leaf, crease: None }).scene
    }

    fn flat(&self) -> Vec<Panel> {
        let (w, h) = self.panel;
        let (eu, ev) = (Vec3::new(1.0, 0.0, 0.0), Vec3::new(0.0, -1.0, 0.0));
        let all = (0..self.bench.folding.rows).flat_map(|r| (0..self.bench.folding.columns).map(move |c| (r, c)));
        let corner = |r: u32, c: u32| eu * (f64::from(c) * w) + ev * (f64::from(r) * h);
        all.map(|(row, column)| Panel { row, column, corner: corner(row, column), eu, ev }).collect()
    }

    /// Whether a panel lies in the part that moves, and the axis and the angle about it.
    fn hinge(&self, fold: usize, height: f64) -> (impl Fn(&Panel) -> bool + use<>, Axis, f64) {
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
    fn rigid(&self, made: usize, turn: f64) -> Vec<Panel> {
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
    fn piled(&self, made: usize, turn: f64) -> Vec<Panel> {
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
    fn grip_is_a_corner(&self, fold: usize, turn: f64, view: &View, paper: &[Panel]) {
        let shown = Shown { leaf: THICK, crease: None };
        let Some(grip) = self.bench.scene(fold as f64 + turn, view, &shown).grip else { return };
        let corners = paper.iter().flat_map(|p| p.corners(self.panel)).map(|c| (view.project(c) - grip.at).hypot());
        let off = corners.fold(f64::INFINITY, f64::min);
        assert!(off < THICK, "fold {fold}, turn {turn}: the ring is {off} off a corner; {}", self.name);
    }

    /// Compares the picture with the paper in space, at points spread over every panel.
    fn compare(&self, at: f64, view: &View, leaf: f64, paper: &[Panel], random: &mut Random, told: &mut Told) {
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

enum Drawn {
    Face(Face, kurbo::Affine),
    PileSide,
    Bench,
}

/// What was painted last at a point, besides lines and shadows.
fn drawn(scene: &Scene, at: Point) -> Drawn {
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
fn off(outline: &[Point; 4], p: Point) -> f64 {
    let sides = (0..4).map(|i| (outline[i], outline[(i + 1) % 4]));
    let distance = |(a, b): (Point, Point)| {
        let (way, to) = (b - a, p - a);
        let share = if way.hypot2() > 0.0 { (to.dot(way) / way.hypot2()).clamp(0.0, 1.0) } else { 0.0 };
        (to - way * share).hypot()
    };
    sides.map(distance).fold(f64::INFINITY, f64::min)
}

fn views(random: &mut Random) -> [View; 5] {
    let beneath = View { eye: -50.0, ..View::OPENING };
    let steep = View { turn: -60.0, eye: 25.0, ..View::OPENING };
    [View::OPENING, beneath, steep, any_view(random), any_view(random)]
}

/// Any view of a sheet that lies, or is on its way to lie, in any way.
fn any_view(random: &mut Random) -> View {
    let lay = Turned::NOT.over(random.share() * 360.0).round(random.share() * 360.0);
    View { turn: random.share() * 150.0 - 75.0, eye: random.share() * 178.0 - 89.0, lay, ..View::OPENING }
}

/// The schemes at hand, and made-up ones: any crease, any part, over and under, finished and unfinished.
fn schemes(seed: u64) -> BTreeMap<String, Scheme> {
    let mut random = Random::new(seed);
    let mut all: BTreeMap<String, Scheme> = library().into_iter().map(|s| (s.name.to_owned(), s.scheme)).collect();
    for number in 0..SCHEMES {
        all.insert(format!("random {number} of seed {seed:#x},"), any_scheme(&mut random));
    }
    all
}

fn any_scheme(random: &mut Random) -> Scheme {
    let (rows, columns) = (1 + random.below(4), 1 + random.below(6));
    let reads = if random.below(4) == 0 { Reads::RightToLeft } else { Reads::LeftToRight };
    let mut scheme = Scheme { rows, columns, folds: Vec::new(), head: Direction::Up, reads };
    loop {
        let folding = Folding::of(&scheme).unwrap();
        let extent = folding.last().extent();
        let (w, h) = (extent.width().unsigned_abs(), extent.height().unsigned_abs());
        if (w == 1 && h == 1) || random.below(40) == 0 {
            break;
        }
        let upright = if w == 1 { false } else { h == 1 || random.below(2) == 0 };
        let (parts, size) = if upright { ([Part::Left, Part::Right], w) } else { ([Part::Top, Part::Bottom], h) };
        let lands = if random.below(2) == 0 { Lands::Over } else { Lands::Under };
        let part = parts[random.below(2) as usize];
        scheme.folds.push(Fold::new(1 + random.below(size - 1), part, lands));
    }
    let last_upright = scheme.folds.last().is_none_or(|f| f.crease == Crease::Vertical);
    let heads = if last_upright { [Direction::Up, Direction::Down] } else { [Direction::Left, Direction::Right] };
    scheme.head = heads[random.below(2) as usize];
    scheme
}

/// A small generator (SplitMix64), so that a failure comes back with its seed.
struct Random(u64);

impl Random {
    fn new(seed: u64) -> Random {
        Random(seed)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    fn below(&mut self, n: u32) -> u32 {
        (self.next() % u64::from(n.max(1))) as u32
    }

    fn share(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1u64 << 53) as f64
    }
}
