//! What is done where halving won't work: steps, neighbours, samples.

use super::super::sample::{draw, proves, sample_size};
use super::super::{Books, Pattern, brackets, without};
use super::{Known, Plan};
use crate::words::{grouped, how_many};

/// Nothing is known but good books, or no book at all.
pub(super) fn undecided(known: &Known<'_>) -> Plan {
    let last = known.evidence.line.last;
    if known.is_opened(last) {
        return hit(known, None);
    }
    let why = "As long as no bad book is known, the last book of the run says most: if it is bad, the fault still went on at \
               the end, and halving finds where it began.";
    let mut plan = Plan::in_order(None, vec![last], vec![why.into()]);
    plan.if_good = Some("If it is good, it was a block, single books, or nothing; halving does not find those.".into());
    plan.if_bad = Some("If it is bad, the fault went on to the end.".into());
    plan
}

/// A block that has yet to be hit: no two neighbouring openings further apart than a lift.
pub(super) fn hit(known: &Known<'_>, pattern: Option<Pattern>) -> Plan {
    let line = &known.evidence.line;
    let good: Vec<Books> = known.good().map(|n| Books { from: n, to: n }).collect();
    let gaps = without(Books::all(line), &good);
    let Some(lift) = known.lift() else {
        let largest = gaps.iter().max_by_key(|g| (g.count(), std::cmp::Reverse(g.from)));
        let order = largest.map(|g| g.from.midpoint(g.to)).into_iter().collect();
        let says = "Halving does not find a block: a good book says nothing of those before or behind it. Say how many \
                    sections are loaded at once, and the books can be stepped through by that.";
        return Plan::in_order(pattern, order, vec![says.into()]);
    };
    // The middle of each lift that is suspected first, then every gap that is large enough for one.
    let mut order: Vec<u32> = Vec::new();
    let middles = known.lifts().into_iter().flat_map(|l| l.books).map(|b| b.from.midpoint(b.to));
    for middle in middles {
        let wide = gaps.iter().any(|g| g.has(middle) && g.count() >= lift);
        if wide && !order.contains(&middle) {
            order.push(middle);
        }
    }
    let known_then: Vec<Books> = good.iter().copied().chain(order.iter().map(|n| Books { from: *n, to: *n })).collect();
    for gap in without(Books::all(line), &known_then) {
        let steps = (1..=gap.count() / lift).map(|i| gap.from + i * lift - 1);
        order.extend(steps.take((super::MOST_PLANNED + 1).saturating_sub(order.len())));
    }
    if order.is_empty() {
        let says = format!(
            "There is no room left for a bad lift of {}: between good books and at the ends fewer are unopened.",
            how_many(lift, "section")
        );
        return Plan::done(pattern, vec![says]);
    }
    let says = vec![
        format!(
            "Halving does not find a block: a good book says nothing of those before or behind it. Stepping by the lift of \
             {} hits a whole one in {} at the most.",
            how_many(lift, "section"),
            if order.len() > super::MOST_PLANNED {
                "very many openings".to_owned()
            } else {
                how_many(order.len() as u32, "opening")
            }
        ),
        "Once one bad book is found, halving finds both ends.".into(),
    ];
    let mut plan = Plan::in_order(pattern, order, says);
    plan.if_good = Some("If it is good, no whole bad lift lies around it.".into());
    plan.if_bad = Some("If it is bad, the two ends are looked for by halving.".into());
    plan
}

/// A bad book is known and nothing is decided: what decides most, or nothing if all of it is opened.
pub(super) fn decide(known: &Known<'_>) -> Option<Plan> {
    let line = &known.evidence.line;
    let found = brackets(line, &known.evidence.opened, None);
    let [one] = found.blocks.as_slice() else { return None };
    // Two bad books already say that it is more than one.
    if one.found_bad > 1 {
        return None;
    }
    let n = one.first_bad;
    let beside = [n.saturating_sub(1), n + 1];
    let order: Vec<u32> = beside.into_iter().filter(|m| one.outer(line).has(*m) && !known.is_opened(*m)).collect();
    if order.is_empty() {
        return None;
    }
    let says = format!(
        "The books next to a bad one decide what is looked for: one bad neighbour means a block or a fault from a moment on, \
         whose ends halving finds; two good ones mean that book {} stands alone.",
        grouped(n)
    );
    let first = known.read.readings.first().map(|r| r.pattern);
    let mut plan = Plan::in_order(first, order, vec![says]);
    plan.if_good = Some("If it is good, the fault does not go on that way.".into());
    plan.if_bad = Some("If it is bad, it is more than one book.".into());
    Some(plan)
}

/// One book: those next to it, and nothing more.
pub(super) fn neighbours(known: &Known<'_>) -> Plan {
    let pattern = Some(Pattern::OneBook);
    let Some(n) = known.bad().next() else {
        let mut plan = sample(known);
        plan.pattern = pattern;
        let says = "Halving does not find a single book; it takes opening all, or a sample with what it proves.";
        plan.says.push(says.into());
        return plan;
    };
    let line = &known.evidence.line;
    let beside = [n.saturating_sub(1), n.saturating_add(1)];
    let order: Vec<u32> = beside.into_iter().filter(|m| Books::all(line).has(*m) && !known.is_opened(*m)).collect();
    let says = if order.is_empty() {
        format!("Book {} stands alone: the books on both sides of it were opened.", grouped(n))
    } else {
        "If the books on both sides are good, it stands alone.".into()
    };
    Plan::in_order(pattern, order, vec![says])
}

