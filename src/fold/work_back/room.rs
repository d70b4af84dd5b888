//! Whether what is still open in a packet of piles can find its place: the gaps that known piles leave in the section.
//!
//! Three conditions, each necessary for any way of folding on; none of them loses a solution.
//!
//! 1. **Bundles don't cross.** Neighbouring places are joined by at least one crease. A fold takes a line `x` to
//!    `2 at - x`, so all creases along lines of one parity come to lie along one edge of the section; there are four. At
//!    an edge paper may be nested but not crossed: of two bundles `a–b` and `c–d`, never `a < c < b < d`. Read from the
//!    front, the bundles of an edge must close like brackets.
//! 2. **A pile lies in a gap from which its neighbours can be reached.** A known neighbour lies within certain brackets
//!    of the edge that they share; a gap within others is out of reach.
//! 3. **Gaps are filled exactly**: the length of each is a sum of heights of piles that can lie there.

use super::piles::Piles;

/// Looks for room; one value for many packets, so that its memory is used again.
#[derive(Default)]
pub(super) struct Room {
    /// For each leaf the place, from 1, of the pile that begins with it.
    begins: Vec<u8>,
    /// For each edge the brackets that are open: places, from 1, the innermost last.
    open: [Vec<u8>; 4],
    /// For each place the innermost brackets round its pile.
    round: Vec<[u8; 4]>,
    gaps: Vec<Gap>,
}

/// Leaves that follow each other and lie in no known pile.
struct Gap {
    length: u8,
    /// The innermost brackets round it.
    round: [u8; 4],
    /// The sums of heights of piles that can lie here, as bits.
    sums: u128,
}

impl Room {
    /// Whether everything may still find room.
    pub(super) fn is_left(&mut self, packet: &Piles) -> bool {
        packet.taken == 0 || packet.piles.len() == 1 || self.brackets_close(packet) && self.gaps_fill(packet)
    }

    /// Goes through the section from the front: do the brackets close? Notes the gaps and what is round everything.
    fn brackets_close(&mut self, packet: &Piles) -> bool {
        self.begins.clear();
        self.begins.resize(usize::from(packet.leaves) + 1, 0);
        self.round.clear();
        self.round.resize(packet.piles.len(), [0; 4]);
        self.gaps.clear();
        self.open.iter_mut().for_each(Vec::clear);
        for (place, pile) in (1u8..).zip(&packet.piles).filter(|(_, pile)| pile.first > 0) {
            if let Some(slot) = self.begins.get_mut(usize::from(pile.first)) {
                *slot = place;
            }
        }
        let (mut leaf, mut gap) = (1u8, 0u8);
        while leaf <= packet.leaves {
            let place = self.begins.get(usize::from(leaf)).and_then(|place| usize::from(*place).checked_sub(1));
            if let Some((place, pile)) = place.and_then(|place| Some((place, packet.piles.get(place)?))) {
                self.note_gap(gap);
                (leaf, gap) = (leaf + pile.height, 0);
                if !self.pass(packet, place, pile.first) {
                    return false;
                }
            } else {
                (leaf, gap) = (leaf + 1, gap + 1);
            }
        }
        self.note_gap(gap);
        true
    }

    /// Closes and opens the brackets of a known pile. False where they cross.
    fn pass(&mut self, packet: &Piles, place: usize, first: u8) -> bool {
        for (edge, open) in self.open.iter_mut().enumerate() {
            let beside = beside(packet, place, edge).and_then(|at| Some((at, packet.piles.get(at)?.first)));
            let known = beside.filter(|(_, first)| *first > 0);
            if let Some((other, _)) = known.filter(|(_, other)| *other < first)
                && open.pop().is_none_or(|innermost| usize::from(innermost) != other + 1)
            {
                return false;
            }
            if let Some(slot) = self.round.get_mut(place).and_then(|round| round.get_mut(edge)) {
                *slot = open.last().copied().unwrap_or(0);
            }
            if known.is_some_and(|(_, other)| other > first) {
                open.push(u8::try_from(place + 1).unwrap_or(u8::MAX));
            }
        }
        true
    }

    fn note_gap(&mut self, length: u8) {
        if length > 0 {
            let mut round = [0; 4];
            for (slot, open) in round.iter_mut().zip(&self.open) {
                *slot = open.last().copied().unwrap_or(0);
            }
            self.gaps.push(Gap { length, round, sums: 1 });
        }
    }

    /// Whether each open pile has a gap, and the piles can fill each gap.
    fn gaps_fill(&mut self, packet: &Piles) -> bool {
        for (place, pile) in packet.piles.iter().enumerate().filter(|(_, pile)| pile.first == 0) {
            let mut within = [None; 4];
            for (edge, slot) in within.iter_mut().enumerate() {
                let known = |at: &usize| packet.piles.get(*at).is_some_and(|pile| pile.first > 0);
                let beside = beside(packet, place, edge).filter(known);
                *slot = beside.and_then(|at| self.round.get(at)?.get(edge).copied());
            }
            let mut found = false;
            for gap in self.gaps.iter_mut().filter(|gap| pile.height <= gap.length) {
                if within.iter().zip(&gap.round).all(|(within, round)| within.is_none_or(|within| within == *round)) {
                    found = true;
                    gap.sums |= gap.sums << pile.height;
                }
            }
            if !found {
                return false;
            }
        }
        self.gaps.iter().all(|gap| gap.length == 128 || gap.sums >> gap.length & 1 == 1)
    }
}

/// The place that shares with `place` the creases that come to lie at an edge of the section: edges 0 and 1 have the
/// lines of either parity between columns, 2 and 3 those between rows.
fn beside(packet: &Piles, place: usize, edge: usize) -> Option<usize> {
    let (width, height) = (packet.width as usize, packet.height as usize);
    let other = |at: usize, size: usize| {
        let other = if edge.is_multiple_of(2) { Some(at ^ 1) } else { ((at + 1) ^ 1).checked_sub(1) };
        other.filter(|other| *other < size)
    };
    let (x, y) = (place % width, place / width);
    if edge < 2 { Some(y * width + other(x, width)?) } else { Some(other(y, height)? * width + x) }
}
