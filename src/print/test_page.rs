//! The test page of a printer: which edge it turns the paper about, how far its sides are off, whether it prints at true
//! size. It comes before the first dummy.

use super::document::{Align, Document, Drawn, Stroke, Text};
use super::printer::{Flip, Frame, MARGIN, Printer};
use super::words::lines_of;
use crate::marks::Refusal;
use kurbo::Point;

/// How far the scales reach, mm.
const REACH: i32 = 10;
/// The ruler, mm.
const RULER: i32 = 150;

/// The two sides of the test page. It is printed as a dummy would be, with what is known of the printer so far.
///
/// # Errors
/// When the printer's second side is said to be farther off than can be put right.
pub fn test_page(printer: &Printer) -> Result<Document, Refusal> {
    printer.check()?;
    let frame = Frame::of(printer.paper, false);
    let (w, h) = frame.size();
    let middle = Point::new(w / 2.0, h / 2.0);
    let edge = match printer.flip {
        Flip::LongEdge => "long",
        Flip::ShortEdge => "short",
    };
    let mut first = heading("Printer test page, side A", w);
    let says = format!(
        "Print both sides at 100 % (“actual size”), turned on the {edge} edge. \
         1. Look at side B: turn the paper left to right, as a leaf. Its arrow must point up, too. If it points down, \
         choose the other edge and print this page again. \
         2. Hold the paper against the light with side A towards you. Read where the cross of side B meets \
         the two scales, and enter both numbers: how far side B is too far to the right, and too far down. \
         3. Lay a rule on the line below: it is {RULER} mm long. If not, the printer enlarges or reduces."
    );
    let lines = lines_of(&says, Default::default(), 3.4, w - 2.0 * MARGIN);
    for (i, line) in lines.into_iter().enumerate() {
        first.push(Text::plain(line, (MARGIN, MARGIN + 14.0 + 4.8 * i as f64), 3.4).into());
    }
    first.extend(scales(middle));
    first.extend(ruler(Point::new((w - f64::from(RULER)) / 2.0, h - 40.0)));
    first.extend(arrow(Point::new(w / 2.0, middle.y - 42.0)));
    let mut second = heading("Printer test page, side B", w);
    second.push(Stroke::solid((middle.x - 30.0, middle.y), (middle.x + 30.0, middle.y), 0.2).into());
    second.push(Stroke::solid((middle.x, middle.y - 30.0), (middle.x, middle.y + 30.0), 0.2).into());
    second.extend(arrow(Point::new(w / 2.0, middle.y - 42.0)));
    let pages = vec![frame.first_side(first), frame.second_side(printer, second)];
    Ok(Document { title: "Printer test page".into(), lang: "en".into(), pages })
}

fn heading(says: &str, width: f64) -> Vec<Drawn> {
    vec![Text::plain(says, (width / 2.0, MARGIN + 6.0), 5.0).bold().aligned(Align::Middle).into()]
}

/// An arrow that points up.
fn arrow(tip: Point) -> Vec<Drawn> {
    let to = |dx: f64, dy: f64| Point::new(tip.x + dx, tip.y + dy);
    let lines = [(tip, to(0.0, 10.0)), (tip, to(-3.0, 4.0)), (tip, to(3.0, 4.0))];
    lines.map(|(a, b)| Stroke::solid(a, b, 0.6).into()).to_vec()
}

/// The two scales of side A. What is right on side B is left through the paper, so the level one counts to the left.
fn scales(middle: Point) -> Vec<Drawn> {
    let mut drawn = Vec::new();
    for mm in -REACH..=REACH {
        let (at, long) = (f64::from(mm), if mm % 5 == 0 { 5.0 } else { 3.0 });
        let (x, y) = (middle.x - at, middle.y + at);
        drawn.push(Stroke::solid((x, middle.y - 15.0 - long), (x, middle.y - 15.0), 0.15).into());
        drawn.push(Stroke::solid((middle.x + 15.0, y), (middle.x + 15.0 + long, y), 0.15).into());
        if mm % 5 == 0 {
            let says = mm.to_string().replace('-', "−");
            drawn.push(Text::plain(says.clone(), (x, middle.y - 21.5), 3.0).aligned(Align::Middle).into());
            drawn.push(Text::plain(says, (middle.x + 21.5, y + 1.0), 3.0).into());
        }
    }
    drawn.push(Text::plain("too far to the right, mm", (middle.x, middle.y - 26.0), 3.0).aligned(Align::Middle).into());
    drawn.push(Text::plain("too far down, mm", (middle.x + 30.0, middle.y + 1.0), 3.0).into());
    drawn
}

/// A ruler with a number at every 10 mm.
pub(super) fn ruler(start: Point) -> Vec<Drawn> {
    let mut drawn: Vec<Drawn> = vec![Stroke::solid(start, (start.x + f64::from(RULER), start.y), 0.15).into()];
    for mm in 0..=RULER {
        let long = if mm % 10 == 0 {
            5.0
        } else if mm % 5 == 0 {
            3.5
        } else {
            2.0
        };
        let x = start.x + f64::from(mm);
        drawn.push(Stroke::solid((x, start.y), (x, start.y - long), 0.15).into());
        if mm % 10 == 0 {
            drawn.push(Text::plain(mm.to_string(), (x, start.y + 4.0), 3.0).aligned(Align::Middle).into());
        }
    }
    drawn
}
