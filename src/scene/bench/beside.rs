//! What lies beside the paper: the crease to be folded next, the shadow of the flap, the cuts of the knife.

use super::{Bench, Shown};
use crate::fold::{Crease, Part};
use crate::scene::item::{Ink, Item, Line, closed};
use crate::scene::moment::Stage;
use crate::scene::pose::Sheaf;
use crate::scene::trig::sin_cos;
use crate::scene::view::{Vec3, View};
use kurbo::Rect;

impl Bench {
    /// The crease to be folded next (or being considered), solid, on what lies on the bench.
    pub(super) fn creases_on_top(
        &self,
        stage: Stage,
        sheaf: &Sheaf,
        shown: &Shown,
        view: &View,
        items: &mut Vec<Item>,
    ) {
        let Stage::Fold { made, turn } = stage else { return };
        let from_above = view.from_above();
        let nearest = if from_above { sheaf.layers.last() } else { sheaf.layers.first() };
        let Some(nearest) = nearest else { return };
        let packet = self.folding.packet(made);
        let extent = packet.extent();
        let next = self.folding.steps.get(made).map(|s| (s.turn.fold.crease, s.turn.at));
        let slit = self.parted.as_ref().filter(|_| made == self.folding.steps.len()).map(|p| (p.crease, p.at));
        let considered = shown.crease.filter(|_| turn == 0.0).map(|(crease, after)| {
            let start = if crease == Crease::Vertical { extent.x0 } else { extent.y0 };
            (crease, start + after.cast_signed())
        });
        let Some((crease, at)) = considered.or(next).or(slit) else { return };
        let half = self.leaf(shown, packet.layers.len()) / 2.0;
        let w = nearest.w + if from_above { half } else { -half };
        let Rect { x0, y0, x1, y1 } = self.span(made);
        let line = self.line_in(made, crease, at);
        let ends = match crease {
            Crease::Vertical => [(line, y0), (line, y1)],
            Crease::Horizontal => [(x0, line), (x1, line)],
        };
        let [a, b] = ends.map(|(x, y)| view.project(Vec3::new(x, -y, w)));
        // A slit is dashed as the cuts of the knife are.
        let slit = considered.or(next).is_none();
        let line = if slit { Line::dashed(Ink::Black, 2.2, 8.0, 5.0) } else { Line::solid(Ink::Black, 1.6) };
        items.push(Item::stroke(a, b, line));
    }

    /// The flat dark straight below the flap, on the bench or on the paper that stays.
    pub(super) fn cast(&self, stage: Stage, shown: &Shown, view: &View, items: &mut Vec<Item>, on_bench: bool) {
        let Stage::Fold { made, turn } = stage else { return };
        let Some(step) = self.folding.steps.get(made).filter(|_| turn > 0.0 && view.eye > 0.0) else { return };
        let fold = &step.turn.fold;
        let over = fold.lands == crate::fold::Lands::Over;
        // Only a flap that is lifted from the bench, however the sheet lies on it, leaves something dark below.
        if view.lay.up() * if over { 1.0 } else { -1.0 } < 0.999 {
            return;
        }
        let Rect { x0, y0, x1, y1 } = self.span(made);
        let reach = sin_cos(turn * std::f64::consts::PI).1;
        let sideways = fold.crease == Crease::Vertical;
        let at = self.places.crease(made);
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
        let leaf = self.leaf_between(shown, made, turn);
        let (stayed, all) = (step.turn.stayed as f64, step.turn.parents.len() as f64);
        // What stays is pushed away from the flap where that lands under it.
        let (bench, paper) = if over {
            (0.0, stayed - 0.5)
        } else {
            (stayed + (all - stayed) * turn - 1.0, (all - stayed) * turn - 0.5)
        };
        let (area, w, ink) = if on_bench {
            (footprint, bench * leaf, Ink::CastOnBench)
        } else {
            (footprint.intersect(stays), paper * leaf, Ink::CastOnPaper)
        };
        if area.area() > 0.0 {
            let corners = [(area.x0, area.y0), (area.x1, area.y0), (area.x1, area.y1), (area.x0, area.y1)];
            let corners = corners.map(|(x, y)| view.project(Vec3::new(x, -y, w)));
            items.push(Item::Path { path: closed(&corners), fill: Some(ink), line: None });
        }
    }

    /// The cuts along the closed edges, as far as they are made.
    pub(super) fn knife(&self, cut: f64, shown: &Shown, view: &View, items: &mut Vec<Item>) {
        let Rect { x0, y0, x1, y1 } = self.span(usize::MAX);
        let off = 5.0;
        let layers = self.folding.last().layers.len();
        let top = if view.from_above() { layers as f64 - 0.5 } else { -0.5 } * self.leaf(shown, layers);
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
}
