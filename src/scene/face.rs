//! One face of one panel as it is printed: figure, head tick, lay corner, back mark, hatch.

use super::item::{Ground, Ink, Item, Line};
use super::printing::{Figure, Printing};
use crate::fold::{Direction, Face, Reads, Side};
use kurbo::{Affine, BezPath, Point, Rect};

/// Width of a page in its own units (mm of an A5 page, ISO 216).
pub const PAGE_WIDTH: f64 = 148.0;
/// Height of a page in its own units.
pub const PAGE_HEIGHT: f64 = 210.0;

/// Where the middle of a figure lies below the middle of the page, and how far its baseline is below its middle.
const OPTICAL_CENTRE: f64 = 4.0;
const BASELINE: f64 = 0.35;
/// Width of one figure of the typeface at size 1.
const FIGURE_WIDTH: f64 = 0.64;
/// How high the lowest of its figures stands at size 1.
const FIGURE_HEIGHT: f64 = 0.736;

impl Printing {
    /// The items of a face in the units of its panel, as seen from its own side.
    #[must_use]
    pub fn items(&self, face: &Face) -> Vec<Item> {
        let (w, h) = self.size(face);
        let mut items = Vec::new();
        if self.paper(face.side) == Side::B {
            items.push(hatch(w, h, self.coarse));
        }
        let marked = self.is_marked(face);
        if let Some(Figure { page, head }) = self.figure(face) {
            let place = match head {
                Some(head) => page_in_panel(w, h, head) * self.fitted(w, h, head, false),
                None if self.panels.is_some() => self.fitted(w, h, Direction::Up, false),
                None => Affine::translate(((w - PAGE_WIDTH) / 2.0, (h - PAGE_HEIGHT) / 2.0)),
            };
            let large = self.before_class.is_some();
            let shown = if self.is_covered(face) { vec![cover()] } else { figure(page, marked, large) };
            items.extend(shown.into_iter().map(|i| placed(i, place)));
            let tick = |head| placed(head_tick(), page_in_panel(w, h, head) * self.fitted(w, h, head, true));
            items.extend(head.map(tick));
        }
        items.extend(self.mark_on(face));
        items.extend(self.lay_corner(face));
        items.extend(marked.then(|| differs(w, h)));
        items
    }

    /// From a page of A5 to an upright page that is as large as a panel: into its middle, or `to_head` to its head.
    fn fitted(&self, w: f64, h: f64, head: Direction, to_head: bool) -> Affine {
        if self.panels.is_none() {
            return Affine::IDENTITY;
        }
        let (pw, ph) = upright((w, h), head);
        let fit = (pw / PAGE_WIDTH).min(ph / PAGE_HEIGHT);
        let top = if to_head { 0.0 } else { (ph - fit * PAGE_HEIGHT) / 2.0 };
        Affine::translate(((pw - fit * PAGE_WIDTH) / 2.0, top)) * Affine::scale(fit)
    }

    /// How high the lowest figure on the sheet stands, drawn for a class, in the units of its sides. A blank sheet has none.
    #[must_use]
    pub fn least_figure(&self) -> Option<f64> {
        let high = |face: Face| {
            let figure = self.figure(&face)?;
            let (w, h) = self.size(&face);
            let (pw, ph) = upright((w, h), figure.head.unwrap_or(Direction::Up));
            let fit = if self.panels.is_some() { (pw / PAGE_WIDTH).min(ph / PAGE_HEIGHT) } else { 1.0 };
            Some(figure_size(&figure.page.to_string(), true) * FIGURE_HEIGHT * fit)
        };
        self.faces().filter_map(high).reduce(f64::min)
    }

    /// The half of the back mark that stands on this face. It stands where the page that was meant to be there has it.
    fn mark_on(&self, face: &Face) -> Option<Item> {
        let (mark, from, to) = self.mark.as_ref()?;
        let first = mark.first_page == *face;
        if !first && mark.last_page != *face {
            return None;
        }
        let at_left = first == (self.reads == Reads::LeftToRight);
        let (w, h) = self.size(face);
        let (pw, ph) = match self.panels {
            Some(_) => upright((w, h), mark.head),
            None => (PAGE_WIDTH, PAGE_HEIGHT),
        };
        let x = if at_left { 0.0 } else { pw - MARK_HALF };
        let bar = Item::filled(Rect::new(x, from * ph, x + MARK_HALF, to * ph), Ink::Black);
        Some(placed(bar, page_in_panel(w, h, mark.head)))
    }

