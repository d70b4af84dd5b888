//! What is printed: for a class, for the printer, of the job, of the learner.
//!
//! - `kinds`: the documents, what they are called, and what is said of them
//! - `wishes`: what is set for each, and the question that follows (no web)
//! - `settings`: the fields for it
//! - `faults`: faults to choose from, in the words of the Trace room
//! - `sheet`: the sheet that is printed: the job's, or another one by its drawn dummy
//! - `fields`: what is typed and chosen

mod faults;
mod fields;
mod kinds;
mod settings;
mod sheet;
mod wishes;

use super::PartProps;
use crate::app::{PreviewTold, WorksheetWish, preview_question, read_preview, read_traced};
use crate::report::Report;
use crate::ui::asked::use_answers;
use crate::ui::paper::{Kept, PaperOut, Seen, keep, kept, use_picture};
use crate::ui::rooms::trace;
use crate::ui::widgets::words;
use kinds::What;
use std::rc::Rc;
use wishes::{Change, Settings, Sources};
use yew::prelude::*;

/// Changes what is set.
type Set = Callback<Change>;

/// The papers: each as a small picture, and the one that is chosen with what is set for it.
#[component]
pub fn Paper(props: &PartProps) -> Html {
    let (state, checker) = (&props.room.state, &props.room.checker);
    let what = use_state_eq(|| What::Worksheet);
    let known = use_state_eq(kept);
    let settings = use_reducer(|| Settings::new(kept().seed.unwrap_or(1)));
    let set: Set = {
        let dispatcher = settings.dispatcher();
        use_callback((), move |change: Change, ()| dispatcher.dispatch(change))
    };
    let know = {
        let known = known.setter();
        Callback::from(move |next: Kept| {
            keep(&next);
            known.set(next);
        })
    };
    let report = use_report(props);
    let entries = use_memo(props.desk.desk.logbook.clone(), |logbook| logbook.entries().to_vec());
    let date = super::desk::today();
    let from = |settings: &Settings, what: What| {
        let name = &props.desk.desk.name;
        let sources = Sources { job: &state.job, report: report.as_ref(), entries: &entries, name, date: &date };
        wishes::wish(settings, what, &sources)
    };
    let printer = &known.printer;
    // Small pictures are of what is usual, so that they don't change with every letter.
    let usual = Settings::new(1);
    let small: Vec<(What, Option<String>)> = What::ALL
        .into_iter()
        .map(|what| (what, from(&usual, what).map(|of| preview_question(&of, printer, 1))))
        .collect();
    let answers = use_answers(checker, small.iter().filter_map(|(_, q)| q.clone()).collect(), read_preview);
    let picture = |question: &Option<String>| {
        let told = question.as_ref().and_then(|q| answers.iter().find(|(of, _)| of == q));
        told.and_then(|(_, told)| told.as_ref().ok()).cloned()
    };
    let pick = |(of, question): &(What, Option<String>)| {
        let (set, of) = (what.setter(), *of);
        small_one(of, *what == of, picture(question), Callback::from(move |_: MouseEvent| set.set(of)))
    };
    let of = from(&settings, *what);
    let seen = use_picture(checker, of.as_ref(), printer, 1);
    let wrong = match &seen {
        Seen::Refused(why) => format!("{}.", why.trim_end_matches('.')),
        _ => String::new(),
    };
    let pages = seen.pages();
    let ready = of.clone().filter(|_| wrong.is_empty());
    let made = made(*what, &settings.worksheet, &known, &know);
    let pick_what = {
        let what = what.setter();
        Callback::from(move |to: What| what.set(to))
    };
    html! {
        <section class="papers" aria-label="What is printed">
            <div class="paper-kinds" role="group" aria-label="What to print">{ for small.iter().map(pick) }</div>
            <div class="paper-chosen">
                <div class="paper-settings">
                    <h2>{ what.title() }</h2>
                    <p class="quiet">{ words(&what.says(&props.room.state.job, entries.len())) }</p>
                    <PaperOut key={what.name()} of={ready} save={what.save()} open={what.open()} first={true} pages={pages}
                        mind={what.mind()} {made} />
                    { if *what == What::Worksheet {
                        html! {
                            <PaperOut key="key" of={from(&settings, What::Key).filter(|_| wrong.is_empty())} save={What::Key.save()}
                                open={What::Key.open()} pages={pages} />
                        }
                    } else { html! { <span hidden={true}></span> } } }
                    <p class="paper-wrong" role="status" hidden={wrong.is_empty()}>{ words(&wrong) }</p>
                    <settings::Form what={*what} settings={(*settings).clone()} set={set.clone()} known={(*known).clone()}
                        know={know.clone()} pick={pick_what} room={props.room.clone()} desk={props.desk.clone()} />
                </div>
                <figure class="paper-large">
                    { seen.view(&format!("{}: its first page, as it is printed.", what.title())) }
                    <figcaption class="quiet note">{ caption(&seen) }</figcaption>
                </figure>
            </div>
        </section>
    }
}

/// Kept once a document was handed out: that the printer was tested, and the seed of the next class.
fn made(what: What, wish: &WorksheetWish, known: &Kept, know: &Callback<Kept>) -> Callback<()> {
    let (known, know, next) = (known.clone(), know.clone(), wish.seed);
    Callback::from(move |()| match what {
        What::TestPage => know.emit(Kept { tested: true, ..known.clone() }),
        What::Worksheet => know.emit(Kept { seed: Some(next % wishes::MOST_SEED + 1), ..known.clone() }),
        _ => {}
    })
}

fn caption(seen: &Seen) -> String {
    match seen {
        Seen::Shown(told, _) => format!("{}. {}.", told.title, crate::app::pages_say(&told.pages)),
        Seen::Asked => "Drawing it…".into(),
        Seen::Refused(_) => String::new(),
    }
}

/// A document as a small picture with its name.
fn small_one(what: What, on: bool, told: Option<PreviewTold>, onclick: Callback<MouseEvent>) -> Html {
    let picture = told.map(|told| AttrValue::from(told.svg)).unwrap_or_default();
    html! {
        <button key={what.name()} type="button" class="paper-kind" aria-pressed={on.to_string()} {onclick}>
            <span class="page-picture" aria-hidden="true">{ Html::from_html_unchecked(picture) }</span>
            <span>{ what.name() }</span>
        </button>
    }
}

/// The report on what was found in the Trace room, or one to be filled in by hand.
#[hook]
fn use_report(props: &PartProps) -> Option<Rc<Report>> {
    let job = &props.room.state.job;
    let question = use_memo(job.clone(), |job| job.trace_question());
    let cause = props.room.state.look.trace.cause;
    let heard = crate::ui::asked::use_answer(&props.room.checker, (*question).clone(), read_traced);
    let report = use_memo((job.clone(), question.clone(), heard, cause), |(job, question, heard, cause)| {
        let empty = || Some(Rc::new(Report { title: job.title.clone(), ..Report::default() }));
        match (question.as_ref(), heard.as_ref()) {
            (None, _) => empty(),
            (Some(q), Some((of, told))) if of == q => match told {
                Ok(told) => Some(Rc::new(trace::report_of(job, told, *cause))),
                Err(_) => empty(),
            },
            _ => None,
        }
    });
    (*report).clone()
}
