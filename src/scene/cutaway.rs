//! The picture of a packet that is cut through.
//!
//! Every layer is a strip of paper; its two sides are its two halves. Its pages are small flags of their paper: those
//! of the upper side stand on the strip, those of the lower side hang from it, with the head tick where the head is.

use super::bench::Bench;
use super::inside::{Cut, InsideLayer, inside_rows};
use super::item::{Ground, Group, Ink, Item, Line, Scene, Tag};
use super::printing::{Figure, Printing};
use crate::fold::{Crease, Direction, Face, Layer, Side};
use kurbo::{Affine, BezPath, PathEl, Point, Rect};

/// Figures are never smaller, px, and never larger.
const SMALLEST: f64 = 13.0;
const LARGEST: f64 = 54.0;
/// Height of a flag and width of a figure, for a figure of size 1; and what stays free at its sides.
const FLAG: f64 = 1.24;
const WIDE: f64 = 0.64;
const BESIDE: f64 = 0.42;
/// The share of the width that round ends may take at one side, and their distance where there is room.
const ROUND: f64 = 0.16;
const APART: f64 = 5.0;

/// The packet after `step` folds, cut through along a row or a column: see [`inside_rows`], which says the same in a
/// table. `size` is that of the picture in pixels.
#[must_use]
pub fn inside(bench: &Bench, step: usize, slit: bool, along: Crease, index: u32, size: (f64, f64)) -> Scene {
    let rows = inside_rows(bench, step, slit, along, index);
    let packet = bench.folding.packet(step);
    let cut = Cut::of(&packet.extent(), along, index);
    let seen = |row: &InsideLayer, face: &Face| {
        let (layer, own) = (packet.layers.get(row.layer)?, bench.printing.figure(face)?.head?);
        Some(cut.of_face(layer, face, own))
    };
    let lay = Lay::of(&rows, &cut, flag_size(bench, &rows, seen), size);
    let mut items = Vec::new();
    lay.paper(&bench.printing, &rows, &mut items);
    lay.back_mark(bench, &rows, &packet.layers, &cut, &mut items);
    lay.knife(&rows, &mut items);
    for (i, row) in rows.iter().enumerate().filter(|(i, _)| lay.is_named(*i)) {
        for (faces, upper) in [(&row.upper, true), (&row.lower, false)] {
            for (panel, face) in (row.from..).zip(faces).filter(|(panel, _)| panel % lay.every_panel == 0) {
                let (figure, marked) = (bench.printing.figure(face), bench.printing.is_marked(face));
                let at = (i, panel, upper);
                items.push(Item::Group(Group {
                    tag: Some(Tag::Face(*face)),
                    ..lay.flag(at, bench.printing.paper(face.side), figure, seen(row, face), marked)
                }));
            }
        }
    }
    Scene { size, items }
}

/// Width and height of the largest flag, for figures of size 1.
fn flag_size(
    bench: &Bench,
    rows: &[InsideLayer],
    seen: impl Fn(&InsideLayer, &Face) -> Option<Direction>,
) -> (f64, f64) {
    let all = rows.iter().flat_map(|row| row.upper.iter().chain(&row.lower).map(move |face| (row, face)));
    let sizes = all.map(|(row, face)| {
        let long = width(bench.printing.figure(face));
        if seen(row, face).is_some_and(Direction::is_sideways) { (FLAG, long) } else { (long, FLAG) }
    });
    sizes.fold((FLAG, FLAG), |all, one| (all.0.max(one.0), all.1.max(one.1)))
}

/// The width of a flag, for figures of size 1.
fn width(figure: Option<Figure>) -> f64 {
    let digits = figure.and_then(|f| f.page.checked_ilog10()).unwrap_or(0) + 1;
    f64::from(digits) * WIDE + BESIDE
}

