//! The found section as paper: the opening in hand, large, and all openings in a row.

use super::found::{Found, down, openings, sides};
use crate::fold::Reads;
use crate::fold::misfold::FoundPage;
use crate::ui::widgets::words;
use crate::units::short;
use yew::prelude::*;

/// What is drawn.
pub struct Props {
    /// What was found.
    pub found: Found,
    /// The opening in hand.
    pub opening: usize,
    /// The place that is entered next.
    pub entering: Option<usize>,
    /// On which side odd pages lie.
    pub reads: Reads,
    /// Called with a place that was tapped.
    pub tap: Callback<usize>,
    /// Called with an opening that was tapped.
    pub open: Callback<usize>,
    /// Says that the section ends here, though pages are due; `None` where it has no page yet or is complete.
    pub end: Option<Callback<()>>,
}

/// The opening in hand: two pages, each to be tapped.
pub fn in_hand(props: &Props) -> Html {
    let places = props.found.places();
    let (verso, recto) = sides(props.opening, places);
    let page = |at: Option<usize>, side: &'static str| {
        let Some(at) = at else { return html! { <span key={side} class="no-leaf"></span> } };
        let (found, now) = (&props.found, props.entering == Some(at));
        let due = found.due.get(at).filter(|_| found.is_wrong(at)).map(|d| format!(", where {d} is due"));
        let label = format!("Place {}: {}{}", at + 1, found.says(at), due.unwrap_or_default());
        let tap = props.tap.reform(move |_: MouseEvent| at);
        html! {
            <button key={side} type="button" class={classes!("leaf", now.then_some("now"))} aria-pressed={now.to_string()} onclick={tap}>
                <span class="unseen">{ label }</span>
                <svg viewBox="0 0 148 210" aria-hidden="true">
                    { leaf(found.pages.get(at), found.is_wrong(at)) }
                    <text class="place-note" x="74" y="118">{ note(found.pages.get(at), at) }</text>
                </svg>
            </button>
        }
    };
    let (left, right) = match props.reads {
        Reads::LeftToRight => (page(verso, "verso"), page(recto, "recto")),
        Reads::RightToLeft => (page(recto, "recto"), page(verso, "verso")),
    };
    html! { <div class="in-hand" role="group" aria-label="The section in hand">{ left }{ right }</div> }
}

fn note(page: Option<&FoundPage>, at: usize) -> String {
    if page.is_some() { String::new() } else { format!("place {}", at + 1) }
}

/// All openings in a row, front and back among them.
pub fn row(props: &Props) -> Html {
    let places = props.found.places();
    let opening = |k: usize| {
        let (verso, recto) = sides(k, places);
        let (left, right) = match props.reads {
            Reads::LeftToRight => (verso, recto),
            Reads::RightToLeft => (recto, verso),
        };
        let half = |at: Option<usize>, x: f64| match at {
            None => html! { <g></g> },
            Some(at) => html! {
                <g transform={format!("translate({} 0)", short(x))}>
                    { leaf(props.found.pages.get(at), props.found.is_wrong(at)) }
                </g>
            },
        };
        let says = props.found.sentence(k);
        let label = if says.is_empty() { format!("Opening {}: not entered", k + 1) } else { says };
        let here = (props.opening == k).then_some("true");
        let open = props.open.reform(move |_: MouseEvent| k);
        html! {
            <li key={k}>
                <button type="button" class="opening" aria-current={here} onclick={open}>
                    <span class="unseen">{ label }</span>
                    <svg viewBox="0 0 300 214" aria-hidden="true">{ half(left, 1.0) }{ half(right, 151.0) }</svg>
                </button>
            </li>
        }
    };
    html! { <ol class="openings" aria-label="The whole section, opening by opening">{ for (0..openings(places)).map(opening) }</ol> }
}

/// What the opening in hand shows, in a sentence.
pub fn sentence(props: &Props) -> Html {
    let says = match props.entering.filter(|at| *at >= props.found.pages.len()) {
        Some(at) => format!("Place {} of {}: which page is there?", at + 1, props.found.places().max(at + 1)),
        None => props.found.sentence(props.opening),
    };
    let end = props.end.clone();
    let hidden = end.is_none();
    let end = Callback::from(move |_: MouseEvent| {
        if let Some(end) = &end {
            end.emit(());
        }
    });
    html! {
        <div class="hand-foot">
            <p class="hand-says" tabindex="-1" aria-live="polite">{ words(&says) }</p>
            <button type="button" class="plain" {hidden} onclick={end}>{ "It ends here" }</button>
        </div>
    }
}

/// A page in its own units: figure, head tick, and a frame of dashes where it is wrong.
pub fn leaf(page: Option<&FoundPage>, wrong: bool) -> Html {
    let Some(page) = page else {
        return html! { <rect class="leaf-none" x="3" y="3" width="142" height="204" /> };
    };
    let frame =
        html! { <rect class={if wrong { "leaf-wrong" } else { "no-frame" }} x="13" y="13" width="122" height="184" /> };
    let Some(number) = page.page else {
        return html! { <g><rect class="leaf-paper" width="148" height="210" />{ frame }</g> };
    };
    let text = number.to_string();
    let size = match text.len() {
        1 => 118.0,
        2 => 106.0,
        3 => 74.0,
        _ => 52.0,
    } * if wrong { 0.78 } else { 1.0 };
    let rule = text.contains(['6', '9']).then(|| {
        let half = size * 0.23 * text.len() as f64;
        (short(74.0 - half), short(109.0 + size * 0.5), short(2.0 * half))
    });
    let (x, y, width) = rule.clone().unwrap_or_default();
    let turned = if down(page) { "rotate(180 74 105)" } else { "" };
    html! {
        <g>
            <rect class="leaf-paper" width="148" height="210" />
            { frame }
            <g transform={turned}>
                <rect class="leaf-ink" x="71" y="0" width="6" height="22" />
                <text class="figure" x="74" y={short(109.0 + size * 0.35)} font-size={short(size)}>{ text }</text>
                if rule.is_some() { <rect class="leaf-ink" {x} {y} {width} height="5" /> }
            </g>
        </g>
    }
}
