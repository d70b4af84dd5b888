//! A row of stations, and the acts that rearrange it: one exchange, one block moved.
//!
//! A row holds each number 1 to n once. A *break* is a neighbouring pair that is not (k, k + 1), where 0 stands before
//! the row and n + 1 behind it. A right row has no break. A row with exactly three breaks is always two neighbouring
//! blocks that changed places, so counting breaks is enough to know one move; one move mends at most three breaks,
//! one exchange at most four.

/// An act on the whole row. Moves come first, then exchanges, then the reversal: an exchange swaps what two stations
/// hold wherever they stand, so it commutes with the others, and a move after a reversal is another move before it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Act {
    /// The block from the first to the last item stands after another item. `whole` tells the last item of the front
    /// block when the two blocks make up the whole row.
    Moved {
        block: [u32; 2],
        after: u32,
        whole: Option<u32>,
    },
    /// These two items changed places, ascending.
    Exchanged([u32; 2]),
    /// The row runs backwards.
    Reversed,
}

/// Three cuts in a row: the items behind `i` up to `j`, and those behind `j` up to `k`, change places.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Cuts {
    pub i: usize,
    pub j: usize,
    pub k: usize,
}

impl Cuts {
    /// Two single neighbours: that is called an exchange.
    pub(super) fn is_exchange(self) -> bool {
        self.k - self.i == 2
    }

    /// The cuts that undo these.
    pub(super) fn back(self) -> Self {
        Self {
            j: self.i + self.k - self.j,
            ..self
        }
    }
}

/// A row with its two ends: `items[0]` is 0 and `items[n + 1]` is n + 1.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Row {
    items: Vec<u32>,
}

impl Row {
    /// A row of items without its ends.
    pub(super) fn new(inner: &[u32]) -> Self {
        let mut items = Vec::with_capacity(inner.len() + 2);
        items.push(0);
        items.extend_from_slice(inner);
        items.push(inner.len() as u32 + 1);
        Self { items }
    }

    /// How many items there are.
    pub(super) fn len(&self) -> usize {
        self.items.len() - 2
    }

    /// The item at a place, 0 to n + 1.
    pub(super) fn at(&self, place: usize) -> u32 {
        self.items[place]
    }

    /// Is the pair at `place` and behind it a break? `place` is 0 to n.
    pub(super) fn broken(&self, place: usize) -> bool {
        self.items[place] + 1 != self.items[place + 1]
    }

    /// The places behind which the row is broken.
    pub(super) fn breaks(&self) -> Vec<usize> {
        (0..=self.len())
            .filter(|&place| self.broken(place))
            .collect()
    }

    /// The places whose item is not their own number.
    pub(super) fn displaced(&self) -> Vec<usize> {
        (1..=self.len())
            .filter(|&place| self.items[place] as usize != place)
            .collect()
    }

    /// The row after two items, at places `p` < `q`, changed places.
    pub(super) fn swapped(&self, p: usize, q: usize) -> Self {
        let mut row = self.clone();
        row.items.swap(p, q);
        row
    }

    /// By how much an exchange of the places `p` < `q` changes the number of breaks.
    pub(super) fn breaks_after_swap(&self, p: usize, q: usize) -> i32 {
        let at = |place: usize| match place {
            place if place == p => self.items[q],
            place if place == q => self.items[p],
            place => self.items[place],
        };
        let mut change = 0;
        // Between neighbours lies one pair, not two.
        let between = (q - 1 != p).then_some(q - 1);
        for place in [p - 1, p, q].into_iter().chain(between) {
            change += i32::from(at(place) + 1 != at(place + 1)) - i32::from(self.broken(place));
        }
        change
    }

    /// The row after two blocks changed places.
    pub(super) fn moved(&self, cuts: Cuts) -> Self {
        let mut row = self.clone();
        row.items[cuts.i + 1..=cuts.k].rotate_left(cuts.j - cuts.i);
        row
    }

    /// By how much the change of two blocks changes the number of breaks.
    pub(super) fn breaks_after_move(&self, Cuts { i, j, k }: Cuts) -> i32 {
        let x = &self.items;
        let new = [(x[i], x[j + 1]), (x[k], x[i + 1]), (x[j], x[k + 1])];
        let new = new
            .iter()
            .filter(|(left, right)| left + 1 != *right)
            .count() as i32;
        let old = [i, j, k]
            .iter()
            .filter(|&&place| self.broken(place))
            .count() as i32;
        new - old
    }

    /// The two blocks that changed places, if that alone rearranged this row.
    pub(super) fn one_move(&self) -> Option<Cuts> {
        match self.breaks().as_slice() {
            &[i, j, k] => Some(Cuts { i, j, k }.back()),
            _ => None,
        }
    }

    /// The exchange of two items, if that alone rearranged this row.
    pub(super) fn one_exchange(&self) -> Option<[u32; 2]> {
        match self.displaced().as_slice() {
            &[p, q] => Some([p as u32, q as u32]),
            _ => None,
        }
    }

    /// Names the change of two blocks of this row: by the shorter block, on a tie by the earlier one.
    pub(super) fn name(&self, Cuts { i, j, k }: Cuts) -> Act {
        let x = &self.items;
        let (block, after) = if j - i <= k - j {
            ([x[i + 1], x[j]], x[k])
        } else {
            ([x[j + 1], x[k]], x[i])
        };
        let whole = (i == 0 && k == self.len()).then(|| x[j]);
        Act::Moved {
            block,
            after,
            whole,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn three_breaks_are_always_one_move() {
        // Every row of up to six, made by counting through all orders.
        for n in 1..=6_u32 {
            let mut rows = vec![vec![]];
            for _ in 0..n {
                rows = rows
                    .into_iter()
                    .flat_map(|row: Vec<u32>| {
                        (1..=n)
                            .filter(|item| !row.contains(item))
                            .map(|item| [row.clone(), vec![item]].concat())
                            .collect::<Vec<_>>()
                    })
                    .collect();
            }
            for inner in rows {
                let row = Row::new(&inner);
                if let Some(cuts) = row.one_move() {
                    let right = Row::new(&(1..=n).collect::<Vec<_>>());
                    assert_eq!(right.moved(cuts), row);
                }
                let places = n as usize;
                for q in 2..=places {
                    for p in 1..q {
                        let after = row.swapped(p, q).breaks().len() as i32;
                        assert_eq!(
                            row.breaks().len() as i32 + row.breaks_after_swap(p, q),
                            after
                        );
                    }
                }
                for k in 2..=places {
                    for j in 1..k {
                        for i in 0..j {
                            let cuts = Cuts { i, j, k };
                            let after = row.moved(cuts);
                            let change = row.breaks_after_move(cuts);
                            assert_eq!(
                                row.breaks().len() as i32 + change,
                                after.breaks().len() as i32
                            );
                            assert_eq!(after.moved(cuts.back()), row);
                        }
                    }
                }
            }
        }
    }

    #[test]
    fn a_move_is_named_by_its_shorter_block() {
        let row = Row::new(&(1..=12).collect::<Vec<_>>());
        let named = |i, j, k| match row.name(Cuts { i, j, k }) {
            Act::Moved {
                block,
                after,
                whole,
            } => (block, after, whole),
            other => panic!("{other:?}"),
        };
        assert_eq!(named(2, 6, 10), ([3, 6], 10, None));
        assert_eq!(named(2, 7, 10), ([8, 10], 2, None));
        assert_eq!(named(0, 7, 12), ([8, 12], 0, Some(7)));
    }
}
