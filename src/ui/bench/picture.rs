//! What is painted in a frame: the bench, what shows where it can be taken, and the bone folder on the rule.

use super::hands::Hands;
use super::pointer::Doing;
use crate::scene::{Bench, Ink, Item, Line, Scene, Stage, View, ring};
use crate::ui::browser::media;
use crate::units::short as number;
use kurbo::Point;
use web_sys::{HtmlInputElement, SvgElement};

impl Hands {
    pub(super) fn paint(&self) {
        let Some(bench) = self.bench() else { return };
        let at = self.0.at.get();
        let view = self.view(at);
        let mut picture = bench.scene(at, &view, &self.shown());
        // A bench without a rule of its own only folds along; there is nothing to take.
        if self.0.rule.borrow().is_some() {
            self.draw_hold(&bench, at, picture.grip.map(|g| (g.at, g.fold)), &view, &mut picture.scene);
        }
        if let Some(canvas) = self.0.canvas.borrow().as_ref() {
            canvas.paint(&picture.scene);
        }
        *self.0.last.borrow_mut() = Some((picture, view));
    }

    /// A ring at the free corner, or, while the paper is held, at the place that is held, with dots along its way; and
    /// a stroke along the edge that the pointer is over.
    fn draw_hold(&self, bench: &Bench, at: f64, grip: Option<(Point, usize)>, view: &View, scene: &mut Scene) {
        let shown = self.shown();
        let held = self.0.place.get().filter(|_| matches!(self.0.pointer.get(), Doing::Folding(..) | Doing::Taking(_)));
        let ring_at = match held {
            Some(held) => bench.held_at(&held, at - held.fold as f64, view, &shown),
            None => grip.map(|g| g.0),
        };
        let way = match (held, grip) {
            (Some(held), _) => bench.way(&held, view, &shown),
            (None, Some((_, fold))) if media::reduced_motion() => bench.corner_way(fold, view, &shown),
            _ => Vec::new(),
        };
        let line = |points: &[Point], line: Line| {
            let mut path = kurbo::BezPath::new();
            for (i, p) in points.iter().enumerate() {
                if i == 0 { path.move_to(*p) } else { path.line_to(*p) }
            }
            Item::Path { path, fill: None, line: Some(line) }
        };
        if !way.is_empty() {
            scene.items.push(line(&way, Line::dashed(Ink::Quiet, 2.0, 2.0, 6.0)));
        }
        if let Some(at) = ring_at {
            let fill = if held.is_some() || self.0.over_grip.get() { Ink::Light } else { Ink::CastOnBench };
            let edge = Some(Line::solid(Ink::Light, 3.0));
            scene.items.push(Item::Path { path: ring(at, 11.0), fill: Some(fill), line: edge });
        }
        if let (Some(hold), Stage::Fold { made, turn: 0.0 }) = (self.0.hover.get(), bench.rule.stage(at))
            && held.is_none()
        {
            let mark = bench.hold_mark(made, &hold, view, &shown);
            scene.items.push(line(&mark, Line::solid(Ink::Black, 7.0)));
            scene.items.push(line(&mark, Line::solid(Ink::Light, 3.0)));
        }
    }

    pub(super) fn move_bone(&self) {
        let rule = self.0.rule.borrow();
        let Some((bone, input, shape)) = rule.as_ref() else { return };
        let at = self.0.at.get();
        if let Some(bone) = bone.cast::<SvgElement>() {
            let lift = if self.is_holding() { -4 } else { 0 };
            let _ = bone.set_attribute("transform", &format!("translate({} {lift})", number(shape.x(at))));
        }
        if let Some(input) = input.cast::<HtmlInputElement>() {
            input.set_value_as_number((at * 100.0).round());
        }
    }
}
