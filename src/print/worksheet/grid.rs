//! Both sides of a sheet: panels with the lay corner, and in each the figure, or room for it, and where its head may be.

use super::boxes::figures;
use crate::fold::{Direction, Side};
use crate::print::document::{Drawn, Text};
use crate::print::flow::{Block, LINE, WORDS, frame, thin};
use crate::scene::{Ink, Item, Line, page_in_panel};
use crate::units::between;
use kurbo::{Affine, Point, Rect};

/// Height to width of a page that stands upright: that of the ISO A sizes, ISO 216.
const UPRIGHT: f64 = 1.414;
/// Between two sides that lie beside each other, and below each other, mm.
const APART: f64 = 6.0;
const BELOW: f64 = 2.0;
/// A panel to be written in has a shorter side of so much, if there is room, and not of more, mm.
const ENOUGH: f64 = 17.0;
const MOST: f64 = 26.0;

/// What stands on a panel.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Panel {
    /// The number; `None` where there is none yet.
    pub page: Option<u32>,
    /// The way its figure stands.
    pub stands: Option<Direction>,
    /// Whether there are boxes for the head.
    pub boxes: bool,
    /// The box that is filled in.
    pub head: Option<Direction>,
}

/// Both sides, row by row as each is seen.
pub(super) struct Sides {
    pub a: Vec<Vec<Panel>>,
    pub b: Vec<Vec<Panel>>,
    /// Whether the panels lie on their sides.
    pub sideways: bool,
    /// Whether a hand writes in them; else they may be smaller.
    pub blank_line: bool,
}

impl Block {
    /// Both sides as large as there is room for, beside or below each other.
    pub(super) fn sides(&mut self, sides: &Sides, room: f64) {
        let rows = sides.a.len().max(1) as f64;
        let columns = sides.a.first().map_or(1, Vec::len).max(1) as f64;
        let shape = if sides.sideways { 1.0 / UPRIGHT } else { UPRIGHT };
        let most = if sides.blank_line { MOST } else { 0.75 * MOST };
        let fit = |wide: f64, high: f64| {
            let w = (wide / columns).min(high / (rows * shape)).max(4.0);
            // No larger than a figure needs.
            let short = w.min(w * shape);
            w * (most / short).min(1.0)
        };
        let beside = fit((self.width - APART) / 2.0, room - LINE);
        let below = fit(self.width, (room - 2.0 * LINE - BELOW) / 2.0);
        let short = |w: f64| w.min(w * shape);
        let is_beside =
            short(beside) >= if sides.blank_line { ENOUGH } else { 0.6 * ENOUGH } || short(beside) >= short(below);
        let w = if is_beside { beside } else { below };
        let h = w * shape;
        let (wide, high) = (columns * w, rows * h);
        let top = self.high;
        let places =
            if is_beside { [(0.0, top), (wide + APART, top)] } else { [(0.0, top), (0.0, top + LINE + high + BELOW)] };
        let names = ["Side A up", "Side B, turned left to right"];
        for (((side, panels), at), says) in
            [(Side::A, &sides.a), (Side::B, &sides.b)].into_iter().zip(places).zip(names)
        {
            let one = one_side(side, panels, (w, h));
            let says = if crate::print::width_of(says, Default::default(), WORDS) > wide {
                says.split(',').next().unwrap_or(says)
            } else {
                says
            };
            self.put(Text::plain(says, (at.0, at.1 + LINE - 1.5), WORDS));
            let place = Affine::translate((at.0, at.1 + LINE));
            self.put(Drawn::Placed { place, window: None, drawn: one.into() });
        }
        self.high += if is_beside { LINE + high } else { 2.0 * (LINE + high) + BELOW };
    }
}

