//! An exercise: what is asked, the answer, hints, marks.

mod answers;

use super::PartProps;
use crate::class::{DeskAct, OnDesk};
use crate::link;
use crate::practice::{Exercise, Kind, LEVELS, Marked, code, halves};
use crate::ui::widgets::words;
use answers::AnswerProps;
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::HtmlSelectElement;
use yew::prelude::*;

/// The part.
#[component]
pub fn Practise(props: &PartProps) -> Html {
    let desk = &props.desk;
    let on_desk = desk.desk.on_desk.clone();
    // When the exercise was first seen, for the minutes spent on it.
    let set = {
        let act = desk.act.clone();
        Callback::from(move |(kind, level, seed): (Kind, u8, u64)| act.emit(DeskAct::Set(kind, level, seed)))
    };
    let exercise = use_memo(on_desk.as_ref().map(|on| (on.kind, on.level, on.seed)), |set| {
        set.and_then(|(kind, level, seed)| Exercise::of(kind, level, seed).ok()).map(Rc::new)
    });
    let marked = use_memo((on_desk.clone(), exercise.clone()), |(on_desk, exercise)| {
        let (on, exercise) = (on_desk.as_ref().filter(|on| on.handed_in)?, exercise.as_ref().as_ref()?);
        Some(Rc::new(exercise.mark(&on.answer, on.hints)))
    });
    let next = desk.desk.logbook.next();
    let another = {
        let (set, next) = (set.clone(), (next.kind, next.level, next.seed));
        Callback::from(move |_: MouseEvent| set.emit(next))
    };
    let chosen = on_desk.as_ref().map_or((next.kind, next.level), |on| (on.kind, on.level));
    let choose_kind = {
        let set = set.clone();
        Callback::from(move |e: Event| {
            let number = e.target().and_then(|t| t.dyn_into::<HtmlSelectElement>().ok()).map(|s| s.value());
            if let Some(kind) = number.and_then(|n| n.parse().ok()).and_then(Kind::of_number) {
                set.emit((kind, chosen.1, 1));
            }
        })
    };
    let choose_level = {
        let set = set.clone();
        Callback::from(move |e: Event| {
            let level = e.target().and_then(|t| t.dyn_into::<HtmlSelectElement>().ok()).map(|s| s.value());
            if let Some(level) = level.and_then(|l| l.parse().ok()) {
                set.emit((chosen.0, level, 1));
            }
        })
    };
    let answer = match (&on_desk, exercise.as_ref()) {
        (Some(on), Some(exercise)) => answers::view(AnswerProps {
            exercise: exercise.clone(),
            answer: Rc::new(on.answer.clone()),
            set: desk.act.reform(DeskAct::Answer),
            marked: (*marked).clone(),
            narrow: props.room.narrow,
        }),
        _ => Html::default(),
    };
    let hand_in = desk.act.reform(|_: MouseEvent| DeskAct::HandIn { date: super::desk::today(), minutes: 0 });
    let hints = exercise.as_ref().as_ref().zip(on_desk.as_ref()).map(|(exercise, on)| {
        exercise
            .hints()
            .into_iter()
            .take(on.hints as usize)
            .map(|hint| html! { <li>{ words(&hint.says) }</li> })
            .collect::<Html>()
    });
    let open = on_desk.as_ref().is_some_and(|on| !on.handed_in);
    html! {
        <section class="practise" aria-label="Exercise">
            <div class="class-row">
                <select class="field" aria-label="Kind of exercise" onchange={choose_kind}>
                    { for Kind::ALL.into_iter().map(|kind| html! {
                        <option value={kind.number().to_string()} selected={kind == chosen.0}>{ kind.title() }</option>
                    }) }
                </select>
                <select class="field" aria-label="Level" onchange={choose_level}>
                    { for (1..=LEVELS).map(|level| html! {
                        <option value={level.to_string()} selected={level == chosen.1}>{ format!("Level {level}") }</option>
                    }) }
                </select>
                <button type="button" class="button slip" onclick={another}>{ "Next exercise" }</button>
            </div>
            <p class="asks">{ on_desk.as_ref().map(|on| words(on.kind.asks())).unwrap_or_default() }</p>
            <p class="quiet">{ on_desk.as_ref().and_then(|on| exercise_code(on)).unwrap_or_default() }</p>
            <div class="answer">{ answer }</div>
            <ul class="hints">{ hints.unwrap_or_default() }</ul>
            <div class="class-row" hidden={!open}>
                <button type="button" class="button" onclick={desk.act.reform(|_: MouseEvent| DeskAct::Hint)}>{ "Hint" }</button>
                <button type="button" class="button" onclick={desk.act.reform(|_: MouseEvent| DeskAct::Undo)}>{ "Undo" }</button>
                <button type="button" class="button slip" onclick={hand_in}>{ "Hand in" }</button>
            </div>
            <div class="marked">{ marked.as_ref().as_ref().map(|marked| marks(marked)).unwrap_or_default() }</div>
        </section>
    }
}

fn exercise_code(on: &OnDesk) -> Option<String> {
    code(&link::Exercise { kind: on.kind.number(), level: on.level, seed: on.seed })
}

fn marks(marked: &Marked) -> Html {
    html! {
        <>
            <p class="says">{ format!("{} of {} marks.", halves(marked.got), halves(marked.of)) }</p>
            { for marked.says.iter().map(|says| html! { <p>{ words(says) }</p> }) }
            <ul>{ for marked.items.iter().map(|item| html! {
                <li>{ format!("{}: {} ({} of {}) {}", item.what, item.given, halves(item.got), halves(item.of), item.says) }</li>
            }) }</ul>
        </>
    }
}
