//! Wrong pages that nothing gives: what holds, where it breaks, and what to look at next.

use super::card::Card;
use super::leads::{broken, own_pair};
use crate::fold::misfold::inset::{Plan, fits, stage_words};
use crate::fold::misfold::words::{cautions, list, run};
use crate::fold::misfold::{FoldAt, FoundPage, Stage};

/// The card that stands where no cause does.
pub(super) fn nothing(plan: &Plan, found: &[FoundPage], fold_at: FoldAt) -> Card {
    let parted = !broken(plan, found).is_empty();
    let strange = found.iter().filter_map(|p| p.page).any(|n| plan.leaf(n).0 != 0);
    let other_count = found.len() as i64 != plan.pages();
    let odd = found.len() % 2 == 1;
    let stage = if odd || ((strange || other_count) && !parted) {
        Stage::Gathering
    } else if parted {
        Stage::Press
    } else {
        Stage::Folder
    };
    let next_check = match stage {
        _ if odd => "Count the pages once more: a leaf has two sides, and an unprinted one counts too.",
        Stage::Press => {
            "Lay the open sheet on a passed one and hold both to the light: which pages stand elsewhere, and on which \
             side?"
        }
        Stage::Folder => {
            "Unfold the section along its creases beside a passed one and compare them fold by fold; look for a crease too \
             many or too few."
        }
        Stage::Gathering => {
            "Draw the leaves apart and see which are one piece of paper across the spine; then look where each of them \
             belongs."
        }
    };
    let mut detail = holds(plan, found);
    if fold_at == FoldAt::ForeEdge {
        detail += " Turn it so that its fold lies at the back, and read it once more.";
    }
    Card {
        title: "Nothing that was tried gives these pages.".into(),
        detail,
        stage: stage_words(stage).into(),
        mark: "Look for its mark: the crease that carries it should be the back.".into(),
        next_check: next_check.into(),
        caution: cautions(vec![stage]),
        cause: None,
        alike: Vec::new(),
        way: None,
        nest: None,
    }
}

/// A page that was written down twice, which is more often a slip of the pen than of the press.
fn twice(found: &[FoundPage]) -> Option<String> {
    let (first, page) =
        (1..).zip(found).find(|(at, p)| p.page.is_some() && found.iter().skip(*at).any(|q| q.page == p.page))?;
    let again = found.iter().skip(first).position(|p| p.page == page.page)? + first + 1;
    Some(format!("Page {} stands at places {first} and {again}: look first whether that is so.", page.page?))
}

/// The pages that are right, the runs that follow, the leaves that hold.
fn holds(plan: &Plan, found: &[FoundPage]) -> String {
    let mut said = Vec::new();
    said.extend(twice(found));
    let due = plan.due();
    let right = (0..found.len().min(due.len())).take_while(|at| fits(&due[*at..=*at], &found[*at..=*at])).count();
    match right {
        0 => said.push("The order breaks at the first page.".to_owned()),
        all if all == found.len() => said.push("It begins right and ends too soon.".to_owned()),
        1 => said.push("Its first page is right; the order breaks at place 2.".to_owned()),
        n => said.push(format!("Its first {n} pages are right; the order breaks at place {}.", n + 1)),
    }
    let mut runs = Vec::new();
    let mut rest = found;
    while !rest.is_empty() {
        let (one, after) = rest.split_at(run(rest).max(1));
        let ends = one.first().and_then(|p| p.page).zip(one.last().and_then(|p| p.page));
        if let Some((a, b)) = ends.filter(|_| one.len() > 2) {
            runs.push(format!("{a} to {b}"));
        }
        rest = after;
    }
    match runs.len() {
        0 => said.push("No three pages follow each other.".into()),
        1 if right < found.len() => said.push(format!("Pages {} follow each other.", list(&runs))),
        1 => {}
        _ => said.push(format!("Within themselves, pages {} follow each other.", list(&runs))),
    }
    let kept = found.chunks(2).filter(|leaf| own_pair(plan, leaf)).count();
    let leaves = found.len().div_ceil(2);
    said.push(match kept {
        0 => "No leaf carries its own two pages.".into(),
        all if all == leaves => "Every leaf carries its own two pages.".to_owned(),
        1 => format!("One leaf of {leaves} carries its own two pages."),
        some => format!("{some} leaves of {leaves} carry their own two pages."),
    });
    said.join(" ")
}
