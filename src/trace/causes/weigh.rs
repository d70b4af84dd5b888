//! How well the evidence goes with a cause: extent, leftovers, the log, what stopped the line.

use super::draft::{Draft, Wish};
use crate::gather::Fault;
use crate::since::{Fed, Happened, Line};
use crate::trace::case::{Case, Stopper};
use crate::trace::extent::{self, Known, Likely, expected, judge, span};
use crate::trace::odds::Odds;
use crate::trace::read::{Read, stopper};
use crate::trace::told::Pattern;
use crate::trace::words::{counter, many};

/// So many books behind a stop may still be of it, beside those on the line (from memory: a restart spoils a handful).
const NEAR_STOP: u32 = 20;
/// So many books may lie between a station and the counter where nobody said how many (from memory: about as many as a
/// line has stations, and the belt behind it).
const ON_THE_LINE: u32 = 60;

/// A cause weighed.
#[derive(Clone, Debug, Default)]
pub(in crate::trace) struct Weighed {
    /// Its weight against others.
    pub weight: f64,
    /// What speaks for it.
    pub why: Vec<String>,
    /// What speaks against it.
    pub against: Vec<String>,
    /// The books it makes wrong, where they can be reckoned.
    pub counters: Option<[u32; 2]>,
}

/// What a draft is weighed by.
pub(in crate::trace) struct Scales<'a> {
    pub case: &'a Case,
    pub odds: &'a Odds,
    pub known: &'a Known,
    /// The books that the draft gives.
    pub reads: Vec<&'a Read<'a>>,
}

/// Weighs a draft.
pub(in crate::trace) fn weigh(draft: &Draft, scales: &Scales) -> Weighed {
    let mut weighed = Weighed { weight: scales.odds.of(draft.kind) * draft.weight, ..Weighed::default() };
    let tally = by_leftovers(draft, scales, &mut weighed);
    by_log(draft, scales, &mut weighed);
    by_stopper(draft, scales, &mut weighed);
    by_extent(draft, scales, tally, &mut weighed);
    if weighed.counters.is_none() {
        weighed.counters = reckoned(scales, tally);
    }
    weighed
}

fn stations(draft: &Draft) -> Vec<u32> {
    let mut stations = draft.station.into_iter().collect::<Vec<_>>();
    for fault in &draft.faults {
        match *fault {
            Fault::Missing { section } | Fault::Double { section } | Fault::Lies { section, .. } => {
                stations.push(section)
            }
            Fault::WrongSection { at, .. } | Fault::Foreign { at } | Fault::NoMark { at } => stations.push(at),
            Fault::Exchanged { sections } => stations.extend(sections),
            _ => {}
        }
    }
    stations.sort_unstable();
    stations.dedup();
    stations
}

fn by_leftovers(draft: &Draft, scales: &Scales, weighed: &mut Weighed) -> Option<u32> {
    let case = scales.case;
    if case.left.is_empty() || draft.faults.is_empty() {
        return None;
    }
    let wanted = expected(&draft.faults);
    if wanted.is_empty() {
        let stations = stations(draft);
        let some = case.left.iter().find(|left| left.over != 0 && stations.contains(&left.station))?;
        weighed.weight *= scales.odds.hardly;
        weighed.against.push(format!(
            "Station {} has {} {}, and this would leave nothing over or short.",
            some.station,
            counter(some.over.unsigned_abs()),
            if some.over > 0 { "over" } else { "short" }
        ));
        return None;
    }
    match extent::tally(case, &draft.faults) {
        Ok(Some(tally)) => {
            weighed.weight *= scales.odds.agrees;
            let each = wanted
                .iter()
                .map(|(station, sign)| format!("section {station} {}", if *sign > 0 { "over" } else { "short" }));
            let each = each.collect::<Vec<_>>().join(" and ");
            weighed.why.push(format!("The leftovers agree, {each}, each by {}.", counter(tally)));
            Some(tally)
        }
        Ok(None) => None,
        Err(says) => {
            weighed.weight *= scales.odds.hardly;
            weighed.against.push(says);
            None
        }
    }
}

fn by_extent(draft: &Draft, scales: &Scales, tally: Option<u32>, weighed: &mut Weighed) {
    let known = scales.known;
    let likely = extent::with_tally(scales.case, &known.likely, tally, &stations(draft));
    let most = draft.likes.iter().copied().fold(0.0, f64::max).max(1e-9);
    let all = likely.iter().sum::<f64>();
    if all <= 0.0 {
        return;
    }
    let fits = likely.iter().zip(&draft.likes).map(|(likely, like)| likely * like / most).sum::<f64>() / all;
    weighed.weight *= fits;
    if !known.known && tally.is_none() {
        return;
    }
    let (Some(pattern), or, _) = judge(&likely) else { return };
    let like = at(&draft.likes, pattern) / most;
    let also = or.iter().map(|p| at(&draft.likes, *p) / most).fold(0.0, f64::max);
    if like >= 0.6 {
        weighed.why.push(format!("It makes {}, and that is what was found.", pattern.name()));
    } else if like < 0.15 && also < 0.6 {
        let (own, _, _) = judge(&draft.likes);
        let own = own.map_or("something else", Pattern::name);
        weighed.against.push(format!("It makes {own}. What was found is {}.", pattern.name()));
    }
}

