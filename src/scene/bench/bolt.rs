//! The sides of a pile: leaves told apart by hairlines where it is open, an unbroken round strip where it is closed.

use super::Bench;
use crate::fold::{Crease, Direction, Face, Lands, Reads, Rect, Side};
use crate::scene::item::{Ground, Ink, Item, Line};
use crate::scene::joins::{Join, edge_of, outermost};
use crate::scene::moment::Stage;
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
            let alike = |b: &Block| b.over == over && self.covers_alike(b.high, i);
            match blocks.last_mut().filter(|b| close && alike(b)) {
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

    /// What a layer covers, mm.
    fn covered(&self, layer: usize) -> kurbo::Rect {
        self.sheaf.layers.get(layer).map_or(kurbo::Rect::ZERO, |l| self.bench.rect(&l.sheet))
    }

    /// Whether two layers cover the same, mm: in panels they may, and one be smaller all the same.
    fn covers_alike(&self, a: usize, b: usize) -> bool {
        let (a, b) = (self.covered(a), self.covered(b));
        let apart = [a.x0 - b.x0, a.y0 - b.y0, a.x1 - b.x1, a.y1 - b.y1];
        apart.iter().all(|d| d.abs() < 0.01)
    }

    /// A point at an edge of what is covered: `along` it from 0 to 1, so far `out` of it in mm, and at a height.
    fn at(&self, edge: Direction, r: kurbo::Rect, along: f64, out: f64, w: f64) -> Point {
        let (x, y) = (r.x0 + r.width() * along, r.y0 + r.height() * along);
        let (x, y) = match edge {
            Direction::Left => (r.x0 - out, y),
            Direction::Right => (r.x1 + out, y),
            Direction::Up => (x, r.y0 - out),
            Direction::Down => (x, r.y1 + out),
        };
        self.view.project(self.sheaf.frame.point(x, y, w))
    }

    /// A hairline between every two leaves of a block, where nothing closes them. All of them are one item.
    pub(super) fn hairlines(&self, block: &Block, items: &mut Vec<Item>) {
        let mut path = BezPath::new();
        for &edge in &self.facing {
            let of_block = edge_of(&block.over, edge);
            let here: Vec<&Join> =
                self.joins.iter().filter(|j| j.edge == edge && (j.line, j.from, j.to) == of_block).collect();
            let place = self.covered(block.low);
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
                let place = self.covered(join.low);
                let at = |along: f64, (o, share): (f64, f64)| {
                    self.at(edge, place, along, o * bulge, foot + (top - foot) * share)
                };
                let mark = mark(self.bench, join, &low.sheet, &high.sheet);
                let normals = [out, (out + up * 1.4) * 0.58];
                strip(at, from, self.bench.outside(&low.sheet), normals, mark, items);
            }
        }
    }
}

/// Where along a closed edge the back mark is seen: from where to where, if this is the edge that it is printed on, and
/// outside.
fn mark(bench: &Bench, join: &Join, low: &Sheet, high: &Sheet) -> Option<(f64, f64)> {
    let (mark, near, far) = bench.printing.mark.as_ref()?;
    let faces = [mark.first_page, mark.last_page];
    let outside = |sheet: &Sheet, up: bool| faces.iter().any(|f| shows(bench, sheet, up, f));
    if !outside(low, false) || !outside(high, true) {
        return None;
    }
    let first = if shows(bench, low, false, &mark.first_page) { low } else { high };
    let Sheet::Layer(layer, _) = first else { return Some((*near, *far)) };
    // Measured from the head, wherever that lies along the edge.
    let (x, y) = (mark.first_page.column.cast_signed(), mark.first_page.row.cast_signed());
    let panel = layer.placement.rect_in_packet(&Rect { x0: x, y0: y, x1: x + 1, y1: y + 1 });
    let start = if join.edge.is_sideways() { panel.y0 } else { panel.x0 };
    let head = crate::scene::uppermost::in_packet(layer, &mark.first_page, mark.head);
    let from_start = matches!(head, Direction::Up | Direction::Left);
    let (a, b) = if from_start { (*near, *far) } else { (1.0 - far, 1.0 - near) };
    let along = |share: f64| (f64::from(start - join.from) + share) / f64::from(join.to - join.from);
    Some((along(a), along(b)))
}

/// Whether a face is on the upper or the lower side of a layer.
fn shows(bench: &Bench, sheet: &Sheet, up: bool, face: &Face) -> bool {
    match sheet {
        Sheet::Layer(layer, _) => {
            let side = layer.placement.side_up();
            let side = if up { side } else { side.other() };
            face.side == side && layer.area.holds(face.column.cast_signed(), face.row.cast_signed())
        }
        Sheet::Leaf(leaf) => {
            let found = bench.section.as_ref().and_then(|s| s.faces.get(2 * leaf + usize::from(!up)));
            found.is_some_and(|f| f.face == *face)
        }
    }
}

/// The outline of a closed edge from its far to its near end: out of the pile, and across its thickness, both as shares.
const PROFILE: [(f64, f64); 5] = [(0.0, 0.0), (0.7, 0.15), (1.0, 0.5), (0.7, 0.85), (0.0, 1.0)];

