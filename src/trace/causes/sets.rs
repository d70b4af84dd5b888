//! The sets of faults that give the books of a case.

use super::Evidence;
use crate::gather::Fault;
use crate::trace::words::capital;
use std::collections::BTreeMap;

/// The most sets that are drafted. A bound of this program.
const MOST_SETS: usize = 12;
/// A set that is a part of what is wrong with a book counts for so much of it. This program's own choice.
const A_PART: f64 = 0.5;

/// Faults that give one book or several.
#[derive(Clone, Debug)]
pub(super) struct Set {
    /// The faults.
    pub faults: Vec<Fault>,
    /// Its share among all sets of all books that have one, 0 to 1.
    pub share: f64,
    /// The books of the case, from 1.
    pub books: Vec<u32>,
    /// What else speaks for it.
    pub notes: Vec<String>,
}

/// All sets, the largest share first.
pub(super) fn sets(evidence: &Evidence) -> Vec<Set> {
    let mut shares: BTreeMap<Vec<Fault>, (f64, Vec<u32>)> = BTreeMap::new();
    let wrong = evidence.stories.iter().filter(|stories| !stories.all.is_empty()).count();
    for (book, stories) in (1u32..).zip(evidence.stories) {
        for story in &stories.all {
            let entry = shares.entry(story.faults.clone()).or_default();
            entry.0 += story.share;
            if !entry.1.contains(&book) {
                entry.1.push(book);
            }
        }
    }
    // A book with two faults has each of them.
    let alone = shares.keys().cloned().collect::<Vec<_>>();
    for (book, stories) in (1u32..).zip(evidence.stories) {
        for faults in &alone {
            let part = |story: &&crate::trace::story::Story| {
                story.faults.len() > faults.len() && faults.iter().all(|fault| story.faults.contains(fault))
            };
            let share = stories.all.iter().filter(part).map(|story| story.share).sum::<f64>();
            if share > 0.0
                && let Some(entry) = shares.get_mut(faults)
                && !entry.1.contains(&book)
            {
                entry.0 += A_PART * share;
                entry.1.push(book);
            }
        }
    }
    let mut sets = shares
        .into_iter()
        .map(|(faults, (share, mut books))| {
            books.sort_unstable();
            Set { faults, share: share / wrong.max(1) as f64, books, notes: Vec::new() }
        })
        .collect::<Vec<_>>();
    halves(evidence, &mut sets);
    sets.sort_by(|one, other| other.share.total_cmp(&one.share).then_with(|| one.faults.cmp(&other.faults)));
    sets.truncate(MOST_SETS);
    sets
}

/// Half-books: the other half went into the next book.
fn halves(evidence: &Evidence, sets: &mut Vec<Set>) {
    for (book, stories) in (1u32..).zip(evidence.stories) {
        let (Some(after), Some(read)) = (stories.half, evidence.reads.get(book as usize - 1)) else { continue };
        let faults = vec![Fault::DividedWrong { after }];
        let note = format!(
            "{} is a half-book: where the slip began, it was cut off behind section {after}.",
            capital(&read.name)
        );
        match sets.iter_mut().find(|set| set.faults == faults) {
            Some(set) => {
                set.books.push(book);
                set.books.sort_unstable();
                // Two halves that make one are seldom anything else.
                set.share *= evidence.odds.agrees;
                set.notes.push(note);
            }
            None => sets.push(Set { faults, share: 1.0, books: vec![book], notes: vec![note] }),
        }
    }
}
