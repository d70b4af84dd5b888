//! A wrong section: its pages in a row from front to back, and lines for the cause and the next check.

use super::exercise::Drawing;
use super::grid::figure;
use super::told;
use crate::fold::misfold::{FoldAt, FoundPage};
use crate::fold::{Course, Direction};
use crate::practice::Task;
use crate::print::document::Drawn;
use crate::print::flow::{Block, frame, thin};
use crate::scene::{Ink, Item, page_in_panel};
use kurbo::{Affine, Rect};

/// A page in the row, mm.
const PAGE: (f64, f64) = (10.0, 13.5);
/// Between two leaves and between two rows.
const APART: f64 = 1.0;

pub(super) fn draw(drawing: &Drawing<'_>, block: &mut Block) {
    let Task::WrongSheet { name, scheme, first_page, pages, fold_at, wrong, .. } = &drawing.exercise.task else {
        return;
    };
    let count = scheme.pages() as usize;
    let mut rows = told::sheet(name, &Course::of_scheme(scheme), count, Some(*first_page));
    let edge = match fold_at {
        FoldAt::Spine => "The last fold is at the spine, where it belongs.",
        FoldAt::ForeEdge => "The last fold is at the fore-edge.",
    };
    let things = if *wrong == 1 { "One thing was done wrong." } else { "Two things were done wrong." };
    rows.push(("Found", format!("{edge} {things}")));
    block.ticket(&rows);
    row(block, pages);
    for item in &drawing.items {
        let lines = if item.what == "The next check" { 2 } else { 1 };
        block.blank_line(&item.what, (0.0, block.width), lines, &drawing.filled(item));
    }
    block.gap(1.5);
}

/// The pages, two to a leaf, in as many rows as they take.
fn row(block: &mut Block, pages: &[FoundPage]) {
    let (w, h) = PAGE;
    let leaf = 2.0 * w + APART;
    let across = ((block.width + APART) / leaf).floor().max(1.0) as usize;
    for row in pages.chunks(2 * across) {
        for (k, page) in row.iter().enumerate() {
            let x = (k / 2) as f64 * leaf + (k % 2) as f64 * w;
            let y = block.high;
            if k % 2 == 0 {
                let wide = if k + 1 < row.len() { 2.0 * w } else { w };
                block.drawn.extend(frame(Rect::new(x, y, x + wide, y + h), 0.25));
            } else {
                block.put(thin((x, y), (x, y + h)));
            }
            block.drawn.extend(on_page(page, Affine::translate((x, y))));
        }
        block.gap(h + 1.5);
    }
}

/// The figure as it stands, with the bar at its head; nothing on a blank page.
fn on_page(page: &FoundPage, place: Affine) -> Option<Drawn> {
    let (w, h) = PAGE;
    let way = page.head.unwrap_or(Direction::Up);
    let mut drawn = figure(page.page?, if way.is_sideways() { (h, w) } else { (w, h) }, 0.6);
    if page.head.is_some() {
        let middle = if way.is_sideways() { h } else { w } / 2.0;
        let bar = Item::filled(Rect::new(middle - 1.4, 0.0, middle + 1.4, 1.4), Ink::Black);
        drawn.push(Drawn::Scene { place: Affine::IDENTITY, items: [bar].into(), pixel_mm: 0.2 });
    }
    Some(Drawn::Placed { place: place * page_in_panel(w, h, way), window: None, drawn: drawn.into() })
}
