//! Exercises about one sheet: to be numbered, to have its heads set, its folds found, its bolts judged.

use super::boxes::{BOX, figures};
use super::exercise::Drawing;
use super::grid::{Panel, Sides};
use super::told;
use crate::fold::{Direction, Fold, Landing, Lands, Part, Worked};
use crate::practice::{Answer, AtEdge, LeafEdges, PrintedCell, SheetCells, Task};
use crate::print::document::{Align, Text, Weight};
use crate::print::flow::{Block, LINE, WORDS, frame};
use kurbo::Rect;

pub(super) fn draw(drawing: &Drawing<'_>, block: &mut Block) {
    match &drawing.exercise.task {
        Task::NumberSheet { name, course, first_page } => {
            let Some(landing) = landing(course) else { return };
            block.ticket(&told::sheet(name, course, landing.pages.len(), Some(*first_page)));
            let cells =
                drawing.right.as_ref().and_then(|a| if let Answer::Sheet(cells) = a { Some(cells) } else { None });
            let blank = Panel { boxes: true, ..Panel::default() };
            let (a, b) =
                both(&landing, cells, |_, _, _| blank, |page, head| Panel { page, stands: head, head, boxes: true });
            let room = drawing.room - block.high;
            block.sides(&Sides { a, b, sideways: sideways(&landing), blank_line: true }, room);
        }
        Task::SetHeads { name, course, first_page, side_a, side_b } => {
            let Some(landing) = landing(course) else { return };
            block.ticket(&told::sheet(name, course, landing.pages.len(), Some(*first_page)));
            let cells =
                drawing.right.as_ref().and_then(|a| if let Answer::Sheet(cells) = a { Some(cells) } else { None });
            let given = |is_b: bool, row: usize, column: usize| {
                let page = if is_b { side_b } else { side_a }.get(row).and_then(|r| r.get(column)).copied();
                Panel { page, boxes: true, ..Panel::default() }
            };
            let (a, b) = both(&landing, cells, given, |page, head| Panel { page, stands: head, head, boxes: true });
            let room = drawing.room - block.high;
            block.sides(&Sides { a, b, sideways: sideways(&landing), blank_line: true }, room);
        }
        Task::FindFolds { side_a, side_b, folds } => find_folds(drawing, block, side_a, side_b, *folds),
        Task::Bolts { name, course, sheet, trims, caliper } => {
            let Some(landing) = landing(course) else { return };
            let mut rows = told::sheet(name, course, landing.pages.len(), None);
            let [head, foot, fore_edge] = [trims.head, trims.foot, trims.fore_edge].map(|l| l.short_mm());
            rows.push((
                "Trims",
                format!("{head} mm at the head, {foot} mm at the tail, {fore_edge} mm at the fore-edge."),
            ));
            let size = format!("{} × {} mm", sheet.width.short_mm(), sheet.height.short_mm());
            rows.push(("Paper", format!("Sheet {size}, one leaf {} mm thick.", caliper.short_mm())));
            block.ticket(&rows);
            let right: &[LeafEdges] = if let Some(Answer::Bolts(leaves)) = &drawing.right { leaves } else { &[] };
            leaves(block, landing.pages.len() / 2, right);
        }
        _ => {}
    }
}

fn landing(course: &crate::fold::Course) -> Option<Landing> {
    Worked::of(course).ok()?.landing(0, 0)
}

fn sideways(landing: &Landing) -> bool {
    landing.pages.first().is_some_and(|page| page.head.is_sideways())
}

type Rows = Vec<Vec<Panel>>;

/// Both sides: blank ones, or what is right on them.
fn both(
    landing: &Landing,
    cells: Option<&SheetCells>,
    blank: impl Fn(bool, usize, usize) -> Panel,
    right: impl Fn(Option<u32>, Option<Direction>) -> Panel,
) -> (Rows, Rows) {
    let side = |is_b: bool| {
        let row = |row: usize| {
            let panel = |column: usize| {
                let side = cells.map(|c| if is_b { &c.side_b } else { &c.side_a });
                let cell = side.and_then(|s| s.get(row)?.get(column));
                cell.map_or_else(|| blank(is_b, row, column), |cell| right(cell.page, cell.head))
            };
            (0..landing.columns as usize).map(panel).collect()
        };
        (0..landing.rows as usize).map(row).collect()
    };
    (side(false), side(true))
}

