//! Every way to rearrange a right row into a given one by one, two or three acts.
//!
//! Works backwards from the given row. What makes it quick is the count of breaks (see `row`): two moves
//! that are not one leave four to six breaks, and mend them only if the last one cuts at three breaks; a first move of
//! three must leave at most six. An exchange changes the count by four at most, and all pairs are tried. A pair of
//! exchanges beside one move is found by comparing the row with every move: all but four places must agree.
//!
//! Only rows that need this many acts are asked for: fewer were tried before. The reversal is not handled here.

use super::row::{Act, Cuts, Row};
use super::work::Work;

/// All lists of exactly `acts` acts, in the order they happen, that make `row` of a right row.
pub(super) fn ways(row: &Row, acts: usize, work: &mut Work) -> Vec<Vec<Act>> {
    let mut ways = Vec::new();
    let breaks = row.breaks().len();
    if !work.spend(8 * (row.len() + 1)) {
        return ways;
    }
    match acts {
        0 if breaks == 0 => ways.push(Vec::new()),
        1 => {
            ways.extend(row.one_exchange().map(|pair| vec![Act::Exchanged(pair)]));
            ways.extend(last_move(row).map(|act| vec![act]));
        }
        2 if breaks <= 8 => {
            exchanges(row, 2, &mut Vec::new(), &mut ways);
            if breaks <= 7 {
                exchange_then(row, 3..=3, work, &mut ways, |row| {
                    last_move(row).into_iter().map(|act| vec![act]).collect()
                });
            }
            ways.extend(two_moves(row));
        }
        3 if breaks <= 12 => {
            exchanges(row, 3, &mut Vec::new(), &mut ways);
            if breaks <= 11 {
                move_and_exchanges(row, work, &mut ways);
            }
            if breaks <= 10 {
                exchange_then(row, 4..=6, work, &mut ways, two_moves);
            }
            if breaks <= 9 {
                three_moves(row, work, &mut ways);
            }
        }
        _ => {}
    }
    ways
}

/// The one move that made this row, unless it is an exchange of neighbours.
fn last_move(row: &Row) -> Option<Act> {
    let cuts = row.one_move().filter(|cuts| !cuts.is_exchange())?;
    Some(row.moved(cuts.back()).name(cuts))
}

/// All ways by exactly `acts` exchanges, and no fewer.
fn exchanges(row: &Row, acts: usize, done: &mut Vec<Act>, ways: &mut Vec<Vec<Act>>) {
    let displaced = row.displaced();
    if displaced.is_empty() {
        if acts == 0 {
            ways.push(done.iter().rev().copied().collect());
        }
        return;
    }
    // `acts` exchanges displace at most twice as many.
    if displaced.len() > 2 * acts {
        return;
    }
    for (index, &q) in displaced.iter().enumerate() {
        for &p in &displaced[..index] {
            let [a, b] = [row.at(p), row.at(q)];
            done.push(Act::Exchanged([a.min(b), a.max(b)]));
            exchanges(&row.swapped(p, q), acts - 1, done, ways);
            done.pop();
        }
    }
}

/// All ways that end with an exchange which leaves a number of breaks within `left`.
fn exchange_then(
    row: &Row,
    left: std::ops::RangeInclusive<i32>,
    work: &mut Work,
    ways: &mut Vec<Vec<Act>>,
    rest: impl Fn(&Row) -> Vec<Vec<Act>>,
) {
    let breaks = row.breaks().len() as i32;
    for q in 2..=row.len() {
        if !work.spend(4 * q) {
            return;
        }
        for p in 1..q {
            if left.contains(&(breaks + row.breaks_after_swap(p, q))) {
                let [a, b] = [row.at(p), row.at(q)];
                let pair = Act::Exchanged([a.min(b), a.max(b)]);
                work.spend(8 * row.len());
                for before in rest(&row.swapped(p, q)) {
                    ways.push([before, vec![pair]].concat());
                }
            }
        }
    }
}

