//! The collational formula: what gatherings a book is made of, in the notation of descriptive bibliography.
//!
//! Notation: F. Bowers, *Principles of Bibliographical Description* (1949), and P. Gaskell, *A New Introduction to
//! Bibliography* (1972), both from memory. The format stands first (8° for an octavo); then the gatherings by their
//! signatures, the number of leaves of each raised: `B–L¹⁶` are the gatherings B to L of sixteen leaves each. A gathering
//! that is not signed is π at the front. `(D8+1)` is a leaf inserted behind D8, `(D8+1,2)` two that are not one fold; χ is
//! a leaf within the text that is not signed. Then come the leaves in all, and the pages as they are numbered: numbers
//! that are not printed stand in square brackets.

use super::extent::{Added, Book, Folios, Run};
use super::signatures::Signing;
use super::told::{count, list};
use crate::marks::Refusal;
use serde::Serialize;
use std::collections::BTreeMap;

/// A book in the notation of bibliographers.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Formula {
    /// The formula: "16°: π⁸ B–L¹⁶(D8+1) M⁴; 180 leaves and 1 of plates; pp. i–xvi, 1–344".
    pub text: String,
    /// The pages as they are numbered, which is its last part.
    pub pagination: String,
    /// The same to be read aloud.
    pub spoken: String,
    /// What the formula leaves out or takes for granted.
    pub notes: Vec<String>,
}

/// Gatherings of as many leaves, one after the other.
struct Group {
    /// The sections, from 1.
    first: u32,
    last: u32,
    leaves: u32,
}

/// The formula of a book of which the first `unsigned` sections carry no signature.
///
/// `leaves_to_sheet` is the format: 8 for an octavo. Without it, the leaves of most sections are taken.
///
/// # Errors
/// If the book does not agree with itself ([`Book::check`]), or the format or the unsigned sections are none.
pub fn formula(
    book: &Book,
    signing: &Signing,
    unsigned: u32,
    leaves_to_sheet: Option<u32>,
) -> Result<Formula, Refusal> {
    book.check()?;
    let sections = book.sections.len() as u32;
    if unsigned > sections {
        return Err(Refusal::new(
            "unsigned",
            format!("The book has {sections} sections, and no more can be unsigned."),
        ));
    }
    if leaves_to_sheet.is_some_and(|n| n == 0 || n > 128) {
        return Err(Refusal::new("leaves_to_sheet", "A sheet is folded to 1 to 128 leaves."));
    }
    let format = leaves_to_sheet.unwrap_or_else(|| usual_leaves(&book.sections));
    let name = |section: u32| label(signing, unsigned, section);
    // Behind a figure the leaf stands lowered: 2₈.
    let figures = signing.alphabet.letters().is_empty();
    let leaf_of = |section: u32, leaf: u32| match name(section) {
        of if figures && section > unsigned => format!("{of}{}", shifted(leaf, LOWERED)),
        of => format!("{of}{leaf}"),
    };
    let inserted = inserted(book, &name, &leaf_of);
    let mut gathered = Vec::new();
    let mut spoken = Vec::new();
    for group in groups(&book.sections, unsigned) {
        let range = match (name(group.first), name(group.last)) {
            (first, _) if group.first == group.last => first,
            (first, last) => format!("{first}–{last}"),
        };
        let inside: Vec<&Inserted> =
            inserted.iter().filter(|i| i.section >= group.first && i.section <= group.last).collect();
        let signs: Vec<&str> = inside.iter().map(|i| i.sign.as_str()).collect();
        let signs = if signs.is_empty() { String::new() } else { format!("({})", signs.join("; ")) };
        gathered.push(format!("{range}{}{signs}", shifted(group.leaves, RAISED)));
        spoken.push(aloud(&group, unsigned, &name));
        spoken.extend(inside.iter().map(|i| i.spoken.clone()));
    }
    let leaves = book.pages() / 2;
    let more: u32 = book.added.iter().map(leaves_added).sum();
    let in_all = if more > 0 { format!("{leaves} leaves and {more} inserted") } else { format!("{leaves} leaves") };
    let (pagination, pages_aloud) = pagination(&book.runs);
    let mut notes = Vec::new();
    if leaves_to_sheet.is_none() {
        notes.push(format!("The format is taken from the sections, as if a sheet gave the {format} leaves of one."));
    }
    if book.added.iter().any(|a| matches!(a, Added::Endpapers { .. })) {
        notes.push("Endpapers are the binder's, and do not stand in the formula.".into());
    }
    if book.added.iter().any(|a| matches!(a, Added::Wrap { .. })) {
        notes.push("The leaves χ on both sides of a gathering are one fold, the first joined to the last.".into());
    }
    Ok(Formula {
        text: format!("{format}°: {}; {in_all}; {pagination}", gathered.join(" ")),
        pagination,
        spoken: format!("{}: {}. In all {in_all}. {pages_aloud}.", format_name(format), spoken.join("; ")),
        notes,
    })
}

