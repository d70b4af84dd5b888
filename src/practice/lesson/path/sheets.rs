//! Right sheets: one fold, two, three, a slit sheet, and where each page is.

use super::{Deed, Goal, Lesson, OnBench, SIXTEEN, find, flat_sixteen, hand, over, sheet, step, under};
use crate::fold::{Course, Crease, Direction, End, Fold, Part, Parted, Reads, Slit, Steps};

const R1: Fold = over(1, Part::Right);

pub(super) fn lessons() -> Vec<Lesson> {
    vec![one_fold(), over_or_under(), across(), alongside(), the_sixteen(), which_page(), slit()]
}

fn one_fold() -> Lesson {
    hand(
        "One fold: four pages",
        sheet(1, 2, &[R1]),
        vec![
            step(
                "Take the right half at its edge, and fold it over onto the left half.",
                Goal::InOrder,
                &[Deed::Make(R1)],
                "One fold makes two leaves. A leaf has a page on each side, so there are four pages. A sheet that is folded \
                 for a book is called a section.",
            ),
            step(
                "Open it in the middle, as you open a book.",
                Goal::Facing([2, 3]),
                &[Deed::OpenAt(1)],
                "Pages 2 and 3 were printed side by side. All pages that are printed on one side of a sheet at once are \
                 called a forme; these two are the inner forme.",
            ),
            step(
                "Close it, unfold it, and turn the sheet over.",
                Goal::Open { turned_over: true },
                &[Deed::OpenAt(0), Deed::Undo, Deed::TurnOver],
                "Pages 4 and 1 stand on the other side: the outer forme, which is outside when the sheet is folded. Across \
                 the fold the two numbers add up to 5, on both sides.",
            ),
        ],
    )
}

fn over_or_under() -> Lesson {
    hand(
        "Over or under",
        sheet(1, 2, &[R1]),
        vec![
            step(
                "Fold the right half over onto the left half.",
                Goal::Outside(1),
                &[Deed::Make(R1)],
                "The side that lay on the bench is outside now, with page 1.",
            ),
            find(
                "Take the fold back, and fold the right half under the left half.",
                Goal::Outside(2),
                &[Deed::Undo, Deed::Make(under(1, Part::Right))],
                "Now the other side is outside, and the section begins with the wrong page.",
            ),
            find(
                "Put it right, so that it begins with page 1.",
                Goal::InOrder,
                &[Deed::Undo, Deed::Make(R1)],
                "Whether a part goes over or under decides which side of the sheet comes to lie outside.",
            ),
        ],
    )
}

fn across() -> Lesson {
    let top = over(1, Part::Top);
    hand(
        "Two folds across each other: eight pages",
        sheet(2, 2, &[top, R1]),
        vec![
            step(
                "Fold the top half over onto the bottom half.",
                Goal::Folds(1),
                &[Deed::Make(top)],
                "The heads of the pages meet at this fold. It becomes a closed edge at the head of the section; a closed \
                 edge that is no spine is called a bolt.",
            ),
            step(
                "Fold the right half over onto the left half.",
                Goal::InOrder,
                &[Deed::Make(R1)],
                "The last fold holds all leaves together: it is the spine.",
            ),
            step(
                "Follow page 5: press its figure on one of the flat sides, or type it.",
                Goal::Followed(5),
                &[Deed::Follow(5)],
                "The thread leads from the page in the section to its place on the sheet. Behind it, on the same leaf, \
                 stands page 6.",
            ),
            step(
                "Unfold the sheet.",
                Goal::Open { turned_over: false },
                &[Deed::Undo, Deed::Undo],
                "On the flat sheet half of the heads point down. Folding brings them all up.",
            ),
        ],
    )
}

