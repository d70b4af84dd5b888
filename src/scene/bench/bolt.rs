//! The sides of a pile: leaves told apart by hairlines where it is open, an unbroken round strip where it is closed.

use super::Bench;
use crate::fold::{Direction, Reads, Rect};
use crate::scene::item::{Ground, Ink, Item, Line};
use crate::scene::joins::{Join, edge_of, joins, outermost};
use crate::scene::pose::{Lying, Sheaf, Sheet};
use crate::scene::view::{Vec3, View};
use kurbo::{BezPath, Point};

/// How far a closed edge bulges: this share of its thickness, and never more than so many millimetres.
const BULGE: f64 = 0.35;
const BULGE_MOST: f64 = 3.2;

/// How the edges of the paper are just now.
pub(super) struct Edges {
    /// How far the knife has gone along the edges that it slits, 0 to 1.
    pub slit: f64,
    /// How much of their roundness closed edges have, 0 to 1.
    pub round: f64,
}

/// The closed edges of one pile that can be seen from outside, and the sides of it that face the eye.
pub(super) struct Sides<'a> {
    bench: &'a Bench,
    sheaf: &'a Sheaf,
    view: &'a View,
    edges: &'a Edges,
    joins: Vec<Join>,
    facing: Vec<Direction>,
}

/// Neighbouring layers of one outline: their numbers in the sheaf, from below.
pub(super) struct Block {
    /// The lowest layer.
    pub low: usize,
    /// The highest one.
    pub high: usize,
    /// What they cover, in panels.
    pub over: Rect,
}

impl<'a> Sides<'a> {
    pub(super) fn of(bench: &'a Bench, sheaf: &'a Sheaf, view: &'a View, edges: &'a Edges) -> Self {
        let eye = view.towards_eye();
        let all = [Direction::Up, Direction::Right, Direction::Down, Direction::Left];
        let facing = all.into_iter().filter(|d| way(sheaf, *d).dot(eye) > 1e-9).collect();
        Self { bench, sheaf, view, edges, joins: outermost(&closed(bench, sheaf)), facing }
    }

    /// The layers in blocks, the lowest first.
    pub(super) fn blocks(&self) -> Vec<Block> {
        let mut blocks: Vec<Block> = Vec::new();
        let mut below: Option<f64> = None;
        for (i, lying) in self.sheaf.layers.iter().enumerate() {
            let over = covers(&lying.sheet);
            let close = below.is_some_and(|w| lying.w - w < 1.01 * self.sheaf.leaf);
            match blocks.last_mut().filter(|b| close && b.over == over) {
                Some(block) => block.high = i,
                None => blocks.push(Block { low: i, high: i, over }),
            }
            below = Some(lying.w);
        }
        blocks
    }

    /// From where on an edge is closed: 0 all along it, 1 not at all.
    fn closed_from(&self, edge: Direction) -> f64 {
        let opened = matches!(self.sheaf.layers.first(), Some(Lying { sheet: Sheet::Leaf(_), .. }));
        if !opened && self.bench.slits.contains(&edge) { self.edges.slit } else { 0.0 }
    }

    /// A point at an edge: `along` it from 0 to 1, so far `out` of it in mm, and at a height.
    fn at(&self, edge: Direction, (line, from, to): (i32, i32, i32), along: f64, out: f64, w: f64) -> Point {
        let (pw, ph) = self.bench.unit(self.sheaf);
        let reach = f64::from(from) + f64::from(to - from) * along;
        let (x, y) = match edge {
            Direction::Left => (f64::from(line) * pw - out, reach * ph),
            Direction::Right => (f64::from(line) * pw + out, reach * ph),
            Direction::Up => (reach * pw, f64::from(line) * ph - out),
            Direction::Down => (reach * pw, f64::from(line) * ph + out),
        };
        self.view.project(self.sheaf.frame.point(x, y, w))
    }

    /// A hairline between every two leaves of a block, where nothing closes them. All of them are one item.
    pub(super) fn hairlines(&self, block: &Block, items: &mut Vec<Item>) {
        let mut path = BezPath::new();
        for &edge in &self.facing {
            let place = edge_of(&block.over, edge);
            let here: Vec<&Join> =
                self.joins.iter().filter(|j| j.edge == edge && (j.line, j.from, j.to) == place).collect();
            let pairs = self.sheaf.layers.iter().zip(self.sheaf.layers.iter().skip(1)).enumerate();
            for (i, (a, b)) in pairs.skip(block.low).take(block.high - block.low) {
                let shut = here.iter().any(|j| j.low <= i && i < j.high);
                let open_to = if shut { self.closed_from(edge) } else { 1.0 };
                if open_to > 0.0 {
                    let w = f64::midpoint(a.w, b.w);
                    path.move_to(self.at(edge, place, 0.0, 0.0, w));
                    path.line_to(self.at(edge, place, open_to, 0.0, w));
                }
            }
        }
        if !path.elements().is_empty() {
            items.push(Item::Path { path, fill: None, line: Some(Line::solid(Ink::Black, 0.5)) });
        }
    }

