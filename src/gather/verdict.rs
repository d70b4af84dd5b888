//! From what was read and explained to plain words.
//!
//! The likeliest explanation is told, a line for each fault, with the places in the stack it points at. What else fits
//! as well, and what these marks can't show at all, stands beside it. A book beyond three faults is said to be so.

use serde::Serialize;

use super::blind;
use super::explain::{CAUTION, Explained, explain, explain_within};
use super::fault::Fault;
use super::say;
use super::tell::Tell;
use crate::marks::{BackMarks, Design, Doubt, Found, Lies, Reading, Refusal, Seen, SeenBack, read_backs};

/// How many equally short explanations are said beside the first one.
const OTHERS_SAID: usize = 5;
/// How many other readings of doubtful backs are tried, each alone.
const READINGS_TRIED: usize = 24;
/// Steps for each part of the search under another reading.
const READING_STEPS: u64 = 300_000;

/// One thing to know about the book.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Line {
    /// The fault in one sentence.
    pub title: String,
    /// What it shows itself by, and what to do; may be empty.
    pub detail: String,
    /// The places in the stack this points at, from 1, ascending.
    pub places: Vec<u32>,
    /// The section it is about, if it is about one.
    pub section: Option<u32>,
}

/// A book in plain words.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Verdict {
    /// What is wrong, or that nothing is.
    pub lines: Vec<Line>,
    /// What can't be told apart here, and what these marks don't show.
    pub cannot_tell: Vec<String>,
    /// What to look at next by the likeliest explanation.
    pub next_check: Option<String>,
    /// Stands beside a check at a machine.
    pub caution: Option<String>,
    /// Every back was read, and nothing is wrong as far as the marks show.
    pub right: bool,
}

/// A book read, explained and told.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Checked {
    /// What was found on each back.
    pub reading: Reading,
    /// What explains it.
    pub explained: Explained,
    /// The words.
    pub verdict: Verdict,
}

/// What a reader of the verdict needs: what was found, and the words.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Told {
    /// What was found on each back, from front to back.
    pub found: Vec<Found>,
    /// The sections that are missing by the likeliest explanation: each stands one over in its pile.
    pub missing: Vec<u32>,
    /// The words.
    pub verdict: Verdict,
}

impl From<Checked> for Told {
    fn from(checked: Checked) -> Self {
        let likeliest = checked.explained.explanations.first();
        let missing = likeliest.into_iter().flat_map(|e| &e.faults).filter_map(|f| match f {
            Fault::Missing { section } => Some(*section),
            _ => None,
        });
        Self { missing: missing.collect(), found: checked.reading.found, verdict: checked.verdict }
    }
}

/// Reads the heights of a plain staircase, explains the book and tells it.
///
/// # Errors
/// Where the design or what was seen is of no use, and why.
pub fn check(sections: u32, design: &Design, seen: &[Seen]) -> Result<Checked, Refusal> {
    let backs = seen.iter().cloned().map(SeenBack::from).collect::<Vec<_>>();
    check_backs(sections, &(*design).into(), &backs)
}

/// Reads all that is printed on the backs of a book, explains it and tells it.
///
/// # Errors
/// As [`check`].
pub fn check_backs(sections: u32, marks: &BackMarks, seen: &[SeenBack]) -> Result<Checked, Refusal> {
    let reading = read_backs(sections, marks, seen)?;
    checked(sections, Some((marks, seen)), reading)
}

/// Explains and tells a book whose sections were found some other way, as in a typed run.
pub fn check_found(sections: u32, found: &[Found]) -> Result<Checked, Refusal> {
    let reading = Reading { found: found.to_vec(), doubts: Vec::new() };
    checked(sections, None, reading)
}

fn checked(sections: u32, marks: Option<(&BackMarks, &[SeenBack])>, reading: Reading) -> Result<Checked, Refusal> {
    let explained = explain(sections, &reading.found)?;
    let verdict = verdict(sections, marks, &reading, &explained);
    Ok(Checked { reading, explained, verdict })
}

