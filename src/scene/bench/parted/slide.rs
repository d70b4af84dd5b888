//! One section on its way into the middle of another.

use super::Inset;
use super::act::{LIFT, Part, led};
use crate::fold::Part as Side;
use crate::scene::bench::bolt::Edges;
use crate::scene::bench::{Bench, Shown};
use crate::scene::item::Item;
use crate::scene::pose::{self, Frame, Lying, Sheaf, Sheet};
use crate::scene::view::{Turned, Vec3, View};
use kurbo::Point;

/// How far the outer section is opened for the inner one, in degrees: a little beyond upright.
const OPEN: f64 = 95.0;

/// From 0 to 1 between two moments, without a jerk.
pub(super) fn smooth(share: f64, from: f64, to: f64) -> f64 {
    let t = crate::units::between((share - from) / (to - from), 0.0, 1.0);
    t * t * (3.0 - 2.0 * t)
}

/// Thickness of a leaf where all of a packet lies closed.
fn leaf(bench: &Bench, shown: &Shown) -> f64 {
    bench.leaf(shown, bench.folding.last().layers.len())
}

impl Inset {
    /// How high the inner section is lifted to pass over the opened outer one, mm.
    pub(super) fn lift(&self) -> f64 {
        let (w, h) = self.guest.printing.panel();
        w.max(h) + LIFT
    }

    /// The outer section opens at its middle, the inner one is led over it and let down, and it closes again.
    pub(super) fn parts(&self, share: f64, view: &View, shown: &Shown) -> Vec<Part> {
        let open = smooth(share, 0.0, 0.2) * (1.0 - smooth(share, 0.8, 1.0));
        let way = smooth(share, 0.2, 0.55);
        let (rises, sinks) = (smooth(share, 0.0, 0.2), smooth(share, 0.55, 0.8));
        let air = rises * (1.0 - sinks);
        let thinner = |bench: &Bench| leaf(bench, shown) * (1.0 - sinks) + leaf(&self.nested, shown) * sinks;
        let host_leaf = thinner(&self.host_bench);
        // Turned about its own middle while it is led from its place to that of the other.
        let over = if self.over { 180.0 * way } else { 0.0 };
        let turn = Turned::NOT.over(over).round(if self.round { 180.0 * way } else { 0.0 });
        let (from, to) = (self.guest.middle(f64::INFINITY), self.host_bench.middle(f64::INFINITY));
        let (a, b) = (from + led(self.guest_aside, 1.0, 0.0), to + led(self.host_aside, 1.0, 0.0));
        let layers = self.guest.folding.last().layers.len();
        let guest_leaf = thinner(&self.guest);
        let thick = layers.saturating_sub(1) as f64 * guest_leaf;
        // Its middle stays the middle, whichever way it is turned.
        let middle = from + Vec3::new(0.0, 0.0, thick / 2.0);
        let half = self.host_bench.folding.last().layers.len() / 2;
        let up = thick / 2.0 + half as f64 * host_leaf * way + self.lift() * air;
        let lands = view.project(a + (b - a) * way + Vec3::new(0.0, 0.0, up));
        let turned = View { lay: view.lay.after(turn), origin: Point::ORIGIN, ..*view };
        let guest_view = View { origin: lands - turned.project(middle).to_vec2(), ..turned };
        let guest = self.guest.lone_items(
            self.guest.folding.steps.len() as f64,
            &guest_view,
            &Shown { leaf: guest_leaf, ..*shown },
        );
        let room = Some(self.host_bench.room(f64::INFINITY, self.host_aside));
        let host_view = view.moved(led(self.host_aside, 1.0, 0.0));
        let sinks_in = layers as f64 * sinks;
        if share >= 1.0 {
            vec![Part { room, items: self.nested.lone_items(0.0, &host_view, shown) }]
        } else if way < 1.0 {
            let own = self.guest.room(f64::INFINITY, self.guest_aside);
            let guest = Part { room: Some(own).filter(|_| way <= 0.0), items: guest };
            vec![Part { room, items: self.host(open, sinks_in, host_leaf, &host_view, None) }, guest]
        } else {
            vec![Part { room, items: self.host(open, sinks_in, host_leaf, &host_view, Some(guest)) }]
        }
    }

    /// The outer section, so far open, its upper half lifted by so many leaves; perhaps with something between its halves.
    fn host(&self, open: f64, lifted: f64, leaf: f64, view: &View, between: Option<Vec<Item>>) -> Vec<Item> {
        let bench = &self.host_bench;
        if open <= 0.0 {
            return bench.lone_items(bench.folding.steps.len() as f64, view, &Shown { leaf, crease: None });
        }
        let packet = bench.folding.last();
        let r = bench.span(usize::MAX);
        // The page lies on this side of the spine.
        let (page, spine) = match self.host_spine {
            crate::fold::Direction::Left => (Side::Right, r.x0),
            crate::fold::Direction::Right => (Side::Left, r.x1),
            crate::fold::Direction::Up => (Side::Bottom, r.y0),
            crate::fold::Direction::Down => (Side::Top, r.y1),
        };
        let half = packet.layers.len() / 2;
        let all: Vec<_> = packet.layers.iter().copied().zip(bench.places.last().iter().copied()).collect();
        let (low, high) = all.split_at(half.min(all.len()));
        let hinge = (half as f64 - 0.5 + lifted) * leaf;
        let frame = Frame::turned(page, spine, hinge, (OPEN * open).to_radians(), crate::fold::Lands::Over);
        let pile = |frame: Frame, layers: &[(crate::fold::Layer, pose::At)], from: f64, level: f64| {
            let lying = |(i, (layer, at)): (usize, &(crate::fold::Layer, pose::At))| Lying {
                sheet: Sheet::Layer(*layer, *at),
                w: (i as f64 + from) * leaf,
            };
            let layers = layers.iter().enumerate().map(lying).collect();
            Sheaf { frame, layers, arm: frame.arm(page), level, leaf }
        };
        let mut sheaves = [pile(Frame::BENCH, low, 0.0, 0.0), pile(frame, high, 0.5, 1.0)];
        pose::farthest_first(&mut sheaves, view);
        let mut between = between;
        let mut items = Vec::new();
        let from_above = view.from_above();
        for sheaf in &sheaves {
            let stays = sheaf.level == 0.0;
            items.extend(between.take_if(|_| stays && !from_above).into_iter().flatten());
            bench.paint(sheaf, view, &Edges { slit: 0.0, round: 1.0 }, &mut items);
            items.extend(between.take_if(|_| stays).into_iter().flatten());
        }
        items
    }
}
