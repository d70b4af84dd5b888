//! The back marks: where they stand, how large they are, what happens when the staircase begins again.

use super::Props;
use super::fields::{Number, Text, choice};
use super::pages::whole;
use super::{blind, spine};
use crate::app::{Action, BookAct, read_blind, strips_paper};
use crate::marks::{AfterWrap, BackMarks, Label, Runs};
use crate::ui::asked::use_answer;
use crate::ui::paper::PaperOut;
use crate::ui::store::Act;
use yew::prelude::*;

/// Said beside what is cut and gathered by hand.
const BY_HAND: &str = "To be cut out, folded and gathered. Hand exercise: no machine.";

/// The back marks.
#[component]
pub fn Marks(props: &Props) -> Html {
    let Props { state, act, checker, narrow, .. } = props;
    let job = &state.job;
    let heard = use_answer(checker, Some(job.blind_question(&job.design)), read_blind);
    let strips = strips_paper(&job.design, job.sections);
    html! {
        <>
            { spine::figure(job, *narrow) }
            <div class="job-columns marks">
                <section aria-label="How the backs are marked">
                    <h2>{ "The staircase" }</h2>
                    { staircase(&job.design, act) }
                    <h2>{ "When it begins again" }</h2>
                    { after(&job.design, act) }
                    <h2>{ "Beside the bar" }</h2>
                    { beside(&job.design, &job.title, act) }
                    <h2>{ "On paper" }</h2>
                    <PaperOut of={strips} save="Save spine strips as PDF" open="Open spine strips" mind={BY_HAND} />
                    <PaperOut of={job.marks_paper()} save="Save the mark sheet as PDF" open="Open the mark sheet" />
                </section>
                { blind::spots(heard.as_ref().as_ref().map(|(_, told)| told), act) }
            </div>
        </>
    }
}

/// Changes the marks.
fn set<T: 'static>(marks: &BackMarks, act: &Act, f: impl Fn(&mut BackMarks, T) + 'static) -> Callback<T> {
    let marks = marks.clone();
    act.reform(move |to: T| {
        let mut marks = marks.clone();
        f(&mut marks, to);
        Action::Book(BookAct::Marks(Box::new(marks)))
    })
}

fn staircase(marks: &BackMarks, act: &Act) -> Html {
    let d = &marks.stairs;
    let up = marks.runs == Runs::Up;
    let from = if up { "First mark from the tail" } else { "First mark from the head" };
    html! {
        <div class="job-fields">
            <Number id="spine" label="Spine" now={d.spine_mm} unit="mm" set={set(marks, act, |m, n| m.stairs.spine_mm = n)} />
            { choice("runs", "Runs", &["from the head down", "from the tail up"], usize::from(up),
                set(marks, act, |m, at| m.runs = if at == 1 { Runs::Up } else { Runs::Down })) }
            <Number id="first" label={from} now={d.first_mm} unit="mm" step={0.5} set={set(marks, act, |m, n| m.stairs.first_mm = n)} />
            <Number id="step" label="Step" now={d.step_mm} unit="mm" step={0.5} set={set(marks, act, |m, n| m.stairs.step_mm = n)} />
            <Number id="length" label="Length of a mark" now={d.length_mm} unit="mm" step={0.5} set={set(marks, act, |m, n| m.stairs.length_mm = n)} />
            <Number id="width" label="Width across the back" now={marks.width_mm} unit="mm" step={0.5} set={set(marks, act, |m, n| m.width_mm = n)} />
            <Number id="levels" label="Levels" now={f64::from(d.levels)} set={set(marks, act, |m, n| m.stairs.levels = whole(n))} />
        </div>
    }
}