/// Tells a book. `marks` are the design and what was seen, where the book was read from marks.
pub fn verdict(
    sections: u32,
    marks: Option<(&BackMarks, &[SeenBack])>,
    reading: &Reading,
    explained: &Explained,
) -> Verdict {
    let found = &reading.found;
    let first = explained.explanations.first();
    let unread = places(found, |found| matches!(found, Found::Unread));
    let mut lines = match first {
        Some(first) => Tell::new(sections, marks, found, &first.faults).lines(),
        None if explained.right() => vec![right_line(sections, &unread)],
        None => beyond(sections, found, explained.cut),
    };
    if !unread.is_empty() {
        lines.push(unread_line(&unread));
    }
    let mut cannot_tell = same_as_well(explained);
    cannot_tell.extend(reading.doubts.iter().filter_map(|doubt| between_levels(doubt, found)));
    cannot_tell.extend(other_readings(sections, reading, explained, &lines));
    match marks {
        Some((design, _)) => cannot_tell.extend(blind::short(sections, design)),
        None => cannot_tell.push("Press faults: the order of pages inside a section was not looked at.".to_owned()),
    }
    Verdict {
        lines,
        cannot_tell,
        next_check: first.map(|first| first.next_check.clone()).filter(|check| !check.is_empty()),
        caution: first.filter(|first| !first.caution.is_empty()).map(|_| CAUTION.to_owned()),
        right: explained.right() && unread.is_empty(),
    }
}

/// A mark that was read as a section's although it stands rather between two levels.
fn between_levels(doubt: &Doubt, found: &[Found]) -> Option<String> {
    let read = found.get((doubt.at as usize).checked_sub(1)?)?;
    let Found::Section { section, .. } = read else { return None };
    let strays = doubt.could_be.contains(&Found::Foreign);
    strays.then(|| {
        format!("The mark at place {} stands between two levels. It was read as that of section {section}.", doubt.at)
    })
}

/// The places of the finds that are so, from 1.
fn places(found: &[Found], so: impl Fn(&Found) -> bool) -> Vec<u32> {
    (1..).zip(found).filter(|(_, found)| so(found)).map(|(at, _)| at).collect()
}

/// Nothing is wrong.
fn right_line(sections: u32, unread: &[u32]) -> Line {
    let title = match unread {
        [] => "The book is right, as far as its backs show.",
        _ => "Nothing that could be read speaks against this book.",
    };
    let detail = match sections {
        1 => "Its one section is there and lies right.".to_owned(),
        _ => format!("Sections 1 to {sections} lie in order, each once."),
    };
    Line {
        title: title.to_owned(),
        detail: if unread.is_empty() { detail } else { String::new() },
        places: Vec::new(),
        section: None,
    }
}

/// Backs that could not be read.
fn unread_line(unread: &[u32]) -> Line {
    let title = match unread {
        [one] => format!("The back at place {one} can't be read."),
        _ => format!("The backs at places {} can't be read.", say::numbers(unread)),
    };
    Line {
        title,
        detail: "Read the signature, or open the section at its first page.".to_owned(),
        places: unread.to_vec(),
        section: None,
    }
}

/// More than three faults, or a search that was cut: what can be said all the same.
fn beyond(sections: u32, found: &[Found], cut: bool) -> Vec<Line> {
    let title = if found.is_empty() {
        "The stack is empty."
    } else if cut {
        "No explanation was found for this book; the search was cut short."
    } else {
        "This book has more than three faults."
    };
    let mut lines = vec![Line {
        title: title.to_owned(),
        detail: format!(
            "It has {} backs where {sections} belong. Lay a good set of sections beside it and read the signatures one \
             by one.",
            found.len()
        ),
        places: Vec::new(),
        section: None,
    }];
    for how in [Lies::HeadToTail, Lies::TurnedInPlane, Lies::SideToSide] {
        let so = |found: &Found| matches!(found, Found::Section { lies, .. } if *lies == how);
        let here = places(found, so);
        lines.extend((!here.is_empty()).then(|| group(&here, &format!("lie {}", say::lies(how)), "lies")));
    }
    let blank = places(found, |found| *found == Found::NoMark);
    lines.extend((!blank.is_empty()).then(|| group(&blank, "show a blank back", "shows")));
    let foreign = places(found, |found| *found == Found::Foreign);
    lines.extend((!foreign.is_empty()).then(|| group(&foreign, "are of another job", "is")));
    lines
}

