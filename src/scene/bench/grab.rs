//! Taking the paper anywhere: what edge or corner is near a point, the crease that a drag from there asks for, and how
//! far the paper has turned when the place that was taken is where the hand is.

use super::places::{Places, rect};
use super::{Bench, Shown, plane};
use crate::fold::{Crease, Fold, Lands, Part};
use crate::scene::pose::{self, Frame};
use crate::scene::view::{Vec3, View};
use kurbo::{Line, ParamCurveNearest, Point, Rect};

/// A place on the paper that a hand holds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hold {
    /// The edge to the left or right that it is on.
    pub sideways: Option<Part>,
    /// The edge at the top or bottom that it is on. At a corner there are both.
    pub upright: Option<Part>,
    /// The place, mm, as the packet lies.
    pub at: (f64, f64),
    /// Whether it is on the free edge of what the last fold turned, which can be pulled back.
    pub flap: Option<Part>,
    /// Whether that edge lies inside the packet, so that nothing else can be done with it.
    pub inside: bool,
}

/// What a drag asks for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Asked {
    /// To make this fold next.
    Fold(Fold),
    /// To turn back the last one.
    Unfold,
}

/// A fold, and the place on its moving part that is held, mm, as the part lies before it moves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Held {
    /// The number of the fold, from 0.
    pub fold: usize,
    /// The place.
    pub at: (f64, f64),
}

/// The four outer edges of a rectangle, and the part that each bounds.
fn edges(r: &Rect) -> [(Part, [(f64, f64); 2]); 4] {
    let Rect { x0, y0, x1, y1 } = *r;
    [
        (Part::Left, [(x0, y0), (x0, y1)]),
        (Part::Right, [(x1, y0), (x1, y1)]),
        (Part::Top, [(x0, y0), (x1, y0)]),
        (Part::Bottom, [(x0, y1), (x1, y1)]),
    ]
}

impl Bench {
    /// The rectangle that the moving part of fold `step` covers once it is down.
    fn landed(&self, step: usize) -> Option<Rect> {
        let made = self.folding.steps.get(step)?;
        let layers = made.after.layers.iter().zip(self.places.packet(step + 1)).enumerate();
        let moved = layers.filter(|(i, _)| made.turn.moved(*i)).map(|(_, (l, at))| rect(l, *at, &self.printing));
        moved.reduce(|a, b| a.union(b))
    }

    /// The height of what is seen of a packet at rest, mm.
    fn surface(&self, made: usize, view: &View, shown: &Shown) -> f64 {
        let layers = self.folding.packet(made).layers.len();
        let top = if view.from_above() { layers as f64 - 0.5 } else { -0.5 };
        top * self.leaf(shown, layers)
    }

    /// The edge or corner of the packet after `made` folds that is within `reach` pixels of a point on the screen.
    #[must_use]
    pub fn edge_near(&self, made: usize, near: Point, view: &View, shown: &Shown, reach: f64) -> Option<Hold> {
        if self.is_parted(made as f64) {
            return None;
        }
        let w = self.surface(made, view, shown);
        let plane = plane(&Frame::BENCH, w, view);
        if plane.determinant().abs() < 1e-9 {
            return None;
        }
        let off = |[a, b]: [(f64, f64); 2]| {
            Line::new(plane * Point::from(a), plane * Point::from(b)).nearest(near, 0.1).distance_sq
        };
        let span = self.span(made);
        let p = plane.inverse() * near;
        let mut hold = Hold { sideways: None, upright: None, at: (p.x, p.y), flap: None, inside: false };
        let mut best = (reach * reach, reach * reach);
        for (part, ends) in edges(&span) {
            let (off, sideways) = (off(ends), part.crease() == Crease::Vertical);
            let (best, slot) =
                if sideways { (&mut best.0, &mut hold.sideways) } else { (&mut best.1, &mut hold.upright) };
            if off <= *best {
                (*best, *slot) = (off, Some(part));
            }
        }
        // Along an edge the place is anywhere on it; across, on the edge.
        let [left, right, ..] = edges(&span).map(|e| e.1);
        hold.at = (crate::units::between(p.x, left[0].0, right[0].0), crate::units::between(p.y, left[0].1, left[1].1));
        match hold.sideways {
            Some(Part::Left) => hold.at.0 = left[0].0,
            Some(_) => hold.at.0 = right[0].0,
            None => {}
        }
        match hold.upright {
            Some(Part::Top) => hold.at.1 = left[0].1,
            Some(_) => hold.at.1 = left[1].1,
            None => {}
        }
        // The free edge of the last flap, which lies opposite its crease.
        let last = made.checked_sub(1).and_then(|i| self.folding.steps.get(i));
        if let Some(last) = last
            && let Some(flap) = self.landed(made - 1)
        {
            let part = last.turn.fold.moves.other();
            let here = edges(&flap).into_iter().find(|e| e.0 == part);
            let outer = edges(&span).into_iter().find(|e| e.0 == part);
            let on_top = (last.turn.fold.lands == Lands::Over) == view.from_above();
            match (here, outer) {
                (Some(here), Some(outer)) if (line(part, here.1) - line(part, outer.1)).abs() < 0.01 => {
                    hold.flap = Some(part).filter(|p| hold.sideways == Some(*p) || hold.upright == Some(*p));
                }
                (Some((_, ends)), _)
                    if on_top && hold.sideways.is_none() && hold.upright.is_none() && off(ends) <= reach * reach =>
                {
                    let sideways = part.crease() == Crease::Vertical;
                    let slot = if sideways { &mut hold.sideways } else { &mut hold.upright };
                    *slot = Some(part);
                    (hold.flap, hold.inside) = (Some(part), true);
                    if sideways { hold.at.0 = ends[0].0 } else { hold.at.1 = ends[0].1 }
                }
                _ => {}
            }
        }
        (hold.sideways.is_some() || hold.upright.is_some()).then_some(hold)
    }

