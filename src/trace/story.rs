//! What can have made the row of one book: from its spine by the search of [`crate::gather::explain()`], or, where nobody
//! looked at the spine, from openings, count, bulk and leftovers.
//!
//! Without a spine every fault that touches what was seen is acted out and held against each piece of evidence. First one
//! fault, then two at once.

use super::case::Case;
use super::opening::Says;
use super::pieces::{Piece, acted, bulk, opened, pieces};
use super::read::{Read, sections as of_sections, spine_words};
use super::tried::{blocks_missing, by_leftovers, pairs, singles, touched};
use super::words::{capital, many};
use crate::book::Book;
use crate::gather::explain::{MOST_FAULTS, explain_bounded};
use crate::gather::{self, Fault};
use crate::marks::{Found, Lies, Refusal};
use std::collections::BTreeMap;

/// The most backs that are acted out in a whole case, and the fewest rows for one book. A bound of this program.
const MOST_ACTED: usize = 12_000_000;
const FEWEST_ACTED: usize = 60;
/// The most pieces of evidence that are held against each other, two and two. A bound of this program.
const MOST_HELD: usize = 8;
/// The most faults for one piece that are tried together with those for another. A bound of this program.
const MOST_JOINED: usize = 12;
/// Steps of the search for all books together, as many as for one book that is asked for alone.
const STEPS: u64 = 40_000_000;
/// Steps for one book of many.
const FEWEST_STEPS: u64 = 300_000;
/// The most stories kept of one book. A bound of this program.
const MOST_STORIES: usize = 40;

/// One way the row of a book can have come about.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Story {
    /// The faults.
    pub faults: Vec<Fault>,
    /// Its share among the stories of the book, 0 to 1.
    pub share: f64,
}

/// What is known of the row of a book.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Stories {
    /// The likeliest first; all need as few faults.
    pub all: Vec<Story>,
    /// The row is right as far as it was seen.
    pub right: bool,
    /// The row needs more than three faults.
    pub beyond: bool,
    /// The row is one end of a right book only: it ends with this section, or begins behind it.
    pub half: Option<u32>,
    /// Nothing says where the fault is, only that sections are too few or too many.
    pub only_counted: i32,
}

/// The weights of single faults against each other, as the search of gathered books has them.
fn weight(odds: &gather::Odds, fault: &Fault) -> f64 {
    match *fault {
        Fault::Missing { .. } => odds.missing,
        Fault::Double { .. } => odds.double,
        Fault::WrongSection { at, section } if at.abs_diff(section) == 1 => odds.wrong_load_beside,
        Fault::WrongSection { .. } => odds.wrong_load,
        Fault::Exchanged { sections: [a, b] } if b.abs_diff(a) == 1 => odds.exchanged_beside,
        Fault::Exchanged { .. } => odds.exchanged,
        Fault::Foreign { .. } => odds.foreign,
        Fault::NoMark { .. } => odds.no_mark,
        Fault::Lies { .. } => odds.lies,
        Fault::DividedWrong { .. } => odds.shifted,
        Fault::Moved { sections: [a, b], .. } if a == b => odds.moved_one,
        Fault::Moved { .. } => odds.moved,
        Fault::Reversed => odds.reversed,
    }
}

/// The stories of a book; contradictions between its pieces of evidence are added to it.
///
/// # Errors
/// Where the row can't be one of this book.
pub(super) fn stories(
    book: &Book,
    case: &Case,
    odds: &gather::Odds,
    known: &mut Rows,
    read: &mut Read,
) -> Result<Stories, Refusal> {
    let sections = book.sections.len() as u32;
    let Some(row) = read.row.clone() else { return Ok(by_pieces(book, case, odds, known.acted, read)) };
    lengths(book, read, &row);
    held(read, &row, sections);
    if let Some(stories) = known.rows.get(&row) {
        return Ok(stories.clone());
    }
    let stories = by_row(odds, sections, &row, known.steps)?;
    known.rows.insert(row, stories.clone());
    Ok(stories)
}