    /// The lay corner: an L in one corner of the sheet, on both sides.
    fn lay_corner(&self, face: &Face) -> Option<Item> {
        let (right, top) = self.lay_corner;
        let row = if top { 0 } else { self.rows.saturating_sub(1) };
        let column = if right { self.columns.saturating_sub(1) } else { 0 };
        if (face.row, face.column) != (row, column) {
            return None;
        }
        let (w, h) = self.size(face);
        let long = w.min(h).min(46.0);
        let thick = long.min(7.0);
        let mut points =
            vec![(0.0, h - long), (thick, h - long), (thick, h - thick), (long, h - thick), (long, h), (0.0, h)];
        if right != (face.side == Side::B) {
            points.iter_mut().for_each(|p| p.0 = w - p.0);
        }
        if top {
            points.iter_mut().for_each(|p| p.1 = h - p.1);
        }
        let points: Vec<Point> = points.into_iter().map(Point::from).collect();
        Some(Item::polygon(&points, Some(Ink::Black), None))
    }
}

/// Half the drawn thickness of a back mark. (Real ones are about 2 mm; drawn larger to be seen.)
const MARK_HALF: f64 = 4.0;

/// How far inside the page the frame of a differing one runs, and how thick it is.
const FRAME_IN: f64 = 9.0;
const FRAME: f64 = 7.0;
/// Dashes of that frame along the short and the long side of a page: even, so that the middle stays open for the tick.
const DASHES: (u32, u32) = (4, 6);
/// How much smaller the figure is inside the frame.
const FRAMED_FIGURE: f64 = 0.78;

/// A panel that is narrower has a thinner frame.
const WIDE_ENOUGH: f64 = 100.0;

/// The mark of a page that differs: a frame of strong dashes inside its edge. It is paper and ink alone.
fn differs(w: f64, h: f64) -> Item {
    // A narrow panel has a thinner frame with fewer dashes.
    let thin = (w.min(h) / WIDE_ENOUGH).min(1.0);
    let (inside, frame, gap) = (FRAME_IN * thin, FRAME * thin, GAP * thin);
    let mut path = BezPath::new();
    let mut bar = |x0: f64, y0: f64, x1: f64, y1: f64| {
        path.move_to((x0, y0));
        path.line_to((x1, y0));
        path.line_to((x1, y1));
        path.line_to((x0, y1));
        path.close_path();
    };
    let dashes = |long: f64, other: f64| {
        let count = if long < other { DASHES.0 } else { DASHES.1 };
        let count = count.min((long / (2.0 * gap)) as u32).max(1);
        let pitch = (long - 2.0 * inside + gap) / f64::from(count);
        (0..count).map(move |i| inside + f64::from(i) * pitch).map(move |at| (at, at + (pitch - gap).max(0.0)))
    };
    for (from, to) in dashes(w, h) {
        bar(from, inside, to, inside + frame);
        bar(from, h - inside - frame, to, h - inside);
    }
    for (from, to) in dashes(h, w) {
        bar(inside, from, inside + frame, to);
        bar(w - inside - frame, from, w - inside, to);
    }
    Item::Path { path, fill: Some(Ink::Black), line: None }
}

/// Between two dashes of the frame.
const GAP: f64 = 14.0;

/// Width and height of the page on a panel, seen with its head up.
const fn upright((w, h): (f64, f64), head: Direction) -> (f64, f64) {
    if head.is_sideways() { (h, w) } else { (w, h) }
}

fn head_tick() -> Item {
    let middle = PAGE_WIDTH / 2.0;
    Item::filled(Rect::new(middle - 3.0, 0.0, middle + 3.0, 22.0), Ink::Black)
}

/// The figure of a page in page units, with a foot rule where it could be read upside down.
///
/// For a class it is `large`: as wide as the page.
pub(super) fn figure(number: u32, framed: bool, large: bool) -> Vec<Item> {
    let text = number.to_string();
    let size = figure_size(&text, large) * if framed { FRAMED_FIGURE } else { 1.0 };
    let middle = PAGE_HEIGHT / 2.0 + OPTICAL_CENTRE;
    let baseline = Point::new(PAGE_WIDTH / 2.0, middle + size * BASELINE);
    // The halo comes first, since it reaches over the rule of a long number.
    let rule = text.contains(['6', '9']).then(|| {
        let half = size * FIGURE_WIDTH * text.len() as f64 * 0.36;
        let y = middle + size * 0.5;
        let x = PAGE_WIDTH / 2.0;
        Item::filled(Rect::new(x - half, y, x + half, y + 5.0), Ink::Black)
    });
    let mut items = vec![Item::Figure { text, baseline, size, halo: 16.0 }];
    items.extend(rule);
    items
}

