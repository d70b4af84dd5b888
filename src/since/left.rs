//! Leftovers: what is over and short at the stations, against what each kind of fault leaves.

use super::{Left, Line, MOST_STATIONS};
use crate::words::{grouped, how_many};
use serde::{Deserialize, Serialize};

/// A kind of fault by what it takes from the piles. Station n holds section n in a right book.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
pub enum Takes {
    /// The section was not fed.
    Missing {
        /// The section.
        section: u32,
    },
    /// It was fed twice.
    Double {
        /// The section.
        section: u32,
    },
    /// A station held another section of the job.
    WrongSection {
        /// The station.
        at: u32,
        /// What it held.
        section: u32,
    },
    /// A station held a section of another job.
    Foreign {
        /// The station.
        at: u32,
    },
    /// Every section was taken once: stations exchanged, sections turned, moved or folded wrongly, books divided wrong.
    Same {},
}

/// What a fault in so many books leaves at the stations; stations at which nothing is over or short are left away.
///
/// Reckoned from what a fault takes: a miss leaves its section once more for each book, a double once less; a wrong
/// section leaves the station's own and uses up another's; a foreign one leaves the station's own.
#[must_use]
pub fn leaves(takes: Takes, books: u32) -> Vec<Left> {
    let n = i32::try_from(books).unwrap_or(i32::MAX);
    let left = |station, over| Left { station, over };
    match takes {
        _ if n == 0 => Vec::new(),
        Takes::Missing { section } => vec![left(section, n)],
        Takes::Double { section } => vec![left(section, -n)],
        Takes::WrongSection { at, section } if at != section => vec![left(at, n), left(section, -n)],
        Takes::Foreign { at } => vec![left(at, n)],
        Takes::WrongSection { .. } | Takes::Same {} => Vec::new(),
    }
}

/// One thing that leftovers say.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Reckoned {
    /// What would leave them.
    pub takes: Takes,
    /// In how many books.
    pub books: u32,
    /// The sentence.
    pub says: String,
}

/// What leftovers say.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Reconciled {
    /// What would leave them, those that account for most first. Where a pile over and a pile short are equal, one cause
    /// accounts for both; the rest is told pile by pile.
    pub reckoned: Vec<Reckoned>,
    /// Sentences on what doesn't agree, and on what else would leave the same.
    pub disagrees: Vec<String>,
}

/// Reads leftovers.
#[must_use]
pub fn reconcile(line: &Line, left: &[Left]) -> Reconciled {
    let most = line.books();
    let mut out = Reconciled::default();
    let mut over: Vec<(u32, u32)> = Vec::new();
    let mut short: Vec<(u32, u32)> = Vec::new();
    for l in left.iter().take(MOST_STATIONS as usize) {
        let n = l.over.unsigned_abs();
        match l.over.signum() {
            1 => over.push((l.station, n)),
            -1 => short.push((l.station, n)),
            _ => {}
        }
        if n > most {
            out.disagrees.push(format!(
                "Station {} is {} {}, and only {} were made.",
                l.station,
                how_many(n, "section"),
                if l.over > 0 { "over" } else { "short" },
                how_many(most, "book")
            ));
        }
    }
    let largest = |list: &mut Vec<(u32, u32)>| list.sort_by_key(|(station, n)| (std::cmp::Reverse(*n), *station));
    largest(&mut over);
    largest(&mut short);
    let several = |list: &[(u32, u32)], n: u32| list.iter().filter(|(_, m)| *m == n).count() > 1;
    // Equal piles first.
    let mut rest = Vec::new();
    for (at, n) in &over {
        let Some(i) = short.iter().position(|(_, m)| m == n) else {
            rest.push((*at, *n));
            continue;
        };
        if several(&over, *n) || several(&short, *n) {
            out.disagrees.push(format!(
                "More than one station is over or short by {}: which belongs to which, leftovers can't tell.",
                grouped(*n)
            ));
        }
        let (section, _) = short.remove(i);
        wrong_section(*at, section, *n, &mut out);
    }
    // Then the largest with the largest, if they are near to each other: what is between them is said.
    let mut single = Vec::new();
    for (at, n) in rest {
        let near = short.first().filter(|(_, m)| n.abs_diff(*m) <= n.min(*m) / 10).copied();
        let Some((section, m)) = near else {
            single.push((at, n));
            continue;
        };
        short.remove(0);
        wrong_section(at, section, n.min(m), &mut out);
        let further = if n > m {
            format!("misses at station {at}, or sections of {section} that were put back")
        } else {
            format!("doubles at station {section}, or sections of {section} that were spoiled")
        };
        out.disagrees.push(format!(
            "Station {at} is {} over and station {section} is {} short: {} apart. Count both piles again; if they stay \
             so, there were also {further}.",
            grouped(n),
            grouped(m),
            grouped(n.abs_diff(m))
        ));
    }
    for (at, n) in single {
        out.reckoned.push(Reckoned {
            takes: Takes::Missing { section: at },
            books: n,
            says: format!(
                "Station {at} is {} over: section {at} is missing in {}, or station {at} held sections of another job for so \
                 many.",
                grouped(n),
                how_many(n, "book")
            ),
        });
    }
    for (section, n) in short {
        out.reckoned.push(Reckoned {
            takes: Takes::Double { section },
            books: n,
            says: format!(
                "Station {section} is {} short: section {section} is there twice in {}, or so many were spoiled, or it was \
                 loaded with too few.",
                grouped(n),
                how_many(n, "book")
            ),
        });
    }
    out.disagrees.dedup();
    out
}

