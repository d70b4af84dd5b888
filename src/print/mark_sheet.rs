//! The mark sheet: the back-mark staircase of a book at true size with a rule, and where each bar lies on the flat sheet.

use super::document::{Align, Document, Drawn, MAX_PAGES, Stroke, Text, Weight};
use super::flow::{Block, LINE, WORDS, document, headed, pages, room, table, thin};
use super::printer::Paper;
use crate::fold::{BackMark, Course, MarkOnSheet, Measure, Side, Worked};
use crate::marks::{BackMarks, Inset, Refusal};
use crate::scene::{Ink, Item};
use crate::units::mm;
use kurbo::{Affine, Rect};

/// From one back to the next, and room for the rule at their left, mm.
const PITCH: f64 = 7.0;
const RULE: f64 = 14.0;
/// What two parts of a spine that is longer than the page have in common, mm.
const OVERLAP: f64 = 10.0;

/// What the staircase of a book is drawn from.
#[derive(Clone, Debug, PartialEq)]
pub struct MarkSheet {
    /// The book; a few words for the head of the page.
    pub title: String,
    /// What is printed on the backs.
    pub marks: BackMarks,
    /// The sections of the book.
    pub sections: u32,
    /// What the knives take off at the head and at the foot, mm.
    pub trims_mm: (f64, f64),
    /// The sheet that each section is folded from, with the sizes of its panels.
    pub sheet: Option<(Course, Measure)>,
}

/// The staircase at true size over as many pages as it takes, and a table of where the bars lie on the flat sheet.
///
/// # Errors
/// When the marks don't fit the sections, the trims are none, or the sheet can't be folded.
pub fn mark_sheet(sheet: &MarkSheet, paper: Paper) -> Result<Document, Refusal> {
    sheet.marks.check(sheet.sections)?;
    let spine_mm = sheet.marks.stairs.spine_mm;
    let (head, foot) = sheet.trims_mm;
    if ![head, foot].iter().all(|mm| mm.is_finite() && *mm >= 0.0) || head + foot >= spine_mm {
        return Err(Refusal::new("trims_mm", "the cuts at head and foot leave something of the spine"));
    }
    if matches!(sheet.marks.inset, Inset::Through { .. }) {
        return Err(Refusal::new("marks", "sections that lie inside one another show no marks on the back"));
    }
    let (width, high) = room(paper);
    let across = ((width - RULE - 2.0) / PITCH).floor().max(1.0) as u32;
    // Two lines of words, and the numbers of the sections.
    let part = high - 4.0 * LINE;
    let parts = if spine_mm <= part { 1 } else { ((spine_mm - OVERLAP) / (part - OVERLAP)).ceil() as u32 };
    if sheet.sections.div_ceil(across) * parts > MAX_PAGES as u32 {
        return Err(Refusal::new("sections", "this staircase takes more pages than a document has"));
    }
    let mut blocks = Vec::new();
    for first in (1..=sheet.sections).step_by(across as usize) {
        let last = sheet.sections.min(first.saturating_add(across - 1));
        for k in 0..parts {
            let from = f64::from(k) * (part - OVERLAP);
            let shown = Shown { sheet, sections: (first, last), from, to: spine_mm.min(from + part) };
            blocks.push(shown.block(width, high));
        }
    }
    if let Some((course, measure)) = &sheet.sheet {
        blocks.extend(on_sheet(sheet, course, measure, width)?);
    }
    let title = if sheet.title.trim().is_empty() {
        "Back marks".to_owned()
    } else {
        format!("Back marks: {}", sheet.title.trim())
    };
    document(title.clone(), headed(pages(blocks, paper), &title, paper))
}

/// A part of the staircase on one page.
struct Shown<'a> {
    sheet: &'a MarkSheet,
    sections: (u32, u32),
    from: f64,
    to: f64,
}

