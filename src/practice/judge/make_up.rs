//! A book made up in sections.

use super::{CAUSE, CHECK, NUMBER, not_given};
use crate::book::{Job, Plan, Plans, plan};
use crate::practice::marked::{Item, Marked};

/// The plans for a book; `None` where there is none.
pub fn plans(job: &Job) -> Option<Plans> {
    plan(job, None).ok().filter(|plans| !plans.plans.is_empty())
}

fn list(pages: &[u32]) -> String {
    pages.iter().map(ToString::to_string).collect::<Vec<_>>().join(" ")
}

pub(super) fn mark(job: &Job, given: &[u32]) -> Option<Marked> {
    let all = plans(job)?;
    let first = all.plans.first()?;
    let right = list(&first.pages_of_sections());
    let asked = if given.is_empty() { None } else { Some(plan(job, Some(given))) };
    let (by_hand, refused) = match asked {
        Some(Ok(plans)) => (plans.by_hand, None),
        Some(Err(why)) => (None, Some(why.says)),
        None => (None, None),
    };
    let text = if given.len() > 60 { format!("{} sections", given.len()) } else { list(given) };
    let held = by_hand.as_ref().filter(|p| p.pages >= job.extent);
    let says = match (&refused, &by_hand) {
        (Some(why), _) => why.clone(),
        (None, Some(plan)) if held.is_none() => {
            format!("These sections hold {} pages, and the book has {}.", plan.pages, job.extent)
        }
        _ => String::new(),
    };
    let item = |what: &str, of, ok: bool, says: String| {
        Item::new(what, text.clone(), right.clone(), of)
            .worth(if ok { of } else { 0 })
            .saying(not_given(!given.is_empty() && !ok, says))
    };
    let blanks = held.map(|p| p.blanks);
    let even = blanks.is_some_and(|b| b <= first.blanks);
    // The same sections are the same answer, by whatever courses they are folded.
    let same = |plan: &Plan| plan.pages_of_sections() == first.pages_of_sections();
    let best = held.is_some_and(|p| same(p) || p.stands_no_lower_than(first));
    let behind = held.map(|p| p.behind.clone()).unwrap_or_default();
    let more = format!("{} pages stay blank, and {} would do.", blanks.unwrap_or(0), first.blanks);
    Some(Marked::of_items(vec![
        item("Every section can be folded from this sheet, and all pages find a place", CAUSE, held.is_some(), says),
        item("No more pages stay blank than need be", NUMBER, even, if held.is_some() { more } else { String::new() }),
        item("No other way of making it up is better", CHECK, best, behind),
    ]))
}
