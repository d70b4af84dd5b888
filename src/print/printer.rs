//! The paper in the printer, and how the printer backs it up.

use super::document::{Drawn, Page};
use crate::marks::Refusal;
use kurbo::{Affine, Point};
use serde::{Deserialize, Serialize};

/// Paper that office printers take.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Paper {
    /// 210 × 297 mm (ISO 216).
    #[default]
    A4,
    /// 297 × 420 mm (ISO 216).
    A3,
    /// 8½ × 11 in (ANSI/ASME Y14.1, size A).
    Letter,
    /// 11 × 17 in (ANSI/ASME Y14.1, size B).
    Tabloid,
}

impl Paper {
    /// All of them.
    pub const ALL: [Self; 4] = [Self::A4, Self::A3, Self::Letter, Self::Tabloid];

    /// Width and height, upright, mm.
    #[must_use]
    pub const fn size_mm(self) -> (f64, f64) {
        match self {
            Self::A4 => (210.0, 297.0),
            Self::A3 => (297.0, 420.0),
            Self::Letter => (215.9, 279.4),
            Self::Tabloid => (279.4, 431.8),
        }
    }

    /// What it is called.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::A4 => "A4",
            Self::A3 => "A3",
            Self::Letter => "Letter",
            Self::Tabloid => "Tabloid",
        }
    }
}

/// The edge about which the printer turns the paper to print the second side. Every page here is upright.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Flip {
    /// The long edge: turned left to right.
    #[default]
    LongEdge,
    /// The short edge: turned head over foot.
    ShortEdge,
}

/// How far the second side lands from where it belongs, as the test page shows it: looking at side B with its arrow up.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Off {
    /// Too far to the right, mm; below 0 to the left.
    pub right_mm: f64,
    /// Too far down, mm; below 0 up.
    pub down_mm: f64,
}

/// The printer.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Printer {
    /// The paper in it.
    pub paper: Paper,
    /// How it turns the paper.
    pub flip: Flip,
    /// How far off its second side is.
    pub off: Off,
}

/// The largest error of a second side that is put right, mm. What is farther off was fed wrong.
pub const MOST_OFF_MM: f64 = 20.0;

/// What stays white at every edge, mm: office printers can't print there (common practice, no source).
pub(super) const MARGIN: f64 = 7.0;

impl Printer {
    /// Whether such a printer can be printed on.
    ///
    /// # Errors
    /// When the second side is farther off than [`MOST_OFF_MM`], or by what is no number.
    pub fn check(&self) -> Result<(), Refusal> {
        for (at, mm) in [("off.right_mm", self.off.right_mm), ("off.down_mm", self.off.down_mm)] {
            if !mm.is_finite() || mm.abs() > MOST_OFF_MM {
                return Err(Refusal::new(at, "the second side can be moved by 20 mm at the most"));
            }
        }
        Ok(())
    }
}

/// The way that a sheet of paper is looked at while something is laid out on it: upright, or turned a quarter to the left
/// and so wider than high.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Frame {
    paper: (f64, f64),
    across: bool,
}

impl Frame {
    pub(super) const fn of(paper: Paper, across: bool) -> Self {
        Self { paper: paper.size_mm(), across }
    }

    /// Width and height as it is looked at, mm.
    pub(super) const fn size(self) -> (f64, f64) {
        let (w, h) = self.paper;
        if self.across { (h, w) } else { (w, h) }
    }

    /// From the frame to the upright page.
    fn upright(self) -> Affine {
        let (w, _) = self.paper;
        // Head of the frame to the right of the page.
        if self.across { Affine::new([0.0, 1.0, -1.0, 0.0, w, 0.0]) } else { Affine::IDENTITY }
    }

    /// A page with the first side.
    pub(super) fn first_side(self, drawn: Vec<Drawn>) -> Page {
        self.page(self.upright(), drawn)
    }

    /// A page with the second side. What is drawn lies in the frame as it is seen after turning the frame left to right;
    /// it comes to lie behind the first side whatever way the printer turns the paper.
    pub(super) fn second_side(self, printer: &Printer, drawn: Vec<Drawn>) -> Page {
        let (w, h) = self.paper;
        let mirror = |width: f64| Affine::new([-1.0, 0.0, 0.0, 1.0, width, 0.0]);
        let seen = mirror(w) * self.upright() * mirror(self.size().0);
        let moved = Affine::translate((-printer.off.right_mm, -printer.off.down_mm));
        let turned = match printer.flip {
            Flip::LongEdge => Affine::IDENTITY,
            Flip::ShortEdge => Affine::new([-1.0, 0.0, 0.0, -1.0, w, h]),
        };
        self.page(turned * moved * seen, drawn)
    }

    fn page(self, place: Affine, drawn: Vec<Drawn>) -> Page {
        let drawn = vec![Drawn::Placed { place, window: None, drawn: drawn.into() }];
        Page { width_mm: self.paper.0, height_mm: self.paper.1, drawn }
    }
}

/// Where a point of the page with the first side comes to lie on the page with the second one: through the paper.
#[must_use]
pub fn through(printer: &Printer, point: Point) -> Point {
    let (w, h) = printer.paper.size_mm();
    match printer.flip {
        Flip::LongEdge => Point::new(w - point.x, point.y),
        Flip::ShortEdge => Point::new(point.x, h - point.y),
    }
}
