//! A document as a value: pages in millimetres, and what stands on them.

use crate::scene::{Ink, Item};
use kurbo::{Affine, Point, Rect};
use std::rc::Rc;

/// The most pages of a document. A bound on work, not on paper.
pub const MAX_PAGES: usize = 512;
/// The longest side of a page, mm: 200 inches, the limit of ISO 32000-1, annex C.
pub const MAX_SIDE_MM: f64 = 5080.0;

/// What is printed as one.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Document {
    /// What it is called by whoever opens it.
    pub title: String,
    /// The language of its words, as in BCP 47: `en`.
    pub lang: String,
    /// The pages in order. Those above [`MAX_PAGES`] are not painted.
    pub pages: Vec<Page>,
}

/// A page of paper.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Page {
    /// Width, mm.
    pub width_mm: f64,
    /// Height, mm.
    pub height_mm: f64,
    /// What stands on it, from back to front, in mm from its upper left corner.
    pub drawn: Vec<Drawn>,
}

/// One thing on a page.
#[derive(Clone, Debug, PartialEq)]
pub enum Drawn {
    /// Items of a scene.
    Scene {
        /// From their units to millimetres of what they stand in.
        place: Affine,
        /// The items.
        items: Rc<[Item]>,
        /// How wide a line of one pixel is, mm.
        pixel_mm: f64,
    },
    /// Words on one line.
    Text(Text),
    /// A straight line.
    Stroke(Stroke),
    /// Things with a place of their own, cut off outside a window.
    Placed {
        /// From their millimetres to those of what they stand in.
        place: Affine,
        /// What can be seen of them, in their own millimetres; `None` for all.
        window: Option<Rect>,
        /// The things.
        drawn: Rc<[Drawn]>,
    },
}

/// Words on one line.
#[derive(Clone, Debug, PartialEq)]
pub struct Text {
    /// What they say.
    pub words: String,
    /// Where the baseline begins, has its middle, or ends.
    pub at: Point,
    /// Size of the type, mm.
    pub size_mm: f64,
    /// Which of the three.
    pub align: Align,
    /// How heavy.
    pub weight: Weight,
}

/// Where a line of words stands by its point.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Align {
    /// It begins there.
    #[default]
    Left,
    /// Its middle is there.
    Middle,
    /// It ends there.
    Right,
}

/// The type of a line of words.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Weight {
    /// Plain.
    #[default]
    Plain,
    /// Bold, for headings.
    Bold,
    /// The typeface of the figures. What it does not have is set in bold.
    Figures,
}

/// A straight line of an exact width.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stroke {
    /// Its beginning.
    pub from: Point,
    /// Its end.
    pub to: Point,
    /// Width, mm.
    pub width_mm: f64,
    /// Dash, gap, second dash, second gap, mm; all 0 for a solid line.
    pub dash_mm: [f64; 4],
    /// Colour.
    pub ink: Ink,
}

impl Stroke {
    /// A solid black line.
    #[must_use]
    pub fn solid(from: impl Into<Point>, to: impl Into<Point>, width_mm: f64) -> Self {
        Self { from: from.into(), to: to.into(), width_mm, dash_mm: [0.0; 4], ink: Ink::Black }
    }

    /// The same line in dashes.
    #[must_use]
    pub const fn dashed(self, dash_mm: [f64; 4]) -> Self {
        Self { dash_mm, ..self }
    }

    /// The same line in another ink.
    #[must_use]
    pub const fn in_ink(self, ink: Ink) -> Self {
        Self { ink, ..self }
    }
}

impl Text {
    /// Plain words that begin at a point.
    #[must_use]
    pub fn plain(words: impl Into<String>, at: impl Into<Point>, size_mm: f64) -> Self {
        Self { words: words.into(), at: at.into(), size_mm, align: Align::Left, weight: Weight::Plain }
    }

    /// The same in bold.
    #[must_use]
    pub fn bold(self) -> Self {
        Self { weight: Weight::Bold, ..self }
    }

    /// The same, otherwise aligned.
    #[must_use]
    pub fn aligned(self, align: Align) -> Self {
        Self { align, ..self }
    }
}

impl From<Text> for Drawn {
    fn from(text: Text) -> Self {
        Self::Text(text)
    }
}

impl From<Stroke> for Drawn {
    fn from(stroke: Stroke) -> Self {
        Self::Stroke(stroke)
    }
}