/// What a gathering is called: π, 2π … at the front, then by its signature.
fn label(signing: &Signing, unsigned: u32, section: u32) -> String {
    match section.checked_sub(unsigned) {
        Some(signed) if signed > 0 => signing.in_formula(signed),
        _ if section == 1 => "π".into(),
        _ => format!("{section}π"),
    }
}

/// Sections of as many leaves side by side; unsigned ones each by itself.
fn groups(sections: &[u32], unsigned: u32) -> Vec<Group> {
    let mut groups: Vec<Group> = Vec::new();
    for (section, pages) in (1..).zip(sections) {
        let leaves = pages / 2;
        match groups.last_mut() {
            Some(group) if group.leaves == leaves && group.first > unsigned => group.last = section,
            _ => groups.push(Group { first: section, last: section, leaves }),
        }
    }
    groups
}

/// What is inserted into a section.
struct Inserted {
    section: u32,
    sign: String,
    spoken: String,
}

fn inserted(book: &Book, name: &dyn Fn(u32) -> String, leaf_of: &dyn Fn(u32, u32) -> String) -> Vec<Inserted> {
    let mut not_signed = 0;
    // χ, 2χ … for what is counted from the front of it.
    let mut chi = || {
        not_signed += 1;
        if not_signed == 1 { "χ".to_owned() } else { format!("{not_signed}χ") }
    };
    let many = |pages: u32| count(pages / 2, "leaf inserted", "leaves inserted");
    let mut all = Vec::new();
    for added in &book.added {
        match *added {
            Added::Plate { after: 0, pages } => all.push(Inserted {
                section: 1,
                sign: format!("{}+{}", leaves(&chi(), 1, pages / 2), leaf_of(1, 1)),
                spoken: format!("{} before {}", many(pages), said(&leaf_of(1, 1))),
            }),
            Added::Plate { after, pages } => {
                let Some((section, page)) = book.section_of(after) else { continue };
                let leaf = leaf_of(section, page.div_ceil(2));
                let sign = format!("{leaf}+{}", leaves("", 1, pages / 2));
                all.push(Inserted { section, sign, spoken: format!("{} behind {}", many(pages), said(&leaf)) });
            }
            Added::Wrap { section, pages } => {
                let (half, chi) = (pages / 4, chi());
                let last = book.sections.get(section.saturating_sub(1) as usize).map_or(0, |pages| pages / 2);
                let (front, behind) = (leaves(&chi, 1, half), leaves(&chi, half + 1, half));
                all.push(Inserted {
                    section,
                    sign: format!("{front}+{}, {}+{behind}", leaf_of(section, 1), leaf_of(section, last)),
                    spoken: format!("a fold of {} leaves, not signed, laid round {}", pages / 2, said(&name(section))),
                });
            }
            Added::Endpapers { .. } => {}
        }
    }
    all
}

/// So many leaves from one on, as "χ1", "1,2"; of many the first and the last.
fn leaves(sign: &str, first: u32, n: u32) -> String {
    let last = first + n.max(1) - 1;
    match n {
        0 | 1 => format!("{sign}{first}"),
        2 => format!("{sign}{first},{last}"),
        _ => format!("{sign}{first}–{last}"),
    }
}

const fn leaves_added(added: &Added) -> u32 {
    match added {
        Added::Plate { pages, .. } | Added::Wrap { pages, .. } => *pages / 2,
        Added::Endpapers { .. } => 0,
    }
}

fn aloud(group: &Group, unsigned: u32, name: &dyn Fn(u32) -> String) -> String {
    let leaves = count(group.leaves, "leaf", "leaves");
    if group.last <= unsigned {
        return format!("one gathering of {leaves}, not signed ({})", said(&name(group.first)));
    }
    match group.last - group.first {
        0 => format!("gathering {} of {leaves}", name(group.first)),
        1 => format!("gatherings {} and {} of {leaves} each", name(group.first), name(group.last)),
        n => format!("gatherings {} to {}, {} of them, of {leaves} each", name(group.first), name(group.last), n + 1),
    }
}