fn wrong_section(at: u32, section: u32, n: u32, out: &mut Reconciled) {
    let books = how_many(n, "book");
    out.reckoned.push(Reckoned {
        takes: Takes::WrongSection { at, section },
        books: n,
        says: format!(
            "Station {at} has {} over and station {section} as many short: station {at} held section {section} for {books}.",
            grouped(n)
        ),
    });
}

/// Whether leftovers are what a fault would leave, and a sentence on it.
#[must_use]
pub fn agrees(takes: Takes, books: u32, left: &[Left]) -> (bool, String) {
    let expected = leaves(takes, books);
    let counted = |station| left.iter().find(|l| l.station == station).map(|l| l.over);
    let signed = |n: i32| format!("{}{}", if n < 0 { "−" } else { "+" }, grouped(n.unsigned_abs()));
    for l in &expected {
        match counted(l.station) {
            Some(over) if over == l.over => {}
            Some(over) => {
                let says = format!(
                    "It would leave {} at station {}, and {} was counted.",
                    signed(l.over),
                    l.station,
                    signed(over)
                );
                return (false, says);
            }
            None => {
                let says = format!("It would leave {} at station {}, which nobody counted.", signed(l.over), l.station);
                return (false, says);
            }
        }
    }
    match left.iter().find(|l| l.over != 0 && !expected.iter().any(|e| e.station == l.station)) {
        Some(l) => (false, format!("It does not account for {} at station {}.", signed(l.over), l.station)),
        None if expected.is_empty() => (true, "It leaves nothing over or short, and nothing is.".to_owned()),
        None => {
            let piles: Vec<String> =
                expected.iter().map(|l| format!("station {} {}", l.station, signed(l.over))).collect();
            (true, format!("The leftovers agree: {} for {}.", piles.join(", "), how_many(books, "book")))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn left(list: &[(u32, i32)]) -> Vec<Left> {
        list.iter().map(|(station, over)| Left { station: *station, over: *over }).collect()
    }

    #[test]
    fn eighty_over_and_eighty_short_are_eighty_books() {
        let found = reconcile(&Line::of(1, 2000), &left(&[(5, 80), (9, -80), (3, 0)]));
        assert_eq!(found.reckoned.len(), 1);
        assert_eq!(found.reckoned[0].takes, Takes::WrongSection { at: 5, section: 9 });
        assert_eq!((found.reckoned[0].books, found.disagrees.len()), (80, 0));
        assert_eq!(
            found.reckoned[0].says,
            "Station 5 has 80 over and station 9 as many short: station 5 held section 9 for 80 books."
        );
    }

    #[test]
    fn what_does_not_add_up_is_said() {
        let found = reconcile(&Line::of(1, 2000), &left(&[(5, 80), (9, -78)]));
        assert_eq!((found.reckoned[0].books, found.reckoned.len()), (78, 1));
        assert!(found.disagrees[0].contains("2 apart"), "{:?}", found.disagrees);
        let found = reconcile(&Line::of(1, 2000), &left(&[(5, 80), (9, -20)]));
        assert_eq!(
            found.reckoned.iter().map(|r| r.takes).collect::<Vec<_>>(),
            [Takes::Missing { section: 5 }, Takes::Double { section: 9 }]
        );
        let found = reconcile(&Line::of(1, 10), &left(&[(5, 80)]));
        assert!(found.disagrees[0].contains("only 10 books were made"));
        let found = reconcile(&Line::of(1, 99), &left(&[(5, 8), (9, -8), (4, 8)]));
        assert!(found.disagrees[0].contains("which belongs to which"));
    }

    #[test]
    fn every_kind_leaves_what_it_must() {
        let after = |takes, n| leaves(takes, n).iter().map(|l| (l.station, l.over)).collect::<Vec<_>>();
        assert_eq!(after(Takes::Missing { section: 6 }, 1), [(6, 1)]);
        assert_eq!(after(Takes::Double { section: 6 }, 2), [(6, -2)]);
        assert_eq!(after(Takes::WrongSection { at: 5, section: 9 }, 80), [(5, 80), (9, -80)]);
        assert_eq!(after(Takes::Foreign { at: 3 }, 4), [(3, 4)]);
        assert_eq!(after(Takes::Same {}, 400), []);
        assert_eq!(after(Takes::WrongSection { at: 5, section: 5 }, 80), []);
    }

    #[test]
    fn a_supposed_fault_is_held_against_the_leftovers() {
        let takes = Takes::WrongSection { at: 5, section: 9 };
        let counted = left(&[(5, 80), (9, -80)]);
        assert_eq!(
            agrees(takes, 80, &counted),
            (true, "The leftovers agree: station 5 +80, station 9 −80 for 80 books.".to_owned())
        );
        assert_eq!(agrees(takes, 81, &counted).1, "It would leave +81 at station 5, and +80 was counted.");
        assert_eq!(agrees(Takes::Missing { section: 5 }, 80, &counted).1, "It does not account for −80 at station 9.");
        assert_eq!(agrees(takes, 80, &left(&[(5, 80)])).1, "It would leave −80 at station 9, which nobody counted.");
        assert!(agrees(Takes::Same {}, 400, &left(&[(2, 0)])).0);
    }
}