/// One side of the sheet.
fn one_side(side: Side, panels: &[Vec<Panel>], (w, h): (f64, f64)) -> Vec<Drawn> {
    let rows = panels.len() as f64;
    let columns = panels.first().map_or(0, Vec::len) as f64;
    let (wide, high) = (columns * w, rows * h);
    let mut drawn: Vec<Drawn> = Vec::new();
    for column in 1..columns as u32 {
        let x = f64::from(column) * w;
        drawn.push(thin((x, 0.0), (x, high)).into());
    }
    for row in 1..rows as u32 {
        let y = f64::from(row) * h;
        drawn.push(thin((0.0, y), (wide, y)).into());
    }
    drawn.extend(frame(Rect::new(0.0, 0.0, wide, high), 0.4));
    drawn.push(scene(vec![lay_corner(side, (wide, high), w.min(h))], Affine::IDENTITY));
    for (row, panels) in panels.iter().enumerate() {
        for (column, panel) in panels.iter().enumerate() {
            let place = Affine::translate((column as f64 * w, row as f64 * h));
            drawn.extend(on_panel(panel, (w, h), place));
        }
    }
    drawn
}

/// The lay corner: lower left on side A, and so lower right when the sheet is turned left to right.
fn lay_corner(side: Side, (wide, high): (f64, f64), short: f64) -> Item {
    let long = 0.3 * short;
    let thick = 0.22 * long;
    let points = [
        (0.0, high - long),
        (thick, high - long),
        (thick, high - thick),
        (long, high - thick),
        (long, high),
        (0.0, high),
    ];
    let turned = points.map(|(x, y)| Point::new(if side == Side::B { wide - x } else { x }, y));
    Item::polygon(&turned, Some(Ink::Black), None)
}

fn scene(items: Vec<Item>, place: Affine) -> Drawn {
    Drawn::Scene { place, items: items.into(), pixel_mm: 0.2 }
}

const ALL: [Direction; 4] = [Direction::Up, Direction::Right, Direction::Down, Direction::Left];

fn on_panel(panel: &Panel, (w, h): (f64, f64), place: Affine) -> Vec<Drawn> {
    let mut drawn = Vec::new();
    let upright = |way: Direction| if way.is_sideways() { (h, w) } else { (w, h) };
    let mut bars = Vec::new();
    for way in ALL {
        let filled = panel.head == Some(way);
        if !(panel.boxes || filled) {
            continue;
        }
        let (pw, _) = upright(way);
        let half = (0.13 * pw).min(2.8);
        let corners = [(-half, 0.9), (half, 0.9), (half, 3.1), (-half, 3.1)].map(|(x, y)| Point::new(pw / 2.0 + x, y));
        let corners = corners.map(|p| page_in_panel(w, h, way) * p);
        let line = Some(Line::solid(Ink::Quiet, 1.0));
        bars.push(Item::polygon(&corners, filled.then_some(Ink::Black), line));
    }
    if !bars.is_empty() {
        drawn.push(scene(bars, place));
    }
    if let Some(page) = panel.page {
        let way = panel.stands.unwrap_or(Direction::Up);
        let size = upright(way);
        let place = place * page_in_panel(w, h, way);
        // Between the boxes at its sides.
        let beside = if panel.boxes { 4.0 } else { 0.8 };
        drawn.push(Drawn::Placed { place, window: None, drawn: figure(page, size, beside).into() });
    }
    drawn
}

/// The figure in the middle of an upright panel, with so much free at both sides, and a rule at its foot where it could be
/// read upside down.
pub(super) fn figure(page: u32, (w, h): (f64, f64), beside: f64) -> Vec<Drawn> {
    let says = page.to_string();
    // Figures of this typeface are at most 0.62 of their size wide, and three quarters high.
    let digits = says.len() as f64;
    let size = between((0.46 * h).min((w - 2.0 * beside) / (0.6 * digits)), 1.0, 16.0);
    let base = h / 2.0 + 0.36 * size;
    let mut drawn = vec![figures(says.clone(), (w / 2.0, base), size)];
    if says.contains(['6', '9']) {
        let half = 0.22 * size * digits;
        let rule = Rect::new(w / 2.0 - half, base + 0.12 * size, w / 2.0 + half, base + 0.18 * size);
        drawn.push(scene(vec![Item::filled(rule, Ink::Black)], Affine::IDENTITY));
    }
    drawn
}
