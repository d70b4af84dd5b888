//! The front of the bench: which books to hold, which to open next, and what else can be done.

use super::reckon::Reckoned;
use crate::since::Judged;
use crate::ui::widgets::{figures, words};
use crate::words::{capital, grouped};
use yew::prelude::*;

/// What the front needs.
pub struct Props<'a> {
    /// Which books to hold, in a sentence; empty while nothing is known of them.
    pub says: &'a str,
    /// What to mind.
    pub caution: &'a str,
    /// Which book to open next, and which to hold.
    pub reckoned: &'a Reckoned,
    /// Whether the run is being halved.
    pub halving: bool,
    /// The section to be shown on the bench.
    pub section: Option<u32>,
    /// Whether there is anything to report.
    pub told: bool,
    /// Offers the kinds of find.
    pub add: Callback<()>,
    /// Begins to halve the run, or ends it.
    pub halve: Callback<bool>,
    /// A book was opened: its number, and what was found.
    pub judge: Callback<(u32, Judged)>,
    /// Shows a section on the bench.
    pub show: Callback<u32>,
    /// Opens the report.
    pub report: Callback<()>,
}

/// The front.
pub fn front(props: &Props<'_>) -> Html {
    let halving = props.halving;
    let section = props.section.unwrap_or(0);
    html! {
        <section class="front hold" aria-label="Books to hold">
            <div class="hold-words">
                <p class="hold-says" aria-live="polite">{ words(props.says) }</p>
                { why(props.reckoned) }
                <p class="quiet caution" hidden={props.caution.is_empty()}>{ words(props.caution) }</p>
            </div>
            { next(props) }
            <div class="hold-tools">
                <button type="button" class="button" onclick={props.add.reform(|_: MouseEvent| ())}>{ "Add a find" }</button>
                <button type="button" class="button" aria-pressed={halving.to_string()}
                    onclick={props.halve.reform(move |_: MouseEvent| !halving)}>{ "Halve the run" }</button>
                <button type="button" class="button" hidden={props.section.is_none()}
                    onclick={props.show.reform(move |_: MouseEvent| section)}>{ figures(&format!("Show section {section} on the bench")) }</button>
                <button type="button" class="button slip write-report" aria-disabled={(!props.told).to_string()}
                    onclick={props.report.reform(|_: MouseEvent| ())}>{ "Write the fault report" }</button>
            </div>
        </section>
    }
}

/// Why these, which are likeliest, and which may go on.
fn why(reckoned: &Reckoned) -> Html {
    let hold = reckoned.hold.as_ref();
    let says = hold.map(|hold| hold.says.get(1..).unwrap_or_default().to_vec()).unwrap_or_default();
    let each = hold.map(|hold| hold.safe.iter().map(|held| held.why.clone()).collect::<Vec<_>>()).unwrap_or_default();
    let disagrees = hold.map(|hold| hold.disagrees.clone()).unwrap_or_default();
    let release = hold.map(|hold| {
        hold.release.iter().map(|held| format!("{}: {}", capital(&held.says()), held.why)).collect::<Vec<_>>()
    });
    let release = release.unwrap_or_default();
    let strictly = reckoned.strictly.clone().unwrap_or_default();
    let lines = |all: &[String]| html! { <>{ for all.iter().map(|line| html! { <li>{ words(line) }</li> }) }</> };
    html! {
        <details class="hold-why" hidden={hold.is_none()}>
            <summary>{ "Why these, and which may go on" }</summary>
            <p hidden={strictly.is_empty()}>{ "As long as it is not decided that the books lie so: " }{ words(&strictly) }</p>
            <ul>{ lines(&says) }{ lines(&each) }{ lines(&disagrees) }</ul>
            <h4 hidden={release.is_empty()}>{ "These may go on" }</h4>
            <ul>{ lines(&release) }</ul>
        </details>
    }
}

/// The book to open next, and what was found in it.
fn next(props: &Props<'_>) -> Html {
    let (open, lines, means) = match &props.reckoned.plan {
        Ok(plan) => {
            let left = match plan.at_most {
                0 => String::new(),
                1 => "1 opening is left.".to_owned(),
                n => format!("At most {n} openings are left."),
            };
            let lines: Vec<String> = plan.says.iter().cloned().chain((!left.is_empty()).then_some(left)).collect();
            (plan.open, lines, [plan.if_good.clone(), plan.if_bad.clone()])
        }
        Err(why) => (None, vec![why.clone()], [None, None]),
    };
    let (first, rest) = lines.split_first().map_or((String::new(), String::new()), |(f, r)| (f.clone(), r.join(" ")));
    let found = |judged: Judged, says: &'static str| {
        let (judge, number) = (props.judge.clone(), open.unwrap_or(0));
        let onclick = Callback::from(move |_: MouseEvent| judge.emit((number, judged)));
        let label = format!("It is {says}: book {}", grouped(number));
        html! { <button type="button" class="button slip" aria-label={label} {onclick}>{ format!("It is {says}") }</button> }
    };
    let [if_good, if_bad] = means.map(Option::unwrap_or_default);
    html! {
        <div class="halving" hidden={!props.halving} role="group" aria-label="Halve the run">
            <p class="open-next" aria-live="polite">{ words(&first) }</p>
            <div class="judged" hidden={open.is_none()}>{ found(Judged::Good, "good") }{ found(Judged::Bad, "bad") }</div>
            <p class="quiet">{ words(&rest) }</p>
            <p class="quiet" hidden={if_good.is_empty()}>{ "Good: " }{ words(&if_good) }</p>
            <p class="quiet" hidden={if_bad.is_empty()}>{ "Bad: " }{ words(&if_bad) }</p>
        </div>
    }
}
