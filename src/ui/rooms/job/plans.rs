//! The ways of making a book up, each drawn as its sections, with what it takes and why it stands where it does.

use super::row::finding;
use crate::app::{BookAct, PlanTold, PlansTold, of_sizes};
use crate::ui::widgets::words;
use crate::units::short;
use yew::prelude::*;

/// All of them, the one by hand first.
pub fn list(told: &PlansTold, now: &[u32], take: &Callback<Result<BookAct, String>>, narrow: bool) -> Html {
    let by_hand = told.by_hand.iter().filter(|hand| told.plans.iter().all(|plan| sizes(plan) != sizes(hand)));
    let hand = by_hand.map(|plan| one("by hand".into(), plan, now, take, narrow));
    let all = (1u32..).zip(&told.plans).map(|(rank, plan)| one(rank.to_string(), plan, now, take, narrow));
    let ranked = format!("Ranked by: {}.", told.ranked_by.join("; "));
    let more = format!("{} more ways stand behind these.", told.more);
    html! {
        <>
            <ul class="findings" hidden={told.findings.is_empty()}>{ for told.findings.iter().map(finding) }</ul>
            <ol class="plans">{ for hand.chain(all) }</ol>
            <p class="quiet" hidden={told.more == 0}>{ words(&more) }</p>
            <p class="quiet">{ ranked }</p>
        </>
    }
}

fn sizes(plan: &PlanTold) -> Vec<u32> {
    plan.sections.iter().map(|section| section.pages).collect()
}

fn one(name: String, plan: &PlanTold, now: &[u32], take: &Callback<Result<BookAct, String>>, narrow: bool) -> Html {
    let sections = sizes(plan);
    let taken = sections == now;
    let act = plan.act();
    let why_not = act.as_ref().err().cloned().unwrap_or_default();
    let onclick = take.reform(move |_: MouseEvent| act.clone());
    let title = of_sizes(&sections);
    let pair = |name: &'static str, value: String, unit: &'static str| {
        html! { <div><dt>{ name }</dt><dd>{ words(&value) }{ unit }</dd></div> }
    };
    let folds: Vec<String> = folds_of(plan);
    let key = format!("{name}-{title}");
    let does = if taken { "Made up so" } else { "Take it" };
    html! {
        <li {key} class={classes!("plan", taken.then_some("taken"))}>
            <p class="plan-title"><span class="rank">{ words(&name) }</span>{ " " }{ words(&title) }</p>
            { packets(&sections, narrow) }
            <dl class="plan-sums">
                { pair("Sheets a copy", short(plan.sheets), "") }
                { pair("of the run", with_commas(plan.sheets_run), "") }
                { pair("Waste", short(plan.waste), " %") }
                { pair("Blank", plan.blanks.to_string(), "") }
                { pair("Folded a copy", plan.folded.to_string(), "") }
            </dl>
            <p class="quiet" hidden={plan.behind.is_empty()}>{ words(&plan.behind) }</p>
            <div class="job-row">
                <button type="button" class="button slip" aria-disabled={(taken || !why_not.is_empty()).to_string()} {onclick}
                    aria-label={format!("{does}: {title}")}>
                    { does }
                </button>
                <details>
                    <summary class="plain">{ "Why, and what it takes" }</summary>
                    <ul class="findings">
                        { for folds.iter().map(|says| html! { <li class="finding"><p>{ words(says) }</p></li> }) }
                        { for plan.findings.iter().map(finding) }
                    </ul>
                </details>
            </div>
            <p class="quiet" hidden={why_not.is_empty()}>{ words(&why_not) }</p>
        </li>
    }
}

/// What each size of section is folded from: "32 pages: Thirty-two, right-angle."
fn folds_of(plan: &PlanTold) -> Vec<String> {
    let mut says: Vec<String> = Vec::new();
    for section in &plan.sections {
        let parts: Vec<&str> = section.parts.iter().map(|(name, _)| name.as_str()).collect();
        let one = format!("{} pages: {}.", section.pages, parts.join(", with "));
        if !says.contains(&one) {
            says.push(one);
        }
    }
    says
}

/// "16,875".
pub fn with_commas(n: f64) -> String {
    // A cast is bounded by the type.
    crate::words::grouped(n.round() as u32)
}

/// The sections as packets, as thick as they have pages.
fn packets(sections: &[u32], narrow: bool) -> Html {
    let width = if narrow { 320.0 } else { 560.0 };
    let all: u32 = sections.iter().sum();
    let most = sections.iter().max().copied().unwrap_or(1);
    let scale = width / f64::from(all.max(1));
    let mut at = 0.0;
    let packet = |(i, pages): (usize, &u32)| {
        let w = f64::from(*pages) * scale;
        let x = at;
        at += w;
        let tall = 12.0 + 16.0 * f64::from(*pages) / f64::from(most);
        html! {
            <rect key={i} class={classes!("packet-paper", (*pages != most).then_some("odd"))} x={short(x)}
                y={short(28.0 - tall)} width={short((w - 1.5).max(1.0))} height={short(tall)} />
        }
    };
    let rects: Vec<Html> = sections.iter().enumerate().map(packet).collect();
    html! {
        <svg class="packets" viewBox={format!("0 0 {} 28", short(width))} aria-hidden="true"><g>{ for rects }</g></svg>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn thousands_are_divided() {
        assert_eq!([0.0, 999.0, 1000.0, 1_234_567.0].map(with_commas), ["0", "999", "1,000", "1,234,567"]);
    }
}
