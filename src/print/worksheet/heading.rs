//! What stands at the head of a variant.

use super::Variant;
use crate::practice::{Exercise, Kind, Outcome, halves, outcomes};
use crate::print::document::{Align, Text, Weight};
use crate::print::flow::{Block, LINE, WORDS, room};
use crate::words::list;

/// The head of a variant.
pub(super) fn heading(variant: &Variant<'_>) -> Block {
    let (width, _) = room(variant.look.paper);
    let mut block = Block::of(width);
    if variant.key {
        key(variant, &mut block)
    } else {
        sheet(variant, &mut block)
    }
    block
}

fn title(variant: &Variant<'_>, says: &str, block: &mut Block) {
    block.gap(7.0);
    block.put(Text::plain(says, (0.0, block.high - 1.5), 6.0).bold());
    let right = format!("variant {}", variant.number);
    block.put(Text::plain(right, (block.width, block.high - 1.5), 5.0).bold().aligned(Align::Right));
    block.gap(1.0);
}

fn sheet(variant: &Variant<'_>, block: &mut Block) {
    title(variant, &variant.look.title, block);
    block.gap(7.0);
    let width = block.width;
    block.blank("Name", "", (0.0, 0.45 * width));
    block.blank("Class", &variant.look.class, (0.45 * width + 3.0, 0.7 * width));
    block.blank("Date", &variant.look.date, (0.7 * width + 3.0, width));
    block.gap(1.5);
    let says: Vec<&str> = served(variant.exercises).iter().map(|o| o.says.trim_end_matches('.')).collect();
    if !says.is_empty() {
        block.words(&format!("Outcomes: {}.", says.join(" · ")), Weight::Plain);
    }
    let base = block.high + LINE - 1.5;
    block.words("Hand exercise: no machine. Bone folder and blunt knife.", Weight::Bold);
    let total = format!("Marks ______ of {}", halves(variant.total));
    block.put(Text::plain(total, (block.width, base), WORDS).bold().aligned(Align::Right));
}

fn key(variant: &Variant<'_>, block: &mut Block) {
    title(variant, &format!("Key to: {}", variant.look.title), block);
    // In columns: a code must not be broken.
    let wide = block.width / CODES as f64;
    for (k, exercise) in variant.exercises.iter().enumerate() {
        if k % CODES == 0 {
            block.gap(LINE);
        }
        let says = format!("{}: {}", k + 1, exercise.code().unwrap_or_default());
        block.put(Text::plain(says, ((k % CODES) as f64 * wide, block.high - 1.5), WORDS));
    }
    let again = "From these codes alone sheet and key are made again.";
    block.words(
        &match variant.seed {
            Some(seed) => format!("Set from seed {seed}. {again} Marks in all: {}.", halves(variant.total)),
            None => format!("{again} Marks in all: {}.", halves(variant.total)),
        },
        Weight::Plain,
    );
    for outcome in served(variant.exercises) {
        let by: Vec<String> = (1..)
            .zip(variant.exercises)
            .filter(|(_, one): &(usize, &Exercise)| outcome.served_by.contains(&one.kind))
            .map(|(number, _)| number.to_string())
            .collect();
        let says = format!("{} ({}): {}", outcome.says.trim_end_matches('.'), outcome.source, list(&by));
        block.words(&says, Weight::Plain);
    }
}

/// Codes beside each other.
const CODES: usize = 5;

/// One outcome for each kind of exercise: the first one that it serves and no other kind has named yet.
fn served(exercises: &[Exercise]) -> Vec<&'static Outcome> {
    let mut kinds: Vec<Kind> = Vec::new();
    let mut all: Vec<&'static Outcome> = Vec::new();
    for exercise in exercises {
        if kinds.contains(&exercise.kind) {
            continue;
        }
        kinds.push(exercise.kind);
        if let Some(outcome) = outcomes(exercise.kind).next()
            && !all.contains(&outcome)
        {
            all.push(outcome);
        }
    }
    all
}
