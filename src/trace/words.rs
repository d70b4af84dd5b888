//! Numbers, lists and finds in words.

use crate::gather::Fault;
use crate::marks::{Found, Lies};

/// How many items a list names before it only counts.
const NAMED: usize = 6;

/// A counter number as a counter list shows it: `1,421`.
pub(super) fn counter(number: u32) -> String {
    let digits = number.to_string();
    let mut text = String::new();
    for (i, digit) in digits.chars().enumerate() {
        if i > 0 && (digits.len() - i).is_multiple_of(3) {
            text.push(',');
        }
        text.push(digit);
    }
    text
}

/// `1 book`, `80 books`.
pub(super) fn many(number: u32, noun: &str) -> String {
    if number == 1 { format!("1 {noun}") } else { format!("{} {noun}s", counter(number)) }
}

/// Words joined by commas and a last `and`; a long list is counted at its end.
pub(super) fn list(words: &[String]) -> String {
    if words.len() > NAMED {
        let (first, others) = words.split_at(NAMED);
        return format!("{} and {} more", first.join(", "), others.len());
    }
    match words.split_last() {
        None => String::new(),
        Some((last, [])) => last.clone(),
        Some((last, first)) => format!("{} and {last}", first.join(", ")),
    }
}

/// `3`, `3 and 4`, `3 to 6 and 9`, of a sorted list.
pub(super) fn numbers(sorted: &[u32]) -> String {
    let mut groups = Vec::<(u32, u32)>::new();
    for &number in sorted {
        match groups.last_mut() {
            Some((_, last)) if last.checked_add(1) == Some(number) => *last = number,
            _ => groups.push((number, number)),
        }
    }
    let words = groups.into_iter().flat_map(|(first, last)| match last - first {
        0 => vec![counter(first)],
        1 => vec![counter(first), counter(last)],
        _ => vec![format!("{} to {}", counter(first), counter(last))],
    });
    list(&words.collect::<Vec<_>>())
}

/// With a capital letter; the first character is a plain one.
pub(super) fn capital(words: &str) -> String {
    let mut words = words.to_owned();
    if let Some(first) = words.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    words
}

/// With a small letter; the first character is a plain one.
pub(super) fn small(words: &str) -> String {
    let mut words = words.to_owned();
    if let Some(first) = words.get_mut(..1) {
        first.make_ascii_lowercase();
    }
    words
}

/// How a section lies, as `lies …` goes on.
pub(super) const fn lies(lies: Lies) -> &'static str {
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
