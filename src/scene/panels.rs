//! The sizes of the panels of a sheet as they are drawn.
//!
//! Figures, marks and strokes are made for a page of A5. A sheet of any size is therefore drawn so large that its middle
//! panel has the area of an A5 page, in true proportions; [`Panels::scale`] leads back to true millimetres.

use super::face::{PAGE_HEIGHT, PAGE_WIDTH};
use crate::fold::Measure;

/// Where the lines between panels are drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Panels {
    /// Lines from the left, as seen from side A: one more than there are columns.
    x: Vec<f64>,
    /// Lines from the top: one more than there are rows.
    y: Vec<f64>,
    /// Drawn units in a true millimetre.
    pub scale: f64,
}

impl Panels {
    /// Panels of true sizes.
    #[must_use]
    pub fn of(measure: &Measure) -> Self {
        let mm = |all: &[crate::paper::Length]| all.iter().map(|l| l.mm()).collect::<Vec<f64>>();
        let (columns, rows) = (mm(&measure.columns), mm(&measure.rows));
        let area = median(&columns) * median(&rows);
        let scale = if area > 0.0 { (PAGE_WIDTH * PAGE_HEIGHT / area).sqrt() } else { 1.0 };
        Self { x: lines(&columns, scale), y: lines(&rows, scale), scale }
    }

    /// The line left of a column; beyond the last one the right edge.
    #[must_use]
    pub fn line_x(&self, column: u32) -> f64 {
        at(&self.x, column)
    }

    /// The line above a row; beyond the last one the bottom edge.
    #[must_use]
    pub fn line_y(&self, row: u32) -> f64 {
        at(&self.y, row)
    }
}

fn at(lines: &[f64], i: u32) -> f64 {
    lines.get(i as usize).or(lines.last()).copied().unwrap_or_default()
}

fn lines(sizes: &[f64], scale: f64) -> Vec<f64> {
    let ends = sizes.iter().scan(0.0, |end, size| {
        *end += size * scale;
        Some(*end)
    });
    std::iter::once(0.0).chain(ends).collect()
}

fn median(sizes: &[f64]) -> f64 {
    let mut sorted = sizes.to_vec();
    sorted.sort_by(f64::total_cmp);
    sorted.get(sorted.len() / 2).copied().unwrap_or_default()
}
