//! Causes that a person thinks of, and that what was found refuses. Each is acted out; the first place at which its book is
//! another one is said.

use super::{Evidence, acted_row, caution, of_row};
use crate::gather::Fault;
use crate::gather::run::print_run;
use crate::marks::{Found, Lies};
use crate::trace::pieces::pieces;
use crate::trace::told::{Cause, Stage};
use crate::trace::words;

/// The most rivals that are shown. A bound of this program.
const MOST: usize = 4;

/// The rivals of the likeliest causes.
pub(super) fn rivals(evidence: &Evidence, causes: &[Cause]) -> Vec<Cause> {
    let Some(first) = causes.iter().find(|cause| cause.fits) else { return Vec::new() };
    let mut rivals = Vec::new();
    if let [fault] = first.faults.as_slice()
        && first.inside.is_none()
    {
        for rival in beside(evidence.sections(), fault) {
            let told = causes.iter().any(|cause| cause.faults == [rival]);
            if let (false, Some(says)) = (told, refused(evidence, first, rival)) {
                rivals.extend(of(evidence, first, rival, says));
            }
        }
    }
    rivals.extend(other_machine(evidence, first, causes));
    rivals.truncate(MOST);
    rivals
}

/// What looks much the same as a fault at the first glance.
fn beside(sections: u32, fault: &Fault) -> Vec<Fault> {
    match *fault {
        Fault::WrongSection { at, section } => {
            let mut all = vec![
                Fault::Exchanged { sections: [at.min(section), at.max(section)] },
                Fault::Double { section },
                Fault::Missing { section: at },
            ];
            // Beside its own place the second copy looks like a double.
            if at.abs_diff(section) == 1 {
                all.swap(0, 1);
            }
            all
        }
        Fault::Exchanged { sections: [a, b] } => {
            vec![Fault::WrongSection { at: a, section: b }, Fault::WrongSection { at: b, section: a }]
        }
        Fault::Missing { section } if section < sections => {
            vec![Fault::WrongSection { at: section, section: section + 1 }, Fault::NoMark { at: section }]
        }
        Fault::Missing { section } if section > 1 => vec![Fault::WrongSection { at: section, section: section - 1 }],
        Fault::Double { section } if section < sections => {
            vec![Fault::WrongSection { at: section + 1, section }]
        }
        Fault::Double { section } if section > 1 => vec![Fault::WrongSection { at: section - 1, section }],
        Fault::Lies { section, lies: Lies::HeadToTail } => vec![
            Fault::Lies { section, lies: Lies::TurnedInPlane },
            Fault::Lies { section, lies: Lies::SideToSide },
            Fault::NoMark { at: section },
        ],
        Fault::Lies { section, .. } => vec![Fault::Lies { section, lies: Lies::HeadToTail }],
        Fault::NoMark { at } => vec![Fault::Missing { section: at }, Fault::Foreign { at }],
        Fault::Foreign { at } => vec![Fault::Missing { section: at }, Fault::NoMark { at }],
        Fault::DividedWrong { after } => {
            let missing = if after < sections { after + 1 } else { after };
            vec![Fault::Reversed, Fault::Missing { section: missing }]
        }
        Fault::Moved { .. } => vec![Fault::Reversed],
        Fault::Reversed | Fault::Missing { .. } | Fault::Double { .. } => Vec::new(),
    }
}

/// Why a rival is refused, by the books of the first cause.
fn refused(evidence: &Evidence, first: &Cause, rival: Fault) -> Option<String> {
    let sections = evidence.sections();
    let (row, _) = acted_row(sections, &[rival]);
    // A book that shows the fault itself, and no half-book.
    let shows = |book: &&u32| {
        let stories = evidence.stories.get(**book as usize - 1);
        stories.is_some_and(|s| s.all.iter().any(|story| story.faults == first.faults))
    };
    let book = first.books.iter().find(shows).or_else(|| first.books.first())?;
    let read = evidence.reads.get(*book as usize - 1)?;
    if let Some(found) = &read.row {
        return difference(found, &row);
    }
    let piece = pieces(evidence.book, read).into_iter().find(|piece| !piece.agrees(&row, sections))?;
    Some(format!("It does not go with this: {}.", piece.says()))
}

