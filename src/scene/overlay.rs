//! What is drawn over a flat side to be measured: rulers, the places of creases, trim lines, type area, the lays, grain.

use super::face::page_in_panel;
use super::item::{Ink, Item, Line};
use super::printing::Printing;
use crate::fold::{Face, Reads, Side};
use crate::paper::{Edge, Grain, Length, Margins, Press, Trims};
use crate::units;
use kurbo::{Affine, BezPath, Point, Rect, Shape};

/// What is shown over a flat side.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Overlay {
    /// Rulers in mm along the top and the left edge, with the places of the creases.
    pub rulers: bool,
    /// Where every page is trimmed, and its bleed.
    pub trims: Option<Trims>,
    /// The type area of every page.
    pub type_area: Option<Margins>,
    /// The lays: what the grippers hold, and the edge that is laid to the side lay.
    pub press: Option<Press>,
    /// The way that the grain runs.
    pub grain: Option<Grain>,
}

/// Room for the rulers beside the sheet, as a share of its longer side.
const ROOM: f64 = 0.09;
/// Size of the rulers' figures as a share of that room.
const FIGURES: f64 = 0.44;

impl Overlay {
    /// Room that is needed at the left and at the top of a sheet of a drawn size.
    #[must_use]
    pub fn room(&self, (w, h): (f64, f64)) -> f64 {
        if self.rulers { w.max(h) * ROOM } else { 0.0 }
    }

    /// The items over one side, its top left corner at 0. `mirrored` is whether columns run from the right: side B as it
    /// is seen after turning the sheet.
    #[must_use]
    pub fn items(&self, printing: &Printing, side: Side, through: bool) -> Vec<Item> {
        let mirrored = side == Side::B && !through;
        let mut items = Vec::new();
        if self.trims.is_some() || self.type_area.is_some() {
            self.pages(printing, side, through, &mut items);
        }
        self.lays(printing, mirrored, &mut items);
        if self.rulers {
            let (w, h) = printing.sheet();
            let room = self.room((w, h));
            let columns = (0..=printing.columns).map(|i| printing.line_x(i));
            let mut across: Vec<f64> = columns.map(|x| if mirrored { w - x } else { x }).collect();
            across.sort_by(f64::total_cmp);
            let down: Vec<f64> = (0..=printing.rows).map(|i| printing.line_y(i)).collect();
            ruler(w, printing.scale(), &across, room, false, &mut items);
            ruler(h, printing.scale(), &down, room, true, &mut items);
        }
        items
    }

    fn pages(&self, printing: &Printing, side: Side, through: bool, items: &mut Vec<Item>) {
        let s = printing.scale();
        for face in printing.faces().filter(|f| f.side == side) {
            let Some((page, head)) = printing.figure(&face).and_then(|f| Some((f.page, f.head?))) else { continue };
            let spine_left = (page % 2 == 1) == (printing.reads == Reads::LeftToRight);
            let (w, h) = printing.size(&face);
            let (pw, ph) = if head.is_sideways() { (h, w) } else { (w, h) };
            let place = printing.face_on_side(&face, through) * page_in_panel(w, h, head);
            let mut frame = |r: Rect, line: Line| {
                if r.width() > 0.0 && r.height() > 0.0 {
                    let path: BezPath = place * r.to_path(0.1);
                    items.push(Item::Path { path, fill: None, line: Some(line) });
                }
            };
            let inside = |r: Rect, back: Length, head: Length, fore: Length, foot: Length| {
                let [back, head, fore, foot] = [back, head, fore, foot].map(|l| l.mm() * s);
                let (left, right) = if spine_left { (back, fore) } else { (fore, back) };
                Rect { x0: r.x0 + left, y0: r.y0 + head, x1: r.x1 - right, y1: r.y1 - foot }
            };
            let leaf = Rect::new(0.0, 0.0, pw, ph);
            let mut page = leaf;
            if let Some(t) = self.trims {
                page = inside(leaf, Length::ZERO, t.head, t.fore_edge, t.foot);
                frame(page, Line::solid(Ink::Black, 1.0));
                let bleed = inside(page, Length::ZERO, -t.bleed, -t.bleed, -t.bleed).intersect(leaf);
                if t.bleed > Length::ZERO && bleed != leaf {
                    frame(bleed, Line::dashed(Ink::Black, 0.7, 2.0, 2.0));
                }
            }
            if let Some(m) = self.type_area {
                frame(inside(page, m.back, m.head, m.fore_edge, m.foot), Line::dashed(Ink::Black, 0.7, 6.0, 3.0));
            }
        }
    }

