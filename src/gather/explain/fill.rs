//! Rearranged stations against what was found: every row of stations that leaves exactly so many station faults.
//!
//! First it is chosen on which backs the faults lie; what the other backs hold is then known, and the stations not
//! seen are filled into the open places in every way. A row with more breaks than the acts can make is dropped at
//! once.

use super::row::Row;
use super::work::{A_WAY, Work};
use crate::gather::fault::Fault;
use crate::marks::Found;

/// What a place of the row shows.
#[derive(Clone, Copy)]
enum Shows {
    Right,
    Double,
    Missing,
    Wrong(u32),
    Foreign,
    NoMark,
}

/// One place of the row: the station, where known, and what it shows.
type Place = (Option<u32>, Shows);

/// A fault laid on the backs: behind so many backs, of one of three kinds.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Event {
    Missing,
    Double,
    Wrong,
}

/// How many faults of each kind are still to be laid.
#[derive(Clone, Copy)]
struct Kinds {
    missing: usize,
    double: usize,
    wrong: usize,
}

/// What is known of the row of places up to some back.
#[derive(Clone, Copy)]
struct Front {
    /// How many places there are.
    places: usize,
    /// The last known station, and its place; station 0 stands at place 0, before the row.
    last: (usize, usize),
    /// The breaks that can't be filled away.
    breaks: usize,
    /// Behind the last back that shows a known station of the front once more.
    again: usize,
}

impl Front {
    /// Goes on to a known station.
    fn to(&mut self, place: usize, station: usize) {
        self.breaks += usize::from(is_break(self.last, (place, station)));
        self.last = (place, station);
    }
}

/// Lies a break between two known stations, whatever fills the places between? Unless they count up to each other.
const fn is_break((place, station): (usize, usize), next: (usize, usize)) -> bool {
    station + next.0 != next.1 + place
}

/// What is known of the backs from one on, when no fault lies on them.
#[derive(Clone, Copy)]
struct Behind {
    /// The first known station, as an index into the backs.
    first: Option<(usize, usize)>,
    /// The breaks between known stations that can't be filled away.
    breaks: usize,
}

/// One search.
pub(super) struct Fill<'a> {
    stations: usize,
    found: &'a [Found],
    most_breaks: usize,
    /// Behind the last back that shows each station.
    last_seen: Vec<usize>,
    /// For each back, what is known from there on.
    behind: Vec<Behind>,
    /// From this back on no station shows twice.
    once_from: usize,
    /// Is the station known in the front?
    known: Vec<bool>,
    events: Vec<(usize, Event)>,
    row: Vec<Place>,
    /// The breaks that can't be filled away from a place on, whatever the open places hold.
    ahead: Vec<usize>,
    rows: Vec<(Row, Vec<Fault>)>,
}

impl<'a> Fill<'a> {
    /// All rows with exactly `faults` station faults and at most `most_breaks` breaks.
    pub(super) fn rows(
        stations: usize,
        found: &'a [Found],
        faults: usize,
        most_breaks: usize,
        work: &mut Work,
    ) -> Vec<(Row, Vec<Fault>)> {
        let mut last_seen = vec![0; stations + 1];
        let mut once_from = 0;
        for (index, station) in numbers(found) {
            once_from = once_from.max(last_seen[station]);
            last_seen[station] = index + 1;
        }
        let mut fill = Self {
            stations,
            found,
            most_breaks,
            last_seen,
            behind: behind(found),
            once_from,
            known: vec![false; stations + 1],
            events: Vec::new(),
            row: Vec::new(),
            ahead: Vec::new(),
            rows: Vec::new(),
        };
        // A blank or foreign back is always a fault of its station.
        let certain = found.iter().filter(|found| matches!(found, Found::NoMark | Found::Foreign)).count();
        let Some(free) = faults.checked_sub(certain) else {
            return fill.rows;
        };
        for missing in 0..=free {
            let double = (found.len() + missing).checked_sub(stations);
            let wrong = double.and_then(|double| free.checked_sub(missing + double));
            if let (Some(double), Some(wrong)) = (double, wrong) {
                let kinds = Kinds { missing, double, wrong };
                fill.lay(0, Front { places: 0, last: (0, 0), breaks: 0, again: 0 }, kinds, work);
            }
        }
        fill.rows
    }

