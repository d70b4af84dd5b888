//! The lessons, from one fold to a wrong book. The order of what is taught: common practice, no source.

use super::bench::{Deed, Goal, OnBench};
use super::{AT_A_MACHINE, BY_HAND, Lesson, Step};
use crate::fold::misfold::Cause;
use crate::fold::{Crease, Direction, Fold, Lands, Part, Reads, Scheme, sixteen};
use crate::gather::Fault;
use crate::marks::Lies;

const fn over(after: u32, part: Part) -> Fold {
    Fold::new(after, part, Lands::Over)
}

const fn under(after: u32, part: Part) -> Fold {
    Fold::new(after, part, Lands::Under)
}

fn sheet(rows: u32, columns: u32, folds: &[Fold]) -> OnBench {
    let (head, reads) = (Direction::Up, Reads::LeftToRight);
    OnBench::sheet(Scheme { rows, columns, folds: folds.to_vec(), head, reads })
}

fn step(does: &'static str, goal: Goal, deeds: &[Deed], shows: &'static str) -> Step {
    Step { does, goal, deeds: deeds.to_vec(), shows }
}

fn book(title: &'static str, steps: Vec<Step>) -> Lesson {
    Lesson { title, note: AT_A_MACHINE, start: OnBench::sheet(sixteen().scheme), steps }
}

fn hand(title: &'static str, start: OnBench, steps: Vec<Step>) -> Lesson {
    Lesson { title, note: BY_HAND, start, steps }
}

/// All lessons in the order in which they are learnt.
#[must_use]
pub fn lessons() -> Vec<Lesson> {
    let mut path = sheets();
    path.extend(wrong_sheets());
    path.extend(books());
    path
}

