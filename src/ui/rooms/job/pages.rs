//! The pages: runs that are numbered alike, and where a folio is.

use super::Props;
use super::added;
use super::fields::{Number, Text, choice};
use super::row;
use crate::app::{Action, BookAct, State};
use crate::book::{Folios, Run};
use crate::ui::store::Act;
use crate::ui::widgets::words;
use std::rc::Rc;
use yew::prelude::*;

/// The pages.
#[component]
pub fn Pages(props: &Props) -> Html {
    let Props { state, act, narrow, .. } = props;
    let pick = picks(state, act);
    let runs: Rc<[Run]> = shown(state).into();
    let put = act.reform(|runs: Vec<Run>| Action::Book(BookAct::Runs(runs)));
    let in_front = {
        let (runs, put) = (runs.clone(), put.clone());
        Callback::from(move |_: MouseEvent| put.emit(with_prelims(&runs)))
    };
    let behind = {
        let (runs, put) = (runs.clone(), put.clone());
        Callback::from(move |_: MouseEvent| {
            let more = Run { name: "appendix".into(), pages: 16, folios: next_folio(&runs), blank: false };
            put.emit([&runs[..], &[more]].concat());
        })
    };
    let folio = use_state_eq(String::new);
    let looked = {
        let folio = folio.setter();
        Callback::from(move |text: String| folio.set(text))
    };
    let found = if folio.trim().is_empty() { String::new() } else { state.job.book().find(&folio).says };
    html! {
        <>
            { row::figure(state, *narrow, &pick) }
            <div class="job-columns">
                <section aria-label="Runs of pages">
                    <h2>{ "Runs of pages, front to back" }</h2>
                    <ol class="runs">{ for (0..runs.len()).map(|i| one(i, &runs, &put)) }</ol>
                    <div class="job-row">
                        <button type="button" class="button" onclick={in_front}>{ "Prelims in front" }</button>
                        <button type="button" class="button" onclick={behind}>{ "A run behind" }</button>
                    </div>
                </section>
                <section aria-label="Plates, wraps and endpapers">
                    <h2>{ "Tipped in, laid round, pasted on" }</h2>
                    { added::list(state, act) }
                    <h2>{ "Where is it printed?" }</h2>
                    <Text id="find-folio" label="Folio" now={(*folio).clone()} set={looked} />
                    <p class="found" role="status">{ words(&found) }</p>
                </section>
            </div>
        </>
    }
}

/// Takes a section that was pointed at to the front, where it lies in the stack.
pub fn picks(state: &State, act: &Act) -> Callback<u32> {
    let placed: Vec<_> = state.job.stack.placed().iter().map(|p| p.what).collect();
    let act = act.clone();
    Callback::from(move |section: u32| {
        match placed.iter().position(|what| *what == crate::gather::stack::What::Ours(section)) {
            Some(at) => act.emit(Action::Pick(at as u32 + 1)),
            None => act.emit(Action::Say(format!("Section {section} is not in the stack."))),
        }
    })
}

/// The runs as they were said, or the one that there is before any was.
fn shown(state: &State) -> Vec<Run> {
    if state.job.runs.is_empty() {
        let folios = Folios::Arabic { first: 1 };
        return vec![Run { name: "text".into(), pages: state.job.pages(), folios, blank: false }];
    }
    state.job.runs.clone()
}

/// Prelims in front, numbered in roman; what follows gives up as many pages, if it has them.
fn with_prelims(runs: &[Run]) -> Vec<Run> {
    let mut all = runs.to_vec();
    if let Some(first) = all.first_mut().filter(|run| run.pages > 32) {
        first.pages -= 16;
    }
    all.insert(0, Run { name: "prelims".into(), pages: 16, folios: Folios::Roman { first: 1 }, blank: false });
    all
}

/// Where figures go on behind these runs.
fn next_folio(runs: &[Run]) -> Folios {
    let mut next = 1;
    for run in runs {
        if let Folios::Arabic { first } = run.folios {
            next = first.saturating_add(run.pages);
        }
    }
    Folios::Arabic { first: next }
}

const KINDS: [&str; 4] = ["figures", "roman, small", "roman, capitals", "no number"];

const fn kind(folios: Folios) -> (usize, Option<u32>) {
    match folios {
        Folios::Arabic { first } => (0, Some(first)),
        Folios::Roman { first } => (1, Some(first)),
        Folios::RomanCapitals { first } => (2, Some(first)),
        Folios::None => (3, None),
    }
}

const fn folios(kind: usize, first: u32) -> Folios {
    match kind {
        0 => Folios::Arabic { first },
        1 => Folios::Roman { first },
        2 => Folios::RomanCapitals { first },
        _ => Folios::None,
    }
}

/// A whole number of pages, as far as there can be.
pub fn whole(n: f64) -> u32 {
    crate::units::between(n.round(), 0.0, 99_999.0) as u32
}

/// Changes one of the runs.
fn edit<T: 'static>(
    i: usize,
    runs: &Rc<[Run]>,
    put: &Callback<Vec<Run>>,
    f: impl Fn(&mut Run, T) + 'static,
) -> Callback<T> {
    let (runs, put) = (runs.clone(), put.clone());
    Callback::from(move |to: T| {
        let mut all = runs.to_vec();
        if let Some(run) = all.get_mut(i) {
            f(run, to);
        }
        put.emit(all);
    })
}

/// One run.
fn one(i: usize, runs: &Rc<[Run]>, put: &Callback<Vec<Run>>) -> Html {
    let Some(run) = runs.get(i) else { return Html::default() };
    let (of, first) = kind(run.folios);
    let name = edit(i, runs, put, |run, text: String| run.name = text);
    let pages = edit(i, runs, put, |run, n: f64| run.pages = whole(n));
    let from = edit(i, runs, put, |run, n: f64| run.folios = folios(kind(run.folios).0, whole(n)));
    let numbered = edit(i, runs, put, |run, of: usize| run.folios = folios(of, kind(run.folios).1.unwrap_or(1)));
    let blank = edit(i, runs, put, |run, _: Event| run.blank = !run.blank);
    let away = {
        let (runs, put) = (runs.clone(), put.clone());
        Callback::from(move |_: MouseEvent| {
            let mut all = runs.to_vec();
            all.remove(i);
            put.emit(all);
        })
    };
    let id = |what: &str| AttrValue::from(format!("run-{}-{what}", i + 1));
    html! {
        <li key={i} aria-label={format!("Run {}", i + 1)}>
            <Text id={id("name")} label="Name" now={run.name.clone()} set={name} />
            <Number id={id("pages")} label="Pages" now={f64::from(run.pages)} set={pages} />
            { choice(&id("folios"), "Numbered", &KINDS, of, numbered) }
            { match first {
                Some(first) => html! {
                    <Number id={id("first")} label="From" now={f64::from(first)} set={from} />
                },
                None => html! { <span></span> },
            } }
            <label class="tick"><input type="checkbox" checked={run.blank} onchange={blank} />{ "blank" }</label>
            <button type="button" class="plain" hidden={runs.len() < 2} onclick={away}
                aria-label={format!("Take run {} away", i + 1)}>{ "Take away" }</button>
        </li>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn prelims_take_their_pages_from_the_text() {
        let runs = shown(&State::default());
        let all = with_prelims(&runs);
        assert_eq!(all.iter().map(|r| r.pages).collect::<Vec<_>>(), [16, 272]);
        assert_eq!(next_folio(&all), Folios::Arabic { first: 273 });
        assert_eq!(with_prelims(&[Run { pages: 8, ..runs[0].clone() }]).iter().map(|r| r.pages).sum::<u32>(), 24);
    }
}
