//! How likely a story is beside the others that need as few faults.
//!
//! The weights only rank; nobody has counted these faults in the open (no trustworthy figure was found). The order of
//! them is common practice, no source: a feed that misses or doubles is daily work, a wrong load is rarer, a wrong
//! lay of the piles is rarer still and is mostly seen at once.

use super::row::Act;
use super::search::Story;
use crate::gather::fault::Fault;

/// From memory: misses and doubles, the commonest.
const FEED: f64 = 30.0;
/// From memory: a wrong section loaded or put in by hand.
const WRONG_LOAD: f64 = 20.0;
/// From memory: the pile of the station beside it is taken up more easily than a far one.
const WRONG_LOAD_BESIDE: f64 = 30.0;
/// From memory: foreign sections and blank backs; they are seen as such, so they weigh alike in every story.
const SEEN: f64 = 10.0;
/// From memory: two neighbouring piles laid the wrong way round.
const EXCHANGED_BESIDE: f64 = 12.0;
/// From memory: two piles far apart.
const EXCHANGED: f64 = 5.0;
/// From memory: a block of piles laid elsewhere, or a part of a stack dropped and laid back.
const MOVED: f64 = 3.0;
/// From memory: one section taken out and put back elsewhere.
const MOVED_ONE: f64 = 5.0;
/// From memory: the piles shifted round the whole row, or the books divided at the wrong place.
const SHIFTED: f64 = 6.0;
/// From memory: the piles laid from the wrong end.
const REVERSED: f64 = 3.0;

/// The weight of a story; only its share among others means anything.
pub(super) fn weight(story: &Story) -> f64 {
    let acts = story.acts.iter().map(|act| match *act {
        Act::Exchanged([a, b]) if b - a == 1 => EXCHANGED_BESIDE,
        Act::Exchanged(_) => EXCHANGED,
        Act::Moved { whole: Some(_), .. } => SHIFTED,
        Act::Moved { block: [a, b], .. } if a == b => MOVED_ONE,
        Act::Moved { .. } => MOVED,
        Act::Reversed => REVERSED,
    });
    let stations = story.stations.iter().map(|fault| match *fault {
        Fault::Missing { .. } | Fault::Double { .. } => FEED,
        Fault::WrongSection { at, section } if at.abs_diff(section) == 1 => WRONG_LOAD_BESIDE,
        Fault::WrongSection { .. } => WRONG_LOAD,
        _ => SEEN,
    });
    acts.chain(stations).product()
}
