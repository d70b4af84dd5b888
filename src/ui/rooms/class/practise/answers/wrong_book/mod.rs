//! Which section is wrong? The found spine, and a right book under it that is spoiled until both look alike.
//!
//! - `did`: what can be done to a right book (no web)
//! - `spines`: both books by their backs

mod did;
mod spines;

use super::AnswerProps;
use super::parts::{self, Stepper};
use crate::gather::{Fault, retold};
use crate::practice::{Answer, Pointed, Task, fault_words};
use crate::ui::widgets::words;
use crate::words::capital;
use did::{Did, Further, fault};
use spines::{Spines, back_words, spines};
use yew::prelude::*;

/// The way of answering.
#[component]
pub fn WrongBook(props: &AnswerProps) -> Html {
    let slot = use_state_eq(|| 0usize);
    let picked = use_state_eq(|| 1u32);
    let Task::WrongBook { sections, found, wrong, checks } = &props.exercise.task else { return Html::default() };
    let (sections, wrong) = (*sections, (*wrong as usize).max(1));
    let (faults, check) = match &*props.answer {
        Answer::WrongBook { faults, check } => (faults.clone(), *check),
        _ => (Vec::new(), None),
    };
    let marked = props.marked.as_deref();
    let closed = marked.is_some();
    let slot_now = (*slot).min(wrong - 1);
    let now = faults.get(slot_now).copied().unwrap_or_default();
    let set = {
        let (set, faults) = (props.set.clone(), faults.clone());
        move |pointed: Pointed, check: Option<u32>| {
            let mut faults = faults.clone();
            if faults.len() <= slot_now {
                faults.resize(slot_now + 1, Pointed::default());
            }
            if let Some(one) = faults.get_mut(slot_now) {
                *one = pointed;
            }
            while faults.last().is_some_and(|f| *f == Pointed::default()) {
                faults.pop();
            }
            set.emit(Answer::WrongBook { faults, check });
        }
    };
    // The section that is pointed at, and with it what was done.
    let point = {
        let (set, now) = (set.clone(), now);
        Callback::from(move |section: u32| {
            let did = now.fault.as_ref().map(Did::of);
            let fault = did.map(|did| fault(did, section, Further::default(), sections));
            set(Pointed { section: Some(section), fault }, check);
        })
    };
    let pick = {
        let (picked, point) = (picked.setter(), point.clone());
        Callback::from(move |place: u32| {
            picked.set(place);
            point.emit(place.clamp(1, sections));
        })
    };
    let checked = {
        let (set, faults) = (props.set.clone(), faults.clone());
        Callback::from(move |n: u32| set.emit(Answer::WrongBook { faults: faults.clone(), check: Some(n) }))
    };
    let named: Vec<Fault> = faults.iter().filter_map(|f| f.fault).collect();
    let made = retold(sections, &named);
    let differ = (0..made.len().max(found.len())).find(|k| made.get(*k) != found.get(*k)).map(|k| k as u32 + 1);
    let thread = differ.filter(|_| closed);
    let drawn = spines(&Spines {
        sections,
        rows: [("Found", found), (if named.is_empty() { "A right book" } else { "Your book" }, &made)],
        picked: *picked,
        thread,
        pick: (!closed).then_some(pick),
        narrow: props.narrow,
    });
    let here = {
        let at = *picked as usize - 1;
        format!("Place {}: {} is found, {} in yours.", *picked, back_words(found.get(at)), back_words(made.get(at)))
    };
    html! {
        <div class="wrong-book">
            <p class="ticket">{ words(&format!(
                "A book of {sections} sections. {} backs are seen, from front to back. {} with it.",
                found.len(), if wrong == 1 { "One thing is wrong" } else { "Two things are wrong" }
            )) }</p>
            { drawn }
            <p class="quiet" role="status" hidden={closed}>{ words(&here) }</p>
            { table(found, &made) }
            { slots(&faults, wrong, slot_now, &Callback::from({
                let slot = slot.setter();
                move |at: usize| slot.set(at)
            })) }
            <div class="answer-columns">
                <div>
                    { doings(&now, sections, closed, &point, &Callback::from(move |p: Pointed| set(p, check))) }
                    <div class="marks-here">{ for (0..2 * wrong).map(|k| html! { <div key={k}>{ named_item(marked, k) }</div> }) }</div>
                </div>
                { parts::checks(checks, check, marked, &checked) }
            </div>
            { parts::departs(marked) }
        </div>
    }
}

/// The marks of an item with its name, since several stand together.
fn named_item(marked: Option<&crate::practice::Marked>, at: usize) -> Html {
    let item = parts::item(marked, at);
    let what = item.map(|i| i.what.clone()).unwrap_or_default();
    html! { <><h3 hidden={what.is_empty()}>{ words(&what) }</h3>{ parts::at_place(item) }</> }
}

