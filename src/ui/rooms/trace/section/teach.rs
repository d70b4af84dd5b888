//! For those who teach: a wrong section made by choice, and the table of faults that look alike.

use crate::app::{
    Action, AlikeGroup, LookAlikes, SectionCase, SectionEvidence, SectionTold, cause_title, look_alikes_question,
    read_look_alikes, read_section_told,
};
use crate::fold::Scheme;
use crate::fold::misfold::{Mark, print_pages};
use crate::json::Json;
use crate::ui::asked::{use_answer, use_answers};
use crate::ui::browser::checker::Checker;
use crate::ui::store::Act;
use crate::ui::widgets::{Dialog, figures, words};
use gloo_utils::window;
use std::rc::Rc;
use yew::prelude::*;

/// The most causes at once.
const MOST: usize = 2;

/// What both dialogs need.
pub struct Props {
    /// The case.
    pub case: SectionCase,
    /// How the sheet is folded, or the outermost piece.
    pub scheme: Scheme,
    /// What else can be made: the name, and the cause as the protocol words it.
    pub strangers: Rc<[(String, Json)]>,
    /// The first page of the section.
    pub first: u32,
    /// How to say what happened.
    pub act: Act,
    /// Who knows the causes.
    pub checker: Checker,
    /// Covers the causes, or not.
    pub cover: Callback<bool>,
}

/// The two buttons, and the dialogs that they open.
#[hook]
pub fn use_teach(props: &Props) -> (Html, Html) {
    let making = use_state_eq(|| false);
    let table = use_state_eq(|| false);
    let wanted = *making || *table;
    let question = wanted.then(|| look_alikes_question(&props.scheme, props.first));
    let heard = use_answer(&props.checker, question, read_look_alikes);
    let all = match heard.as_ref() {
        Some((_, Ok(all))) => Some(all),
        _ => None,
    };
    let why = match heard.as_ref() {
        Some((_, Err(why))) => why.clone(),
        Some(_) => String::new(),
        None => "Acting out every fault.".into(),
    };
    let make = use_maker(props, all, &making);
    let alike = use_table(props, all, *table);
    let toggle = |state: &UseStateHandle<bool>, to: bool| {
        let set = state.setter();
        Callback::from(move |()| set.set(to))
    };
    let shut = |state: &UseStateHandle<bool>| {
        let onclick = toggle(state, false).reform(|_: MouseEvent| ());
        html! { <div class="dialog-foot"><button type="button" class="button" {onclick}>{ "Close" }</button></div> }
    };
    let open = |state: &UseStateHandle<bool>| toggle(state, true).reform(|_: MouseEvent| ());
    let buttons = html! {
        <div class="teach">
            <button type="button" class="plain" onclick={open(&making)}>{ "Make a wrong one" }</button>
            <button type="button" class="plain" onclick={open(&table)}>{ "Look-alikes" }</button>
        </div>
    };
    let dialogs = html! {
        <>
            <Dialog open={*making} title="Make a wrong section" close={toggle(&making, false)}>
                <p class="quiet" hidden={why.is_empty()} role="status">{ why.clone() }</p>
                { make }
                { shut(&making) }
            </Dialog>
            <Dialog open={*table} title="Which faults look alike" close={toggle(&table, false)}>
                <p class="quiet" hidden={why.is_empty()} role="status">{ why }</p>
                { alike }
                { shut(&table) }
            </Dialog>
        </>
    };
    (buttons, dialogs)
}

/// Every cause once, in the order of the answer.
fn causes(all: &LookAlikes) -> Vec<Json> {
    let mut once: Vec<Json> = Vec::new();
    for cause in all.groups.iter().flat_map(|group| &group.causes).chain(&all.no_harm) {
        if !once.contains(cause) {
            once.push(cause.clone());
        }
    }
    once
}

/// The list of causes, of which one or two are chosen.
#[hook]
fn use_maker(props: &Props, all: Option<&LookAlikes>, open: &UseStateHandle<bool>) -> Html {
    let chosen = use_state(Vec::<Json>::new);
    let one = |cause: &Json| {
        let on = chosen.contains(cause);
        let full = !on && chosen.len() >= MOST;
        let toggle = {
            let (chosen, cause) = (chosen.clone(), cause.clone());
            Callback::from(move |_: MouseEvent| {
                let mut next = (*chosen).clone();
                if on {
                    next.retain(|c| *c != cause);
                } else if !full {
                    next.push(cause.clone());
                }
                chosen.set(next);
            })
        };
        let stranger = || props.strangers.iter().find(|(_, s)| s == cause).map(|(name, _)| name.clone());
        let title = cause_title(cause).or_else(stranger).unwrap_or_default();
        html! {
            <li key={cause.write()}>
                <button type="button" class="button" aria-pressed={on.to_string()} aria-disabled={full.to_string()} onclick={toggle}>
                    { figures(&title) }
                </button>
            </li>
        }
    };
    let make = |cover: bool| {
        let (act, case, chosen, open) = (props.act.clone(), props.case.clone(), chosen.clone(), open.setter());
        let covered = props.cover.clone();
        Callback::from(move |_: MouseEvent| {
            if !chosen.is_empty() {
                let evidence = SectionEvidence::Made(Json::List((*chosen).clone()));
                act.emit(Action::Section(SectionCase { evidence, fore_edge: false, ..case.clone() }));
                covered.emit(cover);
                chosen.set(Vec::new());
                open.set(false);
            }
        })
    };
    let none = chosen.is_empty().to_string();
    let strangers = props.strangers.iter().map(|(_, cause)| cause.clone());
    let list: Vec<Json> = all.map(|all| strangers.chain(causes(all)).collect()).unwrap_or_default();
    html! {
        <div class="maker-list" hidden={list.is_empty()}>
            <p>{ "Choose one fault, or two at once. The check sees only the pages that come of it." }</p>
            <ul>{ for list.iter().map(one) }</ul>
            <div class="dialog-foot">
                <button type="button" class="button slip" aria-disabled={none.clone()} onclick={make(false)}>{ "Make it" }</button>
                <button type="button" class="button" aria-disabled={none} onclick={make(true)}>{ "Make it, causes covered" }</button>
            </div>
        </div>
    }
}

