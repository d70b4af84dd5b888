//! The bench: a sheet at any moment of its folding, as it looks from the eye.

use super::face::{Printing, page_in_panel};
use super::item::{Ground, Group, Ink, Item, Line, Scene, Tag, closed};
use super::moment::{Rule, Stage};
use super::pose::{self, Frame, Lying, Sheaf, Sheet};
use super::trig::sin_cos;
use super::view::{Vec3, View};
use crate::fold::{Crease, Face, FoldError, Folding, Part, Scheme, Section, Side};
use kurbo::{Affine, Point, Rect};
use std::rc::Rc;

/// A sheet that is folded by one scheme and printed for another (or the same one, or not at all).
#[derive(Clone, Debug)]
pub struct Bench {
    /// The folding as it is carried out.
    pub folding: Folding,
    /// The section it ends in, if it is finished.
    pub section: Option<Section>,
    /// What is printed on it.
    pub printing: Printing,
    /// The rule: how many folds, how many leaves.
    pub rule: Rule,
    /// Items of every face, side A first.
    faces: Vec<Rc<[Item]>>,
    /// The edges that the knife slits: closed ones, as the finished packet lies.
    slits: Vec<crate::fold::Direction>,
}

/// What the bench shows besides the paper.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Shown {
    /// Thickness of a leaf as drawn, mm, before it is cut down for thick packets.
    pub leaf: f64,
    /// A crease that is being considered: which way, and after how many panels.
    pub crease: Option<(Crease, u32)>,
}

/// The corner to be taken.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Grip {
    /// Where it appears.
    pub at: Point,
    /// The number of the fold that it makes, from 0.
    pub fold: usize,
}

/// A picture of the bench.
#[derive(Clone, Debug, PartialEq)]
pub struct BenchScene {
    /// The picture, in pixels.
    pub scene: Scene,
    /// The corner of the part that turns, or that would turn next.
    pub grip: Option<Grip>,
}

/// Thickness of all layers together as drawn is never more than this, mm.
const THICKEST: f64 = 24.0;

impl Bench {
    /// Folds `folded` from a sheet with `printing`.
    ///
    /// # Errors
    /// When the sheet has no panel or too many. A folding that can't go on is shown as far as it goes.
    pub fn new(printing: Printing, folded: &Scheme) -> Result<Self, FoldError> {
        let folding = Folding::of(folded)?;
        let section = Section::of(folded, &folding).ok();
        let leaves = section.as_ref().map_or(0, |s| s.held.len());
        let rule = Rule { folds: folding.steps.len(), leaves };
        let sides = [Side::A, Side::B];
        let all = sides.into_iter().flat_map(|side| {
            let (rows, columns) = (printing.rows, printing.columns);
            (0..rows).flat_map(move |row| (0..columns).map(move |column| Face { side, row, column }))
        });
        let faces = all.map(|face| printing.items(&face).into()).collect();
        let slits = section.as_ref().map_or_else(Vec::new, |s| closed_edges(s, &folding));
        Ok(Self { folding, section, printing, rule, faces, slits })
    }

    /// The edges of the finished packet that are closed and will be slit.
    #[must_use]
    pub fn slits(&self) -> &[crate::fold::Direction] {
        &self.slits
    }

    fn leaf(&self, shown: &Shown, layers: usize) -> f64 {
        shown.leaf.min(THICKEST / layers.max(1) as f64)
    }

    /// Thickness of a leaf while a fold is made: it changes from fold to fold where packets grow thick.
    fn leaf_between(&self, shown: &Shown, made: usize, turn: f64) -> f64 {
        let at = |made: usize| self.leaf(shown, self.folding.packet(made).layers.len());
        at(made) * (1.0 - turn) + at(made + 1) * turn
    }

