//! The picture of a slit sheet at a moment: every part where it lies just then, the farthest first.

use super::order::farthest_first;
use super::slide::smooth;
use super::{Finish, Laid};
use crate::fold::Lands;
use crate::scene::bench::bolt::Edges;
use crate::scene::bench::{Bench, Shown};
use crate::scene::item::Item;
use crate::scene::moment::Stage;
use crate::scene::pose::{Frame, Lying, Sheaf, Sheet};
use crate::scene::view::{Vec3, View};
use kurbo::{Rect, Vec2};

/// A part of the picture.
pub(super) struct Part {
    /// The room on the bench that it keeps to, mm, downwards on the sheet. `None` is over all others, in the air.
    pub(super) room: Option<Rect>,
    pub(super) items: Vec<Item>,
}

/// How high a part is lifted over another while it is led there, mm.
pub(super) const LIFT: f64 = 26.0;

/// All parts, each over what lies behind it.
fn painted(mut parts: Vec<Part>, view: &View) -> Vec<Item> {
    let lying = parts.iter().filter_map(|p| p.room).collect::<Vec<_>>();
    let order = farthest_first(&lying, view.towards_eye());
    let in_air: Vec<Part> = parts.extract_if(.., |p| p.room.is_none()).collect();
    let mut lying: Vec<Option<Part>> = parts.into_iter().map(Some).collect();
    let lying: Vec<Part> = order.into_iter().filter_map(|i| lying.get_mut(i)?.take()).collect();
    let (far, near) = if view.from_above() { (lying, in_air) } else { (in_air, lying) };
    far.into_iter().chain(near).flat_map(|p| p.items).collect()
}

/// A point that is led aside on the bench, and lifted.
pub(super) fn led(aside: (f64, f64), share: f64, up: f64) -> Vec3 {
    Vec3::new(aside.0 * share, -aside.1 * share, up)
}

impl Bench {
    /// The picture of a slit sheet from its slit on; `None` before that.
    pub(super) fn slit_items(&self, at: f64, view: &View, shown: &Shown) -> Option<Vec<Item>> {
        if !self.is_parted(at) {
            return None;
        }
        let steps = self.steps_to_pieces() as f64;
        let mut parts = Vec::new();
        match (self.rule.stage(at), &self.finish) {
            (Stage::Fold { .. }, Some(finish)) if at > steps => {
                let inset = (at - steps).min(finish.insets.len() as f64);
                let whole = (inset.ceil().max(1.0) - 1.0) as usize;
                let inset = finish.insets.get(whole).map(|i| (i, inset - whole as f64));
                let gone = inset.map_or_else(Vec::new, |(i, _)| [&[i.host], i.inside.as_slice()].concat());
                self.act(steps, view, shown, (0.0, 0.0), &gone, &mut parts);
                parts.extend(inset.into_iter().flat_map(|(inset, share)| inset.parts(share, view, shown)));
            }
            (Stage::Fold { .. }, _) => self.act(at, view, shown, (0.0, 0.0), &[], &mut parts),
            (stage, Some(finish)) => {
                self.act(steps, view, shown, (0.0, 0.0), &finish.pieces, &mut parts);
                let view = finish.seen(stage, view);
                let items = finish.bench.scene(at - self.rule.folds as f64, &view, shown).scene.items;
                let room = match stage {
                    Stage::Slit { .. } => Some(finish.bench.room(1.0, finish.aside)),
                    // It is led to the front, over all others.
                    _ => None,
                };
                parts.push(Part { room, items });
            }
            (_, None) => self.act(steps, view, shown, (0.0, 0.0), &[], &mut parts),
        }
        Some(painted(parts, view))
    }

    /// The parts at `at` steps from this bench's own flat sheet on. Pieces that are `gone` are left out.
    fn act(&self, at: f64, view: &View, shown: &Shown, aside: (f64, f64), gone: &[usize], parts: &mut Vec<Part>) {
        let own = self.folding.steps.len() as f64;
        let Some(parted) = self.parted.as_ref().filter(|_| at > own) else {
            let (room, at) = (Some(self.room(at, aside)), at.min(own));
            parts.push(Part { room, items: self.lone_items(at, view, shown) });
            return;
        };
        let (share, after) = ((at - own).min(1.0), (at - own - 1.0).max(0.0));
        if let Some(laid) = parted.laid.as_ref().filter(|_| share < 1.0) {
            parts.push(Part { room: Some(self.room(own, aside)), items: laid.items(share, view, shown) });
            return;
        }
        for lane in parted.lanes.iter().filter(|l| l.piece.is_none_or(|p| !gone.contains(&p))) {
            let there = (aside.0 + lane.aside.0 * share, aside.1 + lane.aside.1 * share);
            let view = view.moved(led(lane.aside, share, 0.0));
            lane.bench.act(after, &view, shown, there, gone, parts);
        }
    }

