//! Sections that are made from a sheet of their own.

use super::fields::{Number, wide_choice};
use super::pages::whole;
use crate::app::{Action, BookAct, Room, State};
use crate::fold::{NamedCourse, courses};
use crate::gather::stack::What;
use crate::ui::store::Act;
use crate::ui::widgets::words;
use yew::prelude::*;

/// The courses that make one section, and the names they are chosen by.
fn offered() -> Vec<(String, NamedCourse)> {
    let single = courses().into_iter().filter(|named| named.course.sections() == 1);
    let pages = |named: &NamedCourse| {
        let sheet = crate::app::Sheet::usual(named.course.clone());
        sheet.pages().first().copied().unwrap_or(0)
    };
    let mut all: Vec<(u32, NamedCourse)> = single.map(|named| (pages(&named), named)).collect();
    all.sort_by_key(|(pages, _)| *pages);
    all.into_iter().map(|(pages, named)| (format!("{pages} pages: {}", named.name), named)).collect()
}

/// Which sections are, and how one more is made so.
pub fn list(state: &State, act: &Act) -> Html {
    let job = &state.job;
    let item = |other: &crate::app::Otherwise| {
        let (first, last) = (other.first, other.first + other.sheet.per_sheet() - 1);
        let pages: Vec<String> = other.sheet.pages().iter().map(u32::to_string).collect();
        let name = other.sheet.trade_name().unwrap_or("its own folds");
        let which = if first == last { format!("Section {first}") } else { format!("Sections {first} to {last}") };
        let says = format!("{which}: {} pages, {name}.", pages.join(" and "));
        let place = job.stack.placed().iter().position(|p| p.what == What::Ours(first));
        let open = {
            let act = act.clone();
            Callback::from(move |_: MouseEvent| {
                if let Some(at) = place {
                    act.emit(Action::Pick(at as u32 + 1));
                }
                act.emit(Action::Go(Room::Fold));
            })
        };
        let again = act.reform(move |_: MouseEvent| Action::Book(BookAct::Otherwise { section: first, course: None }));
        html! {
            <li key={first}>
                <p>{ words(&says) }</p>
                <button type="button" class="plain on-bench" hidden={place.is_none()} onclick={open}
                    aria-label={format!("Section {first} on the bench")}>{ "On the bench" }</button>
                <button type="button" class="plain" onclick={again} aria-label={format!("Section {first} as the others")}>
                    { "As the others" }
                </button>
            </li>
        }
    };
    let here = state.section_on_bench();
    let all = offered();
    let names: Vec<&str> = std::iter::once("as the others").chain(all.iter().map(|(name, _)| name.as_str())).collect();
    let own = job.kind(here).map(|kind| &job.sheet_of_kind(Some(kind)).course);
    let now = own.and_then(|course| all.iter().position(|(_, named)| named.course == *course)).map_or(0, |at| at + 1);
    let chosen = {
        let all = all.clone();
        act.reform(move |at: usize| {
            let course = at.checked_sub(1).and_then(|at| all.get(at)).map(|(_, named)| named.course.clone());
            Action::Book(BookAct::Otherwise { section: here, course })
        })
    };
    let sections = act.reform(|n: f64| Action::Book(BookAct::Sections(whole(n))));
    let usual = job.sheet.trade_name().unwrap_or("its own folds");
    html! {
        <>
            <h2>{ "Made from" }</h2>
            <div class="job-fields">
                <Number id="sections" label="Sections" now={f64::from(job.sections)} set={sections} />
                { wide_choice("otherwise", &format!("Section {here} is made"), &names, now, chosen) }
            </div>
            <ul class="otherwise">
                <li key="usual"><p>{ words(&format!("The sheets: {} pages, {usual}.",
                    job.sheet.pages().iter().map(u32::to_string).collect::<Vec<_>>().join(" and "))) }</p></li>
                { for job.otherwise.iter().map(item) }
            </ul>
        </>
    }
}
