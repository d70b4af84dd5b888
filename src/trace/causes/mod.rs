//! The causes, drafted from what is wrong, weighed by the evidence, and ranked.
//!
//! | file | what it does |
//! | --- | --- |
//! | `draft` | a cause before it is weighed |
//! | `of_row` | what can have done a fault to the row of sections |
//! | `of_section` | what can have given the pages inside a section |
//! | `weigh` | extent, leftovers, log and detectors against a draft |
//! | `sets` | the sets of faults that give the books of a case |
//! | `rivals` | causes that a person thinks of, refused by the first place where their book is another one |
//! | `caution` | what to mind while looking |

mod caution;
mod draft;
mod of_row;
mod of_section;
mod rivals;
mod sets;
mod weigh;

pub(super) use draft::{Draft, likes};
pub(super) use weigh::books as how_many;

use super::case::Case;
use super::extent::Known;
use super::odds::Odds;
use super::plates::Plates;
use super::read::{Read, spine_words};
use super::story::Stories;
use super::told::{Cause, Stage};
use super::words::{list, numbers, small};
use crate::book::Book;
use crate::gather::run::print_run;
use crate::gather::{Fault, retold};
use crate::marks::Found;
use sets::Set;
use weigh::{Scales, Weighed, weigh};

/// The most causes that are shown. A bound of this program.
const MOST_CAUSES: usize = 24;
/// Below this part of the likeliest cause a cause is not shown. This program's own choice.
const TOO_FAINT: f64 = 0.0005;

/// All that causes are drawn from.
pub(super) struct Evidence<'a> {
    pub book: &'a Book,
    pub case: &'a Case,
    pub odds: &'a Odds,
    pub reads: &'a [Read<'a>],
    pub stories: &'a [Stories],
    pub plates: &'a [Plates],
    pub known: &'a Known,
}

impl<'a> Evidence<'a> {
    pub fn sections(&self) -> u32 {
        self.book.sections.len() as u32
    }

    fn scales(&self, books: &[u32]) -> Scales<'a> {
        let reads = books.iter().filter_map(|book| self.reads.get(*book as usize - 1)).collect();
        Scales { case: self.case, odds: self.odds, known: self.known, reads }
    }
}

/// A draft weighed, with the books it gives.
struct Ranked {
    draft: Draft,
    weighed: Weighed,
    books: Vec<u32>,
    weight: f64,
}

/// All causes, ranked.
pub(super) fn causes(evidence: &Evidence) -> Vec<Cause> {
    let mut ranked = Vec::new();
    let sets = sets::sets(evidence);
    for set in &sets {
        of_set(evidence, set, &mut ranked);
    }
    of_insides(evidence, &mut ranked);
    of_jumps(evidence, &mut ranked);
    for (book, plates) in (1u32..).zip(evidence.plates) {
        for draft in plates.drafts(evidence.book) {
            push(evidence, draft, &[book], 1.0, &mut ranked);
        }
    }
    of_counts(evidence, &mut ranked);
    join_alike(&mut ranked);
    ranked.sort_by(|one, other| {
        let fits = |ranked: &Ranked| ranked.draft.refused.is_empty();
        fits(other)
            .cmp(&fits(one))
            .then_with(|| other.weight.total_cmp(&one.weight))
            .then_with(|| one.draft.title.cmp(&other.draft.title))
    });
    let best = ranked.first().filter(|first| first.draft.refused.is_empty()).map_or(0.0, |first| first.weight);
    // Two things at once that are refused are no help to anybody.
    ranked.retain(|one| match one.draft.refused.is_empty() {
        true => one.weight >= TOO_FAINT * best,
        false => one.draft.weight >= 1.0,
    });
    ranked.truncate(MOST_CAUSES);
    let sum = ranked.iter().filter(|r| r.draft.refused.is_empty()).map(|r| r.weight).sum::<f64>();
    let mut causes = ranked.iter().map(|one| told(evidence, one, sum, best)).collect::<Vec<_>>();
    causes.extend(rivals::rivals(evidence, &causes));
    causes
}

fn push(evidence: &Evidence, draft: Draft, books: &[u32], share: f64, ranked: &mut Vec<Ranked>) {
    let weighed = weigh(&draft, &evidence.scales(books));
    let weight = weighed.weight * share;
    ranked.push(Ranked { draft, weighed, books: books.to_vec(), weight });
}

/// What can have done one set of faults.
fn of_set(evidence: &Evidence, set: &Set, ranked: &mut Vec<Ranked>) {
    match set.faults.as_slice() {
        [] => {}
        // A blank back whose section was opened: its pages say more.
        [Fault::NoMark { at }] if set.books.iter().any(|book| opened_at(evidence, *book) == Some(*at)) => {}
        [fault] => {
            for mut draft in of_row::drafts(fault) {
                draft.notes.extend(set.notes.clone());
                push(evidence, draft, &set.books, set.share, ranked);
            }
        }
        several => together(evidence, set, several, ranked),
    }
}