/// Every so many books: neighbours until one is bad, then the books at the same distance.
pub(super) fn every(known: &Known<'_>, every: u32) -> Plan {
    let line = &known.evidence.line;
    let (whole, pattern) = (Books::all(line), Some(Pattern::EveryNth { every }));
    let halving = "Halving does not find every so many books: good and bad ones stand side by side.";
    let Some(n) = known.bad().next() else {
        // Each good book clears all at the same distance from it.
        let cleared = |m: u32| known.good().any(|g| g.abs_diff(m).is_multiple_of(every));
        let from = line.first.midpoint(line.last).min(line.last.saturating_sub(every - 1)).max(line.first);
        let order: Vec<u32> = (0..every)
            .map(|i| from + i)
            .take_while(|m| *m <= line.last)
            .filter(|m| !cleared(*m))
            .take(super::MOST_PLANNED)
            .collect();
        if order.is_empty() {
            let says = format!("One book of each {} is open and good: none is bad at this distance.", grouped(every));
            return Plan::done(pattern, vec![says]);
        }
        let says = format!("{halving} Open {} that follow one another: one of them is bad.", how_many(every, "book"));
        return Plan::in_order(pattern, order, vec![says]);
    };
    // The same distance near by and far off, and one beside.
    let rest = n % every;
    let up = |m: u32| m.checked_add((every + rest - m % every) % every);
    let near_end = line.last - (line.last % every + every - rest) % every;
    let is_bad = |m: Option<u32>| m.is_some_and(|m| known.bad().any(|b| b == m));
    let pair = known.bad().any(|b| is_bad(b.checked_add(every)));
    let beside = known.bad().any(|b| known.good().any(|g| g.abs_diff(b) == 1));
    let next = if n.saturating_add(every) > line.last { n.checked_sub(every) } else { n.checked_add(every) };
    let side = if n == line.last { n.checked_sub(1) } else { n.checked_add(1) };
    let wanted = [next.filter(|_| !pair), side.filter(|_| !beside), up(line.first), Some(near_end)];
    let mut order: Vec<u32> = Vec::new();
    for m in wanted.into_iter().flatten() {
        if whole.has(m) && !known.is_opened(m) && !order.contains(&m) {
            order.push(m);
        }
    }
    let odd = known.bad().find(|b| b % every != rest);
    let right = known.good().find(|g| g % every == rest);
    let mut says = if let Some(odd) = odd {
        vec![format!(
            "Book {} is bad and does not lie a multiple of {} from book {}.",
            grouped(odd),
            grouped(every),
            grouped(n)
        )]
    } else if let Some(right) = right {
        vec![format!(
            "Book {} is good although it lies a multiple of {} from book {}: it began or ended between, or the distance is \
             another.",
            grouped(right),
            grouped(every),
            grouped(n)
        )]
    } else if order.is_empty() {
        let first = up(line.first).unwrap_or(n);
        let many = (line.last - first) / every + 1;
        vec![format!(
            "It is {} from book {} on: {}.",
            Pattern::EveryNth { every }.words(),
            grouped(first),
            how_many(many, "book")
        )]
    } else {
        Vec::new()
    };
    if !order.is_empty() {
        says.push(format!("{halving} Book {} is bad; books at the same distance near by and far off should be, and the one beside it not.", grouped(n)));
    }
    Plan::in_order(pattern, order, says)
}

/// Scattered books: a sample.
pub(super) fn sample(known: &Known<'_>) -> Plan {
    let line = &known.evidence.line;
    let opened: Vec<u32> = known.order.iter().map(|o| o.counter).collect();
    let lot = line.books() - opened.len() as u32;
    let pattern = Some(Pattern::Scattered);
    if lot == 0 {
        return Plan::done(pattern, vec!["All books of the run are open.".into()]);
    }
    let size = sample_size(lot);
    let order = draw(Books::all(line), &opened, size, known.evidence.seed);
    let says = vec![
        format!(
            "Halving does not find scattered books: one book says nothing of another. Open a sample of {} drawn at random \
             from the {} that are not opened (size by ISO 2859-1, normal inspection, level II).",
            grouped(size),
            grouped(lot)
        ),
        proves(lot, size),
    ];
    let mut plan = Plan::in_order(pattern, order, says);
    plan.if_good = Some("A good one is one more of the sample.".into());
    plan.if_bad = Some("Every bad one in the sample means many in the lot: then all books are opened.".into());
    plan
}

/// The whole run: its ends and its middle.
pub(super) fn whole(known: &Known<'_>) -> Plan {
    let line = &known.evidence.line;
    let pattern = Some(Pattern::WholeRun);
    if let Some(good) = known.good().next() {
        let mut plan = undecided(known);
        if known.bad().next().is_some() {
            plan = super::ends::block(known, None);
        }
        plan.says.push(format!("Book {} is good: it is not the whole run.", grouped(good)));
        return plan;
    }
    let mut order: Vec<u32> = Vec::new();
    for n in [line.first, line.last, line.first.midpoint(line.last)] {
        if !known.is_opened(n) && !order.contains(&n) {
            order.push(n);
        }
    }
    let says = if order.is_empty() {
        "The first, the middle and the last book are bad: look at how the line was set up."
    } else {
        "If the first, the last and one in the middle are bad, it is the whole run: look at how the line was set up."
    };
    Plan::in_order(pattern, order, vec![says.into()])
}
