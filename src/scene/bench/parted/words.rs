//! What is done to all parts of a slit sheet, as a sentence.

use super::Act;
use crate::fold::{Lay, fold_name};
use crate::scene::bench::Bench;

/// What is done to all parts of a slit sheet at once.
pub(super) fn says(bench: &Bench, step: usize, lay: Lay, moving: bool) -> String {
    let acts = bench.acts(step);
    let folds: Vec<String> = acts
        .iter()
        .filter_map(|act| match act {
            Act::Fold(fold) => Some(fold_name(&lay.seen(fold, (0, 0)))),
            _ => None,
        })
        .collect();
    let slits = acts.iter().filter(|a| **a == Act::Slit).count();
    let laid = acts.contains(&Act::Laid);
    let mut says = Vec::new();
    if let Some(Act::Inset { guest, host }) = acts.first() {
        let slides = if moving { "slides into" } else { "lies now in" };
        says.push(match (guest.0, host.0) {
            // Nothing is printed on a blank sheet.
            (0, 0) => format!("One piece {slides} the middle of the other."),
            _ => format!(
                "The piece with {} to {} {slides} the middle of that with {} to {}.",
                guest.0, guest.1, host.0, host.1
            ),
        });
    }
    match slits {
        0 => {}
        1 if acts.len() == 1 => says.push("The sheet is slit, and its parts go on separately.".into()),
        n => says.push(format!("{n} parts are slit again.")),
    }
    if laid {
        says.push("The sheet is slit, and one part laid on the other; they go on together.".into());
    }
    match folds.as_slice() {
        [] => {}
        [one] => says.push(format!("One piece: {}.", lower(one))),
        [first, rest @ ..] if rest.iter().all(|f| f == first) => {
            says.push(format!("{} pieces: {}.", folds.len(), lower(first)));
        }
        all => {
            let mut kinds: Vec<(&String, usize)> = Vec::new();
            for fold in all {
                match kinds.iter_mut().find(|(f, _)| *f == fold) {
                    Some((_, n)) => *n += 1,
                    None => kinds.push((fold, 1)),
                }
            }
            let kinds: Vec<String> = kinds.iter().map(|(fold, n)| format!("{n} {}", lower(fold))).collect();
            says.push(format!("{} pieces: {}.", all.len(), kinds.join(", ")));
        }
    }
    says.join(" ")
}

fn lower(name: &str) -> String {
    name.to_ascii_lowercase()
}
