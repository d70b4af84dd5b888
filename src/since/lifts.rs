//! Into which books the sections of a lift went: the pile in the hopper and the books on the line, as counter numbers.

use super::books::{joined, list_says};
use super::{Books, Fed, Happened, Line, Logged};
use crate::words::{grouped, how_many};
use serde::Serialize;

/// How many books may lie between a station and the counter where nobody said: a gathering machine of the 1920s had 36
/// stations (Bond, *Mechanics*); rounded up (from memory, no source for machines of today).
pub const UNKNOWN_AHEAD: u32 = 50;

/// One lift and the books that got its sections.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Lift {
    /// Its place in the log, from 0.
    pub logged: u32,
    /// The station.
    pub station: u32,
    /// What the counter showed when it was put in.
    pub counter: u32,
    /// Sections in it.
    pub sections: u32,
    /// The books of the run that got them, from the front: more than one run of books where a later lift was put on top
    /// of it and fed first; none if the run ended before.
    pub books: Vec<Books>,
    /// By how many books all of them may be later, or earlier and later, than reckoned: books between the station and the
    /// counter that nobody gave, and sections that the log doesn't account for.
    pub may_be_later: u32,
    /// See `may_be_later`.
    pub may_be_earlier: u32,
    /// How they were reckoned, in a sentence.
    pub says: String,
}

impl Lift {
    /// The books that may have got its sections, with what is uncertain added on both sides.
    #[must_use]
    pub fn possible(&self, line: &Line) -> Vec<Books> {
        let wide = |b: &Books| Books {
            from: b.from.saturating_sub(self.may_be_earlier).max(line.first),
            to: b.to.saturating_add(self.may_be_later).min(line.last),
        };
        joined(self.books.iter().map(wide).collect())
    }

    /// The books that must have got its sections, however the uncertain part turns out.
    #[must_use]
    pub fn certain(&self) -> Vec<Books> {
        let narrow =
            |b: &Books| Books::of(b.from.saturating_add(self.may_be_later), b.to.saturating_sub(self.may_be_earlier));
        self.books.iter().filter_map(narrow).collect()
    }
}

/// All lifts of a log, and what in it does not agree.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Lifts {
    /// The lifts, in the order of the log.
    pub lifts: Vec<Lift>,
    /// Sentences on what doesn't agree.
    pub disagrees: Vec<String>,
}

/// A part of the pile in a hopper: sections of one lift, or of what lay there before the log begins.
struct Part {
    lift: Option<usize>,
    sections: u32,
}

/// Follows every hopper from its first reload in the log to the end of the run. Each book takes one section.
///
/// A hopper that is fed from the bottom first gives out what was in it: reloaded at 2,210 with 40 left, the books
/// 2,211 to 2,250 still get those, and 2,251 is the first that can get a section of the new lift, all later by the books
/// between the station and the counter.
///
/// The log is taken to hold every reload of a station between its first and its last one in it. Where it can't (the hopper
/// would have run out), that is said, and the later lift is reckoned from what was left in the hopper by its own entry.
#[must_use]
pub fn lifts(line: &Line, log: &[Logged]) -> Lifts {
    let mut order: Vec<(usize, &Logged)> = log.iter().enumerate().collect();
    order.sort_by_key(|(i, l)| (l.counter, *i));
    let mut stations: Vec<u32> = order.iter().filter_map(|(_, l)| station_of(l)).collect();
    stations.sort_unstable();
    stations.dedup();
    let mut out = Lifts::default();
    for station in stations {
        let own: Vec<(usize, &Logged)> =
            order.iter().copied().filter(|(_, l)| station_of(l) == Some(station)).collect();
        one_hopper(line, station, &own, &mut out);
    }
    out.lifts.sort_by_key(|l| l.logged);
    out
}

const fn station_of(logged: &Logged) -> Option<u32> {
    match logged.what {
        Happened::Reload { station, .. } => Some(station),
        Happened::Stop | Happened::Jam { .. } => None,
    }
}