impl Shown<'_> {
    /// A block as high as the page, so that each begins a page.
    fn block(&self, width: f64, high: f64) -> Block {
        let (sheet, (first, last)) = (self.sheet, self.sections);
        let mut block = Block::of(width);
        let which = if sheet.sections == 1 {
            "Section 1".to_owned()
        } else {
            format!("Sections {first} to {last} of {}", sheet.sections)
        };
        let cuts = if sheet.trims_mm == (0.0, 0.0) { "" } else { " Broken lines are the cuts." };
        let part = if self.to - self.from < sheet.marks.stairs.spine_mm {
            format!(" This page: {} to {} mm.", mm(self.from), mm(self.to))
        } else {
            String::new()
        };
        block.words(
            &format!("{which}, at true size: the rule counts millimetres from the head before the cut.{cuts}{part}"),
            Weight::Plain,
        );
        let top = 4.0 * LINE;
        let y = |mm: f64| top + mm - self.from;
        let right = RULE + f64::from(last - first + 1) * PITCH;
        self.rule(&mut block, &y);
        for section in first..=last {
            let left = RULE + f64::from(section - first) * PITCH;
            self.back(&mut block, section, left, &y);
        }
        let spine_mm = sheet.marks.stairs.spine_mm;
        for at in [sheet.trims_mm.0, spine_mm - sheet.trims_mm.1] {
            if at > 0.0 && at < spine_mm && self.shows(at) {
                let cut = Stroke::solid((RULE - 2.0, y(at)), (right + 2.0, y(at)), 0.2);
                block.put(cut.dashed([3.0, 2.0, 3.0, 2.0]));
            }
        }
        block.high = high;
        block
    }

    fn shows(&self, at: f64) -> bool {
        at >= self.from && at <= self.to
    }

    /// A stroke for each millimetre, longer ones for fives and tens, and the tens in figures.
    fn rule(&self, block: &mut Block, y: &impl Fn(f64) -> f64) {
        for whole in self.from.ceil() as u32..=self.to as u32 {
            let at = f64::from(whole);
            let long = match whole {
                _ if whole.is_multiple_of(10) => 4.0,
                _ if whole.is_multiple_of(5) => 3.0,
                _ => 1.6,
            };
            block.put(Stroke::solid((RULE - 1.0 - long, y(at)), (RULE - 1.0, y(at)), 0.12));
            if whole.is_multiple_of(10) {
                let figure = Text::plain(whole.to_string(), (RULE - 5.6, y(at) + 1.35), WORDS);
                block.put(figure.aligned(Align::Right));
            }
        }
    }

    /// One back with its bar.
    fn back(&self, block: &mut Block, section: u32, left: f64, y: &impl Fn(f64) -> f64) {
        let marks = &self.sheet.marks;
        let (top, foot, middle) = (y(self.from), y(self.to), left + PITCH / 2.0);
        let number = Text::plain(section.to_string(), (middle, top - 1.5), WORDS).aligned(Align::Middle);
        block.put(number);
        for x in [left, left + PITCH] {
            block.put(thin((x, top), (x, foot)));
        }
        for at in [0.0, marks.stairs.spine_mm] {
            if self.shows(at) {
                block.put(Stroke::solid((left, y(at)), (left + PITCH, y(at)), 0.3));
            }
        }
        let bar = marks.bar(section, self.sheet.sections);
        let (begins, ends) = bar.ends_mm();
        let (begins, ends) = (begins.max(self.from), ends.min(self.to));
        if ends > begins {
            let x = middle + bar.across_mm;
            let rect = Rect::new(x - bar.width_mm / 2.0, y(begins), x + bar.width_mm / 2.0, y(ends));
            let items = [Item::filled(rect, Ink::Black)].into();
            block.put(Drawn::Scene { place: Affine::IDENTITY, items, pixel_mm: 0.2 });
        }
        if let Some(label) = marks.label.as_ref().filter(|label| self.shows(label.from_mm)) {
            // It runs down from where it begins: a quarter turn clockwise.
            let says = label.text(section, self.sheet.sections);
            let place = Affine::new([0.0, 1.0, -1.0, 0.0, middle - 0.36 * label.size_mm, y(label.from_mm)]);
            let text = Text { weight: Weight::Figures, ..Text::plain(says, (0.0, 0.0), label.size_mm) };
            block.put(Drawn::Placed { place, window: None, drawn: [text.into()].into() });
        }
    }
}

/// A bar on the flat sheet: the side, and from and to across and down, mm.
type OnSide = (Side, (f64, f64), (f64, f64));

/// The two halves of a bar as one, where they lie beside each other.
fn whole(parts: &[MarkOnSheet]) -> Vec<OnSide> {
    let mut all: Vec<OnSide> = Vec::new();
    for part in parts {
        match all.iter_mut().find(|bar| bar.0 == part.side) {
            Some(bar) => {
                bar.1 = (bar.1.0.min(part.x0), bar.1.1.max(part.x1));
                bar.2 = (bar.2.0.min(part.y0), bar.2.1.max(part.y1));
            }
            None => all.push((part.side, (part.x0, part.x1), (part.y0, part.y1))),
        }
    }
    all
}

