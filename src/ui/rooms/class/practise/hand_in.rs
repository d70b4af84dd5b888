//! Hints one after another, steps back and on, and handing in.

use super::clock::now;
use crate::class::{DeskAct, OnDesk};
use crate::practice::Exercise;
use crate::ui::rooms::class::desk::today;
use crate::ui::widgets::{figures, words};
use std::rc::Rc;
use yew::prelude::*;

/// What it needs.
#[derive(Clone, PartialEq, Properties)]
pub struct Props {
    /// What is set.
    pub exercise: Rc<Exercise>,
    /// It as it lies on the desk.
    pub on: OnDesk,
    /// Does something at the desk.
    pub act: Callback<DeskAct>,
}

/// The row below the answer.
#[component]
pub fn HandIn(props: &Props) -> Html {
    let Props { exercise, on, act } = props;
    // What is missing, once it was asked whether it may be.
    let asked = use_state_eq(|| None::<String>);
    {
        let asked = asked.setter();
        use_effect_with((on.answer.clone(), on.kind, on.level, on.seed), move |_| asked.set(None));
    }
    let hints = use_memo(exercise.clone(), |exercise| exercise.hints());
    let (taken, next) = (hints.iter().take(on.hints as usize), hints.get(on.hints as usize));
    let hand_in = {
        let (exercise, on, act, asked) = (exercise.clone(), on.clone(), act.clone(), asked.clone());
        Callback::from(move |_: MouseEvent| match exercise.unanswered(&on.answer) {
            Some(missing) if asked.is_none() => asked.set(Some(missing)),
            _ => act.emit(DeskAct::HandIn { date: today(), minutes: on.minutes(now()) }),
        })
    };
    let go_on = {
        let asked = asked.setter();
        Callback::from(move |_: MouseEvent| asked.set(None))
    };
    let step = |act_: DeskAct, name: &'static str, keys: &'static str, can: bool| {
        let act = act.clone();
        let onclick = Callback::from(move |_: MouseEvent| {
            if can {
                act.emit(act_.clone());
            }
        });
        html! { <button type="button" class="button" title={keys} aria-disabled={(!can).to_string()} {onclick}>{ name }</button> }
    };
    let hint = |hint: &crate::practice::Hint| html! { <li>{ words(&hint.says) }</li> };
    let price = match next {
        Some(hint) if on.hints == 0 => hint.price.clone(),
        Some(hint) => format!("{} {} of {} are taken.", hint.price, on.hints, hints.len()),
        None => "All hints are taken.".into(),
    };
    let question = asked.as_ref().map(|missing| format!("{missing} Hand in all the same?")).unwrap_or_default();
    html! {
        <div class="hand-in" hidden={on.handed_in}>
            <ol class="hints" aria-label="Hints" aria-live="polite">{ for taken.map(hint) }</ol>
            <div class="class-row">
                <button type="button" class="button hint" aria-disabled={next.is_none().to_string()} aria-describedby="hint-price"
                    onclick={act.reform(|_: MouseEvent| DeskAct::Hint)}>{ "A hint" }</button>
                <span id="hint-price" class="quiet">{ figures(&price) }</span>
                <span class="class-row steps-back">
                    { step(DeskAct::Undo, "Step back", "Ctrl+Z", !on.past.is_empty()) }
                    { step(DeskAct::Redo, "Step on", "Ctrl+Shift+Z", !on.future.is_empty()) }
                </span>
                <span class="class-row grow">
                    <span class="question" role="status">{ words(&question) }</span>
                    <button type="button" class="button" hidden={asked.is_none()} onclick={go_on}>{ "Go on" }</button>
                    <button type="button" class="button slip hands-in" onclick={hand_in}>
                        { if asked.is_some() { "Hand in all the same" } else { "Hand in" } }
                    </button>
                </span>
            </div>
        </div>
    }
}
