//! What the back of a wrong section shows, and where its mark is to be found.

use crate::fold::misfold::inset::{Beside, Forme, Happened, Plan, SheetOf, Stranger};
use crate::fold::misfold::{Cause, FoundPage, Lies, Mark};
use crate::fold::{BackMark, Landing, Section};

/// The back mark in a sentence or two.
pub(super) fn back(plan: &Plan, happened: &Happened, mark: Mark, row: &[FoundPage]) -> String {
    if !has_place(plan) {
        return "The first and the last leaf of this sheet are not joined, so it has no place for a back mark.".into();
    }
    let parts = happened.parts();
    let lies = parts.iter().find_map(|p| match p {
        Happened::Sheet(Cause::SectionLies { lies }) => Some(*lies),
        _ => None,
    });
    let stranger = parts.iter().find_map(|p| match p {
        Happened::Stranger(stranger) => of_stranger(plan, stranger),
        _ => None,
    });
    match (mark, stranger) {
        (Mark::Blank, _) if lies.is_some_and(|l| l != Lies::HeadToTail) => {
            "Its back is blank: the fold, and the mark on it, lie at the fore-edge.".into()
        }
        (Mark::Mirrored, _) => "Its mark stands as far from the tail as it should stand from the head.".into(),
        // What was done to it beside took the mark of the other section off its back.
        (Mark::Blank, Some(_)) if parts.len() > 1 && parts.iter().any(is_whole) => {
            "Its back is blank: the mark lies inside.".into()
        }
        (_, Some(said)) => said,
        (Mark::Shows, None) if of_other(plan, row) => "Its back shows the mark of the other section.".into(),
        (Mark::Shows, None) => "Its mark stands at its place, so the back does not betray it.".into(),
        (Mark::Blank, None) => inside(plan, row),
    }
}

/// Whether it is a whole section of another number.
fn is_whole(part: &Happened) -> bool {
    matches!(part, Happened::Stranger(Stranger::OtherSection { .. } | Stranger::LanesMixed { .. }))
}

/// Whether the right sheet has a crease for the mark.
fn has_place(plan: &Plan) -> bool {
    let scheme = plan.scheme(SheetOf::Outer);
    scheme
        .and_then(|s| Section::of_scheme(s).ok())
        .is_some_and(|right| BackMark::on_sheet(&right, &Landing::of_section(&right)).is_some())
}

fn of_other(plan: &Plan, row: &[FoundPage]) -> bool {
    let edges = [row.first(), row.last()];
    edges.iter().flatten().filter_map(|p| p.page).any(|n| plan.leaf(n).0 != 0)
}

/// What a stranger does to the back; nothing where the back of the sheet itself says it.
fn of_stranger(plan: &Plan, stranger: &Stranger) -> Option<String> {
    let steps = |n: u32| if n == 1 { "one step".to_owned() } else { format!("{n} steps") };
    let last = |leaf: u32| i64::from(leaf) == plan.pages() / 2;
    let said = match stranger {
        Stranger::OtherSection { section_offset } | Stranger::LanesMixed { section_offset } => {
            let side = if *section_offset > 0 { "below" } else { "above" };
            return Some(format!("Its mark stands {} {side} its place.", steps(section_offset.unsigned_abs())));
        }
        Stranger::InsetLeftOut
        | Stranger::InsetOfOtherSection { .. }
        | Stranger::InsetTwice { .. }
        | Stranger::InsetLies { .. }
        | Stranger::InsetSheet { .. }
        | Stranger::InsetBeside { place: Beside::AmongLeaves, .. } => {
            "The outer sheet shows its mark at its place; the back of the inset lies inside, so no mark betrays this."
        }
        Stranger::HalfSheet { forme: Forme::Outer, .. } => {
            "Its mark stands at its place, so the back does not betray it."
        }
        Stranger::HalfSheet { .. } => "Its back is blank: the forme that carries the mark is on the other half.",
        Stranger::InsetOutside => "Its back is that of the inset; the mark of the outer sheet lies inside.",
        Stranger::OuterLeftOut => "Its back is that of the inset, without the mark of the outer sheet.",
        Stranger::InsetBeside { place: Beside::Before, .. } => {
            "It shows two backs: that of the inset, and behind it the mark at its place."
        }
        Stranger::InsetBeside { .. } => "It shows two backs: the mark at its place, and behind it that of the inset.",
        Stranger::LeafMissing { leaf } if *leaf == 1 || last(*leaf) => {
            "Half of the outermost crease is gone with the leaf, so its mark may be cut or gone."
        }
        Stranger::PairMissing { leaves: [1, _] } => "Its back is blank: the mark is gone with the outermost leaves.",
        Stranger::PairOfOtherSection { leaves: [1, _], .. } => "Its back shows the mark of the other section.",
        Stranger::PairTuckedIn { after: [0, b], .. } if last(*b) => {
            "Its back is that of the leaves laid round it; its own mark lies inside."
        }
        _ => return None,
    };
    Some(said.into())
}

/// A mark that is not on the back: where the last page meets the first.
fn inside(plan: &Plan, row: &[FoundPage]) -> String {
    let (first, last) = (plan.first(), plan.first() + plan.pages() - 1);
    let place = |number: i64| row.iter().position(|p| p.page.map(i64::from) == Some(number)).map(|at| at + 1);
    let (Some(at), Some(end)) = (place(first), place(last)) else {
        return "Its back is blank: the side that carries the mark is not printed.".into();
    };
    if at.abs_diff(end) == 1 && at.min(end) == row.len() / 2 {
        return format!("Its back is blank: the mark lies inside, in the middle opening, between {last} and {first}.");
    }
    format!("Its back is blank: the mark lies inside, where {last} and {first} meet, at places {end} and {at}.")
}
