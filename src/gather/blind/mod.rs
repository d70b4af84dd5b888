//! What these marks can't show of this book, found by trying: every fault is acted out, the book is looked at, and what
//! looks alike is put together.
//!
//! | file | what it does |
//! | --- | --- |
//! | `wrong` | one thing that can be wrong, those that no mark shows among them |
//! | `acts` | everything that is acted out in a book of so many sections, and the rows that come of it |
//! | `table` | what every section that lies anyhow shows on its back by one design, and which of them look alike |
//! | `sight` | the rows as they are seen: which look right, which look like each other, and why |
//! | `change` | small changes of a design, and the first that removes a blind spot |
//! | `read` | what the reader of marks makes of a row |
//! | `say` | the sentences, here and under a verdict |
//!
//! Two rows that look alike do so because somewhere in them two different backs look alike; the first such place is the
//! reason ([`Why`]). Rows that have the same sections in the same order are one book, however it came about.
//!
//! Cost: rows acted out times sections, once for each design that is tried to the end.

mod acts;
mod change;
mod read;
mod say;
mod sight;
mod table;
mod wrong;

use serde::Serialize;

use self::acts::Books;
use self::sight::{Sight, Tally};
use self::table::Table;
use crate::marks::{BackMarks, Backs, Refusal, Warning};

pub use change::Change;
pub(super) use say::short;
pub use table::Why;
pub use wrong::{More, Wrong};

/// The most sections of a book in which every fault is acted out: some 50,000 rows of 99 backs.
pub const MOST: u32 = 99;

/// Examples that are shown of one blind spot.
const EXAMPLES: usize = 3;

/// Faults that are shown in one example.
const ALIKE: usize = 4;

/// Everything these marks can't show in one book.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BlindSpots {
    /// How many rows were acted out.
    pub acted: u32,
    /// How many of them look like a right book.
    pub look_right: u32,
    /// How many of them look like another one that is not the same book.
    pub look_alike: u32,
    /// What was not acted out in full; empty where everything named above was.
    pub sampled: Vec<String>,
    /// The blind spots.
    pub spots: Vec<Spot>,
    /// What does not fit the backs, in sentences.
    pub misfits: Vec<String>,
    /// What no mark on a back shows, in sentences.
    pub never: Vec<String>,
}

/// One blind spot: faults that don't show, or not apart, for one reason.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Spot {
    /// The reason.
    pub why: Why,
    /// It in one sentence.
    pub title: String,
    /// What to do about it at the bench.
    pub detail: String,
    /// The sections it is about, ascending; empty where it is about all of them alike.
    pub sections: Vec<u32>,
    /// How many of the faults look like a right book.
    pub look_right: u32,
    /// How many look like another fault.
    pub look_alike: u32,
    /// Some of them.
    pub examples: Vec<Example>,
    /// The smallest change of the marks that removes it, tried by acting everything out again.
    pub change: Option<Change>,
    /// The change in a sentence, or that no change of the marks removes it.
    pub remedy: String,
}

/// Faults that look the same on the backs.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Example {
    /// The faults, each a list of what is wrong at once.
    pub faults: Vec<Vec<Wrong>>,
    /// They in a sentence.
    pub says: String,
    /// What the reader of marks makes of such a book.
    pub read_as: String,
}

/// Acts out everything that is tried in a book of `sections` sections, and tells what these marks can't show of it.
/// `title` is the short title that a change may print on the backs.
///
/// # Errors
/// Where the design is of no use for such a book, and why.
pub fn blind_spots(sections: u32, marks: &BackMarks, backs: &Backs, title: &str) -> Result<BlindSpots, Refusal> {
    marks.check(sections).map_err(|refusal| match refusal.at.as_str() {
        "sections" => refusal,
        at => Refusal::new(format!("marks.{at}"), refusal.says),
    })?;
    if sections > MOST {
        return Err(Refusal::new("sections", format!("Blind spots are looked for in a book of 1 to {MOST} sections.")));
    }
    let books = Books::of(sections, marks);
    let table = Table::of(marks, sections);
    let sight = Sight::of(&books, &table, marks);
    let misfits = marks.misfits(sections, backs);
    let mut candidates = change::Candidates::of(sections, marks, backs, title, &books, &sight);
    let mut spots = Vec::new();
    let small = misfits.iter().find(|w| matches!(w, Warning::SmallStep { .. }));
    let scatter = Tally::default();
    let by_why = sight.by_why.iter().map(|(why, tally)| (*why, tally));
    for (why, tally) in by_why.chain(small.map(|_| (Why::Scatter, &scatter))) {
        let examples = tally.examples(EXAMPLES).into_iter();
        let examples = examples.map(|alike| example(why, marks, &books, &table, &alike));
        let change = candidates.first_without(why);
        spots.push(Spot {
            why,
            title: match (why, small) {
                (Why::Scatter, Some(warning)) => warning.says(),
                _ => say::title(why, sections, &table),
            },
            detail: say::detail(why, sections).to_owned(),
            sections: table.sections(why),
            look_right: tally.right.len() as u32,
            look_alike: tally.alike.len() as u32,
            examples: examples.collect(),
            remedy: change.as_ref().map_or_else(|| say::no_change(why).to_owned(), |change| change.says.clone()),
            change,
        });
    }
    spots.extend(read::otherwise(marks, &books, &table, &sight, &spots));
    // What is a spot of its own is told there.
    let other = |w: &&Warning| !matches!(w, Warning::SmallStep { .. } | Warning::InnerUnmarked { .. });
    Ok(BlindSpots {
        acted: books.acted,
        look_right: sight.by_why.values().map(|tally| tally.right.len() as u32).sum(),
        look_alike: sight.by_why.values().map(|tally| tally.alike.len() as u32).sum(),
        sampled: books.sampled.clone(),
        spots,
        misfits: misfits.iter().filter(other).map(Warning::says).collect(),
        never: say::NEVER.map(str::to_owned).to_vec(),
    })
}

/// Some rows that look alike, told and read.
fn example(why: Why, marks: &BackMarks, books: &Books, table: &Table, alike: &[usize]) -> Example {
    let faults = alike.iter().take(ALIKE).map(|&at| books.wrongs(at).to_vec()).collect::<Vec<_>>();
    let row = alike.iter().find(|&&at| at > 0).map_or(&[][..], |&at| books.row(at));
    Example { says: say::alike(why, &faults), read_as: read::as_read(marks, table, row), faults }
}

#[cfg(test)]
mod tests;