fn find_folds(drawing: &Drawing<'_>, block: &mut Block, a: &[Vec<PrintedCell>], b: &[Vec<PrintedCell>], folds: u32) {
    let (rows, columns) = (a.len() as u32, a.first().map_or(0, Vec::len) as u32);
    let unknown = b.iter().flatten().all(Option::is_none);
    let more = if unknown { " Side B is not given." } else { "" };
    let says =
        format!("{} It takes {folds} fold{}.{more}", told::panels(rows, columns), if folds == 1 { "" } else { "s" });
    block.words(&says, Weight::Plain);
    block.gap(1.0);
    let panels = |side: &[Vec<PrintedCell>]| -> Rows {
        let panel = |cell: &PrintedCell| {
            cell.map_or_else(Panel::default, |c| Panel {
                page: Some(c.page),
                stands: Some(c.head),
                head: Some(c.head),
                boxes: false,
            })
        };
        side.iter().map(|row| row.iter().map(panel).collect()).collect()
    };
    let sideways = a.iter().flatten().flatten().next().is_some_and(|cell| cell.head.is_sideways());
    let boxes = f64::from(folds) * (BOX + 1.0) + 2.0;
    let room = drawing.room - block.high - boxes;
    block.sides(&Sides { a: panels(a), b: panels(b), sideways, blank_line: false }, room);
    block.gap(2.0);
    let right: &[Fold] = if let Some(Answer::Folds(folds)) = &drawing.right { folds } else { &[] };
    for k in 0..folds.max(right.len() as u32) {
        fold_box(block, k + 1, right.get(k as usize));
    }
}

/// One fold: which part moves, where it lands, and after how many panels.
fn fold_box(block: &mut Block, number: u32, right: Option<&Fold>) {
    let (top, base) = (block.high, block.high + BOX - 2.4);
    block.put(figures(number.to_string(), (3.0, base), 4.4));
    let mut x = 8.0;
    let parts = [("left", Part::Left), ("right", Part::Right), ("top", Part::Top), ("bottom", Part::Bottom)];
    for (says, part) in parts {
        x = block.tick((x, base), says, right.is_some_and(|fold| fold.moves == part));
    }
    x += 2.0;
    for (says, lands) in [("over", Lands::Over), ("under", Lands::Under)] {
        x = block.tick((x, base), says, right.is_some_and(|fold| fold.lands == lands));
    }
    x += 2.0;
    block.put(Text::plain("after", (x, base), WORDS));
    let filled = right.map_or_else(String::new, |fold| fold.after.to_string());
    block.number_box((x + 10.0, top), 10.0, &filled);
    block.put(Text::plain("panels", (x + 22.0, base), WORDS));
    block.gap(BOX + 1.0);
}

/// Leaves in one table or two beside each other.
fn leaves(block: &mut Block, count: usize, right: &[LeafEdges]) {
    const HIGH: f64 = 7.0;
    const COLUMNS: [f64; 4] = [12.0, 18.0, 18.0, 24.0];
    const MOST_ROWS: usize = 9;
    let wide: f64 = COLUMNS.iter().sum();
    let top = block.high;
    let tables = count.div_ceil(MOST_ROWS).max(1);
    let rows = count.div_ceil(tables);
    let letter = |at: Option<AtEdge>| match at {
        Some(AtEdge::Free) => "N",
        Some(AtEdge::Opened) => "O",
        Some(AtEdge::Closed) => "C",
        None => "",
    };
    for leaf in 0..count {
        let left = (leaf / rows.max(1)) as f64 * (wide + 8.0);
        let y = top + LINE + 1.0 + (leaf % rows.max(1)) as f64 * HIGH;
        if leaf % rows.max(1) == 0 {
            let mut x = left;
            for (says, column) in ["Leaf", "head", "tail", "fore-edge"].into_iter().zip(COLUMNS) {
                block.put(Text::plain(says, (x + column / 2.0, top + LINE - 1.0), WORDS).aligned(Align::Middle));
                x += column;
            }
        }
        let edges = right.get(leaf).copied().unwrap_or_default();
        let number = (leaf + 1).to_string();
        let cells = [number.as_str(), letter(edges.head), letter(edges.tail), letter(edges.fore_edge)];
        let mut x = left;
        for (k, (says, column)) in cells.into_iter().zip(COLUMNS).enumerate() {
            block.drawn.extend(frame(Rect::new(x, y, x + column, y + HIGH), 0.15));
            let text = Text::plain(says, (x + column / 2.0, y + HIGH - 2.1), WORDS).aligned(Align::Middle);
            block.put(if k == 0 { text } else { text.bold() });
            x += column;
        }
    }
    block.gap(LINE + 1.0 + rows as f64 * HIGH + 1.0);
}
