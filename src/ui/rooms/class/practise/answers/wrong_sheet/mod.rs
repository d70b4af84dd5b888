//! What was done to this sheet? The section that was found lies open, the right sheet on a bench beside it: a fold made wrong
//! there is an answer, and so is a sentence of the list.
//!
//! - `told`: folds made by hand as causes; causes chosen (no web)
//! - `opened`: the found section, opening by opening
//! - `acted`: what the answer makes, beside what was found (no web)

mod acted;
mod opened;
mod told;

use super::AnswerProps;
use super::parts::{self, Choice};
use super::sheet_stand::SheetStand;
use super::side_by_side::SideBySide;
use crate::fold::misfold::{Cause, FoldAt};
use crate::fold::{Course, Scheme, fold_name};
use crate::practice::{Answer, Task};
use crate::ui::shared::Shared;
use crate::ui::widgets::words;
use opened::Opened;
use std::rc::Rc;
use told::{by_hand, chosen, with_folds};
use yew::prelude::*;

/// The way of answering.
#[component]
pub fn WrongSheet(props: &AnswerProps) -> Html {
    let said = use_state_eq(String::new);
    let Task::WrongSheet { name, scheme, first_page, pages, fold_at, wrong, menu, checks } = &props.exercise.task
    else {
        return Html::default();
    };
    let (causes, check) = match &*props.answer {
        Answer::WrongSheet { causes, check } => (causes.clone(), *check),
        _ => (Vec::new(), None),
    };
    let most = *wrong as usize;
    let marked = props.marked.as_deref();
    let set = {
        let set = props.set.clone();
        move |causes: Vec<Cause>, check: Option<u32>| set.emit(Answer::WrongSheet { causes, check })
    };
    let pick = {
        let (set, menu, causes) = (set.clone(), menu.clone(), causes.clone());
        Callback::from(move |at: usize| {
            if let Some(cause) = menu.get(at) {
                set(chosen(&causes, cause, most), check);
            }
        })
    };
    let checked = {
        let (set, causes) = (set.clone(), causes.clone());
        Callback::from(move |n: u32| set(causes.clone(), Some(n)))
    };
    let tried = {
        let (exercise, causes, said, open) = (props.exercise.clone(), causes.clone(), said.setter(), marked.is_none());
        Callback::from(move |folded: Option<Scheme>| {
            let Task::WrongSheet { scheme, first_page, menu, .. } = &exercise.task else { return };
            let Some(folded) = folded.filter(|_| open) else { return said.set(String::new()) };
            if folded.folds.len() < scheme.folds.len() {
                return said.set(String::new());
            }
            match by_hand(scheme, *first_page, menu, &folded, most) {
                Some(found) => {
                    let title = found.iter().map(Cause::title).collect::<Vec<_>>().join(" ");
                    said.set(format!("{title} That is your answer now."));
                    set(with_folds(&causes, &found, most), check);
                }
                None => said.set("Folded so, it can’t be told as one of the causes in the list.".into()),
            }
        })
    };
    // What was found on the bench beside it is folded once and for all.
    let course = use_memo(scheme.clone(), Course::of_scheme);
    let titles: Vec<String> = menu.iter().map(Cause::title).collect();
    let legend = if most == 1 { "What was done?".to_owned() } else { format!("Which {most} things were done?") };
    let list = parts::choice(Choice {
        id: "causes",
        legend,
        says: &titles,
        chosen: menu.iter().enumerate().filter(|(_, c)| causes.contains(c)).map(|(at, _)| at).collect(),
        several: most > 1,
        closed: marked.is_some(),
        pick,
    });
    // What a hand told and the list does not name stands beside it.
    let others: Vec<String> = causes.iter().filter(|c| !menu.contains(c)).map(Cause::title).collect();
    let folds: Vec<String> = scheme.folds.iter().map(|f| fold_name(f).to_lowercase()).collect();
    let last = first_page + scheme.pages() - 1;
    let at_fold = match fold_at {
        FoldAt::Spine => "The last fold is at the back, as it should be.",
        FoldAt::ForeEdge => "The last fold is found at the fore-edge.",
    };
    let beside =
        use_memo((props.exercise.clone(), props.answer.clone(), marked.is_some()), |(exercise, answer, done)| {
            done.then(|| acted::beside(exercise, answer)).flatten()
        });
    html! {
        <div class="wrong-sheet">
            <p class="ticket">{ words(&format!(
                "{name}: pages {first_page} to {last}. Folded rightly: {}.", folds.join(", then ")
            )) }</p>
            <div class="answer-columns">
                <section class="as-found" aria-label="The section that was found">
                    <h2>{ "Found" }</h2>
                    <Opened pages={Rc::new(pages.clone())} reads={scheme.reads} />
                    <p class="quiet">{ words(at_fold) }</p>
                </section>
                <section class="to-try" aria-label="The right sheet, to be folded otherwise" hidden={marked.is_some()}>
                    <h2>{ "The right sheet" }</h2>
                    if marked.is_none() {
                        <SheetStand course={course.clone()} first_page={*first_page} {tried} narrow={props.narrow} />
                    }
                    <p class="stand-told" role="status">{ words(&said) }</p>
                </section>
            </div>
            <div class="answer-columns">
                <div class="causes-box">
                    { list }
                    <p class="quiet" hidden={others.is_empty()}>{ words(&others.join(" ")) }</p>
                    <div class="marks-here">{ for (0..most).map(|k| html! { <div key={k}>{ parts::at_place(parts::item(marked, k)) }</div> }) }</div>
                </div>
                { parts::checks(checks, check, marked, &checked) }
            </div>
            { parts::departs(marked) }
            <div class="made-beside" hidden={beside.is_none()}>{ beside.as_ref().as_ref().map(|both| html! {
                <SideBySide names={both.names} left={both.left.clone()} right={both.right.clone()} end={both.end}
                    says={both.says.clone()} note={both.note.clone()} />
            }).unwrap_or_default() }</div>
        </div>
    }
}

/// Two benches and what is said of them.
#[derive(Clone, PartialEq)]
struct Both {
    names: [&'static str; 2],
    left: Shared<crate::scene::Bench>,
    right: Shared<crate::scene::Bench>,
    end: u32,
    says: AttrValue,
    note: AttrValue,
}