fn sheets() -> Vec<Lesson> {
    let r1 = over(1, Part::Right);
    let four = sheet(1, 2, &[r1]);
    let eight = sheet(2, 2, &[over(1, Part::Top), r1]);
    let long = sheet(1, 4, &[over(2, Part::Right), r1]);
    let sixteen = OnBench::sheet(sixteen().scheme);
    let [first, second] = [over(2, Part::Right), over(1, Part::Top)];
    vec![
        hand(
            "One fold: four pages",
            four,
            vec![
                step(
                    "Take the right half and fold it over the left.",
                    Goal::InOrder,
                    &[Deed::Make(r1)],
                    "One fold makes two leaves, and two leaves have four pages.",
                ),
                step(
                    "Open it in the middle.",
                    Goal::Facing([2, 3]),
                    &[Deed::OpenAt(1)],
                    "Pages 2 and 3 lie side by side on one side of the sheet: the inner forme.",
                ),
                step(
                    "Close it, unfold it and turn the sheet over.",
                    Goal::Open { turned_over: true },
                    &[Deed::OpenAt(0), Deed::Undo, Deed::TurnOver],
                    "Pages 4 and 1 lie side by side on the other: the outer forme. Each pair adds up to 5.",
                ),
            ],
        ),
        hand(
            "Over or under",
            sheet(1, 2, &[r1]),
            vec![
                step(
                    "Fold the right half over, so that page 1 or 4 is outside.",
                    Goal::Outside(1),
                    &[Deed::Make(r1)],
                    "What lay beneath is outside now.",
                ),
                step(
                    "Undo it, and fold the right half under the left.",
                    Goal::Outside(2),
                    &[Deed::Undo, Deed::Make(under(1, Part::Right))],
                    "Now the other side is outside: the section begins with the wrong page.",
                ),
                step(
                    "Put it right.",
                    Goal::InOrder,
                    &[Deed::Undo, Deed::Make(r1)],
                    "Over and under decide which forme is outside.",
                ),
            ],
        ),
        hand(
            "Two folds across each other: eight pages",
            eight,
            vec![
                step(
                    "Fold the top half over the bottom half.",
                    Goal::Folds(1),
                    &[Deed::Make(over(1, Part::Top))],
                    "Heads meet at the first fold: it becomes the bolt at the head.",
                ),
                step(
                    "Fold the right half over the left.",
                    Goal::InOrder,
                    &[Deed::Make(r1)],
                    "The second fold is the spine.",
                ),
                step(
                    "Follow page 5 back to the sheet.",
                    Goal::Followed(5),
                    &[Deed::Follow(5)],
                    "It is backed by 6, the other page of its leaf.",
                ),
                step(
                    "Unfold the sheet.",
                    Goal::Open { turned_over: false },
                    &[Deed::Undo, Deed::Undo],
                    "Half of the heads point down on the flat sheet, and all of them up in the section.",
                ),
            ],
        ),
        hand(
            "Two folds the same way: eight pages",
            long,
            vec![
                step(
                    "Fold the right half over the left.",
                    Goal::Folds(1),
                    &[Deed::Make(over(2, Part::Right))],
                    "No head is turned down by this fold: it runs along the pages.",
                ),
                step(
                    "Fold the right half over once more.",
                    Goal::InOrder,
                    &[Deed::Make(r1)],
                    "Parallel folds leave all heads one way; the bolts lie at the fore-edge.",
                ),
                step(
                    "Open it in the middle.",
                    Goal::Facing([4, 5]),
                    &[Deed::OpenAt(2)],
                    "In the middle the spine holds one strip of paper: pages 4 and 5.",
                ),
            ],
        ),
        hand(
            "Three folds: the sixteen",
            sixteen.clone(),
            vec![
                step("Make the first fold: right over left.", Goal::Folds(1), &[Deed::Make(first)], "Two layers."),
                step("Make the second: top over bottom.", Goal::Folds(2), &[Deed::Make(second)], "Four layers."),
                step(
                    "Make the third: right over left.",
                    Goal::InOrder,
                    &[Deed::Make(r1)],
                    "Eight leaves, sixteen pages. Every fold doubles the leaves.",
                ),
                step(
                    "Open it in the middle.",
                    Goal::Facing([8, 9]),
                    &[Deed::OpenAt(4)],
                    "The middle of a section is where the thread shows when it is sewn.",
                ),
            ],
        ),
        hand(
            "Which page is where",
            sixteen,
            vec![
                step(
                    "Fold the sheet so that page 1 comes to the outside.",
                    Goal::Outside(1),
                    &[Deed::Make(first), Deed::Make(second), Deed::Make(r1)],
                    "Page 1 is on the outer forme, so it ends outside.",
                ),
                step(
                    "Turn the section over so that page 1 is on top.",
                    Goal::OnTop(1),
                    &[Deed::TurnOver],
                    "First and last page share the outside of the spine: the back mark is printed between them.",
                ),
                step(
                    "Follow page 11.",
                    Goal::Followed(11),
                    &[Deed::Follow(11)],
                    "It stands beside page 6 on the sheet: across the spine, the numbers add up to 17.",
                ),
            ],
        ),
    ]
}

