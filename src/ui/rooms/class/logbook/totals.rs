//! Sums by kind and level: a rule for each, as long as a hundred marks, with a line where a pass begins.

use crate::practice::{Total, halves};
use crate::ui::widgets::words;
use yew::prelude::*;

/// The pass mark, per cent, as in the rules of the logbook.
const PASS: u32 = 80;

/// The table of sums.
pub fn totals(totals: &[Total]) -> Html {
    let row = |total: &Total| {
        let marks = |half: u64| halves(u32::try_from(half).unwrap_or(u32::MAX));
        html! {
            <tr key={format!("{}-{}", total.kind.number(), total.level)}>
                <th scope="row">{ total.kind.title() }</th>
                <td class="n">{ total.level }</td>
                <td class="n">{ total.tries }</td>
                <td class="n">{ format!("{} of {}", marks(total.got), marks(total.of)) }</td>
                <td class="n">{ total.hints }</td>
                <td class="n">{ total.minutes }</td>
                <td class="drawn">{ bar(total) }</td>
            </tr>
        }
    };
    html! {
        <table class="totals" hidden={totals.is_empty()}>
            <caption>{ words(&format!("By kind and level. The rule shows the last five tries, of a hundred marks; the line stands at {PASS}.")) }</caption>
            <thead><tr>
                <th scope="col">{ "Exercise" }</th><th scope="col">{ "Level" }</th><th scope="col">{ "Tries" }</th>
                <th scope="col">{ "Marks" }</th><th scope="col">{ "Hints" }</th><th scope="col">{ "Minutes" }</th>
                <th scope="col">{ "Last five" }</th>
            </tr></thead>
            <tbody>{ for totals.iter().map(row) }</tbody>
        </table>
    }
}

fn bar(total: &Total) -> Html {
    let long = total.last_percent.min(100);
    let class = if long < PASS { "of-hundred weak" } else { "of-hundred" };
    html! {
        <>
            <svg {class} viewBox="0 0 100 14" preserveAspectRatio="none" aria-hidden="true">
                <rect class="whole" width="100" height="14" /><rect class="had" width={long.to_string()} height="14" />
                <line class="pass" x1="80" x2="80" y1="0" y2="14" />
            </svg>
            <span class="n">{ long }</span>
        </>
    }
}
