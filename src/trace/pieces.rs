//! The pieces of evidence that a row of sections can be held against, each alone.

use super::inside::Opened;
use super::opening::{Edge, Says};
use super::read::{Read, bulk_words};
use super::words::{self, found, many};
use crate::book::Book;
use crate::gather::{Fault, retold};
use crate::marks::{Found, Lies};

/// A difference of bulk below this part of a section is none (from memory: squeezed by hand, a book measures within a third
/// of a section).
const NO_SECTION: f64 = 0.5;

/// One piece of evidence about the row of sections.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Piece {
    /// An opening: its text, and what it says.
    Opening(String, Says),
    /// Where the first of these should stand, the second was found when it was opened.
    Holds(u32, u32),
    /// This section was opened, and lies so.
    Turned(u32, Lies),
    /// So many sections were counted.
    Count(u32),
    /// The bulk, in mm more than a good book, and how thick a section is: the thinnest, the mean, the thickest.
    Bulk(f64, [f64; 3], String),
}

impl Piece {
    /// What was seen, as a sentence begins.
    pub fn says(&self) -> String {
        match self {
            Self::Opening(text, says) => match says {
                Says::Join(left, right) if left.lies.is_some() && right.lies.is_some() => {
                    format!("the opening {text} shows {} followed by {}", found(left.found()), found(right.found()))
                }
                Says::Join(left, right) => {
                    let broken = if left.lies.is_none() { left } else { right };
                    format!("the opening {text} shows section {} out of order inside", broken.section)
                }
                Says::Inside(section, Lies::Right) => {
                    format!("the opening {text} shows section {section} in its order")
                }
                Says::Inside(section, _) => format!("the opening {text} shows section {section} turned"),
                Says::Broken(section) => format!("the opening {text} shows a jump inside section {section}"),
                Says::BlankIn(section) => format!("the opening {text} shows a blank page in section {section}"),
                Says::Strange(_) => format!("the opening {text} shows a page that this book has not"),
                Says::Nothing => format!("the opening {text} can't be read"),
            },
            Self::Holds(at, section) => format!("section {section} was found where section {at} should be"),
            Self::Turned(section, Lies::Right) => format!("section {section}, opened, is in order"),
            Self::Turned(section, lies) => format!("section {section}, opened, lies {}", words::lies(*lies)),
            Self::Count(count) => format!("{} were counted", many(*count, "section")),
            Self::Bulk(_, _, words) => format!("the bulk is {words}"),
        }
    }

    /// Whether a row of sections shows it.
    pub fn agrees(&self, row: &[Found], sections: u32) -> bool {
        match self {
            Self::Opening(_, says) => shows(row, *says),
            Self::Holds(at, section) => holds(row, sections, *at, *section),
            Self::Turned(section, lies) => row.contains(&Found::Section { section: *section, lies: *lies }),
            Self::Count(count) => row.len() as u32 == *count,
            Self::Bulk(more, thick, _) => bulk_allows(*more, *thick, row.len() as i64 - i64::from(sections)),
        }
    }

    /// Whether a right book shows it, too.
    pub fn is_right(&self, sections: u32) -> bool {
        let right = (1..=sections).map(Found::right).collect::<Vec<_>>();
        self.agrees(&right, sections)
    }
}

/// Whether one section stands where another should: beside a neighbour of that one.
fn holds(row: &[Found], sections: u32, at: u32, section: u32) -> bool {
    let here = |place: usize| {
        let before = match place.checked_sub(1).and_then(|before| row.get(before)) {
            Some(found) => at > 1 && *found == Found::right(at - 1),
            None => at == 1,
        };
        let behind = row.get(place + 1).map_or(at == sections, |found| *found == Found::right(at + 1));
        before || behind
    };
    (0..row.len()).any(|place| row.get(place) == Some(&Found::right(section)) && here(place))
}

/// Whether so many sections more or less go with a difference of bulk.
pub(super) fn bulk_allows(more_mm: f64, [thin, mean, thick]: [f64; 3], sections: i64) -> bool {
    let n = sections as f64;
    let (low, high) = if n < 0.0 { (n * thick, n * thin) } else { (n * thin, n * thick) };
    let slack = NO_SECTION * mean;
    (low - slack..=high + slack).contains(&more_mm)
}

/// Whether a row of sections shows an opening.
fn shows(row: &[Found], says: Says) -> bool {
    match says {
        Says::Join(left, right) => {
            row.windows(2).any(|two| matches!(two, [a, b] if left.fits(*a).is_some() && right.fits(*b).is_some()))
        }
        Says::Inside(section, lies) => {
            let edge = Edge { section, lies: Some(lies) };
            row.iter().any(|found| edge.fits(*found).is_some())
        }
        Says::Strange(beside) => row.contains(&Found::Foreign) || beside.is_none(),
        // Jumps inside a section say nothing of the row.
        Says::Broken(_) | Says::BlankIn(_) | Says::Nothing => true,
    }
}

/// The pieces of a book that are not its spine.
pub(super) fn pieces(book: &Book, read: &Read) -> Vec<Piece> {
    let said = read.openings.iter().filter(|o| o.says != Says::Nothing);
    let mut pieces = said.map(|o| Piece::Opening(o.text.clone(), o.says)).collect::<Vec<_>>();
    pieces.extend(read.inside.as_ref().and_then(opened));
    pieces.extend(read.seen.count.map(Piece::Count));
    pieces.extend(bulk(book, read));
    pieces
}

/// What a section that was opened says about the row.
pub(super) fn opened(opened: &Opened) -> Option<Piece> {
    match (opened.right, opened.instead, opened.lies) {
        (false, ..) => None,
        (true, Some(section), _) => Some(Piece::Holds(opened.section, section)),
        (true, None, lies) => Some(Piece::Turned(opened.section, lies)),
    }
}

/// The bulk as a piece; what a section that was opened has more or less is taken off.
pub(super) fn bulk(book: &Book, read: &Read) -> Option<Piece> {
    let bulk = read.bulk?;
    let all = f64::from(book.pages_of_sections().max(1));
    let inside = read.inside.as_ref().map_or(0, |inside| inside.more_pages) as f64 * bulk.good_mm / all;
    let thick = |pages: u32| bulk.good_mm * f64::from(pages) / all;
    let thin = thick(book.sections.iter().copied().min().unwrap_or(0));
    let most = thick(book.sections.iter().copied().max().unwrap_or(0));
    let mean = bulk.good_mm / (book.sections.len().max(1) as f64);
    Some(Piece::Bulk(bulk.mm - bulk.good_mm - inside, [thin, mean, most], bulk_words(bulk)))
}

/// The row that faults make, with blank backs where a section is wrong inside and its mark may hide.
pub(super) fn acted(sections: u32, faults: &[Fault]) -> Vec<Found> {
    retold(sections, faults)
}