    fn sheaves(&self, stage: Stage, shown: &Shown, view: &View) -> Vec<Sheaf> {
        let panel = self.printing.panel();
        let last = self.folding.last();
        let mut sheaves = match (stage, &self.section) {
            (Stage::Fold { made, turn }, _) => match self.folding.steps.get(made).filter(|_| turn > 0.0) {
                Some(step) => {
                    let leaf = self.leaf_between(shown, made, turn);
                    pose::half_folded(&step.after, &step.turn, turn, leaf, panel)
                }
                None => {
                    let packet = self.folding.packet(made);
                    pose::at_rest(packet, self.leaf(shown, packet.layers.len()))
                }
            },
            (Stage::Offer { turn }, Some(section)) => {
                pose::offered(last, section, turn, self.leaf(shown, last.layers.len()), panel)
            }
            (Stage::Leaf { turned, turn }, Some(section)) => {
                let width = pose::page_size(section, panel).0;
                let leaf = self.leaf(shown, last.layers.len());
                pose::opened(section.held.len(), turned, turn, leaf, width, self.printing.reads)
            }
            _ => pose::at_rest(last, self.leaf(shown, last.layers.len())),
        };
        pose::farthest_first(&mut sheaves, view);
        sheaves
    }

    /// The picture at a moment.
    #[must_use]
    pub fn scene(&self, at: f64, view: &View, shown: &Shown) -> BenchScene {
        let stage = self.rule.stage(at);
        let sheaves = self.sheaves(stage, shown, view);
        let mut items = Vec::new();
        self.cast(stage, shown, view, &mut items, true);
        for sheaf in &sheaves {
            self.paint(sheaf, view, &mut items);
            if sheaf.frame == Frame::BENCH {
                self.cast(stage, shown, view, &mut items, false);
                self.creases_on_top(stage, sheaf, shown, view, &mut items);
            }
        }
        if let Stage::Slit { cut } = stage {
            self.knife(cut, shown, view, &mut items);
        }
        let grip = self.grip(stage, view, shown);
        BenchScene { scene: Scene { size: (0.0, 0.0), items }, grip }
    }

    /// Paints one pile: covered layers as plain edges, faces where they can be seen.
    fn paint(&self, sheaf: &Sheaf, view: &View, items: &mut Vec<Item>) {
        let (pw, ph) = self.printing.panel();
        let frame = &sheaf.frame;
        let facing = frame.normal.dot(view.towards_eye());
        let from_above = facing > 0.0;
        let tone = tone(frame.normal * if from_above { 1.0 } else { -1.0 });
        let surface = if from_above { sheaf.leaf / 2.0 } else { -sheaf.leaf / 2.0 };
        // What is nearer to the eye, panel by panel, hides what lies under it.
        let around = sheaf.layers.iter().filter_map(|l| match l.sheet {
            Sheet::Layer(layer) => Some(layer.footprint()),
            Sheet::Leaf(_) => None,
        });
        let around = around.reduce(|a, b| a.union(&b));
        let mut covered = Covered::over(around);
        let mut visible = Vec::with_capacity(sheaf.layers.len());
        let nearest_first: Box<dyn Iterator<Item = &Lying>> =
            if from_above { Box::new(sheaf.layers.iter().rev()) } else { Box::new(sheaf.layers.iter()) };
        for lying in nearest_first {
            let cells: Vec<(i32, i32)> = match lying.sheet {
                Sheet::Layer(layer) => layer.footprint().cells().filter(|c| covered.cover(*c)).collect(),
                Sheet::Leaf(_) => Some((0, 0)).filter(|c| covered.cover(*c)).into_iter().collect(),
            };
            visible.push((lying, cells));
        }
        for (lying, cells) in visible.into_iter().rev() {
            let rect = self.rect(&lying.sheet);
            let corner = |x: f64, y: f64, w: f64| view.project(frame.point(x, y, w));
            let around = |w: f64| {
                [(rect.x0, rect.y0), (rect.x1, rect.y0), (rect.x1, rect.y1), (rect.x0, rect.y1)]
                    .map(|(x, y)| corner(x, y, w))
            };
            let outline = hull([around(lying.w - surface), around(lying.w + surface)].as_flattened());
            items.push(Item::polygon(&outline, Some(Ink::Edge), Some(Line::solid(Ink::Black, 0.5))));
            for (x, y) in cells {
                let (face, in_frame) = self.face(&lying.sheet, x, y, from_above);
                let plane = plane(frame, lying.w + surface, view);
                let ground = Ground { side: face.side, tone };
                let place = plane * in_frame;
                items.push(Item::Group(Group {
                    place,
                    ground: Some(ground),
                    tag: Some(Tag::Face(face)),
                    size: (pw, ph),
                    items: self.items(&face),
                }));
            }
        }
        self.creases_inside(sheaf, surface, from_above, view, items);
    }

