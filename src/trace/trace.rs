//! A case worked through from its evidence to its causes.

use super::case::Case;
use super::causes::{Evidence, causes};
use super::contradict;
use super::extent::{self, Counted, Known};
use super::odds::Odds;
use super::plates::{self, Plates};
use super::questions::{Asked, questions};
use super::read::{self, Read, finds};
use super::story::{self, Stories};
use super::tally;
use super::told::{BookRead, Cause, Traced};
use super::words::{capital, faults, list, small};
use crate::book::Book;
use crate::fold::Scheme;
use crate::gather::run::print_run;
use crate::marks::{Design, MOST_SECTIONS, Refusal};
use crate::since::Judged;

/// The most schemes that are given. A bound of this program.
const MOST_SCHEMES: usize = 100;
/// Two causes nearer than this part are said to be undecided. This program's own choice.
const NEAR: f64 = 0.5;

/// Works through a case. `marks` is needed where a spine is given as marks; `schemes` say how sections are folded, the first
/// that gives as many pages as a section has; where none does, the first of the library.
///
/// # Errors
/// Where something is out of bounds, or what was typed can't be read: the path, and why.
pub fn trace(
    book: &Book,
    marks: Option<&Design>,
    schemes: &[Scheme],
    case: &Case,
    odds: &Odds,
) -> Result<Traced, Refusal> {
    let under = |path: &str, why: Refusal| Refusal::new(format!("{path}.{}", why.at), why.says);
    book.check().map_err(|why| under("book", why))?;
    let sections = book.sections.len() as u32;
    if sections == 0 || sections > MOST_SECTIONS {
        return Err(Refusal::new("book.sections", format!("A book here has 1 to {MOST_SECTIONS} sections.")));
    }
    if schemes.len() > MOST_SCHEMES {
        return Err(Refusal::new("schemes", format!("At most {MOST_SCHEMES} schemes are given.")));
    }
    odds.check().map_err(|why| under("odds", why))?;
    case.check(sections).map_err(|why| under("case", why))?;
    let mut reads = Vec::with_capacity(case.books.len());
    let mut all_stories = Vec::with_capacity(case.books.len());
    let mut all_plates = Vec::with_capacity(case.books.len());
    let mut rows = story::Rows::of(case.books.len(), sections as usize);
    for (at, seen) in case.books.iter().enumerate() {
        let here = |why: Refusal| match why.at.split('.').next() {
            Some("marks") => why,
            _ => under(&format!("case.books[{at}]"), why),
        };
        let mut read = read::read(book, marks, schemes, case, at, seen).map_err(here)?;
        all_stories.push(story::stories(book, case, &odds.gather, &mut rows, &mut read).map_err(here)?);
        all_plates.push(plates::read(book, seen).map_err(here)?);
        reads.push(read);
    }
    let bad = (0..reads.len()).map(|at| bad(&reads, &all_stories, &all_plates, at)).collect::<Vec<_>>();
    let mut known = known(case, &reads, &bad);
    let evidence =
        Evidence { book, case, odds, reads: &reads, stories: &all_stories, plates: &all_plates, known: &known };
    let causes = causes(&evidence);
    settle_extent(case, &mut known, &causes);
    let extent = known.extent.clone();
    let asked = Asked {
        book,
        reads: &reads,
        stories: &all_stories,
        plates: &all_plates,
        bad: &bad,
        known: &known,
        extent: &extent,
        causes: &causes,
    };
    let questions = questions(&asked);
    let contradictions = contradict::contradictions(book, case, &reads, &all_stories, &bad, &causes);
    let cannot_tell = cannot_tell(&reads, &all_stories, &causes);
    let books = told_books(book, &reads, &all_stories, &all_plates, &bad);
    let right = !books.is_empty() && bad.iter().all(|bad| *bad == Some(false));
    Ok(Traced { books, questions, contradictions, causes, extent, cannot_tell, right, odds: odds.figures() })
}

/// Whether a book is bad; nothing where neither evidence nor judgement says.
fn bad(reads: &[Read], stories: &[Stories], plates: &[Plates], at: usize) -> Option<bool> {
    let (read, stories, plates) = (reads.get(at)?, stories.get(at)?, plates.get(at)?);
    let seen_wrong = (!stories.all.is_empty() && read.orders())
        || stories.beyond
        || stories.half.is_some()
        || stories.only_counted != 0
        || read.inside.as_ref().is_some_and(|inside| !inside.right)
        || !plates.right()
        || !read.broken().is_empty();
    if seen_wrong {
        return Some(true);
    }
    match read.seen.judged {
        Some(Judged::Bad) => Some(true),
        Some(Judged::Good) => Some(false),
        None if !stories.all.is_empty() => Some(true),
        None if stories.right || (read.looked_at() && plates.looked) => Some(false),
        None if read.inside.as_ref().is_some_and(|inside| inside.right) => Some(false),
        None => None,
    }
}

