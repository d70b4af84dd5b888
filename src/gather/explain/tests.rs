//! The search against brute force, and the examples a binder would give.

use std::collections::{BTreeMap, BTreeSet};

use proptest::prelude::*;

use super::order;
use super::row::Row;
use super::search::stories;
use super::work::Work;
use super::*;

/// One act or station fault, applied by hand, with the name it should get.
type Step = (Vec<u32>, Fault);

/// Every block move of a row but the exchange of neighbours, named by the shorter block.
fn moves(row: &[u32]) -> Vec<Step> {
    let n = row.len();
    let mut steps = Vec::new();
    for start in 0..n {
        for end in start + 1..n {
            for to in end + 1..=n {
                let [front, back] = [&row[start..end], &row[end..to]];
                if front.len() == 1 && back.len() == 1 {
                    continue;
                }
                let after = [&row[..start], back, front, &row[to..]].concat();
                let fault = if front.len() <= back.len() {
                    Fault::Moved { sections: [front[0], front[front.len() - 1]], after: back[back.len() - 1] }
                } else {
                    Fault::Moved {
                        sections: [back[0], back[back.len() - 1]],
                        after: if start == 0 { 0 } else { row[start - 1] },
                    }
                };
                steps.push((after, fault));
            }
        }
    }
    steps
}

/// Every exchange of two stations' contents.
fn exchanges(row: &[u32]) -> Vec<Step> {
    let n = row.len() as u32;
    let mut steps = Vec::new();
    for b in 1..=n {
        for a in 1..b {
            let swap = |item: &u32| match *item {
                item if item == a => b,
                item if item == b => a,
                item => item,
            };
            steps.push((row.iter().map(swap).collect(), Fault::Exchanged { sections: [a, b] }));
        }
    }
    steps
}

/// Every row reached by exactly `acts` acts in the order moves, exchanges, reversal, with the names.
fn rows(n: u32, acts: usize) -> Vec<(Vec<u32>, Vec<Fault>)> {
    let mut all = Vec::new();
    for reversed in 0..=usize::from(acts > 0 && n > 1) {
        for moved in 0..=acts - reversed {
            let mut layer = vec![((1..=n).collect::<Vec<_>>(), Vec::new())];
            for number in 0..acts - reversed {
                let next = |row: &[u32]| {
                    if number < moved { moves(row) } else { exchanges(row) }
                };
                layer = layer
                    .iter()
                    .flat_map(|(row, names)| {
                        next(row)
                            .into_iter()
                            .map(|(row, name)| (row, [names.clone(), vec![name]].concat()))
                            .collect::<Vec<_>>()
                    })
                    .collect();
            }
            for (mut row, mut names) in layer {
                if reversed == 1 {
                    row.reverse();
                    names.push(Fault::Reversed);
                }
                all.push((row, names));
            }
        }
    }
    all
}

/// Lays exactly `left` station faults on a row, from its front, in every way.
fn spoil(
    n: u32,
    row: &[u32],
    left: usize,
    found: &mut Vec<Found>,
    names: &mut Vec<Fault>,
    each: &mut impl FnMut(&[Found], &[Fault]),
) {
    let Some((&station, rest)) = row.split_first() else {
        if left == 0 {
            each(found, names);
        }
        return;
    };
    let own = Found::right(station);
    let mut ways = vec![(vec![own], None)];
    if left > 0 {
        ways.push((vec![], Some(Fault::Missing { section: station })));
        ways.push((vec![own, own], Some(Fault::Double { section: station })));
        ways.push((vec![Found::Foreign], Some(Fault::Foreign { at: station })));
        ways.push((vec![Found::NoMark], Some(Fault::NoMark { at: station })));
        for section in (1..=n).filter(|&section| section != station) {
            let name = Fault::WrongSection { at: station, section };
            ways.push((vec![Found::right(section)], Some(name)));
        }
    }
    for (backs, name) in ways {
        let [found_before, names_before] = [found.len(), names.len()];
        found.extend(backs);
        names.extend(name);
        spoil(n, rest, left - usize::from(name.is_some()), found, names, each);
        found.truncate(found_before);
        names.truncate(names_before);
    }
}

type Books = BTreeMap<Vec<Found>, (usize, BTreeSet<Vec<Fault>>)>;

/// Every book that up to `most` faults make, with the fewest faults and every list of so few.
fn brute(n: u32, most: usize) -> Books {
    let mut books = Books::new();
    for faults in 0..=most {
        for acts in 0..=faults {
            for (row, mut names) in rows(n, acts) {
                spoil(n, &row, faults - acts, &mut Vec::new(), &mut names, &mut |found, names| {
                    let entry = books.entry(found.to_vec()).or_insert((faults, BTreeSet::new()));
                    if entry.0 == faults {
                        let mut names = names.to_vec();
                        names.sort_unstable();
                        entry.1.insert(names);
                    }
                });
            }
        }
    }
    books
}

