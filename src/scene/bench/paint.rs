//! One pile painted: covered layers as plain edges, faces where they can be seen.

use super::bolt::{Edges, Sides};
use super::{Bench, plane};
use crate::fold::{Face, Reads, Side};
use crate::scene::face::page_in_panel;
use crate::scene::item::{Ground, Group, Ink, Item, Line, Tag};
use crate::scene::pose::{Lying, Sheaf, Sheet};
use crate::scene::view::{Vec3, View};
use kurbo::{Affine, Point, Rect};
use std::rc::Rc;

impl Bench {
    /// Paints one pile: covered layers as plain edges, faces where they can be seen.
    pub(super) fn paint(&self, sheaf: &Sheaf, view: &View, edges: &Edges, items: &mut Vec<Item>) {
        let frame = &sheaf.frame;
        let even = self.is_even();
        let facing = frame.normal.dot(view.towards_eye());
        let from_above = facing > 0.0;
        let tone = tone(view.lay.on_bench(frame.normal) * if from_above { 1.0 } else { -1.0 });
        let surface = if from_above { sheaf.leaf / 2.0 } else { -sheaf.leaf / 2.0 };
        // What is nearer to the eye, panel by panel, hides what lies under it.
        let around = sheaf.layers.iter().filter_map(|l| match l.sheet {
            Sheet::Layer(layer, _) => Some(layer.footprint()),
            Sheet::Leaf(_) => None,
        });
        let around = around.reduce(|a, b| a.union(&b));
        let mut covered = Covered::over(around);
        let mut visible = Vec::with_capacity(sheaf.layers.len());
        let nearest_first: Box<dyn Iterator<Item = &Lying>> =
            if from_above { Box::new(sheaf.layers.iter().rev()) } else { Box::new(sheaf.layers.iter()) };
        for lying in nearest_first {
            let cells: Vec<(i32, i32)> = match lying.sheet {
                // A panel that is smaller than the one beneath it does not hide all of that.
                Sheet::Layer(layer, _) => layer.footprint().cells().filter(|c| covered.cover(*c) || !even).collect(),
                Sheet::Leaf(_) => Some((0, 0)).filter(|c| covered.cover(*c) || !even).into_iter().collect(),
            };
            visible.push((lying, cells));
        }
        let sides = Sides::of(self, sheaf, view, edges);
        let mut blocks = sides.blocks();
        if !from_above {
            blocks.reverse();
        }
        let mut farthest_first = visible.into_iter().rev();
        for block in blocks {
            let (Some(low), Some(high)) = (sheaf.layers.get(block.low), sheaf.layers.get(block.high)) else { continue };
            let rect = self.rect(&low.sheet);
            let corner = |x: f64, y: f64, w: f64| view.project(frame.point(x, y, w));
            let around = |w: f64| {
                [(rect.x0, rect.y0), (rect.x1, rect.y0), (rect.x1, rect.y1), (rect.x0, rect.y1)]
                    .map(|(x, y)| corner(x, y, w))
            };
            let half = sheaf.leaf / 2.0;
            let outline = hull([around(low.w - half), around(high.w + half)].as_flattened());
            items.push(Item::polygon(&outline, Some(Ink::Edge), Some(Line::solid(Ink::Black, 0.5))));
            sides.hairlines(&block, items);
            sides.bolts(&block, from_above, items);
            for (lying, cells) in farthest_first.by_ref().take(block.high - block.low + 1) {
                for (x, y) in cells {
                    let (face, in_frame) = self.face(&lying.sheet, x, y, from_above);
                    let plane = plane(frame, lying.w + surface, view);
                    let size = self.printing.size(&face);
                    let ground = Ground { side: self.printing.paper(face.side), tone };
                    let place = plane * in_frame;
                    items.push(Item::Group(Group {
                        place,
                        ground: Some(ground),
                        tag: Some(Tag::Face(face)),
                        size,
                        items: self.items(&face),
                    }));
                }
            }
        }
        self.creases_inside(sheaf, surface, from_above, view, items);
    }

    pub(super) fn items(&self, face: &Face) -> Rc<[Item]> {
        self.faces.get(self.printing.index(face)).cloned().unwrap_or_else(|| [].into())
    }

    /// The side of the sheet that is down in a layer: outside where it is the lower half of a closed edge.
    pub(super) fn outside(&self, sheet: &Sheet) -> Side {
        self.printing.paper(match sheet {
            Sheet::Layer(layer, _) => layer.placement.side_up().other(),
            Sheet::Leaf(leaf) => {
                let found = self.section.as_ref().and_then(|s| s.faces.get(2 * leaf + 1));
                found.map_or(Side::A, |f| f.face.side)
            }
        })
    }

    /// The rectangle that a layer covers in its frame, mm.
    pub(super) fn rect(&self, sheet: &Sheet) -> Rect {
        match sheet {
            Sheet::Layer(layer, at) => super::places::rect(layer, *at, &self.printing),
            Sheet::Leaf(leaf) => {
                let page = self.page_size();
                let found = self.section.as_ref().and_then(|s| s.faces.get(2 * leaf));
                let (w, h) = found.map_or(page, |found| {
                    let (w, h) = self.printing.size(&found.face);
                    if found.head.is_sideways() { (h, w) } else { (w, h) }
                });
                // All leaves meet at the spine.
                match self.printing.reads {
                    Reads::LeftToRight => Rect::new(0.0, 0.0, w, h),
                    Reads::RightToLeft => Rect::new(page.0 - w, 0.0, page.0, h),
                }
            }
        }
    }

