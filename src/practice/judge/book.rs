//! What is wrong with a book.

use super::{CAUSE, CHECK, NUMBER, not_given};
use crate::gather::{Explanation, Fault, explain, retold};
use crate::marks::{Found, Lies};
use crate::practice::answer::{Answer, Pointed};
use crate::practice::marked::{Departs, Item, Marked};

/// What explains a book by so many faults; `None` where none, or fewer, do.
pub fn faults(sections: u32, found: &[Found], wrong: usize) -> Option<Vec<Explanation>> {
    let explained = explain(sections, found).ok()?;
    let explanations = explained.explanations;
    (explanations.first()?.faults.len() == wrong).then_some(explanations)
}

/// The sections and stations that a fault touches; none for the whole row.
fn touches(fault: &Fault, sections: u32) -> Vec<u32> {
    match *fault {
        Fault::Missing { section } | Fault::Double { section } | Fault::Lies { section, .. } => vec![section],
        Fault::WrongSection { at, .. } | Fault::Foreign { at } | Fault::NoMark { at } => vec![at],
        Fault::Exchanged { sections } => sections.to_vec(),
        Fault::Moved { sections: [a, b], .. } => (a..=b.min(sections)).collect(),
        Fault::DividedWrong { after } => vec![after, after.saturating_add(1)],
        Fault::Reversed => (1..=sections).collect(),
    }
}

/// A fault in a few words: "section 5 is missing".
#[must_use]
pub fn fault_words(fault: &Fault) -> String {
    match *fault {
        Fault::Missing { section } => format!("section {section} is missing"),
        Fault::Double { section } => format!("section {section} is there twice"),
        Fault::WrongSection { at, section } => format!("section {section} lies where section {at} should"),
        Fault::Exchanged { sections: [a, b] } => format!("sections {a} and {b} stand in each other's place"),
        Fault::Lies { section, lies: Lies::HeadToTail } => format!("section {section} lies head to tail"),
        Fault::Lies { section, .. } => format!("section {section} lies with its fold at the fore-edge"),
        Fault::Foreign { at } => format!("a section of another job lies where section {at} should"),
        Fault::NoMark { at } => format!("section {at} was folded wrongly or turned away"),
        Fault::Moved { sections: [a, b], after } if a == b => format!("section {a} stands after section {after}"),
        Fault::Moved { sections: [a, b], after } => format!("sections {a} to {b} stand after section {after}"),
        Fault::Reversed => "the whole row runs backwards".into(),
        Fault::DividedWrong { after } => format!("the book was divided wrong, behind section {after}"),
    }
}

/// Every list of faults that is accepted.
fn accepted(explanations: &[Explanation]) -> Vec<Vec<Fault>> {
    explanations.iter().flat_map(|e| [&e.faults].into_iter().chain(&e.same_order_as)).cloned().collect()
}

fn right_check<'a>(explanations: &[Explanation], checks: &'a [String]) -> Option<(u32, &'a String)> {
    (1..).zip(checks).find(|(_, check)| explanations.iter().any(|e| e.next_check == **check))
}

pub(super) fn right(sections: u32, found: &[Found], wrong: usize, checks: &[String]) -> Option<Answer> {
    let explanations = faults(sections, found, wrong)?;
    let best = explanations.first()?;
    let faults =
        best.faults.iter().map(|f| Pointed { section: touches(f, sections).first().copied(), fault: Some(*f) });
    let check = right_check(&explanations, checks).map(|(number, _)| number);
    Some(Answer::WrongBook { faults: faults.collect(), check })
}

/// Other faults that make the same book.
pub(super) fn also(sections: u32, found: &[Found], wrong: usize) -> Option<Vec<String>> {
    let all = accepted(&faults(sections, found, wrong)?);
    let (first, others) = all.split_first()?;
    let told = |list: &Vec<Fault>| list.iter().map(fault_words).collect::<Vec<_>>().join(", and ");
    Some(others.iter().filter(|list| *list != first).map(told).collect())
}

/// Half marks for what was pointed at, against one fault: the section and the cause.
fn worth(given: &Pointed, fault: &Fault, sections: u32) -> [u32; 2] {
    let cause = given.fault == Some(*fault);
    let at = given.section.or_else(|| given.fault.as_ref().and_then(|f| touches(f, sections).first().copied()));
    let section = cause && given.section.is_none() || at.is_some_and(|at| touches(fault, sections).contains(&at));
    [if section { NUMBER } else { 0 }, if cause { CAUSE } else { 0 }]
}