    fn lays(&self, printing: &Printing, mirrored: bool, items: &mut Vec<Item>) {
        let (w, h) = printing.sheet();
        let seen = |edge: Edge| if mirrored { edge.seen_from_b() } else { edge };
        let mut band = |edge: Edge, deep: f64, from: f64, to: f64| {
            let r = match edge {
                Edge::Top => Rect::new(from * w, 0.0, to * w, deep),
                Edge::Bottom => Rect::new(from * w, h - deep, to * w, h),
                Edge::Left => Rect::new(0.0, from * h, deep, to * h),
                Edge::Right => Rect::new(w - deep, from * h, w, to * h),
            };
            items.push(Item::filled(r, Ink::CastOnPaper));
        };
        if let Some(press) = self.press {
            let deep = press.gripper_margin.mm() * printing.scale();
            band(seen(press.gripper), crate::units::between(deep, 0.0, w.min(h)), 0.0, 1.0);
            band(seen(press.side_lay), w.min(h) * 0.02, 0.42, 0.58);
        }
        if let Some(grain) = self.grain {
            let (long, head) = (w.min(h) * 0.12, w.min(h) * 0.025);
            let middle = Affine::translate((w / 2.0, h / 2.0));
            let turned =
                if grain == Grain::Upright { Affine::new([0.0, 1.0, -1.0, 0.0, 0.0, 0.0]) } else { Affine::IDENTITY };
            let mut path = BezPath::new();
            for end in [-long, long] {
                let back = end - head * end.signum();
                path.move_to((-end, 0.0));
                path.line_to((end, 0.0));
                path.move_to((back, -head));
                path.line_to((end, 0.0));
                path.line_to((back, head));
            }
            items.push(Item::Path {
                path: middle * turned * path,
                fill: None,
                line: Some(Line::solid(Ink::Black, 1.5)),
            });
        }
    }
}

/// A ruler along an edge from 0: a tick every 10 mm, and the distance of every line from the edge in figures.
fn ruler(long: f64, scale: f64, lines: &[f64], room: f64, upright: bool, items: &mut Vec<Item>) {
    let at = |along: f64, out: f64| if upright { Point::new(-out, along) } else { Point::new(along, -out) };
    let step = 10.0 * scale;
    let light = Line::solid(Ink::Light, 0.7);
    let ticks = if step > 0.0 { (long / step + 1e-6).floor().min(2000.0) as u32 } else { 0 };
    for i in 0..=ticks {
        let out = if i % 10 == 0 {
            0.3
        } else if i % 5 == 0 {
            0.22
        } else {
            0.12
        };
        let along = f64::from(i) * step;
        items.push(Item::stroke(at(along, 0.0), at(along, room * out), light));
    }
    let mut free = f64::NEG_INFINITY;
    for line in lines {
        let text = units::short(line / scale);
        // Beside an upright ruler a long number has to be small.
        let narrow = room * 0.62 / (0.64 * text.len() as f64);
        let size = if upright { narrow.min(room * FIGURES) } else { room * FIGURES };
        let out = if upright { 0.34 } else { 0.5 };
        items.push(Item::stroke(at(*line, 0.0), at(*line, room * out), Line::solid(Ink::Light, 1.4)));
        // Figures that would run into the last one are left away; an upright ruler has one line of figures for each.
        let half = if upright { size * 0.5 } else { size * 0.32 * text.len() as f64 };
        let middle = if long > 2.0 * half { crate::units::between(*line, half, long - half) } else { long / 2.0 };
        if middle - half < free {
            continue;
        }
        free = middle + half;
        let baseline =
            if upright { Point::new(-room * 0.66, middle + size * 0.35) } else { Point::new(middle, -room * 0.58) };
        items.push(Item::Figure { text, baseline, size, halo: 0.0 });
    }
}

impl Printing {
    /// The way from a face's own view to its place on a flat side.
    pub(super) fn face_on_side(&self, face: &Face, through: bool) -> Affine {
        let (left, right, top) = (self.line_x(face.column), self.line_x(face.column + 1), self.line_y(face.row));
        match face.side {
            Side::A => Affine::translate((left, top)),
            Side::B if through => Affine::new([-1.0, 0.0, 0.0, 1.0, right, top]),
            Side::B => Affine::translate((self.sheet().0 - right, top)),
        }
    }
}
