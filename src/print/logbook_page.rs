//! The logbook as a page to hand in.

use super::document::{Document, Text, Weight};
use super::flow::{Block, LINE, WORDS, document, headed, line, pages, room, table};
use super::printer::Paper;
use crate::marks::Refusal;
use crate::practice::{Logbook, Total, code, halves};

/// Longer names and dates are cut.
const MOST_LETTERS: usize = 80;

/// What was practised, with sums, what is weak, what comes next, and lines to sign.
///
/// # Errors
/// When it would take more pages than a document has.
pub fn logbook_page(logbook: &Logbook, name: &str, date: &str, paper: Paper) -> Result<Document, Refusal> {
    let (width, _) = room(paper);
    let cut = |words: &str| words.trim().chars().take(MOST_LETTERS).collect::<String>();
    let mut head = Block::of(width);
    head.gap(7.0);
    head.put(Text::plain("Logbook", (0.0, head.high - 1.5), 6.0).bold());
    head.gap(9.0);
    head.blank("Name", &cut(name), (0.0, 0.65 * width));
    head.blank("Date", &cut(date), (0.65 * width + 3.0, width));
    let mut blocks = vec![head];
    blocks.extend(exercises(logbook, width));
    blocks.extend(totals(logbook, width));
    blocks.push(weak(logbook, width));
    blocks.push(next(logbook, width));
    blocks.push(sign(width));
    let head = if name.trim().is_empty() { "Logbook".to_owned() } else { format!("Logbook · {}", cut(name)) };
    document(head.clone(), headed(pages(blocks, paper), &head, paper))
}

/// The entries, oldest first.
fn exercises(logbook: &Logbook, width: f64) -> Vec<Block> {
    if logbook.entries().is_empty() {
        let mut block = Block::of(width);
        block.words("Nothing has been practised yet.", Weight::Plain);
        return vec![block];
    }
    let rows: Vec<Vec<String>> = logbook.rows().into_iter().skip(1).map(Vec::from).collect();
    let heading = ["Date", "Exercise", "Level", "Number", "Marks", "Of", "Hints", "Min."];
    table(
        width,
        &heading,
        &rows,
        &[0.0, 36.0, 0.53 * width, 0.6 * width, 0.705 * width, 0.785 * width, 0.84 * width, 0.925 * width],
    )
}

fn totals(logbook: &Logbook, width: f64) -> Vec<Block> {
    let of = |total: &Total| {
        let whole = |half: u64| halves(u32::try_from(half).unwrap_or(u32::MAX));
        vec![
            total.kind.title().to_owned(),
            total.level.to_string(),
            total.tries.to_string(),
            format!("{} of {}", whole(total.got), whole(total.of)),
            total.hints.to_string(),
            total.minutes.to_string(),
            format!("{} %", total.last_percent),
        ]
    };
    let rows: Vec<Vec<String>> = logbook.totals().iter().map(of).collect();
    if rows.is_empty() {
        return Vec::new();
    }
    let heading = ["In all", "Level", "Tries", "Marks", "Hints", "Min.", "Last five"];
    table(
        width,
        &heading,
        &rows,
        &[0.0, 0.37 * width, 0.46 * width, 0.55 * width, 0.72 * width, 0.81 * width, 0.89 * width],
    )
}

fn weak(logbook: &Logbook, width: f64) -> Block {
    let mut block = Block::of(width);
    block.words("Weak", Weight::Bold);
    let weak = logbook.weak();
    if weak.is_empty() {
        block.words("Nothing is below 80 of a hundred marks in its last five tries.", Weight::Plain);
    }
    for total in weak {
        let (title, level, percent) = (total.kind.title(), total.level, total.last_percent);
        block.words(
            &format!("{title}, level {level}: {percent} of a hundred marks in its last five tries."),
            Weight::Plain,
        );
    }
    block
}

fn next(logbook: &Logbook, width: f64) -> Block {
    let next = logbook.next();
    let mut block = Block::of(width);
    block.words("What next", Weight::Bold);
    let link = crate::link::Exercise { kind: next.kind.number(), level: next.level, seed: next.seed };
    let code = code(&link).map_or_else(String::new, |code| format!(", code {code}"));
    block.words(&format!("{}, level {}, number {}{code}.", next.kind.title(), next.level, next.seed), Weight::Plain);
    block.words(&next.says, Weight::Plain);
    block.words(&format!("Rule: {}", next.rule), Weight::Plain);
    block
}

fn sign(width: f64) -> Block {
    let mut block = Block::of(width);
    for role in ["Trainee", "Teacher"] {
        block.gap(2.0 * LINE + 1.0);
        block.put(Text::plain(role, (0.0, block.high - 1.5), WORDS));
        block.put(line((24.0, block.high - 0.5), (0.62 * width, block.high - 0.5)));
        block.put(Text::plain("date", (0.62 * width + 4.0, block.high - 1.5), WORDS));
        block.put(line((0.62 * width + 14.0, block.high - 0.5), (width, block.high - 0.5)));
    }
    block
}