/// What the search says, in the same form.
fn searched(n: u32, found: &[Found], most: usize) -> BTreeSet<Vec<Fault>> {
    let mut work = Work::new(STEPS);
    let stories = stories(n as usize, found, most, &mut work);
    assert!(!work.cut, "{found:?}");
    let count = stories.len();
    let named = stories.iter().map(|story| {
        let mut faults = told(n, story, &[]).faults;
        faults.sort_unstable();
        faults
    });
    let named = named.collect::<BTreeSet<_>>();
    assert_eq!(named.len(), count, "told twice: {found:?}");
    named
}

fn same_as_brute(n: u32, most: usize, every: usize) {
    let books = brute(n, most);
    let picked = books.iter().enumerate().filter(|(index, _)| index % every == 0);
    for (_, (found, (faults, names))) in picked {
        let said = searched(n, found, most);
        assert_eq!(&said, names, "{n} sections, {faults} faults: {found:?}");
    }
}

#[test]
fn equal_to_brute_force_up_to_three_faults() {
    for n in 1..=5 {
        same_as_brute(n, 3, 1);
    }
}

#[test]
fn equal_to_brute_force_up_to_two_faults() {
    same_as_brute(6, 2, 1);
}

/// Rows made by three acts, and no fewer, against every list of acts that makes them.
fn rows_same_as_brute(n: u32) {
    let mut all = BTreeMap::<Vec<u32>, (usize, BTreeSet<Vec<Fault>>)>::new();
    for acts in 0..=3 {
        for (row, mut names) in rows(n, acts) {
            let entry = all.entry(row).or_insert((acts, BTreeSet::new()));
            if entry.0 == acts {
                names.sort_unstable();
                entry.1.insert(names);
            }
        }
    }
    for (row, (acts, names)) in all {
        let mut work = Work::new(STEPS);
        work.begin();
        let backwards = row.iter().rev().copied().collect::<Vec<_>>();
        let straight = order::ways(&Row::new(&row), acts, &mut work);
        let turned = match acts.checked_sub(1) {
            Some(acts) => order::ways(&Row::new(&backwards), acts, &mut work),
            None => Vec::new(),
        };
        let turned = turned.into_iter().map(|acts| [acts, vec![Act::Reversed]].concat());
        let said = straight.into_iter().chain(turned).map(|acts| {
            let stations = Vec::new();
            let mut faults = told(n, &Story { acts, stations }, &[]).faults;
            faults.sort_unstable();
            faults
        });
        assert_eq!(said.collect::<BTreeSet<_>>(), names, "{row:?}");
    }
}

#[test]
fn rows_equal_to_brute_force() {
    rows_same_as_brute(6);
}

#[test]
#[ignore = "ten seconds without optimising; run when the search changes"]
fn equal_to_brute_force_at_length() {
    same_as_brute(6, 3, 1);
    same_as_brute(7, 2, 1);
    rows_same_as_brute(7);
    rows_same_as_brute(8);
}

proptest! {
    #[test]
    fn planted_faults_are_found_in_longer_books(
        n in 7..24_u32,
        acts in 0..=3_usize,
        moved in 0..=3_usize,
        picks in prop::collection::vec(any::<prop::sample::Index>(), 6),
        reversed in any::<bool>(),
    ) {
        let mut row = (1..=n).collect::<Vec<_>>();
        let mut names = Vec::new();
        for (number, pick) in picks[..acts].iter().enumerate() {
            let steps = if number < moved { moves(&row) } else { exchanges(&row) };
            let (next, name) = pick.get(&steps).clone();
            row = next;
            names.push(name);
        }
        if reversed && acts < 3 {
            row.reverse();
            names.push(Fault::Reversed);
        }
        // The other faults lie on different stations.
        let mut found = row.iter().map(|&station| vec![Found::right(station)]).collect::<Vec<_>>();
        let mut places = Vec::new();
        for pick in &picks[names.len()..3] {
            let place = pick.index(found.len());
            if places.contains(&place) {
                continue;
            }
            places.push(place);
            let at = row[place];
            let section = at % n + 1;
            let (backs, name) = match picks[5].index(97) % 5 {
                0 => (vec![], Fault::Missing { section: at }),
                1 => (vec![Found::right(at); 2], Fault::Double { section: at }),
                2 => (vec![Found::right(section)], Fault::WrongSection { at, section }),
                3 => (vec![Found::Foreign], Fault::Foreign { at }),
                _ => (vec![Found::NoMark], Fault::NoMark { at }),
            };
            found[place] = backs;
            names.push(name);
        }
        let said = searched(n, &found.concat(), 3);
        names.sort_unstable();
        let count = said.first().map(Vec::len);
        prop_assert!(count.is_some_and(|count| count <= names.len()));
        prop_assert!(count < Some(names.len()) || said.contains(&names), "{:?}", names);
    }
}