/// One line for several places alike; `one` is the verb for a single place.
fn group(places: &[u32], are: &str, one: &str) -> Line {
    let title = match places {
        [place] => {
            let rest = are.split_once(' ').map_or("", |(_, rest)| rest);
            format!("The section at place {place} {one} {rest}.")
        }
        _ => format!("The sections at places {} {are}.", say::numbers(places)),
    };
    Line { title, detail: String::new(), places: places.to_vec(), section: None }
}

/// Other explanations that need as few faults, and other names of the first.
fn same_as_well(explained: &Explained) -> Vec<String> {
    let Some((first, others)) = explained.explanations.split_first() else {
        return Vec::new();
    };
    let all = first
        .same_order_as
        .iter()
        .chain(others.iter().map(|other| &other.faults))
        .map(|faults| say::faults(faults))
        .collect::<Vec<_>>();
    let mut says = all
        .iter()
        .take(OTHERS_SAID)
        .map(|other| format!("The marks can't tell this from: {other}."))
        .collect::<Vec<_>>();
    if all.len() > OTHERS_SAID {
        let more = all.len() - OTHERS_SAID;
        says.push(format!("And from {more} more, as short but less likely."));
    }
    if !explained.complete {
        says.push("There are further explanations that were not looked for.".to_owned());
    }
    says
}

