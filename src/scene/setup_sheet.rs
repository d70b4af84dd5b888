//! The set-up sheet of the folder on paper: the sheet as it enters, and each fold with its plate and stop. Black on
//! white, in millimetres of an A4 page.

use super::item::{Ink, Item, Line, Scene};
use crate::fold::{Crease, Lands};
use crate::paper::{Edge, Length};
use crate::setup::{SetUp, SetUpFold};
use kurbo::{Point, Rect};

const PAGE_WIDTH: f64 = 210.0;
const MARGIN: f64 = 15.0;
const TEXT: f64 = 5.2;
/// The field of the plan, and of one fold.
const PLAN: (f64, f64) = (120.0, 85.0);
const FIELD: (f64, f64) = (60.0, 48.0);
const COLUMNS: usize = 3;

/// Draws a set-up sheet, as wide as an A4 page and as long as it needs to be.
#[must_use]
pub fn setup_sheet(set_up: &SetUp) -> Scene {
    let mut items = plan(set_up);
    let mut top = MARGIN + 20.0 + PLAN.1;
    let heading = |says: String, top: &mut f64, items: &mut Vec<Item>| {
        items.push(text(says, PAGE_WIDTH / 2.0, *top + TEXT));
        *top += 2.5 * TEXT;
    };
    top += fields(&set_up.folds, top, &mut items);
    for (crease, at) in &set_up.slits {
        let edge = if *crease == Crease::Vertical { "left" } else { "top" };
        heading(format!("Slit {} from the {edge} edge of what lies there", at.text()), &mut top, &mut items);
    }
    for (numbers, folds) in &set_up.pieces {
        let one = if numbers.len() == 1 { "Piece" } else { "Pieces" };
        heading(format!("{one} {}", ranges(numbers)), &mut top, &mut items);
        top += fields(folds, top, &mut items);
    }
    Scene { size: (PAGE_WIDTH, top + MARGIN), items }
}

/// Draws folds in rows from a height on, and returns the height that they take.
fn fields(folds: &[SetUpFold], from: f64, items: &mut Vec<Item>) -> f64 {
    for (i, fold) in folds.iter().enumerate() {
        let left = MARGIN + (i % COLUMNS) as f64 * FIELD.0;
        let top = from + (i / COLUMNS) as f64 * FIELD.1;
        let corner = Point::new(left, top + 6.0);
        items.push(text(format!("{}.{}  {}", fold.unit, fold.number, fold.stop.text()), left + 22.0, top + 3.0));
        // The plate as a slope that rises or falls from the rollers, and its stop.
        let rises = if fold.lands == Lands::Over { -12.0 } else { 12.0 };
        let rollers = Point::new(corner.x + 12.0, corner.y + 15.0);
        let end = Point::new(rollers.x + 24.0, rollers.y + rises);
        items.push(Item::stroke((corner.x, rollers.y), rollers, Line::solid(Ink::Black, 1.0)));
        items.push(Item::stroke(rollers, end, Line::solid(Ink::Black, 1.0)));
        items.push(Item::stroke((end.x, end.y - 3.0), (end.x, end.y + 3.0), Line::solid(Ink::Black, 2.5)));
        let word = if fold.lands == Lands::Over { "above" } else { "below" };
        items.push(text(format!("plate {} {word}", fold.plate), left + 22.0, top + 39.0));
        // Signed off.
        let check = Rect::new(left + 47.0, top + 34.5, left + 52.0, top + 39.5);
        items.push(outline(check, Line::solid(Ink::Black, 1.0)));
    }
    folds.len().div_ceil(COLUMNS) as f64 * FIELD.1
}

/// Numbers that rise, with runs as their ends: "1–4, 6".
fn ranges(numbers: &[usize]) -> String {
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for n in numbers {
        match runs.last_mut() {
            Some((_, last)) if *last + 1 == *n => *last = *n,
            _ => runs.push((*n, *n)),
        }
    }
    let said = runs.iter().map(|(a, b)| if a == b { a.to_string() } else { format!("{a}–{b}") });
    said.collect::<Vec<_>>().join(", ")
}