    fn items(&self, face: &Face) -> Rc<[Item]> {
        let side = if face.side == Side::A { 0 } else { self.printing.rows * self.printing.columns };
        let i = (side + face.row * self.printing.columns + face.column) as usize;
        self.faces.get(i).cloned().unwrap_or_else(|| [].into())
    }

    /// The rectangle that a layer covers in its frame, mm.
    fn rect(&self, sheet: &Sheet) -> Rect {
        let (pw, ph) = self.printing.panel();
        match sheet {
            Sheet::Layer(layer) => {
                let r = layer.footprint();
                let (x0, y0, x1, y1) = (f64::from(r.x0), f64::from(r.y0), f64::from(r.x1), f64::from(r.y1));
                Rect::new(x0 * pw, y0 * ph, x1 * pw, y1 * ph)
            }
            Sheet::Leaf(_) => {
                let (w, h) = self.section.as_ref().map_or((pw, ph), |s| pose::page_size(s, (pw, ph)));
                Rect::new(0.0, 0.0, w, h)
            }
        }
    }

    /// The face of a layer that is seen at a panel of the frame, and the way from the face's own view into the frame.
    fn face(&self, sheet: &Sheet, x: i32, y: i32, from_above: bool) -> (Face, Affine) {
        let (pw, ph) = self.printing.panel();
        match sheet {
            Sheet::Layer(layer) => {
                let face = if from_above { layer.face_up(x, y) } else { layer.face_down(x, y) };
                let corner = (f64::from(face.column) * pw, f64::from(face.row) * ph);
                let sheet_from_face = match face.side {
                    Side::A => Affine::translate(corner),
                    Side::B => Affine::new([-1.0, 0.0, 0.0, 1.0, corner.0 + pw, corner.1]),
                };
                let p = &layer.placement;
                let sign = |mirrored: bool| if mirrored { -1.0 } else { 1.0 };
                let (dx, dy) = (f64::from(p.dx) * pw, f64::from(p.dy) * ph);
                let packet_from_sheet = Affine::new([sign(p.mirror_x), 0.0, 0.0, sign(p.mirror_y), dx, dy]);
                (face, packet_from_sheet * sheet_from_face)
            }
            Sheet::Leaf(leaf) => {
                let found = self.section.as_ref().and_then(|s| s.faces.get(2 * leaf + usize::from(!from_above)));
                let Some(found) = found else { return (Face { side: Side::A, row: 0, column: 0 }, Affine::IDENTITY) };
                let upright = page_in_panel(pw, ph, found.head).inverse();
                let width = self.rect(sheet).width();
                let mirror = if from_above { Affine::IDENTITY } else { Affine::new([-1.0, 0.0, 0.0, 1.0, width, 0.0]) };
                (found.face, mirror * upright)
            }
        }
    }