    /// The closed edges whose nearer layer is in a block: what is towards the eye of it is painted later.
    pub(super) fn bolts(&self, block: &Block, from_above: bool, items: &mut Vec<Item>) {
        let up = self.sheaf.frame.normal * if from_above { 1.0 } else { -1.0 };
        for &edge in &self.facing {
            let from = self.closed_from(edge);
            let nearer = |j: &&Join| (block.low..=block.high).contains(if from_above { &j.high } else { &j.low });
            let out = way(self.sheaf, edge);
            for join in self.joins.iter().filter(|j| j.edge == edge && from < 1.0).filter(nearer) {
                let (Some(low), Some(high)) = (self.sheaf.layers.get(join.low), self.sheaf.layers.get(join.high))
                else {
                    continue;
                };
                let half = self.sheaf.leaf / 2.0;
                let (foot, top) =
                    if from_above { (low.w - half, high.w + half) } else { (high.w + half, low.w - half) };
                let bulge = ((top - foot).abs() * BULGE).min(BULGE_MOST) * self.edges.round;
                let place = (join.line, join.from, join.to);
                let ends = |out: f64, share: f64| {
                    let w = foot + (top - foot) * share;
                    [from, 1.0].map(|along| self.at(edge, place, along, out, w))
                };
                let profile = [(0.0, 0.0), (0.7, 0.15), (1.0, 0.5), (0.7, 0.85), (0.0, 1.0)];
                let points: Vec<Point> = profile.into_iter().flat_map(|(o, s)| ends(o * bulge, s)).collect();
                let side = self.bench.outside(low);
                let paper = |normal: Vec3| Some(Ink::Paper(Ground { side, tone: super::paint::tone(normal) }));
                let line = Some(Line::solid(Ink::Black, 0.5));
                items.push(Item::polygon(&super::paint::hull(&points), paper(out), line));
                let ([a, b], [c, d]) = (ends(bulge, 0.5), ends(0.0, 1.0));
                items.push(Item::polygon(&[a, b, d, c], paper((out + up * 1.4) * 0.58), None));
            }
        }
    }
}

/// The way out of a sheaf over one of its edges.
fn way(sheaf: &Sheaf, edge: Direction) -> Vec3 {
    let (dx, dy) = edge.step();
    sheaf.frame.ex * f64::from(dx) + sheaf.frame.ey * f64::from(dy)
}

/// What a layer covers in its frame: in panels, and for a leaf in pages.
fn covers(sheet: &Sheet) -> Rect {
    match sheet {
        Sheet::Layer(layer) => layer.footprint(),
        Sheet::Leaf(_) => Rect { x0: 0, y0: 0, x1: 1, y1: 1 },
    }
}

/// The closed edges of a sheaf: those of its layers, or those at the spine for leaves.
fn closed(bench: &Bench, sheaf: &Sheaf) -> Vec<Join> {
    let layers: Vec<_> = sheaf.layers.iter().filter_map(layer).collect();
    if layers.len() == sheaf.layers.len() {
        return joins(&layers, bench.folding.rows, bench.folding.columns);
    }
    let Some(section) = &bench.section else { return Vec::new() };
    let packet = &bench.folding.last().layers;
    let place = |layer: usize| {
        let leaf = if section.front_up { packet.len() - 1 - layer } else { layer };
        sheaf.layers.iter().position(|l| l.sheet == Sheet::Leaf(leaf))
    };
    let (edge, line) = match bench.printing.reads {
        Reads::LeftToRight => (Direction::Left, 0),
        Reads::RightToLeft => (Direction::Right, 1),
    };
    let held = joins(packet, section.rows, section.columns).into_iter().filter(|j| j.edge == section.spine);
    let pairs = held.filter_map(|j| Some((place(j.low)?, place(j.high)?)));
    let mut all: Vec<Join> =
        pairs.map(|(a, b)| Join { edge, low: a.min(b), high: a.max(b), line, from: 0, to: 1 }).collect();
    all.sort_by_key(|j| j.low);
    all
}

fn layer(lying: &Lying) -> Option<crate::fold::Layer> {
    match lying.sheet {
        Sheet::Layer(layer) => Some(layer),
        Sheet::Leaf(_) => None,
    }
}
