//! Openings as printed: which two pages lie side by side, and so which sections meet there.
//!
//! A section shows itself at its two ends. Its front end is what lies on the right of an opening, its back end what lies
//! on the left; which of its pages that is, and which way its head points, tells how the section lies:
//!
//! | lies | front end | back end |
//! | --- | --- | --- |
//! | right | first page | last page |
//! | head to tail | last page, head down | first page, head down |
//! | turned half round | first page, head down | last page, head down |
//! | back to front | last page | first page |
//!
//! Any other page at an end says that the section is not folded, printed or put together right.

use super::case::SeenBook;
use crate::book::Book;
use crate::marks::{Found, Lies, Refusal};

/// The most openings of a book. A bound of this program.
const MOST_OPENINGS: usize = 400;

/// One page of an opening.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Side {
    /// A page of the book, by its position; head down or not.
    Page {
        /// Where it should stand.
        position: u32,
        /// Whether its head points down.
        down: bool,
    },
    /// Nothing is printed.
    Blank,
    /// Nobody can read it.
    Unread,
    /// Printed, but on no page of this book.
    Strange,
}

/// What an opening says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Says {
    /// This section is in the book, and in order here; how it lies.
    Inside(u32, Lies),
    /// Two sections meet, the one on the left first.
    Join(Edge, Edge),
    /// Something is wrong inside this section.
    Broken(u32),
    /// A blank page faces or backs what should not be blank, in this section.
    BlankIn(u32),
    /// A page of another job stands beside this section, or beside nothing that is known.
    Strange(Option<u32>),
    /// Nothing that helps.
    Nothing,
}

/// A section where it meets another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Edge {
    /// The section.
    pub section: u32,
    /// How it lies; `None` where the page is none of its ends.
    pub lies: Option<Lies>,
}

impl Edge {
    /// How well what was found at a place agrees: 3 for the same, 2 where the find leaves it open, none where it can't be.
    pub fn fits(self, found: Found) -> Option<u32> {
        match (found, self.lies) {
            (Found::Section { section, lies }, Some(own)) => (section == self.section && lies == own).then_some(3),
            // A section that is printed wrongly shows its mark all the same.
            (Found::Section { section, lies: Lies::Right }, None) => (section == self.section).then_some(2),
            (Found::NoMark, None | Some(Lies::TurnedInPlane | Lies::SideToSide)) => Some(2),
            (Found::Unread, _) => Some(1),
            _ => None,
        }
    }

    /// As it stands in a row.
    pub fn found(self) -> Found {
        match self.lies {
            Some(lies) => Found::Section { section: self.section, lies },
            None => Found::NoMark,
        }
    }
}

/// One opening.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Opening {
    /// As it was typed.
    pub text: String,
    /// What it says.
    pub says: Says,
}

impl Opening {
    /// Whether two sections meet in it that should not.
    pub fn jumps(&self) -> bool {
        match self.says {
            Says::Join(left, right) => {
                let right_way = |edge: Edge| edge.lies == Some(Lies::Right);
                left.section.checked_add(1) != Some(right.section) || !right_way(left) || !right_way(right)
            }
            Says::Inside(_, lies) => lies != Lies::Right,
            _ => false,
        }
    }
}