/// The section that was opened in a book and is wrong inside.
fn opened_at(evidence: &Evidence, book: u32) -> Option<u32> {
    let inside = evidence.reads.get(book as usize - 1)?.inside.as_ref()?;
    (!inside.right).then_some(inside.section)
}

/// Several faults in one book: hands did it at one go, or each has a cause of its own.
fn together(evidence: &Evidence, set: &Set, faults: &[Fault], ranked: &mut Vec<Ranked>) {
    let each = faults.iter().map(|fault| {
        let drafts = of_row::drafts(fault).into_iter().map(|draft| {
            let weight = weigh(&draft, &evidence.scales(&set.books)).weight;
            (weight, draft)
        });
        let mut drafts = drafts.collect::<Vec<_>>();
        drafts.sort_by(|(one, _), (other, _)| other.total_cmp(one));
        drafts.into_iter().map(|(_, draft)| draft).collect::<Vec<_>>()
    });
    let each = each.collect::<Vec<_>>();
    let first = each.first().map_or(0, Vec::len).min(3);
    for choice in 0..first {
        let parts = each.iter().enumerate().filter_map(|(i, drafts)| drafts.get(if i == 0 { choice } else { 0 }));
        if let Some(draft) = joined(evidence.odds, faults, parts.collect::<Vec<_>>()) {
            push(evidence, draft, &set.books, set.share, ranked);
        }
    }
    let hands = Draft::new(
        "filled_by_hand",
        Stage::Gathering,
        faults,
        "The book was filled up by hand after a stop, and more than one section put wrong.".to_owned(),
    );
    let hands = hands
        .likes(likes::STOP)
        .wish(draft::Wish::Stop)
        .check("Read the log of stops, and open the books on either side of each.")
        .remedy("Lay the sections in order again before sewing; a sewn book is cut apart and sewn again.");
    let dropped = Draft::new(
        "dropped",
        Stage::Hand,
        faults,
        "The stack was dropped or taken apart, and laid together again in another order.".to_owned(),
    );
    let dropped = dropped
        .likes(likes::ONCE)
        .check("Open the books on either side, and look for what is missing or too many in those that lay with it.")
        .remedy("Lay the sections in order again before sewing; a sewn book is cut apart and sewn again.");
    for draft in [hands, dropped] {
        push(evidence, draft, &set.books, set.share, ranked);
    }
}

/// Several causes as one.
fn joined(odds: &Odds, faults: &[Fault], parts: Vec<&Draft>) -> Option<Draft> {
    let (first, others) = parts.split_first()?;
    let mut draft = (*first).clone();
    draft.faults = faults.to_vec();
    for other in others {
        draft.title = format!("{}, and {}", draft.title.trim_end_matches('.'), small(&other.title));
        draft.check = format!("{} Then: {}", draft.check, other.check);
        if draft.remedy != other.remedy {
            draft.remedy = format!("{} {}", draft.remedy, other.remedy);
        }
        draft.likes.iter_mut().zip(other.likes).for_each(|(one, other)| *one *= other);
        // Against the commonest thing that happens, so that two rare ones are rarer than two common ones.
        draft.weight *= other.weight * odds.of(other.kind) / odds.station_missed.max(1.0);
        draft.notes.extend(other.notes.clone());
    }
    Some(draft)
}

/// Sections that were opened and are wrong inside.
fn of_insides(evidence: &Evidence, ranked: &mut Vec<Ranked>) {
    for (book, read) in (1u32..).zip(evidence.reads) {
        let Some(opened) = read.inside.as_ref().filter(|opened| !opened.right) else { continue };
        let stories = evidence.stories.get(book as usize - 1);
        let blank = Fault::NoMark { at: opened.section };
        let hidden = stories.is_some_and(|s| s.all.iter().any(|story| story.faults == [blank]));
        let faults = if hidden { vec![blank] } else { Vec::new() };
        // With openings and a count alone it is not known which back is blank.
        for draft in of_section::drafts(opened, &faults, read.row.as_deref()) {
            push(evidence, draft, &[book], 1.0, ranked);
        }
    }
}

/// Sections that jump inside by an opening, and that nobody read from front to back.
fn of_jumps(evidence: &Evidence, ranked: &mut Vec<Ranked>) {
    for (book, read) in (1u32..).zip(evidence.reads) {
        for section in read.broken() {
            let blank = Fault::NoMark { at: section };
            let told = opened_at(evidence, book) == Some(section)
                || evidence
                    .stories
                    .get(book as usize - 1)
                    .is_some_and(|s| s.all.iter().any(|t| t.faults.contains(&blank)));
            if told {
                continue;
            }
            let check = format!(
                "Read the pages of section {section} from front to back. If a leaf does not carry its own two pages, it was \
                 the press; if all do, the folder."
            );
            let folder = Draft::new(
                "folder_set_up",
                Stage::Folder,
                &[],
                format!("Section {section} was folded, or fed to the folder, the wrong way."),
            );
            let press = Draft::new("pile_turned", Stage::Press, &[], format!("Section {section} was printed wrongly."));
            let shows = read.row.as_ref().is_some_and(|row| row.contains(&Found::right(section)));
            for mut draft in [folder, press] {
                if shows && draft.stage == Stage::Folder {
                    draft.refused.push(format!(
                        "Folded wrongly, section {section} would have its mark inside. On the spine it shows."
                    ));
                }
                push(evidence, draft.of(section).check(check.clone()).likes([1.0; 7]), &[book], 1.0, ranked);
            }
        }
    }
}