fn wrong_sheets() -> Vec<Lesson> {
    let r1 = over(1, Part::Right);
    let [first, second] = [over(2, Part::Right), over(1, Part::Top)];
    let bench = || OnBench::sheet(sixteen().scheme);
    let wrong = |folds: [Fold; 3]| folds.map(Deed::Make);
    let fold = |fold| Cause::FoldOtherWay { fold };
    vec![
        hand(
            "The last fold the other way",
            bench(),
            vec![
                step(
                    "Fold the sixteen, but fold the last time under instead of over.",
                    Goal::OutOfOrder,
                    &wrong([first, second, under(1, Part::Right)]),
                    "It begins in the middle: 9 to 16 come before 1 to 8.",
                ),
                step(
                    "Open the middle, where the first and last page now face each other.",
                    Goal::Facing([16, 1]),
                    &[Deed::OpenAt(4)],
                    "The back mark lies inside, and the back is blank.",
                ),
                step(
                    "Say what was done.",
                    Goal::CauseFits,
                    &[Deed::NameCause(fold(3))],
                    "The leaves are whole, so it was the folding and not the press.",
                ),
            ],
        ),
        hand(
            "The first fold the other way",
            bench(),
            vec![
                step(
                    "Fold the first time under instead of over, then as always.",
                    Goal::OutOfOrder,
                    &wrong([under(2, Part::Right), second, r1]),
                    "Leaves change places two by two.",
                ),
                step(
                    "Say what was done.",
                    Goal::CauseFits,
                    &[Deed::NameCause(fold(1))],
                    "There is a second cause that fits.",
                ),
                step(
                    "Undo all folds, and fold it right.",
                    Goal::InOrder,
                    &[Deed::Undo, Deed::Undo, Deed::Undo, Deed::Make(first), Deed::Make(second), Deed::Make(r1)],
                    "A wrongly folded sheet can often be folded anew.",
                ),
            ],
        ),
        Lesson {
            title: "Two causes that look alike",
            note: AT_A_MACHINE,
            start: bench(),
            steps: vec![
                step(
                    "Fold the first time under instead of over, then as always.",
                    Goal::OutOfOrder,
                    &wrong([under(2, Part::Right), second, r1]),
                    "Only the pages are seen, not what was done.",
                ),
                step(
                    "Name a sheet that was laid in with the wrong side up.",
                    Goal::CauseFits,
                    &[Deed::NameCause(Cause::SheetTurnedOver { about: Crease::Vertical })],
                    "The pages can't tell it from a fold made the other way. Look at the pile: which side is up?",
                ),
                step(
                    "Undo the folds.",
                    Goal::Open { turned_over: false },
                    &[Deed::Undo, Deed::Undo, Deed::Undo],
                    "Lay ticks on the open sheet settle it.",
                ),
            ],
        },
    ]
}

fn books() -> Vec<Lesson> {
    let lay = |n| {
        step("Lay out the sections in order.", Goal::RightBook(n), &[Deed::Gather(n)], "The marks make a staircase.")
    };
    let spoil = |does, fault, shows| step(does, Goal::WrongBook, &[Deed::Spoil(fault)], shows);
    let name = |fault, shows| step("Say what is wrong.", Goal::Explained, &[Deed::Name(fault)], shows);
    let missing = Fault::Missing { section: 5 };
    let double = Fault::Double { section: 4 };
    let held = Fault::WrongSection { at: 5, section: 9 };
    let turned = Fault::Lies { section: 3, lies: Lies::HeadToTail };
    let exchanged = Fault::Exchanged { sections: [6, 7] };
    vec![
        book(
            "A section is missing",
            vec![
                lay(8),
                spoil("Leave section 5 out.", missing, "The staircase has a gap of two steps."),
                name(missing, "A copy of section 5 lies over at its station: count the piles."),
            ],
        ),
        book(
            "A section is there twice",
            vec![
                lay(8),
                spoil("Lay section 4 in twice.", double, "Two marks stand level."),
                name(double, "The book is thicker by one section, and nothing is missing."),
            ],
        ),
        book(
            "A wrong section at a station",
            vec![
                lay(12),
                spoil("Let station 5 hold section 9.", held, "A mark stands out of line, and one level shows twice."),
                name(held, "The bulk is right, so a caliper lets it pass. Hold the books since that pile was loaded."),
            ],
        ),
        book(
            "A section lies head to tail",
            vec![
                lay(10),
                spoil(
                    "Turn section 3 head to tail.",
                    turned,
                    "Its mark stands as far from the tail as it should from the head.",
                ),
                name(turned, "Turn it, and look through the lift that it came in."),
            ],
        ),
        book(
            "Trace a wrong book",
            vec![
                lay(10),
                spoil("Exchange sections 6 and 7.", exchanged, "Two marks cross."),
                name(exchanged, "If the books on either side show the same, the piles lie in each other's place."),
                step(
                    "Follow page 11 of the section into its sheet.",
                    Goal::Followed(11),
                    &[Deed::Follow(11)],
                    "From the book to the section, to the sheet, to the page: that is how a fault is traced.",
                ),
            ],
        ),
    ]
}