/// What other readings of doubtful backs, each alone, would make of the book with no more faults.
fn other_readings(sections: u32, reading: &Reading, explained: &Explained, lines: &[Line]) -> Vec<String> {
    if explained.right() {
        return Vec::new();
    }
    let most = explained.explanations.first().map_or(super::explain::MOST_FAULTS, |first| first.faults.len());
    // Unread backs match anything already. Backs the verdict points at come first.
    let doubts = reading.doubts.iter().filter(|doubt| reading.found.get(doubt.at as usize - 1) != Some(&Found::Unread));
    let mut doubts = doubts.collect::<Vec<_>>();
    doubts.sort_by_key(|doubt| !lines.iter().any(|line| line.places.contains(&doubt.at)));
    let others = |doubt: &Doubt| {
        let chosen = reading.found.get(doubt.at as usize - 1).copied();
        let at = doubt.at;
        let could_be = doubt.could_be.clone().into_iter();
        could_be.filter(move |&other| Some(other) != chosen).map(move |other| (at, other))
    };
    let mut readings = doubts.into_iter().flat_map(others);
    let mut says = Vec::new();
    for (at, other) in readings.by_ref().take(READINGS_TRIED) {
        let mut found = reading.found.clone();
        found[at as usize - 1] = other;
        let Ok(then) = explain_within(sections, &found, most, READING_STEPS) else {
            continue;
        };
        let what = say::found(other);
        if then.right() {
            says.push(format!("The back at place {at} may be {what}; then the book is right."));
        } else if let Some(first) = then.explanations.first() {
            let faults = say::faults(&first.faults);
            says.push(format!("The back at place {at} may be {what}; then it is: {faults}."));
        }
    }
    if readings.next().is_some() {
        says.push(format!("More backs may be read otherwise; {READINGS_TRIED} readings were tried."));
    }
    says
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::gather::Fault;
    use crate::gather::run::parse_run;
    use crate::gather::stack::{Stack, seen};

    fn marked(sections: u32, spoil: impl Fn(&mut Stack)) -> Checked {
        let design = Design::default();
        let mut stack = Stack::good(sections);
        spoil(&mut stack);
        check(sections, &design, &seen(&stack, &design, &|placed| placed.misfold.is_none())).unwrap()
    }

    fn sentences(checked: &Checked) -> Vec<String> {
        let lines = checked.verdict.lines.iter();
        lines.map(|line| format!("{} {}", line.title, line.detail)).collect()
    }

    #[test]
    fn a_missing_section() {
        let checked = marked(12, |stack| stack.leave_out(7).unwrap());
        assert_eq!(sentences(&checked), ["Section 7 is missing. Between places 6 and 7 the marks jump two steps."]);
        assert_eq!(checked.verdict.lines[0].places, [6, 7]);
        assert_eq!(checked.verdict.caution.as_deref(), Some(CAUTION));
        assert!(!checked.verdict.right);
    }

    #[test]
    fn two_missing_sections_share_a_line() {
        let checked = marked(12, |stack| {
            stack.leave_out(7).unwrap();
            stack.leave_out(7).unwrap();
        });
        assert_eq!(
            sentences(&checked),
            ["Sections 7 and 8 are missing. Between places 6 and 7 the marks jump three steps."]
        );
    }

    #[test]
    fn a_turned_section() {
        let checked = marked(12, |stack| stack.lay(12, Lies::HeadToTail).unwrap());
        assert_eq!(
            sentences(&checked),
            ["Section 12 lies head to tail. Its mark begins 88 mm from the head, where 119 was due; from the tail it \
              is right."]
        );
        assert_eq!(checked.verdict.caution, None);
    }

    #[test]
    fn a_blank_back() {
        for spoil in [
            |stack: &mut Stack| stack.misfold(8, Some(1)).unwrap(),
            |stack: &mut Stack| stack.lay(8, Lies::SideToSide).unwrap(),
        ] {
            let checked = marked(12, spoil);
            assert_eq!(
                sentences(&checked),
                ["The back at place 8 is blank. Section 8 is folded wrongly or turned away. Open it."]
            );
            assert_eq!(checked.explained.explanations[0].faults, [Fault::NoMark { at: 8 }]);
        }
    }

    #[test]
    fn a_right_book() {
        let checked = marked(12, |_| {});
        assert!(checked.verdict.right);
        assert_eq!(checked.verdict.cannot_tell.len(), 3);
        assert_eq!(checked.verdict.caution, None);
        let unread = check_found(3, &parse_run("1 ? 3").unwrap()).unwrap();
        assert!(!unread.verdict.right);
        assert_eq!(unread.verdict.lines[1].title, "The back at place 2 can't be read.");
    }

    #[test]
    fn more_than_three_faults() {
        let checked = marked(12, |stack| {
            (3..=8).for_each(|place| stack.lay(place, Lies::HeadToTail).unwrap());
            stack.foreign(1).unwrap();
        });
        assert!(!checked.verdict.right);
        assert_eq!(
            sentences(&checked),
            [
                "This book has more than three faults. It has 12 backs where 12 belong. Lay a good set of sections \
                 beside it and read the signatures one by one.",
                "The sections at places 3 to 8 lie head to tail. ",
                "The section at place 1 is of another job. ",
            ]
        );
    }

    #[test]
    fn what_fits_as_well_is_said() {
        let checked = check_found(12, &parse_run("7-12 1-6").unwrap()).unwrap();
        assert_eq!(
            checked.verdict.cannot_tell[0],
            "The marks can't tell this from: a book divided wrong, behind section 6."
        );
        let three = check_found(3, &parse_run("3-1").unwrap()).unwrap();
        assert_eq!(three.verdict.cannot_tell[0], "The marks can't tell this from: the whole row laid backwards.");
    }

    #[test]
    fn a_mark_between_two_levels_may_be_right() {
        let design = Design { spine_mm: 216.0, first_mm: 30.0, step_mm: 6.0, length_mm: 6.0, levels: 24 };
        let mut backs = seen(&Stack::good(12), &design, &|_| true);
        backs[2].marks_mm = Some(vec![design.middle_mm(3) + 3.0]);
        let checked = check(12, &design, &backs).unwrap();
        assert!(checked.verdict.right, "{:?}", checked.verdict.lines);
        let says = "The mark at place 3 stands between two levels. It was read as that of section 3.";
        assert!(checked.verdict.cannot_tell.iter().any(|line| line == says), "{:?}", checked.verdict.cannot_tell);
    }
}