    /// Dashed lines where the layers that are seen will be creased, or were.
    fn creases_inside(&self, sheaf: &Sheaf, surface: f64, from_above: bool, view: &View, items: &mut Vec<Item>) {
        let nearest = if from_above { sheaf.layers.last() } else { sheaf.layers.first() };
        let Some(Lying { sheet: Sheet::Layer(layer), w }) = nearest else { return };
        let (pw, ph) = self.printing.panel();
        let (r, rect) = (layer.footprint(), self.rect(&Sheet::Layer(*layer)));
        let line = Line::dashed(Ink::Crease, 1.0, 5.0, 4.0);
        let at = |x: f64, y: f64| view.project(sheaf.frame.point(x, y, w + surface));
        for x in r.x0 + 1..r.x1 {
            let x = f64::from(x) * pw;
            items.push(Item::stroke(at(x, rect.y0), at(x, rect.y1), line));
        }
        for y in r.y0 + 1..r.y1 {
            let y = f64::from(y) * ph;
            items.push(Item::stroke(at(rect.x0, y), at(rect.x1, y), line));
        }
    }

    /// The crease to be folded next (or being considered), solid, on what lies on the bench.
    fn creases_on_top(&self, stage: Stage, sheaf: &Sheaf, shown: &Shown, view: &View, items: &mut Vec<Item>) {
        let Stage::Fold { made, turn } = stage else { return };
        let from_above = view.eye > 0.0;
        let nearest = if from_above { sheaf.layers.last() } else { sheaf.layers.first() };
        let Some(nearest) = nearest else { return };
        let packet = self.folding.packet(made);
        let extent = packet.extent();
        let next = self.folding.steps.get(made).map(|s| (s.turn.fold.crease, s.turn.at));
        let considered = shown.crease.filter(|_| turn == 0.0).map(|(crease, after)| {
            let start = if crease == Crease::Vertical { extent.x0 } else { extent.y0 };
            (crease, start + after.cast_signed())
        });
        let Some((crease, at)) = considered.or(next) else { return };
        let half = self.leaf(shown, packet.layers.len()) / 2.0;
        let w = nearest.w + if from_above { half } else { -half };
        let (pw, ph) = self.printing.panel();
        let (x0, x1) = (f64::from(extent.x0) * pw, f64::from(extent.x1) * pw);
        let (y0, y1) = (f64::from(extent.y0) * ph, f64::from(extent.y1) * ph);
        let ends = match crease {
            Crease::Vertical => [(f64::from(at) * pw, y0), (f64::from(at) * pw, y1)],
            Crease::Horizontal => [(x0, f64::from(at) * ph), (x1, f64::from(at) * ph)],
        };
        let [a, b] = ends.map(|(x, y)| view.project(Vec3::new(x, -y, w)));
        items.push(Item::stroke(a, b, Line::solid(Ink::Black, 1.6)));
    }

    /// The flat dark straight below the flap, on the bench or on the paper that stays.
    fn cast(&self, stage: Stage, shown: &Shown, view: &View, items: &mut Vec<Item>, on_bench: bool) {
        let Stage::Fold { made, turn } = stage else { return };
        let Some(step) = self.folding.steps.get(made).filter(|_| turn > 0.0 && view.eye > 0.0) else { return };
        let fold = &step.turn.fold;
        if fold.lands == crate::fold::Lands::Under {
            return;
        }
        let (pw, ph) = self.printing.panel();
        let extent = self.folding.packet(made).extent();
        let (x0, x1) = (f64::from(extent.x0) * pw, f64::from(extent.x1) * pw);
        let (y0, y1) = (f64::from(extent.y0) * ph, f64::from(extent.y1) * ph);
        let reach = sin_cos(turn * std::f64::consts::PI).1;
        let sideways = fold.crease == Crease::Vertical;
        let at = f64::from(step.turn.at) * if sideways { pw } else { ph };
        let far = match fold.moves {
            Part::Right => x1,
            Part::Left => x0,
            Part::Top => y0,
            Part::Bottom => y1,
        };
        let tip = at + (far - at) * reach;
        let footprint = if sideways {
            Rect::new(at.min(tip), y0, at.max(tip), y1)
        } else {
            Rect::new(x0, at.min(tip), x1, at.max(tip))
        };
        let stays = match fold.moves {
            Part::Right => Rect::new(x0, y0, at, y1),
            Part::Left => Rect::new(at, y0, x1, y1),
            Part::Top => Rect::new(x0, at, x1, y1),
            Part::Bottom => Rect::new(x0, y0, x1, at),
        };
        let (area, w, ink) = if on_bench {
            (footprint, 0.0, Ink::CastOnBench)
        } else {
            let leaf = self.leaf_between(shown, made, turn);
            (footprint.intersect(stays), step.turn.stayed as f64 * leaf - leaf / 2.0, Ink::CastOnPaper)
        };
        if area.area() > 0.0 {
            let corners = [(area.x0, area.y0), (area.x1, area.y0), (area.x1, area.y1), (area.x0, area.y1)];
            let corners = corners.map(|(x, y)| view.project(Vec3::new(x, -y, w)));
            items.push(Item::Path { path: closed(&corners), fill: Some(ink), line: None });
        }
    }

