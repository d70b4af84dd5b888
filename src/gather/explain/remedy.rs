//! What would be seen if a fault were the cause, and how the books are mended. Common practice, no source.
//!
//! One `match` each without a rest, so that a new kind of fault can't be left out.

use crate::gather::fault::Fault;
use crate::gather::say;
use crate::marks::Lies;

/// What else is seen if these faults are the cause: what lies over or short at the stations, and how the books on either
/// side are. One sentence or two for each kind, each said once. `shifted` tells of a fault by its number whether it is a
/// move round the whole row.
pub(super) fn seen_if(faults: &[Fault], shifted: impl Fn(usize) -> bool) -> Vec<String> {
    each_once(faults.iter().enumerate().flat_map(|(index, fault)| trace(fault, shifted(index))))
}

/// How the book is mended, and those made like it.
pub(super) fn remedy(faults: &[Fault], shifted: impl Fn(usize) -> bool) -> String {
    each_once(faults.iter().enumerate().map(|(index, fault)| mend(fault, shifted(index)))).join(" ")
}

fn each_once(sentences: impl Iterator<Item = String>) -> Vec<String> {
    let mut once = Vec::new();
    for sentence in sentences {
        if !once.contains(&sentence) {
            once.push(sentence);
        }
    }
    once
}

/// The books on either side of a single feed.
const RIGHT_BESIDE: &str = "The books on either side are likely right.";
/// Nothing was taken that should not have been.
const NOTHING_OVER: &str = "Nothing lies over or short at the stations.";

fn trace(fault: &Fault, shifted: bool) -> Vec<String> {
    let all = |one: String, other: &str| vec![one, other.to_owned()];
    match *fault {
        Fault::Missing { section } => {
            all(format!("A copy of section {section} lies over at its station."), RIGHT_BESIDE)
        }
        Fault::Double { section } => all(format!("The pile of section {section} comes out one short."), RIGHT_BESIDE),
        Fault::WrongSection { at, section } => vec![
            format!(
                "Section {at} lies over at its station and section {section} comes out short, as many as books were \
                 spoiled."
            ),
            format!("The books of the same lift hold section {section} there too."),
        ],
        Fault::Exchanged { sections: [a, b] } => {
            all(format!("The books on either side have sections {a} and {b} exchanged too."), NOTHING_OVER)
        }
        Fault::Lies { section, lies } => {
            vec![format!("More of section {section} may lie {} in the lift it came in.", say::lies(lies))]
        }
        Fault::Foreign { at } => vec![
            format!("Section {at} lies over at its station, as many as books were spoiled."),
            "More of the other job lies in that pile.".to_owned(),
        ],
        Fault::NoMark { at } => {
            all(format!("The section at station {at} is the right one when it is opened."), NOTHING_OVER)
        }
        Fault::Moved { .. } if shifted => {
            all("The books on either side begin and end with the same sections as this one.".to_owned(), NOTHING_OVER)
        }
        Fault::Moved { sections, .. } => all(
            format!(
                "The books on either side are right if {} of this stack was laid elsewhere, and like this one if that \
                 happened to the piles.",
                say::block(sections)
            ),
            NOTHING_OVER,
        ),
        Fault::Reversed => all("All books since the piles were laid run backwards.".to_owned(), NOTHING_OVER),
        Fault::DividedWrong { after } => vec![
            format!("The book before ends where this one should: its last section is section {after}, too."),
            "A title page or endpapers lie within the book.".to_owned(),
        ],
    }
}

fn mend(fault: &Fault, shifted: bool) -> String {
    match *fault {
        Fault::Missing { section } => {
            format!("Put a copy of section {section} in before the book is sewn; sewn, it is cut and sewn again.")
        }
        Fault::Double { section } => format!("Draw one copy of section {section} out and lay it back on its pile."),
        Fault::WrongSection { at, section } => format!(
            "Hold the books since station {at} was last loaded; in those with section {section} there, draw it out and \
             put section {at} in. Clear the pile before the line runs on."
        ),
        Fault::Exchanged { sections: [a, b] } => {
            format!("Change the piles at stations {a} and {b} back, and change the two sections in every book made so.")
        }
        Fault::Lies { section, lies } => match lies {
            Lies::HeadToTail => format!("Turn section {section} so that its heads lie with the others."),
            Lies::Right | Lies::TurnedInPlane | Lies::SideToSide => {
                format!("Turn section {section} so that its fold lies at the back.")
            }
        },
        Fault::Foreign { at } => format!(
            "Put section {at} in for it. Clear the pile at station {at}, look through those beside it, and give the \
             other job back what belongs to it."
        ),
        Fault::NoMark { at } => format!(
            "If section {at} is only turned, turn it. If it is folded wrongly, fold it anew where the perforation \
             allows, and else replace it from the overs."
        ),
        Fault::Moved { .. } if shifted => "If the piles are shifted, lay them anew from the first station; if the \
             books were divided wrong, cut them and gather them anew."
            .to_owned(),
        Fault::Moved { sections, after: 0 } => {
            format!(
                "Lay {} back from the front to its place; sewn, the book is cut and sewn again.",
                say::block(sections)
            )
        }
        Fault::Moved { sections, after } => format!(
            "Lay {} back from behind section {after} to its place; sewn, the book is cut and sewn again.",
            say::block(sections)
        ),
        Fault::Reversed => {
            "Lay the piles anew from the other end, and turn the order of every book made so.".to_owned()
        }
        Fault::DividedWrong { after } => format!(
            "Cut the books behind section {after} and join the parts that belong together; what is left over is \
             gathered anew."
        ),
    }
}