fn at(likely: &Likely, pattern: Pattern) -> f64 {
    Pattern::ALL.iter().zip(likely).find(|(p, _)| **p == pattern).map_or(0.0, |(_, l)| *l)
}

/// The books that a lift spoils when it was loaded at this moment.
pub(in crate::trace) fn spoiled(line: &Line, at: u32, station: u32, lift: u32, left: u32, fed: Fed) -> [u32; 2] {
    let next = line.filled_next(station, at);
    let first = match fed {
        Fed::Bottom => next.saturating_add(left),
        Fed::Top => next,
    };
    [first, first.saturating_add(lift.saturating_sub(1))]
}

fn by_log(draft: &Draft, scales: &Scales, weighed: &mut Weighed) {
    let case = scales.case;
    if case.log.is_empty() {
        return;
    }
    match &draft.wish {
        Wish::Nothing => {}
        Wish::Reload(stations) => by_reload(draft, stations, scales, weighed),
        Wish::Stop => by_stop(scales, weighed),
    }
}

fn by_reload(draft: &Draft, stations: &[u32], scales: &Scales, weighed: &mut Weighed) {
    let case = scales.case;
    let extent = &scales.known.extent;
    let reloads = case.log.iter().filter_map(|logged| match logged.what {
        Happened::Reload { station, lift, left, fed } => Some((logged.counter, station, lift, left, fed)),
        _ => None,
    });
    let reloads = reloads.collect::<Vec<_>>();
    if reloads.is_empty() {
        return;
    }
    let own = reloads.iter().filter(|(_, station, ..)| stations.contains(station)).collect::<Vec<_>>();
    if own.is_empty() {
        weighed.weight *= scales.odds.hardly;
        let noun = if stations.len() == 1 { "station" } else { "stations" };
        let named = stations.iter().map(u32::to_string).collect::<Vec<_>>().join(" and ");
        weighed.against.push(format!("The log has no reload of {noun} {named}."));
        return;
    }
    let Some(first_bad) = extent.first_bad else {
        weighed.weight *= scales.odds.agrees.sqrt();
        if let Some((at, station, ..)) = own.first() {
            weighed.why.push(format!("Station {station} was reloaded at counter {}.", counter(*at)));
        }
        return;
    };
    let last_bad = extent.last_bad.unwrap_or(first_bad);
    let mut refused = None;
    for (at, station, lift, left, fed) in own.into_iter().copied() {
        let [from, to] = spoiled(&case.line, at, station, lift, left, fed);
        let slack = if case.line.ahead_of(station).is_some() { 0 } else { ON_THE_LINE };
        let inside = |book: u32| from <= book && book <= to.saturating_add(slack);
        let good_inside = [extent.last_good, extent.good_again]
            .into_iter()
            .flatten()
            .find(|good| *good >= from.saturating_add(slack) && *good <= to);
        // A station that ran empty spoils the books just before the new lift.
        let empty = draft.kind == "ran_empty";
        let before = empty && last_bad <= from && from.saturating_sub(last_bad) <= ON_THE_LINE;
        if before || (!empty && inside(first_bad) && inside(last_bad) && good_inside.is_none()) {
            weighed.weight *= scales.odds.agrees;
            let hopper = match (left, fed) {
                (0, _) => "with an empty hopper".to_owned(),
                (left, Fed::Bottom) => format!("with {} still in the hopper under it", counter(left)),
                (left, Fed::Top) => format!("on top of {} in the hopper", counter(left)),
            };
            weighed.why.push(format!(
                "Station {station} was reloaded at counter {} with a lift of {}, {hopper}: that lift goes into {}.",
                counter(at),
                counter(lift),
                span(from, to)
            ));
            // Where it is not known how many books lie on the line, the first bad book and the lift say more.
            if !empty {
                let known = slack == 0 || from == first_bad;
                let start = if known { from } else { from.max(extent.last_good.map_or(from, |g| g.saturating_add(1))) };
                weighed.counters = Some([start, start.saturating_add(lift.saturating_sub(1))]);
            }
            return;
        }
        refused = Some((at, station, from, to));
    }
    if let Some((at, station, from, to)) = refused {
        weighed.weight *= scales.odds.hardly;
        weighed.against.push(format!(
            "Station {station} was reloaded at counter {}; that lift goes into {}, and book {} is wrong.",
            counter(at),
            span(from, to),
            counter(first_bad)
        ));
    }
}

