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

/// One search.
pub(super) struct Fill<'a> {
    stations: usize,
    found: &'a [Found],
    most_breaks: usize,
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
        let mut fill = Self {
            stations,
            found,
            most_breaks,
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
                fill.lay(0, kinds, work);
            }
        }
        fill.rows
    }

    /// Lays the faults left on the backs from `from` on.
    fn lay(&mut self, from: usize, kinds: Kinds, work: &mut Work) {
        if kinds.missing + kinds.double + kinds.wrong == 0 {
            if self.build(work) {
                self.open(work);
            }
            return;
        }
        for back in from..=self.found.len() {
            if !work.spend(1) {
                return;
            }
            let here = self.found.get(back).copied();
            let next = self.found.get(back + 1).copied();
            if kinds.missing > 0 {
                let missing = kinds.missing - 1;
                self.with(back, Event::Missing, back, Kinds { missing, ..kinds }, work);
            }
            if kinds.double > 0 && same(here, next) {
                let double = kinds.double - 1;
                self.with(back, Event::Double, back + 2, Kinds { double, ..kinds }, work);
            }
            if kinds.wrong > 0 && matches!(here, Some(Found::Section { .. })) {
                let wrong = kinds.wrong - 1;
                self.with(back, Event::Wrong, back + 1, Kinds { wrong, ..kinds }, work);
            }
        }
    }

    fn with(&mut self, back: usize, event: Event, from: usize, kinds: Kinds, work: &mut Work) {
        self.events.push((back, event));
        self.lay(from, kinds, work);
        self.events.pop();
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