/// Reads the openings of a book.
///
/// # Errors
/// Where a word is no page, or an opening has more than two.
pub(super) fn read(book: &Book, seen: &SeenBook) -> Result<Vec<Opening>, Refusal> {
    let refuse = |says: String| Refusal::new("openings", says);
    let groups = seen.openings.split(['|', '\n', ';']);
    let mut openings = Vec::new();
    let mut read_one = |words: &[&str]| {
        if openings.len() >= MOST_OPENINGS {
            return Err(refuse(format!("At most {MOST_OPENINGS} openings are read.")));
        }
        let sides = words.iter().map(|word| side(book, word)).collect::<Result<Vec<_>, _>>().map_err(&refuse)?;
        let says = match sides.as_slice() {
            [one] => alone(book, one),
            [left, right] => together(book, left, right),
            _ => Says::Nothing,
        };
        openings.push(Opening { text: words.join(" "), says });
        Ok(())
    };
    for group in groups {
        let words = group.split(|c: char| c.is_whitespace() || c == ',').filter(|w| !w.is_empty()).collect::<Vec<_>>();
        match words.len() {
            0 => {}
            1 | 2 => read_one(&words)?,
            // Written without strokes: two and two.
            n if n % 2 == 0 => words.chunks(2).try_for_each(&mut read_one)?,
            n => {
                let cut = group.trim().chars().take(20).collect::<String>();
                return Err(refuse(format!(
                    "“{cut}” has {n} pages. An opening has two; a stroke parts one from the next, as in 30 31 | 48 49."
                )));
            }
        }
    }
    Ok(openings)
}

/// The candidates of one page.
enum Candidates {
    Pages(Vec<u32>, bool),
    Plain(Side),
}

fn side(book: &Book, word: &str) -> Result<Candidates, String> {
    match word {
        "_" | "-" | "–" | "—" => return Ok(Candidates::Plain(Side::Blank)),
        "?" => return Ok(Candidates::Plain(Side::Unread)),
        "x" | "X" if book.positions_of(word).is_empty() => return Ok(Candidates::Plain(Side::Strange)),
        _ => {}
    }
    // A small v may be a roman figure, so the whole word comes first.
    let upright = book.positions_of(word);
    if !upright.is_empty() {
        return Ok(Candidates::Pages(upright, false));
    }
    if let Some(stem) = word.strip_suffix(['v', 'V', 'd', 'D']) {
        let down = book.positions_of(stem);
        if !down.is_empty() {
            return Ok(Candidates::Pages(down, true));
        }
    }
    let digits = word.trim_end_matches(['v', 'V', 'd', 'D']);
    let roman = |c: char| "ivxlcdmIVXLCDMj".contains(c);
    if !digits.is_empty() && (digits.bytes().all(|b| b.is_ascii_digit()) || word.chars().all(roman)) {
        return Ok(Candidates::Plain(Side::Strange));
    }
    let cut = word.chars().take(20).collect::<String>();
    Err(format!(
        "“{cut}” is no page. Write the figure as it is printed, 31 or xii; v behind it for head down, _ for a page that \
         nothing is printed on, ? for one that can't be read."
    ))
}

/// The page positions of a candidate with its head.
fn sides(candidates: &Candidates) -> Vec<Side> {
    match candidates {
        Candidates::Pages(positions, down) => {
            positions.iter().map(|&position| Side::Page { position, down: *down }).collect()
        }
        Candidates::Plain(side) => vec![side.clone()],
    }
}

/// One page without its neighbour: its section is there.
fn alone(book: &Book, one: &Candidates) -> Says {
    match sides(one).as_slice() {
        [Side::Page { position, down: false }] => match book.section_of(*position) {
            Some((section, _)) => Says::Inside(section, Lies::Right),
            None => Says::Nothing,
        },
        [Side::Strange] => Says::Strange(None),
        _ => Says::Nothing,
    }
}

/// Two pages side by side. Where a folio is printed more than once, the reading that is least out of order is taken.
fn together(book: &Book, left: &Candidates, right: &Candidates) -> Says {
    let mut best = (u32::MAX, Says::Nothing);
    for left in sides(left) {
        for right in sides(right) {
            let says = beside(book, &left, &right);
            let cost = cost(&left, &right, says);
            if cost < best.0 {
                best = (cost, says);
            }
        }
    }
    best.1
}

/// Less is nearer to a right book.
fn cost(left: &Side, right: &Side, says: Says) -> u32 {
    let far = match (left, right) {
        (Side::Page { position: p, .. }, Side::Page { position: q, .. }) => p.abs_diff(*q).min(100_000),
        _ => 0,
    };
    let kind = match says {
        Says::Inside(_, Lies::Right) => 0,
        Says::Join(a, b) if a.section + 1 == b.section && a.lies.is_some() && b.lies.is_some() => 1,
        Says::Inside(..) => 2,
        Says::Join(a, b) if a.lies.is_some() && b.lies.is_some() => 3,
        Says::BlankIn(_) => 4,
        _ => 5,
    };
    kind * 1_000_000 + far
}

