//! What is known of the paper and of the knives.

use super::thickness::caliper;
use crate::paper::Length;

/// Which way the grain of the flat sheet runs, as the sheet lies before the first fold.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Grain {
    /// From left to right.
    AlongWidth,
    /// From top to bottom.
    AlongHeight,
}

/// The paper.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stock {
    /// Grammage in g/m².
    pub grammage: f64,
    /// Bulk (specific volume) in cm³/g.
    pub bulk: f64,
    /// Which way the grain runs, if it is known.
    pub grain: Option<Grain>,
}

impl Stock {
    /// The thickness of one leaf.
    #[must_use]
    pub fn caliper(&self) -> Length {
        caliper(self.grammage, self.bulk)
    }
}

/// What the three knives take off, and how far pictures are printed beyond the cut.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Trims {
    /// Off the head.
    pub head: Length,
    /// Off the tail.
    pub foot: Length,
    /// Off the fore-edge.
    pub fore_edge: Length,
    /// How far a picture that runs off the page is printed beyond the cut.
    pub bleed: Length,
}

impl Trims {
    /// The same trim on all three edges, and the same bleed.
    #[must_use]
    pub const fn all(trim: Length) -> Self {
        Self { head: trim, foot: trim, fore_edge: trim, bleed: trim }
    }
}
