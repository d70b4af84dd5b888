//! What the pages tell before any cause is thought of, in the order in which an experienced checker asks.

use crate::fold::Direction;
use crate::fold::misfold::inset::{Plan, fits};
use crate::fold::misfold::words::{capital, list, opening, the_section};
use crate::fold::misfold::{FoldAt, FoundPage};
use std::collections::BTreeMap;

/// The leads, each one or two sentences.
pub(super) fn leads(plan: &Plan, found: &[FoundPage], fold_at: FoldAt) -> Vec<String> {
    let mut said = vec![pairs_lead(plan, found, fold_at), place_lead(plan, found), count_lead(plan, found)];
    said.extend(heads_lead(found));
    if fold_at == FoldAt::ForeEdge {
        said.push("Its fold lies at the fore-edge, so the section does not lie right.".into());
    }
    said.retain(|lead| !lead.is_empty());
    said
}

/// Whether the two sides of a leaf are those of one leaf of the plan, heads alike.
pub(super) fn own_pair(plan: &Plan, leaf: &[FoundPage]) -> bool {
    let [front, back] = leaf else { return false };
    let (Some(p), Some(q)) = (front.page, back.page) else { return false };
    p != q && plan.leaf(p) == plan.leaf(q) && alike(front, back)
}

/// Whether two heads point one way, as far as they were looked at.
fn alike(one: &FoundPage, other: &FoundPage) -> bool {
    one.head.zip(other.head).is_none_or(|(a, b)| a == b)
}

/// The leaves (from 1) that don't carry their own two pages.
pub(super) fn broken(plan: &Plan, found: &[FoundPage]) -> Vec<usize> {
    let leaves = (1..).zip(found.chunks(2)).filter(|(_, leaf)| leaf.len() == 2 && !own_pair(plan, leaf));
    leaves.map(|(at, _)| at).collect()
}

/// The first leaf (from 1) whose sides follow each other as in a leaf whose fold is at the fore-edge, in a section whose
/// fold is at the back.
fn turned_leaf(found: &[FoundPage], fold_at: FoldAt) -> Option<usize> {
    let turned = |leaf: &[FoundPage]| match leaf {
        [FoundPage { page: Some(p), head: Some(head) }, FoundPage { page: Some(q), .. }] => {
            (p < q) != (*head == Direction::Up)
        }
        _ => false,
    };
    (1..).zip(found.chunks(2)).find(|(_, leaf)| fold_at == FoldAt::Spine && turned(leaf)).map(|(at, _)| at)
}

fn pairs_lead(plan: &Plan, found: &[FoundPage], fold_at: FoldAt) -> String {
    let broken = broken(plan, found);
    let Some(first) = broken.first() else {
        return match (found.len(), turned_leaf(found, fold_at)) {
            (0 | 1, _) => String::new(),
            (_, Some(leaf)) => format!(
                "Each leaf carries its own two pages, but leaf {leaf} carries them back to front: it was turned over, or \
                 the two stand in each other's place on the formes."
            ),
            _ => "Each leaf carries its own two pages, so it was not the press.".into(),
        };
    };
    let also = match broken.len() - 1 {
        0 => String::new(),
        1 => ", and another leaf is as wrong".into(),
        more if more + 1 == found.len() / 2 => ", and no other leaf carries its own two pages".into(),
        more => format!(", and {more} other leaves are as wrong"),
    };
    match found.get(2 * first - 2..2 * first).unwrap_or_default() {
        [front, back] => match (front.page, back.page) {
            (Some(p), Some(q)) if p != q && plan.leaf(p) == plan.leaf(q) => format!(
                "Leaf {first} carries {p} and {q} with their heads opposite ways{also}: no fold turns one side of a leaf, \
                 so look at the press."
            ),
            (Some(p), Some(q)) => format!(
                "Leaf {first} carries {p} and {q}{also}: no fold parts the two sides of a leaf, so look at the press."
            ),
            (None, None) => format!(
                "Leaf {first} is blank on both sides{also}: no fold takes print away, so look at the press, and for \
                 sheets that stuck together."
            ),
            (page, other) => {
                let number = page.or(other).unwrap_or(0);
                format!(
                    "Leaf {first} carries {number} and a blank side{also}: no fold takes print away, so look at the press."
                )
            }
        },
        _ => String::new(),
    }
}