/// The flat sheet with its lines, from side A.
fn plan(set_up: &SetUp) -> Vec<Item> {
    let (width, height) = (set_up.sheet.0.mm(), set_up.sheet.1.mm());
    let scale = (PLAN.0 / width.max(1.0)).min(PLAN.1 / height.max(1.0));
    let sheet = Rect::new(0.0, 0.0, width * scale, height * scale) + kurbo::Vec2::new(MARGIN + 30.0, MARGIN + 5.0);
    let mut items = vec![outline(sheet, Line::solid(Ink::Black, 1.5))];
    // Figures that would run into the last one are left away; the words below the drawing have all that matters.
    let (mut at, mut free) = (Length::ZERO, f64::NEG_INFINITY);
    let inner = |sizes: &[Length]| sizes.len().saturating_sub(1);
    for size in set_up.measure.columns.iter().take(inner(&set_up.measure.columns)) {
        at += *size;
        let x = sheet.x0 + at.mm() * scale;
        items.push(Item::stroke((x, sheet.y0), (x, sheet.y1), Line::dashed(Ink::Black, 1.0, 4.0, 3.0)));
        let figure = at.short_mm();
        let half = TEXT * 0.32 * figure.len() as f64;
        if x - half > free {
            items.push(text(figure, x, sheet.y0 - 1.5));
            free = x + half;
        }
    }
    (at, free) = (Length::ZERO, f64::NEG_INFINITY);
    for size in set_up.measure.rows.iter().take(inner(&set_up.measure.rows)) {
        at += *size;
        let y = sheet.y0 + at.mm() * scale;
        items.push(Item::stroke((sheet.x0, y), (sheet.x1, y), Line::dashed(Ink::Black, 1.0, 4.0, 3.0)));
        if y - TEXT / 2.0 > free {
            items.push(text(at.short_mm(), sheet.x1 + 10.0, y + 1.5));
            free = y + TEXT / 2.0;
        }
    }
    // The leading edge is a strong line, the side guide a doubled one.
    items.push(edge(set_up.leading, sheet, Line::solid(Ink::Black, 4.0)));
    items.push(edge(set_up.guide, sheet.inflate(1.5, 1.5), Line::solid(Ink::Black, 1.0)));
    let beside = |edge: Edge| match edge {
        Edge::Top => (sheet.center().x, sheet.y0 - 7.0),
        Edge::Bottom => (sheet.center().x, sheet.y1 + 7.0),
        Edge::Left => (sheet.x0 - 20.0, sheet.center().y),
        Edge::Right => (sheet.x1 + 30.0, sheet.center().y + 6.0),
    };
    for (name, of) in [("leading edge", set_up.leading), ("side guide", set_up.guide)] {
        let (x, y) = beside(of);
        items.push(text(name.into(), x, y));
    }
    let side = if set_up.side_up == crate::fold::Side::A { "side A up" } else { "side B up" };
    let (w, h) = (set_up.sheet.0.short_mm(), set_up.sheet.1.text());
    items.push(text(format!("{w} × {h}, {side}"), PAGE_WIDTH / 2.0, MARGIN - 4.0));
    items
}

fn edge(edge: Edge, r: Rect, line: Line) -> Item {
    match edge {
        Edge::Top => Item::stroke((r.x0, r.y0), (r.x1, r.y0), line),
        Edge::Right => Item::stroke((r.x1, r.y0), (r.x1, r.y1), line),
        Edge::Bottom => Item::stroke((r.x0, r.y1), (r.x1, r.y1), line),
        Edge::Left => Item::stroke((r.x0, r.y0), (r.x0, r.y1), line),
    }
}

fn outline(r: Rect, line: Line) -> Item {
    Item::polygon(&[(r.x0, r.y0), (r.x1, r.y0), (r.x1, r.y1), (r.x0, r.y1)].map(Point::from), None, Some(line))
}

fn text(text: String, x: f64, y: f64) -> Item {
    Item::Figure { text, baseline: Point::new(x, y), size: TEXT, halo: 0.0 }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fold::{Course, Measure, Side, library};
    use crate::paper::Press;
    use crate::setup::{Inputs, set_up};

    #[test]
    fn runs_of_pieces_are_told_by_their_ends() {
        assert_eq!(ranges(&[1, 2, 3, 4, 6, 8, 9]), "1–4, 6, 8–9");
    }

    #[test]
    fn every_fold_is_drawn_with_its_stop() {
        for named in library() {
            let course = Course::of_scheme(&named.scheme);
            let mm = Length::from_whole_mm;
            let measure = Measure::equal(course.rows, course.columns, mm(1000), mm(700));
            let (press, side_up) = (Press::default(), Side::A);
            let made = set_up(&Inputs { course: &course, measure: &measure, press, side_up, sheets: None }).unwrap();
            let scene = setup_sheet(&made);
            let words = |item: &Item| if let Item::Figure { text, .. } = item { Some(text.clone()) } else { None };
            let words: Vec<String> = scene.items.iter().filter_map(words).collect();
            assert_eq!(made.folds.len(), course.steps.folds.len());
            for fold in &made.folds {
                assert!(words.iter().any(|w| w.ends_with(&fold.stop.text())), "{}", named.name);
            }
        }
    }
}
