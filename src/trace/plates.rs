//! Plates and wraps: those that should be there, and those that were found.

use super::case::{LONGEST, SeenBook};
use super::causes::{Draft, likes};
use super::told::Stage;
use super::words::list;
use crate::book::{Added, Book};
use crate::marks::Refusal;

/// The most plates or wraps that are read. A bound of this program.
const MOST: usize = 400;

/// Plates and wraps of one book against those of a right one.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Plates {
    /// Page positions behind which a plate is gone.
    pub plates_gone: Vec<u32>,
    /// Page positions behind which a plate stands that should not.
    pub plates_more: Vec<u32>,
    /// Sections without their wrap.
    pub wraps_gone: Vec<u32>,
    /// Sections with a wrap that should have none.
    pub wraps_more: Vec<u32>,
    /// Whether anybody looked.
    pub looked: bool,
}

impl Plates {
    /// Whether all is as it should be.
    pub fn right(&self) -> bool {
        self.plates_gone.is_empty()
            && self.plates_more.is_empty()
            && self.wraps_gone.is_empty()
            && self.wraps_more.is_empty()
    }

    /// What is wrong, in half-sentences.
    pub fn says(&self, book: &Book) -> Vec<String> {
        let mut said = Vec::new();
        said.extend(self.plates_gone.iter().map(|p| format!("the plate {} is not there", behind(book, *p))));
        said.extend(
            self.plates_more.iter().map(|p| format!("a plate stands {}", behind(book, *p).trim_end_matches(','))),
        );
        said.extend(self.wraps_gone.iter().map(|s| format!("the wrap round section {s} is not there")));
        said.extend(self.wraps_more.iter().map(|s| format!("a wrap lies round section {s}")));
        said
    }

    /// The causes.
    pub fn drafts(&self, book: &Book) -> Vec<Draft> {
        let mut all = Vec::new();
        let tipping = |kind, title: String| Draft::new(kind, Stage::Tipping, &[], title).likes(likes::ONCE);
        let says = self.says(book);
        for (gone, more, noun) in
            [(&self.plates_gone, &self.plates_more, "plate"), (&self.wraps_gone, &self.wraps_more, "wrap")]
        {
            let place = |at: u32| match noun {
                "plate" => behind(book, at),
                _ => format!("round section {at}"),
            };
            if let (Some(from), Some(to)) = (gone.first(), more.first()) {
                let title = format!("The {noun} {} was put {}.", place(*from), place(*to).trim_end_matches(','));
                all.push(
                    tipping("plate_misplaced", title)
                        .likes([0.5, 0.3, 1.0, 0.4, 0.05, 0.6, 0.4])
                        .check(format!(
                            "Read the place that is printed on the {noun}, and the list of {noun}s. Look at the sections that \
                             wait: a whole bundle may have it."
                        ))
                        .remedy(format!("Lift the {noun} off and put it to its place; look through that section's pile.")),
                );
            } else if let Some(from) = gone.first() {
                let title = format!("The {noun} {} was left out.", place(*from));
                all.push(
                    tipping("plate_left_out", title)
                        .check(format!("Count the {noun}s that are left: one over for each book without it."))
                        .remedy(format!(
                            "Put the {noun} in before the book is cased; after that it is tipped in by hand."
                        )),
                );
            } else if let Some(to) = more.first() {
                let title = format!("A {noun} too many was put {}.", place(*to).trim_end_matches(','));
                all.push(
                    tipping("plate_misplaced", title)
                        .check(format!("Read what is printed on the {noun}; another book may be without it."))
                        .remedy(format!("Take the {noun} out, and look for the book that lacks it.")),
                );
            }
        }
        for draft in &mut all {
            draft.notes.push(format!("Found: {}.", list(&says)));
        }
        all
    }
}

/// Compares what was found with what should be there.
///
/// # Errors
/// Where a word is no page or no section.
pub(super) fn read(book: &Book, seen: &SeenBook) -> Result<Plates, Refusal> {
    let mut plates = Plates::default();
    if let Some(text) = &seen.plates {
        plates.looked = true;
        let mut due = Vec::new();
        for added in &book.added {
            if let Added::Plate { after, .. } = *added {
                due.push(after);
            }
        }
        let found = words(text, "plates")?
            .map(|word| match book.positions_of(word).first() {
                Some(position) => Ok(*position),
                None if word == "0" => Ok(0),
                None => Err(Refusal::new("plates", format!("“{}” is printed on no page of this book.", cut(word)))),
            })
            .collect::<Result<Vec<_>, _>>()?;
        (plates.plates_gone, plates.plates_more) = compare(&due, &found);
    }
    if let Some(text) = &seen.wraps {
        plates.looked = true;
        let due = book.added.iter().filter_map(|added| match *added {
            Added::Wrap { section, .. } => Some(section),
            _ => None,
        });
        let sections = book.sections.len() as u32;
        let found = words(text, "wraps")?
            .map(|word| match word.parse::<u32>() {
                Ok(section) if (1..=sections).contains(&section) => Ok(section),
                _ => Err(Refusal::new("wraps", format!("“{}” is no section of this book.", cut(word)))),
            })
            .collect::<Result<Vec<_>, _>>()?;
        (plates.wraps_gone, plates.wraps_more) = compare(&due.collect::<Vec<_>>(), &found);
    }
    Ok(plates)
}

/// Where a plate stands, as a sentence goes on: `behind page 48`, `behind page 64, printed 48,` or `before the first page`.
fn behind(book: &Book, position: u32) -> String {
    match book.folio(position) {
        _ if position == 0 => "before the first page".to_owned(),
        Some(folio) if folio != position.to_string() => format!("behind page {position}, printed {folio},"),
        _ => format!("behind page {position}"),
    }
}

fn cut(word: &str) -> String {
    word.chars().take(20).collect()
}

fn words<'a>(text: &'a str, at: &str) -> Result<impl Iterator<Item = &'a str> + use<'a>, Refusal> {
    let all = || text.split(|c: char| c.is_whitespace() || c == ',' || c == '|').filter(|w| !w.is_empty());
    if text.len() > 4 * LONGEST || all().nth(MOST).is_some() {
        return Err(Refusal::new(at, format!("At most {MOST} are read.")));
    }
    Ok(all())
}

/// What is gone and what is there beyond what is due; each is counted.
fn compare(due: &[u32], found: &[u32]) -> (Vec<u32>, Vec<u32>) {
    let count = |list: &[u32], one: u32| list.iter().filter(|other| **other == one).count();
    let less = |of: &[u32], than: &[u32]| {
        let mut less = Vec::new();
        for (i, &one) in of.iter().enumerate() {
            let here = count(of.get(..=i).unwrap_or(of), one);
            if here > count(than, one) {
                less.push(one);
            }
        }
        less
    };
    (less(due, found), less(found, due))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn gone_and_more() {
        assert_eq!(compare(&[48, 112], &[112, 64]), (vec![48], vec![64]));
        assert_eq!(compare(&[48, 48], &[48]), (vec![48], vec![]));
        assert_eq!(compare(&[], &[]), (vec![], vec![]));
    }
}