/// What was said so far. Where two things went wrong, each can be gone back to.
fn slots(faults: &[Pointed], wrong: usize, now: usize, go: &Callback<usize>) -> Html {
    let says = |at: usize| match faults.get(at) {
        Some(Pointed { fault: Some(fault), .. }) => format!("{}.", capital(&fault_words(fault))),
        Some(Pointed { section: Some(section), .. }) => format!("Section {section}: what happened?"),
        _ => "Point at a section of the lower book, and say what happened to it.".to_owned(),
    };
    let one = |at: usize| {
        let onclick = go.reform(move |_: MouseEvent| at);
        let name = if at == 0 { "First" } else { "Second" };
        html! {
            <li key={at}>
                <button type="button" class="button" aria-pressed={(at == now).to_string()} hidden={wrong == 1} {onclick}>{ name }</button>
                <p role="status">{ words(&says(at)) }</p>
            </li>
        }
    };
    html! { <ol class="slots">{ for (0..wrong).map(one) }</ol> }
}

/// What can be done to the section: keys, and the numbers that some of them need.
fn doings(now: &Pointed, sections: u32, closed: bool, point: &Callback<u32>, set: &Callback<Pointed>) -> Html {
    let did_now = now.fault.as_ref().map(Did::of);
    let section = now.section.unwrap_or(1);
    let further = now.fault.as_ref().map(|f| Further::of(f, section)).unwrap_or_default();
    let key = |did: Did| {
        let on = did_now == Some(did);
        let fault = (!on).then(|| fault(did, section, Further::default(), sections));
        let named = Some(section).filter(|_| now.section.is_some() || fault.is_some());
        let onclick = set.reform(move |_: MouseEvent| Pointed { section: named, fault });
        html! {
            <li key={did.says()}>
                <button type="button" class="button did" aria-pressed={on.to_string()} disabled={closed} {onclick}>{ did.says() }</button>
            </li>
        }
    };
    let number = |id: &'static str,
                  label: &'static str,
                  now: u32,
                  within: [u32; 2],
                  to: fn(Further, u32) -> Further| {
        let set = did_now.map(|did| {
            set.reform(move |n: u32| {
                // Two different sections are meant: the keys step over the one that is pointed at.
                let same = n == section && matches!(did, Did::Another | Did::Exchanged);
                let n = if same && now > n { n - 1 } else { n };
                Pointed { section: Some(section), fault: Some(fault(did, section, to(further, n), sections)) }
            })
        });
        parts::stepper(Stepper { id, label, now: Some(now), within, closed, set: set.unwrap_or_else(Callback::noop) })
    };
    let numbers = match did_now {
        Some(Did::Another) => {
            number("other", "Which one lies there?", further.other.unwrap_or(1), [1, sections], |f, n| Further {
                other: Some(n),
                ..f
            })
        }
        Some(Did::Exchanged) => {
            number("other", "With which one?", further.other.unwrap_or(1), [1, sections], |f, n| Further {
                other: Some(n),
                ..f
            })
        }
        Some(Did::Moved) => html! {
            <>
                { number("last", "Up to section", further.last.unwrap_or(section), [section, sections], |f, n| Further { last: Some(n), ..f }) }
                { number("after", "It stands behind section", further.after.unwrap_or(0), [0, sections], |f, n| Further { after: Some(n), ..f }) }
            </>
        },
        _ => Html::default(),
    };
    let pointed = Stepper {
        id: "section",
        label: "Section",
        now: now.section,
        within: [1, sections],
        closed,
        set: point.clone(),
    };
    html! {
        <fieldset class="doings">
            <legend>{ "What happened to which section?" }</legend>
            { parts::stepper(pointed) }
            <ul class="dids">{ for Did::ALL.into_iter().map(key) }</ul>
            <div class="numbers" aria-live="polite">{ numbers }</div>
        </fieldset>
    }
}

/// Both books as a table.
fn table(found: &[crate::marks::Found], made: &[crate::marks::Found]) -> Html {
    let row = |at: usize| {
        html! {
            <tr key={at}>
                <th scope="row">{ at + 1 }</th><td>{ back_words(found.get(at)) }</td><td>{ back_words(made.get(at)) }</td>
            </tr>
        }
    };
    html! {
        <details class="as-table">
            <summary class="plain">{ "As a table" }</summary>
            <div class="table-box" tabindex="0" role="region" aria-label="Both books as a table">
                <table>
                    <thead><tr><th scope="col">{ "Place" }</th><th scope="col">{ "Found" }</th><th scope="col">{ "Yours" }</th></tr></thead>
                    <tbody>{ for (0..found.len().max(made.len())).map(row) }</tbody>
                </table>
            </div>
        </details>
    }
}
