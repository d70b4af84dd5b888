//! The few kinds of thing that a scene is made of.

use crate::fold::{Face, Side};
use kurbo::{Affine, BezPath, Point, Rect};
use std::rc::Rc;

/// The paper that a group lies on: the side, and how dark the light leaves it (0, the lightest, to 3).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ground {
    /// Side of the sheet.
    pub side: Side,
    /// Tone, 0 to 3.
    pub tone: u8,
}

/// A colour by what it means. Painters map it; nothing here knows a colour value.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ink {
    /// The paper of the group that the item is in.
    Ground,
    /// A given paper.
    Paper(Ground),
    /// Printing ink.
    Black,
    /// The cut edge of paper.
    Edge,
    /// A crease.
    Crease,
    /// The hatch of side B.
    Hatch,
    /// The flat dark that a raised flap leaves on the bench.
    CastOnBench,
    /// The same on paper: ink at 14 %.
    CastOnPaper,
    /// Second text and outlines on the bench.
    Quiet,
    /// Light things on the bench: paper-coloured lines and words.
    Light,
}

/// A stroke. Its width and dashes are in pixels of the painter, whatever the scale of the group.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Line {
    /// Colour.
    pub ink: Ink,
    /// Width in pixels.
    pub width: f64,
    /// Dash and gap in pixels; `None` is solid.
    pub dash: Option<(f64, f64)>,
}

impl Line {
    /// A solid line.
    #[must_use]
    pub const fn solid(ink: Ink, width: f64) -> Self {
        Self { ink, width, dash: None }
    }

    /// A dashed line.
    #[must_use]
    pub const fn dashed(ink: Ink, width: f64, dash: f64, gap: f64) -> Self {
        Self { ink, width, dash: Some((dash, gap)) }
    }
}

/// What a group stands for, so that it can be picked and tested.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tag {
    /// One face of one panel.
    Face(Face),
    /// A section in the spine, by its place (counted from 1).
    Place(u32),
}

/// One thing in a scene.
#[derive(Clone, Debug, PartialEq)]
pub enum Item {
    /// A filled or stroked outline.
    Path {
        /// The outline.
        path: BezPath,
        /// Its filling.
        fill: Option<Ink>,
        /// Its stroke.
        line: Option<Line>,
    },
    /// A number, centred at a point.
    Figure {
        /// The digits.
        text: String,
        /// The middle of its baseline.
        baseline: Point,
        /// Size in units of the group.
        size: f64,
        /// Width of the clear halo around it, cut into the hatch; 0 for none.
        halo: f64,
    },
    /// Words on one line, which begin at a point.
    Words {
        /// What they say.
        text: String,
        /// The left end of the baseline.
        start: Point,
        /// Size in units of the group.
        size: f64,
    },
    /// Items with a place of their own.
    Group(Group),
}

/// Items that are placed, and can be picked, together.
#[derive(Clone, Debug, PartialEq)]
pub struct Group {
    /// From the units inside to those outside.
    pub place: Affine,
    /// The paper it lies on, if any.
    pub ground: Option<Ground>,
    /// What it stands for.
    pub tag: Option<Tag>,
    /// Its size in its own units: what the pointer can hit.
    pub size: (f64, f64),
    /// The items. Shared, since most of them stay the same from frame to frame.
    pub items: Rc<[Item]>,
}

/// A picture: items from back to front.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Scene {
    /// Width and height.
    pub size: (f64, f64),
    /// Items from back to front.
    pub items: Vec<Item>,
}

impl Item {
    /// A filled rectangle.
    #[must_use]
    pub fn filled(rect: Rect, ink: Ink) -> Self {
        Self::Path {
            path: closed(
                &[(rect.x0, rect.y0), (rect.x1, rect.y0), (rect.x1, rect.y1), (rect.x0, rect.y1)].map(Point::from),
            ),
            fill: Some(ink),
            line: None,
        }
    }

    /// A straight stroke.
    #[must_use]
    pub fn stroke(from: impl Into<Point>, to: impl Into<Point>, line: Line) -> Self {
        let mut path = BezPath::new();
        path.move_to(from);
        path.line_to(to);
        Self::Path { path, fill: None, line: Some(line) }
    }

    /// A closed outline through the points.
    #[must_use]
    pub fn polygon(points: &[Point], fill: Option<Ink>, line: Option<Line>) -> Self {
        Self::Path { path: closed(points), fill, line }
    }
}

/// The closed outline through some points.
#[must_use]
pub fn closed(points: &[Point]) -> BezPath {
    let mut path = BezPath::new();
    for (i, p) in points.iter().enumerate() {
        if i == 0 { path.move_to(*p) } else { path.line_to(*p) }
    }
    if !points.is_empty() {
        path.close_path();
    }
    path
}

/// A circle, of four curves.
#[must_use]
pub fn ring(centre: Point, radius: f64) -> BezPath {
    // The usual reach of the handles: 4/3 of the tangent of a sixteenth of a turn.
    let k = radius * 0.552_284_75;
    let at = |x: f64, y: f64| Point::new(centre.x + x, centre.y + y);
    let r = radius;
    let mut path = BezPath::new();
    path.move_to(at(r, 0.0));
    path.curve_to(at(r, k), at(k, r), at(0.0, r));
    path.curve_to(at(-k, r), at(-r, k), at(-r, 0.0));
    path.curve_to(at(-r, -k), at(-k, -r), at(0.0, -r));
    path.curve_to(at(k, -r), at(r, -k), at(r, 0.0));
    path.close_path();
    path
}

impl Scene {
    /// The foremost tagged group at a point, and the point in that group's own units.
    #[must_use]
    pub fn pick(&self, at: Point) -> Option<(Tag, Point)> {
        self.items.iter().rev().find_map(|item| match item {
            Item::Group(g) => {
                let tag = g.tag?;
                if g.place.determinant().abs() < 1e-9 {
                    return None;
                }
                let inside = g.place.inverse() * at;
                let hit = (0.0..=g.size.0).contains(&inside.x) && (0.0..=g.size.1).contains(&inside.y);
                hit.then_some((tag, inside))
            }
            _ => None,
        })
    }

    /// The foremost group with a tag.
    #[must_use]
    pub fn group(&self, tag: Tag) -> Option<&Group> {
        self.items.iter().rev().find_map(|item| match item {
            Item::Group(g) if g.tag == Some(tag) => Some(g),
            _ => None,
        })
    }
}