/// The extent by all books that have a counter number and are judged, by evidence or by a person.
fn known(case: &Case, reads: &[Read], bad: &[Option<bool>]) -> Known {
    let mut counted = Vec::new();
    let mut uncounted = 0;
    for (read, bad) in reads.iter().zip(bad) {
        match (read.seen.counter, bad) {
            (Some(counter), Some(bad)) => counted.push(Counted { counter, bad: *bad }),
            (None, Some(true)) => uncounted += 1,
            _ => {}
        }
    }
    extent::extent(case, &counted, uncounted)
}

/// The extent in the light of the likeliest cause: how many books by the leftovers, and which.
fn settle_extent(case: &Case, known: &mut Known, causes: &[Cause]) {
    let Some(first) = causes.iter().find(|cause| cause.fits) else { return };
    let tally = tally::tally(case, &first.faults).ok().flatten();
    let stations = first.station.into_iter().collect::<Vec<_>>();
    let likely = tally::with_tally(case, &known.likely, tally, &stations);
    let (pattern, or, sure) = extent::judge(&likely);
    known.extent.tally = tally;
    if known.known || tally.is_some() {
        known.extent.pattern = pattern;
        known.extent.or = or;
        known.extent.sure = sure;
    }
    known.extent.books = first.counters;
}

fn told_books(
    book: &Book,
    reads: &[Read],
    stories: &[Stories],
    plates: &[Plates],
    bad: &[Option<bool>],
) -> Vec<BookRead> {
    let mut told = Vec::new();
    for (at, ((read, stories), plates)) in reads.iter().zip(stories).zip(plates).enumerate() {
        let row = read.row.clone().unwrap_or_default();
        told.push(BookRead {
            book: at as u32 + 1,
            counter: read.seen.counter,
            name: capital(&read.name),
            finds: finds(read),
            run: print_run(&row),
            row,
            says: says(book, read, stories, plates),
            right: bad.get(at).copied().flatten().map(|bad| !bad),
        });
    }
    told
}

/// What is wrong with a book, in a sentence.
fn says(book: &Book, read: &Read, stories: &Stories, plates: &Plates) -> String {
    let mut said = Vec::new();
    if let Some(first) = stories.all.first() {
        let others = stories.all.len() - 1;
        let or = match others {
            0 => String::new(),
            1 => ", or made in another way".to_owned(),
            n => format!(", or made in one of {n} other ways"),
        };
        said.push(format!("{}{or}", faults(&first.faults)));
    }
    if stories.beyond {
        said.push("more faults than can be told: lay a good set of sections beside it and read the signatures".into());
    }
    if let Some(after) = stories.half {
        said.push(format!("a half-book, parted behind section {after}"));
    }
    match stories.only_counted {
        0 => {}
        n if n < 0 => said.push(format!("{} too few, not known which", read::sections(n))),
        n => said.push(format!("{} too many, not known which", read::sections(n))),
    }
    if let Some(inside) = read.inside.as_ref().filter(|inside| !inside.right) {
        said.push(format!("section {} out of order inside", inside.section));
    } else {
        said.extend(read.broken().iter().map(|section| format!("section {section} out of order inside")));
    }
    said.extend(plates.says(book));
    if said.is_empty() {
        return match (stories.right || plates.looked, read.looked_at(), read.seen.judged) {
            (_, false, Some(Judged::Bad)) => "Judged bad; nobody said what is wrong with it.".to_owned(),
            (_, true, Some(Judged::Bad)) => "Judged bad, but what was seen is right. Look at what was not.".to_owned(),
            (_, false, Some(Judged::Good)) => "Judged good.".to_owned(),
            (true, ..) => "In order, as far as it was seen.".to_owned(),
            _ => "Nothing is known of it yet.".to_owned(),
        };
    }
    format!("{}.", capital(&list(&said)))
}

/// What can't be told apart, or was not looked at.
fn cannot_tell(reads: &[Read], stories: &[Stories], causes: &[Cause]) -> Vec<String> {
    let mut said = Vec::new();
    let fits = causes.iter().filter(|cause| cause.fits).collect::<Vec<_>>();
    if let [first, second, ..] = fits.as_slice()
        && second.share > NEAR * first.share
    {
        said.push(format!(
            "What is known does not decide between the first two causes: {}, or {}. The next checks do.",
            small(first.title.trim_end_matches('.')),
            small(second.title.trim_end_matches('.'))
        ));
    }
    for told in reads.iter().filter_map(|read| read.inside.as_ref().filter(|inside| !inside.right)?.told.as_ref()) {
        said.extend(told.cannot_tell.iter().map(|says| says.replace("the one beside it", "the next one")));
    }
    if !reads.is_empty() && reads.iter().all(|read| read.inside.is_none()) {
        said.push("Press faults: nobody read the pages inside a section, and marks stay right under them.".to_owned());
    }
    if reads.iter().any(|read| read.spine.is_some()) {
        said.push("Another book with the same marks: its sections look like ours along the spine.".to_owned());
    }
    for (read, stories) in reads.iter().zip(stories) {
        if stories.beyond {
            said.push(format!("{}: no few faults make it what it is.", capital(&read.name)));
        }
        if read.row.as_ref().is_some_and(|row| row.contains(&crate::marks::Found::Unread)) {
            said.push(format!("{}: backs that can't be read may be anything.", capital(&read.name)));
        }
    }
    said
}
