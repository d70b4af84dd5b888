//! The first subject of the Trace room: one wrong book or several, and what would leave their traces.
//!
//! - `kind`: the kinds of find; `finds`, `of_run`: each drawn and entered; `fields`: the fields for it
//! - `leaves`, `slips`, `piles`, `run_line`: the pictures of them
//! - `focus`: where the keyboard goes
//! - `adding`: what can be added, and the books that are looked at
//! - `questions`, `causes`, `picture`: the right half, what would leave these traces
//! - `reckon`: since when, how many, which books (no web); `hold`: the front of the bench with it
//! - `odds`: how likely each cause is taken to be
//! - `report`: the fault report on screen, on paper and as a table
//! - `stories`: wrong books to begin with (no web)
//! - `thread`: from the spine round the find to the cause

mod adding;
mod causes;
mod fields;
mod finds;
mod focus;
mod hold;
mod kind;
mod leaves;
mod odds;
mod of_run;
mod picture;
mod piles;
mod questions;
mod reckon;
mod report;
mod run_line;
pub(in crate::ui::rooms) mod slips;
mod stories;
mod thread;

use super::Props;
use crate::app::{
    Action, BookCause, CaseAct, CaseTold, InsideTold, Room, SectionCase, SectionEvidence, Subject, TraceLook,
    read_traced,
};
use crate::gather::stack::What;
use crate::marks::Found;
use crate::ui::asked::use_answer;
use crate::ui::widgets::{figures, words};
use crate::words::grouped;
use kind::Kind;
use reckon::Reckoned;
use std::rc::Rc;
use thread::use_thread;
use yew::prelude::*;

/// What is said while a station or a machine is to be looked at; the cause itself says more.
const CAUTION: &str = "Stop, isolate and let the line run down before you reach into a station.";