fn by_stop(scales: &Scales, weighed: &mut Weighed) {
    let case = scales.case;
    if let Some(stopped) = scales.reads.iter().find_map(|read| read.seen.stopped) {
        weighed.weight *= scales.odds.agrees;
        weighed.why.push(format!("The line stopped at this book, at station {}.", stopped.station));
        return;
    }
    let bad = scales.reads.iter().filter_map(|read| read.seen.counter).collect::<Vec<_>>();
    if bad.is_empty() {
        return;
    }
    let reach = case.line.longest().saturating_add(NEAR_STOP);
    let near = |book: u32| {
        case.log.iter().find(|logged| {
            let stop = matches!(logged.what, Happened::Stop | Happened::Jam { .. });
            stop && logged.counter.saturating_sub(2) <= book && book <= logged.counter.saturating_add(reach)
        })
    };
    let by = bad.iter().filter_map(|book| near(*book).map(|logged| (*book, logged))).collect::<Vec<_>>();
    match by.first() {
        Some((book, logged)) if 2 * by.len() >= bad.len() => {
            weighed.weight *= scales.odds.agrees;
            let what = match logged.what {
                Happened::Jam { station } => format!("Station {station} jammed"),
                _ => "The line stopped".to_owned(),
            };
            weighed.why.push(format!("{what} at counter {}, beside book {}.", counter(logged.counter), counter(*book)));
        }
        _ => {
            weighed.weight *= scales.odds.hardly;
            weighed.against.push("No stop or jam is in the log beside the wrong books.".to_owned());
        }
    }
}

fn by_stopper(draft: &Draft, scales: &Scales, weighed: &mut Weighed) {
    let Some(stopped) = scales.reads.iter().find_map(|read| read.seen.stopped) else { return };
    let thickness = draft.faults.iter().any(|fault| match *fault {
        Fault::Missing { section } | Fault::Double { section } => section == stopped.station,
        _ => false,
    });
    let own = stations(draft).contains(&stopped.station);
    match stopped.by {
        Stopper::Caliper if thickness && draft.kind == "detector_off" => {
            weighed.weight *= scales.odds.hardly;
            weighed.against.push(format!("The caliper at station {} did stop the line.", stopped.station));
        }
        Stopper::Caliper if thickness => {
            weighed.weight *= scales.odds.agrees;
            weighed.why.push(format!(
                "The caliper stopped the line at station {}, as it does for no section and for two.",
                stopped.station
            ));
        }
        Stopper::Caliper if draft.wish == Wish::Stop || draft.faults.is_empty() => {}
        Stopper::Caliper => {
            weighed.weight *= scales.odds.hardly;
            weighed.against.push(format!(
                "The caliper stopped the line at station {}. It feels thickness, and this leaves one section there.",
                stopped.station
            ));
        }
        Stopper::Camera if own => {
            weighed.weight *= scales.odds.agrees;
            weighed.why.push(format!("{} stopped the line at station {}.", stopper(stopped.by), stopped.station));
        }
        Stopper::Camera => {
            weighed.weight *= scales.odds.hardly;
            weighed
                .against
                .push(format!("The camera stopped the line at station {}, which is another one.", stopped.station));
        }
    }
}

/// The books that are wrong, by the opened ones and the leftovers.
fn reckoned(scales: &Scales, tally: Option<u32>) -> Option<[u32; 2]> {
    let extent = &scales.known.extent;
    let first = extent.first_bad?;
    let begins = extent.last_good.and_then(|good| good.checked_add(1)) == Some(first);
    match (tally, extent.pattern) {
        (Some(tally), _) if begins && tally > 0 => Some([first, first.saturating_add(tally - 1)]),
        (_, Some(Pattern::OneBook)) => Some([first, first]),
        (_, Some(Pattern::WholeRun)) if scales.case.line_known() => {
            Some([scales.case.line.first, scales.case.line.last])
        }
        (_, Some(Pattern::FromAMoment)) if scales.case.line_known() => {
            Some([extent.last_good.map_or(first, |good| good.saturating_add(1)), scales.case.line.last])
        }
        (_, Some(Pattern::Block | Pattern::Burst)) => {
            let last = extent.good_again?.checked_sub(1)?;
            Some([extent.last_good?.saturating_add(1), last])
        }
        _ => None,
    }
}

/// `1 book` or `80 books`, of a range.
pub(in crate::trace) fn books([first, last]: [u32; 2]) -> String {
    many(last.saturating_sub(first).saturating_add(1), "book")
}