    /// The middle of the packet at a moment, on its lowest layer.
    #[must_use]
    pub fn middle(&self, at: f64) -> Vec3 {
        let centre = self.span(at.max(0.0) as usize).center();
        Vec3::new(centre.x, -centre.y, 0.0)
    }

    /// Where a place on the packet at rest appears.
    #[must_use]
    pub fn place(&self, made: usize, at: (f64, f64), view: &View, shown: &Shown) -> Point {
        let w = self.surface(made, view, shown);
        view.project(Vec3::new(at.0, -at.1, w))
    }

    /// A short stroke along the edge, or around the corner, that a hold is on.
    #[must_use]
    pub fn hold_mark(&self, made: usize, hold: &Hold, view: &View, shown: &Shown) -> Vec<Point> {
        let reach = 26.0 / view.scale.max(0.01);
        let [left, right, ..] = edges(&self.span(made)).map(|e| e.1);
        let at = |dx: f64, dy: f64| {
            let x = crate::units::between(hold.at.0 + dx * reach, left[0].0, right[0].0);
            let y = crate::units::between(hold.at.1 + dy * reach, left[0].1, left[1].1);
            self.place(made, (x, y), view, shown)
        };
        match (hold.sideways, hold.upright) {
            (Some(_), None) => vec![at(0.0, -1.0), at(0.0, 1.0)],
            (None, _) => vec![at(-1.0, 0.0), at(1.0, 0.0)],
            (Some(a), Some(b)) => {
                let inwards = (if a == Part::Left { 1.0 } else { -1.0 }, if b == Part::Top { 1.0 } else { -1.0 });
                vec![at(0.0, inwards.1), at(0.0, 0.0), at(inwards.0, 0.0)]
            }
        }
    }

    /// What a drag of the packet after `made` folds asks for, when the place that was taken is to come to a point on
    /// the screen: the fold at the crease nearest to the middle between the two, over what stays as it is seen (or
    /// under it, the `other` way), or the last fold undone if its edge is nearer to that middle.
    #[must_use]
    pub fn asked(&self, made: usize, hold: &Hold, to: Point, view: &View, shown: &Shown, other: bool) -> Option<Asked> {
        let plane = plane(&Frame::BENCH, self.surface(made, view, shown), view);
        if plane.determinant().abs() < 1e-9 {
            return None;
        }
        let p = plane.inverse() * to;
        let (dx, dy) = (p.x - hold.at.0, p.y - hold.at.1);
        // At a corner the longer way decides.
        let part = match (hold.sideways, hold.upright) {
            (Some(part), None) | (None, Some(part)) => part,
            (Some(a), Some(b)) => {
                if dx.abs() >= dy.abs() {
                    a
                } else {
                    b
                }
            }
            (None, None) => return None,
        };
        let extent = self.folding.packet(made).extent();
        let (middle, first, last) = match part.crease() {
            Crease::Vertical => ((p.x + hold.at.0) / 2.0, extent.x0, extent.x1),
            Crease::Horizontal => ((p.y + hold.at.1) / 2.0, extent.y0, extent.y1),
        };
        let lines = (first + 1..last).filter(|_| !hold.inside);
        let lines = lines.map(|at| ((self.line_in(made, part.crease(), at) - middle).abs(), at));
        let crease = lines.min_by(|a, b| a.0.total_cmp(&b.0));
        let off = crease.map_or(f64::INFINITY, |c| c.0);
        let folded = made.checked_sub(1).filter(|i| *i < self.folding.steps.len());
        if folded.is_some_and(|i| hold.flap == Some(part) && (self.places.crease(i) - middle).abs() < off) {
            return Some(Asked::Unfold);
        }
        let lands = if view.from_above() == other { Lands::Under } else { Lands::Over };
        crease.map(|(_, c)| Asked::Fold(Fold::new((c - first).unsigned_abs(), part, lands)))
    }

