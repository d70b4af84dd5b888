//! Explanations of books against an oracle that knows nothing of the search: it makes every book that up to three faults
//! make, breadth first, and notes for each the fewest faults and every list of so few. Every book of it, and many that
//! are not in it, must be explained alike: the same lists, all of them, and no others.
//!
//! The oracle shares no code with the search, and other forms: a book is a number, five bits a back, and so is a list of
//! faults, twenty bits a fault. What it holds to is the account of faults at the head of `src/gather/explain/mod.rs`: moves,
//! then exchanges of what two stations hold, then the reversal; one fault at a station; sections that don't lie right.
//!
//! Every book that up to three faults make of up to seven sections, with sections missing, twice, wrong, foreign, blank and
//! turned, in every test run. And the other way round, every arrangement of up to five sections, most of which more than
//! three faults are needed for; of up to seven:
//!
//! ```text
//! cargo test --release --no-default-features --test explain_oracle -- --ignored --nocapture
//! ```

#![expect(clippy::unwrap_used, reason = "a test may panic")]

use backmark::gather::explain::explain_shown;
use backmark::gather::{Fault, Found, Lies, Odds};

/// More than any of these books has explanations.
const ALL: usize = 1_000_000;

/// One back in five bits: 0 blank, 1 foreign, else 4 · section + how it lies.
type Back = u64;
const BLANK: Back = 0;
const FOREIGN: Back = 1;
const LIES: [Lies; 4] = [Lies::Right, Lies::HeadToTail, Lies::TurnedInPlane, Lies::SideToSide];

fn back(section: u32, lies: usize) -> Back {
    4 * u64::from(section) + lies as u64
}

/// A book as a number: a leading 1, then its backs.
fn book_of(backs: impl IntoIterator<Item = Back>) -> u64 {
    backs.into_iter().fold(1, |book, back| (book << 5) | back)
}

fn backs_of(mut book: u64) -> Vec<Back> {
    let mut backs = Vec::new();
    while book > 1 {
        backs.push(book & 31);
        book >>= 5;
    }
    backs.reverse();
    backs
}

fn found_of(book: u64) -> Vec<Found> {
    let found = |back: Back| match back {
        BLANK => Found::NoMark,
        FOREIGN => Found::Foreign,
        back => Found::Section { section: (back / 4) as u32, lies: LIES[(back % 4) as usize] },
    };
    backs_of(book).into_iter().map(found).collect()
}

/// A fault in twenty bits: its kind from 1 on, and up to three numbers below 16.
fn code(kind: u64, numbers: [u32; 3]) -> u64 {
    numbers.into_iter().fold(kind, |code, number| (code << 4) | u64::from(number))
}

fn code_of(fault: &Fault) -> u64 {
    match *fault {
        Fault::Missing { section } => code(1, [section, 0, 0]),
        Fault::Double { section } => code(2, [section, 0, 0]),
        Fault::WrongSection { at, section } => code(3, [at, section, 0]),
        Fault::Foreign { at } => code(4, [at, 0, 0]),
        Fault::NoMark { at } => code(5, [at, 0, 0]),
        Fault::Exchanged { sections: [a, b] } => code(6, [a, b, 0]),
        Fault::Moved { sections: [a, b], after } => code(7, [a, b, after]),
        Fault::Reversed => code(8, [0; 3]),
        Fault::Lies { section, lies } => {
            let lies = LIES.iter().position(|one| *one == lies).unwrap();
            code(9, [section, lies as u32, 0])
        }
        Fault::DividedWrong { .. } => unreachable!("only another name"),
    }
}

/// Faults in no order, as one number.
fn list_of(codes: impl IntoIterator<Item = u64>) -> u64 {
    let mut codes = codes.into_iter().collect::<Vec<_>>();
    codes.sort_unstable();
    codes.into_iter().fold(0, |list, code| (list << 20) | code)
}

/// A book in the making: what each place holds by its station, and what it shows; how far the making has come.
#[derive(Clone)]
struct Making {
    /// Station, and what it gave in place of its own section; in the order of the row.
    row: Vec<(u32, Option<Vec<Back>>)>,
    codes: Vec<u64>,
    phase: Phase,
}

/// What may still happen: nothing that comes before what happened last.
#[derive(Clone, Copy, PartialEq, PartialOrd)]
enum Phase {
    Moves,
    Exchanges,
    Reversed,
    /// Only stations behind this one.
    Stations(u32),
}

impl Making {
    fn backs(&self) -> Vec<Back> {
        let gave = |(station, gave): &(u32, Option<Vec<Back>>)| gave.clone().unwrap_or_else(|| vec![back(*station, 0)]);
        self.row.iter().flat_map(gave).collect()
    }

    fn stations(&self) -> Vec<u32> {
        self.row.iter().map(|(station, _)| *station).collect()
    }