    /// The cuts along the closed edges, as far as they are made.
    fn knife(&self, cut: f64, shown: &Shown, view: &View, items: &mut Vec<Item>) {
        let (pw, ph) = self.printing.panel();
        let r = self.folding.last().extent();
        let (x0, x1) = (f64::from(r.x0) * pw, f64::from(r.x1) * pw);
        let (y0, y1) = (f64::from(r.y0) * ph, f64::from(r.y1) * ph);
        let off = 5.0;
        let layers = self.folding.last().layers.len();
        let top = (layers as f64 - 0.5) * self.leaf(shown, layers);
        for edge in &self.slits {
            use crate::fold::Direction::{Down, Left, Right, Up};
            let ((ax, ay), (bx, by)) = match edge {
                Up => ((x0 - off, y0 - off), (x1 + off, y0 - off)),
                Down => ((x0 - off, y1 + off), (x1 + off, y1 + off)),
                Left => ((x0 - off, y0 - off), (x0 - off, y1 + off)),
                Right => ((x1 + off, y0 - off), (x1 + off, y1 + off)),
            };
            let (cx, cy) = (ax + (bx - ax) * cut, ay + (by - ay) * cut);
            let at = |x: f64, y: f64| view.project(Vec3::new(x, -y, top));
            items.push(Item::stroke(at(ax, ay), at(cx, cy), Line::dashed(Ink::Light, 2.0, 8.0, 5.0)));
        }
    }

    /// The free corner, nearest to the viewer, of the part that turns or would turn.
    fn grip(&self, stage: Stage, view: &View, shown: &Shown) -> Option<Grip> {
        let Stage::Fold { made, turn } = stage else { return None };
        let step = self.folding.steps.get(made)?;
        let (pw, ph) = self.printing.panel();
        let extent = self.folding.packet(made).extent();
        let part = step.turn.fold.moves;
        let (left, top) = (part == Part::Left, part == Part::Top);
        let corner = (if left { extent.x0 } else { extent.x1 - 1 }, if top { extent.y0 } else { extent.y1 - 1 });
        let x = f64::from(if left { extent.x0 } else { extent.x1 }) * pw;
        let y = f64::from(if top { extent.y0 } else { extent.y1 }) * ph;
        let leaf = self.leaf_between(shown, made, turn);
        let sheaves = pose::half_folded(&step.after, &step.turn, turn, leaf, (pw, ph));
        let Sheaf { frame, layers, .. } = sheaves.get(1)?;
        // The uppermost leaf that reaches this corner; a packet can be thinner here than elsewhere.
        let reaches = |l: &&Lying| match l.sheet {
            Sheet::Layer(layer) => layer.footprint().holds(corner.0, corner.1),
            Sheet::Leaf(_) => false,
        };
        let w = layers.iter().rev().find(reaches).map_or(0.0, |l| l.w);
        Some(Grip { at: view.project(frame.point(x, y, w)), fold: made })
    }

