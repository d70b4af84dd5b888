//! The pages inside one section: whether its leaves carry their own two pages, and what gives the order found.

use super::case::Inside;
use crate::book::{Book, Folios};
use crate::fold::misfold::{FoldAt, FoundPage, Given, Happened, Mark, Question, Told, acts_out_all, tell};
use crate::fold::{Direction, Scheme, library};
use crate::marks::{Lies, Refusal};

/// A leaf that does not carry its own two pages.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Torn {
    /// The leaf of the section, from 1.
    pub leaf: usize,
    /// What it carries, in words: `1 and 6`.
    pub carries: String,
}

/// A section that was opened and read.
#[derive(Clone, Debug)]
pub(super) struct Opened {
    /// The section.
    pub section: u32,
    /// The number of its first page as it was typed: a page of the book, or 1.
    pub first_page: u32,
    /// The pages as they were typed, sides that are blank in a right book filled in.
    pub pages: Vec<FoundPage>,
    /// The edge where the fold was found.
    pub fold_at: FoldAt,
    /// Leaves that do not carry their own two pages.
    pub torn: Vec<Torn>,
    /// How it should be folded, where that is known.
    pub scheme: Option<Scheme>,
    /// What the engine tells of it; nothing where no scheme gives a section of so many pages.
    pub told: Option<Told>,
    /// Whether its pages follow each other as they should, whatever section it is and however it lies.
    pub right: bool,
    /// It is another section, in order.
    pub instead: Option<u32>,
    /// How it lies, where its pages are in order.
    pub lies: Lies,
    /// Pages more (or less) than it should have.
    pub more_pages: i64,
}

impl Opened {
    /// What the back shows under a cause that gives these pages.
    pub fn mark_of(&self, happened: &Happened) -> Option<Mark> {
        let scheme = self.scheme.as_ref()?;
        match happened {
            Happened::Sheet(cause) => {
                acts_out_all(scheme, self.first_page, cause).ok()?.first().map(|acted| acted.mark)
            }
            _ => None,
        }
    }

    /// What the back can show, by everything that gives these pages; nothing where that is not known.
    pub fn marks(&self) -> Vec<Mark> {
        if self.right {
            return if self.lies == Lies::Right && self.instead.is_none() { vec![Mark::Shows] } else { Vec::new() };
        }
        let Some(told) = &self.told else { return Vec::new() };
        let causes = told.causes.iter().flat_map(|card| card.cause.iter().chain(card.alike.iter().map(|a| &a.cause)));
        let mut marks = Vec::new();
        for cause in causes {
            match self.mark_of(cause) {
                Some(mark) if !marks.contains(&mark) => marks.push(mark),
                Some(_) => {}
                None => return Vec::new(),
            }
        }
        marks
    }

    /// The leaves that are torn, in words: `leaf 1 carries 1 and 6`.
    pub fn torn_words(&self) -> String {
        let said = self.torn.iter().take(2).map(|torn| format!("leaf {} carries {}", torn.leaf, torn.carries));
        let said = said.collect::<Vec<_>>().join(", ");
        match self.torn.len().saturating_sub(2) {
            0 => said,
            1 => format!("{said}, and one more leaf is as wrong"),
            more => format!("{said}, and {more} more leaves are as wrong"),
        }
    }
}

/// The scheme by which a section of so many pages is folded: one that was given, or the first of the library.
pub(super) fn scheme_for(schemes: &[Scheme], pages: u32) -> Option<Scheme> {
    let given = schemes.iter().find(|scheme| scheme.check_size().is_ok() && scheme.pages() == pages);
    given.cloned().or_else(|| library().into_iter().map(|named| named.scheme).find(|s| s.pages() == pages))
}

/// Reads the pages of a section.
///
/// # Errors
/// Where a word is no page.
pub(super) fn read(book: &Book, schemes: &[Scheme], inside: &Inside) -> Result<Option<Opened>, Refusal> {
    let section = inside.section;
    let mut pages = inside.typed()?;
    let Some(&due) = book.sections.get((section as usize).wrapping_sub(1)) else { return Ok(None) };
    if pages.is_empty() {
        return Ok(None);
    }
    let first = book.first_of(section);
    let first_page = numbered_from(book, first, due, &pages);
    for (at, page) in (0u32..).zip(&mut pages) {
        if page.page.is_none() && at < due && is_blank(book, first.saturating_add(at)) {
            *page = FoundPage { page: first_page.checked_add(at), head: Some(Direction::Up) };
        }
    }
    let fold_at = if inside.fore_edge { FoldAt::ForeEdge } else { FoldAt::Spine };
    let scheme = scheme_for(schemes, due);
    let told = scheme.as_ref().and_then(|scheme| {
        let question = Question { scheme, inset: None, made_of: None, first_page, lanes: 1 };
        tell(&question, Given::Found(&pages, fold_at)).ok()
    });
    let in_order = |found: &[FoundPage]| {
        found.len() == due as usize
            && (first_page..).zip(found).all(|(n, page)| page.page == Some(n) && page.head != Some(Direction::Down))
    };
    let lies =
        if fold_at == FoldAt::ForeEdge { lies(first_page, due, &pages) } else { turned(first_page, due, &pages) };
    let instead = another(book, section, first_page, &pages).filter(|_| !inside.fore_edge);
    let right = match &told {
        Some(told) => told.right,
        None => in_order(&pages) && !inside.fore_edge,
    };
    let (right, lies) = (right || lies.is_some() || instead.is_some(), lies.unwrap_or(Lies::Right));
    let torn = torn(first_page, &pages);
    let more_pages = pages.len() as i64 - i64::from(due);
    Ok(Some(Opened { section, first_page, pages, fold_at, torn, scheme, told, right, instead, lies, more_pages }))
}

