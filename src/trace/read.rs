//! One book read: its spine, its openings, its bulk and count, brought together into one row of sections.

use super::case::{Case, SeenBook, Spine};
use super::inside::{self, Opened};
use super::letters::read_run;
use super::opening::{self, Edge, Opening, Says};
use super::words::{self, capital, counter};
use crate::book::Book;
use crate::fold::Scheme;
use crate::gather::run::print_run;
use crate::marks::{Design, Doubt, Found, Lies, Refusal, read_spine};
use crate::units::mm;

/// Less than this part of a section more or less is no difference of bulk (from memory: squeezed by hand, a book measures
/// within a third of a section).
const NO_SECTION: f64 = 0.5;

/// The bulk against that of a good book.
#[derive(Clone, Copy, Debug)]
pub(super) struct Bulk {
    /// The bulk measured, in mm.
    pub mm: f64,
    /// The bulk of a good book, in mm.
    pub good_mm: f64,
    /// The difference in sections of mean thickness, rounded.
    pub sections: i32,
}

/// One book, read.
#[derive(Debug)]
pub(super) struct Read<'a> {
    /// What was seen.
    pub seen: &'a SeenBook,
    /// The book in words: `the book at counter 1,430`, `book 2` or `the book`.
    pub name: String,
    /// What the spine alone shows.
    pub spine: Option<Vec<Found>>,
    /// Where the marks leave a choice.
    pub doubts: Vec<Doubt>,
    /// The spine, with what the openings say about backs that leave a choice.
    pub row: Option<Vec<Found>>,
    /// The section that lies at a place whose back is blank, by an opening: place (from 1) and section.
    pub named: Vec<(u32, u32)>,
    /// The openings.
    pub openings: Vec<Opening>,
    /// A section that was opened.
    pub inside: Option<Opened>,
    /// The bulk, where this book and a good one were measured.
    pub bulk: Option<Bulk>,
    /// Pieces of evidence that can't all be right, each in sentences.
    pub contradictions: Vec<String>,
}

impl Read<'_> {
    /// Sections in which something is wrong inside, by the openings.
    pub fn broken(&self) -> Vec<u32> {
        let mut broken = Vec::new();
        for opening in &self.openings {
            let sections = match opening.says {
                Says::Broken(section) | Says::BlankIn(section) => vec![section],
                Says::Join(left, right) => {
                    [left, right].iter().filter(|edge| edge.lies.is_none()).map(|edge| edge.section).collect()
                }
                _ => Vec::new(),
            };
            broken.extend(sections);
        }
        broken.sort_unstable();
        broken.dedup();
        broken
    }

    /// Whether anything says in which order the sections stand.
    pub fn orders(&self) -> bool {
        let opened = self.inside.as_ref().is_some_and(|inside| inside.instead.is_some() || inside.lies != Lies::Right);
        self.row.is_some() || opened || self.openings.iter().any(|opening| opening.says != Says::Nothing)
    }

    /// Whether anything at all was seen of it but its counter and a judgement.
    pub fn looked_at(&self) -> bool {
        self.orders()
            || self.inside.is_some()
            || self.bulk.is_some()
            || self.seen.count.is_some()
            || self.seen.plates.is_some()
            || self.seen.wraps.is_some()
    }

    /// The sections counted or seen on the spine.
    pub fn backs(&self) -> Option<u32> {
        self.seen.count.or_else(|| self.row.as_ref().map(|row| row.len() as u32))
    }
}

/// Reads one book of a case; `at` is its index.
///
/// # Errors
/// Where something typed can't be read.
pub(super) fn read<'a>(
    book: &Book,
    marks: Option<&Design>,
    schemes: &[Scheme],
    case: &Case,
    at: usize,
    seen: &'a SeenBook,
) -> Result<Read<'a>, Refusal> {
    let name = match seen.counter {
        Some(number) => format!("the book at counter {}", counter(number)),
        None if case.books.len() > 1 => format!("book {}", at + 1),
        None => "the book".to_owned(),
    };
    let sections = book.sections.len() as u32;
    let (spine, doubts) = match &seen.spine {
        Spine::Unseen => (None, Vec::new()),
        Spine::Run(run) => {
            let found = read_run(run, case.signing.as_ref(), sections)?;
            in_the_book(sections, &found)?;
            ((!found.is_empty()).then_some(found), Vec::new())
        }
        Spine::Marks(marks_seen) => {
            let Some(design) = marks else {
                return Err(Refusal::new("spine.marks", "Marks are read by their design; give `marks`."));
            };
            let reading =
                read_spine(sections, design, marks_seen).map_err(|why| match why.at.strip_prefix("seen") {
                    Some(rest) => Refusal::new(format!("spine.marks{rest}"), why.says),
                    None => Refusal::new("spine.marks", why.says),
                })?;
            ((!reading.found.is_empty()).then_some(reading.found), reading.doubts)
        }
    };
    let openings = opening::read(book, seen)?;
    let inside = match &seen.inside {
        Some(inside) => inside::read(book, schemes, inside)?,
        None => None,
    };
    let bulk = match (seen.bulk_mm, case.good_bulk_mm) {
        (Some(mm), Some(good_mm)) => {
            let one = good_mm / f64::from(sections.max(1));
            let more = (mm - good_mm) / one;
            let sections = if more.abs() < NO_SECTION { 0 } else { more.round() as i32 };
            Some(Bulk { mm, good_mm, sections })
        }
        _ => None,
    };
    let mut read = Read {
        seen,
        name,
        row: spine.clone(),
        spine,
        doubts,
        named: Vec::new(),
        openings,
        inside,
        bulk,
        contradictions: Vec::new(),
    };
    lay_openings(&mut read);
    Ok(read)
}