fn one_hopper(line: &Line, station: u32, own: &[(usize, &Logged)], out: &mut Lifts) {
    let known = line.ahead_of(station).is_some();
    let unknown = if known { 0 } else { UNKNOWN_AHEAD.max(line.longest()) };
    let (mut pile, mut doubt, mut ran_out): (Vec<Part>, u32, u32) = (Vec::new(), 0, 0);
    let begin = out.lifts.len();
    for (i, (logged, at)) in own.iter().enumerate() {
        let Happened::Reload { lift, left, fed, .. } = at.what else { continue };
        let there = pile.iter().fold(0_u32, |n, p| n.saturating_add(p.sections));
        if ran_out > 0 {
            out.disagrees.push(format!(
                "Station {station} ran out {} before it was reloaded at {}, by the log: a reload before that was not logged.",
                how_many(ran_out, "book"),
                grouped(at.counter)
            ));
        } else if i > 0 && there != left {
            doubt = doubt.saturating_add(there.abs_diff(left));
            out.disagrees.push(format!(
                "Station {station}, counter {}: the log says {} left in the hopper, and one section a book since the reload \
                 before leaves {}. One of the three numbers is wrong, or {} went another way.",
                grouped(at.counter),
                grouped(left),
                grouped(there),
                how_many(there.abs_diff(left), "section")
            ));
        }
        level(&mut pile, left, fed);
        pile.push(Part { lift: Some(out.lifts.len()), sections: lift });
        out.lifts.push(Lift {
            logged: *logged as u32,
            station,
            counter: at.counter,
            sections: lift,
            books: Vec::new(),
            may_be_later: unknown,
            may_be_earlier: 0,
            says: String::new(),
        });
        let next = own.get(i + 1).map(|(_, next)| line.filled_next(station, next.counter).saturating_sub(1));
        let until = next.unwrap_or(line.last);
        ran_out = feed(&mut pile, line.filled_next(station, at.counter), until, fed, &mut out.lifts);
    }
    for lift in out.lifts.iter_mut().skip(begin) {
        let whole = Books::all(line);
        lift.books = joined(lift.books.iter().filter_map(|b| b.among(&whole)).collect());
        // What the log does not account for may have gone before or after any lift of this hopper.
        lift.may_be_later = lift.may_be_later.saturating_add(doubt);
        lift.may_be_earlier = doubt;
        lift.says = says(line, lift, own);
    }
}

/// Makes the pile as high as the log says it was: what is missing went first, what is too much would go first.
fn level(pile: &mut Vec<Part>, left: u32, fed: Fed) {
    let there = pile.iter().fold(0_u32, |n, p| n.saturating_add(p.sections));
    if let Some(more) = left.checked_sub(there).filter(|m| *m > 0) {
        let at = if fed == Fed::Bottom { 0 } else { pile.len() };
        pile.insert(at, Part { lift: None, sections: more });
    }
    let mut less = there.saturating_sub(left);
    while less > 0 {
        let end = if fed == Fed::Bottom { pile.first_mut() } else { pile.last_mut() };
        let Some(part) = end else { return };
        let taken = part.sections.min(less);
        (part.sections, less) = (part.sections - taken, less - taken);
        if part.sections == 0 {
            pile.remove(if fed == Fed::Bottom { 0 } else { pile.len() - 1 });
        }
    }
}

/// Feeds the books from one to another, and notes into which of them a lift went. Returns for how many books there was
/// nothing.
fn feed(pile: &mut Vec<Part>, from: u32, until: u32, fed: Fed, lifts: &mut [Lift]) -> u32 {
    let mut next = from;
    while next <= until {
        let end = if fed == Fed::Bottom { pile.first_mut() } else { pile.last_mut() };
        let Some(part) = end else { return (until - next).saturating_add(1) };
        let taken = part.sections.min((until - next).saturating_add(1));
        if let (Some(lift), Some(books)) =
            (part.lift.and_then(|l| lifts.get_mut(l)), Books::of(next, next.saturating_add(taken).saturating_sub(1)))
            && taken > 0
        {
            lift.books.push(books);
        }
        part.sections -= taken;
        next = next.saturating_add(taken);
        if part.sections == 0 {
            pile.remove(if fed == Fed::Bottom { 0 } else { pile.len() - 1 });
        }
    }
    0
}

fn says(line: &Line, lift: &Lift, own: &[(usize, &Logged)]) -> String {
    let at = own.iter().find(|(i, _)| *i as u32 == lift.logged).map(|(_, l)| l.what);
    let Some(Happened::Reload { left, fed, .. }) = at else { return String::new() };
    let pile = match fed {
        Fed::Bottom if left == 0 => "the hopper was empty".to_owned(),
        Fed::Bottom => format!("{} in it went first, since it is fed from the bottom", grouped(left)),
        Fed::Top => "the new lift went first, since it is fed from the top".to_owned(),
    };
    let ahead = match line.ahead_of(lift.station) {
        Some(0) => "no book lay between the station and the counter".to_owned(),
        Some(n) => format!("{} lay between the station and the counter", how_many(n, "book")),
        None => "how many books lay between the station and the counter is not known, so it may be later".to_owned(),
    };
    let books = match lift.books.as_slice() {
        [] => "none of it reached a book of this run".to_owned(),
        some => format!("it went into {}", list_says(some)),
    };
    format!(
        "Station {} was reloaded with {} when the counter showed {}: {pile}, and {ahead}; {books}.",
        lift.station,
        how_many(lift.sections, "section"),
        grouped(lift.counter)
    )
}

/// What the counter shows so many minutes after it showed `counter`, at the speed of the line.
#[must_use]
pub fn counter_after(line: &Line, counter: u32, minutes: u32) -> Option<u32> {
    Some(counter.saturating_add(line.books_in(minutes)?))
}

