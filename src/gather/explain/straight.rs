//! Stations in their right order against what was found: the fewest station faults, and every way to have so many.
//!
//! A table of the fewest faults for each pair of (stations done, backs done), kept only near the diagonal, since each
//! fault moves a pair at most one off it. The ways are then walked along that table, so no step leads nowhere.

use super::work::{A_WAY, Work};
use crate::gather::fault::Fault;
use crate::marks::Found;

/// The most faults the table tells apart.
pub(super) const MOST: usize = 3;
/// More than [`MOST`].
const TOO_MANY: usize = MOST + 1;
/// The width of the table about the diagonal.
const BAND: usize = 2 * MOST + 1;

/// What one station can do with the next backs: how many it takes, and the fault that is, if any.
fn steps(station: u32, rest: &[Found]) -> impl Iterator<Item = (usize, Option<Fault>)> {
    let fits = |index: usize| match rest.get(index) {
        Some(Found::Section { section, .. }) => *section == station,
        Some(Found::Unread) => true,
        _ => false,
    };
    let right = fits(0).then_some((1, None));
    let double = (fits(0) && fits(1)).then_some((2, Some(Fault::Double { section: station })));
    let other = match rest.first() {
        Some(&Found::Section { section, .. }) if section != station => {
            Some(Fault::WrongSection { at: station, section })
        }
        Some(Found::Foreign) => Some(Fault::Foreign { at: station }),
        Some(Found::NoMark) => Some(Fault::NoMark { at: station }),
        _ => None,
    };
    let other = other.map(|fault| (1, Some(fault)));
    let missing = Some((0, Some(Fault::Missing { section: station })));
    [right, missing, double, other].into_iter().flatten()
}

/// The table for stations 1 to n.
pub(super) struct Straight<'a> {
    stations: usize,
    found: &'a [Found],
    /// The fewest faults for what is left when so many stations are done; the column is backs - stations + MOST.
    fewest: Vec<[usize; BAND]>,
}

impl<'a> Straight<'a> {
    /// Works out the table.
    pub(super) fn new(stations: usize, found: &'a [Found]) -> Self {
        let mut table = Self { stations, found, fewest: vec![[TOO_MANY; BAND]; stations + 1] };
        for done in (0..=stations).rev() {
            let mut any = false;
            for column in 0..BAND {
                let Some(backs) = (done + column).checked_sub(MOST).filter(|&backs| backs <= found.len()) else {
                    continue;
                };
                let fewest = if done == stations {
                    if backs == found.len() { 0 } else { TOO_MANY }
                } else {
                    table.fewest_from(done, backs)
                };
                any |= fewest < TOO_MANY;
                table.fewest[done][column] = fewest;
            }
            // What has no way on from here has none from further up either.
            if !any {
                break;
            }
        }
        table
    }

    /// The fewest faults in what is left, by the steps from there.
    fn fewest_from(&self, done: usize, backs: usize) -> usize {
        let mut fewest = TOO_MANY;
        for (taken, fault) in steps(done as u32 + 1, &self.found[backs..]) {
            fewest = fewest.min(self.left(done + 1, backs + taken) + usize::from(fault.is_some()));
        }
        fewest
    }

    /// The fewest faults in what is left after so many stations and backs; [`TOO_MANY`] beyond the table.
    fn left(&self, stations: usize, backs: usize) -> usize {
        match (backs + MOST).checked_sub(stations) {
            Some(column) if column < BAND && backs <= self.found.len() => self.fewest[stations][column],
            _ => TOO_MANY,
        }
    }

    /// Every list of exactly `faults` station faults.
    pub(super) fn ways(&self, faults: usize, work: &mut Work) -> Vec<Vec<Fault>> {
        let mut ways = Vec::new();
        self.walk(0, 0, faults, &mut Vec::new(), &mut ways, work);
        ways
    }

    fn walk(
        &self,
        stations: usize,
        backs: usize,
        faults: usize,
        so_far: &mut Vec<Fault>,
        ways: &mut Vec<Vec<Fault>>,
        work: &mut Work,
    ) {
        let [mut stations, mut backs] = [stations, backs];
        // Right stations are walked in a loop, so that the depth is the number of faults.
        loop {
            if !work.spend(1) || self.left(stations, backs) > faults {
                return;
            }
            if stations == self.stations {
                if faults == 0 && work.spend(A_WAY) {
                    ways.push(so_far.clone());
                }
                return;
            }
            let mut right = false;
            for (taken, fault) in steps(stations as u32 + 1, &self.found[backs..]) {
                match fault {
                    None => right = true,
                    Some(_) if faults == 0 => {}
                    Some(fault) => {
                        so_far.push(fault);
                        self.walk(stations + 1, backs + taken, faults - 1, so_far, ways, work);
                        so_far.pop();
                    }
                }
            }
            if !right {
                return;
            }
            stations += 1;
            backs += 1;
        }
    }
}
