//! Paints what stands on a page as the operators of a PDF content stream.
//!
//! Every point is carried through to points of the page (1/72 inch, `y` upwards) and rounded to a thousandth of one, so
//! that nothing is left to matrices and it can be read back exactly. Only text has a matrix.

use super::document::{Align, Drawn, Page, Stroke, Text, Weight};
use super::words::{self, Face};
use crate::scene::{Group, Ink, Item, Line};
use kurbo::{Affine, BezPath, PathEl, Point, Rect};
use pdf_writer::types::LineCapStyle;
use pdf_writer::{Content, Name, Str};

/// Points in a millimetre.
pub(super) const POINTS: f64 = 72.0 / 25.4;
/// Groups in groups are not followed deeper. A bound on work.
const DEEPEST: u32 = 24;
/// Size of a figure below which it is not told from a speck, pt.
const SMALLEST: f64 = 0.05;

/// The name of a face among the resources of a page.
pub(super) const fn name_of(face: Face) -> Name<'static> {
    match face {
        Face::Plain => Name(b"H"),
        Face::Bold => Name(b"B"),
        Face::Signs => Name(b"S"),
        Face::Figures => Name(b"F"),
    }
}

/// The greys that mean what an ink means, on white paper. Dark things stay dark on a poor printer, and tones do not run
/// together; what is light on the bench has to be dark here.
const fn grey(ink: Ink) -> f32 {
    match ink {
        Ink::Ground => 1.0,
        Ink::Paper(ground) => match ground.tone {
            0 => 1.0,
            1 => 0.95,
            2 => 0.9,
            _ => 0.85,
        },
        Ink::Black => 0.0,
        Ink::Edge => 0.25,
        Ink::Crease | Ink::Quiet | Ink::Light => 0.35,
        Ink::Hatch => 0.78,
        Ink::CastOnBench | Ink::CastOnPaper => 0.86,
    }
}

/// A content stream in the making.
pub(super) struct Painter {
    content: Content,
    fill: f32,
    line: f32,
}

/// The content stream of a page.
pub(super) fn content_of(page: &Page) -> Vec<u8> {
    let to_points = Affine::new([POINTS, 0.0, 0.0, -POINTS, 0.0, page.height_mm * POINTS]);
    let mut painter = Painter { content: Content::new(), fill: 0.0, line: 0.0 };
    for drawn in &page.drawn {
        painter.drawn(drawn, to_points, 0);
    }
    painter.content.finish().to_vec()
}

/// A number as it is written: rounded to a thousandth, and a number at all.
pub(super) fn exact(v: f64) -> f32 {
    let v = if v.is_finite() { crate::units::between(v, -1e5, 1e5) } else { 0.0 };
    let rounded = ((v * 1000.0).round() / 1000.0) as f32;
    if rounded == 0.0 { 0.0 } else { rounded }
}

/// A number of a matrix that turns: these are shares, and need more places.
fn share(v: f64) -> f32 {
    let v = if v.is_finite() { crate::units::between(v, -1e5, 1e5) } else { 0.0 };
    let rounded = ((v * 1e5).round() / 1e5) as f32;
    if rounded == 0.0 { 0.0 } else { rounded }
}

/// How much longer things become, the same in all directions.
fn scale_of(place: Affine) -> f64 {
    place.determinant().abs().sqrt()
}

impl Painter {
    fn drawn(&mut self, drawn: &Drawn, place: Affine, depth: u32) {
        match drawn {
            Drawn::Scene { place: own, items, pixel_mm } => {
                let pixel = pixel_mm * scale_of(place);
                for item in items.iter() {
                    self.item(item, place * *own, pixel, depth);
                }
            }
            Drawn::Text(text) => self.text(text, place),
            Drawn::Stroke(stroke) => self.stroke(stroke, place),
            Drawn::Placed { place: own, window, drawn } => {
                if depth >= DEEPEST {
                    return;
                }
                let place = place * *own;
                let kept = window.map(|window| {
                    self.content.save_state();
                    self.rect(window, place);
                    self.content.clip_nonzero().end_path();
                    (self.fill, self.line)
                });
                for one in drawn.iter() {
                    self.drawn(one, place, depth + 1);
                }
                if let Some((fill, line)) = kept {
                    self.content.restore_state();
                    (self.fill, self.line) = (fill, line);
                }
            }
        }
    }

    fn item(&mut self, item: &Item, place: Affine, pixel: f64, depth: u32) {
        match item {
            Item::Path { path, fill, line } => self.path(path, place, *fill, *line, pixel),
            Item::Figure { text, baseline, size, halo } => {
                let figures = words::runs(text, Weight::Figures);
                let width: f64 = figures.iter().map(|r| r.width).sum::<f64>() * size;
                if *halo > 0.0 {
                    // A window in the hatch: a second, wider figure in white would be read twice by whoever reads the text.
                    let half = width / 2.0 + halo / 2.0;
                    let clear = Rect::new(
                        baseline.x - half,
                        baseline.y - 0.75 * size - halo / 2.0,
                        baseline.x + half,
                        baseline.y + halo / 2.0,
                    );
                    self.filled(1.0);
                    self.rect(clear, place);
                    self.content.fill_nonzero();
                }
                self.runs(&figures, place, Point::new(baseline.x - width / 2.0, baseline.y), *size);
            }
            Item::Words { text, start, size } => {
                self.runs(&words::runs(text, Weight::Plain), place, *start, *size);
            }
            Item::Group(group) if depth < DEEPEST => self.group(group, place, pixel, depth),
            Item::Group(_) => (),
        }
    }