/// The size of a figure on an upright page.
fn figure_size(text: &str, large: bool) -> f64 {
    match text.len() {
        1 => 118.0,
        2 if large => 118.0,
        2 => 106.0,
        3 if large => 80.0,
        3 => 74.0,
        _ => 56.0,
    }
}

/// The slip over a covered figure.
fn cover() -> Item {
    let middle = Point::new(PAGE_WIDTH / 2.0, PAGE_HEIGHT / 2.0 + OPTICAL_CENTRE);
    let (half, high) = (48.0, 53.0);
    let corners = [(-half, -high), (half, -high), (half, high), (-half, high)].map(|by| middle + by);
    let paper = Ink::Paper(Ground { side: Side::A, tone: 0 });
    Item::polygon(&corners, Some(paper), Some(Line::dashed(Ink::Black, 2.0, 8.0, 6.0)))
}

/// From page units (upright) to the panel, where the head points as given.
#[must_use]
pub fn page_in_panel(w: f64, h: f64, head: Direction) -> Affine {
    match head {
        Direction::Up => Affine::IDENTITY,
        Direction::Right => Affine::new([0.0, 1.0, -1.0, 0.0, w, 0.0]),
        Direction::Down => Affine::new([-1.0, 0.0, 0.0, -1.0, w, h]),
        Direction::Left => Affine::new([0.0, -1.0, 1.0, 0.0, 0.0, h]),
    }
}

fn placed(item: Item, place: Affine) -> Item {
    match item {
        Item::Path { path, fill, line } => Item::Path { path: place * path, fill, line },
        other => Item::Group(super::item::Group {
            place,
            ground: None,
            tag: None,
            size: (PAGE_WIDTH, PAGE_HEIGHT),
            items: [other].into(),
        }),
    }
}

/// Lines at 45 degrees over the whole panel, as filled strips so that they turn and shrink with the paper.
pub(super) fn hatch(w: f64, h: f64, coarse: bool) -> Item {
    let (pitch, thick) = if coarse { (26.0, 5.0) } else { (13.0, 2.6) };
    let mut path = BezPath::new();
    let step = pitch * std::f64::consts::SQRT_2;
    let half = thick * std::f64::consts::FRAC_1_SQRT_2;
    let mut c = step / 2.0;
    // The line x + y = c, cut to the panel.
    let cut = |c: f64| ((c - h).max(0.0), c.min(h), c.min(w), (c - w).max(0.0));
    while c < w + h {
        let (ax, ay, bx, by) = cut(c - half);
        let (dx, dy, cx, cy) = cut(c + half);
        if c - half > 0.0 && c + half < w + h {
            path.move_to((ax, ay));
            path.line_to((bx, by));
            path.line_to((cx, cy));
            path.line_to((dx, dy));
            path.close_path();
        }
        c += step;
    }
    Item::Path { path, fill: Some(Ink::Hatch), line: None }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_head_points_where_it_should() {
        // The middle of the head edge of a page, in a panel.
        let head = Point::new(PAGE_WIDTH / 2.0, 0.0);
        assert_eq!(page_in_panel(148.0, 210.0, Direction::Up) * head, Point::new(74.0, 0.0));
        assert_eq!(page_in_panel(148.0, 210.0, Direction::Down) * head, Point::new(74.0, 210.0));
        assert_eq!(page_in_panel(210.0, 148.0, Direction::Right) * head, Point::new(210.0, 74.0));
        assert_eq!(page_in_panel(210.0, 148.0, Direction::Left) * head, Point::new(0.0, 74.0));
    }

    #[test]
    fn hatch_stays_on_its_panel() {
        let Item::Path { path, .. } = hatch(148.0, 210.0, false) else { unreachable!() };
        let r = kurbo::Shape::bounding_box(&path);
        assert!(r.x0 >= 0.0 && r.y0 >= 0.0 && r.x1 <= 148.0 && r.y1 <= 210.0, "{r:?}");
    }
}