/// Greek letters by their names.
fn said(label: &str) -> String {
    label.replace('π', " pi ").trim().to_owned()
}

const RAISED: [char; 10] = ['⁰', '¹', '²', '³', '⁴', '⁵', '⁶', '⁷', '⁸', '⁹'];
const LOWERED: [char; 10] = ['₀', '₁', '₂', '₃', '₄', '₅', '₆', '₇', '₈', '₉'];

fn shifted(n: u32, digits: [char; 10]) -> String {
    n.to_string().bytes().filter_map(|b| digits.get(usize::from(b.wrapping_sub(b'0')))).collect()
}

/// The leaves that most sections have; of equally many the more.
fn usual_leaves(sections: &[u32]) -> u32 {
    let mut counts: BTreeMap<u32, u32> = BTreeMap::new();
    for pages in sections {
        *counts.entry(pages / 2).or_default() += 1;
    }
    counts.iter().max_by_key(|(leaves, n)| (**n, **leaves)).map_or(1, |(leaves, _)| *leaves)
}

/// D. Cockerell, *Bookbinding and the Care of Books* (1901), p. 36, and T. MacKellar, *The American Printer* (1893), p. 149.
fn format_name(leaves: u32) -> String {
    match leaves {
        1 => "Broadsheet".into(),
        2 => "Folio".into(),
        4 => "Quarto".into(),
        8 => "Octavo".into(),
        12 => "Duodecimo".into(),
        n => format!("{n} leaves to the sheet"),
    }
}

/// "pp. i–xiv, [xv–xvi], [2], 1–344", and the same to be read aloud.
fn pagination(runs: &[Run]) -> (String, String) {
    let mut written = Vec::new();
    let mut aloud = Vec::new();
    for run in runs {
        let last = run.pages.saturating_sub(1);
        match (run.folios.counted(0), run.folios.counted(last)) {
            (Some(first), Some(last)) => {
                let (range, to) = if first == last {
                    (first.clone(), first)
                } else {
                    (format!("{first}–{last}"), format!("{first} to {last}"))
                };
                written.push(if run.blank { format!("[{range}]") } else { range });
                aloud.push(if run.blank { format!("{to}, blank and counted") } else { to });
            }
            _ => {
                written.push(format!("[{}]", run.pages));
                let what = if run.blank { "blank" } else { "without a folio" };
                aloud.push(format!("{} {what}", run.pages));
            }
        }
    }
    (format!("pp. {}", written.join(", ")), format!("Pages {}", list(&aloud)))
}

/// What can be said of the extent of a book, in sentences.
///
/// # Errors
/// If the book does not agree with itself.
pub fn extent_told(book: &Book) -> Result<Vec<String>, Refusal> {
    book.check()?;
    let (pages, sections) = (book.pages(), book.sections.len() as u32);
    let mut all = vec![format!(
        "The book has {pages} pages on {} leaves, in {}.",
        pages / 2,
        count(sections, "section", "sections")
    )];
    let mut first = 1;
    for run in &book.runs {
        let last = first + run.pages - 1;
        let name = if run.name.is_empty() { String::new() } else { format!("{}: ", run.name) };
        let at = if first == last { format!("page {first}") } else { format!("pages {first} to {last}") };
        let numbered = match (run.folios.counted(0), run.folios.counted(run.pages - 1), run.blank) {
            (Some(a), Some(b), false) if a == b => format!("printed {a}"),
            (Some(a), Some(b), false) => format!("printed {a} to {b}"),
            (Some(a), Some(b), true) => format!("blank, counted as {a} to {b}"),
            (_, _, false) => "without folios".into(),
            (_, _, true) => "blank".into(),
        };
        all.push(format!("{name}{at}, {numbered}."));
        first = last + 1;
    }
    if book.runs.iter().any(|r| matches!(r.folios, Folios::Arabic { first: n } if n % 2 == 0)) {
        all.push(
            "A run of figures begins with an even number; odd folios are then not all on right-hand pages.".into(),
        );
    }
    all.extend(book.added.iter().map(|added| {
        let says = book.say_added(*added);
        let it = match added {
            Added::Plate { pages: 2, .. } | Added::Wrap { .. } => "it",
            _ => "them",
        };
        let the = says.strip_prefix("the").unwrap_or(&says);
        format!("The{the}: page positions don't count {it}.")
    }));
    Ok(all)
}