    /// The face of a layer that is seen at a panel of the frame, and the way from the face's own view into the frame.
    pub(super) fn face(&self, sheet: &Sheet, x: i32, y: i32, from_above: bool) -> (Face, Affine) {
        match sheet {
            Sheet::Layer(layer, at) => {
                let face = if from_above { layer.face_up(x, y) } else { layer.face_down(x, y) };
                let corner = (self.printing.line_x(face.column), self.printing.line_y(face.row));
                let sheet_from_face = match face.side {
                    Side::A => Affine::translate(corner),
                    Side::B => {
                        let right = corner.0 + self.printing.size(&face).0;
                        Affine::new([-1.0, 0.0, 0.0, 1.0, right, corner.1])
                    }
                };
                let p = &layer.placement;
                let sign = |mirrored: bool| if mirrored { -1.0 } else { 1.0 };
                let packet_from_sheet = Affine::new([sign(p.mirror_x), 0.0, 0.0, sign(p.mirror_y), at.dx, at.dy]);
                (face, packet_from_sheet * sheet_from_face)
            }
            Sheet::Leaf(leaf) => {
                let found = self.section.as_ref().and_then(|s| s.faces.get(2 * leaf + usize::from(!from_above)));
                let Some(found) = found else { return (Face { side: Side::A, row: 0, column: 0 }, Affine::IDENTITY) };
                let (pw, ph) = self.printing.size(&found.face);
                let upright = page_in_panel(pw, ph, found.head).inverse();
                let r = self.rect(sheet);
                let mirror = if from_above {
                    Affine::translate((r.x0, 0.0))
                } else {
                    Affine::new([-1.0, 0.0, 0.0, 1.0, r.x1, 0.0])
                };
                (found.face, mirror * upright)
            }
        }
    }

    /// Dashed lines where the layers that are seen will be creased, or were.
    pub(super) fn creases_inside(
        &self,
        sheaf: &Sheaf,
        surface: f64,
        from_above: bool,
        view: &View,
        items: &mut Vec<Item>,
    ) {
        let nearest = if from_above { sheaf.layers.last() } else { sheaf.layers.first() };
        let Some(Lying { sheet: sheet @ Sheet::Layer(layer, place), w }) = nearest else { return };
        let rect = self.rect(sheet);
        let line = Line::dashed(Ink::Crease, 1.0, 5.0, 4.0);
        let at = |x: f64, y: f64| view.project(sheaf.frame.point(x, y, w + surface));
        let signed = |mirrored: bool, v: f64| if mirrored { -v } else { v };
        for x in layer.area.x0 + 1..layer.area.x1 {
            let x = signed(layer.placement.mirror_x, self.printing.line_x(x.unsigned_abs())) + place.dx;
            items.push(Item::stroke(at(x, rect.y0), at(x, rect.y1), line));
        }
        for y in layer.area.y0 + 1..layer.area.y1 {
            let y = signed(layer.placement.mirror_y, self.printing.line_y(y.unsigned_abs())) + place.dy;
            items.push(Item::stroke(at(rect.x0, y), at(rect.x1, y), line));
        }
    }
}

/// Which panels of a pile are hidden from the eye already.
struct Covered {
    around: crate::fold::Rect,
    hidden: Vec<bool>,
}

impl Covered {
    pub(super) fn over(around: Option<crate::fold::Rect>) -> Self {
        let around = around.unwrap_or(crate::fold::Rect { x0: 0, y0: 0, x1: 1, y1: 1 });
        let panels = around.width().unsigned_abs() as usize * around.height().unsigned_abs() as usize;
        Self { around, hidden: vec![false; panels] }
    }

    /// Hides a panel; says whether it could be seen until then.
    pub(super) fn cover(&mut self, (x, y): (i32, i32)) -> bool {
        let (x, y) = (x - self.around.x0, y - self.around.y0);
        let slot = (y * self.around.width() + x).unsigned_abs() as usize;
        self.hidden.get_mut(slot).is_some_and(|hidden| !std::mem::replace(hidden, true))
    }
}

/// The flat tone of a face: the light comes from the left, from the viewer, and mostly from above.
pub(super) fn tone(normal: Vec3) -> u8 {
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
pub(super) fn hull(points: &[Point]) -> Vec<Point> {
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    pub(super) fn a_hull_is_the_string_around_the_pegs() {
        let at = |x: f64, y: f64| Point::new(x, y);
        let square = [at(0.0, 0.0), at(2.0, 0.0), at(1.0, 1.0), at(2.0, 2.0), at(0.0, 2.0), at(1.0, 0.0)];
        let hull = hull(&square);
        assert_eq!(hull.len(), 4, "{hull:?}");
        assert!(!hull.contains(&at(1.0, 1.0)) && !hull.contains(&at(1.0, 0.0)));
        assert_eq!(super::hull(&[at(3.0, 3.0); 4]), [at(3.0, 3.0)]);
    }
}
