//! A wrong book: its backs in a row as the spine faces one, and lines for the section, the cause and the next check.

use super::exercise::Drawing;
use crate::marks::{BackMarks, Bar, Design, Found};
use crate::practice::Task;
use crate::print::document::{Align, Drawn, Text, Weight};
use crate::print::flow::{Block, LINE, WORDS, frame};
use crate::scene::{Ink, Item, Line, SpineLay};
use kurbo::{Affine, Rect};

/// Length of the drawn spine, from one back to the next, width of a back and of a bar, mm.
const LONG: f64 = 34.0;
const PITCH: f64 = 5.2;
const BACK: f64 = 4.8;
const BAR: f64 = 2.6;
/// Free at the head and at the tail.
const FREE: f64 = 3.0;
/// Where the lines begin: behind the largest book that is set.
const LINES: f64 = 84.0;

/// The marks of a book of so many sections on the drawn spine.
///
/// Its tail is longer than its head by half a step. So a section that lies head to tail shows its bar between two levels,
/// whichever it is, and is not taken for another one.
pub(super) fn marks(sections: u32) -> BackMarks {
    let step_mm = (LONG - 2.0 * FREE) / (f64::from(sections.max(1)) + 0.5);
    let stairs = Design { spine_mm: LONG, first_mm: FREE, step_mm, length_mm: step_mm, levels: sections };
    BackMarks { width_mm: BAR, ..stairs.into() }
}

pub(super) fn draw(drawing: &Drawing<'_>, block: &mut Block) {
    let Task::WrongBook { sections, found, wrong, .. } = &drawing.exercise.task else { return };
    let top = block.high;
    let things = if *wrong == 1 { "one thing went wrong" } else { "two things went wrong" };
    block.words(&format!("The book has {sections} sections; {things}."), Weight::Plain);
    let shown = backs(*sections, found);
    let from = block.high;
    block.place((0.0, from), shown);
    let mut below = from + LINE + LONG + 1.5;
    if found.contains(&Found::Foreign) {
        block.high = below;
        block.words_at("A hollow bar is another job's.", Weight::Plain, WORDS, (0.0, LINES - 2.0));
        below = block.high;
    }
    block.high = top + LINE - 2.0;
    for item in &drawing.items {
        let lines = if item.what == "The next check" { 2 } else { 1 };
        block.blank_line(&item.what, (LINES, block.width), lines, &drawing.filled(item));
    }
    block.high = block.high.max(below) + 1.0;
}

/// The backs, with the number of each place above them.
fn backs(sections: u32, found: &[Found]) -> Block {
    let marks = marks(sections);
    let lay = SpineLay { thickness_mm: BACK, pitch_mm: PITCH, trims_mm: (0.0, 0.0) };
    let begin = lay.back(1, LONG);
    let move_to = |r: Rect| r - begin.origin().to_vec2() + kurbo::Vec2::new(0.0, LINE);
    let mut block = Block::of(PITCH * found.len() as f64);
    for (place, back) in (1_u32..).zip(found) {
        let own = move_to(lay.back(place, LONG));
        block.drawn.extend(frame(own, 0.2));
        let at = (own.center().x, LINE - 1.4);
        block.put(Text::plain(place.to_string(), at, WORDS).aligned(Align::Middle));
        let bar = match *back {
            Found::Section { section, lies } => marks.bar_lying(section, sections, lies).map(|bar| (bar, true)),
            Found::Foreign => Some((stranger(&marks, sections), false)),
            Found::NoMark | Found::Unread => None,
        };
        if let Some((bar, filled)) = bar
            && let Some(rect) = lay.bar(place, &bar, LONG)
        {
            let item = if filled {
                Item::filled(move_to(rect), Ink::Black)
            } else {
                let r = move_to(rect);
                let corners = [(r.x0, r.y0), (r.x1, r.y0), (r.x1, r.y1), (r.x0, r.y1)].map(kurbo::Point::from);
                Item::polygon(&corners, None, Some(Line::solid(Ink::Black, 1.5)))
            };
            block.put(Drawn::Scene { place: Affine::IDENTITY, items: [item].into(), pixel_mm: 0.2 });
        }
    }
    block
}

/// The mark of another job: narrower, and between two levels.
fn stranger(marks: &BackMarks, sections: u32) -> Bar {
    let middle_mm = FREE + marks.stairs.step_mm * f64::from((sections / 2).max(1));
    Bar { middle_mm, length_mm: marks.stairs.step_mm.max(2.4), width_mm: BAR * 0.75, across_mm: 0.0 }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::marks::Lies;

    #[test]
    fn a_turned_section_is_never_taken_for_another() {
        for sections in 2..=40 {
            let marks = marks(sections);
            assert!(marks.check(sections).is_ok());
            for section in 1..=sections {
                let turned = marks.bar_lying(section, sections, Lies::HeadToTail).unwrap();
                for other in 1..=sections {
                    let right = marks.bar(other, sections);
                    let off = (turned.middle_mm - right.middle_mm).abs() / marks.stairs.step_mm;
                    assert!(off > 0.49, "{section} turned lies at the level of {other}");
                }
            }
        }
    }
}
