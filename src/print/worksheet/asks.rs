//! What is asked, in words for paper: the page of the program words it for a screen.

use crate::practice::Kind;

/// What is asked, in whole sentences.
pub(super) const fn asks(kind: Kind) -> &'static str {
    match kind {
        Kind::NumberSheet => {
            "Fold a blank sheet as it is told here, number its pages from front to back, and open it. Write each number \
             the way it then stands, and fill in the bar at its head."
        }
        Kind::SetHeads => "The numbers stand on the sheet, all upright. Fill in the bar at the head of each page.",
        Kind::FindFolds => {
            "Both sides of a printed sheet are given; the black bar is the head of a page. Tick the folds, in order, that \
             bring the pages into order; count panels from the left or the top."
        }
        Kind::WrongSheet => {
            "These are the pages of a folded section from front to back, as they stand. Say what was done to the sheet, \
             and what to look at next."
        }
        Kind::WrongBook => {
            "The backs of a gathered book, counted from its front. Say which section is wrong, what happened, and what to \
             look at next."
        }
        Kind::MakeUp => {
            "Make this book up in sections. Say how many sections of how many pages follow each other, from front to back."
        }
        Kind::BackMarks => {
            "Lay out the back marks of this book: fill in the numbers, and draw the staircase. The rule counts true \
             millimetres from the head."
        }
        Kind::Bolts => {
            "Write for each leaf at its head, tail and fore-edge: N where there is no bolt, O where the trim opens the \
             bolt, C where it stays closed."
        }
    }
}
