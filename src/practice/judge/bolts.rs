//! Which bolts the trim opens.

use super::HEAD;
use crate::finish::{Edge, Leaves, Size, trimmed};
use crate::fold::{Course, Measure, Worked};
use crate::paper::{Length, Trims};
use crate::practice::answer::{AtEdge, LeafEdges};
use crate::practice::marked::{Item, Marked};

/// What is found at the edges of every leaf.
pub(super) fn right(course: &Course, sheet: Size, trims: &Trims, caliper: Length) -> Option<Vec<LeafEdges>> {
    let worked = Worked::of(course).ok()?;
    let nest = course.copies.first()?.first()?;
    let measure = Measure::equal(course.rows, course.columns, sheet.width, sheet.height);
    let leaves = Leaves::of(&worked, nest, &measure)?;
    let cut = trimmed(&leaves, trims, caliper);
    let at = |leaf: u32, edge: Edge| {
        let mut bolts =
            cut.bolts.iter().filter(|b| b.bolt.edge == edge && [b.bolt.leaves.0, b.bolt.leaves.1].contains(&leaf));
        match bolts.next() {
            None => AtEdge::Free,
            Some(first) if first.opened() && bolts.all(|b| b.opened()) => AtEdge::Opened,
            Some(_) => AtEdge::Closed,
        }
    };
    let edges = |leaf: u32| LeafEdges {
        head: Some(at(leaf, Edge::Head)),
        tail: Some(at(leaf, Edge::Tail)),
        fore_edge: Some(at(leaf, Edge::ForeEdge)),
    };
    Some(leaves.leaves.iter().map(|leaf| edges(leaf.number)).collect())
}

const fn word(at: AtEdge) -> &'static str {
    match at {
        AtEdge::Free => "no bolt",
        AtEdge::Opened => "a bolt that the trim opens",
        AtEdge::Closed => "a bolt that stays closed",
    }
}

pub(super) fn mark(
    course: &Course,
    sheet: Size,
    trims: &Trims,
    caliper: Length,
    given: &[LeafEdges],
) -> Option<Marked> {
    let right = right(course, sheet, trims, caliper)?;
    let mut items = Vec::new();
    let mut first = None;
    for (k, right) in right.iter().enumerate() {
        let given = given.get(k).copied().unwrap_or_default();
        let edges = [
            (Edge::Head, given.head, right.head),
            (Edge::Tail, given.tail, right.tail),
            (Edge::ForeEdge, given.fore_edge, right.fore_edge),
        ];
        for (edge, given, right) in edges {
            let text = |at: Option<AtEdge>| at.map_or("", word);
            let item = Item::new(format!("Leaf {} at the {}", k + 1, edge.word()), text(given), text(right), HEAD);
            if given.is_some() && given != right && first.is_none() {
                first = Some(format!(
                    "Fold it and look at leaf {}: at the {} there is {}, not {}.",
                    k + 1,
                    edge.word(),
                    text(right),
                    text(given)
                ));
            }
            items.push(item.worth(if given == right { HEAD } else { 0 }));
        }
    }
    let mut marked = Marked::of_items(items);
    marked.says.extend(first);
    Some(marked)
}