    fn group(&mut self, group: &Group, outer: Affine, pixel: f64, depth: u32) {
        let place = outer * group.place;
        if let Some(ground) = group.ground {
            self.filled(grey(Ink::Paper(ground)));
            self.rect(Rect::new(0.0, 0.0, group.size.0, group.size.1), place);
            self.content.fill_nonzero();
        }
        for item in group.items.iter() {
            self.item(item, place, pixel, depth + 1);
        }
    }

    fn path(&mut self, path: &BezPath, place: Affine, fill: Option<Ink>, line: Option<Line>, pixel: f64) {
        if (fill.is_none() && line.is_none()) || path.elements().is_empty() {
            return;
        }
        if let Some(ink) = fill {
            self.filled(grey(ink));
        }
        if let Some(Line { ink, width, dash }) = line {
            let (dash, gap) = dash.unwrap_or_default();
            self.lined(ink, width * pixel, &[dash * pixel, gap * pixel]);
        }
        let at = |p: Point| {
            let p = place * p;
            (exact(p.x), exact(p.y))
        };
        // A path has to begin with a point; a curve of the second order becomes one of the third.
        let mut last = Point::ZERO;
        for (i, el) in path.elements().iter().enumerate() {
            match *el {
                PathEl::MoveTo(p) => {
                    let (x, y) = at(p);
                    self.content.move_to(x, y);
                    last = p;
                }
                _ if i == 0 => return,
                PathEl::LineTo(p) => {
                    let (x, y) = at(p);
                    self.content.line_to(x, y);
                    last = p;
                }
                PathEl::QuadTo(c, p) => {
                    let ((x1, y1), (x2, y2), (x, y)) = (at(last.lerp(c, 2.0 / 3.0)), at(p.lerp(c, 2.0 / 3.0)), at(p));
                    self.content.cubic_to(x1, y1, x2, y2, x, y);
                    last = p;
                }
                PathEl::CurveTo(a, b, p) => {
                    let ((x1, y1), (x2, y2), (x, y)) = (at(a), at(b), at(p));
                    self.content.cubic_to(x1, y1, x2, y2, x, y);
                    last = p;
                }
                PathEl::ClosePath => {
                    self.content.close_path();
                }
            }
        }
        match (fill, line) {
            (Some(_), Some(_)) => self.content.fill_nonzero_and_stroke(),
            (Some(_), None) => self.content.fill_nonzero(),
            _ => self.content.stroke(),
        };
    }

    fn stroke(&mut self, stroke: &Stroke, place: Affine) {
        let scale = scale_of(place);
        self.lined(stroke.ink, stroke.width_mm * scale, &stroke.dash_mm.map(|d| d * scale));
        let (from, to) = (place * stroke.from, place * stroke.to);
        self.content.move_to(exact(from.x), exact(from.y));
        self.content.line_to(exact(to.x), exact(to.y));
        self.content.stroke();
    }

    fn text(&mut self, text: &Text, place: Affine) {
        let runs = words::runs(&text.words, text.weight);
        let width: f64 = runs.iter().map(|r| r.width).sum::<f64>() * text.size_mm;
        let back = match text.align {
            Align::Left => 0.0,
            Align::Middle => width / 2.0,
            Align::Right => width,
        };
        self.runs(&runs, place, Point::new(text.at.x - back, text.at.y), text.size_mm);
    }

    /// Runs of type that begin at a point, in units of a place whose `y` points downwards on the page.
    fn runs(&mut self, runs: &[words::Run], place: Affine, start: Point, size: f64) {
        let scale = scale_of(place);
        if !(size * scale).is_finite() || size * scale < SMALLEST {
            return;
        }
        self.filled(0.0);
        let [a, b, c, d, ..] = place.as_coeffs().map(|v| v / scale);
        self.content.begin_text();
        let mut x = start.x;
        for run in runs {
            let at = place * Point::new(x, start.y - run.rise * size);
            self.content.set_font(name_of(run.face), exact(size * scale * run.size));
            self.content.set_text_matrix([share(a), share(b), share(-c), share(-d), exact(at.x), exact(at.y)]);
            self.content.show(Str(&run.codes));
            x += run.width * size;
        }
        self.content.end_text();
    }

    fn rect(&mut self, rect: Rect, place: Affine) {
        let corners = [(rect.x0, rect.y0), (rect.x1, rect.y0), (rect.x1, rect.y1), (rect.x0, rect.y1)];
        for (i, corner) in corners.into_iter().enumerate() {
            let p = place * Point::from(corner);
            if i == 0 {
                self.content.move_to(exact(p.x), exact(p.y));
            } else {
                self.content.line_to(exact(p.x), exact(p.y));
            }
        }
        self.content.close_path();
    }

    fn filled(&mut self, grey: f32) {
        if self.fill != grey {
            self.content.set_fill_gray(grey);
            self.fill = grey;
        }
    }

    fn lined(&mut self, ink: Ink, width: f64, dash: &[f64]) {
        let grey = grey(ink);
        if self.line != grey {
            self.content.set_stroke_gray(grey);
            self.line = grey;
        }
        // A line of no width is one dot of the printer, which is not the same on any two.
        self.content.set_line_width(exact(width.max(0.1)));
        let dash: Vec<f32> = dash.iter().map(|d| exact(*d).max(0.0)).collect();
        let dashed = dash.iter().sum::<f32>() > 0.01;
        self.content.set_dash_pattern(if dashed { dash } else { Vec::new() }, 0.0);
        self.content.set_line_cap(LineCapStyle::ButtCap);
    }
}
