//! Short phrases: numbers in a row, finds and faults in a few words.

use super::fault::Fault;
use crate::marks::{Found, Lies};
pub(super) use crate::words::{capital, list, numbers, sections};

/// How a section lies, as `lies …` goes on.
pub(crate) const fn lies(lies: Lies) -> &'static str {
    match lies {
        Lies::Right => "right",
        Lies::HeadToTail => "head to tail",
        Lies::TurnedInPlane => "turned half round",
        Lies::SideToSide => "back to front",
    }
}

/// What was found, in a few words.
pub(super) fn found(found: Found) -> String {
    match found {
        Found::Section { section, lies: Lies::Right } => format!("section {section}"),
        Found::Section { section, lies: how } => format!("section {section}, {}", lies(how)),
        Found::NoMark => "a blank back".to_owned(),
        Found::Foreign => "a section of another job".to_owned(),
        Found::Unread => "unreadable".to_owned(),
    }
}

/// All faults of an explanation, as one half-sentence.
pub(super) fn faults(faults: &[Fault]) -> String {
    list(&faults.iter().map(fault).collect::<Vec<_>>())
}

/// One fault, as a half-sentence.
fn fault(fault: &Fault) -> String {
    match *fault {
        Fault::Missing { section } => format!("section {section} missing"),
        Fault::Double { section } => format!("section {section} twice"),
        Fault::WrongSection { at, section } => format!("section {section} at station {at}"),
        Fault::Exchanged { sections: [a, b] } => format!("sections {a} and {b} exchanged"),
        Fault::Lies { section, lies: how } => format!("section {section} {}", lies(how)),
        Fault::Foreign { at } => format!("a section of another job at station {at}"),
        Fault::NoMark { at } => format!("section {at} folded wrongly or turned away"),
        Fault::Moved { sections, after: 0 } => format!("{} at the front", block(sections)),
        Fault::Moved { sections, after } => {
            format!("{} moved behind section {after}", block(sections))
        }
        Fault::Reversed => "the whole row laid backwards".to_owned(),
        Fault::DividedWrong { after } => format!("a book divided wrong, behind section {after}"),
    }
}

/// `section 3`, or `sections 3 to 6`.
pub(super) fn block([first, last]: [u32; 2]) -> String {
    if first == last { format!("section {first}") } else { format!("sections {first} to {last}") }
}
