//! Plates, wraps and endpapers.

use super::fields::Number;
use super::pages::whole;
use crate::app::{Action, BookAct, State};
use crate::book::Added;
use crate::ui::store::Act;
use crate::ui::widgets::words;
use crate::words::sentence;
use std::rc::Rc;
use yew::prelude::*;

/// All of them, and how to add one.
pub fn list(state: &State, act: &Act) -> Html {
    let all: Rc<[Added]> = state.job.added.as_slice().into();
    let put = act.reform(|added: Vec<Added>| Action::Book(BookAct::Added(added)));
    let add = |name: &'static str, more: Added, hidden: bool| {
        let (all, put) = (all.clone(), put.clone());
        let onclick = Callback::from(move |_: MouseEvent| put.emit([&all[..], &[more]].concat()));
        html! { <button type="button" class="button" {hidden} {onclick}>{ name }</button> }
    };
    let middle = state.job.pages() / 2 / 2 * 2;
    let has_ends = all.iter().any(|a| matches!(a, Added::Endpapers { .. }));
    let section = state.section_on_bench();
    html! {
        <>
            <ul class="added-list">{ for (0..all.len()).map(|i| one(state, i, &all, &put)) }</ul>
            <div class="job-row">
                { add("Tip in a plate", Added::Plate { after: middle, pages: 2 }, false) }
                { add("Wrap a section", Added::Wrap { section, pages: 4 }, false) }
                { add("Endpapers", Added::Endpapers { pages: 4 }, has_ends) }
            </div>
        </>
    }
}

fn one(state: &State, i: usize, all: &Rc<[Added]>, put: &Callback<Vec<Added>>) -> Html {
    let Some(this) = all.get(i).copied() else { return Html::default() };
    let number = |f: fn(Added, u32) -> Added| {
        let (all, put) = (all.clone(), put.clone());
        Callback::from(move |n: f64| {
            let mut all = all.to_vec();
            all.iter_mut().skip(i).take(1).for_each(|a| *a = f(*a, whole(n)));
            put.emit(all);
        })
    };
    let away = {
        let (all, put) = (all.clone(), put.clone());
        Callback::from(move |_: MouseEvent| {
            let mut all = all.to_vec();
            all.remove(i);
            put.emit(all);
        })
    };
    let id = |what: &str| AttrValue::from(format!("added-{}-{what}", i + 1));
    let pages = |pages: u32, step: f64| {
        let set = number(|a, n| match a {
            Added::Plate { after, .. } => Added::Plate { after, pages: n },
            Added::Wrap { section, .. } => Added::Wrap { section, pages: n },
            Added::Endpapers { .. } => Added::Endpapers { pages: n },
        });
        html! { <Number id={id("pages")} label="Pages" now={f64::from(pages)} {step} {set} /> }
    };
    let (name, fields) = match this {
        Added::Plate { after, pages: n } => {
            let set = number(|a, n| match a {
                Added::Plate { pages, .. } => Added::Plate { after: n, pages },
                other => other,
            });
            let place = html! { <Number id={id("at")} label="Behind page" now={f64::from(after)} step={2.0} {set} /> };
            ("Plate", html! { <>{ place }{ pages(n, 2.0) }</> })
        }
        Added::Wrap { section, pages: n } => {
            let set = number(|a, n| match a {
                Added::Wrap { pages, .. } => Added::Wrap { section: n, pages },
                other => other,
            });
            let place = html! { <Number id={id("at")} label="Round section" now={f64::from(section)} {set} /> };
            ("Wrap", html! { <>{ place }{ pages(n, 4.0) }</> })
        }
        Added::Endpapers { pages: n } => ("Endpapers", html! { <><span></span>{ pages(n, 2.0) }</> }),
    };
    html! {
        <li key={i} aria-label={name}>
            <span class="kind">{ name }</span>
            { fields }
            <button type="button" class="plain" onclick={away}>{ "Take away" }</button>
            <p class="quiet says">{ words(&sentence(&state.job.book().say_added(this))) }</p>
        </li>
    }
}