/// Where everything stands.
struct Lay {
    /// From one layer to the next, and the thickness of each.
    pitch: f64,
    thick: f64,
    /// The left end of the paper, and the width of a panel.
    left: f64,
    panel: f64,
    /// Above the first layer and below the last one.
    margin: f64,
    /// The size of figures, and every which layer and panel has one.
    figure: f64,
    every: usize,
    every_panel: u32,
    /// The reach of the innermost round end, and how much farther the next one goes.
    reach: f64,
    apart: f64,
    /// How deep the round ends of each layer are nested, at the left and at the right: 1 is the innermost.
    depth: [Vec<u32>; 2],
}

impl Lay {
    fn of(rows: &[InsideLayer], cut: &Cut, flag: (f64, f64), (w, h): (f64, f64)) -> Self {
        let (count, panels) = (rows.len().max(1) as f64, f64::from(cut.panels().max(1)));
        let depth = [false, true].map(|right| depths(rows, right));
        let deepest = depth.iter().flatten().copied().max().unwrap_or(0).max(1);
        let layout = |margin: f64| {
            let pitch = ((h - 2.0 * margin) / count).max(1.0);
            let thick = (pitch * 0.16).clamp(1.6, 10.0).min(pitch * 0.5);
            let reach = (pitch / 2.0).min(26.0);
            let room = w * ROUND - thick;
            let apart = (thick + APART).min((room - reach).max(0.0) / f64::from(deepest - 1).max(1.0));
            let outside = reach + apart * f64::from(deepest - 1) + thick + 6.0;
            let panel = ((w - 2.0 * outside) / panels).max(1.0);
            let figure = ((pitch - thick - 3.0) / flag.1).min((panel / 2.0 - 4.0) / flag.0).clamp(SMALLEST, LARGEST);
            // The outer flags of the first and the last layer need room as well.
            let outer = (figure * flag.1 + 2.0 - (pitch - thick) / 2.0).max(2.0);
            (outer, pitch, thick, reach, apart, panel, figure)
        };
        let (margin, ..) = layout(h / (2.0 * count + 2.0));
        let (_, pitch, thick, reach, apart, panel, figure) = layout(margin);
        let fits = |pitch: f64, need: f64| [1, 2, 4, 8, 16].into_iter().find(|k| f64::from(*k) * pitch >= need);
        let every = fits(pitch, figure * flag.1 + thick);
        let every_panel = fits(panel / 2.0, figure * flag.0 + 3.0);
        Self {
            margin,
            pitch,
            thick,
            left: (w - panel * panels) / 2.0,
            panel,
            figure,
            every: every.map_or(32, |k| k as usize),
            every_panel: every_panel.unwrap_or(32),
            reach,
            apart,
            depth,
        }
    }

    /// The middle of a layer's strip.
    fn y(&self, row: usize) -> f64 {
        self.margin + self.pitch * (row as f64 + 0.5)
    }

    fn x(&self, panel: u32) -> f64 {
        self.left + self.panel * f64::from(panel)
    }

    fn is_named(&self, row: usize) -> bool {
        row.is_multiple_of(self.every)
    }

    /// The upper or the lower half of a strip.
    fn half(&self, i: usize, row: &InsideLayer, upper: bool) -> Rect {
        let (x0, x1, y) = (self.x(row.from), self.x(row.from + row.panels()), self.y(i));
        let half = self.thick / 2.0;
        if upper { Rect::new(x0, y - half, x1, y) } else { Rect::new(x0, y, x1, y + half) }
    }

    /// The line of a round end from row `i` down to row `j`, so far outside the middle of its paper.
    fn round(&self, i: usize, j: usize, x: f64, right: bool, out: f64) -> BezPath {
        let depth = self.depth.get(usize::from(right)).and_then(|d| d.get(i)).copied().unwrap_or(1);
        let reach = self.reach + self.apart * f64::from(depth.max(1) - 1) + out;
        let (y0, y1) = (self.y(i) - out, self.y(j) + out);
        let r = reach.min((y1 - y0) / 2.0).max(0.0);
        let way = if right { 1.0 } else { -1.0 };
        // Quarter circles, as in `ring`.
        let k = r * (1.0 - 0.552_284_75);
        let at = |dx: f64, y: f64| Point::new(x + dx * way, y);
        let mut path = BezPath::new();
        path.move_to(at(0.0, y0));
        path.line_to(at(reach - r, y0));
        path.curve_to(at(reach - k, y0), at(reach, y0 + k), at(reach, y0 + r));
        path.line_to(at(reach, y1 - r));
        path.curve_to(at(reach, y1 - k), at(reach - k, y1), at(reach - r, y1));
        path.line_to(at(0.0, y1));
        path
    }

