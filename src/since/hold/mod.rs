//! Which books to hold, and which may go on.
//!
//! There are two lists. The **safe** one holds every book that may be bad as long as the fault is spread as it is taken to
//! be: all between good books, all behind the last good one, lifts of which no book was opened, and books next to stops. The
//! **likely** one is what lift, log and leftovers point at within it. What is not on the safe list may be released, each
//! stretch with its reason.
//!
//! | file | what it does |
//! | --- | --- |
//! | `safe` | the safe list |
//! | `likely` | the likely list |

mod likely;
mod safe;

use super::books::list_says;
use super::{
    Books, Bracket, Brackets, Evidence, Lift, Lifts, Opened, Pattern, Patterns, Reconciled, Refusal, Sure, Takes,
    brackets, count, in_order, joined, lifts, next_opening, patterns, reconcile, without,
};
use crate::words::{grouped, how_many};
use serde::{Deserialize, Serialize};

/// Books to hold or to release, and why.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Held {
    /// From the first to the last.
    pub books: Books,
    /// 1 where it is all of them; otherwise one in so many, beginning with the first.
    #[serde(default = "one")]
    pub every: u32,
    /// How many.
    #[serde(default)]
    pub count: u32,
    /// Why, in a sentence.
    #[serde(default)]
    pub why: String,
}

const fn one() -> u32 {
    1
}

impl Held {
    fn all(books: Books, why: impl Into<String>) -> Self {
        Self { books, every: 1, count: books.count(), why: why.into() }
    }

    /// `books 1,421 to 1,500`, or `every 4th book from 3 to 1,999`.
    #[must_use]
    pub fn says(&self) -> String {
        if self.every > 1 {
            let every = Pattern::EveryNth { every: self.every }.words();
            return format!("{every} from {} to {}", grouped(self.books.from), grouped(self.books.to));
        }
        self.books.says()
    }

    /// Whether a book is among them.
    #[must_use]
    pub const fn has(&self, counter: u32) -> bool {
        self.books.has(counter) && (self.every < 2 || (counter - self.books.from).is_multiple_of(self.every))
    }
}

/// What to hold.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Hold {
    /// How the fault is taken to be spread; none if it is not known, and then all that is not opened is held.
    pub pattern: Option<Pattern>,
    /// Every book that may be bad.
    pub safe: Vec<Held>,
    /// How many that are.
    pub safe_count: u32,
    /// What log, lift and leftovers point at.
    pub likely: Vec<Held>,
    /// How many that are.
    pub likely_count: u32,
    /// What may be released.
    pub release: Vec<Held>,
    /// How many that are.
    pub release_count: u32,
    /// What to do, in sentences; the first one can stand alone: "Hold books 1,421 to 1,500: 80 books."
    pub says: Vec<String>,
    /// The brackets.
    pub brackets: Brackets,
    /// How the fault may be spread.
    pub patterns: Patterns,
    /// The lifts of the log.
    pub lifts: Vec<Lift>,
    /// What the leftovers say.
    pub left: Reconciled,
    /// All that does not agree.
    pub disagrees: Vec<String>,
}

/// What the parts of this folder look at.
struct Known<'a> {
    evidence: &'a Evidence,
    order: Vec<Opened>,
    brackets: Brackets,
    lifts: Vec<Lift>,
    left: Reconciled,
    /// The station that is suspected, given or by leftovers.
    station: Option<u32>,
    /// How many bad books the leftovers say.
    books: Option<u32>,
    pattern: Option<Pattern>,
}

impl Known<'_> {
    /// Opened and found good, one by one.
    fn good(&self) -> Vec<Books> {
        let good = self.order.iter().filter(|o| o.judged == super::Judged::Good);
        good.map(|o| Books { from: o.counter, to: o.counter }).collect()
    }

    /// The lifts of the suspected station; of all where none is suspected.
    fn suspected(&self) -> impl Iterator<Item = &Lift> {
        self.lifts.iter().filter(|l| self.station.is_none_or(|s| s == l.station))
    }

    /// Lifts that all bad books between two good ones can have come from.
    fn lifts_for(&self, block: &Bracket) -> Vec<&Lift> {
        let line = &self.evidence.line;
        let fits = |l: &&Lift| l.possible(line).iter().any(|b| b.has(block.first_bad) && b.has(block.last_bad));
        self.suspected().filter(fits).collect()
    }
}

