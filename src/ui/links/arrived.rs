//! What is said of a link that arrived, and what a person can do then.

use super::opening::{Opening, read, state_of};
use super::{Linked, Props, address};
use crate::app::{Action, Job, Look, Room};
use crate::ui::store::Do;
use crate::ui::widgets::words;
use gloo_utils::document;
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;
use yew::prelude::*;

/// What came of the last link.
#[derive(Clone, PartialEq)]
enum Came {
    /// A job that is asked about.
    Asked(Rc<Job>, Look),
    /// Nothing, for this reason.
    Refused(String),
}

/// Opens links that arrive, and says what became of them.
#[component]
pub(super) fn Arrived(props: &Props) -> Html {
    let came = use_state(|| None::<Came>);
    // Whether what is looked at, if anything is, is a whole job.
    let whole = use_state(|| false);
    {
        let (props, came, whole) = (props.clone(), came.clone(), whole.setter());
        use_effect_with(props.links.clone(), move |links| {
            if let Linked::Arrived(text) = (**links).clone() {
                links.set(Linked::Nothing);
                address::forget();
                came.set(open(&text, &props, &whole));
            }
        });
    }
    let Props { state, own, act, store, put, .. } = props;
    // Whoever presses a button that then goes away stands in the room again.
    let then = |does: Box<dyn Fn()>| {
        let came = came.setter();
        Callback::from(move |_: MouseEvent| {
            came.set(None);
            does();
            to_room();
        })
    };
    let mine = own.as_ref().unwrap_or(state);
    match &*came {
        Some(Came::Refused(why)) => {
            let leave = then(Box::new(|| ()));
            let says = format!("{why} Your own job is as it was.");
            said("alert", &says, html! { <button type="button" class="button" onclick={leave}>{ "Close" }</button> })
        }
        Some(Came::Asked(job, look)) => {
            let visit = {
                let (store, put, job, look) = (store.clone(), put.clone(), job.clone(), look.clone());
                let whole = whole.setter();
                move || {
                    whole.set(true);
                    put.emit(None);
                    store.dispatch(Do::Visit(state_of(&job, &look)));
                }
            };
            let says = format!(
                "A link holds the job “{}”. Open it? Your own job “{}” is kept: Undo brings it back until this page is closed.",
                job.title, mine.job.title
            );
            let open = then(opened(props, job, look));
            let look_only = then(Box::new(visit));
            let leave = then(Box::new(|| ()));
            let buttons = html! {
                <>
                    <button type="button" class="button slip" onclick={open}>{ "Open it" }</button>
                    <button type="button" class="button" onclick={look_only}>{ "Only look at it" }</button>
                    <button type="button" class="button" onclick={leave}>{ "Leave it" }</button>
                </>
            };
            said("alert", &says, buttons)
        }
        None if own.is_some() => {
            let back = {
                let (store, put) = (store.clone(), put.clone());
                move || {
                    put.emit(None);
                    store.dispatch(Do::Leave);
                }
            };
            let (says, to_mine, takes, take): (_, _, _, Box<dyn Fn()>) = if *whole {
                let says = format!("The job “{}” from a link.", state.job.title);
                (says, "Back to my job", "Open it in place of mine", opened(props, &state.job, &state.look))
            } else {
                let (act, back, sheet) = (act.clone(), back.clone(), state.sheet().clone());
                let take = move || {
                    let (width, height) = sheet.leaf();
                    let course = sheet.course.clone();
                    back();
                    act.emit(if width > height { Action::TakeOblong(course) } else { Action::Take(course) });
                };
                ("A sheet from a link.".to_owned(), "Back to my sheet", "Take it into my job", Box::new(take))
            };
            let says = format!("{says} Your own job is as you left it, and nothing done here is kept.");
            let (back, take) = (then(Box::new(back)), then(take));
            let buttons = html! {
                <>
                    <button type="button" class="button slip" onclick={back}>{ to_mine }</button>
                    <button type="button" class="button" onclick={take}>{ takes }</button>
                </>
            };
            said("status", &says, buttons)
        }
        None => Html::default(),
    }
}

/// Does what a link asks for, or says why not.
fn open(text: &str, props: &Props, whole: &UseStateSetter<bool>) -> Option<Came> {
    match read(text) {
        Ok(Opening::Scene(state)) => {
            props.put.emit(None);
            props.store.dispatch(Do::Visit(state));
            whole.set(false);
            None
        }
        Ok(Opening::Job { job, look }) => Some(Came::Asked(job, look)),
        Ok(Opening::Exercise(exercise)) => {
            props.put.emit(None);
            props.store.dispatch(Do::Leave);
            props.links.set(Linked::Set(exercise));
            props.act.emit(Action::Go(Room::Class));
            None
        }
        Err(why) => Some(Came::Refused(why)),
    }
}

/// A job taken for one's own, which undo takes back.
fn opened(props: &Props, job: &Rc<Job>, look: &Look) -> Box<dyn Fn()> {
    let (act, put, job, look) = (props.act.clone(), props.put.clone(), job.clone(), look.clone());
    Box::new(move || {
        put.emit(None);
        act.emit(Action::Opened { job: Box::new((*job).clone()), look: look.clone(), by_hand: true });
    })
}

fn said(role: &'static str, says: &str, buttons: Html) -> Html {
    html! {
        <section class="from-link" aria-label="From a link">
            <p {role}>{ words(says) }</p>
            <div class="from-link-row">{ buttons }</div>
        </section>
    }
}

fn to_room() {
    let room = document().query_selector(".room[aria-current]").ok().flatten();
    if let Some(room) = room.and_then(|r| r.dyn_into::<HtmlElement>().ok()) {
        let _ = room.focus();
    }
}