fn alongside() -> Lesson {
    let half = over(2, Part::Right);
    hand(
        "Two folds the same way: eight pages",
        sheet(1, 4, &[half, R1]),
        vec![
            step(
                "Fold the right half over onto the left half.",
                Goal::Folds(1),
                &[Deed::Make(half)],
                "This fold runs beside the pages and turns no head down.",
            ),
            step(
                "Fold the right half over once more.",
                Goal::InOrder,
                &[Deed::Make(R1)],
                "Folds that run the same way are called parallel. All heads point one way on the sheet, and the bolt lies \
                 at the fore-edge, opposite the spine.",
            ),
            step(
                "Open it in the middle.",
                Goal::Facing([4, 5]),
                &[Deed::OpenAt(2)],
                "Pages 4 and 5 stand on one strip of paper. Only in the middle of a section do facing pages do so.",
            ),
        ],
    )
}

fn the_sixteen() -> Lesson {
    let [first, second, third] = SIXTEEN.map(Deed::Make);
    hand(
        "Three folds: the sixteen",
        flat_sixteen(),
        vec![
            step(
                "Fold the right half over onto the left half.",
                Goal::Folds(1),
                &[first],
                "Two layers. Every fold doubles them.",
            ),
            step("Fold the top half over onto the bottom half.", Goal::Folds(2), &[second], "Four layers."),
            step(
                "Fold the right half over once more.",
                Goal::InOrder,
                &[third],
                "Eight leaves, sixteen pages: the section of most sewn books.",
            ),
            step(
                "Open it in the middle.",
                Goal::Facing([8, 9]),
                &[Deed::OpenAt(4)],
                "Here the thread shows when the section is sewn.",
            ),
        ],
    )
}

fn which_page() -> Lesson {
    hand(
        "Which page is where",
        flat_sixteen(),
        vec![
            find(
                "Fold the sheet down to a page, so that page 1 comes to the outside and all pages follow.",
                Goal::InOrder,
                &SIXTEEN.map(Deed::Make),
                "Page 1 stands on the outer forme, so it ends outside.",
            ),
            step(
                "Turn the section over, so that page 1 is on top.",
                Goal::OnTop(1),
                &[Deed::TurnOver],
                "It lies as a reader takes it up.",
            ),
            step(
                "Follow page 11.",
                Goal::Followed(11),
                &[Deed::Follow(11)],
                "On the sheet it stands beside page 6. Across a spine fold the two numbers add up to 17, one more than the \
                 pages of the section.",
            ),
        ],
    )
}

/// A sheet of sixteen pages, slit in the middle into two sections of eight.
fn two_eights() -> Course {
    let eight = || Steps::piece(vec![over(1, Part::Top), R1], Direction::Up);
    let slit = Slit { crease: Crease::Vertical, after: 2, then: Parted::Apart { first: eight(), second: eight() } };
    Course {
        rows: 2,
        columns: 4,
        steps: Steps { folds: Vec::new(), end: End::Slit(Box::new(slit)) },
        copies: vec![vec![vec![0], vec![1]]],
        reads: Reads::LeftToRight,
    }
}

fn slit() -> Lesson {
    let start = OnBench { course: Some(two_eights()), sections: 2, ..flat_sixteen() };
    hand(
        "One sheet, two sections",
        start,
        vec![
            step(
                "Slit the sheet in two: go one step on along the rule.",
                Goal::Steps(1),
                &[Deed::Step],
                "A round knife in the folder does this while the sheet runs through. Each half goes on by itself.",
            ),
            step(
                "Fold both halves down to a page: two steps on.",
                Goal::Steps(3),
                &[Deed::Step, Deed::Step],
                "Two sections of eight pages come out of one sheet, in two piles. If the piles are mixed, the book is wrong.",
            ),
            step(
                "Open the first section in the middle.",
                Goal::Facing([4, 5]),
                &[Deed::OpenAt(2)],
                "It is an eight like the one that you folded before.",
            ),
            step(
                "Follow page 9: press it on the flat sheet, or type it.",
                Goal::Followed(9),
                &[Deed::Follow(9)],
                "It is the first page of the second section. Where it stood on the sheet says which half it came from.",
            ),
        ],
    )
}
