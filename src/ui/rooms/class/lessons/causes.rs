//! What was done to the sheet, chosen from what can have been; and the lay ticks of an open sheet.

use super::laid::Own;
use super::show::{look, name_cause};
use crate::fold::Crease;
use crate::fold::misfold::Cause;
use crate::practice::lesson::{Goal, OnBench, Ticks};
use crate::ui::widgets::figures;
use yew::prelude::*;

/// What choosing needs.
pub struct Props<'a> {
    /// What lay there at first.
    pub start: &'a OnBench,
    /// What is to come about.
    pub goal: &'a Goal,
    /// What was said.
    pub own: &'a Own,
    /// Says something.
    pub change: Callback<Own>,
}

/// The causes that can be named: each fold the other way, the sheet laid in otherwise, the second side printed otherwise.
fn choices(start: &OnBench) -> Vec<Cause> {
    let folds = (1..).zip(&start.printed.folds).map(|(fold, _)| Cause::FoldOtherWay { fold });
    let turned = Cause::SheetTurnedOver { about: Crease::Vertical };
    folds.chain([turned, Cause::SheetEndForEnd, Cause::SecondSideTurnedRound]).collect()
}

/// The choice.
pub fn causes(props: &Props<'_>) -> Html {
    let own = props.own.clone();
    let last = own.causes.last().cloned();
    let looks = *props.goal == Goal::Looked;
    let choice = |cause: Cause| {
        let pressed = (last.as_ref() == Some(&cause)).to_string();
        let (own, change, says) = (own.clone(), props.change.clone(), cause.title());
        let onclick = Callback::from(move |_: MouseEvent| {
            let mut said = own.clone();
            name_cause(&mut said, cause.clone());
            change.emit(said);
        });
        html! { <li><button type="button" class="button" aria-pressed={pressed} {onclick}>{ figures(&says) }</button></li> }
    };
    let onclick = {
        let (own, change) = (own.clone(), props.change.clone());
        Callback::from(move |_: MouseEvent| {
            let mut said = own.clone();
            look(&mut said);
            change.emit(said);
        })
    };
    html! {
        <>
            <ul class="causes" aria-label="What was done" hidden={looks}>{ for choices(props.start).into_iter().map(choice) }</ul>
            <div class="ticks" hidden={props.start.ticks.is_none() || !(looks || own.looked)}>
                { drawn(props.start.ticks.filter(|_| own.looked)) }
                <button type="button" class="button" hidden={!looks} {onclick}>{ "Look at the lay ticks" }</button>
            </div>
        </>
    }
}

/// The open sheet at the folder's guides: a stop in front and a guide at the side. Which side is invented.
fn drawn(ticks: Option<Ticks>) -> Html {
    let (says, tick) = match ticks {
        None => ("An open sheet of this pile at the folder’s guides. Nobody has looked at its edges yet.", ""),
        Some(Ticks::AtGuides) => {
            ("The sheet at the folder’s guides: its lay ticks lie at the guides.", "M58 130v-12M112 130v-12M30 70h12")
        }
        Some(Ticks::Elsewhere) => (
            "The sheet at the folder’s guides: its lay ticks lie at other edges.",
            "M58 130v-12M112 130v-12M170 70h-12",
        ),
    };
    html! {
        <svg viewBox="0 0 200 150" role="img" aria-label={says}>
            <rect class="lesson-paper" x="30" y="20" width="140" height="110" />
            <path class="guide" d="M20 40v60M44 138h30M98 138h30" />
            <path class="tick" d={tick} />
        </svg>
    }
}
