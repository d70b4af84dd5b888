//! Block and case: what the sewn block measures, and what its boards, its strip and its cloth do.

use super::Props;
use super::case_drawn;
use super::fields::{Number, choice};
use super::row::finding;
use crate::app::{Action, BookAct, Casing, read_described};
use crate::book::Back;
use crate::paper::Length;
use crate::ui::asked::use_answer;
use crate::ui::store::Act;
use crate::ui::widgets::words;
use yew::prelude::*;

/// Block and case.
#[component]
pub fn Case(props: &Props) -> Html {
    let Props { state, act, checker, .. } = props;
    let heard = use_answer(checker, Some(state.job.describe_question()), read_described);
    let (bound, findings, says) = match heard.as_ref() {
        None => (None, Html::default(), "Reckoning."),
        Some((_, Err(why))) => (None, Html::default(), why.as_str()),
        Some((_, Ok(told))) => {
            let extent = told.extent.iter().map(|says| html! { <li><p>{ words(says) }</p></li> });
            let bound = told.bound.iter().flat_map(|bound| &bound.findings).map(finding);
            (told.bound.as_ref(), html! { <ul class="findings">{ for extent }{ for bound }</ul> }, "")
        }
    };
    html! {
        <>
            { bound.map_or_else(Html::default, |bound| case_drawn::drawn(bound, &state.job.casing)) }
            <div class="job-columns marks">
                <section aria-label="How it is bound">
                    <h2>{ "Sewn and bound" }</h2>
                    { fields(&state.job.casing, act) }
                    <p class="quiet note">{ "Paper and trims are set beside the bench, in Fold." }</p>
                </section>
                <section aria-label="Block and case">
                    <h2>{ "How it is reckoned" }</h2>
                    <p role="status" hidden={says.is_empty()}>{ says.to_owned() }</p>
                    { findings }
                </section>
            </div>
        </>
    }
}

fn fields(casing: &Casing, act: &Act) -> Html {
    let set = |f: fn(&mut Casing, f64)| {
        let casing = *casing;
        act.reform(move |n: f64| {
            let mut casing = casing;
            f(&mut casing, n);
            Action::Book(BookAct::Casing(casing))
        })
    };
    let back = {
        let casing = *casing;
        act.reform(move |at: usize| {
            let back = if at == 1 { Back::Round } else { Back::Flat };
            Action::Book(BookAct::Casing(Casing { back, ..casing }))
        })
    };
    let joint = casing.joint.unwrap_or(casing.square);
    html! {
        <div class="job-fields">
            { choice("back-shape", "Back", &["flat", "rounded"], usize::from(casing.back == Back::Round), back) }
            <Number id="thread" label="Thread" now={casing.thread.mm()} unit="mm" step={0.05} set={set(|c, n| c.thread = Length::from_mm(n))} />
            <Number id="nipped" label="Swell pressed away" now={casing.nipped_percent} unit="%" step={5.0} set={set(|c, n| c.nipped_percent = n)} />
            <Number id="board" label="Boards, thick" now={casing.board.mm()} unit="mm" step={0.5} set={set(|c, n| c.board = Length::from_mm(n))} />
            <Number id="square" label="Squares" now={casing.square.mm()} unit="mm" step={0.5} set={set(|c, n| c.square = Length::from_mm(n))} />
            <Number id="joint" label="Joints" now={joint.mm()} unit="mm" step={0.5} set={set(|c, n| c.joint = Some(Length::from_mm(n)))} />
            <Number id="turn-in" label="Turn-in" now={casing.turn_in.mm()} unit="mm" set={set(|c, n| c.turn_in = Length::from_mm(n))} />
        </div>
    }
}
