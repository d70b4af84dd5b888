//! Whether what is still open in a packet of piles can find its place: the gaps that known piles leave in the section.
//!
//! Three conditions, each necessary for any way of folding on; none of them loses a solution.
//!
//! 1. **Bundles don't cross.** Neighbouring places are joined by at least one crease. All creases along the lines of one
//!    parity come to lie along one edge of the section, since a fold takes a line `x` to `2 at - x`. So there are four
//!    edges, and paper at an edge may be nested but not crossed: of two bundles `a–b` and `c–d` at an edge, never
//!    `a < c < b < d`. Read from the front, the bundles of an edge must close like brackets.
//! 2. **A pile lies in a gap where its neighbours can be reached.** A known neighbour lies within certain brackets of
//!    the edge that they share; a gap within others is out of reach.
//! 3. **Gaps are filled exactly**: the length of each is a sum of heights of piles that can lie there.

use super::piles::Piles;

/// Places at the most, and one more.
const ENDS: usize = 130;

/// The brackets open at one edge, the innermost last: places, counted from 1.
#[derive(Clone, Copy)]
struct Open {
    places: [u8; ENDS],
    depth: usize,
}

impl Open {
    /// The innermost one; 0 is none.
    fn innermost(&self) -> u8 {
        self.depth.checked_sub(1).and_then(|top| self.places.get(top)).copied().unwrap_or(0)
    }

    fn open(&mut self, place: u8) {
        if let Some(slot) = self.places.get_mut(self.depth) {
            *slot = place;
            self.depth += 1;
        }
    }
}

/// Whether everything may still find room.
pub(super) fn has_room(packet: &Piles) -> bool {
    let all = packet.piles.len();
    if packet.taken == 0 || all == 1 {
        return true;
    }
    // The place of the pile that begins with each leaf, and what is open round each pile at each edge.
    let mut begins = [0u8; ENDS];
    for (place, pile) in (1u8..).zip(&packet.piles).filter(|(_, pile)| pile.first > 0) {
        if let Some(slot) = begins.get_mut(usize::from(pile.first)) {
            *slot = place;
        }
    }
    let mut edges = [Open { places: [0; ENDS], depth: 0 }; 4];
    let mut round = vec![[0u8; 4]; all];
    let mut gaps: Vec<(u8, [u8; 4])> = Vec::new();
    let (mut leaf, mut gap) = (1u8, 0u8);
    while leaf <= packet.leaves {
        let place = begins.get(usize::from(leaf)).copied().unwrap_or(0);
        let Some(pile) = place.checked_sub(1).and_then(|at| packet.piles.get(usize::from(at))) else {
            (leaf, gap) = (leaf + 1, gap + 1);
            if leaf > packet.leaves {
                gaps.push((gap, edges.map(|edge| edge.innermost())));
            }
            continue;
        };
        if gap > 0 {
            gaps.push((gap, edges.map(|edge| edge.innermost())));
            gap = 0;
        }
        for (side, edge) in edges.iter_mut().enumerate() {
            let beside = beside(packet, usize::from(place) - 1, side).and_then(|at| packet.piles.get(at).zip(Some(at)));
            let known = beside.filter(|(other, _)| other.first > 0);
            if let Some((_, at)) = known.filter(|(other, _)| other.first < pile.first) {
                if usize::from(edge.innermost()) != at + 1 {
                    return false;
                }
                edge.depth -= 1;
            }
            if let Some(slot) = round.get_mut(usize::from(place) - 1).and_then(|sides| sides.get_mut(side)) {
                *slot = edge.innermost();
            }
            if known.is_some_and(|(other, _)| other.first > pile.first) {
                edge.open(place);
            }
        }
        leaf += pile.height;
    }
    let mut sums = vec![1u128; gaps.len()];
    for (place, pile) in packet.piles.iter().enumerate().filter(|(_, pile)| pile.first == 0) {
        let mut within = [None; 4];
        for (side, slot) in within.iter_mut().enumerate() {
            let beside = beside(packet, place, side).filter(|at| packet.piles.get(*at).is_some_and(|p| p.first > 0));
            *slot = beside.and_then(|at| round.get(at)).and_then(|sides| sides.get(side)).copied();
        }
        let mut found = false;
        for ((length, open), sum) in gaps.iter().zip(&mut sums) {
            let reached = within.iter().zip(open).all(|(within, open)| within.is_none_or(|within| within == *open));
            if reached && pile.height <= *length {
                found = true;
                *sum |= *sum << pile.height;
            }
        }
        if !found {
            return false;
        }
    }
    gaps.iter().zip(&sums).all(|((length, _), sum)| sum >> length & 1 == 1)
}

/// The place that shares with `place` the creases that come to lie at an edge of the section: 0 and 1 are the lines
/// after even and odd columns, 2 and 3 those after even and odd rows.
fn beside(packet: &Piles, place: usize, side: usize) -> Option<usize> {
    let (width, height) = (packet.width as usize, packet.height as usize);
    let (x, y) = (place % width, place / width);
    let other = |at: usize, size: usize| {
        let other = if side.is_multiple_of(2) { Some(at ^ 1) } else { ((at + 1) ^ 1).checked_sub(1) };
        other.filter(|other| *other < size)
    };
    if side < 2 { Some(y * width + other(x, width)?) } else { Some(other(y, height)? * width + x) }
}
