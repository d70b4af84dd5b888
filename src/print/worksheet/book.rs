//! A book made up in sections, and its back marks.

use super::boxes::{BASE, BOX};
use super::exercise::Drawing;
use crate::marks::{BackMarks, Design};
use crate::paper::Grain;
use crate::practice::{Answer, Task};
use crate::print::document::{Align, Drawn, Stroke, Text, Weight};
use crate::print::flow::{Block, LINE, WORDS, frame, thin};
use crate::scene::{Ink, Item};
use crate::units::{between, mm, short};
use kurbo::{Affine, Rect};

pub(super) fn draw(drawing: &Drawing<'_>, block: &mut Block) {
    match &drawing.exercise.task {
        Task::MakeUp { job } => {
            let size = |s: &crate::finish::Size| format!("{} × {} mm", s.width.short_mm(), s.height.short_mm());
            let grain = if job.stock.grain == Grain::Upright { "top to bottom" } else { "left to right" };
            let [head, foot, fore_edge] = [job.trims.head, job.trims.foot, job.trims.fore_edge].map(|l| l.short_mm());
            block.ticket(&[
                ("Book", format!("{} pages, {} after the cut, {} copies.", job.extent, size(&job.page), job.copies)),
                ("Sheet", format!("{} as it lies; the grain runs from {grain}.", size(&job.sheet))),
                ("Paper", format!("{} g/m², bulk {} cm³/g.", short(job.stock.grammage), short(job.stock.bulk))),
                ("Trims", format!("{head} mm at the head, {foot} mm at the foot, {fore_edge} mm at the fore-edge.")),
            ]);
            let right: &[u32] = if let Some(Answer::MakeUp(pages)) = &drawing.right { pages } else { &[] };
            make_up(block, right);
        }
        Task::BackMarks { sections, spine_mm, backs } => {
            let trim = |trim: Option<f64>| mm(trim.unwrap_or(0.0));
            block.ticket(&[
                (
                    "Book",
                    format!(
                        "{sections} sections of {} folds each; spine {} mm before the cut.",
                        backs.folds,
                        mm(*spine_mm)
                    ),
                ),
                (
                    "Trims",
                    format!(
                        "{} mm at the head, {} mm at the foot.",
                        trim(backs.head_trim_mm),
                        trim(backs.foot_trim_mm)
                    ),
                ),
            ]);
            let right = if let Some(Answer::BackMarks(design)) = drawing.right { Some(design) } else { None };
            five_numbers(block, *spine_mm, right);
            let room = drawing.room - block.high;
            let trims = (backs.head_trim_mm.unwrap_or(0.0), backs.foot_trim_mm.unwrap_or(0.0));
            staircase(block, (*sections, *spine_mm, trims), right, room);
        }
        _ => {}
    }
}

/// Boxes for runs of equal sections; the make-ups that are set have fewer, as a test holds.
pub(super) const RUNS: usize = 6;

/// Equal sections that follow each other: how many, and of how many pages.
pub(super) fn runs(pages: &[u32]) -> Vec<(usize, u32)> {
    pages.chunk_by(|a, b| a == b).filter_map(|run| Some((run.len(), *run.first()?))).collect()
}

fn make_up(block: &mut Block, right: &[u32]) {
    let runs = runs(right);
    block.words("Sections × pages of each, front to back:", Weight::Plain);
    block.gap(1.0);
    let wide = block.width / (RUNS as f64 / 2.0);
    let top = block.high;
    for k in 0..RUNS.max(runs.len()) {
        let (x, y) = ((k % (RUNS / 2)) as f64 * wide, top + (k / (RUNS / 2)) as f64 * (BOX + 3.0));
        let run = runs.get(k);
        block.number_box((x, y), 17.0, &run.map_or_else(String::new, |r| r.0.to_string()));
        block.put(Text::plain("×", (x + 18.5, y + BOX - 2.6), WORDS));
        block.number_box((x + 22.5, y), 17.0, &run.map_or_else(String::new, |r| r.1.to_string()));
        block.high = block.high.max(y + BOX + 3.0);
    }
}

fn five_numbers(block: &mut Block, spine_mm: f64, right: Option<Design>) {
    let wide = block.width / 5.0;
    let filled = |of: fn(&Design) -> String| right.as_ref().map_or_else(String::new, of);
    let boxes = [
        ("Spine, mm", mm(spine_mm)),
        ("First begins", filled(|d| mm(d.first_mm))),
        ("Length", filled(|d| mm(d.length_mm))),
        ("Step", filled(|d| mm(d.step_mm))),
        ("Levels", filled(|d| d.levels.to_string())),
    ];
    for (k, (says, filled)) in boxes.into_iter().enumerate() {
        let x = k as f64 * wide;
        block.put(Text::plain(says, (x, block.high + BASE), WORDS));
        block.number_box((x, block.high + LINE), wide - 6.0, &filled);
    }
    block.gap(LINE + BOX + 2.0);
}

/// Room for the rule, mm.
const RULE: f64 = 14.0;

/// A grid to draw the staircase on: a column for each section, a line for every 10 mm of the spine; drawn smaller so that it
/// stands on the page.
fn staircase(block: &mut Block, (sections, spine_mm, trims): (u32, f64, (f64, f64)), right: Option<Design>, room: f64) {
    let scale = between((room - 2.0 * LINE) / spine_mm.max(1.0), 0.05, 0.5);
    let pitch = ((block.width - RULE) / f64::from(sections.max(1))).min(8.0);
    let (wide, high) = (pitch * f64::from(sections), spine_mm * scale);
    let top = block.high + LINE;
    let y = |mm: f64| top + mm * scale;
    for tens in 0..=(spine_mm / 10.0) as u32 {
        let mm = f64::from(tens) * 10.0;
        block.put(thin((RULE - 2.0, y(mm)), (RULE + wide, y(mm))));
        // Every other one is named, so that the figures stay apart.
        if tens % 2 == 0 {
            let at = (RULE - 3.0, y(mm) + 1.4);
            block.put(Text::plain(short(mm), at, WORDS).aligned(Align::Right));
        }
    }
    let every = (6.0 / pitch).ceil().max(1.0) as u32;
    for section in 0..=sections {
        let x = RULE + f64::from(section) * pitch;
        block.put(thin((x, y(0.0)), (x, y(spine_mm))));
        if section > 0 && (section == 1 || section % every == 0) {
            block.put(Text::plain(section.to_string(), (x - pitch / 2.0, top - 1.4), WORDS).aligned(Align::Middle));
        }
    }
    block.drawn.extend(frame(Rect::new(RULE, y(0.0), RULE + wide, y(spine_mm)), 0.3));
    for at in [trims.0, spine_mm - trims.1] {
        block.put(Stroke::solid((RULE - 2.0, y(at)), (RULE + wide + 2.0, y(at)), 0.3).dashed([2.0, 1.5, 2.0, 1.5]));
    }
    if let Some(design) = right {
        let marks = BackMarks::from(design);
        for section in 1..=sections {
            let (begins, ends) = marks.bar(section, sections).ends_mm();
            let x = RULE + (f64::from(section) - 0.5) * pitch;
            let bar = Rect::new(x - 0.3 * pitch, y(begins), x + 0.3 * pitch, y(ends));
            let items = [Item::filled(bar, Ink::Black)].into();
            block.put(Drawn::Scene { place: Affine::IDENTITY, items, pixel_mm: 0.2 });
        }
    }
    block.gap(LINE + high + 2.0);
}
