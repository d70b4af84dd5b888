//! Numbers, lists and finds in words.

use crate::gather::Fault;
pub(super) use crate::gather::say::lies;
use crate::marks::{Found, Lies};
pub(super) use crate::words::{capital, counters as numbers, grouped as counter, how_many as many, list, small};

/// What was found, in a few words.
pub(super) fn found(found: Found) -> String {
    match found {
        Found::Section { section, lies: Lies::Right } => format!("section {section}"),
        Found::Section { section, lies: how } => format!("section {section}, lying {}", lies(how)),
        Found::NoMark => "a blank back".to_owned(),
        Found::Foreign => "a section of another job".to_owned(),
        Found::Unread => "a back that can't be read".to_owned(),
    }
}

/// `section 3`, or `sections 3 to 6`.
pub(super) fn block([first, last]: [u32; 2]) -> String {
    if first == last { format!("section {first}") } else { format!("sections {first} to {last}") }
}

/// One fault, as a half-sentence.
pub(super) fn fault(fault: &Fault) -> String {
    match *fault {
        Fault::Missing { section } => format!("section {section} missing"),
        Fault::Double { section } => format!("section {section} twice"),
        Fault::WrongSection { at, section } => format!("section {section} in the place of section {at}"),
        Fault::Exchanged { sections: [a, b] } => format!("sections {a} and {b} in each other's place"),
        Fault::Lies { section, lies: how } => format!("section {section} lying {}", lies(how)),
        Fault::Foreign { at } => format!("a section of another job in the place of section {at}"),
        Fault::NoMark { at } => format!("section {at} with a blank back"),
        Fault::Moved { sections, after: 0 } => format!("{} at the front", block(sections)),
        Fault::Moved { sections, after } => format!("{} behind section {after}", block(sections)),
        Fault::Reversed => "the whole row running backwards".to_owned(),
        Fault::DividedWrong { after } => format!("a book divided behind section {after}"),
    }
}

/// All faults, as one half-sentence.
pub(super) fn faults(faults: &[Fault]) -> String {
    list(&faults.iter().map(fault).collect::<Vec<_>>())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn counters_and_lists() {
        assert_eq!([7, 1421, 1_234_567].map(counter), ["7", "1,421", "1,234,567"]);
        assert_eq!(numbers(&[1, 3, 4, 5, 9]), "1, 3 to 5 and 9");
        assert_eq!((many(1, "book"), many(80, "book")), ("1 book".to_owned(), "80 books".to_owned()));
        assert_eq!(list(&[]), "");
        assert_eq!(list(&vec!["a".to_owned(); 8]), "a, a, a, a, a, a and 2 more");
    }
}