/// Too few or too many sections, and nothing that says which.
fn of_counts(evidence: &Evidence, ranked: &mut Vec<Ranked>) {
    for (book, stories) in (1u32..).zip(evidence.stories) {
        let n = stories.only_counted;
        if n == 0 {
            continue;
        }
        let many = super::words::many(n.unsigned_abs(), "section");
        let (kind, title) = if n < 0 {
            (
                "station_missed",
                format!("{} less: a station fed nothing. It is not known which.", super::words::capital(&many)),
            )
        } else {
            ("two_fed", format!("{} more: a station fed two. It is not known which.", super::words::capital(&many)))
        };
        let draft = Draft::new(kind, Stage::Gathering, &[], title)
            .likes(likes::FEED)
            .check("Read the marks along the spine, or the folios where sections meet; they name the section.")
            .remedy("Mend the book before sewing; a sewn book is cut apart and sewn again.");
        push(evidence, draft, &[book], 1.0, ranked);
    }
}

/// The same cause of several books is one.
fn join_alike(ranked: &mut Vec<Ranked>) {
    let mut joined: Vec<Ranked> = Vec::new();
    for one in ranked.drain(..) {
        let same = |other: &&mut Ranked| {
            (other.draft.kind, &other.draft.title, &other.draft.faults, &other.draft.refused)
                == (one.draft.kind, &one.draft.title, &one.draft.faults, &one.draft.refused)
        };
        match joined.iter_mut().find(same) {
            Some(other) => {
                other.books.extend(one.books);
                other.books.sort_unstable();
                other.books.dedup();
                other.weight += one.weight;
            }
            None => joined.push(one),
        }
    }
    *ranked = joined;
}

/// A cause as it is told.
fn told(evidence: &Evidence, one: &Ranked, sum: f64, best: f64) -> Cause {
    let Ranked { draft, weighed, books, weight } = one;
    let fits = draft.refused.is_empty();
    let (row, places) = acted_row(evidence.sections(), &draft.faults);
    let mut why = Vec::new();
    if !row.is_empty() && fits {
        let faults = super::words::faults(&draft.faults);
        let alone = if draft.faults.len() == 1 { "One fault" } else { "As few faults as can be" };
        why.push(format!("{alone}, {faults}, and a right book reads {}.", spine_words(&row)));
    }
    if books.len() > 1 {
        let reads = books.iter().filter_map(|book| evidence.reads.get(*book as usize - 1)).collect::<Vec<_>>();
        let mut counters = reads.iter().filter_map(|read| read.seen.counter).collect::<Vec<_>>();
        counters.sort_unstable();
        counters.dedup();
        let named = reads.iter().map(|read| read.name.clone()).collect::<Vec<_>>();
        let all = if counters.len() == books.len() { format!("books {}", numbers(&counters)) } else { list(&named) };
        why.push(format!("It gives {all} alike."));
    }
    why.extend(weighed.why.iter().cloned());
    why.extend(draft.notes.iter().cloned());
    let stated = crate::units::short(evidence.odds.of(draft.kind));
    why.push(format!("Its stated weight is {stated}, against other things that happen."));
    let mut against = draft.refused.clone();
    against.extend(weighed.against.iter().cloned());
    if fits && against.is_empty() && *weight < 0.999 * best {
        against.push("Nothing that was seen speaks against it; by the stated weights it is rarer here.".to_owned());
    }
    Cause {
        kind: draft.kind.to_owned(),
        stage: draft.stage,
        place: draft.stage.name().to_owned(),
        station: draft.station,
        section: draft.section,
        title: draft.title.clone(),
        fits,
        share: if fits && sum > 0.0 { weight / sum } else { 0.0 },
        faults: draft.faults.clone(),
        run: print_run(&row),
        row,
        places,
        books: books.clone(),
        counters: weighed.counters,
        why,
        against,
        next_check: draft.check.clone(),
        caution: caution::caution(draft.stage),
        remedy: draft.remedy.clone(),
        inside: draft.inside.clone(),
    }
}

/// The row that faults make, and the places at which it is not a right one.
fn acted_row(sections: u32, faults: &[Fault]) -> (Vec<Found>, Vec<u32>) {
    if faults.is_empty() {
        return (Vec::new(), Vec::new());
    }
    let row = retold(sections, faults);
    let places = (1u32..).zip(&row).filter(|(place, found)| **found != Found::right(*place)).map(|(place, _)| place);
    let places = places.collect();
    (row, places)
}