/// What happens after the last level.
fn after(marks: &BackMarks, act: &Act) -> Html {
    let (now, mm) = match marks.after_wrap {
        AfterWrap::Again => (0, None),
        AfterWrap::Column { apart_mm } => (1, Some(("apart", "Columns apart", apart_mm))),
        AfterWrap::Width { width_mm } => (2, Some(("second-width", "Width of the second turn", width_mm))),
    };
    let chosen = set(marks, act, |m, at: usize| {
        m.after_wrap = match at {
            1 => AfterWrap::Column { apart_mm: m.width_mm },
            2 => AfterWrap::Width { width_mm: 2.0 * m.width_mm },
            _ => AfterWrap::Again,
        };
    });
    let number = set(marks, act, |m, n: f64| {
        m.after_wrap = match m.after_wrap {
            AfterWrap::Column { .. } => AfterWrap::Column { apart_mm: n },
            AfterWrap::Width { .. } => AfterWrap::Width { width_mm: n },
            AfterWrap::Again => AfterWrap::Again,
        };
    });
    html! {
        <div class="job-fields">
            { choice("after-wrap", "After the last level", &["the same again", "a second column", "another width"], now, chosen) }
            { match mm {
                Some((id, label, now)) => html! { <Number {id} {label} {now} unit="mm" step={0.5} set={number} /> },
                None => html! { <span></span> },
            } }
        </div>
    }
}

/// What else is on the back.
fn beside(marks: &BackMarks, title: &str, act: &Act) -> Html {
    let stairs = marks.stairs;
    let longer = set(marks, act, move |m, at: usize| {
        m.ends_mm = (at == 1).then_some(1.5 * stairs.length_mm);
    });
    let ends = set(marks, act, |m, n: f64| m.ends_mm = Some(n));
    let usual = Label { number: true, of_how_many: false, title: String::new(), from_mm: 2.0, size_mm: 2.5 };
    let (kind, label) = match &marks.label {
        None => (0, None),
        Some(label) => {
            let kind = match (label.number, label.of_how_many, label.title.is_empty()) {
                (true, false, true) => 1,
                (true, true, true) => 2,
                _ => 3,
            };
            (kind, Some(label.clone()))
        }
    };
    let chosen = {
        let (title, label) = (title.chars().take(20).collect::<String>(), label.clone().unwrap_or(usual));
        set(marks, act, move |m, at: usize| {
            m.label = match at {
                1 => Some(Label { number: true, of_how_many: false, title: String::new(), ..label.clone() }),
                2 => Some(Label { number: true, of_how_many: true, title: String::new(), ..label.clone() }),
                3 => Some(Label { number: true, of_how_many: false, title: title.clone(), ..label.clone() }),
                _ => None,
            };
        })
    };
    let text = set(marks, act, |m, text: String| {
        if let Some(label) = &mut m.label {
            label.title = text;
        }
    });
    let of_label = |f: fn(&mut Label, f64)| {
        set(marks, act, move |m, n: f64| {
            if let Some(label) = &mut m.label {
                f(label, n);
            }
        })
    };
    html! {
        <div class="job-fields">
            { choice("ends", "First and last mark", &["as long as the others", "longer"], usize::from(marks.ends_mm.is_some()), longer) }
            { match marks.ends_mm {
                Some(now) => html! { <Number id="ends-mm" label="Their length" {now} unit="mm" step={0.5} set={ends} /> },
                None => html! { <span></span> },
            } }
            { choice("label", "Printed beside it", &["nothing", "the number", "the number of how many", "number and title"], kind, chosen) }
            { match label {
                Some(label) => html! {
                    <>
                        { if kind == 3 { html! { <Text id="label-title" label="Short title" now={label.title.clone()} set={text} /> } }
                          else { html! { <span></span> } } }
                        <Number id="label-from" label="Begins from the head" now={label.from_mm} unit="mm" step={0.5} set={of_label(|l, n| l.from_mm = n)} />
                        <Number id="label-size" label="Size of its letters" now={label.size_mm} unit="mm" step={0.5} set={of_label(|l, n| l.size_mm = n)} />
                    </>
                },
                None => html! { <span></span> },
            } }
        </div>
    }
}