/// Refuses sections that this book has not.
fn in_the_book(sections: u32, found: &[Found]) -> Result<(), Refusal> {
    let strange = found.iter().find_map(|found| match *found {
        Found::Section { section, .. } if !(1..=sections).contains(&section) => Some(section),
        _ => None,
    });
    match strange {
        Some(section) => Err(Refusal::new(
            "spine.run",
            format!("There is no section {section} in a book of {sections}. Write x for a section of another job."),
        )),
        None => Ok(()),
    }
}

/// Lays the openings on the row: backs that leave a choice are settled, and what can't be is said.
fn lay_openings(read: &mut Read) {
    let Some(mut row) = read.row.take() else { return };
    let openings = std::mem::take(&mut read.openings);
    for opening in &openings {
        match opening.says {
            Says::Join(left, right) => match meet(&row, &open_doubts(read, &row), left, right) {
                Some(at) => {
                    for (place, edge) in [(at, left), (at + 1, right)] {
                        settle(&mut row, &mut read.named, place, edge);
                    }
                }
                None => {
                    let says = not_together(read, &row, &opening.text, left, right);
                    read.contradictions.push(says);
                }
            },
            Says::Inside(section, lies) => {
                let edge = Edge { section, lies: Some(lies) };
                let backs = (1u32..).zip(&row).collect::<Vec<_>>();
                // Inside a misfolded section some pages follow each other all the same.
                let there = backs.iter().find(|(_, back)| edge.fits(**back).is_some() || **back == Found::NoMark);
                let open = open_doubts(read, &row);
                let doubted = |place: u32| could_be(&open, place, edge);
                match there {
                    Some(_) => {}
                    None => match backs.iter().find(|(place, _)| doubted(*place)) {
                        Some(&(place, _)) => settle(&mut row, &mut read.named, place as usize - 1, edge),
                        None => {
                            let says = not_there(read, &row, &opening.text, section, lies);
                            read.contradictions.push(says);
                        }
                    },
                }
            }
            Says::Strange(_) | Says::Broken(_) | Says::BlankIn(_) | Says::Nothing => {}
        }
    }
    read.openings = openings;
    read.row = Some(row);
}

/// The doubts of backs that no opening has settled yet.
fn open_doubts(read: &Read, row: &[Found]) -> Vec<Doubt> {
    let spine = read.spine.as_deref().unwrap_or_default();
    let open = |doubt: &&Doubt| {
        let place = doubt.at as usize - 1;
        spine.get(place) == row.get(place)
    };
    read.doubts.iter().filter(open).cloned().collect()
}

/// Whether the marks at a place (from 1) leave it open that this stands there.
fn could_be(doubts: &[Doubt], place: u32, edge: Edge) -> bool {
    let doubt = doubts.iter().find(|doubt| doubt.at == place);
    doubt.is_some_and(|doubt| doubt.could_be.iter().any(|found| edge.fits(*found) == Some(3)))
}

/// The place (from 0) behind which these two meet, where there is one.
fn meet(row: &[Found], doubts: &[Doubt], left: Edge, right: Edge) -> Option<usize> {
    let fit = |place: usize, edge: Edge| {
        let found = row.get(place).copied()?;
        edge.fits(found).or_else(|| could_be(doubts, place as u32 + 1, edge).then_some(1))
    };
    let mut best = None;
    for place in 0..row.len().saturating_sub(1) {
        if let (Some(one), Some(other)) = (fit(place, left), fit(place + 1, right))
            && best.is_none_or(|(score, _)| one + other > score)
        {
            best = Some((one + other, place));
        }
    }
    best.map(|(_, place)| place)
}

