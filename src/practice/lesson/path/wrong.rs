//! Wrong sheets: a back mark that goes inside, folds made the other way, two causes that look alike.

use super::{Deed, Goal, Lesson, OnBench, SIXTEEN, find, flat_sixteen, hand, other_way, step, under};
use crate::fold::misfold::Cause;
use crate::fold::{Crease, Fold, Part};
use crate::practice::lesson::{AT_A_MACHINE, Ticks};

pub(super) fn lessons() -> Vec<Lesson> {
    vec![back_mark(), first_fold(), look_alikes()]
}

/// The sixteen with its first fold under.
const FIRST_UNDER: [Fold; 3] = [under(2, Part::Right), SIXTEEN[1], SIXTEEN[2]];

fn back_mark() -> Lesson {
    hand(
        "The back mark, and a last fold the other way",
        flat_sixteen(),
        vec![
            step(
                "Between the last page and the first a short bar is printed: the back mark. Follow page 1 to find it.",
                Goal::Followed(1),
                &[Deed::Follow(1)],
                "The bar lies on the fold between 16 and 1. In each section of a book it stands one step lower.",
            ),
            find(
                "Fold the sheet so that it reads in order and the bar comes to stand on the back.",
                Goal::MarkOnSpine,
                &SIXTEEN.map(Deed::Make),
                "First and last page share the outside of the spine. So the bar is seen on the back of the folded section.",
            ),
            find(
                "Take the last fold back, and make it under instead of over.",
                Goal::ReadsAs(other_way(3)),
                &[Deed::Undo, Deed::Make(under(1, Part::Right))],
                "Pages 9 to 16 come before 1 to 8, and the back is blank.",
            ),
            step(
                "Look for the bar: open the section where 16 and 1 now face each other.",
                Goal::Facing([16, 1]),
                &[Deed::OpenAt(4)],
                "The bar lies inside. A blank back among the others is the sign of a section that was folded wrongly, or that \
                 lies turned.",
            ),
            step(
                "Say what was done to the sheet.",
                Goal::CausesFit(1),
                &[Deed::NameCause(other_way(3))],
                "Each leaf still has its right two pages, front and back. So it was the folding, and not the press.",
            ),
        ],
    )
}

fn first_fold() -> Lesson {
    let [first, second, third] = SIXTEEN.map(Deed::Make);
    hand(
        "The first fold the other way",
        flat_sixteen(),
        vec![
            find(
                "Make the first fold under instead of over, and the other two as always.",
                Goal::ReadsAs(other_way(1)),
                &FIRST_UNDER.map(Deed::Make),
                "Leaves change places two by two: 3 and 4 come before 1 and 2.",
            ),
            step(
                "Say what was done to the sheet.",
                Goal::CausesFit(1),
                &[Deed::NameCause(other_way(1))],
                "The fold that was made wrongly says how far the leaves have moved: one place for the first fold, two for the \
                 second, four for the third.",
            ),
            find(
                "Take all folds back, and fold it right.",
                Goal::InOrder,
                &[Deed::Undo, Deed::Undo, Deed::Undo, first, second, third],
                "A sheet that was folded wrongly can often be folded anew, if it was not cut yet.",
            ),
        ],
    )
}

fn look_alikes() -> Lesson {
    let turned = Cause::SheetTurnedOver { about: Crease::Vertical };
    let start = OnBench { ticks: Some(Ticks::AtGuides), ..flat_sixteen() };
    Lesson {
        title: "Two causes that look alike",
        note: AT_A_MACHINE,
        start,
        steps: vec![
            find(
                "Make the first fold under instead of over, and the other two as always.",
                Goal::ReadsAs(other_way(1)),
                &FIRST_UNDER.map(Deed::Make),
                "A checker sees these pages only, and not what was done.",
            ),
            step(
                "Name a cause that makes these pages.",
                Goal::CausesFit(1),
                &[Deed::NameCause(other_way(1))],
                "It is not the only one.",
            ),
            step(
                "Name another cause that makes the same pages.",
                Goal::CausesFit(2),
                &[Deed::NameCause(turned.clone())],
                "A fold made the other way and a sheet laid in with the wrong side up end in the same section. The pages can’t \
                 tell them apart.",
            ),
            step(
                "Take a sheet from the same pile, and look at its lay ticks.",
                Goal::Looked,
                &[Deed::Look],
                "Lay ticks are printed at the two edges by which the press held the sheet. Here they lie at the edges that the \
                 folder’s guides touch.",
            ),
            step(
                "Say which of the two it was.",
                Goal::Proven,
                &[Deed::NameCause(other_way(1))],
                "The sheet was laid in right, so it is the folder: look at its first fold. With the ticks elsewhere it would be \
                 the pile.",
            ),
        ],
    }
}