    /// The paper of a round end between two such lines.
    fn bend(&self, ends: (usize, usize), x: f64, right: bool, (inner, outer): (f64, f64), path: &mut BezPath) {
        let (i, j) = ends;
        path.extend(self.round(i, j, x, right, outer));
        let back = self.round(i, j, x, right, inner).reverse_subpaths();
        path.extend(back.into_iter().map(|el| match el {
            PathEl::MoveTo(p) => PathEl::LineTo(p),
            other => other,
        }));
        path.close_path();
    }

    /// Strips and round ends: outlines, then the halves by their side, then the hatch.
    fn paper(&self, printing: &Printing, rows: &[InsideLayer], items: &mut Vec<Item>) {
        let mut outlines = BezPath::new();
        let mut papers = [BezPath::new(), BezPath::new()];
        let mut hatch = BezPath::new();
        let half = self.thick / 2.0;
        for (i, row) in rows.iter().enumerate() {
            outline(self.half(i, row, true).union(self.half(i, row, false)), &mut outlines);
            for (faces, upper) in [(&row.upper, true), (&row.lower, false)] {
                let Some(face) = faces.first() else { continue };
                let strip = self.half(i, row, upper);
                let Some(path) = papers.get_mut(usize::from(printing.paper(face.side) == Side::B)) else { continue };
                outline(strip, path);
                if printing.paper(face.side) == Side::B {
                    lines(strip, &mut hatch);
                }
                for (other, x, right) in self.ends(row).filter(|(other, ..)| *other > i) {
                    // The upper side of the upper layer is outside.
                    self.bend((i, other), x, right, if upper { (0.0, half) } else { (-half, 0.0) }, path);
                }
            }
            for (other, x, right) in self.ends(row).filter(|(other, ..)| *other > i) {
                self.bend((i, other), x, right, (-half, half), &mut outlines);
            }
        }
        items.push(Item::Path { path: outlines, fill: None, line: Some(Line::solid(Ink::Black, 1.6)) });
        for (path, side) in papers.into_iter().zip([Side::A, Side::B]) {
            items.push(Item::Path { path, fill: Some(Ink::Paper(Ground { side, tone: 0 })), line: None });
        }
        items.push(Item::Path { path: hatch, fill: Some(Ink::Hatch), line: None });
    }

    /// The round ends of a layer: the row that it hangs together with, where, and whether at the right.
    fn ends(&self, row: &InsideLayer) -> impl Iterator<Item = (usize, f64, bool)> + use<> {
        let at = |panel: u32| self.x(panel);
        let ends = [(row.joined_left, at(row.from), false), (row.joined_right, at(row.from + row.panels()), true)];
        ends.into_iter().filter_map(|(other, x, right)| Some((other?, x, right)))
    }

    /// The cuts of the knife beside the ends that were closed.
    fn knife(&self, rows: &[InsideLayer], items: &mut Vec<Item>) {
        for right in [false, true] {
            let cut = rows.iter().enumerate().filter(|(_, r)| if right { r.slit_right } else { r.slit_left });
            let ends: Vec<(f64, f64)> =
                cut.map(|(i, r)| (self.x(if right { r.from + r.panels() } else { r.from }), self.y(i))).collect();
            let (Some((x, top)), Some((_, foot))) = (ends.first(), ends.last()) else { continue };
            let x = x + if right { 7.0 } else { -7.0 };
            let over = self.thick / 2.0 + 3.0;
            items.push(Item::stroke((x, top - over), (x, foot + over), Line::dashed(Ink::Light, 2.0, 8.0, 5.0)));
        }
    }