/// Rows that were searched already, and what is left of the bounds on a case.
#[derive(Debug)]
pub(super) struct Rows {
    rows: BTreeMap<Vec<Found>, Stories>,
    /// Steps for each part of the search of one row.
    steps: u64,
    /// How many rows of one book are acted out, at the most, for each thing that is tried.
    acted: usize,
}

impl Rows {
    /// For a case of so many books.
    pub fn of(books: usize, sections: usize) -> Self {
        let acted = (MOST_ACTED / books.max(1) / sections.max(1)).max(FEWEST_ACTED);
        let steps = STEPS / (books.max(1) as u64);
        Self { rows: BTreeMap::new(), steps: steps.max(FEWEST_STEPS), acted }
    }
}

/// Says where the spine, the count and the bulk do not agree about the number of sections.
fn lengths(book: &Book, read: &mut Read, row: &[Found]) {
    let sections = book.sections.len() as u32;
    let backs = many(row.len() as u32, "back");
    let name = capital(&read.name);
    if let Some(count) = read.seen.count
        && count != row.len() as u32
    {
        let says = format!(
            "{name}: the spine shows {backs}, but {} were counted. Count again, along the spine and through the book.",
            many(count, "section")
        );
        read.contradictions.push(says);
    }
    let Some(piece) = bulk(book, read) else { return };
    if !piece.agrees(row, sections) {
        let more = row.len() as i32 - sections as i32;
        let shows = match more {
            0 => format!("the spine shows as many backs as a good book, {}", row.len()),
            n if n > 0 => format!("the spine shows {} more than a good book", of_sections(n)),
            n => format!("the spine shows {} less than a good book", of_sections(n)),
        };
        read.contradictions.push(format!(
            "{name}: {}, but {shows}. Measure again, squeezed as the good book was; feel for a section of other paper, \
             and open one that feels thin or thick.",
            piece.says()
        ));
    }
}

/// Says where a section that was opened can't stand so in the row.
fn held(read: &mut Read, row: &[Found], sections: u32) {
    let Some(piece) = read.inside.as_ref().and_then(opened) else { return };
    let hidden = matches!(piece, Piece::Turned(..)) && (row.contains(&Found::NoMark) || row.contains(&Found::Unread));
    if hidden || piece.agrees(row, sections) {
        return;
    }
    read.contradictions.push(format!(
        "{}: {}, but the spine reads {}.",
        capital(&read.name),
        piece.says(),
        spine_words(row)
    ));
}

/// From a whole row.
fn by_row(odds: &gather::Odds, sections: u32, row: &[Found], steps: u64) -> Result<Stories, Refusal> {
    let explained = explain_bounded(odds, sections, row, MOST_FAULTS, steps, MOST_STORIES)?;
    if explained.right() {
        return Ok(Stories { right: true, ..Stories::default() });
    }
    let mut all = Vec::new();
    for explanation in explained.explanations {
        let share = explanation.odds;
        let names = 1.0 + explanation.same_order_as.len() as f64;
        for faults in std::iter::once(explanation.faults).chain(explanation.same_order_as) {
            all.push(Story { faults, share: share / names });
        }
    }
    let half = if all.is_empty() { half_book(sections, row) } else { None };
    Ok(Stories { beyond: all.is_empty() && half.is_none(), half, all, ..Stories::default() })
}

/// The section behind which a book was cut, where the row is its first or its last part and all in order.
fn half_book(sections: u32, row: &[Found]) -> Option<u32> {
    let (first, last) = (row.first()?, row.last()?);
    let (Found::Section { section: a, lies: Lies::Right }, Found::Section { section: b, lies: Lies::Right }) =
        (*first, *last)
    else {
        return None;
    };
    let in_order = (a..).zip(row).all(|(n, found)| *found == Found::right(n));
    match (a, b) {
        _ if !in_order => None,
        (1, b) if b < sections => Some(b),
        (a, b) if b == sections && a > 1 => Some(a - 1),
        _ => None,
    }
}