    /// The same sheet with another fold after `made` folds, and nothing after that.
    #[must_use]
    pub fn trying(&self, made: usize, fold: &Fold) -> Option<Self> {
        let (after, turn) = self.folding.packet(made).fold(fold)?;
        let mut tried = self.clone();
        tried.folding.steps.truncate(made);
        tried.folding.steps.push(crate::fold::Step { turn, after });
        tried.folding.stopped = None;
        tried.section = None;
        tried.slits.clear();
        tried.places = Places::of(&tried.folding, self.places.packet(0).to_vec(), &self.printing);
        (tried.parted, tried.finish) = (None, None);
        tried.rule = crate::scene::moment::Rule { folds: made + 1, leaves: 0 };
        Some(tried)
    }

    /// The place that is held as it lies before fold number `fold` is made, if it is taken where it lies after it.
    #[must_use]
    pub fn before(&self, fold: usize, at: (f64, f64)) -> Option<Held> {
        let turn = &self.folding.steps.get(fold)?.turn;
        let line = self.places.crease(fold);
        let at = match turn.fold.crease {
            Crease::Vertical => (2.0 * line - at.0, at.1),
            Crease::Horizontal => (at.0, 2.0 * line - at.1),
        };
        Some(Held { fold, at })
    }

    /// The layer after a fold that a hand touches at a place: of those that move, the one nearest to the eye.
    fn touched(&self, held: &Held, view: &View) -> Option<usize> {
        let turn = &self.folding.steps.get(held.fold)?.turn;
        let here = |i: &usize| {
            let before = self.before_fold(held.fold, *i).filter(|_| turn.moved(*i));
            before.is_some_and(|sheet| self.rect(&sheet).inflate(0.01, 0.01).contains(Point::from(held.at)))
        };
        let mut there = (0..turn.parents.len()).filter(here);
        // What moved lies in reverse order.
        if view.from_above() { there.next() } else { there.next_back() }
    }

    /// Where the place that is held appears when the fold has gone `turn` of its way.
    #[must_use]
    pub fn held_at(&self, held: &Held, turn: f64, view: &View, shown: &Shown) -> Option<Point> {
        let i = self.touched(held, view).unwrap_or(usize::MAX);
        self.held_point(held, i, turn, view, shown)
    }

    fn held_point(&self, held: &Held, i: usize, turn: f64, view: &View, shown: &Shown) -> Option<Point> {
        let step = self.folding.steps.get(held.fold)?;
        let leaf = self.leaf_between(shown, held.fold, turn);
        Some(view.project(pose::moved_point(&step.turn, i, held.at, turn, leaf, self.places.crease(held.fold))))
    }

    /// The share of the half turn at which the place that is held comes nearest to a point on the screen.
    #[must_use]
    pub fn turn_held(&self, held: &Held, to: Point, view: &View, shown: &Shown) -> f64 {
        let i = self.touched(held, view).unwrap_or(usize::MAX);
        let off = |turn: f64| self.held_point(held, i, turn, view, shown).map_or(f64::INFINITY, |p| (p - to).hypot2());
        let nearest = |turns: &mut dyn Iterator<Item = f64>| {
            turns.map(|t| (off(t), t)).min_by(|a, b| a.0.total_cmp(&b.0)).map_or(0.0, |best| best.1)
        };
        let around = nearest(&mut (0..=90).map(|i| f64::from(i) / 90.0));
        nearest(&mut (-20..=20).map(|i| crate::units::between(around + f64::from(i) / 1800.0, 0.0, 1.0)))
    }

    /// The place of the free edge of a part on the move that is within `reach` pixels of a point on the screen.
    #[must_use]
    pub fn moving_edge_near(
        &self,
        fold: usize,
        turn: f64,
        near: Point,
        view: &View,
        shown: &Shown,
        reach: f64,
    ) -> Option<Held> {
        let part = self.folding.steps.get(fold)?.turn.fold.moves;
        let all = edges(&self.span(fold));
        let [a, b] = all.into_iter().find(|e| e.0 == part)?.1;
        let [from, to] = [a, b].map(|at| self.held_at(&Held { fold, at }, turn, view, shown));
        let nearest = Line::new(from?, to?).nearest(near, 0.1);
        let at = (a.0 + (b.0 - a.0) * nearest.t, a.1 + (b.1 - a.1) * nearest.t);
        (nearest.distance_sq <= reach * reach).then_some(Held { fold, at })
    }
}

/// The coordinate of an edge across itself.
fn line(part: Part, ends: [(f64, f64); 2]) -> f64 {
    if part.crease() == Crease::Vertical { ends[0].0 } else { ends[0].1 }
}