    /// The back mark, where the cut goes across the crease that it stands on: along the paper beside that crease, and
    /// around it where it is folded.
    fn back_mark(&self, bench: &Bench, rows: &[InsideLayer], layers: &[Layer], cut: &Cut, items: &mut Vec<Item>) {
        let Some((mark, ..)) = &bench.printing.mark else { return };
        let mut path = BezPath::new();
        let wide = (self.thick * 0.5).max(2.0);
        let out = (self.thick - wide) / 2.0;
        let long = (self.panel * 0.06).clamp(3.0, 12.0);
        for (i, row) in rows.iter().enumerate() {
            let Some(layer) = layers.get(row.layer) else { continue };
            for (faces, upper) in [(&row.upper, true), (&row.lower, false)] {
                for (panel, face) in (row.from..).zip(faces) {
                    let own = if *face == mark.first_page {
                        mark.spine
                    } else if *face == mark.last_page {
                        mark.spine.opposite()
                    } else {
                        continue;
                    };
                    let right = match cut.of_face(layer, face, own) {
                        Direction::Left => false,
                        Direction::Right => true,
                        Direction::Up | Direction::Down => continue,
                    };
                    let x = self.x(panel + u32::from(right));
                    let y = self.y(i) + if upper { -out } else { out };
                    let inner = if right { x - long } else { x + long };
                    path.move_to((inner, y));
                    path.line_to((x, y));
                    let joined = if right { row.joined_right } else { row.joined_left };
                    if let Some(other) = joined.filter(|other| *other > i) {
                        path.extend(self.round(i, other, x, right, if upper { out } else { -out }));
                    }
                }
            }
        }
        // Ink beside the bench would not be seen, so it has a rim of paper.
        for (ink, width) in [(Ink::Light, wide + 3.0), (Ink::Black, wide)].into_iter().filter(|_| !path.is_empty()) {
            items.push(Item::Path { path: path.clone(), fill: None, line: Some(Line::solid(ink, width)) });
        }
    }

