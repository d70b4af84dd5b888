//! Evidence that contradicts itself, said in sentences that name both pieces.

use super::case::Case;
use super::read::Read;
use super::story::Stories;
use super::tally;
use super::told::{Cause, Contradiction};
use super::words::{capital, counter};
use crate::book::Book;
use crate::fold::misfold::Mark;
use crate::marks::Found;
use crate::since::Judged;

/// All of them.
pub(super) fn contradictions(
    book: &Book,
    case: &Case,
    reads: &[Read],
    stories: &[Stories],
    bad: &[Option<bool>],
    causes: &[Cause],
) -> Vec<Contradiction> {
    let mut all = Vec::new();
    for (at, (read, stories)) in (1u32..).zip(reads.iter().zip(stories)) {
        let mut said = read.contradictions.clone();
        said.extend(mark_and_inside(read));
        said.extend(openings_and_inside(read));
        said.extend(judged_good(read, stories, bad.get(at as usize - 1).copied().flatten()));
        all.extend(said.into_iter().map(|says| Contradiction { book: Some(at), says }));
    }
    let of_run = twice(reads, bad).into_iter().chain(outside(case, reads)).chain(leftovers(case, book, causes));
    all.extend(of_run.map(|says| Contradiction { book: None, says }));
    all
}

/// The mark on the back, and what the pages inside say about it.
fn mark_and_inside(read: &Read) -> Option<String> {
    let (row, opened) = (read.row.as_ref()?, read.inside.as_ref()?);
    let section = opened.section;
    let marks = opened.marks();
    let shows = row.contains(&Found::right(section));
    let there = row.iter().any(|found| matches!(found, Found::Section { section: s, .. } if *s == section));
    let blank = row.contains(&Found::NoMark);
    let name = capital(&read.name);
    if marks == [Mark::Shows] && opened.right && blank && !there {
        return Some(format!(
            "{name}: section {section} reads right with its fold at the back, so its mark should show; the spine has no such \
             mark, but a blank back."
        ));
    }
    match marks.as_slice() {
        [Mark::Blank] if shows => Some(format!(
            "{name}: with these pages section {section} has its mark inside, but on the spine its mark shows."
        )),
        [Mark::Shows] if blank && !there => Some(format!(
            "{name}: with these pages section {section} shows its mark, but on the spine no such mark shows, only a blank \
             back."
        )),
        _ => None,
    }
}

/// A section that jumps by an opening and is in order when it is read.
fn openings_and_inside(read: &Read) -> Option<String> {
    let opened = read.inside.as_ref().filter(|opened| opened.right && opened.instead.is_none())?;
    read.broken().contains(&opened.section).then(|| {
        format!(
            "{}: an opening shows section {} out of order inside, but read from front to back it is in order.",
            capital(&read.name),
            opened.section
        )
    })
}

fn judged_good(read: &Read, stories: &Stories, bad: Option<bool>) -> Option<String> {
    let good = read.seen.judged == Some(Judged::Good) && bad == Some(true);
    good.then(|| {
        let what = match stories.all.first() {
            Some(first) => super::words::faults(&first.faults),
            None => "something out of order".to_owned(),
        };
        format!("{} was judged good, but what was seen of it shows {what}.", capital(&read.name))
    })
}

/// One counter number, good and bad.
fn twice(reads: &[Read], bad: &[Option<bool>]) -> Vec<String> {
    let mut said = Vec::new();
    for (i, (one, first)) in reads.iter().zip(bad).enumerate() {
        let others = reads.iter().zip(bad).skip(i + 1);
        let same = others.filter(|(other, second)| {
            one.seen.counter.is_some()
                && other.seen.counter == one.seen.counter
                && first.zip(**second).is_some_and(|(a, b)| a != b)
        });
        if same.count() > 0
            && let Some(number) = one.seen.counter
        {
            said.push(format!("The book at counter {} is entered as good and as bad.", counter(number)));
        }
    }
    said.dedup();
    said
}

/// Books that the run did not have.
fn outside(case: &Case, reads: &[Read]) -> Vec<String> {
    let run = case.line.first..=case.line.last;
    let outside = reads.iter().filter_map(|read| read.seen.counter).filter(|number| !run.contains(number));
    let said = outside.map(|number| {
        format!(
            "Book {} is no book of this run, whose counter went from {} to {}.",
            counter(number),
            counter(case.line.first),
            counter(case.line.last)
        )
    });
    said.collect()
}

/// Leftovers that the likeliest cause leaves behind, but not in one number; and leftovers at stations that there are not.
fn leftovers(case: &Case, book: &Book, causes: &[Cause]) -> Vec<String> {
    let sections = book.sections.len() as u32;
    let strange = case.left.iter().filter(|left| left.station > sections);
    let mut said = strange
        .map(|left| format!("Leftovers are given for station {}, but the book has {sections} sections.", left.station))
        .collect::<Vec<_>>();
    if let Some(first) = causes.iter().find(|cause| cause.fits && !cause.faults.is_empty())
        && let Err(says) = tally::tally(case, &first.faults)
        && says.contains("one number")
    {
        said.push(format!("The leftovers do not agree with each other. {says}"));
    }
    said
}