/// The table of faults that look alike.
#[hook]
fn use_table(props: &Props, all: Option<&LookAlikes>, open: bool) -> Html {
    let groups: Vec<&AlikeGroup> = all.map(|all| all.groups.iter().collect()).unwrap_or_default();
    let question = |group: &AlikeGroup| {
        let first = group.causes.first().cloned().into_iter().collect();
        let case = SectionCase { evidence: SectionEvidence::Made(Json::List(first)), ..SectionCase::default() };
        case.question(&props.scheme.clone().into(), props.first)
    };
    let shared = |group: &&&AlikeGroup| group.causes.len() > 1;
    let asked: Rc<[String]> =
        if open { groups.iter().filter(shared).filter_map(|g| question(g)).collect() } else { Rc::from([]) };
    let answers = use_answers(&props.checker, asked, read_section_told);
    let row = |group: &AlikeGroup| {
        let told = question(group)
            .and_then(|q| answers.iter().find(|(of, _)| *of == q).and_then(|(_, told)| told.clone().ok()));
        let tells = told.map(|told| tells(&told, group)).unwrap_or_default();
        let causes = group.causes.iter().filter_map(cause_title);
        let example = if group.example { ", for example" } else { "" };
        html! {
            <tr>
                <td><ul>{ for causes.map(|title| html! { <li>{ words(&title) }</li> }) }</ul></td>
                <td><span class="n">{ print_pages(&group.pages) }</span>{ if group.fore_edge { ", fold at the fore-edge" } else { "" } }{ example }</td>
                <td>{ mark_words(group.mark) }</td>
                <td><ul>{ for tells.iter().map(|tell| html! { <li>{ words(tell) }</li> }) }</ul></td>
            </tr>
        }
    };
    let (together, alone): (Vec<&AlikeGroup>, Vec<&AlikeGroup>) = groups.iter().partition(|g| g.causes.len() > 1);
    let body = |caption: &'static str, groups: &[&AlikeGroup]| {
        let none = groups.is_empty();
        html! {
            <tbody hidden={none}>
                <tr><th colspan="4" scope="rowgroup">{ caption }</th></tr>
                { for groups.iter().map(|g| row(g)) }
            </tbody>
        }
    };
    let harmless: Vec<String> = all.map(|all| all.no_harm.iter().filter_map(cause_title).collect()).unwrap_or_default();
    let print = Callback::from(|_: MouseEvent| {
        let _ = window().print();
    });
    html! {
        <div class="alike-table" hidden={groups.is_empty()}>
            <p class="table-print"><button type="button" class="button" onclick={print}>{ "Print this table" }</button></p>
            <p hidden={harmless.is_empty()}>{ words(&format!("Not every fault spoils the pages. Right in spite of it: {}", harmless.join(" "))) }</p>
            <div class="table-box" tabindex="0" role="group" aria-label="The table">
                <table>
                    <thead><tr><th scope="col">{ "What was done" }</th><th scope="col">{ "Pages" }</th>
                        <th scope="col">{ "Back mark" }</th><th scope="col">{ "What tells them apart" }</th></tr></thead>
                    { body("The same pages come of either", &together) }
                    { body("Told by their pages alone, if only one thing went wrong", &alone) }
                </table>
            </div>
        </div>
    }
}

/// What tells the causes of a group apart, with the cause that each is about.
fn tells(told: &SectionTold, group: &AlikeGroup) -> Vec<String> {
    let alike = told.causes.iter().flat_map(|card| &card.alike);
    alike.filter(|one| group.causes.contains(&one.cause)).map(|one| one.tell.clone()).collect()
}

fn mark_words(mark: Mark) -> &'static str {
    match mark {
        Mark::Shows => "at its place",
        Mark::Blank => "none on the back",
        Mark::Mirrored => "as far from the tail",
    }
}
