//! What the hand can take: the free corner and its way, a crease pointed at, the room that the sheet needs.

use super::{Bench, Grip, Shown, plane};
use crate::fold::{Crease, Part};
use crate::scene::moment::Stage;
use crate::scene::pose::{self, Frame, Lying, Sheaf, Sheet};
use crate::scene::view::View;
use kurbo::{Point, Rect};

impl Bench {
    /// The free corner, nearest to the viewer, of the part that turns or would turn.
    pub(super) fn grip(&self, stage: Stage, view: &View, shown: &Shown) -> Option<Grip> {
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