/// The room while a whole book is its subject.
#[component]
pub fn BookRoom(props: &Props) -> Html {
    let (state, act) = (&props.state, &props.act);
    let (job, look) = (&state.job, state.look.trace);
    let case = &job.case;
    let question = use_memo(job.clone(), |job| job.trace_question());
    let heard = use_answer(&props.checker, (*question).clone(), read_traced);
    let told: Option<Rc<CaseTold>> = match heard.as_ref() {
        Some((of, Ok(told))) if Some(of) == question.as_ref().as_ref() => Some(Rc::new(told.clone())),
        _ => None,
    };
    let refused = match heard.as_ref() {
        Some((of, Err(why))) if Some(of) == question.as_ref().as_ref() => why.clone(),
        _ => String::new(),
    };
    // The book that is looked at, the find that is changed and what is being typed there, and what is open besides.
    let chosen_book = use_state_eq(|| 0usize);
    let changed = use_state_eq(|| None::<Kind>);
    let draft = use_state_eq(|| None::<String>);
    let adding = use_state_eq(|| false);
    let halving = use_state_eq(|| false);
    let entry = use_state_eq(of_run::Entry::default);
    let weighing = use_state_eq(|| false);

    let at = (*chosen_book).min(case.books.len().saturating_sub(1));
    let cause_at = told.as_ref().map_or(0, |told| (look.cause as usize).min(told.causes.len().saturating_sub(1)));
    let cause: Option<BookCause> = told.as_ref().and_then(|told| told.causes.get(cause_at).cloned());
    let book_told = told.as_ref().and_then(|told| told.books.get(at).cloned());
    let out = cause.as_ref().map_or_else(Vec::new, |cause| standing_out(cause, book_told.as_ref()));
    let evidence = reckon::evidence(case, told.as_deref(), cause.as_ref());
    let reckoned = use_memo(evidence.clone(), |evidence| reckon::reckon(evidence.as_ref()));
    let held = reckoned.held();
    let next = reckoned.plan.as_ref().ok().and_then(|plan| plan.open).filter(|_| *halving);

    let stand = |look: TraceLook| act.reform(move |()| Action::Trace(look));
    let change = {
        let (changed, draft, adding) = (changed.setter(), draft.setter(), adding.setter());
        Callback::from(move |kind: Option<Kind>| {
            changed.set(kind);
            draft.set(None);
            adding.set(false);
        })
    };
    let finds_props = finds::Props {
        case,
        at,
        sections: job.sections,
        told: book_told.as_ref(),
        design: &job.design,
        signing: &job.signing,
        out: &out,
        open: *changed,
        draft: draft.as_deref(),
        change: change.clone(),
        typing: {
            let draft = draft.setter();
            Callback::from(move |text: String| draft.set(Some(text)))
        },
        act: {
            // What was entered stands; it is no draft any more.
            let (act, draft) = (act.clone(), draft.setter());
            Callback::from(move |action: Action| {
                draft.set(None);
                act.emit(action);
            })
        },
    };
    let run = of_run::OfRun {
        entry: &entry,
        enter: {
            let entry = entry.setter();
            Callback::from(move |next| entry.set(next))
        },
        held: &held,
        next,
        says: run_says(&held, told.as_deref()),
    };
    let empty = case.books.is_empty() && case.left.is_empty() && case.log.is_empty() && !case.line_known();
    let adder = adding::Props {
        case,
        at,
        open: *adding || (empty && changed.is_none()),
        add: change.clone(),
        book: {
            let chosen = chosen_book.setter();
            Callback::from(move |at| chosen.set(at))
        },
        act: act.clone(),
    };
    let choose = {
        let (act, job, told) = (act.clone(), job.clone(), told.clone());
        Callback::from(move |at: usize| {
            act.emit(Action::Trace(TraceLook { cause: at as u32, ..look }));
            let section = told.as_ref().and_then(|told| due(told.causes.get(at)?));
            if let Some(place) = section.and_then(|section| place_in_stack(&job, section)) {
                act.emit(Action::Pick(place));
            }
        })
    };
    let open_section = {
        let (act, job) = (act.clone(), job.clone());
        Callback::from(move |inside: InsideTold| {
            if let Some(place) = place_in_stack(&job, inside.section) {
                act.emit(Action::Pick(place));
            }
            let case = SectionCase {
                evidence: SectionEvidence::Typed(inside.typed.clone()),
                fore_edge: inside.fore_edge,
                made_up: None,
            };
            act.emit(Action::Section(case));
            act.emit(Action::Trace(TraceLook { subject: Subject::Section, ..look }));
        })
    };
    let right_half = match &told {
        Some(told) => {
            let props = causes::Props {
                told,
                chosen: cause_at,
                choose,
                open: open_section,
                design: &job.design,
                sections: job.sections,
            };
            html! { <>{ contradictions(told, None) }{ questions::questions(&told.questions) }{ causes::causes(&props) }</> }
        }
        None => {
            html! { <><p class="quiet waiting">{ waiting(empty, &refused) }</p><p class="refused">{ words(&refused) }</p></> }
        }
    };
    let room = use_node_ref();
    focus::use_focus(&room, *changed, *adding);
    let from = cause.as_ref().filter(|_| !props.narrow).and_then(|cause| place_in_stack(job, due(cause)?));
    let thread = use_thread(&room, from);
    let section = cause.as_ref().and_then(|cause| cause.section);
    let front = hold::front(&hold::Props {
        says: &hold_says(&reckoned, told.as_deref()),
        caution: if cause.as_ref().is_some_and(|cause| !cause.caution.is_empty()) { CAUTION } else { "" },
        reckoned: &reckoned,
        halving: *halving,
        section: section.filter(|section| place_in_stack(job, *section).is_some()),
        told: told.is_some(),
        add: {
            let (adding, on) = (adding.setter(), *adding);
            Callback::from(move |()| adding.set(!on))
        },
        halve: {
            let halving = halving.setter();
            Callback::from(move |on| halving.set(on))
        },
        judge: act.reform(|(counter, judged)| Action::Case(CaseAct::Judge(counter, judged))),
        show: {
            let (act, job) = (act.clone(), job.clone());
            Callback::from(move |section: u32| {
                if let Some(place) = place_in_stack(&job, section) {
                    act.emit(Action::Pick(place));
                }
                act.emit(Action::Go(Room::Fold));
            })
        },
        report: if told.is_some() { stand(TraceLook { report: true, ..look }) } else { Callback::noop() },
    });
    let weigh = |to: bool| {
        let weighing = weighing.setter();
        Callback::from(move |()| weighing.set(to))
    };
    if let Some(told) = told.as_deref().filter(|_| look.report) {
        let (cause, evidence, reckoned) = (cause.as_ref(), evidence.as_ref(), &*reckoned);
        let back = stand(TraceLook { report: false, ..look });
        let sheet = report::sheet(&report::Props { job, told, cause, evidence, reckoned, act: act.clone(), back });
        return html! { <main class="room-trace report-open"><h1 class="unseen">{ "Trace" }</h1>{ sheet }</main> };
    }
    let verdict = cause.as_ref().map(|cause| cause.title.clone()).unwrap_or_default();
    let sections = stand(TraceLook { subject: Subject::Section, ..look });
    html! {
        <>
            <main ref={room} class="room-trace book">
                <svg class="patterns" width="0" height="0" aria-hidden="true">
                    <pattern id="lift-hatch" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
                        <line class="lift-hatch" x1="0" y1="0" x2="0" y2="6" />
                    </pattern>
                </svg>
                <h1 class="unseen" hidden={!props.narrow}>{ "Trace" }</h1>
                <section class="finds" aria-label="What was found">
                    <div class="half-head">
                        <h2>{ "What was found" }</h2>
                        <span class="push">{ fields::plain("One section", Some("Trace one section instead".into()), &sections) }</span>
                    </div>
                    { adding::books(&adder, told.as_deref()) }
                    { adding::adder(&adder) }
                    { stories::stories(job, empty && changed.is_none(), act) }
                    <a class="to-cause" href="#causes" hidden={verdict.is_empty()}>{ figures(&verdict) }</a>
                    { finds::of_book(&finds_props) }
                    { told.as_ref().map_or_else(|| html! { <ul></ul> }, |told| contradictions(told, Some(at as u32 + 1))) }
                    { of_run::of_run(&finds_props, &run) }
                </section>
                <section class="causes" id="causes" tabindex="-1" aria-label="What would leave these traces">
                    <div class="half-head">
                        <h2>{ "What would leave these traces" }</h2>
                        <span class="push">{ fields::plain("How likely?", Some("How likely each cause is".into()), &weigh(true)) }</span>
                    </div>
                    { right_half }
                </section>
                { thread }
                { odds::odds(job, *weighing, &weigh(false), act) }
            </main>
            { front }
        </>
    }
}

