//! What was done to a sheet.

use super::{CAUSE, CHECK, not_given};
use crate::fold::misfold::{Acted, Cause, FoldAt, FoundPage, act_out, explain};
use crate::fold::{Course, Scheme};
use crate::practice::answer::Answer;
use crate::practice::marked::{Departs, Item, Marked, Shown};
use crate::practice::task::Task;

/// The lists of single causes that make these pages, each of so many; `None` where there is none.
pub fn causes(
    scheme: &Scheme,
    first_page: u32,
    fold_at: FoldAt,
    pages: &[FoundPage],
    wrong: usize,
) -> Option<Vec<Vec<Cause>>> {
    let explained = explain(scheme, first_page, fold_at, pages).ok()?;
    if explained.right {
        return None;
    }
    let all = explained.causes.iter().flat_map(|e| [&e.cause].into_iter().chain(&e.same_pages_as));
    let sets: Vec<Vec<Cause>> = all.map(|c| c.singles().into_iter().cloned().collect()).collect();
    // Fewer causes explain it better.
    let fewest = sets.iter().map(Vec::len).min()?;
    (fewest == wrong).then(|| sets.into_iter().filter(|s| s.len() == wrong).collect())
}

struct Set<'a> {
    scheme: &'a Scheme,
    first_page: u32,
    pages: &'a [FoundPage],
    checks: &'a [String],
    accepted: Vec<Vec<Cause>>,
    wrong: usize,
}

fn set(task: &Task) -> Option<Set<'_>> {
    let Task::WrongSheet { scheme, first_page, pages, fold_at, wrong, checks, .. } = task else { return None };
    let wrong = *wrong as usize;
    let accepted = causes(scheme, *first_page, *fold_at, pages, wrong)?;
    Some(Set { scheme, first_page: *first_page, pages, checks, accepted, wrong })
}

/// Whether a check settles one of these causes.
fn settles(check: &str, causes: &[Cause]) -> bool {
    causes.iter().any(|cause| cause.next_check() == check)
}

pub(super) fn right(task: &Task) -> Option<Answer> {
    let set = set(task)?;
    let with_check = |causes: &&Vec<Cause>| set.checks.iter().any(|check| settles(check, causes));
    let causes = set.accepted.iter().find(with_check)?;
    let check = set.checks.iter().zip(1..).find_map(|(check, number)| settles(check, causes).then_some(number));
    Some(Answer::WrongSheet { causes: causes.clone(), check })
}

/// Other causes that make the same pages.
pub(super) fn also(task: &Task) -> Option<Vec<String>> {
    let Answer::WrongSheet { causes: first, .. } = right(task)? else { return None };
    let others = set(task)?.accepted.into_iter().filter(|causes| *causes != first);
    Some(others.map(|causes| title(&causes)).collect())
}

/// A cause in the one form that it has: the smaller page first.
fn plainly(cause: &Cause) -> Cause {
    match cause {
        Cause::PagesExchanged { pages: [a, b] } => Cause::PagesExchanged { pages: [*a.min(b), *a.max(b)] },
        other => other.clone(),
    }
}

fn title(causes: &[Cause]) -> String {
    causes.iter().map(Cause::title).collect::<Vec<_>>().join(" ")
}

pub(super) fn mark(task: &Task, answer: &Answer) -> Option<Marked> {
    let set = set(task)?;
    let (given, check): (&[Cause], Option<u32>) = match answer {
        Answer::WrongSheet { causes, check } => (causes, *check),
        _ => (&[], None),
    };
    // No more than were asked for, each once.
    let mut causes: Vec<Cause> = Vec::new();
    for cause in given.iter().take(set.wrong).flat_map(Cause::singles).map(plainly) {
        if causes.len() < set.wrong && !causes.contains(&cause) {
            causes.push(cause);
        }
    }
    let agree = |accepted: &Vec<Cause>| causes.iter().filter(|c| accepted.contains(c)).count();
    let accepted = set.accepted.iter().rev().max_by_key(|a| agree(a))?;
    let mut open: Vec<&Cause> = accepted.iter().filter(|a| !causes.contains(a)).collect();
    let mut items = Vec::new();
    for k in 0..set.wrong {
        let what = if set.wrong == 1 { "The cause".to_owned() } else { format!("Cause {}", k + 1) };
        items.push(match causes.get(k) {
            Some(cause) if accepted.contains(cause) => {
                Item::new(what, cause.title(), cause.title(), CAUSE).worth(CAUSE)
            }
            cause => {
                let right = if open.is_empty() { String::new() } else { open.remove(0).title() };
                Item::new(what, cause.map_or_else(String::new, Cause::title), right, CAUSE)
            }
        });
    }
    let text = |number: u32| set.checks.get((number as usize).checked_sub(1)?).cloned();
    let given_check = check.and_then(text).unwrap_or_default();
    let all: Vec<Cause> = set.accepted.iter().flatten().cloned().collect();
    let right_check = set.checks.iter().find(|c| settles(c, &all)).cloned().unwrap_or_default();
    // Whatever settles a cause that fits counts, whichever was named: look-alikes are told apart by looking.
    let ok = settles(&given_check, &all);
    let says = format!("That check settles nothing here. {right_check}");
    items.push(
        Item::new("The next check", given_check.clone(), right_check, CHECK)
            .worth(if ok { CHECK } else { 0 })
            .saying(not_given(!ok && !given_check.is_empty(), says)),
    );
    let mut marked = Marked::of_items(items);
    if causes.is_empty() || agree(accepted) == set.wrong {
        let others = set.accepted.len().saturating_sub(1);
        if others > 0 && !causes.is_empty() {
            marked.says.push(
                "Other causes make the same pages: only a look at the sheet, the pile or the machine tells them apart."
                    .into(),
            );
        }
        return Some(marked);
    }
    let named = match causes.as_slice() {
        [one] => one.clone(),
        _ => Cause::Together { causes: causes.clone() },
    };
    match act_out(set.scheme, set.first_page, &named) {
        Ok(acted) => {
            marked.departs = departs(&acted, set.pages, &title(&causes));
            marked.shown = Some(Shown {
                course: Course::of_scheme(&acted.folded),
                side_a: acted.sheet.side_a,
                side_b: acted.sheet.side_b,
                pages: acted.pages,
            });
        }
        Err(_) => marked.says.push("What you name can't be done to this sheet.".into()),
    }
    Some(marked)
}

fn departs(acted: &Acted, found: &[FoundPage], title: &str) -> Option<Departs> {
    let differs = |k: &usize| acted.pages.get(*k) != found.get(*k);
    let k = (0..acted.pages.len().max(found.len())).find(differs)?;
    let number = |pages: &[FoundPage]| pages.get(k).and_then(|f| f.page);
    let (reads, right, place) = (number(&acted.pages), number(found), k as u32 + 1);
    let said = |page: Option<u32>| page.map_or_else(|| "nothing".to_owned(), |p| p.to_string());
    let says = if reads == right {
        format!("{title} Then the head in place {place} from the front would point otherwise than it does.")
    } else {
        format!("{title} Then {} would be read in place {place} from the front; {} is.", said(reads), said(right))
    };
    Some(Departs { place, reads, right, says })
}