    /// The room that the packet keeps to at a moment, and on its way to the next.
    pub(super) fn room(&self, at: f64, aside: (f64, f64)) -> Rect {
        self.span(at.floor() as usize).union(self.span(at.ceil() as usize)) + Vec2::new(aside.0, aside.1)
    }

    /// This bench without its parts, and without what the hand can take.
    pub(super) fn lone_items(&self, at: f64, view: &View, shown: &Shown) -> Vec<Item> {
        let lone = self.rule.folds.min(self.folding.steps.len());
        self.stage_items(crate::scene::moment::Rule { folds: lone, leaves: 0 }.stage(at), view, shown)
    }

    /// The room that a slit sheet needs on the screen from its slit on.
    pub(super) fn slit_extent(&self, at: f64, view: &View, shown: &Shown) -> Option<Rect> {
        self.parted.as_ref()?;
        let own = self.folding.steps.len() as f64;
        if at < own {
            return None;
        }
        let steps = self.steps_to_pieces() as f64;
        match (self.rule.stage(at), &self.finish) {
            (stage @ (Stage::Slit { .. } | Stage::Offer { .. } | Stage::Leaf { .. }), Some(finish)) => {
                let seen = finish.seen(stage, view);
                Some(finish.bench.extent(at - self.rule.folds as f64, &seen, shown))
            }
            _ => {
                let now = self.act_extent(at.min(steps), view, shown);
                // The room that the next step takes is kept ready.
                let next = self.act_extent((at + 1.0).min(steps), view, shown);
                let all = now.union(next);
                let insets = self.finish.iter().flat_map(|f| &f.insets);
                let air = insets.skip((at - steps).max(0.0) as usize).take(usize::from(at >= steps)).next();
                Some(air.map_or(all, |i| {
                    let up = view.project(Vec3::new(0.0, 0.0, i.lift())) - view.project(Vec3::new(0.0, 0.0, 0.0));
                    all.union(all + up)
                }))
            }
        }
    }

    fn act_extent(&self, at: f64, view: &View, shown: &Shown) -> Rect {
        let own = self.folding.steps.len() as f64;
        let Some(parted) = self.parted.as_ref().filter(|_| at > own) else {
            return self.lone_extent(at.min(own), view, shown);
        };
        let (share, after) = ((at - own).min(1.0), (at - own - 1.0).max(0.0));
        let lanes = parted
            .lanes
            .iter()
            .map(|lane| lane.bench.act_extent(after, &view.moved(led(lane.aside, share, 0.0)), shown));
        lanes.reduce(|a, b| a.union(b)).unwrap_or(Rect::ZERO)
    }
}

impl Laid {
    /// One part on its way onto (or under) the other: one of them is lifted, the other led below or above it, and let down.
    fn items(&self, share: f64, view: &View, shown: &Shown) -> Vec<Item> {
        let air = smooth(share, 0.0, 0.25) * (1.0 - smooth(share, 0.75, 1.0)) * LIFT;
        let way = smooth(share, 0.25, 0.75);
        let (up_moves, up_stays) = if self.lands == Lands::Over { (air, 0.0) } else { (0.0, air) };
        let layers = [&self.stays, &self.moves].map(|b| b.folding.last().layers.len());
        let all = self.stays.leaf(shown, layers.iter().sum());
        let leaf = self.stays.leaf(shown, self.layers_before) * (1.0 - way) + all * way;
        let pile = |bench: &Bench, levels: &[(usize, usize)], view: &View| {
            let lying = bench.folding.last().layers.iter().zip(bench.places.last()).zip(levels).map(
                |((layer, at), (was, will))| Lying {
                    sheet: Sheet::Layer(*layer, *at),
                    w: (*was as f64 * (1.0 - way) + *will as f64 * way) * leaf,
                },
            );
            let frame = Frame::BENCH;
            let sheaf = Sheaf { frame, layers: lying.collect(), arm: frame.ex, level: 0.0, leaf };
            let mut items = Vec::new();
            bench.paint(&sheaf, view, &Edges { slit: 0.0, round: 1.0 }, &mut items);
            items
        };
        let [stays_level, moves_level] = &self.levels;
        let moves = pile(&self.moves, moves_level, &view.moved(led(self.by, way, up_moves)));
        let stays = pile(&self.stays, stays_level, &view.moved(led((0.0, 0.0), 0.0, up_stays)));
        let moves_last = (self.lands == Lands::Over) == view.from_above();
        let (first, second) = if moves_last { (stays, moves) } else { (moves, stays) };
        [first, second].concat()
    }
}

impl Finish {
    /// How the finished section is seen: where it lies, or led to the front to its reader.
    fn seen(&self, stage: Stage, view: &View) -> View {
        let share = match stage {
            Stage::Offer { turn } => turn,
            Stage::Leaf { .. } => 1.0,
            _ => 0.0,
        };
        view.moved(led(self.aside, 1.0 - share, 0.0)).moved(led(self.front, share, 0.0))
    }
}