/// A strip of paper around an edge, from so far along it: all of it, then the half that is towards the eye, each in its
/// flat tone, then the back mark.
fn strip(
    at: impl Fn(f64, (f64, f64)) -> Point,
    from: f64,
    side: Side,
    normals: [Vec3; 2],
    mark: Option<(f64, f64)>,
    items: &mut Vec<Item>,
) {
    let part = |from: f64, to: f64| {
        let points: Vec<Point> = PROFILE.into_iter().flat_map(|p| [at(from, p), at(to, p)]).collect();
        super::paint::hull(&points)
    };
    let [all, near] = normals.map(|n| Some(Ink::Paper(Ground { side, tone: super::paint::tone(n) })));
    items.push(Item::polygon(&part(from, 1.0), all, Some(Line::solid(Ink::Black, 0.5))));
    let [middle, edge] = [(1.0, 0.5), (0.0, 1.0)];
    items.push(Item::polygon(&[at(from, middle), at(1.0, middle), at(1.0, edge), at(from, edge)], near, None));
    let left = mark.map(|(a, b)| (a.max(from), b)).filter(|(a, b)| a < b);
    items.extend(left.map(|(a, b)| Item::polygon(&part(a, b), Some(Ink::Black), None)));
}

/// The paper around a crease that is being folded, and the way out over it: it comes in order with the two sheaves.
pub(super) fn around_crease(bench: &Bench, stage: Stage, sheaves: &[Sheaf], view: &View) -> Option<(Vec3, Vec<Item>)> {
    let Stage::Fold { made, turn } = stage else { return None };
    let step = bench.folding.steps.get(made).filter(|_| turn > 0.0)?;
    let (fold, made) = (made, &step.turn);
    let all = bench.joins(&step.after.layers);
    let new: Vec<Join> = all.into_iter().filter(|j| made.moved(j.low) != made.moved(j.high)).collect();
    let out = sheaves.iter().fold(Vec3::new(0.0, 0.0, 0.0), |sum, s| sum - s.arm);
    let long = out.dot(out).sqrt();
    if long < 1e-3 {
        return None;
    }
    let out = out * (1.0 / long);
    let over = made.fold.lands == Lands::Over;
    let line = bench.places.crease(fold);
    let mut items = Vec::new();
    for join in outermost(&new) {
        // Where the outer side of a layer meets the crease, in its own plane.
        let corner = |i: usize| {
            let flat = bench.before_fold(fold, i)?;
            let r = bench.rect(&flat);
            let (sheaf, lying) = sheaves.iter().find_map(|s| Some((s, s.layers.iter().find(|l| l.sheet == flat)?)))?;
            let w = lying.w + if over { -sheaf.leaf / 2.0 } else { sheaf.leaf / 2.0 };
            Some(move |along: f64| match made.fold.crease {
                Crease::Vertical => sheaf.frame.point(line, r.y0 + r.height() * along, w),
                Crease::Horizontal => sheaf.frame.point(r.x0 + r.width() * along, line, w),
            })
        };
        let (Some(low), Some(high)) = (corner(join.low), corner(join.high)) else { continue };
        let after = bench.places.packet(fold + 1);
        let layer = |i: usize| Some(Sheet::Layer(*step.after.layers.get(i)?, *after.get(i)?));
        let (Some(below), Some(above)) = (layer(join.low), layer(join.high)) else { continue };
        let across = high(0.0) - low(0.0);
        let thick = across.dot(across).sqrt();
        let near_high = across.dot(view.towards_eye()) > 0.0;
        let bulge = (thick * BULGE).min(BULGE_MOST);
        let at = |along: f64, (o, share): (f64, f64)| {
            let (far, near) = if near_high { (low(along), high(along)) } else { (high(along), low(along)) };
            view.project(far + (near - far) * share + out * (o * bulge))
        };
        let up = across * (if near_high { 1.0 } else { -1.0 } / thick.max(1e-9));
        let normals = [out, (out + up * 1.4) * 0.58];
        strip(at, 0.0, bench.outside(&below), normals, mark(bench, &join, &below, &above), &mut items);
    }
    Some((out, items))
}

/// The way out of a sheaf over one of its edges.
fn way(sheaf: &Sheaf, edge: Direction) -> Vec3 {
    let (dx, dy) = edge.step();
    sheaf.frame.ex * f64::from(dx) + sheaf.frame.ey * f64::from(dy)
}

/// What a layer covers in its frame: in panels, and for a leaf in pages.
fn covers(sheet: &Sheet) -> Rect {
    match sheet {
        Sheet::Layer(layer, _) => layer.footprint(),
        Sheet::Leaf(_) => Rect { x0: 0, y0: 0, x1: 1, y1: 1 },
    }
}

/// The closed edges of a sheaf: those of its layers, or those at the spine for leaves.
fn closed(bench: &Bench, sheaf: &Sheaf) -> Vec<Join> {
    let layers: Vec<_> = sheaf.layers.iter().filter_map(layer).collect();
    if layers.len() == sheaf.layers.len() {
        return bench.joins(&layers);
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
    let held = bench.joins(packet).into_iter().filter(|j| j.edge == section.spine);
    let pairs = held.filter_map(|j| Some((place(j.low)?, place(j.high)?)));
    let mut all: Vec<Join> =
        pairs.map(|(a, b)| Join { edge, low: a.min(b), high: a.max(b), line, from: 0, to: 1 }).collect();
    all.sort_by_key(|j| j.low);
    all
}

fn layer(lying: &Lying) -> Option<crate::fold::Layer> {
    match lying.sheet {
        Sheet::Layer(layer, _) => Some(layer),
        Sheet::Leaf(_) => None,
    }
}
