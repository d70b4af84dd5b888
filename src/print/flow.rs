//! Blocks of text and drawing that follow each other on as many pages as they take. No block is cut.

use super::document::{Align, Document, Drawn, Page, Stroke, Text, Weight};
use super::printer::Paper;
use super::words::{lines_of, width_of};
use crate::marks::Refusal;
use crate::scene::Ink;
use kurbo::{Affine, Rect};
use std::rc::Rc;

/// What stays white round a page to be written on, mm.
pub(super) const EDGE: f64 = 14.0;
/// Size of words: 11 pt, in mm; and from line to line.
pub(super) const WORDS: f64 = 3.9;
pub(super) const LINE: f64 = 5.4;
/// Room for the running head, mm.
const HEAD: f64 = 9.0;
/// Between two blocks, mm.
const BETWEEN: f64 = 4.0;

/// How wide and how high blocks may be on a paper, mm.
pub(super) const fn room(paper: Paper) -> (f64, f64) {
    let (w, h) = paper.size_mm();
    (w - 2.0 * EDGE, h - 2.0 * EDGE - HEAD)
}

/// A block in the making: what is added comes below what is there.
#[derive(Clone, Debug, Default)]
pub(super) struct Block {
    /// How wide it may be, mm.
    pub width: f64,
    /// How high it is so far, mm.
    pub high: f64,
    /// What stands on it, in mm from its upper left corner.
    pub drawn: Vec<Drawn>,
    /// What stands above it where it is the first on a page: the heading of its table.
    pub above: Option<Rc<Self>>,
    /// Whether the next one follows without a gap.
    pub tight: bool,
}

impl Block {
    pub(super) const fn of(width: f64) -> Self {
        Self { width, high: 0.0, drawn: Vec::new(), above: None, tight: false }
    }

    /// Something at a place of the block.
    pub(super) fn put(&mut self, drawn: impl Into<Drawn>) {
        self.drawn.push(drawn.into());
    }

    /// Leaves room.
    pub(super) fn gap(&mut self, mm: f64) {
        self.high += mm;
    }

    /// Words in as many lines as they take.
    pub(super) fn words(&mut self, says: &str, weight: Weight) {
        self.words_at(says, weight, WORDS, (0.0, self.width));
    }

    /// Words of a size between two places.
    pub(super) fn words_at(&mut self, says: &str, weight: Weight, size_mm: f64, (from, to): (f64, f64)) {
        for line in lines_of(says, weight, size_mm, to - from) {
            self.high += LINE * size_mm / WORDS;
            self.put(Text { weight, ..Text::plain(line, (from, self.high - 1.5 * size_mm / WORDS), size_mm) });
        }
    }

    /// A label and a value behind it, which may take several lines.
    pub(super) fn labelled(&mut self, label: &str, value: &str, (from, values, to): (f64, f64, f64)) {
        let base = self.high + LINE - 1.5;
        self.put(Text::plain(label, (from, base), WORDS));
        let top = self.high;
        self.words_at(value, Weight::Plain, WORDS, (values, to));
        self.high = self.high.max(top + LINE);
    }

    /// A label and lines to write on, at least so many; what is filled in stands on them.
    pub(super) fn blank_line(&mut self, label: &str, (from, to): (f64, f64), lines: usize, filled: &str) {
        let behind = from + width_of(label, Weight::Plain, WORDS) + 2.0;
        // The first line is shorter than the others by its label.
        let mut words = lines_of(filled, Weight::Bold, WORDS, to - behind).into_iter();
        let first = words.next().unwrap_or_default();
        let rest = filled.split_whitespace().skip(first.split_whitespace().count()).collect::<Vec<_>>().join(" ");
        let others = lines_of(&rest, Weight::Bold, WORDS, to - from);
        for k in 0..lines.max(1 + others.len()) {
            self.high += RULED;
            let (left, says) = if k == 0 { (behind, Some(&first)) } else { (from, others.get(k - 1)) };
            let base = self.high - 1.5;
            if k == 0 {
                self.put(Text::plain(label, (from, base), WORDS));
            }
            if let Some(says) = says.filter(|s| !s.is_empty()) {
                self.put(Text::plain(says.clone(), (left, base), WORDS).bold());
            }
            self.put(line((left, base + 1.0), (to, base + 1.0)));
        }
    }

    /// Another block at a place of this one; this one does not grow.
    pub(super) fn place(&mut self, at: (f64, f64), block: Self) {
        self.put(Drawn::Placed { place: Affine::translate(at), window: None, drawn: block.drawn.into() });
    }

    /// A label and a line behind it up to a place, on the last line of words; what is known stands on it.
    pub(super) fn blank(&mut self, label: &str, filled: &str, (from, to): (f64, f64)) {
        let base = self.high - 1.5;
        self.put(Text::plain(label, (from, base), WORDS));
        let behind = from + width_of(label, Weight::Plain, WORDS) + 2.0;
        self.put(line((behind, base + 1.0), (to, base + 1.0)));
        let says = lines_of(filled, Weight::Plain, WORDS, to - behind).into_iter().next();
        if let Some(says) = says {
            self.put(Text::plain(says, (behind, base), WORDS));
        }
    }

