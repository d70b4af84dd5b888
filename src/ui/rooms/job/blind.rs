//! What these marks can't show, and the smallest change that would.

use super::plans::with_commas;
use crate::app::{Action, BlindTold, BookAct, SpotTold};
use crate::ui::store::Act;
use crate::ui::widgets::words;
use yew::prelude::*;

/// The blind spots, each with the change that removes it.
pub fn spots(told: Option<&Result<BlindTold, String>>, act: &Act) -> Html {
    let told = match told {
        None => {
            return html! {
                <section class="blind" aria-label="What these marks can’t show">
                    <p class="quiet" role="status">{ "Every fault is being acted out." }</p>
                </section>
            };
        }
        Some(Err(why)) => {
            return html! {
                <section class="blind" aria-label="What these marks can’t show"><p role="status">{ why.clone() }</p></section>
            };
        }
        Some(Ok(told)) => told,
    };
    let [acted, right, alike] = told.counts.map(|n| with_commas(f64::from(n)));
    let says = format!("{acted} wrong books were acted out: {right} look right, {alike} look like another.");
    let spot = |(i, spot): (usize, &SpotTold)| html! { <li key={i}>{ one(spot, act) }</li> };
    html! {
        <section class="blind" aria-label="What these marks can’t show">
            <h2>{ "What these marks can’t show" }</h2>
            <p role="status" class="acted-out">{ words(&says) }</p>
            <ul class="findings" hidden={told.misfits.is_empty()}>
                { for told.misfits.iter().map(|says| html! { <li class="finding wrong"><p>{ words(says) }</p></li> }) }
            </ul>
            <ol class="spots">{ for told.spots.iter().enumerate().map(spot) }</ol>
            <details hidden={told.never.is_empty() && told.sampled.is_empty()}>
                <summary class="plain">{ "What no mark on a back shows, and what was not tried" }</summary>
                <ul class="findings quiet">
                    { for told.never.iter().chain(&told.sampled).map(|says| html! { <li><p>{ words(says) }</p></li> }) }
                </ul>
            </details>
        </section>
    }
}

fn one(spot: &SpotTold, act: &Act) -> Html {
    let example = |(i, (says, read_as)): (usize, &(String, String))| {
        html! { <li key={i}><p>{ words(says) }</p><p class="quiet">{ words(read_as) }</p></li> }
    };
    let change = spot.change.clone();
    let onclick = {
        let act = act.clone();
        Callback::from(move |_: MouseEvent| {
            if let Some(marks) = change.clone() {
                act.emit(Action::Book(BookAct::Marks(Box::new(marks))));
            }
        })
    };
    html! {
        <>
            <p class="spot-title">{ words(&spot.title) }</p>
            <p hidden={spot.detail.is_empty()}>{ words(&spot.detail) }</p>
            <p>{ words(&spot.remedy) }</p>
            <div class="job-row">
                <button type="button" class="button slip change" hidden={spot.change.is_none()} {onclick}
                    aria-label={format!("Change the marks so: {}", spot.remedy)}>{ "Change the marks so" }</button>
                <details hidden={spot.examples.is_empty()}>
                    <summary class="plain">{ "Books that look so" }</summary>
                    <ul class="findings">{ for spot.examples.iter().enumerate().map(example) }</ul>
                </details>
            </div>
        </>
    }
}
