//! Which sections a book is made of, and where the odd one goes.

use super::ways::{Way, Ways};
use crate::book::MOST_SECTION;
use crate::marks::{MOST_SECTIONS, Refusal};
use serde::Serialize;

/// How a part lies in its section.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Joined {
    /// It is the section, or what others are joined to.
    Main,
    /// It is laid round it.
    Wrapped,
    /// It is laid into the middle of what is before it.
    Inset,
}

/// A part of a section: what is folded by one course.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Part {
    /// The course of the library that folds it.
    pub course: &'static str,
    /// Its pages.
    pub pages: u32,
    /// How it lies in the section.
    pub joined: Joined,
}

/// The parts of a section, the outermost first.
pub(super) type Made = Vec<Part>;

/// Sections smaller than this, and smaller than most, are odd ones that stand neither first nor last. From memory:
/// the trade speaks of odd fours and eights.
pub(super) const ODD_BELOW: u32 = 16;

/// Pages of a section.
pub(super) fn pages_of(made: &[Part]) -> u32 {
    made.iter().map(|p| p.pages).sum()
}

/// The ways of making up so many pages that are worth telling, each once.
pub(super) fn all(extent: u32, ways: &Ways) -> Vec<Vec<Made>> {
    let mut found: Vec<Vec<Made>> = Vec::new();
    let mut mains: Vec<&Way> = [32, 24, 16, 8, 4].iter().filter_map(|pages| ways.of(*pages)).collect();
    for pages in [32, 24] {
        mains.extend(ways.of_pieces(pages).filter(|way| !mains.contains(way)));
    }
    for main in mains {
        for sections in with_main(extent, main, ways) {
            if sections.len() <= MOST_SECTIONS as usize && !found.contains(&sections) {
                found.push(sections);
            }
        }
    }
    found
}

fn with_main(extent: u32, main: &Way, ways: &Ways) -> Vec<Vec<Made>> {
    let (whole, rest) = (extent / main.pages, extent % main.pages);
    if whole + u32::from(rest > 0) > MOST_SECTIONS {
        return Vec::new();
    }
    let one = || vec![part(main, Joined::Main)];
    let mains = |n: u32| -> Vec<Made> { (0..n).map(|_| one()).collect() };
    if rest == 0 {
        return vec![mains(whole)];
    }
    // Filled up with blank pages to an even working.
    let mut all = vec![mains(whole + 1)];
    let fours = rest.div_ceil(4) * 4;
    for sizes in [&[16, 8, 4][..], &[24, 16, 12, 8, 4]] {
        let Some(odd) = divided(fours, sizes, ways) else { continue };
        if odd.iter().any(|w| w.pages >= main.pages) {
            continue;
        }
        all.push(placed(mains(whole), odd.iter().map(|w| vec![part(w, Joined::Main)]).collect()));
        all.extend(joined(mains(whole), &odd));
    }
    all
}

/// So many pages in sections of these sizes, the largest first.
fn divided<'a>(pages: u32, sizes: &[u32], ways: &'a Ways) -> Option<Vec<&'a Way>> {
    let mut left = pages;
    let mut found = Vec::new();
    for size in sizes {
        let Some(way) = ways.of(*size) else { continue };
        while left >= *size {
            found.push(way);
            left -= size;
        }
    }
    (left == 0).then_some(found)
}

/// The odd sections before the last whole one, so that they stand neither first nor last. Where there is only one
/// whole one, it stands in front.
fn placed(mut mains: Vec<Made>, odd: Vec<Made>) -> Vec<Made> {
    let at = if mains.len() > 1 { mains.len() - 1 } else { mains.len() };
    mains.splice(at..at, odd);
    mains
}

/// The small odd sections joined to whole ones: a four is laid round one, an eight or a twelve into its middle. They
/// take whole sections from the last but one forwards, so that the first and the last stay as they are.
fn joined(mut mains: Vec<Made>, odd: &[&Way]) -> Option<Vec<Made>> {
    let (small, large): (Vec<&Way>, Vec<&Way>) = odd.iter().partition(|w| w.pages < ODD_BELOW);
    if small.is_empty() || mains.is_empty() {
        return None;
    }
    let from = mains.len().saturating_sub(2);
    for (i, way) in small.iter().enumerate() {
        let section = mains.get_mut(from.saturating_sub(i))?;
        if way.pages == 4 {
            section.insert(0, part(way, Joined::Wrapped));
        } else {
            section.push(part(way, Joined::Inset));
        }
    }
    Some(placed(mains, large.iter().map(|w| vec![part(w, Joined::Main)]).collect()))
}

const fn part(way: &Way, joined: Joined) -> Part {
    Part { course: way.course, pages: way.pages, joined }
}

/// Sections that a person made up, as their pages, in every way of folding them that is worth telling; what is no size of a
/// course is put together from several. A size that can be folded otherwise, of pieces put together, is folded so in all
/// sections or in none.
///
/// # Errors
/// Where a section can't be folded.
pub(super) fn by_hand(pages: &[u32], ways: &Ways) -> Result<Vec<Vec<Made>>, Refusal> {
    if pages.is_empty() || pages.len() > MOST_SECTIONS as usize {
        return Err(Refusal::new("made_up", format!("A book here has 1 to {MOST_SECTIONS} sections.")));
    }
    let one = |(i, pages): (usize, &u32)| {
        let refuse = |says: String| Refusal::new(format!("made_up[{i}]"), says);
        if *pages == 0 || pages % 4 != 0 || *pages > MOST_SECTION {
            return Err(refuse(format!(
                "A folded section has 4 pages or a multiple of 4, {MOST_SECTION} at the most. A single leaf \
                     is tipped in."
            )));
        }
        put_together(*pages, ways)
            .ok_or_else(|| refuse(format!("No course at hand folds {pages} pages from this sheet.")))
    };
    let usual: Vec<Made> = pages.iter().enumerate().map(one).collect::<Result<_, _>>()?;
    let mut all = vec![usual];
    for size in [32, 24] {
        let Some(way) = ways.of_pieces(size) else { continue };
        let other = |p: &Part| if p.pages == size && p.joined == Joined::Main { part(way, Joined::Main) } else { *p };
        let made = |made: &Made| -> Made { made.iter().map(other).collect() };
        let otherwise: Vec<Vec<Made>> = all.iter().map(|sections| sections.iter().map(made).collect()).collect();
        all.extend(otherwise.into_iter().filter(|o| !all.contains(o)).collect::<Vec<_>>());
    }
    Ok(all)
}

/// One course, or the largest with the others in its middle, a four round it.
fn put_together(pages: u32, ways: &Ways) -> Option<Made> {
    if let Some(way) = ways.of(pages) {
        return Some(vec![part(way, Joined::Main)]);
    }
    let parts = divided(pages, &[32, 24, 16, 12, 8, 4], ways)?;
    let mut made = Vec::new();
    for (i, way) in parts.into_iter().enumerate() {
        match (i, way.pages) {
            (0, _) => made.push(part(way, Joined::Main)),
            (_, 4) => made.insert(0, part(way, Joined::Wrapped)),
            _ => made.push(part(way, Joined::Inset)),
        }
    }
    Some(made)
}
