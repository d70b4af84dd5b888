//! The frame of an exercise: its number, its code, what is asked, and the column for marks.

use super::boxes::BOX;
use super::{Solved, Variant, asks, book, on_sheet, section, spines};
use crate::gather::CAUTION;
use crate::practice::{Answer, Exercise, Item, Kind, Task, halves};
use crate::print::document::{Align, Text, Weight};
use crate::print::flow::{Block, LINE, WORDS, frame, thin};
use kurbo::Rect;

/// How wide the column for marks is, with what is free beside it, mm.
const MARKS: f64 = 19.0;

/// An exercise as it is drawn: what stands in its middle.
pub(super) struct Drawing<'a> {
    pub exercise: &'a Exercise,
    /// The right answer, where it is filled in.
    pub right: Option<Answer>,
    /// What is marked, in order. Its `right` is filled in in the key alone.
    pub items: Vec<Item>,
    /// How high its picture may be, mm.
    pub room: f64,
}

impl Drawing<'_> {
    /// What is right for an item, in the key; nothing on the sheet.
    pub(super) fn filled(&self, item: &Item) -> String {
        if self.right.is_some() { item.right.clone() } else { String::new() }
    }
}

/// An exercise of a variant, blank or filled in, no higher than it may be.
pub(super) fn block(
    variant: &Variant<'_>,
    (number, exercise): (usize, &Exercise),
    solved: Solved,
    before: Option<&Exercise>,
    high: f64,
) -> Block {
    let (width, _) = crate::print::flow::room(variant.look.paper);
    let mut middle = Block::of(width - MARKS);
    // The same kind again is not asked again.
    if before.is_none_or(|b| b.kind != exercise.kind) {
        middle.words(asks::asks(exercise.kind), Weight::Plain);
        if matches!(exercise.kind, Kind::WrongSheet | Kind::WrongBook) && !variant.key {
            middle.words(&format!("On paper nobody goes to a machine. At work: {CAUTION}"), Weight::Plain);
        }
        middle.gap(1.0);
    }
    let Solved { right, marked } = solved;
    let of = halves(marked.of);
    let told = variant.key.then(|| key_told(exercise, &marked.items));
    // Below the picture the key says more; the picture is as large on both, so that places are the same.
    let room = high - LINE - 2.0 - middle.high - 2.0;
    let drawing = Drawing { exercise, right, items: marked.items, room };
    match &exercise.task {
        Task::NumberSheet { .. } | Task::SetHeads { .. } | Task::FindFolds { .. } | Task::Bolts { .. } => {
            on_sheet::draw(&drawing, &mut middle);
        }
        Task::WrongSheet { .. } => section::draw(&drawing, &mut middle),
        Task::WrongBook { .. } => spines::draw(&drawing, &mut middle),
        Task::MakeUp { .. } | Task::BackMarks { .. } => book::draw(&drawing, &mut middle),
    }
    if told.is_some() {
        middle.gap(1.0);
    }
    for says in told.into_iter().flatten() {
        middle.words(&says, Weight::Plain);
    }
    let mut block = Block::of(width);
    let code = exercise.code().unwrap_or_default();
    let base = LINE - 1.5;
    let title = format!("{number}  {}", exercise.kind.title());
    block.put(Text::plain(title, (0.0, base), 4.4).bold());
    let says = format!("code {code}");
    block.put(Text::plain(says, (width - MARKS, base), WORDS).aligned(Align::Right));
    block.put(Text::plain("Marks", (width, base), WORDS).aligned(Align::Right));
    block.gap(LINE + 1.0);
    let top = block.high;
    block.high += middle.high.max(BOX + LINE);
    block.place((0.0, top), middle);
    let x = width - MARKS + 3.0;
    block.put(thin((x - 1.0, top), (x - 1.0, block.high)));
    block.drawn.extend(frame(Rect::new(x + 1.0, top, width, top + BOX), 0.25));
    if variant.key {
        block.put(
            Text::plain(of.clone(), ((x + 1.0 + width) / 2.0, top + BOX - 2.6), WORDS).bold().aligned(Align::Middle),
        );
    }
    block.put(Text::plain(format!("of {of}"), (width, top + BOX + LINE - 0.5), WORDS).aligned(Align::Right));
    block
}

/// What the key says below an exercise: how it is marked, and what is as right.
fn key_told(exercise: &Exercise, items: &[Item]) -> Vec<String> {
    let worth = |at: usize| items.get(at).map_or_else(String::new, |item| halves(item.of));
    let mut says = vec![match exercise.kind {
        Kind::NumberSheet => format!("Marks: each number {}, each head {}.", worth(0), worth(1)),
        Kind::SetHeads => format!("Marks: each head {}.", worth(0)),
        Kind::FindFolds => format!("Marks: each fold in its place {}.", worth(0)),
        Kind::Bolts => format!("Marks: each edge {}.", worth(0)),
        _ => {
            let each = |item: &Item| format!("{} {}", crate::words::small(&item.what), halves(item.of));
            format!("Marks: {}.", items.iter().map(each).collect::<Vec<_>>().join("; "))
        }
    }];
    let also = exercise.also_right();
    if !also.is_empty() {
        let named = also.iter().take(MOST_ALSO).map(|a| a.trim_end_matches('.')).collect::<Vec<_>>().join("; or: ");
        let more = also.len().saturating_sub(MOST_ALSO);
        let more = if more == 0 { String::new() } else { format!("; and {more} more") };
        says.push(format!("As right: {named}{more}."));
    }
    says.extend(match exercise.kind {
        Kind::NumberSheet => {
            Some("Whoever made one fold the other way and went on rightly loses 2 marks once.".to_owned())
        }
        Kind::FindFolds => Some("Any other folds count in full if the pages come into order.".to_owned()),
        Kind::MakeUp => {
            Some("Sections in another order, or other ones, count if they leave no more pages blank.".to_owned())
        }
        Kind::BackMarks => Some(
            "Other numbers count if all marks stand on the spine, clear of the trims, and no two share a level."
                .to_owned(),
        ),
        _ => None,
    });
    says
}

/// Other right answers that are named.
const MOST_ALSO: usize = 3;