    /// Lays the faults left on the backs from `from` on, before which the row is `front`.
    fn lay(&mut self, from: usize, mut front: Front, kinds: Kinds, work: &mut Work) {
        if kinds.missing + kinds.double + kinds.wrong == 0 {
            if self.may_come_out(from, front) && self.build(work) {
                self.open(work);
            }
            return;
        }
        // What shows twice is doubled, or one of the two is wrong.
        if kinds.double + kinds.wrong == 0 && (from < self.once_from || from < front.again) {
            return;
        }
        let only = kinds.missing + kinds.double + kinds.wrong == 1;
        let mut back = from;
        while work.spend(1) {
            let here = self.found.get(back).copied();
            let next = self.found.get(back + 1).copied();
            let places = front.places + 1;
            if kinds.missing > 0 {
                let missing = kinds.missing - 1;
                self.with(back, Event::Missing, back, Front { places, ..front }, Kinds { missing, ..kinds }, work);
            }
            if kinds.double > 0 && same(here, next) {
                let double = kinds.double - 1;
                let mut doubled = Front { places, ..front };
                let known = number(here).or(number(next)).map(|station| station as usize);
                if known.is_none_or(|station| self.learn(&mut doubled, station)) {
                    self.with(back, Event::Double, back + 2, doubled, Kinds { double, ..kinds }, work);
                    known.into_iter().for_each(|station| self.known[station] = false);
                }
            }
            // The last fault has to leave nothing that shows twice.
            let leaves = !only || (back + 1 >= self.once_from && back + 1 >= front.again);
            if kinds.wrong > 0 && leaves && matches!(here, Some(Found::Section { .. })) {
                let wrong = kinds.wrong - 1;
                self.with(back, Event::Wrong, back + 1, Front { places, ..front }, Kinds { wrong, ..kinds }, work);
            }
            // No fault lies on this back.
            if here.is_none() {
                break;
            }
            front.places = places;
            if let Some(station) = number(here)
                && !self.learn(&mut front, station as usize)
            {
                break;
            }
            back += 1;
        }
        for (_, station) in numbers(&self.found[from..back]) {
            self.known[station] = false;
        }
    }

    fn with(&mut self, back: usize, event: Event, from: usize, front: Front, kinds: Kinds, work: &mut Work) {
        self.events.push((back, event));
        self.lay(from, front, kinds, work);
        self.events.pop();
    }

    /// Puts a known station at the last place of the front; false, and nothing is learnt, if it can't stand there.
    fn learn(&mut self, front: &mut Front, station: usize) -> bool {
        let mut with = *front;
        with.to(with.places, station);
        with.again = with.again.max(self.last_seen[station]);
        let may = !self.known[station] && with.breaks <= self.most_breaks;
        if may {
            self.known[station] = true;
            *front = with;
        }
        may
    }

    /// Can the row come out when no more faults lie on the backs from `from` on?
    fn may_come_out(&self, from: usize, mut front: Front) -> bool {
        // The last back that shows a known station once more lies in the front.
        if from < self.once_from || from < front.again {
            return false;
        }
        let Behind { first, breaks } = self.behind[from];
        if let Some((index, station)) = first {
            front.to(front.places + index - from + 1, station);
        }
        let last = numbers(&self.found[from..]).next_back();
        if let Some((index, station)) = last {
            front.last = (front.places + index + 1, station);
        }
        front.to(self.stations + 1, self.stations + 1);
        front.breaks + breaks <= self.most_breaks
    }

    /// Makes the row of places; false when it can't come out.
    fn build(&mut self, work: &mut Work) -> bool {
        self.row.clear();
        let mut seen = vec![false; self.stations + 1];
        let mut breaks = 0;
        let mut last = Some(0);
        let mut back = 0;
        let mut events = self.events.iter().peekable();
        loop {
            let event = events.next_if(|(at, _)| *at == back).map(|(_, event)| *event);
            let here = self.found.get(back).copied();
            let (place, taken) = match (event, here) {
                (Some(Event::Missing), _) => ((None, Shows::Missing), 0),
                (None, None) => break,
                (Some(Event::Double), _) => {
                    let known = number(here).or(number(self.found.get(back + 1).copied()));
                    ((known, Shows::Double), 2)
                }
                (Some(Event::Wrong), here) => ((None, Shows::Wrong(number(here).unwrap_or(0))), 1),
                (None, Some(Found::Section { section, .. })) => ((Some(section), Shows::Right), 1),
                (None, Some(Found::Unread)) => ((None, Shows::Right), 1),
                (None, Some(Found::Foreign)) => ((None, Shows::Foreign), 1),
                (None, Some(Found::NoMark)) => ((None, Shows::NoMark), 1),
            };
            if let Some(station) = place.0 {
                let before = last.is_some_and(|last| last + 1 != station);
                breaks += usize::from(before);
                if seen[station as usize] || breaks > self.most_breaks {
                    work.spend(self.row.len());
                    return false;
                }
                seen[station as usize] = true;
            }
            last = place.0;
            self.row.push(place);
            back += taken;
        }
        work.spend(self.row.len()) && self.row.len() == self.stations
    }

