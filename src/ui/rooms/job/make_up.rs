//! What the sections are made of: what the book is planned for, the ways of making it up, and what is made otherwise.

use super::Props;
use super::fields::{Number, Text};
use super::pages::{picks, whole};
use super::{otherwise, plans, row, signed};
use crate::app::{Action, BookAct, Planning, make_up_text, read_described, read_make_up, read_plans};
use crate::paper::Length;
use crate::ui::asked::use_answer;
use crate::ui::store::Act;
use crate::ui::widgets::words;
use yew::prelude::*;

/// The sections.
#[component]
pub fn MakeUp(props: &Props) -> Html {
    let Props { state, act, checker, narrow, .. } = props;
    let job = &state.job;
    // What a person thinks of; until then what the book is made of now.
    let by_hand = use_state_eq(|| None::<Vec<u32>>);
    let wrong = use_state_eq(String::new);
    let now = job.book().sections;
    let typed = by_hand.as_ref().unwrap_or(&now);
    let question = job.plan_question(Some(typed).filter(|all| !all.is_empty()).map(Vec::as_slice));
    let heard = use_answer(checker, Some(question), read_plans);
    let described = use_answer(checker, Some(job.describe_question()), read_described);
    let made_up = {
        let (by_hand, wrong) = (by_hand.setter(), wrong.setter());
        Callback::from(move |text: String| match read_make_up(&text) {
            Ok(sections) => {
                by_hand.set(Some(sections));
                wrong.set(String::new());
            }
            Err(why) => wrong.set(why),
        })
    };
    let take = {
        let (act, by_hand) = (act.clone(), by_hand.setter());
        Callback::from(move |made: Result<BookAct, String>| match made {
            Ok(made) => {
                by_hand.set(None);
                act.emit(Action::Book(made));
            }
            Err(why) => act.emit(Action::Say(why)),
        })
    };
    html! {
        <>
            { row::figure(state, *narrow, &picks(state, act)) }
            <div class="job-columns">
                <section aria-label="What it is planned for">
                    <h2>{ "Planned for" }</h2>
                    { planned_for(&job.planning, act) }
                    <div class="by-hand-field">
                        <Text id="made-up" label="By hand" now={make_up_text(typed)} set={made_up} />
                        <p class="quiet note">{ words("The pages of its sections, front to back: 10x32 8 32.") }</p>
                    </div>
                    <p class="why" role="status">{ (*wrong).clone() }</p>
                    { otherwise::list(state, act) }
                    { signed::signed(state, act) }
                    { signed::formula(described.as_ref().as_ref().map(|(_, told)| told)) }
                </section>
                <section aria-label="Ways of making it up">
                    <h2>{ "Ways of making it up" }</h2>
                    { match heard.as_ref() {
                        None => html! { <p class="quiet" role="status">{ "Planning." }</p> },
                        Some((_, Err(why))) => html! { <p role="status">{ why.clone() }</p> },
                        Some((_, Ok(told))) => plans::list(told, &now, &take, *narrow),
                    } }
                </section>
            </div>
        </>
    }
}

fn planned_for(planning: &Planning, act: &Act) -> Html {
    let set = |f: fn(&mut Planning, f64)| {
        let planning = *planning;
        act.reform(move |n: f64| {
            let mut planning = planning;
            f(&mut planning, n);
            Action::Book(BookAct::Planning(planning))
        })
    };
    let (w, h) = planning.sheet;
    html! {
        <div class="job-fields">
            <Number id="press-width" label="Press sheet, width" now={w.mm()} unit="mm" step={5.0}
                set={set(|p, n| p.sheet.0 = Length::from_mm(n))} />
            <Number id="press-height" label="Press sheet, height" now={h.mm()} unit="mm" step={5.0}
                set={set(|p, n| p.sheet.1 = Length::from_mm(n))} />
            <Number id="copies" label="Copies" now={f64::from(planning.copies)} step={100.0}
                set={set(|p, n| p.copies = if n > 0.0 { n.round() as u32 } else { whole(n) })} />
        </div>
    }
}
