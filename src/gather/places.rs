//! An explanation told over again: the book its faults make, and where in it each station came to lie.

use super::fault::Fault;
use crate::marks::{Found, Lies};

/// What one station gave.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Gave {
    /// The station, from 1.
    pub station: u32,
    /// The place of its first back, from 1; for a missing section, the place that follows.
    pub place: u32,
    /// How many backs it gave.
    pub backs: u32,
}

/// The row of stations after the acts among the faults, in the order they are told.
fn row(sections: u32, faults: &[Fault]) -> Vec<u32> {
    let mut row = (1..=sections).collect::<Vec<_>>();
    for fault in faults {
        match *fault {
            Fault::Moved {
                sections: [first, last],
                after,
            } => carry(&mut row, first, last, after),
            Fault::Exchanged { sections: [a, b] } => {
                for item in &mut row {
                    *item = match *item {
                        item if item == a => b,
                        item if item == b => a,
                        item => item,
                    };
                }
            }
            Fault::Reversed => row.reverse(),
            Fault::DividedWrong { after } => {
                let cut = row
                    .iter()
                    .position(|&item| item == after)
                    .map_or(0, |index| index + 1);
                row.rotate_left(cut);
            }
            _ => {}
        }
    }
    row
}

/// Carries the block from one item to another behind a third, 0 for the front.
fn carry(row: &mut Vec<u32>, first: u32, last: u32, after: u32) {
    let place = |row: &[u32], item: u32| row.iter().position(|&one| one == item);
    let (Some(start), Some(end)) = (place(row, first), place(row, last)) else {
        return;
    };
    if start > end {
        return;
    }
    let block = row.drain(start..=end).collect::<Vec<_>>();
    let to = match after {
        0 => 0,
        after => place(row, after).map_or(row.len(), |index| index + 1),
    };
    row.splice(to..to, block);
}

/// What each station gave, in the order of the book.
pub(super) fn gave(sections: u32, faults: &[Fault]) -> Vec<Gave> {
    let mut place = 1;
    let gave = row(sections, faults).into_iter().map(|station| {
        let mut backs = 1;
        for fault in faults {
            match *fault {
                Fault::Missing { section } if section == station => backs = 0,
                Fault::Double { section } if section == station => backs = 2,
                _ => {}
            }
        }
        let here = place;
        place += backs;
        Gave {
            station,
            place: here,
            backs,
        }
    });
    gave.collect()
}

/// The book these faults make of a right one. A section lies wrong where it first stands: the same fault twice is
/// for its next copy.
pub fn retold(sections: u32, faults: &[Fault]) -> Vec<Found> {
    let mut book = Vec::new();
    for Gave { station, backs, .. } in gave(sections, faults) {
        let mut back = Found::right(station);
        for fault in faults {
            match *fault {
                Fault::WrongSection { at, section } if at == station => {
                    back = Found::right(section)
                }
                Fault::Foreign { at } if at == station => back = Found::Foreign,
                Fault::NoMark { at } if at == station => back = Found::NoMark,
                _ => {}
            }
        }
        book.extend((0..backs).map(|_| back));
    }
    for fault in faults {
        if let Fault::Lies { section, lies } = *fault
            && let Some(back) = book.iter_mut().find(|back| **back == Found::right(section))
            && lies != Lies::Right
        {
            *back = Found::Section { section, lies };
        }
    }
    book
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn faults_told_over() {
        let faults = [
            Fault::Moved {
                sections: [1, 2],
                after: 4,
            },
            Fault::Exchanged { sections: [1, 5] },
            Fault::Missing { section: 2 },
            Fault::Double { section: 3 },
        ];
        let expected = [3, 3, 4, 5, 1].map(Found::right);
        assert_eq!(retold(5, &faults), expected);
        let divided = [Fault::DividedWrong { after: 2 }];
        assert_eq!(retold(4, &divided), [3, 4, 1, 2].map(Found::right));
        assert_eq!(gave(5, &faults)[2].place, 4);
    }

    #[test]
    fn names_that_are_not_in_the_book_do_nothing() {
        let faults = [
            Fault::Moved {
                sections: [7, 9],
                after: 1,
            },
            Fault::Lies {
                section: 8,
                lies: Lies::HeadToTail,
            },
        ];
        assert_eq!(retold(2, &faults), [1, 2].map(Found::right));
    }
}
