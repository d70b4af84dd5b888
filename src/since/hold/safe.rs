//! The safe list: every book that may be bad.

use super::super::{Books, Happened, Judged, Pattern, UNKNOWN_AHEAD, joined, without};
use super::{Held, Known};
use crate::words::grouped;

pub(super) fn safe(known: &Known<'_>) -> Vec<Held> {
    let line = &known.evidence.line;
    let whole = Books::all(line);
    let blocks = &known.brackets.blocks;
    let unopened = |why: &str| without(whole, &known.good()).into_iter().map(|b| Held::all(b, why)).collect();
    let mut list: Vec<Held> = Vec::new();
    match known.pattern {
        Some(Pattern::Scattered) => {
            return unopened("Single bad books can be anywhere among those that are not opened.");
        }
        Some(Pattern::EveryNth { .. }) => {
            return unopened(
                "Until the distance has been checked, a bad book can be anywhere among those that are not opened.",
            );
        }
        Some(Pattern::WholeRun) => return unopened("The whole run is taken to be bad."),
        None => return unopened("It is not known yet how the fault is spread."),
        Some(Pattern::FromAMoment) => match blocks.first() {
            Some(first) => {
                let from = first.outer(line).from;
                let why = match first.last_good {
                    Some(g) => format!("The fault began behind the good book {} and went on.", grouped(g)),
                    None => "No book before the first bad one was found good, and the fault went on.".to_owned(),
                };
                list.extend(Books::of(from, line.last).map(|b| Held::all(b, why)));
            }
            // Nothing bad yet: the fault can only have begun behind the last good book.
            None => {
                let good = known.order.iter().rev().find(|o| o.judged == Judged::Good).map_or(0, |o| o.counter);
                let from = (good + 1).max(line.first);
                list.extend(
                    Books::of(from, line.last).map(|b| Held::all(b, "No book behind the last good one was opened.")),
                );
            }
        },
        Some(Pattern::OneBook | Pattern::Block) => {
            if blocks.is_empty() && known.suspected().next().is_none() {
                return unopened("No bad book was opened, and no lift is suspected.");
            }
            for block in blocks {
                list.push(Held::all(block.outer(line), bracket_why(block.last_good, block.first_good)));
            }
            list.extend(lifts(known));
        }
    }
    // The openings may look like a fault that went on where it was a lift in two parts.
    if known.pattern == Some(Pattern::FromAMoment) && known.evidence.pattern.is_none() {
        list.extend(lifts(known));
    }
    list.extend(guards(known));
    merged(list, whole)
}

fn bracket_why(last_good: Option<u32>, first_good: Option<u32>) -> String {
    match (last_good, first_good) {
        (Some(a), Some(b)) => {
            format!("The bad ones lie between the good books {} and {}.", grouped(a), grouped(b))
        }
        (Some(a), None) => {
            format!("Book {} is good, and no book after the bad ones was found good.", grouped(a))
        }
        (None, Some(b)) => format!("No book before the bad ones was found good, and book {} is.", grouped(b)),
        (None, None) => "No book before or after the bad ones was found good.".to_owned(),
    }
}

/// Lifts that a bad book may have come from, with all books that they went into, and lifts of a suspected station of which
/// no book was opened.
fn lifts(known: &Known<'_>) -> Vec<Held> {
    let line = &known.evidence.line;
    let (blocks, order) = (&known.brackets.blocks, &known.order);
    let mut list = Vec::new();
    for lift in known.suspected() {
        let possible = lift.possible(line);
        let bad = blocks.iter().any(|b| possible.iter().any(|p| p.among(&b.inner()).is_some()));
        // Every book of a lift that was put in wrong is bad, so one good book clears it; but only if the book is surely one
        // of the lift.
        let certain = lift.certain();
        let cleared = order.iter().any(|o| o.judged == Judged::Good && certain.iter().any(|c| c.has(o.counter)));
        if !(bad || known.station.is_some()) || cleared {
            continue;
        }
        // A lift in one piece lies within the bracket of its bad books, which is surer than reckoning.
        if bad && lift.books.len() == 1 {
            continue;
        }
        let why = if bad {
            format!(
                "The lift put into station {} at {} lay under a later one; the rest of it went into these.",
                lift.station,
                grouped(lift.counter)
            )
        } else {
            format!(
                "Station {} was loaded at {}, and no book that surely came from that lift was opened.",
                lift.station,
                grouped(lift.counter)
            )
        };
        list.extend(possible.into_iter().map(|b| Held::all(b, why.clone())));
    }
    list
}

/// Books next to stops and jams: those that were on the line when it stopped, and a few on both sides.
fn guards(known: &Known<'_>) -> Vec<Held> {
    let evidence = known.evidence;
    let (line, guard) = (&evidence.line, evidence.guard);
    let one = known.pattern == Some(Pattern::OneBook);
    let mut list = Vec::new();
    for logged in &evidence.log {
        let (from, to, why) = match logged.what {
            Happened::Jam { station }
                if known.station.is_none_or(|s| s == station) && (one || known.station.is_some()) =>
            {
                let next = line.filled_next(station, logged.counter);
                let more = if line.ahead_of(station).is_some() { 0 } else { UNKNOWN_AHEAD };
                let why = format!(
                    "Station {station} jammed at {}: a book filled by hand may be wrong.",
                    grouped(logged.counter)
                );
                (next, next.saturating_add(more), why)
            }
            Happened::Stop if one => {
                let next = logged.counter.saturating_add(1);
                let why = format!("The line stopped at {} with these on it or next to it.", grouped(logged.counter));
                (next, next.saturating_add(line.longest()), why)
            }
            Happened::Stop | Happened::Jam { .. } | Happened::Reload { .. } => continue,
        };
        let books = Books { from: from.saturating_sub(guard), to: to.saturating_add(guard) };
        let Some(books) = books.among(&Books::all(line)) else { continue };
        list.extend(without(books, &known.good()).into_iter().map(|b| Held::all(b, why.clone())));
    }
    list
}

/// The list in order, each book once. What is held for two reasons keeps both.
fn merged(mut list: Vec<Held>, whole: Books) -> Vec<Held> {
    list.sort_by_key(|h| h.books);
    let ranges = joined(list.iter().filter_map(|h| h.books.among(&whole)).collect());
    let reasons = |books: &Books| {
        let mut why: Vec<&str> = Vec::new();
        for held in list.iter().filter(|h| h.books.among(books).is_some()) {
            if !why.contains(&held.why.as_str()) && why.len() < 4 {
                why.push(&held.why);
            }
        }
        why.join(" ")
    };
    ranges.iter().map(|b| Held::all(*b, reasons(b))).collect()
}
