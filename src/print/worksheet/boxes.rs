//! Boxes to tick and to write in, and the ticket that says what an exercise is about.

use crate::print::document::{Align, Drawn, Stroke, Text, Weight};
use crate::print::flow::{Block, LINE, WORDS, frame};
use crate::print::words::width_of;
use kurbo::Rect;

/// The side of a box to tick, mm.
const TICK: f64 = 4.2;
/// The height of a box to write in, mm.
pub(super) const BOX: f64 = 8.0;

impl Block {
    /// A box to tick with words behind it, at a place and on a baseline; gives the place behind the words.
    pub(super) fn tick(&mut self, at: (f64, f64), says: &str, ticked: bool) -> f64 {
        let (x, base) = at;
        let rect = Rect::new(x, base - TICK + 0.7, x + TICK, base + 0.7);
        self.drawn.extend(frame(rect, 0.25));
        if ticked {
            let inner = rect.inset(-0.7);
            self.put(Stroke::solid((inner.x0, inner.y0), (inner.x1, inner.y1), 0.7));
            self.put(Stroke::solid((inner.x0, inner.y1), (inner.x1, inner.y0), 0.7));
        }
        self.put(Text::plain(says, (x + TICK + 1.0, base), WORDS));
        x + TICK + 1.0 + width_of(says, Weight::Plain, WORDS) + 2.5
    }

    /// A box to write a number in, with its upper left corner at a place.
    pub(super) fn number_box(&mut self, (x, y): (f64, f64), wide: f64, filled: &str) {
        self.drawn.extend(frame(Rect::new(x, y, x + wide, y + BOX), 0.25));
        if !filled.is_empty() {
            self.put(figures(filled, (x + wide / 2.0, y + BOX - 2.2), 5.0));
        }
    }

    /// The ticket: labels and what they say, in a frame.
    pub(super) fn ticket(&mut self, rows: &[(&str, String)]) {
        let top = self.high;
        self.high += 1.2;
        for (label, says) in rows {
            self.labelled(label, says, (2.0, 24.0, self.width - 2.0));
        }
        self.high += 1.2;
        self.drawn.extend(frame(Rect::new(0.0, top, self.width, self.high), 0.25));
        self.high += 1.6;
    }
}

/// Figures about a point of their baseline.
pub(super) fn figures(says: impl Into<String>, at: (f64, f64), size_mm: f64) -> Drawn {
    Text { weight: Weight::Figures, ..Text::plain(says, at, size_mm).aligned(Align::Middle) }.into()
}

/// Half the height of a line, where boxes stand beside words.
pub(super) const BASE: f64 = LINE - 1.5;
