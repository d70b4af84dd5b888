//! How likely a story is beside the others that need as few faults.
//!
//! The figures only rank: a story weighs the product of what its faults weigh, and nothing but its share among the
//! others means anything. Nobody has counted these faults in the open (no trustworthy figure was found), so a house
//! that knows its own may put in its own. The order of the figures at hand is common practice, no source: a feed that
//! misses or doubles is daily work, a wrong load is rarer, a wrong lay of the piles is rarer still and is mostly seen
//! at once.

use serde::{Deserialize, Serialize};

use super::row::Act;
use super::search::Story;
use crate::gather::fault::Fault;
use crate::marks::{Lies, Refusal};

/// The largest figure.
pub const MOST_ODDS: f64 = 1_000_000.0;
/// The smallest figure.
pub const LEAST_ODDS: f64 = 0.000_001;

/// How often each kind of fault is met, beside the others. A figure has no unit: 30 beside 10 says three times as often.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Odds {
    /// A station that misses a feed. From memory: with doubles the commonest fault.
    pub missing: f64,
    /// A station that feeds two for one. From memory: as common as a miss.
    pub double: f64,
    /// A wrong section loaded or put in by hand. From memory.
    pub wrong_load: f64,
    /// The same, where it is the section of the station beside. From memory: that pile is taken up more easily than a far one.
    pub wrong_load_beside: f64,
    /// A section of another job. From memory; it is seen as such, so it weighs alike in every story of a book.
    pub foreign: f64,
    /// A blank back. From memory; it is seen as such, so it weighs alike in every story of a book.
    pub no_mark: f64,
    /// A section that does not lie right. From memory; it is seen as such, so it weighs alike in every story of a book.
    pub lies: f64,
    /// Two neighbouring piles laid the wrong way round. From memory.
    pub exchanged_beside: f64,
    /// Two piles far apart that changed places. From memory.
    pub exchanged: f64,
    /// A block of piles laid elsewhere, or a part of a stack dropped and laid back. From memory.
    pub moved: f64,
    /// One section taken out and put back elsewhere. From memory.
    pub moved_one: f64,
    /// The piles shifted round the whole row, or the books divided at the wrong place. From memory.
    pub shifted: f64,
    /// The piles laid from the wrong end. From memory.
    pub reversed: f64,
}

impl Default for Odds {
    fn default() -> Self {
        Self {
            missing: 30.0,
            double: 30.0,
            wrong_load: 20.0,
            wrong_load_beside: 30.0,
            foreign: 10.0,
            no_mark: 10.0,
            lies: 10.0,
            exchanged_beside: 12.0,
            exchanged: 5.0,
            moved: 3.0,
            moved_one: 5.0,
            shifted: 6.0,
            reversed: 3.0,
        }
    }
}

/// One figure of [`Odds`], to be shown and edited.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Figure {
    /// The name of the field.
    pub name: &'static str,
    /// What is counted, as a noun that goes on a sentence.
    pub says: &'static str,
    /// Where the figure at hand comes from.
    pub source: &'static str,
    /// The figure as it is used here.
    pub value: f64,
    /// The figure at hand where nobody gave another one.
    pub at_hand: f64,
}

/// Where every figure at hand comes from.
const MEMORY: &str = "from memory; no trustworthy figure was found";
/// Where figures come from that change no order.
const SEEN: &str = "from memory; it is seen as such, so it weighs alike in every explanation of a book";