    fn with(&self, stations: &[u32], code: u64, phase: Phase) -> Self {
        let codes = self.codes.iter().copied().chain([code]).collect();
        Self { row: stations.iter().map(|station| (*station, None)).collect(), codes, phase }
    }

    /// Everything that is this and one fault more; how sections lie is left out.
    fn next(&self) -> Vec<Self> {
        let n = self.row.len() as u32;
        let mut next = Vec::new();
        let now = self.stations();
        if self.phase <= Phase::Moves {
            // Taken out and put back anywhere: each change of two neighbouring blocks comes twice.
            let mut known = std::collections::BTreeSet::new();
            for first in 0..now.len() {
                for last in first..now.len() {
                    let (block, rest) = taken(&now, first, last);
                    for to in (0..=rest.len()).filter(|to| *to != first) {
                        let row = [&rest[..to], &block, &rest[to..]].concat();
                        let (code, neighbours) = name_of_move(&now, first, last, to);
                        if !neighbours && known.insert((row.clone(), code)) {
                            next.push(self.with(&row, code, Phase::Moves));
                        }
                    }
                }
            }
        }
        if self.phase <= Phase::Exchanges {
            for b in 2..=n {
                for a in 1..b {
                    let swapped = |station: &u32| {
                        if *station == a {
                            b
                        } else if *station == b {
                            a
                        } else {
                            *station
                        }
                    };
                    let row = now.iter().map(swapped).collect::<Vec<_>>();
                    next.push(self.with(&row, code(6, [a, b, 0]), Phase::Exchanges));
                }
            }
        }
        if self.phase < Phase::Reversed && n > 1 {
            let row = now.iter().rev().copied().collect::<Vec<_>>();
            next.push(self.with(&row, code(8, [0; 3]), Phase::Reversed));
        }
        let from = match self.phase {
            Phase::Stations(last) => last + 1,
            _ => 1,
        };
        for station in from..=n {
            let mut give = |gives: Vec<Back>, code: u64| {
                let mut other = self.clone();
                other.row.iter_mut().find(|place| place.0 == station).unwrap().1 = Some(gives);
                other.codes.push(code);
                other.phase = Phase::Stations(station);
                next.push(other);
            };
            give(vec![], code(1, [station, 0, 0]));
            give(vec![back(station, 0); 2], code(2, [station, 0, 0]));
            give(vec![FOREIGN], code(4, [station, 0, 0]));
            give(vec![BLANK], code(5, [station, 0, 0]));
            for section in (1..=n).filter(|section| *section != station) {
                give(vec![back(section, 0)], code(3, [station, section, 0]));
            }
        }
        next
    }
}

/// A block taken out of a row, and what is left.
fn taken(row: &[u32], first: usize, last: usize) -> (Vec<u32>, Vec<u32>) {
    (row[first..=last].to_vec(), [&row[..first], &row[last + 1..]].concat())
}

/// How a move is named: by the shorter of the two blocks that change places, on a tie the earlier one. And whether they
/// are two single neighbours, which is an exchange.
fn name_of_move(row: &[u32], first: usize, last: usize, to: usize) -> (u64, bool) {
    // The places of the earlier block and of the later one, the end left out.
    let [earlier, later] =
        if to < first { [to..first, first..last + 1] } else { [first..last + 1, last + 1..to + last + 1 - first] };
    let name = if earlier.len() <= later.len() {
        code(7, [row[earlier.start], row[earlier.end - 1], row[later.end - 1]])
    } else {
        let before = earlier.start.checked_sub(1).map_or(0, |place| row[place]);
        code(7, [row[later.start], row[later.end - 1], before])
    };
    (name, earlier.len() == 1 && later.len() == 1)
}

/// A book that can be made, with how many faults, and by which.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Made {
    book: u64,
    faults: usize,
    list: u64,
}

/// Turns up to `left` more backs of a book, and notes everything.
fn turn(backs: &[Back], from: usize, codes: &[u64], left: usize, all: &mut Vec<Made>) {
    all.push(Made { book: book_of(backs.iter().copied()), faults: codes.len(), list: list_of(codes.iter().copied()) });
    if left == 0 {
        return;
    }
    for at in (from..backs.len()).filter(|at| backs[*at] > FOREIGN) {
        for lies in 1..4 {
            let mut turned = backs.to_vec();
            turned[at] += lies;
            let codes = [codes, &[code(9, [(backs[at] / 4) as u32, lies as u32, 0])]].concat();
            turn(&turned, at + 1, &codes, left - 1, all);
        }
    }
}