/// The books made in so many minutes up to what the counter shows: what one check after another leaves open.
#[must_use]
pub fn made_before(line: &Line, counter: u32, minutes: u32) -> Option<Books> {
    let from = counter.saturating_add(1).saturating_sub(line.books_in(minutes)?).max(line.first);
    Books::of(from, counter.min(line.last))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn reload(counter: u32, lift: u32, left: u32, fed: Fed) -> Logged {
        Logged { counter, what: Happened::Reload { station: 9, lift, left, fed } }
    }

    fn went(line: &Line, log: &[Logged]) -> Vec<Vec<(u32, u32)>> {
        let ends = |l: Lift| l.books.iter().map(|b| (b.from, b.to)).collect();
        lifts(line, log).lifts.into_iter().map(ends).collect()
    }

    fn line(ahead: u32) -> Line {
        Line { ahead: vec![ahead; 9], ..Line::of(1, 5000) }
    }

    #[test]
    fn what_was_in_the_hopper_goes_first_when_it_is_fed_from_the_bottom() {
        // Worked by hand: 2,210 have passed, the next 40 get what was there.
        assert_eq!(went(&line(0), &[reload(2210, 80, 40, Fed::Bottom)]), [[(2251, 2330)]]);
        assert_eq!(went(&line(12), &[reload(2210, 80, 40, Fed::Bottom)]), [[(2263, 2342)]]);
        assert_eq!(went(&line(12), &[reload(2210, 80, 40, Fed::Top)]), [[(2223, 2302)]]);
    }

    #[test]
    fn a_lift_on_top_of_another_is_fed_first_or_waits() {
        let log = |fed| [reload(100, 80, 0, fed), reload(130, 50, 50, fed)];
        assert_eq!(went(&line(0), &log(Fed::Bottom)), [[(101, 180)], [(181, 230)]]);
        assert_eq!(went(&line(0), &log(Fed::Top)), [vec![(101, 130), (181, 230)], vec![(131, 180)]]);
    }

    #[test]
    fn the_run_may_end_before_the_lift() {
        let short = Line { last: 2300, ..line(0) };
        assert_eq!(went(&short, &[reload(2210, 80, 40, Fed::Bottom)]), [[(2251, 2300)]]);
        assert_eq!(went(&short, &[reload(2280, 80, 40, Fed::Bottom)]), [Vec::<(u32, u32)>::new()]);
        assert_eq!(went(&short, &[reload(2210, 80, u32::MAX, Fed::Bottom)]), [Vec::<(u32, u32)>::new()]);
    }

    #[test]
    fn a_log_that_does_not_add_up_is_said_and_makes_the_books_uncertain() {
        let found = lifts(&line(0), &[reload(100, 80, 0, Fed::Bottom), reload(130, 50, 45, Fed::Bottom)]);
        assert!(found.disagrees[0].contains("the log says 45 left in the hopper"), "{:?}", found.disagrees);
        assert_eq!((found.lifts[0].may_be_later, found.lifts[1].may_be_earlier), (5, 5));
        assert_eq!(found.lifts[1].books, [Books { from: 176, to: 225 }]);
        assert_eq!(found.lifts[1].certain(), [Books { from: 181, to: 220 }]);
        assert_eq!(found.lifts[1].possible(&line(0)), [Books { from: 171, to: 230 }]);
    }

    #[test]
    fn a_reload_that_was_not_logged_is_noticed_and_spoils_nothing() {
        let found = lifts(&line(0), &[reload(100, 80, 0, Fed::Bottom), reload(2210, 80, 40, Fed::Bottom)]);
        assert!(found.disagrees[0].starts_with("Station 9 ran out 2,030 books before"), "{:?}", found.disagrees);
        assert_eq!(found.lifts[1].certain(), [Books { from: 2251, to: 2330 }]);
    }

    #[test]
    fn an_unknown_distance_makes_it_later_only() {
        let line = Line::of(1, 5000);
        let found = lifts(&line, &[reload(2210, 80, 40, Fed::Bottom)]);
        assert_eq!(found.lifts[0].possible(&line), [Books { from: 2251, to: 2330 + UNKNOWN_AHEAD }]);
        assert!(found.lifts[0].says.ends_with("so it may be later; it went into books 2,251 to 2,330."));
    }

    #[test]
    fn minutes_become_books() {
        let line = Line { per_hour: Some(3600), ..Line::of(1, 5000) };
        assert_eq!(counter_after(&line, 1400, 10), Some(2000));
        assert_eq!(made_before(&line, 2000, 10), Books::of(1401, 2000));
        assert_eq!(made_before(&line, 300, 10), Books::of(1, 300));
        assert_eq!(counter_after(&Line::of(1, 2), 1, 1), None);
    }
}
