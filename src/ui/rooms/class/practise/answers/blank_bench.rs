//! A blank sheet that is folded step by step as the task tells, so that nobody needs paper at hand; once it was answered right, with
//! what stands on it.

use crate::app::{Action, State, blank_sheet, state_of_course};
use crate::fold::Course;
use crate::scene::{Printing, Rule};
use crate::ui::bench::{RuleProps, RuleShape, use_rule};
use crate::ui::rooms::class::stand::{Stand, use_stand_canvas, use_stand_printed};
use crate::ui::rooms::fold::moment_name;
use crate::ui::rooms::fold::tables::tables;
use crate::ui::widgets::words;
use crate::words::capital;
use gloo_utils::window;
use std::rc::Rc;
use yew::prelude::*;

/// What lies there.
#[derive(Clone, PartialEq, Properties)]
pub struct BlankBenchProps {
    /// How the sheet is worked.
    pub course: Rc<Course>,
    /// What stands on it, if it is blank no more.
    #[prop_or_default]
    pub printed: Option<Rc<Printing>>,
    /// Whether the window is narrow.
    pub narrow: bool,
}

/// The bench and its rule.
#[component]
pub fn BlankBench(props: &BlankBenchProps) -> Html {
    let begun = use_memo((props.course.clone(), props.printed.clone()), |(course, printed)| {
        let state = state_of_course(course);
        let printed = printed.clone().unwrap_or_else(|| Rc::new(blank_sheet(&state)));
        (state, printed)
    });
    let stand = {
        let (state, printed) = (*begun).clone();
        use_stand_printed(move || state, true, Some(printed))
    };
    let says = says(&stand, "Take the corner and fold.");
    let canvas = use_stand_canvas(&stand, says.clone().into());
    let rule = use_stand_rule(&stand, props.narrow);
    html! {
        <div class="own-bench">
            { canvas }
            <div class="says-row">
                <p class="stand-says" aria-live="polite">{ words(&says) }</p>
                { turn_over(&stand) }
            </div>
            { rule }
            { stand.bench.as_ref().map(|bench| tables(&stand.state, bench)).unwrap_or_default() }
        </div>
    }
}

/// What is happening on a bench, or what was refused there.
pub fn says(stand: &Stand, flat: &str) -> String {
    let state: &State = &stand.state;
    if let Some(said) = &state.said {
        return said.clone();
    }
    match &stand.bench {
        Some(_) if state.look.at == 0.0 => flat.to_owned(),
        Some(bench) => match state.moment_sentence(bench) {
            // A blank sheet has no pages to tell.
            says if says.is_empty() => format!("{}.", capital(&moment_name(bench, state.look.at, state.look.lay))),
            says => says,
        },
        None => String::new(),
    }
}

/// The button that turns the sheet over.
pub fn turn_over(stand: &Stand) -> Html {
    let lay = stand.state.look.lay;
    let over = stand.act.reform(move |_: MouseEvent| Action::Lay(lay.turned_over()));
    html! {
        <button type="button" class="button turn-over" aria-pressed={lay.over.to_string()} onclick={over}
            title="Key T, or two taps on the sheet. R, or two fingers, turns it round.">{ "Turn over" }</button>
    }
}

/// Width of the rule, as the style sheets leave it (px).
fn rule_width(narrow: bool) -> f64 {
    let window = window().inner_width().ok().and_then(|w| w.as_f64()).unwrap_or(1280.0);
    match window {
        w if narrow => w - 32.0,
        w if w < 1700.0 => (w - 280.0) / 2.0,
        w => (w - 392.0) / 2.0,
    }
}

/// The rule of a bench.
#[hook]
pub fn use_stand_rule(stand: &Stand, narrow: bool) -> Html {
    let (state, bench) = (&stand.state, stand.bench.as_ref());
    let rule = bench.map_or(Rule { folds: 0, leaves: 0 }, |b| b.rule);
    use_rule(&RuleProps {
        hands: stand.hands.clone(),
        shape: RuleShape { rule, width: rule_width(narrow) },
        packets: bench.map(|b| (0..=b.rule.folds).map(|k| b.size_at(k)).collect()).unwrap_or_default(),
        marks: bench.map(|b| (0..b.rule.folds).map(|k| b.step_mark(k)).collect()).unwrap_or_default(),
        at: state.look.at,
        says: bench.map(|b| moment_name(b, state.look.at, state.look.lay)).unwrap_or_default().into(),
    })
}
