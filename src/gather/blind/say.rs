//! The sentences about blind spots: those of the report, and the short ones under a verdict. One source for both.

use super::sight::shows_ends;
use super::table::{Table, Why};
use super::wrong::Wrong;
use crate::gather::say;
use crate::marks::{BackMarks, Backs, MOST_SECTIONS, Warning};
use crate::units::mm;

/// What no mark on a back shows, whatever the design.
pub(super) const NEVER: [&str; 4] = [
    "Faults that leave the same sections in the same order: two neighbours exchanged, and one of them moved past the \
     other, are one book.",
    "Damaged leaves, dog-ears, a skew fore-edge and blank pages inside a section.",
    "Anything once the backs are milled, rounded, glued or lined: the marks are then gone.",
    "A mark under a solid that bleeds over the fold.",
];

/// Everything these marks can't show in a book of `sections` sections, one sentence or two each. By the looks of its
/// backs alone: the report has the same reasons with every fault acted out.
pub(in crate::gather) fn short(sections: u32, marks: &BackMarks) -> Vec<String> {
    let sections = sections.min(MOST_SECTIONS);
    let table = Table::of(marks, sections);
    let mut says = Vec::new();
    let whys = [Why::PressFault, Why::ForeignAlike, Why::NoGap, Why::InnerSheet];
    let mut tell = |why: Why, so: bool| says.extend(so.then(|| title(why, sections, &table)));
    for why in whys {
        tell(why, if why == Why::NoGap { !shows_ends(marks, sections) } else { table.has(why) });
    }
    let least_mm = Backs::default().least_step_mm();
    if marks.step_mm() < least_mm {
        let (step_mm, least_mm) = (marks.step_mm(), least_mm);
        says.push(Warning::SmallStep { step_mm, least_mm }.says());
    }
    for why in [Why::SharedLevel, Why::MidHeight, Why::TurnedOntoAnother] {
        says.extend(table.has(why).then(|| title(why, sections, &table)));
    }
    says
}

/// A blind spot in one sentence.
pub(super) fn title(why: Why, sections: u32, table: &Table) -> String {
    match why {
        Why::NoGap if sections == 1 => "Whether the one section is missing: count it.".to_owned(),
        Why::NoGap => format!("A missing section 1 or {sections} leaves no gap: count {sections} sections."),
        Why::SharedLevel => {
            let groups = table.shared().iter().map(|group| format!("({})", say::numbers(group))).collect::<Vec<_>>();
            format!("Sections that share a level, one for the other: {}.", say::list(&groups))
        }
        Why::MidHeight => format!(
            "{} head to tail: the mark stands at mid-height either way.",
            say::capital(&say::sections(&table.itself()))
        ),
        Why::TurnedOntoAnother => format!(
            "{} head to tail: the mark falls on the level of another section, so only the order tells.",
            say::capital(&say::sections(&table.another()))
        ),
        Why::BlankBack => "A blank back does not say why it is blank.".to_owned(),
        Why::ForeignAlike => "Another book marked alike: its sections look like ours.".to_owned(),
        Why::PressFault => "Press faults: a sheet backed up wrongly still has its mark where it should be.".to_owned(),
        Why::InnerSheet => "What is wrong with an inner sheet of a section does not show on its back.".to_owned(),
        Why::InnerBlank => {
            "A head without a bar does not say why: the inner sheet is missing or lies head to tail.".to_owned()
        }
        Why::Scatter => "The step is small: a fold a little out looks like the next level.".to_owned(),
        Why::ReadOtherwise => "Some faults show, but may be read as others.".to_owned(),
    }
}

/// What to do about a blind spot at the bench.
pub(super) const fn detail(why: Why, sections: u32) -> &'static str {
    match why {
        Why::NoGap if sections == 1 => "The stack is then empty.",
        Why::NoGap => "Look at both ends of the staircase, and count the sections or feel the bulk.",
        Why::SharedLevel => "Where the staircase begins again, open the book and read a page number of each turn.",
        Why::MidHeight => "Fan the heads: a section that lies head to tail has its page numbers upside down.",
        Why::TurnedOntoAnother => {
            "Open the section that is out of line before it is called a wrong one: it may be the right one, upside down."
        }
        Why::BlankBack => {
            "Open the section: it is folded wrongly, turned half round or back to front. Turned, its fold lies at the \
             fore-edge."
        }
        Why::ForeignAlike => "Compare paper and trim size, and read a line of text at a join.",
        Why::PressFault => "Check the pages inside: open one section of each pile.",
        Why::InnerSheet | Why::InnerBlank => "Open the section in its middle and read the page numbers there.",
        Why::Scatter => "Look at several books: a fold that is out is out in all of them, a wrong section is not.",
        Why::ReadOtherwise => "Open the sections that the verdict names before anything is taken apart.",
    }
}

/// That no change of the marks removes it.
pub(super) const fn no_change(why: Why) -> &'static str {
    match why {
        Why::BlankBack => {
            "No mark removes this: what is printed on a back is inside, or at the fore-edge, as the bar is."
        }
        Why::PressFault => "No mark on the back removes this: it is printed and folded with the rest of its sheet.",
        _ => "No small change of these marks was found that removes it.",
    }
}

/// Faults that look alike, in a sentence.
pub(super) fn alike(why: Why, faults: &[Vec<Wrong>]) -> String {
    let one = |wrongs: &Vec<Wrong>| wrongs.iter().map(Wrong::says).collect::<Vec<_>>().join(" with ");
    let all = faults.iter().map(one).collect::<Vec<_>>();
    match all.as_slice() {
        [] => String::new(),
        [only] if why == Why::NoGap => format!("{} leaves no gap.", say::capital(only)),
        [only] => format!("{} looks right.", say::capital(only)),
        [first, rest @ ..] => format!("{} looks like {}.", say::capital(first), rest.join(", or like ")),
    }
}

/// A length with its unit.
pub(super) fn length(value: f64) -> String {
    format!("{} mm", mm(value))
}