/// The fields in order: name, what is counted, source, and how it is read.
type Field = (&'static str, &'static str, &'static str, fn(&Odds) -> f64);
const FIELDS: [Field; 13] = [
    ("missing", "a station that misses a feed", MEMORY, |odds| odds.missing),
    ("double", "a station that feeds two for one", MEMORY, |odds| odds.double),
    ("wrong_load", "a wrong section loaded or put in by hand", MEMORY, |odds| odds.wrong_load),
    ("wrong_load_beside", "a section loaded at the station beside its own", MEMORY, |odds| odds.wrong_load_beside),
    ("foreign", "a section of another job", SEEN, |odds| odds.foreign),
    ("no_mark", "a blank back", SEEN, |odds| odds.no_mark),
    ("lies", "a section that does not lie right", SEEN, |odds| odds.lies),
    ("exchanged_beside", "two neighbouring piles laid the wrong way round", MEMORY, |odds| odds.exchanged_beside),
    ("exchanged", "two piles far apart that changed places", MEMORY, |odds| odds.exchanged),
    ("moved", "a block of sections laid elsewhere", MEMORY, |odds| odds.moved),
    ("moved_one", "one section put back elsewhere", MEMORY, |odds| odds.moved_one),
    ("shifted", "piles shifted round the whole row, or books divided wrong", MEMORY, |odds| odds.shifted),
    ("reversed", "piles laid from the wrong end", MEMORY, |odds| odds.reversed),
];

impl Odds {
    /// All figures with their names, in the order of the fields.
    #[must_use]
    pub fn figures(&self) -> Vec<Figure> {
        let at_hand = Self::default();
        let figure =
            |&(name, says, source, of): &Field| Figure { name, says, source, value: of(self), at_hand: of(&at_hand) };
        FIELDS.iter().map(figure).collect()
    }

    /// Whether every figure can be reckoned with.
    ///
    /// # Errors
    /// Where a figure is no number from [`LEAST_ODDS`] to [`MOST_ODDS`].
    pub fn check(&self) -> Result<(), Refusal> {
        match FIELDS.iter().find(|(.., of)| !(LEAST_ODDS..=MOST_ODDS).contains(&of(self))) {
            Some((name, says, ..)) => {
                Err(Refusal::new(*name, format!("How often {says} is met is a number above 0, up to a million.")))
            }
            None => Ok(()),
        }
    }

    /// The figure a fault is weighed with, and its words. `shifted` says that a move goes round the whole row.
    pub(super) fn of(&self, fault: &Fault, shifted: bool) -> (f64, &'static str) {
        let field = match *fault {
            Fault::Missing { .. } => 0,
            Fault::Double { .. } => 1,
            Fault::WrongSection { at, section } if at.abs_diff(section) != 1 => 2,
            Fault::WrongSection { .. } => 3,
            Fault::Foreign { .. } => 4,
            Fault::NoMark { .. } => 5,
            Fault::Lies { lies: Lies::Right, .. } => return (1.0, "a section that lies right"),
            Fault::Lies { .. } => 6,
            Fault::Exchanged { sections: [a, b] } if b.abs_diff(a) == 1 => 7,
            Fault::Exchanged { .. } => 8,
            Fault::Moved { .. } if shifted => 11,
            Fault::Moved { sections: [a, b], .. } if a != b => 9,
            Fault::Moved { .. } => 10,
            Fault::DividedWrong { .. } => 11,
            Fault::Reversed => 12,
        };
        FIELDS.get(field).map_or((1.0, ""), |(_, says, _, of)| (of(self), says))
    }
}

/// The weight of a story; only its share among others means anything.
pub(super) fn weight(odds: &Odds, story: &Story) -> f64 {
    let acts = story.acts.iter().map(|act| match *act {
        Act::Exchanged(sections) => odds.of(&Fault::Exchanged { sections }, false),
        Act::Moved { block: sections, after, whole } => odds.of(&Fault::Moved { sections, after }, whole.is_some()),
        Act::Reversed => odds.of(&Fault::Reversed, false),
    });
    let stations = story.stations.iter().map(|fault| odds.of(fault, false));
    acts.chain(stations).map(|(figure, _)| figure).product()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_field_is_a_figure() {
        let written = serde_json::to_value(Odds::default()).unwrap();
        let fields = written.as_object().unwrap();
        let figures = Odds::default().figures();
        assert_eq!(fields.len(), figures.len());
        for figure in figures {
            assert_eq!(fields[figure.name].as_f64(), Some(figure.value), "{}", figure.name);
            // A figure that is read from another field would show here.
            let other = serde_json::from_str::<Odds>(&format!("{{\"{}\": 77}}", figure.name)).unwrap();
            let changed = other.figures().into_iter().filter(|f| f.value != f.at_hand).collect::<Vec<_>>();
            assert_eq!(changed.len(), 1);
            assert_eq!((changed[0].name, changed[0].value), (figure.name, 77.0));
        }
    }

    #[test]
    fn what_is_no_figure_is_refused_by_name() {
        for bad in [0.0, -1.0, f64::NAN, f64::INFINITY, 2e6] {
            assert_eq!(Odds { shifted: bad, ..Odds::default() }.check().unwrap_err().at, "shifted");
        }
        assert!(Odds::default().check().is_ok());
    }

    #[test]
    fn every_fault_is_weighed_with_its_own_figure() {
        let moved = |sections| Fault::Moved { sections, after: 9 };
        let lies = |lies| Fault::Lies { section: 5, lies };
        for (fault, shifted, name) in [
            (Fault::Missing { section: 5 }, false, "missing"),
            (Fault::Double { section: 5 }, false, "double"),
            (Fault::WrongSection { at: 5, section: 9 }, false, "wrong_load"),
            (Fault::WrongSection { at: 5, section: 4 }, false, "wrong_load_beside"),
            (Fault::Foreign { at: 5 }, false, "foreign"),
            (Fault::NoMark { at: 5 }, false, "no_mark"),
            (lies(Lies::HeadToTail), false, "lies"),
            (lies(Lies::TurnedInPlane), false, "lies"),
            (lies(Lies::SideToSide), false, "lies"),
            (Fault::Exchanged { sections: [5, 6] }, false, "exchanged_beside"),
            (Fault::Exchanged { sections: [5, 7] }, false, "exchanged"),
            (moved([3, 5]), false, "moved"),
            (moved([3, 3]), false, "moved_one"),
            (moved([1, 5]), true, "shifted"),
            (moved([1, 1]), true, "shifted"),
            (Fault::DividedWrong { after: 5 }, false, "shifted"),
            (Fault::Reversed, false, "reversed"),
        ] {
            let odds = serde_json::from_str::<Odds>(&format!("{{\"{name}\": 77}}")).unwrap();
            let (figure, says) = odds.of(&fault, shifted);
            assert_eq!(figure, 77.0, "{fault:?}");
            assert!(odds.figures().iter().any(|figure| (figure.name, figure.says) == (name, says)), "{fault:?}");
        }
    }
}