fn beside(book: &Book, left: &Side, right: &Side) -> Says {
    use Side::{Blank, Page, Strange, Unread};
    match (left, right) {
        (&Page { position: p, down: d }, &Page { position: q, down: e }) => two_pages(book, (p, d), (q, e)),
        (&Page { position, down: false }, Blank) => blank_beside(book, position, position.checked_add(1)),
        (Blank, &Page { position, down: false }) => blank_beside(book, position, position.checked_sub(1)),
        (&Page { position, .. }, Blank) | (Blank, &Page { position, .. }) => section(book, position, Says::BlankIn),
        (&Page { position, .. }, Strange) | (Strange, &Page { position, .. }) => {
            Says::Strange(book.section_of(position).map(|(section, _)| section))
        }
        (&Page { position, down: false }, Unread) | (Unread, &Page { position, down: false }) => {
            section(book, position, |section| Says::Inside(section, Lies::Right))
        }
        (Strange, _) | (_, Strange) => Says::Strange(None),
        _ => Says::Nothing,
    }
}

fn section(book: &Book, position: u32, says: impl Fn(u32) -> Says) -> Says {
    book.section_of(position).map_or(Says::Nothing, |(section, _)| says(section))
}

/// A blank page beside one that is printed: as it should be, or something inside the section.
fn blank_beside(book: &Book, position: u32, due: Option<u32>) -> Says {
    let blank = due.is_some_and(|due| book.section_of(due).is_none() || book.folio(due).is_none());
    let says = |section| if blank { Says::Inside(section, Lies::Right) } else { Says::BlankIn(section) };
    section(book, position, says)
}

fn two_pages(book: &Book, (p, left_down): (u32, bool), (q, right_down): (u32, bool)) -> Says {
    let (Some((s, i)), Some((t, j))) = (book.section_of(p), book.section_of(q)) else {
        return Says::Nothing;
    };
    if s == t {
        let way = match (left_down, right_down) {
            (false, false) if q == p + 1 => Some(Lies::Right),
            (true, true) if p == q + 1 => Some(Lies::HeadToTail),
            (true, true) if q == p + 1 => Some(Lies::TurnedInPlane),
            (false, false) if p == q + 1 => Some(Lies::SideToSide),
            _ => None,
        };
        // The left page of an opening is the back of its leaf: the even one, unless the leaf was turned over.
        if let Some(lies) = way
            && matches!(lies, Lies::Right | Lies::TurnedInPlane) == (i % 2 == 0)
        {
            return Says::Inside(s, lies);
        }
    }
    let pages = |section: u32| book.sections.get(section as usize - 1).copied().unwrap_or(0);
    let left = Edge { section: s, lies: end(i, pages(s), left_down, false) };
    let right = Edge { section: t, lies: end(j, pages(t), right_down, true) };
    if s == t && (left.lies.is_none() || right.lies.is_none()) { Says::Broken(s) } else { Says::Join(left, right) }
}

/// How a section lies that shows this page at an end.
fn end(page: u32, pages: u32, down: bool, front: bool) -> Option<Lies> {
    let (first, last) = (page == 1, page == pages);
    match (front, down) {
        (true, false) if first => Some(Lies::Right),
        (true, false) if last => Some(Lies::SideToSide),
        (true, true) if last => Some(Lies::HeadToTail),
        (true, true) if first => Some(Lies::TurnedInPlane),
        (false, false) if last => Some(Lies::Right),
        (false, false) if first => Some(Lies::SideToSide),
        (false, true) if first => Some(Lies::HeadToTail),
        (false, true) if last => Some(Lies::TurnedInPlane),
        _ => None,
    }
}
