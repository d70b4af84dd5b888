//! What the hand can take: the free corner and its way, a crease pointed at, the room that the sheet needs.

use super::{Bench, Grip, Held, Shown, plane};
use crate::fold::{Crease, Part};
use crate::scene::moment::Stage;
use crate::scene::pose::Frame;
use crate::scene::view::{Vec3, View};
use kurbo::{Point, Rect};

impl Bench {
    /// The free corner, nearest to the viewer, of the part that turns or would turn.
    pub(super) fn grip(&self, stage: Stage, view: &View, shown: &Shown) -> Option<Grip> {
        let Stage::Fold { made, turn } = stage else { return None };
        let held = self.corner(made, view)?;
        Some(Grip { at: self.held_at(&held, turn, view, shown)?, fold: made })
    }

    /// That corner, as a place that is held: of the two on the free edge the one nearer to the viewer, or to the right.
    #[must_use]
    pub fn corner(&self, fold: usize, view: &View) -> Option<Held> {
        let part = self.folding.steps.get(fold)?.turn.fold.moves;
        let r = self.span(fold);
        let corner = |x: f64, y: f64| (x, y);
        let [a, b] = match part {
            Part::Left => [corner(r.x0, r.y0), corner(r.x0, r.y1)],
            Part::Right => [corner(r.x1, r.y0), corner(r.x1, r.y1)],
            Part::Top => [corner(r.x0, r.y0), corner(r.x1, r.y0)],
            Part::Bottom => [corner(r.x0, r.y1), corner(r.x1, r.y1)],
        };
        let along = view.lay.on_bench(Vec3::new(b.0 - a.0, a.1 - b.1, 0.0));
        let second = if along.x.abs() > along.y.abs() { along.x > 0.0 } else { along.y < 0.0 };
        Some(Held { fold, at: if second { b } else { a } })
    }

    /// The way that the corner takes in a fold, on the screen.
    #[must_use]
    pub fn corner_way(&self, fold: usize, view: &View, shown: &Shown) -> Vec<Point> {
        self.corner(fold, view).map_or_else(Vec::new, |held| self.way(&held, view, shown))
    }

    /// The way that a place takes in a fold, on the screen.
    #[must_use]
    pub fn way(&self, held: &Held, view: &View, shown: &Shown) -> Vec<Point> {
        (0..=36).filter_map(|i| self.held_at(held, f64::from(i) / 36.0, view, shown)).collect()
    }

    /// The crease of the packet at rest that a point on the screen is nearest to, within `reach` pixels.
    #[must_use]
    pub fn crease_near(&self, made: usize, at: Point, view: &View, reach: f64) -> Option<(Crease, u32)> {
        if self.is_parted(made as f64) {
            return None;
        }
        let (r, span) = (self.folding.packet(made).extent(), self.span(made));
        let plane = plane(&Frame::BENCH, 0.0, view);
        if plane.determinant().abs() < 1e-9 {
            return None;
        }
        let p = plane.inverse() * at;
        if !span.inflate(self.printing.panel().0 * 0.1, self.printing.panel().1 * 0.1).contains(p) {
            return None;
        }
        let nearest = |crease: Crease, first: i32, last: i32, v: f64| {
            let lines = (first + 1..last).map(|at| ((self.line_in(made, crease, at) - v).abs(), at - first));
            let (off, after) = lines.min_by(|a, b| a.0.total_cmp(&b.0))?;
            Some((off, crease, after.unsigned_abs()))
        };
        let vertical = nearest(Crease::Vertical, r.x0, r.x1, p.x);
        let horizontal = nearest(Crease::Horizontal, r.y0, r.y1, p.y);
        let (off, crease, after) = [vertical, horizontal].into_iter().flatten().min_by(|a, b| a.0.total_cmp(&b.0))?;
        (off * view.scale <= reach).then_some((crease, after))
    }

    /// The smallest upright rectangle on the screen, at scale 1 about the view's origin, that holds the moment and the
    /// way to the next.
    #[must_use]
    pub fn extent(&self, at: f64, view: &View, shown: &Shown) -> Rect {
        self.parted_extent(at, view, shown).unwrap_or_else(|| self.lone_extent(at, view, shown))
    }

    /// The same without the parts of a slit sheet.
    pub(super) fn lone_extent(&self, at: f64, view: &View, shown: &Shown) -> Rect {
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