/// Writes what an opening says about a back that left a choice.
fn settle(row: &mut [Found], named: &mut Vec<(u32, u32)>, place: usize, edge: Edge) {
    let Some(back) = row.get_mut(place) else { return };
    match (*back, edge.lies) {
        // Folded wrongly, its mark inside: the back stays blank, but it is known which section it is.
        (Found::NoMark, None) => {
            let here = (place as u32 + 1, edge.section);
            if !named.contains(&here) {
                named.push(here);
            }
        }
        (_, Some(_)) => *back = edge.found(),
        (Found::Unread, None) => *back = Found::right(edge.section),
        _ => {}
    }
}

/// The spine, typed.
pub(super) fn spine_words(row: &[Found]) -> String {
    const LONGEST: usize = 60;
    let run = print_run(row);
    match run.char_indices().nth(LONGEST) {
        Some((cut, _)) => format!("{} …", run.get(..cut).unwrap_or_default()),
        None => run,
    }
}

fn not_together(read: &Read, row: &[Found], text: &str, left: Edge, right: Edge) -> String {
    let one = |edge: Edge| match edge.lies {
        Some(lies) => words::found(Found::Section { section: edge.section, lies }),
        None => format!("section {}, out of order inside,", edge.section),
    };
    let place = |section: u32| {
        (1u32..).zip(row).find(|(_, found)| matches!(found, Found::Section { section: s, .. } if *s == section))
    };
    let spine = match (place(left.section), place(right.section)) {
        (None, _) => format!("on the spine no section {} stands", left.section),
        (_, None) => format!("on the spine no section {} stands", right.section),
        (Some((p, _)), Some((q, _))) if q != p + 1 => {
            let behind = row.get(p as usize).map_or_else(|| "nothing".to_owned(), |found| words::found(*found));
            format!("on the spine {behind} follows section {} at place {}", left.section, p + 1)
        }
        _ => "on the spine they do not lie so".to_owned(),
    };
    format!("In {}, the opening {text} shows {} followed by {}, but {spine}.", read.name, one(left), one(right))
}

fn not_there(read: &Read, row: &[Found], text: &str, section: u32, lies: Lies) -> String {
    let is = match lies {
        Lies::Right => format!("section {section} in its order"),
        how => format!("section {section} lying {}", words::lies(how)),
    };
    format!(
        "In {}, the opening {text} shows {is}, but the spine, {}, has no such section.",
        read.name,
        spine_words(row)
    )
}

/// The bulk in words.
pub(super) fn bulk_words(bulk: Bulk) -> String {
    let more = bulk.mm - bulk.good_mm;
    let against = match bulk.sections {
        0 => "as much as a good book".to_owned(),
        n if n > 0 => format!("{} mm more than a good book, which is {} more", mm(more), sections(n)),
        n => format!("{} mm less than a good book, which is {} less", mm(-more), sections(n)),
    };
    format!("{} mm, {against}", mm(bulk.mm))
}

/// `1 section`, `2 sections`, of a number on either side of 0.
pub(super) fn sections(n: i32) -> String {
    words::many(n.unsigned_abs(), "section")
}

/// Everything seen of a book, each in a line.
pub(super) fn finds(read: &Read) -> Vec<String> {
    let mut said = Vec::new();
    if let Some(spine) = &read.spine {
        said.push(format!("The spine reads {}.", spine_words(spine)));
    }
    if !read.openings.is_empty() {
        let all = read.openings.iter().map(|opening| opening.text.clone()).collect::<Vec<_>>();
        said.push(format!("The openings show {}.", words::list(&all)));
    }
    if let Some(inside) = &read.inside {
        let first = crate::fold::misfold::print_pages(inside.pages.get(..8).unwrap_or(&inside.pages));
        let more = if inside.pages.len() > 8 { " …" } else { "" };
        said.push(format!("Section {}, opened, reads {first}{more}.", inside.section));
    }
    if let Some(bulk) = read.bulk {
        said.push(format!("The bulk is {}.", bulk_words(bulk)));
    }
    if let Some(count) = read.seen.count {
        said.push(format!("{} were counted.", capital(&words::many(count, "section"))));
    }
    if let Some(stopped) = read.seen.stopped {
        said.push(format!("{} stopped the line at station {}.", stopper(stopped.by), stopped.station));
    }
    said
}

/// What stopped the line, with a capital letter.
pub(super) const fn stopper(by: super::case::Stopper) -> &'static str {
    match by {
        super::case::Stopper::Caliper => "The caliper",
        super::case::Stopper::Camera => "The camera",
    }
}
