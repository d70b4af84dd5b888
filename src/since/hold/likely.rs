//! The likely list: what lift, log and leftovers point at within the safe list.

use super::super::{Books, Bracket, Pattern, joined};
use super::{Held, Known};
use crate::words::{grouped, how_many};

/// The likely list, and sentences on what does not fit.
pub(super) fn likely(known: &Known<'_>, safe: &[Held]) -> (Vec<Held>, Vec<String>) {
    let line = &known.evidence.line;
    let blocks = &known.brackets.blocks;
    let mut against = Vec::new();
    let list = match (known.pattern, blocks.as_slice()) {
        (Some(Pattern::OneBook), blocks) if !blocks.is_empty() => {
            blocks.iter().map(|b| Held::all(b.inner(), "It was opened and found bad.")).collect()
        }
        (Some(Pattern::Block), [one]) => vec![block(known, one, &mut against)],
        (Some(Pattern::FromAMoment), [first, ..]) => vec![moment(known, first)],
        (Some(Pattern::EveryNth { every }), [first, ..]) if every > 1 => {
            let from = line.first + (first.first_bad - line.first) % every;
            let to = line.last - (line.last - from) % every;
            let why = format!(
                "They lie {} or a multiple of it from the bad book {}.",
                grouped(every),
                grouped(first.first_bad)
            );
            let books = Books { from, to };
            vec![Held { books, every, count: (to - from) / every + 1, why }]
        }
        _ => safe.to_vec(),
    };
    (list, against)
}

/// Books that a block of `size` books can take up if it holds the bad ones.
fn of_size(line_first: u32, block: &Bracket, outer: Books, size: u32) -> Option<Books> {
    let from = (block.last_bad.saturating_add(1)).saturating_sub(size).max(line_first);
    let to = block.first_bad.saturating_add(size).saturating_sub(1);
    Books::of(from, to)?.among(&outer).filter(|b| b.has(block.first_bad) && b.has(block.last_bad))
}

/// A single block: the books of a lift that fits, a block as large as the leftovers say, or as large as a lift.
fn block(known: &Known<'_>, block: &Bracket, against: &mut Vec<String>) -> Held {
    let line = &known.evidence.line;
    let outer = block.outer(line);
    let (mut books, mut why) = (outer, "They lie between the good books.".to_owned());
    let fit = known.lifts_for(block);
    if fit.is_empty() && known.station.is_some() && known.suspected().next().is_some() {
        against.push(format!(
            "No reload in the log accounts for the bad books {} to {}: by the log no lift of station {} went into all of them.",
            grouped(block.first_bad),
            grouped(block.last_bad),
            known.station.unwrap_or(0)
        ));
    }
    if !fit.is_empty() && (known.station.is_some() || fit.len() == 1) {
        let ranges = fit.iter().flat_map(|l| {
            let possible = l.possible(line);
            let whole = possible.len() == 1;
            let by_size = if whole { of_size(line.first, block, outer, l.sections) } else { Some(outer) };
            let here = possible.into_iter().find(|b| b.has(block.first_bad));
            here.and_then(|b| b.among(&by_size?)).and_then(|b| b.among(&outer))
        });
        let all = joined(ranges.collect());
        if let (Some(first), Some(last)) = (all.first(), all.last()) {
            books = Books { from: first.from, to: last.to };
            why = fit.iter().take(3).map(|l| l.says.clone()).collect::<Vec<_>>().join(" ");
        }
    }
    if let Some(n) = known.books {
        match of_size(line.first, block, outer, n).and_then(|b| b.among(&books)) {
            Some(b) if b.count() >= n.min(outer.count()) && n >= block.least && n <= block.most => {
                why = format!("The leftovers speak for {}. {why}", how_many(n, "bad book"));
                books = b;
            }
            _ => against.push(format!(
                "The leftovers speak for {}, and by the opened books there are from {} to {}.",
                how_many(n, "bad book"),
                grouped(block.least),
                grouped(books.count().min(block.most))
            )),
        }
    } else if fit.is_empty()
        && let Some(b) = known.evidence.lift.and_then(|lift| of_size(line.first, block, outer, lift))
    {
        why = format!(
            "A lift of {} went into no others.",
            known.evidence.lift.map_or_else(String::new, |l| how_many(l, "section"))
        );
        books = b;
    }
    Held::all(books, why)
}

/// A fault that went on: from the reload that may have begun it.
fn moment(known: &Known<'_>, first: &Bracket) -> Held {
    let line = &known.evidence.line;
    let outer = first.outer(line);
    let begins = known.suspected().flat_map(|l| l.books.iter().map(move |b| (b.from, l)));
    // The earliest, if several lie between the last good and the first bad book.
    let fit = begins.filter(|(from, _)| outer.from <= *from && *from <= first.first_bad).min_by_key(|(from, _)| *from);
    match fit {
        Some((from, lift)) => Held::all(Books { from, to: line.last }, lift.says.clone()),
        None => Held::all(
            Books { from: outer.from, to: line.last },
            "The fault began behind the last good book and went on.",
        ),
    }
}