/// All ways by two moves, and no fewer.
fn two_moves(row: &Row) -> Vec<Vec<Act>> {
    let breaks = row.breaks();
    let mut ways = Vec::new();
    if !(4..=6).contains(&breaks.len()) {
        return ways;
    }
    for (c, &k) in breaks.iter().enumerate() {
        for (b, &j) in breaks[..c].iter().enumerate() {
            for &i in &breaks[..b] {
                let cuts = Cuts { i, j, k };
                if cuts.is_exchange() || breaks.len() as i32 + row.breaks_after_move(cuts) != 3 {
                    continue;
                }
                let before = row.moved(cuts);
                if let Some(first) = last_move(&before) {
                    ways.push(vec![first, before.name(cuts.back())]);
                }
            }
        }
    }
    ways
}

/// All ways by three moves, and no fewer.
fn three_moves(row: &Row, work: &mut Work, ways: &mut Vec<Vec<Act>>) {
    let breaks = row.breaks();
    let count = breaks.len() as i32;
    // A move that cuts at only one break adds two, at two adds none at best, at three mends up to three.
    let least_at_breaks = match count {
        4 => 1,
        5 | 6 => 2,
        7..=9 => 3,
        _ => return,
    };
    let at_break = (0..=row.len()).map(|place| row.broken(place)).collect::<Vec<_>>();
    for k in 2..=row.len() {
        for j in 1..k {
            let so_far = usize::from(at_break[k]) + usize::from(at_break[j]);
            if so_far + 1 < least_at_breaks {
                continue;
            }
            let mut one = |i: usize, work: &mut Work| {
                let cuts = Cuts { i, j, k };
                if cuts.is_exchange() || !(4..=6).contains(&(count + row.breaks_after_move(cuts))) {
                    return;
                }
                work.spend(12 * row.len());
                let before = row.moved(cuts);
                let last = before.name(cuts.back());
                for first in two_moves(&before) {
                    ways.push([first, vec![last]].concat());
                }
            };
            if so_far >= least_at_breaks {
                if !work.spend(3 * j) {
                    return;
                }
                (0..j).for_each(|i| one(i, work));
            } else {
                breaks.iter().take_while(|&&i| i < j).for_each(|&i| one(i, work));
            }
        }
    }
}

/// All ways by one move and two exchanges: every move that agrees with the row in all but three or four places.
fn move_and_exchanges(row: &Row, work: &mut Work, ways: &mut Vec<Vec<Act>>) {
    let n = row.len();
    let right = Row::new(&(1..=n as u32).collect::<Vec<_>>());
    // strays[place] counts the items up to `place` that do not stand at home.
    let mut strays = vec![0_usize; n + 1];
    for place in 1..=n {
        strays[place] = strays[place - 1] + usize::from(row.at(place) as usize != place);
    }
    // For an offset: how many items up to a place stand that far from home. Kept for one offset at a time.
    let matches = |offset: i64| {
        let mut sums = vec![0_usize; n + 1];
        for place in 1..=n {
            let fits = i64::from(row.at(place)) - place as i64 == offset;
            sums[place] = sums[place - 1] + usize::from(fits);
        }
        sums
    };
    let ahead = (0..n).map(|offset| matches(offset as i64)).collect::<Vec<_>>();
    let behind = (0..n).map(|offset| matches(-(offset as i64))).collect::<Vec<_>>();
    work.spend(4 * n * n);
    for i in 0..n {
        if strays[i] > 4 {
            break;
        }
        for k in (i + 2..=n).rev() {
            let outside = strays[i] + strays[n] - strays[k];
            if outside > 4 {
                break;
            }
            if !work.spend(2 * (k - i)) {
                return;
            }
            for j in i + 1..k {
                let middle = i + k - j;
                let front = &ahead[j - i];
                let back = &behind[k - j];
                let fits = front[middle] - front[i] + back[k] - back[middle];
                let astray = outside + (k - i) - fits;
                let cuts = Cuts { i, j, k };
                if !(3..=4).contains(&astray) || cuts.is_exchange() {
                    continue;
                }
                work.spend(12 * n);
                // What each station of the moved row holds: the exchanges alone.
                let moved = right.moved(cuts);
                let mut held = vec![0; n];
                for place in 1..=n {
                    held[moved.at(place) as usize - 1] = row.at(place);
                }
                let mut pairs = Vec::new();
                exchanges(&Row::new(&held), 2, &mut Vec::new(), &mut pairs);
                for pair in pairs {
                    ways.push([vec![right.name(cuts)], pair].concat());
                }
            }
        }
    }
}