/// From what was seen where nobody looked at the spine.
fn by_pieces(book: &Book, case: &Case, odds: &gather::Odds, most: usize, read: &mut Read) -> Stories {
    let sections = book.sections.len() as u32;
    let mut pieces = pieces(book, read);
    // What a right book does not show refuses most faults, so it is asked first.
    pieces.sort_by_cached_key(|piece| piece.is_right(sections));
    let wrong = pieces.iter().any(|piece| !piece.is_right(sections));
    if !wrong {
        // Nothing that was seen is out of order; what is left over may still tell.
        let seen_right = pieces.iter().any(|piece| !matches!(piece, Piece::Count(_) | Piece::Bulk(..)));
        let judged_bad = read.seen.judged == Some(crate::since::Judged::Bad);
        let elsewhere = read.inside.as_ref().is_some_and(|inside| !inside.right) || !read.broken().is_empty();
        if judged_bad && !elsewhere && read.seen.plates.is_none() && read.seen.wraps.is_none() {
            let all = shared(odds, by_leftovers(case, sections, &pieces));
            if !all.is_empty() {
                return Stories { all, ..Stories::default() };
            }
        }
        return Stories { right: seen_right, ..Stories::default() };
    }
    let touched = touched(case, read, sections);
    let mut singles = singles(read, sections, &touched);
    singles.truncate(most);
    let fit = |faults: &[Fault]| {
        let row = acted(sections, faults);
        pieces.iter().all(|piece| piece.agrees(&row, sections))
    };
    let mut fits = singles.iter().map(|fault| vec![*fault]).filter(|faults| fit(faults)).collect::<Vec<_>>();
    let jumps =
        pieces.iter().any(|piece| !matches!(piece, Piece::Count(_) | Piece::Bulk(..)) && !piece.is_right(sections));
    if fits.is_empty() && jumps {
        two_neighbours(read);
        fits = pairs(&singles).into_iter().take(most).filter(|faults| fit(faults)).collect();
        fits.extend(blocks_missing(&touched).into_iter().filter(|faults| fit(faults)));
    }
    if fits.is_empty() {
        let said = read.contradictions.len();
        disagree(read, &pieces, sections, &singles, most);
        if read.contradictions.len() > said || jumps {
            return Stories { beyond: read.contradictions.len() == said, ..Stories::default() };
        }
        // Too few or too many, and nothing that says which.
        return Stories { only_counted: counted(&pieces, sections), ..Stories::default() };
    }
    // A single fault is always likelier than another beside it.
    let fewest = fits.iter().map(Vec::len).min().unwrap_or(0);
    fits.retain(|faults| faults.len() == fewest);
    Stories { all: distinct(sections, shared(odds, fits)), ..Stories::default() }
}

/// One story for each row, the likeliest; a book divided wrong is another story than a block moved, with another cause.
fn distinct(sections: u32, all: Vec<Story>) -> Vec<Story> {
    let mut rows: Vec<(Vec<Found>, bool)> = Vec::new();
    let mut kept: Vec<Story> = Vec::new();
    for story in all {
        let divided = story.faults.iter().any(|fault| matches!(fault, Fault::DividedWrong { .. }));
        let row = (acted(sections, &story.faults), divided);
        if !rows.contains(&row) {
            rows.push(row);
            kept.push(story);
        }
    }
    let sum = kept.iter().map(|story| story.share).sum::<f64>();
    kept.iter_mut().for_each(|story| story.share /= sum);
    kept
}