/// How a section lies whose pages are in order but read from the other end, or head down.
fn lies(first_page: u32, due: u32, pages: &[FoundPage]) -> Option<Lies> {
    let forward = (first_page..first_page.saturating_add(due)).map(Some).collect::<Vec<_>>();
    let backward = forward.iter().rev().copied().collect::<Vec<_>>();
    let numbers = pages.iter().map(|page| page.page).collect::<Vec<_>>();
    let all = |head: Direction| pages.iter().all(|page| page.head == Some(head));
    if numbers == forward && all(Direction::Down) {
        Some(Lies::TurnedInPlane)
    } else if numbers == backward && all(Direction::Up) {
        Some(Lies::SideToSide)
    } else {
        None
    }
}

/// The same where its fold is at the back, or nobody looked for it.
fn turned(first_page: u32, due: u32, pages: &[FoundPage]) -> Option<Lies> {
    let backward = (first_page..first_page.saturating_add(due)).rev().map(Some);
    let head_down = pages.iter().all(|page| page.head == Some(Direction::Down));
    if head_down && pages.iter().map(|page| page.page).eq(backward) {
        return Some(Lies::HeadToTail);
    }
    lies(first_page, due, pages)
}

/// The other section of the book that these pages are, in order.
fn another(book: &Book, section: u32, first_page: u32, pages: &[FoundPage]) -> Option<u32> {
    let begins = i64::from(pages.first()?.page?) - i64::from(first_page) + i64::from(book.first_of(section));
    let (other, 1) = book.section_of(u32::try_from(begins).ok()?)? else { return None };
    let due = *book.sections.get(other as usize - 1)? as usize;
    let from = pages.first()?.page?;
    let in_order = (from..).zip(pages).all(|(n, page)| page.page == Some(n) && page.head != Some(Direction::Down));
    (other != section && pages.len() == due && in_order).then_some(other)
}

/// The number of the section's first page in the way in which these pages are numbered: as printed, by the place in the
/// book, or from 1 in the section. That way is taken in which most of them are of this section.
fn numbered_from(book: &Book, first: u32, due: u32, pages: &[FoundPage]) -> u32 {
    let printed = (0..due).find_map(|offset| {
        let number = book.folio(first.saturating_add(offset))?.parse::<u32>().ok()?;
        number.checked_sub(offset).filter(|first| *first > 0)
    });
    let own = |from: u32| {
        let last = from.saturating_add(due);
        pages.iter().filter(|page| page.page.is_some_and(|n| (from..last).contains(&n))).count()
    };
    let mut best = (0, printed.unwrap_or(first));
    for from in printed.into_iter().chain([first, 1]) {
        let count = own(from);
        if count > best.0 {
            best = (count, from);
        }
    }
    best.1
}

/// Whether nothing is printed on a page of a right book.
fn is_blank(book: &Book, position: u32) -> bool {
    let mut left = position;
    for run in &book.runs {
        if left <= run.pages {
            return left > 0 && run.blank;
        }
        left -= run.pages;
    }
    // Unprinted pages at the end that no run has.
    matches!(book.runs.last().map(|run| run.folios), Some(Folios::None) | None) && position > book.pages()
}

/// Leaves that do not carry their own two pages: 1 and 2, 3 and 4 and so on, with their heads alike.
fn torn(first_page: u32, pages: &[FoundPage]) -> Vec<Torn> {
    let leaf = |page: u32| (i64::from(page) - i64::from(first_page)).div_euclid(2);
    let own = |front: &FoundPage, back: &FoundPage| match (front.page, back.page) {
        (Some(p), Some(q)) => {
            let alike = front.head.zip(back.head).is_none_or(|(a, b)| a == b);
            p != q && leaf(p) == leaf(q) && alike
        }
        _ => false,
    };
    let say = |page: &FoundPage| match (page.page, page.head) {
        (None, _) => "a blank side".to_owned(),
        (Some(n), Some(Direction::Down)) => format!("{n} head down"),
        (Some(n), _) => n.to_string(),
    };
    let leaves = (1..).zip(pages.chunks(2)).filter_map(|(at, leaf)| match leaf {
        [front, back] if !own(front, back) => {
            Some(Torn { leaf: at, carries: format!("{} and {}", say(front), say(back)) })
        }
        _ => None,
    });
    leaves.collect()
}