/// The report on a case as it was told, of the cause (from 0) that is looked at.
pub fn report_of(job: &crate::app::Job, told: &CaseTold, cause: u32) -> crate::report::Report {
    let cause = told.causes.get((cause as usize).min(told.causes.len().saturating_sub(1)));
    let evidence = reckon::evidence(&job.case, Some(told), cause);
    let reckoned = &reckon::reckon(evidence.as_ref());
    let (act, back) = (Callback::noop(), Callback::noop());
    report::report(&report::Props { job, told, cause, evidence: evidence.as_ref(), reckoned, act, back })
}

/// The section that is due where a cause first makes the book wrong, or else the one that it is about.
fn due(cause: &BookCause) -> Option<u32> {
    cause.places.first().copied().or(cause.section)
}

/// The place of a section in the stack, from 1.
fn place_in_stack(job: &crate::app::Job, section: u32) -> Option<u32> {
    let at = job.stack.placed().iter().position(|p| p.what == What::Ours(section))?;
    Some(at as u32 + 1)
}

/// The places of the found spine that a cause is about.
fn standing_out(cause: &BookCause, book: Option<&crate::app::BookTold>) -> Vec<u32> {
    if !cause.places.is_empty() {
        return cause.places.clone();
    }
    // The row is right; what is wrong lies inside a section.
    let section = cause.section;
    let here = |found: &Found| matches!((found, section), (Found::Section { section: s, .. }, Some(n)) if *s == n);
    let row = book.map(|b| b.row.as_slice()).unwrap_or_default();
    (1u32..).zip(row).filter(|(_, found)| here(found)).map(|(place, _)| place).take(1).collect()
}

/// What does not go together: of a book, or of the case.
fn contradictions(told: &CaseTold, book: Option<u32>) -> Html {
    let all: Vec<&String> = told.contradictions.iter().filter(|(of, _)| *of == book).map(|(_, says)| says).collect();
    html! {
        <ul class="contradictions" hidden={all.is_empty()} aria-label="What does not go together">
            { for all.iter().map(|says| html! { <li>{ words(says) }</li> }) }
        </ul>
    }
}

fn waiting(empty: bool, refused: &str) -> &'static str {
    match (empty, refused.is_empty()) {
        (true, _) => "Note what was found. The causes come here, the likeliest first.",
        (false, true) => "Trying every cause.",
        (false, false) => "This can’t be read.",
    }
}

/// Which books to hold: what to do first, and the rest of it.
fn hold_says(reckoned: &Reckoned, told: Option<&CaseTold>) -> String {
    let first = reckoned.hold.as_ref().and_then(|hold| hold.says.first().cloned());
    first.unwrap_or_else(|| {
        match told {
            Some(told) if told.right => "Nothing is wrong as far as it was seen.",
            Some(_) => "Which books to hold shows when the run and the counters of opened books are noted.",
            None => "Nothing to hold yet.",
        }
        .into()
    })
}

/// The block in a sentence beneath the run.
fn run_says(held: &[(u32, u32)], told: Option<&CaseTold>) -> String {
    let many = |from: u32, to: u32| grouped(to.saturating_sub(from).saturating_add(1));
    match (held, told.map(|t| t.pattern.as_str())) {
        ([(from, to)], Some("block")) => format!("{} books in one block; good before and after.", many(*from, *to)),
        ([(from, _)], Some("from_a_moment")) => format!("Every book from {} on.", grouped(*from)),
        ([_], Some("whole_run")) => "Every book of the run.".into(),
        ([_], Some("one_book")) => "One book.".into(),
        ([(from, to)], _) => format!("Books {} to {}.", grouped(*from), grouped(*to)),
        _ => String::new(),
    }
}
