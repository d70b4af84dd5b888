//! Everything that is acted out in a book of so many sections, and the rows that come of it.

use std::collections::BTreeSet;

use super::sight::print;
use super::table::{Code, FOREIGN, How, code};
use super::wrong::{More, Wrong};
use crate::gather::fault::Fault;
use crate::gather::places::retold;
use crate::marks::{BackMarks, Found, Inset, Lies};

/// Up to so many sections, every block is moved to every place (161,700 moves in a book of 99 would be too many).
const EVERY_MOVE: u32 = 32;

/// Up to so many sections, every two of them are missing at once, or lie head to tail.
const EVERY_TWO: u32 = 40;

/// The books that are acted out; the first one is the right book.
pub(super) struct Books {
    wrongs: Vec<Vec<Wrong>>,
    rows: Vec<Code>,
    /// Where each row ends.
    ends: Vec<usize>,
    /// What the rows come to, so that none is kept twice.
    prints: BTreeSet<u128>,
    /// How many rows were acted out.
    pub(super) acted: u32,
    /// What was not acted out in full.
    pub(super) sampled: Vec<String>,
}

impl Books {
    /// Acts out what can be wrong with a book of so many sections whose staircase begins again after so many levels.
    pub(super) fn of(sections: u32, marks: &BackMarks) -> Self {
        let mut books = Self {
            wrongs: Vec::new(),
            rows: Vec::new(),
            ends: Vec::new(),
            prints: BTreeSet::new(),
            acted: 0,
            sampled: Vec::new(),
        };
        let wrap = marks.stairs.levels;
        books.act(sections, Vec::new());
        books.each_section(sections, matches!(marks.inset, Inset::Sheets { .. }));
        books.wrong_and_exchanged(sections);
        books.moved(sections, wrap);
        books.pairs(sections, wrap);
        books
    }

    /// How many different rows there are, the right one not counted.
    pub(super) const fn len(&self) -> usize {
        self.ends.len() - 1
    }

    /// What is wrong with a row.
    pub(super) fn wrongs(&self, at: usize) -> &[Wrong] {
        self.wrongs.get(at).map_or(&[], Vec::as_slice)
    }

    /// A row, from front to back.
    pub(super) fn row(&self, at: usize) -> &[Code] {
        let from = at.checked_sub(1).and_then(|before| self.ends.get(before)).copied().unwrap_or(0);
        let to = self.ends.get(at).copied().unwrap_or(from);
        self.rows.get(from..to).unwrap_or_default()
    }

    /// Acts one row out. The same sections in the same order are the same book, whatever was done: only the first is kept.
    fn act(&mut self, sections: u32, wrongs: Vec<Wrong>) {
        let row = row(sections, &wrongs);
        self.acted += u32::from(!wrongs.is_empty());
        if self.prints.insert(print(&row)) {
            self.rows.extend(row);
            self.ends.push(self.rows.len());
            self.wrongs.push(wrongs);
        }
    }

    fn fault(&mut self, sections: u32, fault: Fault) {
        self.act(sections, vec![fault.into()]);
    }

    fn two(&mut self, sections: u32, one: Fault, other: Fault) {
        self.act(sections, vec![one.into(), other.into()]);
    }

    /// What can be wrong with one section.
    fn each_section(&mut self, sections: u32, inset: bool) {
        let all = || 1..=sections;
        all().for_each(|section| self.fault(sections, Fault::Missing { section }));
        all().for_each(|section| self.fault(sections, Fault::Double { section }));
        for lies in [Lies::HeadToTail, Lies::TurnedInPlane, Lies::SideToSide] {
            all().for_each(|section| self.fault(sections, Fault::Lies { section, lies }));
        }
        all().for_each(|at| self.fault(sections, Fault::NoMark { at }));
        all().for_each(|at| self.fault(sections, Fault::Foreign { at }));
        all().for_each(|at| self.act(sections, vec![More::ForeignAlike { at }.into()]));
        all().for_each(|section| self.act(sections, vec![More::Press { section }.into()]));
        if inset {
            for section in all() {
                self.act(sections, vec![More::InnerMissing { section }.into()]);
                self.act(sections, vec![More::InnerTwice { section }.into()]);
                if sections > 1 {
                    self.act(sections, vec![More::InnerOfOther { section }.into()]);
                }
                self.act(sections, vec![More::InnerTurned { section }.into()]);
            }
        }
    }