    /// Cells of a table beside each other, and a line below them.
    fn row(&mut self, cells: &[String], columns: &[f64], weight: Weight) {
        let top = self.high;
        let mut high = LINE;
        for (k, (says, from)) in cells.iter().zip(columns).enumerate() {
            let to = columns.get(k + 1).map_or(self.width, |next| next - 2.0);
            self.high = top;
            self.words_at(says, weight, WORDS, (*from, to));
            high = high.max(self.high - top);
        }
        self.high = top + high + 0.8;
        self.put(thin((0.0, self.high), (self.width, self.high)));
        self.high += 0.4;
    }
}

/// A table as blocks, one for each row; its heading is repeated on every page. Columns begin at these places, mm.
pub(super) fn table(width: f64, heading: &[&str], rows: &[Vec<String>], columns: &[f64]) -> Vec<Block> {
    let mut first = Block { tight: true, ..Block::of(width) };
    first.row(&heading.iter().map(ToString::to_string).collect::<Vec<_>>(), columns, Weight::Bold);
    let above = Rc::new(first.clone());
    let row = |(k, cells): (usize, &Vec<String>)| {
        // The heading is not left alone at the foot of a page.
        let mut block = if k == 0 { first.clone() } else { Block::of(width) };
        block.above = (k > 0).then(|| Rc::clone(&above));
        block.tight = k + 1 < rows.len();
        block.row(cells, columns, Weight::Plain);
        block
    };
    rows.iter().enumerate().map(row).collect()
}

/// From one line to write on to the next, mm: what a hand needs (common practice, no source).
const RULED: f64 = 8.0;

/// A line to write on.
pub(super) fn line(from: (f64, f64), to: (f64, f64)) -> Stroke {
    Stroke::solid(from, to, 0.2)
}

/// A line between parts.
pub(super) fn thin(from: (f64, f64), to: (f64, f64)) -> Stroke {
    Stroke::solid(from, to, 0.15).in_ink(Ink::Quiet)
}

/// The outline of a rectangle.
pub(super) fn frame(rect: Rect, width_mm: f64) -> [Drawn; 4] {
    let corners = [(rect.x0, rect.y0), (rect.x1, rect.y0), (rect.x1, rect.y1), (rect.x0, rect.y1)];
    let side = |k: usize| {
        let at = |k: usize| corners.get(k % 4).copied().unwrap_or_default();
        Stroke::solid(at(k), at(k + 1), width_mm).into()
    };
    [side(0), side(1), side(2), side(3)]
}

/// Blocks on as many pages as they take, each whole. One that is higher than a page stands on a page of its own and is
/// cut at its foot; blocks are made so that this does not happen.
pub(super) fn pages(blocks: Vec<Block>, paper: Paper) -> Vec<Vec<Drawn>> {
    let (_, high) = room(paper);
    let mut pages: Vec<Vec<Drawn>> = Vec::new();
    let mut top = f64::INFINITY;
    let put = |pages: &mut Vec<Vec<Drawn>>, top: f64, drawn: &[Drawn]| {
        let place = Affine::translate((EDGE, EDGE + HEAD + top));
        if let Some(page) = pages.last_mut() {
            page.push(Drawn::Placed { place, window: None, drawn: drawn.into() });
        }
    };
    for block in blocks {
        if top + block.high > high {
            pages.push(Vec::new());
            top = 0.0;
            if let Some(above) = &block.above {
                put(&mut pages, top, &above.drawn);
                top += above.high;
            }
        }
        put(&mut pages, top, &block.drawn);
        top += block.high + if block.tight { 0.0 } else { BETWEEN };
    }
    pages
}

/// The same pages with a running head: words at the left, `page n of m` at the right.
pub(super) fn headed(pages: Vec<Vec<Drawn>>, head: &str, paper: Paper) -> Vec<Page> {
    let (width_mm, height_mm) = paper.size_mm();
    let count = pages.len();
    let page = |(i, mut drawn): (usize, Vec<Drawn>)| {
        let base = EDGE + WORDS * 0.75;
        let number = format!("page {} of {count}", i + 1);
        let left = width_mm - 2.0 * EDGE - width_of(&number, Weight::Plain, WORDS) - 4.0;
        let says = lines_of(head, Weight::Plain, WORDS, left).into_iter().next().unwrap_or_default();
        drawn.push(Text::plain(says, (EDGE, base), WORDS).into());
        drawn.push(Text::plain(number, (width_mm - EDGE, base), WORDS).aligned(Align::Right).into());
        drawn.push(thin((EDGE, base + 1.8), (width_mm - EDGE, base + 1.8)).into());
        Page { width_mm, height_mm, drawn }
    };
    pages.into_iter().enumerate().map(page).collect()
}

/// A document of pages, unless they are too many.
pub(super) fn document(title: String, pages: Vec<Page>) -> Result<Document, Refusal> {
    if pages.len() > super::document::MAX_PAGES {
        let says = format!("This would take {} pages; a document has {} at the most.", pages.len(), super::MAX_PAGES);
        return Err(Refusal::new("", says));
    }
    Ok(Document { title, lang: "en".into(), pages })
}