/// The faults of a list in the order that suits what was given best.
fn in_order(list: &[Fault], given: &[Pointed], sections: u32) -> (u32, Vec<Fault>) {
    let sum = |list: &[Fault]| list.iter().zip(given).map(|(f, g)| worth(g, f, sections).iter().sum::<u32>()).sum();
    let mut turned = list.to_vec();
    turned.reverse();
    let (here, other): (u32, u32) = (sum(list), sum(&turned));
    if other > here { (other, turned) } else { (here, list.to_vec()) }
}

pub(super) fn mark(
    sections: u32,
    found: &[Found],
    wrong: usize,
    checks: &[String],
    given: &[Pointed],
    check: Option<u32>,
) -> Option<Marked> {
    let explanations = faults(sections, found, wrong)?;
    let given = given.get(..given.len().min(wrong))?;
    let lists = accepted(&explanations);
    let (_, best) = lists.iter().rev().map(|list| in_order(list, given, sections)).max_by_key(|(worth, _)| *worth)?;
    let mut items = Vec::new();
    for (k, fault) in best.iter().enumerate() {
        let of = |what: &str| if wrong == 1 { format!("The {what}") } else { format!("Fault {}: the {what}", k + 1) };
        let pointed = given.get(k).copied().unwrap_or_default();
        let [section, cause] = worth(&pointed, fault, sections);
        let places = touches(fault, sections);
        let named = match places.as_slice() {
            [first, .., last] if places.len() as u32 == sections => format!("{first} to {last}"),
            [first, .., last] if places.len() > 2 => format!("{first} to {last}"),
            [a, b] => format!("{a} or {b}"),
            _ => places.first().map_or_else(String::new, ToString::to_string),
        };
        let text = pointed.section.map_or_else(String::new, |s| s.to_string());
        items.push(Item::new(of("section"), text, named, NUMBER).worth(section));
        let text = pointed.fault.as_ref().map_or_else(String::new, fault_words);
        items.push(Item::new(of("cause"), text, fault_words(fault), CAUSE).worth(cause));
    }
    let text = check.and_then(|n| checks.get((n as usize).checked_sub(1)?)).cloned().unwrap_or_default();
    let ok = explanations.iter().any(|e| e.next_check == text);
    let right = right_check(&explanations, checks).map_or_else(String::new, |(_, check)| check.clone());
    let says = format!("That check settles nothing here. {right}");
    items.push(
        Item::new("The next check", text.clone(), right, CHECK)
            .worth(if ok { CHECK } else { 0 })
            .saying(not_given(!ok && !text.is_empty(), says)),
    );
    let mut marked = Marked::of_items(items);
    let named: Vec<Fault> = given.iter().filter_map(|g| g.fault).collect();
    if !marked.all_right() && !named.is_empty() {
        marked.departs = departs(sections, found, &named);
    }
    if lists.len() > 1 && marked.all_right() {
        marked.says.push("The same order can be told otherwise, and that is accepted as well.".into());
    }
    Some(marked)
}

/// Where the book that these faults make departs from the one on the table.
fn departs(sections: u32, found: &[Found], named: &[Fault]) -> Option<Departs> {
    let within = |f: &Fault| touches(f, sections).iter().all(|s| (1..=sections).contains(s)) && held(f, sections);
    if !named.iter().all(within) {
        return None;
    }
    let made = retold(sections, named);
    let k = (0..made.len().max(found.len())).find(|k| made.get(*k) != found.get(*k))?;
    let said = |back: Option<&Found>| match back {
        Some(Found::Section { section, lies: Lies::Right }) => format!("section {section}"),
        Some(Found::Section { section, .. }) => format!("section {section}, turned"),
        Some(Found::NoMark) => "a blank back".into(),
        Some(Found::Foreign) => "a section of another job".into(),
        Some(Found::Unread) => "a back that can't be read".into(),
        None => "the end of the book".into(),
    };
    let number = |back: Option<&Found>| match back {
        Some(Found::Section { section, .. }) => Some(*section),
        _ => None,
    };
    let (reads, right) = (made.get(k), found.get(k));
    let says = format!("If it were as you say, place {} would hold {}; there is {}.", k + 1, said(reads), said(right));
    Some(Departs { place: k as u32 + 1, reads: number(reads), right: number(right), says })
}

/// Whether the other numbers of a fault are those of this book, and a block runs forwards to a place outside it.
fn held(fault: &Fault, sections: u32) -> bool {
    match *fault {
        Fault::WrongSection { section, .. } => (1..=sections).contains(&section),
        Fault::Moved { sections: [a, b], after } => a <= b && after <= sections && !(a..=b).contains(&after),
        Fault::DividedWrong { after } => after < sections,
        _ => true,
    }
}
