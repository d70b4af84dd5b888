//! Halving: where the fault begins, and where a block ends.

use super::super::{Bracket, Happened, Pattern, bound, brackets, open_next, parts, reconcile};
use super::{Known, Plan};
use crate::words::{grouped, how_many};

/// A fault from a moment on: where it begins.
pub(super) fn moment(known: &Known<'_>) -> Plan {
    let line = &known.evidence.line;
    let pattern = Some(Pattern::FromAMoment);
    let low = known.good().last().unwrap_or(line.first - 1);
    let high = known.bad().next().unwrap_or(line.last + 1);
    if low > high {
        let says = format!(
            "Book {} is bad and book {} after it is good: the fault did not go on from a moment. It is looked for as a block.",
            grouped(high),
            grouped(low)
        );
        let mut plan = block(known, Some(Pattern::Block));
        plan.says.push(says);
        return plan;
    }
    let budget = budget(line.books(), known.order.len());
    match begin(known, low, high, budget, pattern) {
        Some(plan) => plan,
        None if high > line.last => {
            let says = "No book of this run is bad, if the fault goes on once it has begun: the last book is good.";
            Plan::done(pattern, vec![says.into()])
        }
        None => Plan::done(
            pattern,
            vec![format!(
                "The fault began with book {}: {} to the end of the run.",
                grouped(high),
                how_many(line.last - high + 1, "book")
            )],
        ),
    }
}

/// How many openings may be used from here on, if at the most one more than halving needs is to be used from the start.
fn budget(books: u32, used: usize) -> u32 {
    (bound(books) + 1).saturating_sub(u32::try_from(used).unwrap_or(u32::MAX))
}

/// Halves for the beginning behind `low` and not after `high`.
fn begin(known: &Known<'_>, low: u32, high: u32, budget: u32, pattern: Option<Pattern>) -> Option<Plan> {
    let hints: Vec<u32> = beginnings(known).into_iter().filter(|h| low < *h && *h <= high).collect();
    let open = open_next(low, high, &hints, budget)?;
    let cases = u64::from(high - low);
    // Without a hint inside, halving keeps to its own bound.
    let at_most = if hints.is_empty() { parts(cases) } else { budget.max(parts(cases)) };
    let mut says = vec![
        format!("Open book {}.", grouped(open)),
        format!("At the most {} until the beginning is known.", how_many(at_most, "opening")),
    ];
    if hints.contains(&open) || hints.contains(&(open + 1)) {
        let at = if hints.contains(&open) { open } else { open + 1 };
        says.push(format!(
            "By the log the fault may well have begun with book {}, so that is looked at first.",
            grouped(at)
        ));
    } else {
        says.push("It lies in the middle of what is still open, so either finding leaves half of it.".into());
    }
    Some(Plan {
        pattern,
        open: Some(open),
        order: Vec::new(),
        at_most,
        halving: true,
        says,
        if_good: Some("If it is good, the fault began behind it.".into()),
        if_bad: Some("If it is bad, the fault began with it or before it.".into()),
    })
}

/// Where it is likelier than elsewhere that a fault began: the first book of a lift, the first one after a stop.
fn beginnings(known: &Known<'_>) -> Vec<u32> {
    let line = &known.evidence.line;
    let lifts = known.lifts();
    let loaded = lifts.iter().flat_map(|l| l.books.iter().map(|b| b.from));
    let stopped = known.evidence.log.iter().filter_map(|l| match l.what {
        Happened::Stop => Some(l.counter.saturating_add(1)),
        Happened::Jam { station } => Some(line.filled_next(station, l.counter)),
        Happened::Reload { .. } => None,
    });
    // Reloads say more than stops.
    let hints: Vec<u32> = loaded.collect();
    if hints.is_empty() { stopped.collect() } else { hints }
}

/// A block of which a bad book is known: first where it begins, then where it ends.
pub(super) fn block(known: &Known<'_>, pattern: Option<Pattern>) -> Plan {
    let line = &known.evidence.line;
    let found = brackets(line, &known.evidence.opened, None);
    // Of several blocks the one that is least known.
    let open = |b: &&Bracket| b.most > b.least;
    let Some(one) = found.blocks.iter().filter(open).max_by_key(|b| b.most - b.least) else {
        let all: Vec<String> =
            found.blocks.iter().map(|b| b.inner().says() + &format!(" ({})", how_many(b.least, "book"))).collect();
        let says = format!("Both ends are known: the block is {}.", all.join(", "));
        return Plan::done(pattern, vec![says]);
    };
    let low = one.last_good.unwrap_or(line.first - 1);
    let used = known.order.len();
    if let Some(mut plan) = begin(known, low, one.first_bad, budget(line.books(), used), pattern) {
        plan.says.push("Its end is looked for afterwards in the same way.".into());
        return plan;
    }
    end(known, one, pattern)
}

/// Halves for the first good book after a block whose beginning is known.
fn end(known: &Known<'_>, one: &Bracket, pattern: Option<Pattern>) -> Plan {
    let line = &known.evidence.line;
    let (low, high) = (one.last_bad, one.first_good.unwrap_or(line.last + 1));
    let mut hints: Vec<u32> = Vec::new();
    let mut add = |first_good: u32| {
        if low < first_good && first_good <= high {
            hints.push(first_good);
        }
    };
    for lift in known.lifts() {
        lift.books.iter().filter(|b| b.from == one.first_bad).for_each(|b| add(b.to.saturating_add(1)));
    }
    if let Some(lift) = known.lift() {
        add(one.first_bad.saturating_add(lift));
    }
    if let Some(first) = reconcile(line, &known.evidence.left).reckoned.first() {
        add(one.first_bad.saturating_add(first.books));
    }
    // As long as nobody has decided that it is a block, it may go on to the end of the run.
    if one.first_good.is_none() && known.evidence.pattern.is_none() {
        add(line.last + 1);
    }
    let after = known.order.iter().filter(|o| o.counter > one.first_bad).count();
    let budget = budget(line.last - one.first_bad, after);
    let Some(open) = open_next(low, high, &hints, budget) else {
        return Plan::done(pattern, vec![format!("The block is {}.", one.inner().says())]);
    };
    let cases = u64::from(high - low);
    let at_most = if hints.is_empty() { parts(cases) } else { budget.max(parts(cases)) };
    let mut says = vec![
        format!("Open book {}.", grouped(open)),
        format!("The block begins with book {}.", grouped(one.first_bad)),
        format!("At the most {} until its end is known.", how_many(at_most, "opening")),
    ];
    if open == line.last {
        says.push("If the last book of the run is bad, the fault went on to the end.".into());
    } else if hints.contains(&open) || hints.contains(&(open + 1)) {
        says.push("By the lift or the leftovers the block may well end there.".into());
    }
    Plan {
        pattern,
        open: Some(open),
        order: Vec::new(),
        at_most,
        halving: true,
        says,
        if_good: Some("If it is good, the block ended before it.".into()),
        if_bad: Some("If it is bad, the block ends with it or later.".into()),
    }
}