/// Every book of `n` sections that up to `most` faults make, with every list of the fewest: sorted by book.
fn oracle(n: u32, most: usize) -> Vec<Made> {
    let right =
        Making { row: (1..=n).map(|station| (station, None)).collect(), codes: Vec::new(), phase: Phase::Moves };
    let mut layer = vec![right];
    let mut all = Vec::new();
    for faults in 0..=most {
        for making in &layer {
            turn(&making.backs(), 0, &making.codes, most - faults, &mut all);
        }
        if faults < most {
            layer = layer.iter().flat_map(Making::next).collect();
        }
    }
    all.sort_unstable();
    all.dedup();
    // Of each book only the lists of the fewest faults.
    let mut fewest = (0, 0);
    all.retain(|made| {
        if made.book != fewest.0 {
            fewest = (made.book, made.faults);
        }
        made.faults == fewest.1
    });
    all
}

/// What the program says of a book, in the same form.
fn said(n: u32, book: u64) -> (bool, Vec<u64>) {
    let explained = explain_shown(&Odds::default(), n, &found_of(book), ALL).unwrap();
    assert!(!explained.cut, "{book}");
    let lists = explained.explanations.iter().map(|one| list_of(one.faults.iter().map(code_of)));
    let mut lists = lists.collect::<Vec<_>>();
    let told = lists.len();
    lists.sort_unstable();
    lists.dedup();
    assert_eq!(lists.len(), told, "told twice: {:?}", found_of(book));
    (explained.right(), lists)
}

/// Compares every book of the oracle; gives how many there are.
fn same_as_oracle(made: &[Made], n: u32) -> usize {
    let books = made.chunk_by(|one, other| one.book == other.book);
    let mut compared = 0;
    for book in books {
        let (right, lists) = said(n, book[0].book);
        let due = book.iter().map(|made| made.list).collect::<Vec<_>>();
        if book[0].faults == 0 {
            assert!(right && lists.is_empty());
        } else {
            assert!(!right && lists == due, "{n} sections, {:?}: {lists:x?} is not {due:x?}", found_of(book[0].book));
        }
        compared += 1;
    }
    compared
}

/// Compares books however they came about: those that are not in the oracle must not be explained.
fn like_oracle(n: u32, made: &[Made], books: impl Iterator<Item = u64>) -> [usize; 2] {
    let mut counts = [0; 2];
    for book in books {
        let start = made.partition_point(|made| made.book < book);
        let due = made[start..].iter().take_while(|made| made.book == book).map(|made| made.list).collect::<Vec<_>>();
        let (right, lists) = said(n, book);
        if right {
            assert_eq!(due, [0], "{:?}", found_of(book));
        } else {
            assert_eq!(lists, due, "{n} sections, {:?}", found_of(book));
        }
        counts[usize::from(due.is_empty())] += 1;
    }
    counts
}

/// Every order of sections 1 to n, in which any of them may lie any number of times up to twice, of `length` backs.
fn arrangements(n: u32, length: usize, each: &mut impl FnMut(&[u32])) {
    fn go(n: u32, length: usize, so_far: &mut Vec<u32>, each: &mut impl FnMut(&[u32])) {
        if so_far.len() == length {
            each(so_far);
            return;
        }
        for section in 1..=n {
            if so_far.iter().filter(|one| **one == section).count() < 2 {
                so_far.push(section);
                go(n, length, so_far, each);
                so_far.pop();
            }
        }
    }
    go(n, length, &mut Vec::new(), each);
}

/// Every order of up to `longest` backs in which any section is missing and any lies twice; where none is missing and none
/// lies twice, also with one or two sections turned in every way.
fn arranged(n: u32, longest: usize) {
    let made = oracle(n, 3);
    let mut counts = [0; 2];
    for length in 0..=longest {
        let mut books = Vec::new();
        arrangements(n, length, &mut |row| {
            let book = row.iter().map(|section| back(*section, 0)).collect::<Vec<_>>();
            books.push(book_of(book.iter().copied()));
            if length == n as usize && (1..=n).all(|section| row.contains(&section)) {
                let mut turned = Vec::new();
                turn(&book, 0, &[], 2, &mut turned);
                books.extend(turned.into_iter().filter(|made| made.faults > 0).map(|made| made.book));
            }
        });
        let more = like_oracle(n, &made, books.into_iter());
        counts = [counts[0] + more[0], counts[1] + more[1]];
    }
    println!("{n} sections: {} explained, {} not", counts[0], counts[1]);
}

fn every_book(n: u32) {
    let made = oracle(n, 3);
    println!("{n} sections: {} books, {} lists", same_as_oracle(&made, n), made.len());
}

#[test]
fn every_book_that_up_to_three_faults_make_of_up_to_six_sections() {
    (1..=6).for_each(every_book);
}

#[test]
fn every_book_that_up_to_three_faults_make_of_seven_sections() {
    every_book(7);
}

#[test]
fn every_arrangement_of_up_to_five_sections() {
    (1..=4).for_each(|n| arranged(n, 2 * n as usize));
    arranged(5, 6);
}

#[test]
#[ignore = "a minute or two, in release; run when the search changes"]
fn every_arrangement_of_up_to_seven_sections() {
    (5..=7).for_each(|n| arranged(n, 8));
}