    /// A page as a flag of its paper, at a row and a panel, on the upper or the lower side of the strip.
    fn flag(
        &self,
        (row, panel, upper): (usize, u32, bool),
        side: Side,
        figure: Option<Figure>,
        head: Option<Direction>,
        marked: bool,
    ) -> Group {
        let text = figure.map_or_else(String::new, |f| f.page.to_string());
        let quarter = head.is_some_and(Direction::is_sideways);
        let size = self.figure;
        let (across, high) = (size * width(figure), size * FLAG);
        let (w, h) = if quarter { (high, across) } else { (across, high) };
        let middle = self.x(panel) + self.panel / 2.0;
        let away = 3.0 + w / 2.0;
        let x = if upper { middle - away } else { middle + away };
        let foot = self.thick / 2.0 + h / 2.0;
        let centre = Point::new(x, self.y(row) + if upper { -foot } else { foot });
        // Its own size, upright; the turn is the head's.
        let (w, h) = (across, high);
        let turn = match head {
            None | Some(Direction::Up) => Affine::IDENTITY,
            Some(Direction::Right) => Affine::new([0.0, 1.0, -1.0, 0.0, 0.0, 0.0]),
            Some(Direction::Down) => Affine::new([-1.0, 0.0, 0.0, -1.0, 0.0, 0.0]),
            Some(Direction::Left) => Affine::new([0.0, -1.0, 1.0, 0.0, 0.0, 0.0]),
        };
        let place = Affine::translate(centre.to_vec2()) * turn * Affine::translate((-w / 2.0, -h / 2.0));
        let mut items = Vec::new();
        let whole = Rect::new(0.0, 0.0, w, h);
        if side == Side::B {
            let mut hatch = BezPath::new();
            lines(whole, &mut hatch);
            items.push(Item::Path { path: hatch, fill: Some(Ink::Hatch), line: None });
        }
        let bar = |x: f64, y: f64, w: f64, h: f64| Item::filled(Rect::new(x, y, x + w, y + h), Ink::Black);
        if !text.is_empty() {
            let rule = text.contains(['6', '9']);
            let size = if marked { (size * 0.84).max(SMALLEST) } else { size };
            let baseline = Point::new(w / 2.0, h / 2.0 + size * 0.37);
            items.push(Item::Figure { text, baseline, size, halo: size * 0.12 });
            if rule {
                let half = (across - size * BESIDE) * 0.4;
                items.push(bar(w / 2.0 - half, baseline.y + size * 0.08, 2.0 * half, (size * 0.06).max(1.0)));
            }
            if head.is_some() {
                let thick = (size * 0.09).max(1.5);
                items.push(bar((w - thick) / 2.0, 0.0, thick, size * 0.16));
            }
        }
        let mut frame = BezPath::new();
        outline(whole, &mut frame);
        items.push(Item::Path { path: frame, fill: None, line: Some(Line::solid(Ink::Black, 1.0)) });
        if marked {
            // The frame of dashes that a differing page has on the sheet.
            let mut dashes = BezPath::new();
            let thick = (self.figure * 0.09).clamp(1.4, 3.0);
            outline(whole.inset(-1.5 - thick / 2.0), &mut dashes);
            let line = Line::dashed(Ink::Black, thick, 3.0 * thick, 2.0 * thick);
            items.push(Item::Path { path: dashes, fill: None, line: Some(line) });
        }
        Group { place, ground: Some(Ground { side, tone: 0 }), tag: None, size: (w, h), items: items.into() }
    }
}

/// How deep the round ends of one side are nested: 1 has none within.
fn depths(rows: &[InsideLayer], right: bool) -> Vec<u32> {
    let other = |row: &InsideLayer| if right { row.joined_right } else { row.joined_left };
    let mut depth = vec![0; rows.len()];
    // The shortest first, so that what lies within is known.
    let mut ends: Vec<(usize, usize)> =
        rows.iter().enumerate().filter_map(|(i, r)| Some((i, other(r).filter(|j| *j > i)?))).collect();
    ends.sort_by_key(|(i, j)| j - i);
    for (i, j) in ends {
        let within = depth.get(i + 1..j).and_then(|d: &[u32]| d.iter().copied().max()).unwrap_or(0);
        for k in [i, j] {
            if let Some(slot) = depth.get_mut(k) {
                *slot = within + 1;
            }
        }
    }
    depth
}

pub(super) fn outline(r: Rect, path: &mut BezPath) {
    path.move_to((r.x0, r.y0));
    path.line_to((r.x1, r.y0));
    path.line_to((r.x1, r.y1));
    path.line_to((r.x0, r.y1));
    path.close_path();
}

/// The hatch of side B on a strip or a flag: slanting bars, each cut straight at both edges.
pub(super) fn lines(r: Rect, path: &mut BezPath) {
    let (pitch, thick) = (7.0, 1.4 * std::f64::consts::SQRT_2);
    let h = r.height();
    let mut x = r.x0 - h + pitch / 2.0;
    while x < r.x1 {
        // From the foot at `x` up to the right, cut at the sides.
        let at = |along: f64, y: f64| Point::new((along + (r.y1 - y)).clamp(r.x0, r.x1), y);
        let rise = |along: f64| {
            let (y0, y1) = (r.y1 - (r.x0 - along).clamp(0.0, h), r.y1 - (r.x1 - along).clamp(0.0, h));
            [at(along, y0), at(along, y1)]
        };
        let ([a, b], [d, c]) = (rise(x), rise(x + thick));
        path.move_to(a);
        path.line_to(b);
        path.line_to(c);
        path.line_to(d);
        path.close_path();
        x += pitch;
    }
}
