//! What was handed in, newest first. Each entry opens its exercise again.

use crate::practice::{Entry, Kind, halves};
use yew::prelude::*;

/// So many are shown at first; a long logbook is drawn a piece at a time.
const AT_ONCE: usize = 50;

/// What the table needs.
#[derive(Clone, PartialEq, Properties)]
pub struct Props {
    /// The entries, oldest first.
    pub logbook: Vec<Entry>,
    /// Opens an exercise again.
    pub look_again: Callback<(Kind, u8, u64)>,
}

#[component]
pub fn Entries(props: &Props) -> Html {
    let shown = use_state_eq(|| AT_ONCE);
    let more = {
        let shown = shown.clone();
        Callback::from(move |_: MouseEvent| shown.set(*shown + 10 * AT_ONCE))
    };
    let count = props.logbook.len();
    let row = |(number, entry): (usize, &Entry)| {
        let set = (entry.kind, entry.level, entry.seed);
        let onclick = props.look_again.reform(move |_: MouseEvent| set);
        html! {
            <tr key={number}>
                <td>{ entry.date.clone() }</td>
                <th scope="row">
                    <button type="button" class="plain" {onclick} title="Opens this exercise again. What lies unfinished in Practise is laid aside.">
                        { entry.kind.title() }
                    </button>
                </th>
                <td class="n">{ entry.level }</td>
                <td class="n">{ format!("{} of {}", halves(entry.got), halves(entry.of)) }</td>
                <td class="n">{ entry.hints }</td>
                <td class="n">{ entry.minutes }</td>
            </tr>
        }
    };
    html! {
        <div class="entries" hidden={count == 0}>
            <table>
                <caption>{ "What was handed in, newest first" }</caption>
                <thead><tr>
                    <th scope="col">{ "Date" }</th><th scope="col">{ "Exercise" }</th><th scope="col">{ "Level" }</th>
                    <th scope="col">{ "Marks" }</th><th scope="col">{ "Hints" }</th><th scope="col">{ "Minutes" }</th>
                </tr></thead>
                <tbody>{ for props.logbook.iter().enumerate().rev().take(*shown).map(row) }</tbody>
            </table>
            <button type="button" class="button" hidden={count <= *shown} onclick={more}>{ "Show older ones" }</button>
        </div>
    }
}