/// The flat sheet with all bars, drawn smaller, and a table of them.
fn on_sheet(sheet: &MarkSheet, course: &Course, measure: &Measure, width: f64) -> Result<Vec<Block>, Refusal> {
    let refused = |says: &str| Refusal::new("sheet", says);
    let fits = (measure.rows.len(), measure.columns.len()) == (course.rows as usize, course.columns as usize);
    if !fits || course.rows.saturating_mul(course.columns) > super::MAX_DUMMY_PANELS {
        return Err(refused("there is a width for every column and a height for every row, 256 panels at the most"));
    }
    let worked = Worked::of(course).map_err(|why| refused(&why.to_string()))?;
    let nest = course.copies.first().and_then(|copy| copy.first());
    let section = nest.and_then(|nest| worked.nested(nest));
    let landing = worked.landing(0, 0);
    let mark = section.zip(landing).and_then(|(section, landing)| BackMark::on_sheet(&section, &landing));
    let mark = mark.ok_or_else(|| {
        refused("the first and the last page of this sheet share no fold, so there is no place for a mark")
    })?;
    let bars = |section: u32| whole(&mark.on_flat_sheet(measure, &sheet.marks.bar(section, sheet.sections).size()));
    let rows: Vec<Vec<String>> = (1..=sheet.sections)
        .map(|section| {
            let (begins, ends) = sheet.marks.bar(section, sheet.sections).ends_mm();
            let said = |(side, x, y): &OnSide| {
                let side = if *side == Side::A { "A" } else { "B" };
                format!(
                    "side {side}: {} to {} mm from the left, {} to {} mm from the top",
                    mm(x.0),
                    mm(x.1),
                    mm(y.0),
                    mm(y.1)
                )
            };
            let on_sheet = bars(section).iter().map(said).collect::<Vec<_>>().join("; ");
            vec![section.to_string(), format!("{} to {} mm", mm(begins), mm(ends)), on_sheet]
        })
        .collect();
    let mut blocks = vec![picture(sheet, measure, mark.first_page.side, width, &bars)];
    blocks.extend(table(
        width,
        &["Section", "From the head", "On the flat sheet, each side as it is seen"],
        &rows,
        &[0.0, 19.0, 56.0],
    ));
    Ok(blocks)
}

/// Bars on the small picture are no thinner, mm.
const LEAST_SEEN: f64 = 1.0;

/// The side with the marks, drawn smaller.
fn picture(sheet: &MarkSheet, measure: &Measure, side: Side, width: f64, bars: &impl Fn(u32) -> Vec<OnSide>) -> Block {
    let (wide, high) = (measure.width().mm().max(1.0), measure.height().mm().max(1.0));
    let scale = (width / wide).min(90.0 / high).min(1.0);
    let mut block = Block::of(width);
    let name = if side == Side::A { "Side A" } else { "Side B, turned left to right" };
    let says = format!(
        "{name} of the flat sheet, {} × {} mm, drawn smaller, with the bars of all sections.",
        mm(wide),
        mm(high)
    );
    block.words(&says, Weight::Bold);
    let top = block.high + 1.0;
    let at = |x: f64, y: f64| (x * scale, top + y * scale);
    let mut x = 0.0;
    let mut columns: Vec<f64> = measure.columns.iter().map(|l| l.mm()).collect();
    if side == Side::B {
        columns.reverse();
    }
    for column in columns {
        block.put(thin(at(x, 0.0), at(x, high)));
        x += column;
    }
    let mut y = 0.0;
    for row in &measure.rows {
        block.put(thin(at(0.0, y), at(wide, y)));
        y += row.mm();
    }
    block.drawn.extend(super::flow::frame(Rect::from_points(at(0.0, 0.0), at(wide, high)), 0.3));
    for section in 1..=sheet.sections {
        for (on, xs, ys) in bars(section) {
            if on == side {
                let rect = Rect::from_points(at(xs.0, ys.0), at(xs.1, ys.1));
                // Wide and long enough to be seen.
                let thick = |mm: f64| (LEAST_SEEN - mm).max(0.0) / 2.0;
                let rect = rect.inflate(thick(rect.width()), thick(rect.height()));
                let items = [Item::filled(rect, Ink::Black)].into();
                block.put(Drawn::Scene { place: Affine::IDENTITY, items, pixel_mm: 0.2 });
            }
        }
    }
    block.high = top + high * scale + 1.0;
    block
}