    /// The way that the corner takes in a fold, on the screen.
    #[must_use]
    pub fn corner_way(&self, fold: usize, view: &View, shown: &Shown) -> Vec<Point> {
        let turns = (0..=36).map(|i| f64::from(i) / 36.0);
        turns.filter_map(|turn| Some(self.grip(Stage::Fold { made: fold, turn }, view, shown)?.at)).collect()
    }

    /// The share of the half turn of fold `fold` at which its corner comes nearest to a point on the screen.
    #[must_use]
    pub fn turn_towards(&self, fold: usize, at: Point, view: &View, shown: &Shown) -> f64 {
        let off = |turn: f64| {
            let grip = self.grip(Stage::Fold { made: fold, turn }, view, shown);
            grip.map_or(f64::INFINITY, |g| (g.at - at).hypot2())
        };
        let best = (0..=90).map(f64::from).min_by(|a, b| off(a / 90.0).total_cmp(&off(b / 90.0)));
        let around = best.unwrap_or(0.0) - 1.0;
        let fine = (0..=40).map(|i| ((around + f64::from(i) / 20.0) / 90.0).clamp(0.0, 1.0));
        fine.min_by(|a, b| off(*a).total_cmp(&off(*b))).unwrap_or(0.0)
    }

    /// The crease of the packet at rest that a point on the screen is nearest to, within `reach` pixels.
    #[must_use]
    pub fn crease_near(&self, made: usize, at: Point, view: &View, reach: f64) -> Option<(Crease, u32)> {
        let (pw, ph) = self.printing.panel();
        let r = self.folding.packet(made).extent();
        let plane = plane(&Frame::BENCH, 0.0, view);
        if plane.determinant().abs() < 1e-9 {
            return None;
        }
        let p = plane.inverse() * at;
        let (x, y) = (p.x / pw - f64::from(r.x0), p.y / ph - f64::from(r.y0));
        let nearest = |v: f64, size: i32| (size > 1).then(|| v.round().clamp(1.0, f64::from(size - 1)));
        let inside = |v: f64, size: i32| (-0.1..=f64::from(size) + 0.1).contains(&v);
        if !inside(x, r.width()) || !inside(y, r.height()) {
            return None;
        }
        let vertical = nearest(x, r.width()).map(|n| ((n - x).abs() * pw, Crease::Vertical, n as u32));
        let horizontal = nearest(y, r.height()).map(|n| ((n - y).abs() * ph, Crease::Horizontal, n as u32));
        let (off, crease, after) = [vertical, horizontal].into_iter().flatten().min_by(|a, b| a.0.total_cmp(&b.0))?;
        (off * view.scale <= reach).then_some((crease, after))
    }

    /// The smallest upright rectangle on the screen, at scale 1 about the view's origin, that holds the moment and the
    /// way to the next.
    #[must_use]
    pub fn extent(&self, at: f64, view: &View, shown: &Shown) -> Rect {
        let whole = at.floor();
        let mut all: Option<Rect> = None;
        let offering = self.rule.leaves > 0 && whole as usize == self.rule.folds + 1;
        let parts: &[f64] = if offering { &[0.0] } else { &[0.0, 0.3, 0.5, 0.7] };
        for part in parts {
            let stage = self.rule.stage(whole + part);
            for sheaf in self.sheaves(stage, shown, view) {
                for lying in [sheaf.layers.first(), sheaf.layers.last()].into_iter().flatten() {
                    let r = sheaf.layers.iter().map(|l| self.rect(&l.sheet)).reduce(|a, b| a.union(b));
                    let r = r.unwrap_or(Rect::ZERO);
                    for (x, y) in [(r.x0, r.y0), (r.x1, r.y0), (r.x1, r.y1), (r.x0, r.y1)] {
                        let p = view.project(sheaf.frame.point(x, y, lying.w));
                        all = Some(all.map_or(Rect::from_points(p, p), |a| a.union_pt(p)));
                    }
                }
            }
        }
        all.unwrap_or(Rect::ZERO)
    }
}

