//! What an answer was worth, item by item, and what comes next.

use super::Which;
use crate::class::Desk;
use crate::practice::{Exercise, Item, Marked, halves};
use crate::ui::widgets::{figures, words};
use std::rc::Rc;
use web_sys::HtmlElement;
use yew::prelude::*;

/// What it needs.
#[derive(Clone, PartialEq, Properties)]
pub struct Props {
    /// What was set.
    pub exercise: Rc<Exercise>,
    /// What it was worth, once it was handed in.
    pub marked: Option<Rc<Marked>>,
    /// The desk with its logbook.
    pub desk: Rc<Desk>,
    /// Sets another exercise.
    pub set: Callback<Which>,
}

/// The marks. Nothing is seen of it before the answer is handed in.
#[component]
pub fn Marks(props: &Props) -> Html {
    let Props { exercise, marked, desk, set } = props;
    let total = use_node_ref();
    let seen = use_mut_ref(|| marked.is_some());
    {
        // Whoever hands in is led to what it was worth; whoever comes back is not.
        let total = total.clone();
        use_effect_with(marked.is_some(), move |is_marked| {
            if *is_marked
                && !seen.replace(*is_marked)
                && let Some(total) = total.cast::<HtmlElement>()
            {
                let _ = total.focus();
                total.scroll_into_view();
            }
            *seen.borrow_mut() = *is_marked;
        });
    }
    let Some(marked) = marked else { return html! { <section class="marked" hidden=true></section> } };
    let next = desk.logbook.next();
    let again = (exercise.kind, exercise.level, desk.logbook.new_seed(exercise.kind, exercise.level));
    let go = |to: Which| set.reform(move |_: MouseEvent| to);
    let minutes = desk.logbook.entries().last().map(|entry| entry.minutes).unwrap_or_default();
    let spent = if minutes == 1 { "1 minute".into() } else { format!("{minutes} minutes") };
    // The first sentence is the total, which stands above; where the answer departs is said where it is shown.
    let departs = marked.departs.as_ref().map(|d| &d.says);
    let says = marked.says.iter().skip(1).filter(|says| Some(*says) != departs);
    html! {
        <section class="marked" aria-label="Marks">
            <h3 ref={total} class="total" tabindex="-1">
                { figures(&format!("{} of {} marks", halves(marked.got), halves(marked.of))) }
                <span class="quiet">{ words(&format!(", {spent}. It stands in your logbook.")) }</span>
            </h3>
            <div class="says-marks">{ for says.map(|says| html! { <p>{ words(says) }</p> }) }</div>
            <div class="class-row">
                <button type="button" class="button slip what-next" onclick={go((next.kind, next.level, next.seed))}>{ "What next" }</button>
                <button type="button" class="button another" onclick={go(again)}>{ "Another of this kind" }</button>
            </div>
            <p>{ figures(&format!("Next: {}, level {}. {}", next.kind.title(), next.level, next.says)) }</p>
            <p class="quiet">{ figures(&format!("The logbook’s rule: {}", next.rule)) }</p>
            <details class="items">
                <summary>{ "All marks, one by one" }</summary>
                <table>
                    <thead><tr>
                        <th scope="col">{ "What" }</th><th scope="col">{ "Given" }</th><th scope="col">{ "Right" }</th>
                        <th scope="col">{ "Marks" }</th>
                    </tr></thead>
                    <tbody>{ for marked.items.iter().map(row) }</tbody>
                </table>
            </details>
        </section>
    }
}

fn row(item: &Item) -> Html {
    let given = if item.given.is_empty() { "nothing" } else { &item.given };
    html! {
        <tr class={(item.got < item.of).then_some("lost")}>
            <th scope="row">{ words(&item.what) }</th><td>{ words(given) }</td><td>{ words(&item.right) }</td>
            <td>{ figures(&format!("{} of {}", halves(item.got), halves(item.of))) }</td>
        </tr>
    }
}