/// The first place at which two books differ: `Place 9 would hold section 5. It holds section 9.`
fn difference(found: &[Found], rival: &[Found]) -> Option<String> {
    let place = (0..found.len().max(rival.len())).find(|at| found.get(*at) != rival.get(*at))?;
    let place_said = match (rival.get(place), found.get(place)) {
        (Some(rival), Some(found)) => {
            format!("Place {} would hold {}. It holds {}.", place + 1, words::found(*rival), words::found(*found))
        }
        (Some(rival), None) => {
            format!("Place {} would hold {}. The book ends before it.", place + 1, words::found(*rival))
        }
        (None, Some(found)) => {
            format!("The book would end before place {}. It holds {}.", place + 1, words::found(*found))
        }
        (None, None) => return None,
    };
    if found.len() == rival.len() {
        return Some(place_said);
    }
    Some(format!(
        "There would be {}; there are {}. {place_said}",
        words::many(rival.len() as u32, "section"),
        found.len()
    ))
}

fn of(evidence: &Evidence, first: &Cause, rival: Fault, says: String) -> Option<Cause> {
    let draft = of_row::drafts(&rival).into_iter().next()?;
    let (row, places) = acted_row(evidence.sections(), &[rival]);
    Some(Cause {
        kind: draft.kind.to_owned(),
        stage: draft.stage,
        place: draft.stage.name().to_owned(),
        station: draft.station,
        section: draft.section,
        title: draft.title,
        fits: false,
        share: 0.0,
        faults: vec![rival],
        run: print_run(&row),
        row,
        places,
        books: first.books.clone(),
        counters: None,
        why: Vec::new(),
        against: vec![says],
        next_check: draft.check,
        caution: caution::caution(draft.stage),
        remedy: draft.remedy,
        inside: None,
    })
}

/// The machine that a wrong section is blamed on, and that it can't have been: press or folder.
fn other_machine(evidence: &Evidence, first: &Cause, causes: &[Cause]) -> Option<Cause> {
    let inside = first.inside.as_ref()?;
    let read = first.books.iter().find_map(|book| evidence.reads.get(*book as usize - 1))?;
    let opened = read.inside.as_ref().filter(|opened| opened.section == inside.section)?;
    let section = opened.section;
    let shows = read.row.as_ref().is_some_and(|row| row.contains(&Found::right(section)));
    let (stage, title, mut against) = if opened.torn.is_empty() {
        let says =
            format!("Each leaf of section {section} carries its own two pages, and the press can't leave that behind.");
        (Stage::Press, format!("Section {section} was printed wrongly."), vec![says])
    } else {
        let torn = words::capital(&opened.torn_words());
        let says = format!("No fold parts the two sides of a leaf. {torn}.");
        (Stage::Folder, format!("Section {section} was folded wrongly."), vec![says])
    };
    if causes.iter().any(|cause| cause.fits && cause.stage == stage) {
        return None;
    }
    if stage == Stage::Folder && shows {
        against.push(format!("Folded wrongly, section {section} would have its mark inside. On the spine it shows."));
    }
    let kind = if stage == Stage::Press { "pile_turned" } else { "folder_set_up" };
    Some(Cause {
        kind: kind.to_owned(),
        stage,
        place: stage.name().to_owned(),
        station: None,
        section: Some(section),
        title,
        fits: false,
        share: 0.0,
        faults: Vec::new(),
        row: Vec::new(),
        run: String::new(),
        places: Vec::new(),
        books: first.books.clone(),
        counters: None,
        why: Vec::new(),
        against,
        next_check: first.next_check.clone(),
        caution: caution::caution(stage),
        remedy: String::new(),
        inside: None,
    })
}