/// Which books to hold.
///
/// # Errors
/// Where the evidence can't be worked with.
pub fn hold(evidence: &Evidence) -> Result<Hold, Refusal> {
    evidence.check()?;
    let line = &evidence.line;
    let Lifts { lifts: all_lifts, disagrees: log_disagrees } = lifts(line, &evidence.log);
    let left = reconcile(line, &evidence.left);
    let read = patterns(line, &evidence.opened);
    let wrong = left.reckoned.iter().find_map(|r| match r.takes {
        Takes::WrongSection { at, .. } | Takes::Missing { section: at } if r.books > 1 => Some((at, r.books)),
        _ => None,
    });
    let (order, _) = in_order(&evidence.opened);
    let mut known = Known {
        evidence,
        order,
        brackets: brackets(line, &evidence.opened, None),
        lifts: all_lifts,
        station: evidence.station.or(wrong.map(|(at, _)| at)),
        books: wrong.filter(|(at, _)| evidence.station.is_none_or(|s| s == *at)).map(|(_, n)| n),
        left,
        pattern: None,
    };
    let taken = taken_as(&known, &read);
    known.pattern = taken.as_ref().map(|(p, _)| *p);
    if known.pattern == Some(Pattern::Block) {
        let size = known.books.or(evidence.lift);
        known.brackets = brackets(line, &evidence.opened, size);
    }
    let mut disagrees = known.brackets.disagrees.clone();
    disagrees.extend(log_disagrees);
    disagrees.extend(known.left.disagrees.iter().cloned());
    let safe = safe::safe(&known);
    let (likely, against) = likely::likely(&known, &safe);
    disagrees.extend(against);
    let whole: Vec<Books> = safe.iter().map(|h| h.books).collect();
    let release = released(&known, &whole);
    let count_of = |list: &[Held]| list.iter().fold(0_u32, |n, h| n.saturating_add(h.count));
    let mut hold = Hold {
        pattern: known.pattern,
        safe_count: count(&whole),
        likely_count: count_of(&likely),
        release_count: count_of(&release),
        safe,
        likely,
        release,
        says: Vec::new(),
        brackets: known.brackets.clone(),
        patterns: read,
        lifts: known.lifts.clone(),
        left: known.left.clone(),
        disagrees,
    };
    hold.says = says(&hold, evidence, taken.map(|(_, why)| why));
    Ok(hold)
}

/// How the fault is taken to be spread, and why.
fn taken_as(known: &Known<'_>, read: &Patterns) -> Option<(Pattern, String)> {
    if let Some(given) = known.evidence.pattern {
        return Some((given, format!("The fault is taken to be {}, as given.", given.words())));
    }
    let likely = read.readings.first().filter(|r| r.sure == Sure::Likely);
    if let Some(r) = likely {
        return Some((r.pattern, format!("The fault is taken to be {}. {}", r.pattern.words(), r.why)));
    }
    // A lift or as many leftovers speak for a block if a block fits at all.
    let [block] = known.brackets.blocks.as_slice() else {
        let only = known.brackets.blocks.is_empty() && known.station.is_some() && known.suspected().next().is_some();
        let why = "No bad book was opened; what is held are the lifts of the suspected station.";
        return only.then(|| (Pattern::Block, why.to_owned()));
    };
    if let Some(n) = known.books.filter(|n| block.least <= *n && *n <= block.most) {
        let why =
            format!("The fault is taken to be a block, since the leftovers speak for {}.", how_many(n, "bad book"));
        return Some((Pattern::Block, why));
    }
    let lift = known.lifts_for(block).into_iter().next().filter(|_| known.station.is_some())?;
    let why = format!(
        "The fault is taken to be a block, since the bad books lie where a lift of station {} went.",
        lift.station
    );
    Some((Pattern::Block, why))
}

/// What is not held, with the reason.
fn released(known: &Known<'_>, safe: &[Books]) -> Vec<Held> {
    let blocks = &known.brackets.blocks;
    let good = known.good();
    let reason = |books: &Books| {
        if good.len() <= 2_000 && books.from == books.to && good.iter().any(|g| g == books) {
            return "It was opened and found good.".to_owned();
        }
        let before = blocks.iter().rev().find(|b| b.last_bad < books.from);
        let after = blocks.iter().find(|b| b.first_bad > books.to);
        match (before.and_then(|b| b.first_good), after.and_then(|b| b.last_good)) {
            (Some(a), Some(b)) => format!(
                "They lie from the good book {} to the good book {}: one fault ended before, the other began after.",
                grouped(a),
                grouped(b)
            ),
            (Some(a), None) => format!("Book {} is good: the fault ended before it.", grouped(a)),
            (None, Some(b)) => format!("Book {} is good: the fault began behind it.", grouped(b)),
            (None, None) => "None of the suspected lifts went into them.".to_owned(),
        }
    };
    without(Books::all(&known.evidence.line), safe).into_iter().map(|b| Held::all(b, reason(&b))).collect()
}

/// The sentences.
fn says(hold: &Hold, evidence: &Evidence, taken: Option<String>) -> Vec<String> {
    let safe: Vec<Books> = hold.safe.iter().map(|h| h.books).collect();
    if safe.is_empty() {
        return vec!["No book has to be held.".into()];
    }
    let hold_safe = format!("{}: {}.", list_says(&joined(safe)), how_many(hold.safe_count, "book"));
    let same = hold.likely_count == hold.safe_count;
    let mut says = if same || hold.likely.is_empty() {
        vec![format!("Hold {hold_safe}")]
    } else {
        const TOLD: usize = 10;
        let mut told: Vec<String> = hold.likely.iter().take(TOLD).map(Held::says).collect();
        if hold.likely.len() > TOLD {
            told.push(format!("{} more", hold.likely.len() - TOLD));
        }
        vec![
            format!("Hold {}: {}.", told.join(", "), how_many(hold.likely_count, "book")),
            format!("To be safe, until the openings bear that out, hold {hold_safe}"),
        ]
    };
    match taken {
        Some(why) => says.push(why),
        None => says.push(
            "How the fault is spread is not known yet, so every book is held that was not opened and found good."
                .into(),
        ),
    }
    if hold.release_count > 0 {
        let list: Vec<Books> = hold.release.iter().map(|h| h.books).collect();
        says.push(format!("{} may be released: {}.", how_many(hold.release_count, "book"), list_says(&list)));
    }
    if let Some(n) = next_opening(evidence).ok().and_then(|p| p.open).filter(|_| !same || hold.pattern.is_none()) {
        says.push(format!("Open book {} next to narrow it down.", grouped(n)));
    }
    says
}