    /// Fills the open places from the front.
    fn open(&mut self, work: &mut Work) {
        work.spend(3 * self.stations);
        let mut absent = vec![true; self.stations + 1];
        absent[0] = false;
        for station in self.row.iter().filter_map(|place| place.0) {
            absent[station as usize] = false;
        }
        // Between two known stations with open places between them lies a break, unless they count up to each other.
        self.ahead = vec![0; self.stations + 1];
        let mut next = (self.stations, self.stations + 1);
        for place in (0..self.stations).rev() {
            self.ahead[place] = self.ahead[place + 1];
            if let Some(station) = self.row[place].0 {
                let station = station as usize;
                self.ahead[place] += usize::from(station + (next.0 - place) != next.1);
                next = (place, station);
            }
        }
        let mut stations = Vec::with_capacity(self.stations);
        self.fill(&mut stations, &mut absent, 0, work);
    }

    fn fill(&mut self, stations: &mut Vec<u32>, absent: &mut [bool], breaks: usize, work: &mut Work) {
        let start = stations.len();
        let mut breaks = breaks;
        // Known places are walked in a loop, so that the depth is the number of open places.
        while let Some(&(known, shows)) = self.row.get(stations.len()) {
            let due = stations.last().map_or(1, |last| last + 1);
            if let Some(station) = known {
                breaks += usize::from(station != due);
                if breaks + self.ahead[stations.len()] > self.most_breaks {
                    stations.truncate(start);
                    return;
                }
                stations.push(station);
                work.spend(2);
                continue;
            }
            let sure = breaks + self.ahead[stations.len()];
            let choices = if sure >= self.most_breaks { due..=due } else { 1..=self.stations as u32 };
            if sure <= self.most_breaks {
                for station in choices {
                    if !work.spend(3) {
                        break;
                    }
                    let itself = matches!(shows, Shows::Wrong(section) if section == station);
                    if itself || !absent.get(station as usize).is_some_and(|absent| *absent) {
                        continue;
                    }
                    absent[station as usize] = false;
                    stations.push(station);
                    self.fill(stations, absent, breaks + usize::from(station != due), work);
                    stations.pop();
                    absent[station as usize] = true;
                }
            }
            stations.truncate(start);
            return;
        }
        breaks += usize::from(stations.last().copied().unwrap_or(0) as usize != self.stations);
        if breaks <= self.most_breaks && work.spend(8 * self.stations + A_WAY) {
            let faults = stations.iter().zip(&self.row).filter_map(|(&station, &(_, shows))| named(station, shows));
            self.rows.push((Row::new(stations), faults.collect()));
        }
        stations.truncate(start);
    }
}

/// The backs that show a station, by their index.
fn numbers(found: &[Found]) -> impl DoubleEndedIterator<Item = (usize, usize)> {
    found.iter().enumerate().filter_map(|(index, &back)| Some((index, number(Some(back))? as usize)))
}

/// What is known from each back on, and behind the last one.
fn behind(found: &[Found]) -> Vec<Behind> {
    let mut behind = vec![Behind { first: None, breaks: 0 }; found.len() + 1];
    for (index, &back) in found.iter().enumerate().rev() {
        let mut here = behind[index + 1];
        if let Some(station) = number(Some(back)) {
            let this = (index, station as usize);
            here.breaks += usize::from(here.first.is_some_and(|next| is_break(this, next)));
            here.first = Some(this);
        }
        behind[index] = here;
    }
    behind
}

/// The number on a back.
fn number(found: Option<Found>) -> Option<u32> {
    match found {
        Some(Found::Section { section, .. }) => Some(section),
        _ => None,
    }
}

/// May these two be copies of one section?
fn same(one: Option<Found>, other: Option<Found>) -> bool {
    match (one, other) {
        (Some(Found::Section { section: one, .. }), Some(Found::Section { section: other, .. })) => one == other,
        (Some(Found::Unread), Some(Found::Unread | Found::Section { .. }))
        | (Some(Found::Section { .. }), Some(Found::Unread)) => true,
        _ => false,
    }
}

/// The fault a station shows, if it is one.
fn named(station: u32, shows: Shows) -> Option<Fault> {
    match shows {
        Shows::Right => None,
        Shows::Double => Some(Fault::Double { section: station }),
        Shows::Missing => Some(Fault::Missing { section: station }),
        Shows::Wrong(section) => Some(Fault::WrongSection { at: station, section }),
        Shows::Foreign => Some(Fault::Foreign { at: station }),
        Shows::NoMark => Some(Fault::NoMark { at: station }),
    }
}