/// Says where a section is followed by two others, by two openings, and no single fault does that.
fn two_neighbours(read: &mut Read) {
    let joins = read.openings.iter().filter_map(|opening| match opening.says {
        Says::Join(left, right) if left.lies.is_some() && right.lies.is_some() => Some((&opening.text, left, right)),
        _ => None,
    });
    let joins = joins.collect::<Vec<_>>();
    let mut said = Vec::new();
    for (i, (one, left, right)) in joins.iter().enumerate() {
        for (other, also_left, also_right) in joins.iter().skip(i + 1) {
            let apart = left != right && also_left != also_right;
            if apart && ((left == also_left) != (right == also_right)) {
                said.push(format!(
                    "{}: the opening {one} shows section {} followed by section {}, but the opening {other} shows section {} \
                     followed by section {}.",
                    capital(&read.name),
                    left.section,
                    right.section,
                    also_left.section,
                    also_right.section
                ));
            }
        }
    }
    read.contradictions.extend(said.into_iter().take(1));
}

/// Sections more or less, by count or bulk.
fn counted(pieces: &[Piece], sections: u32) -> i32 {
    let counts = pieces.iter().filter_map(|piece| match piece {
        Piece::Count(count) => Some(*count as i32 - sections as i32),
        Piece::Bulk(more, [_, mean, _], _) => Some((more / mean).round() as i32),
        _ => None,
    });
    counts.into_iter().find(|more| *more != 0).unwrap_or(0)
}

/// Stories with their shares, the likeliest first.
fn shared(odds: &gather::Odds, fits: Vec<Vec<Fault>>) -> Vec<Story> {
    let mut weighed = fits
        .into_iter()
        .map(|faults| (faults.iter().map(|fault| weight(odds, fault)).product::<f64>(), faults))
        .collect::<Vec<_>>();
    weighed.sort_by(|(one, a), (other, b)| other.total_cmp(one).then_with(|| a.cmp(b)));
    weighed.dedup_by(|(_, a), (_, b)| a == b);
    weighed.truncate(MOST_STORIES);
    let sum = weighed.iter().map(|(weight, _)| weight).sum::<f64>();
    weighed.into_iter().map(|(weight, faults)| Story { faults, share: weight / sum }).collect()
}

/// Says which two pieces of evidence no single fault can have left behind.
fn disagree(read: &mut Read, pieces: &[Piece], sections: u32, singles: &[Fault], most: usize) {
    let name = capital(&read.name);
    let tried = pieces.get(..MOST_HELD).unwrap_or(pieces);
    let nothing = Vec::<Fault>::new();
    let each = std::iter::once(nothing).chain(singles.iter().map(|fault| vec![*fault])).collect::<Vec<_>>();
    let rows = each.iter().map(|faults| acted(sections, faults)).collect::<Vec<_>>();
    let agree = tried.iter().map(|piece| rows.iter().map(|row| piece.agrees(row, sections)).collect::<Vec<_>>());
    let agree = agree.collect::<Vec<_>>();
    for (i, (one, of_one)) in tried.iter().zip(&agree).enumerate() {
        for (other, of_other) in tried.iter().zip(&agree).skip(i + 1) {
            let apart = if let (Piece::Count(count), Piece::Bulk(more, thick, _)) = (one, other) {
                // Any number of sections can be made, but not two at once.
                !super::pieces::bulk_allows(*more, *thick, i64::from(*count) - i64::from(sections))
            } else if of_one.iter().zip(of_other).any(|(a, b)| *a && *b) {
                false
            } else {
                // One fault for each, both in one book: then it is two faults, and nothing contradicts.
                let some = |agree: &[bool]| {
                    let agreeing = each.iter().zip(agree).filter(|(_, agrees)| **agrees).map(|(faults, _)| faults);
                    agreeing.take(MOST_JOINED.min(most / 10)).cloned().collect::<Vec<_>>()
                };
                let (some_one, some_other) = (some(of_one), some(of_other));
                let both = some_one.iter().flat_map(|a| some_other.iter().map(move |b| [a.as_slice(), b].concat()));
                let mut both = both.map(|faults| acted(sections, &faults));
                let joined = both.any(|row| one.agrees(&row, sections) && other.agrees(&row, sections));
                !some_one.is_empty() && !some_other.is_empty() && !joined
            };
            if apart {
                read.contradictions.push(format!("{name}: {}, but {}.", one.says(), other.says()));
                return;
            }
        }
    }
}
