//! What would leave these pages, in words: the likeliest cause large, what can't be told from it beneath.

use crate::app::{AlikeTold, CauseTold, SectionTold};
use crate::ui::widgets::words;
use std::rc::Rc;
use yew::prelude::*;

/// Which cause folds itself: a group of causes, and one of its look-alikes or else its first.
pub type Chosen = (usize, Option<usize>);

/// What is known of the section.
pub enum Known {
    /// Nothing was found yet.
    Nothing,
    /// The section is being entered: so many of so many pages.
    Going(usize, usize),
    /// The worker is at it.
    Asked,
    /// It was read, and the causes are covered.
    Covered,
    /// It can't be read.
    Refused,
    /// It was laid together from parts of the sheet, so no cause is known, or the sheet is unfinished.
    Untold,
    /// It was read.
    Told(Rc<SectionTold>),
}

/// What the words need.
pub struct Props<'a> {
    /// What is known.
    pub known: &'a Known,
    /// Which cause folds itself.
    pub chosen: Chosen,
    /// Chooses another one.
    pub choose: Callback<Chosen>,
    /// Makes an example.
    pub example: Callback<()>,
    /// The buttons for those who teach.
    pub teach: Html,
    /// Uncovers the causes.
    pub uncover: Callback<()>,
    /// The two benches.
    pub pair: Html,
}

/// The right half of the room.
pub fn causes(props: &Props<'_>) -> Html {
    let told = match props.known {
        Known::Told(told) => Some(told),
        _ => None,
    };
    let card = told.and_then(|told| told.causes.get(props.chosen.0).or_else(|| told.causes.first()));
    let several = told.is_some_and(|told| told.causes.len() > 1);
    html! {
        <section class="causes" id="causes" tabindex="-1" aria-label="What would leave these pages">
            <div class="half-head"><h2>{ "What would leave these pages" }</h2>{ props.teach.clone() }</div>
            <div aria-live="polite">{ head(props, card) }</div>
            { props.pair.clone() }
            <div class="cause-body">{ card.map_or_else(Html::default, |card| body(props, card)) }</div>
            <div class="others" hidden={!several}>
                <h3>{ "These would as well, as the heads were not all looked at:" }</h3>
                <ol>{ for told.into_iter().flat_map(|told| others(props, told)) }</ol>
            </div>
            <p class="quiet cannot" hidden={told.is_none_or(|t| t.cannot_tell.is_none())}>
                { words(told.and_then(|t| t.cannot_tell.as_deref()).unwrap_or_default()) }
            </p>
        </section>
    }
}

fn head(props: &Props<'_>, card: Option<&CauseTold>) -> Html {
    let plain = |title: &str, says: &str| {
        html! {
            <div class="cause-head plain-head"><h3>{ words(title) }</h3><p hidden={says.is_empty()}>{ words(says) }</p></div>
        }
    };
    match (props.known, card) {
        (Known::Nothing, _) => html! {
            <div class="cause-head plain-head">
                <h3>{ "Tap what each page says. The cause then folds itself here." }</h3>
                <p><button type="button" class="button slip" onclick={props.example.reform(|_: MouseEvent| ())}>{ "Show me a wrong one" }</button></p>
            </div>
        },
        (Known::Untold, _) => plain(
            "What may go wrong with this section is not known.",
            "Its sheet is unfinished, or the section was laid together from parts of it before the folds.",
        ),
        (Known::Going(here, due), _) => {
            plain(&format!("{here} of {due} pages so far."), "The causes come with the last page.")
        }
        (Known::Covered, _) => html! {
            <div class="cause-head plain-head">
                <h3>{ "The causes are covered. What was done to this section?" }</h3>
                <p><button type="button" class="button slip" onclick={props.uncover.reform(|_: MouseEvent| ())}>{ "Uncover them" }</button></p>
            </div>
        },
        (Known::Asked, _) => plain("Trying every cause.", ""),
        (Known::Refused, _) => plain("This can’t be read.", ""),
        (Known::Told(told), None) if told.right => {
            plain("These pages are right.", "All of them, in order, heads up, the fold at the spine.")
        }
        (Known::Told(_), None) => plain("Nothing is told about these pages.", ""),
        (Known::Told(_), Some(card)) => {
            let number = card.cause.as_ref().map(|_| props.chosen.0 + 1);
            html! {
                <div class={classes!("cause-head", number.is_none().then_some("plain-head"))}>
                    <span class="stitch" hidden={number.is_none()}></span>
                    <span class="rank" hidden={number.is_none()}>{ number.unwrap_or_default() }</span>
                    <h3>{ words(&card.title) }</h3>
                    <p class="quiet stage">{ &card.stage }</p>
                </div>
            }
        }
    }
}

/// What the cause does, how it shows and what to look at, and its look-alikes.
fn body(props: &Props<'_>, card: &CauseTold) -> Html {
    html! {
        <>
            <p>{ words(&card.detail) }</p>
            <p>{ words(&card.mark) }</p>
            <p class="look-next"><b>{ "Look next: " }</b>{ words(&card.next_check) }</p>
            <p class="quiet caution">{ words(&card.caution) }</p>
            <div class="alike" hidden={card.alike.is_empty()}>
                <h3>{ "The pages can’t tell this from:" }</h3>
                <ul>{ for card.alike.iter().enumerate().map(|(at, one)| alike(props, at, one)) }</ul>
            </div>
        </>
    }
}

fn alike(props: &Props<'_>, at: usize, one: &AlikeTold) -> Html {
    let on = props.chosen.1 == Some(at);
    let group = props.chosen.0;
    let choose = props.choose.reform(move |_: MouseEvent| (group, if on { None } else { Some(at) }));
    html! {
        <li key={at} class={on.then_some("on")}>
            <div>
                <h4>{ words(&one.title) }</h4>
                <p class="quiet">{ words(&one.tell) }</p>
            </div>
            <button type="button" class="button" aria-pressed={on.to_string()} aria-label={format!("Fold it: {}", one.title)} onclick={choose}>
                { "Fold it" }
            </button>
        </li>
    }
}

/// The other groups of causes.
fn others(props: &Props<'_>, told: &SectionTold) -> Vec<Html> {
    let chosen = props.chosen.0;
    let other = |(at, card): (usize, &CauseTold)| {
        let choose = props.choose.reform(move |_: MouseEvent| (at, None));
        html! {
            <li key={at}>
                <span class="rank">{ at + 1 }</span>
                <div><h4>{ words(&card.title) }</h4><p class="quiet">{ words(&card.detail) }</p></div>
                <button type="button" class="button" aria-label={format!("Show it: {}", card.title)} onclick={choose}>{ "Show it" }</button>
            </li>
        }
    };
    told.causes.iter().enumerate().filter(|(at, _)| *at != chosen).map(other).collect()
}