    /// Every section at every other station, and every two exchanged.
    fn wrong_and_exchanged(&mut self, sections: u32) {
        for at in 1..=sections {
            for section in (1..=sections).filter(|&section| section != at) {
                self.fault(sections, Fault::WrongSection { at, section });
            }
        }
        for a in 1..=sections {
            for b in a + 1..=sections {
                self.fault(sections, Fault::Exchanged { sections: [a, b] });
            }
        }
    }

    /// Blocks that stand elsewhere, a book divided wrong, a row backwards.
    fn moved(&mut self, sections: u32, wrap: u32) {
        // Two neighbouring blocks changing places is every move there is; the shorter one gives its name.
        let every = sections <= EVERY_MOVE;
        let some = |length: u32| every || length <= 3 || length == wrap;
        for start in 0..sections {
            for middle in start + 1..sections {
                for end in middle + 1..=sections {
                    let (first, second) = (middle - start, end - middle);
                    let whole = start == 0 && end == sections;
                    let kept = whole || (some(first) && some(second)) || (first.min(second) == 1);
                    // One section moved by one is an exchange.
                    if !kept || first + second == 2 {
                        continue;
                    }
                    let fault = match (whole, first <= second) {
                        (true, _) => Fault::DividedWrong { after: middle },
                        (_, true) => Fault::Moved { sections: [start + 1, middle], after: end },
                        (_, false) => Fault::Moved { sections: [middle + 1, end], after: start },
                    };
                    self.fault(sections, fault);
                }
            }
        }
        if !every {
            self.sampled.push(
                "Blocks of one to three sections and of a whole turn of the staircase were moved past as many, single \
                 sections to everywhere, and the book was cut at every place; other blocks were not moved."
                    .to_owned(),
            );
        }
        if sections > 1 {
            self.fault(sections, Fault::Reversed);
        }
    }

    /// Chosen pairs of faults.
    fn pairs(&mut self, sections: u32, wrap: u32) {
        let every = sections <= EVERY_TWO;
        for a in 1..=sections {
            for b in a + 1..=sections {
                let far = b - a;
                let near = far <= 2 || far.is_multiple_of(wrap) || (a == 1 && b == sections) || a + b == sections + 1;
                if !every && !near {
                    continue;
                }
                self.two(sections, Fault::Missing { section: a }, Fault::Missing { section: b });
                let turned = |section: u32| Fault::Lies { section, lies: Lies::HeadToTail };
                self.two(sections, turned(a), turned(b));
                if near {
                    self.two(sections, Fault::Missing { section: a }, Fault::Double { section: b });
                    self.two(sections, Fault::Missing { section: b }, Fault::Double { section: a });
                    self.two(sections, Fault::NoMark { at: a }, Fault::NoMark { at: b });
                }
            }
        }
        let some = if every { "" } else { " Two sections missing, and two head to tail, likewise." };
        self.sampled.push(format!(
            "Of two faults at once were tried: two missing, two head to tail, one missing and another twice, and two \
             blank backs, the last two among neighbours, at the ends, about the middle and one turn apart.{some}"
        ));
    }
}

/// The row that these make of a right book.
fn row(sections: u32, wrongs: &[Wrong]) -> Vec<Code> {
    let told = wrongs.iter().filter_map(|wrong| match wrong {
        Wrong::Fault(Fault::NoMark { .. }) | Wrong::More(_) => None,
        Wrong::Fault(fault) => Some(*fault),
    });
    let mut row = retold(sections, &told.collect::<Vec<_>>())
        .into_iter()
        .map(|found| match found {
            Found::Section { section, lies } => code(section, how(lies)),
            _ => FOREIGN,
        })
        .collect::<Vec<_>>();
    for wrong in wrongs {
        let (section, how) = match *wrong {
            Wrong::Fault(Fault::NoMark { at }) => (at, How::Misfolded),
            Wrong::Fault(_) => continue,
            Wrong::More(More::ForeignAlike { at }) => (at, How::ForeignAlike),
            Wrong::More(More::Press { section }) => (section, How::Press),
            Wrong::More(More::InnerMissing { section }) => (section, How::InnerMissing),
            Wrong::More(More::InnerTwice { section }) => (section, How::InnerTwice),
            Wrong::More(More::InnerOfOther { section }) => (section, How::InnerOfOther),
            Wrong::More(More::InnerTurned { section }) => (section, How::InnerTurned),
        };
        if let Some(one) = row.iter_mut().find(|one| **one == code(section, How::Right)) {
            *one = code(section, how);
        }
    }
    row
}

const fn how(lies: Lies) -> How {
    match lies {
        Lies::Right => How::Right,
        Lies::HeadToTail => How::HeadToTail,
        Lies::TurnedInPlane => How::TurnedInPlane,
        Lies::SideToSide => How::SideToSide,
    }
}