fn place_lead(plan: &Plan, found: &[FoundPage]) -> String {
    let printed = found.iter().filter(|p| p.page.is_some()).count();
    if printed == 0 {
        return "Nothing is printed on it.".into();
    }
    let mut strange: BTreeMap<i64, Vec<u32>> = BTreeMap::new();
    for number in found.iter().filter_map(|p| p.page) {
        let (section, _) = plan.leaf(number);
        if section != 0 {
            strange.entry(section).or_default().push(number);
        }
    }
    let many: usize = strange.values().map(Vec::len).sum();
    if many == 0 {
        return own_pages(plan, found);
    }
    if let (Some(section), 1, true) = (strange.keys().next(), strange.len(), many == printed) {
        let words = capital(&the_section(*section));
        return format!("{words} stands here as a whole: look at the gathering and at the bundles.");
    }
    let of = strange.iter().map(|(section, pages)| {
        let (noun, belong) = if pages.len() == 1 { ("page", "belongs") } else { ("pages", "belong") };
        let page = |n: &u32| FoundPage { page: Some(*n), head: None };
        let numbers = opening(&pages.iter().map(page).collect::<Vec<_>>());
        format!("{noun} {numbers} {belong} to {}", the_section(*section))
    });
    let of = capital(&list(&of.collect::<Vec<_>>()));
    let whole = found.chunks(2).all(|leaf| {
        let of: Vec<i64> = leaf.iter().filter_map(|p| p.page).map(|n| plan.leaf(n).0).collect();
        of.windows(2).all(|two| matches!(two, [a, b] if a == b))
    });
    let look = if whole {
        "whole leaves, so look at what was put together"
    } else {
        "single sides of leaves, so look at the press"
    };
    format!("{of}: {look}.")
}

/// No page is of another section.
fn own_pages(plan: &Plan, found: &[FoundPage]) -> String {
    if fits(&plan.due(), found) {
        return "All its pages are its own, in their order.".into();
    }
    let due = plan.due();
    let lost: Vec<FoundPage> = due.iter().filter(|p| !found.iter().any(|f| f.page == p.page)).copied().collect();
    if lost.is_empty() && found.len() == 2 * due.len() && found.iter().all(|p| p.page.is_some()) {
        return "All its pages are its own, and each is there twice.".into();
    }
    let many = |p: &&FoundPage| found.iter().filter(|f| f.page == p.page).count() > 1;
    let twice: Vec<FoundPage> = due.iter().filter(many).copied().collect();
    let look = if plan.has_inset() {
        "the folding, at the laying in and at how it lies"
    } else {
        "the folding and at how it lies"
    };
    match lost.as_slice() {
        [] if !twice.is_empty() => format!("All its pages are its own, but {} are there twice.", opening(&twice)),
        [] if broken(plan, found).is_empty() => {
            format!("All its pages are its own: the disorder is inside the section, so look at {look}.")
        }
        [] => "All its pages are its own: the disorder is inside the section.".into(),
        [one] => format!("The pages that are there are its own, but {} is not there.", opening(&[*one])),
        lost => format!("The pages that are there are its own, but {} are not there.", opening(lost)),
    }
}

fn count_lead(plan: &Plan, found: &[FoundPage]) -> String {
    let due = plan.pages() / 2;
    if found.len() % 2 == 1 {
        return format!("The list has {} pages, an odd number, though a leaf has two: one is left out.", found.len());
    }
    let leaves = |n: i64| if n == 1 { "1 leaf".to_owned() } else { format!("{n} leaves") };
    let here = found.len() as i64 / 2;
    if here == due {
        format!("It has {}, as it should.", leaves(here))
    } else if here == 2 * due {
        format!("It has {} where {due} are due, twice as many.", leaves(here))
    } else {
        let (by, what) = if here < due { (due - here, "too few") } else { (here - due, "too many") };
        format!("It has {} where {due} are due, {by} {what}.", leaves(here))
    }
}

fn heads_lead(found: &[FoundPage]) -> Option<String> {
    let heads: Vec<(u32, Direction)> = found.iter().filter_map(|p| Some((p.page?, p.head?))).collect();
    if heads.is_empty() {
        return None;
    }
    let unseen = heads.len() < found.iter().filter(|p| p.page.is_some()).count();
    let down: Vec<FoundPage> = found
        .iter()
        .filter(|p| p.page.is_some() && p.head.is_some_and(|h| h != Direction::Up))
        .map(|p| FoundPage { head: None, ..*p })
        .collect();
    Some(match down.len() {
        0 if unseen => "The heads that were looked at point up.".into(),
        0 => "All heads point up.".into(),
        n if n == heads.len() && unseen => "The heads that were looked at point down.".into(),
        n if n == heads.len() => "All heads point down.".into(),
        1 => format!("The head of {} points down, the others up.", opening(&down)),
        _ => format!("The heads of {} point down, the others up.", opening(&down)),
    })
}