/// Which panels of a pile are hidden from the eye already.
struct Covered {
    around: crate::fold::Rect,
    hidden: Vec<bool>,
}

impl Covered {
    fn over(around: Option<crate::fold::Rect>) -> Self {
        let around = around.unwrap_or(crate::fold::Rect { x0: 0, y0: 0, x1: 1, y1: 1 });
        let panels = around.width().unsigned_abs() as usize * around.height().unsigned_abs() as usize;
        Self { around, hidden: vec![false; panels] }
    }

    /// Hides a panel; says whether it could be seen until then.
    fn cover(&mut self, (x, y): (i32, i32)) -> bool {
        let (x, y) = (x - self.around.x0, y - self.around.y0);
        let slot = (y * self.around.width() + x).unsigned_abs() as usize;
        self.hidden.get_mut(slot).is_some_and(|hidden| !std::mem::replace(hidden, true))
    }
}

/// The map from a plane (at height `w` over a frame) to the screen.
fn plane(frame: &Frame, w: f64, view: &View) -> Affine {
    let o = view.project(frame.point(0.0, 0.0, w));
    let x = view.project(frame.point(1.0, 0.0, w)) - o;
    let y = view.project(frame.point(0.0, 1.0, w)) - o;
    Affine::new([x.x, x.y, y.x, y.y, o.x, o.y])
}

/// The flat tone of a face: the light comes from the left, from the viewer, and mostly from above.
fn tone(normal: Vec3) -> u8 {
    let light = Vec3::new(-0.35, -0.25, 0.90);
    let bright = light.dot(normal) / light.dot(light).sqrt();
    match bright {
        b if b >= 0.86 => 0,
        b if b >= 0.70 => 1,
        b if b >= 0.45 => 2,
        _ => 3,
    }
}

/// The convex outline around some points, wrapped like a string around pegs (Jarvis's march).
fn hull(points: &[Point]) -> Vec<Point> {
    let leftmost = points.iter().copied().reduce(|a, b| if (b.x, b.y) < (a.x, a.y) { b } else { a });
    let Some(start) = leftmost else { return Vec::new() };
    let mut outline = vec![start];
    let mut at = start;
    while outline.len() <= points.len() {
        let others = points.iter().copied().filter(|p| *p != at);
        // The next peg has no other to its one side; of several in line it is the farthest.
        let next = others.reduce(|a, b| {
            let turn = (a - at).cross(b - at);
            if turn < 0.0 || (turn == 0.0 && (b - at).hypot2() > (a - at).hypot2()) { b } else { a }
        });
        match next {
            Some(p) if p != start => outline.push(p),
            _ => break,
        }
        at = next.unwrap_or(start);
    }
    outline
}

/// The edges of a finished packet, other than the spine, where some leaf is closed by a bolt.
fn closed_edges(section: &Section, folding: &Folding) -> Vec<crate::fold::Direction> {
    let sheet = folding.flat.extent();
    let around = [section.head, section.spine.opposite(), section.head.opposite()];
    let closed = |edge: crate::fold::Direction| {
        folding.last().layers.iter().any(|layer| {
            let (dx, dy) = layer.placement.direction(edge).step();
            sheet.holds(layer.area.x0 + dx, layer.area.y0 + dy)
        })
    };
    around.into_iter().filter(|e| closed(*e)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_hull_is_the_string_around_the_pegs() {
        let at = |x: f64, y: f64| Point::new(x, y);
        let square = [at(0.0, 0.0), at(2.0, 0.0), at(1.0, 1.0), at(2.0, 2.0), at(0.0, 2.0), at(1.0, 0.0)];
        let hull = hull(&square);
        assert_eq!(hull.len(), 4, "{hull:?}");
        assert!(!hull.contains(&at(1.0, 1.0)) && !hull.contains(&at(1.0, 0.0)));
        assert_eq!(super::hull(&[at(3.0, 3.0); 4]), [at(3.0, 3.0)]);
    }
}