#[test]
fn unread_backs_match_anything() {
    // Each book of four with one or two backs hidden: everything that matches what is left to see.
    let n = 4;
    let books = brute(n, 2);
    let hidden_lists = [vec![0], vec![2], vec![0, 1], vec![1, 3]];
    for book in books.keys().step_by(5) {
        for hidden in &hidden_lists {
            if hidden.iter().any(|&at| at >= book.len()) {
                continue;
            }
            let mut found = book.clone();
            hidden.iter().for_each(|&at| found[at] = Found::Unread);
            let matching = books.iter().filter(|(other, _)| {
                let fits = |(index, other): (usize, &Found)| hidden.contains(&index) || *other == found[index];
                other.len() == found.len() && other.iter().enumerate().all(fits)
            });
            let matching = matching.map(|(_, entry)| entry).collect::<Vec<_>>();
            let fewest = matching.iter().map(|entry| entry.0).min().unwrap();
            let names = matching.iter().filter(|entry| entry.0 == fewest);
            let names = names.flat_map(|entry| entry.1.iter().cloned()).collect::<BTreeSet<_>>();
            assert_eq!(searched(n, &found, 2), names, "{found:?}");
        }
    }
}

#[test]
fn no_other_order_of_acts_reaches_further() {
    // Any mix of moves, exchanges of places and reversals, against the fixed order the search assumes.
    let n = 5;
    let mut fewest = BTreeMap::from([((1..=n).collect::<Vec<u32>>(), 0)]);
    let mut layer = fewest.keys().cloned().collect::<Vec<_>>();
    for acts in 1..=3 {
        let mut next = Vec::new();
        for row in &layer {
            let mut reached = moves(row).into_iter().map(|step| step.0).collect::<Vec<_>>();
            reached.push(row.iter().rev().copied().collect());
            for b in 1..row.len() {
                for a in 0..b {
                    let mut other = row.clone();
                    other.swap(a, b);
                    reached.push(other);
                }
            }
            for row in reached {
                if !fewest.contains_key(&row) {
                    fewest.insert(row.clone(), acts);
                    next.push(row);
                }
            }
        }
        layer = next;
    }
    for (row, acts) in fewest {
        let found = row.iter().copied().map(Found::right).collect::<Vec<_>>();
        let said = searched(n, &found, 3);
        let count = said.first().map(Vec::len);
        // A row can also be explained by wrong sections, but never by fewer of them: each act costs one.
        assert_eq!(count, Some(acts), "{row:?}");
    }
}

fn right(sections: impl IntoIterator<Item = u32>) -> Vec<Found> {
    sections.into_iter().map(Found::right).collect()
}

fn first(sections: u32, found: &[Found]) -> Explanation {
    explain(sections, found).unwrap().explanations[0].clone()
}

#[test]
fn a_wrong_load_that_looks_like_a_double() {
    let explained = explain(7, &right([1, 2, 3, 4, 5, 5, 7])).unwrap();
    assert!(explained.complete);
    assert_eq!(explained.explanations.len(), 1);
    let only = &explained.explanations[0];
    assert_eq!(only.faults, [Fault::WrongSection { at: 6, section: 5 }]);
    assert_eq!((only.bulk, only.odds), (0, 1.0));
}

#[test]
fn a_right_book_and_a_hopeless_one() {
    let good = explain(12, &right(1..=12)).unwrap();
    assert!(good.right() && good.complete && good.explanations.is_empty());
    let hopeless = explain(12, &right([5, 3, 1, 12, 9, 8, 8, 2])).unwrap();
    assert!(!hopeless.right() && !hopeless.complete && hopeless.explanations.is_empty());
}

#[test]
fn neighbours_are_exchanged_and_a_shifted_book_may_be_divided_wrong() {
    let neighbours = first(12, &right([1, 2, 3, 4, 6, 5, 7, 8, 9, 10, 11, 12]));
    assert_eq!(neighbours.faults, [Fault::Exchanged { sections: [5, 6] }]);
    assert!(neighbours.same_order_as.is_empty());
    let divided = first(12, &right((7..=12).chain(1..=6)));
    let moved = Fault::Moved { sections: [1, 6], after: 12 };
    assert_eq!(divided.faults, [moved]);
    assert_eq!(divided.same_order_as, [[Fault::DividedWrong { after: 6 }]]);
}

#[test]
fn each_section_that_does_not_lie_right_is_one_fault_more() {
    let mut found = right([1, 2, 3, 4, 9, 6, 7, 8, 9]);
    found[4] = Found::Section { section: 9, lies: Lies::HeadToTail };
    let only = first(9, &found);
    assert_eq!(
        only.faults,
        [Fault::WrongSection { at: 5, section: 9 }, Fault::Lies { section: 9, lies: Lies::HeadToTail }]
    );
    let turned = first(3, &[Found::right(1), Found::Section { section: 2, lies: Lies::SideToSide }, Found::right(3)]);
    assert_eq!(turned.faults.len(), 1);
    assert_eq!(turned.caution, "");
}

#[test]
fn refusals_say_where() {
    assert_eq!(explain(0, &[]).unwrap_err().at, "sections");
    assert_eq!(explain(401, &[]).unwrap_err().at, "sections");
    assert_eq!(explain(2, &right([1, 3])).unwrap_err().at, "found[1].section");
    assert_eq!(explain(2, &vec![Found::NoMark; 401]).unwrap_err().at, "found");
    assert!(!explain(400, &[]).unwrap().complete);
    assert!(!explain(1, &vec![Found::Unread; 400]).unwrap().complete);
}
