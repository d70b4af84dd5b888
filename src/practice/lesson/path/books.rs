//! Books: sections laid out, spoiled, and what their backs show; then a wrong book traced to its page.

use super::{Deed, Goal, Lesson, OnBench, Step, flat_sixteen, step};
use crate::gather::{Fault, retold};
use crate::marks::Lies;
use crate::practice::lesson::{AT_A_MACHINE, Run};

pub(super) fn lessons() -> Vec<Lesson> {
    vec![missing(), twice_or_wrong(), head_to_tail(), trace()]
}

fn book(title: &'static str, sections: u32, steps: Vec<Step>) -> Lesson {
    Lesson { title, note: AT_A_MACHINE, start: OnBench { sections, ..flat_sixteen() }, steps }
}

fn lay(sections: u32, does: &'static str, shows: &'static str) -> Step {
    step(does, Goal::RightBook(sections), &[Deed::Gather(sections)], shows)
}

fn spoil(does: &'static str, fault: Fault, shows: &'static str) -> Step {
    step(does, Goal::BookWith(fault), &[Deed::Spoil(fault)], shows)
}

fn name(does: &'static str, fault: Fault, shows: &'static str) -> Step {
    step(does, Goal::Explained, &[Deed::Name(fault)], shows)
}

fn missing() -> Lesson {
    let fault = Fault::Missing { section: 5 };
    book(
        "A section is missing",
        8,
        vec![
            lay(
                8,
                "Take one section from each pile, from 1 to 8, and lay them on each other.",
                "This is called gathering. The back marks make a staircase, one step down from section to section.",
            ),
            spoil(
                "Leave section 5 out.",
                fault,
                "The staircase jumps: from 4 to 6 it goes two steps down. The book is thinner by a section.",
            ),
            name(
                "Point at the back where the staircase jumps, and say what happened.",
                fault,
                "The pile of section 5 then has one section too many at the end of the run. Count what is left over.",
            ),
        ],
    )
}

fn twice_or_wrong() -> Lesson {
    let double = Fault::Double { section: 4 };
    let held = Fault::WrongSection { at: 5, section: 9 };
    book(
        "Twice there, or a wrong one",
        10,
        vec![
            lay(10, "Lay out the ten sections in order.", "A right staircase."),
            spoil(
                "Take section 4 twice.",
                double,
                "Two marks stand level, side by side. The book is thicker by a section.",
            ),
            name(
                "Say what happened.",
                double,
                "Nothing is missing. The second one is drawn out, and the book is right.",
            ),
            lay(10, "Make the book good again.", "The staircase is whole again."),
            spoil(
                "Now let station 5 hold section 9: put section 9 in place of 5.",
                held,
                "One mark stands out of line, and its level shows once more further down. The book is as thick as it should \
                 be, so a feeler that measures thickness lets it pass.",
            ),
            name(
                "Say what happened.",
                held,
                "One section is lost and another is there twice. All books since that pile was laid in are wrong.",
            ),
        ],
    )
}

fn head_to_tail() -> Lesson {
    let turned = Fault::Lies { section: 3, lies: Lies::HeadToTail };
    let exchanged = Fault::Exchanged { sections: [6, 7] };
    book(
        "Turned, and exchanged",
        10,
        vec![
            lay(10, "Lay out the ten sections in order.", "A right staircase."),
            spoil(
                "Turn section 3 head to tail: its spine stays at the back.",
                turned,
                "Its mark stands as far from the tail as it should stand from the head.",
            ),
            name(
                "Say what happened.",
                turned,
                "Sections are laid into a station by the handful, which is called a lift. Look through the rest of that lift.",
            ),
            lay(10, "Make the book good again.", "The staircase is whole again."),
            spoil("Exchange sections 6 and 7.", exchanged, "Two marks cross."),
            name(
                "Say what happened.",
                exchanged,
                "If the books on either side show the same, the two piles lie at each other’s station.",
            ),
        ],
    )
}

/// The counter numbers are invented. Halving what is not known yet needs the fewest openings.
fn trace() -> Lesson {
    let held = Fault::WrongSection { at: 5, section: 9 };
    let run = Run::new(1448, 1461, 1480);
    // Halving, as somebody would do it who does not know the answer.
    let mut halved = run.clone();
    let mut openings = Vec::new();
    while !halved.closed() {
        openings.push(Deed::Open(halved.middle()));
        halved.open(halved.middle());
    }
    let held_back = run.to_hold();
    let start = OnBench { sections: 12, row: retold(12, &[held]), run: Some(run), ..flat_sixteen() };
    Lesson {
        title: "Trace a wrong book",
        note: AT_A_MACHINE,
        start,
        steps: vec![
            name(
                "Book 1480 came back from the line. Point at what is wrong with it, and say what happened.",
                held,
                "That is the first question: what? The wrong pile lay at station 5: that is where.",
            ),
            step(
                "Since when? Book 1448 was good. Open books between the two, until a good and a wrong one lie side by side.",
                Goal::Bracketed,
                &openings,
                "Open the one in the middle each time: every opening halves what is left.",
            ),
            step(
                "How many? Say how many books are to be held, up to 1480.",
                Goal::HeldAll,
                &[Deed::Hold(held_back)],
                "From the first wrong one on, both ends counted. They are set aside before anything else is done.",
            ),
            step(
                "Put the book right: section 5 in place of the wrong 9.",
                Goal::RightBook(12),
                &[Deed::Gather(12)],
                "The section that is missing is taken from what was left over at its station.",
            ),
            step(
                "Follow page 75, which was missing, from the book to its sheet.",
                Goal::Followed(75),
                &[Deed::Follow(75)],
                "From the book to the section, to the sheet, to the page: that is how a fault is traced.",
            ),
        ],
    }
}
