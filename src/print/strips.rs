//! Spine strips to be cut out and gathered by hand: one for each section, with its back mark at true size.

use super::document::{Align, Document, Drawn, MAX_PAGES, Stroke, Text, Weight};
use super::printer::{Frame, MARGIN, Paper};
use crate::marks::{BackMarks, Refusal};
use crate::scene::{Ink, Item};
use kurbo::{Affine, Rect};

/// Width of a strip, mm: the back in its middle, and a part on each side to hold it by.
const WIDE: f64 = 22.0;
/// Room at the head for a line of words, mm.
const HEAD: f64 = 8.0;

/// A strip for every section. Folded along its middle, it shows the mark on the fold; the number is on the part that then
/// lies behind.
///
/// # Errors
/// When the marks don't fit the sections, or the spine is longer than the paper is high.
pub fn strips(marks: &BackMarks, sections: u32, paper: Paper) -> Result<Document, Refusal> {
    marks.check(sections)?;
    let frame = Frame::of(paper, false);
    let (w, h) = frame.size();
    let long = marks.stairs.spine_mm;
    if !(long > 0.0 && long <= h - 2.0 * MARGIN - HEAD) {
        let says = "the spine is longer than this paper is high; strips are printed at true size only";
        return Err(Refusal::new("marks.spine_mm", says));
    }
    let across = ((w - 2.0 * MARGIN) / WIDE).floor().max(1.0) as u32;
    let mut pages = Vec::new();
    for first in (1..=sections).step_by(across as usize).take(MAX_PAGES) {
        let says = "Cut along the thin lines, fold each strip along its dashes, and gather the strips in the order of the \
                    numbers. Hand exercise: no machine.";
        let mut drawn: Vec<Drawn> = vec![Text::plain(says, (MARGIN, MARGIN + 4.0), 3.0).into()];
        for section in first..sections.saturating_add(1).min(first.saturating_add(across)) {
            let left = MARGIN + f64::from(section - first) * WIDE;
            drawn.extend(strip(marks, section, sections, left));
        }
        pages.push(frame.first_side(drawn));
    }
    Ok(Document { title: "Spine strips".into(), lang: "en".into(), pages })
}

fn strip(marks: &BackMarks, section: u32, sections: u32, left: f64) -> Vec<Drawn> {
    let (top, long) = (MARGIN + HEAD, marks.stairs.spine_mm);
    let (right, foot, middle) = (left + WIDE, top + long, left + WIDE / 2.0);
    let thin = |a: (f64, f64), b: (f64, f64)| Stroke::solid(a, b, 0.15);
    let mut drawn: Vec<Drawn> = vec![
        thin((left, top), (right, top)).into(),
        thin((right, top), (right, foot)).into(),
        thin((right, foot), (left, foot)).into(),
        thin((left, foot), (left, top)).into(),
        thin((middle, top), (middle, foot)).dashed([2.0, 3.0, 2.0, 3.0]).in_ink(Ink::Quiet).into(),
    ];
    let bar = marks.bar(section, sections);
    let (begins, ends) = bar.ends_mm();
    // The first page lies at the right of the back as it is looked at from outside, so that "towards the last" is left.
    let x = middle - bar.across_mm;
    let black =
        Item::filled(Rect::new(x - bar.width_mm / 2.0, top + begins, x + bar.width_mm / 2.0, top + ends), Ink::Black);
    drawn.push(Drawn::Scene { place: Affine::IDENTITY, items: [black].into(), pixel_mm: 0.2 });
    let at = (left + WIDE * 0.8, foot - 4.0);
    let number = Text { weight: Weight::Figures, ..Text::plain(section.to_string(), at, 4.0).aligned(Align::Middle) };
    drawn.push(number.into());
    drawn
}
