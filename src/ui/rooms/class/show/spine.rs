//! The spine of a gathered book before a class: section after section is laid, and then it is said what is wrong.

use super::pictures::Seen;
use crate::gather::Told;
use crate::marks::SeenBack;
use crate::scene::{Space, StackLay};
use crate::ui::widgets::words;
use crate::units::short as s;
use kurbo::Rect;
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::Element;
use yew::prelude::*;

/// What the spine needs.
pub struct Props {
    /// The picture.
    pub seen: Seen,
    /// What each back shows.
    pub backs: Rc<Vec<SeenBack>>,
    /// The window.
    pub window: (f64, f64),
    /// What the check says of the book, once it was asked.
    pub told: Option<Result<Told, String>>,
}

/// Pixels of the title with some room below it, and how high the front edge is, as in the style sheet.
const TITLE: f64 = 80.0;
const FRONT: f64 = 0.245;
const LEAST_FRONT: f64 = 222.0;

/// How many lines of a verdict are said at once, so that they are read from the back row.
const LINES: usize = 3;

/// The spine, and the words beside it.
#[hook]
pub fn use_spine(props: &Props) -> Html {
    let Props { seen, backs, window, told } = props;
    let (picture, places) = (&seen.picture, backs.len() as u32);
    let narrow = window.0 < 900.0;
    let space = Space {
        width: if narrow { window.0 - 32.0 } else { window.0 * 0.58 },
        height: Some(if narrow { window.1 * 0.45 } else { window.1 - TITLE - (window.1 * FRONT).max(LEAST_FRONT) }),
        scale: (window.1 / 640.0).max(1.0),
    };
    let job = &seen.state.job;
    let lay = StackLay::new(space, places, job.design.stairs.spine_mm);
    let laid = picture.laid.min(places);
    let wrong: Vec<u32> = match told {
        Some(Ok(told)) if picture.verdict => {
            told.verdict.lines.iter().take(LINES).flat_map(|l| l.places.clone()).collect()
        }
        _ => Vec::new(),
    };
    let thread = use_node_ref();
    {
        let thread = thread.clone();
        use_effect_with((picture.verdict, wrong.clone(), *window, told.is_some()), move |_| lay_thread(&thread));
    }
    let out = 18.0 * lay.scale.min(1.6);
    let bar = |(from, to): (f64, f64), place: u32| {
        let r = lay.row(place);
        let (x0, x1) = (lay.x(from), lay.x(to));
        Rect::new(x0, r.y0, x1.max(x0 + 3.0), r.y1)
    };
    let rect = |class: &'static str, r: Rect| {
        html! { <rect {class} x={s(r.x0)} y={s(r.y0)} width={s(r.width())} height={s(r.height())} /> }
    };
    let row = |(place, back): (u32, &SeenBack)| {
        let r = lay.row(place);
        let sheet = Rect::new(r.x0, r.y0, r.x1 + if wrong.contains(&place) { out } else { 0.0 }, r.y1);
        let numbered = lay.numbered(place, laid);
        html! {
            <g key={place} data-place={place.to_string()} class={classes!("show-back", (place == laid && !picture.verdict).then_some("on"))}>
                <text x={s(r.x0 - 10.0 * lay.scale.min(1.4))} y={s(r.center().y + 8.0)}>{ if numbered { place.to_string() } else { String::new() } }</text>
                { rect(if place % 2 == 1 { "back-paper odd" } else { "back-paper" }, sheet) }
                { for lay.bars(place, &job.design, back).into_iter().map(|bar| rect("back-mark", bar)) }
            </g>
        }
    };
    // Where the next mark is due, once the class knows.
    let next = laid + 1;
    let due = (next <= places && picture.answered.contains(&0)).then(|| seen.due(next)).flatten();
    let due = due.map_or_else(Html::default, |due| rect("due", bar(due, next)));
    let (f, d) = (lay.face, lay.depth);
    let foot = lay.row(laid.max(1)).y1;
    let top = format!("M{} {}l{} {}H{}l{} {}z", s(f.x0), s(f.y0), s(d.x), s(d.y), s(f.x1 + d.x), s(-d.x), s(-d.y));
    let side = format!("M{} {}l{} {}V{}l{} {}z", s(f.x1), s(f.y0), s(d.x), s(d.y), s(foot + d.y), s(-d.x), s(-d.y));
    let (w, h) = lay.size;
    let label = format!("The spine from front to back: {laid} of {places} sections are laid");
    html! {
        <>
            <div class="show-spine" role="img" aria-label={label}>
                <svg width={s(w)} height={s(h)} viewBox={format!("0 0 {} {}", s(w), s(h))}>
                    <path class="block-top" d={top} /><path class="block-side" d={side} />
                    <g>{ for (1u32..).zip(backs.iter()).take(laid as usize).map(row) }</g>
                    <g>{ due }</g>
                    <text class="end" x={s(f.x0)} y={s(f.y1 + 28.0)}>{ "head" }</text>
                    <text class="end tail" x={s(f.x1)} y={s(f.y1 + 28.0)}>{ "tail" }</text>
                </svg>
            </div>
            <div class="show-verdict" aria-live="polite" hidden={!picture.verdict}>{ verdict(told) }</div>
            <svg class="show-thread" aria-hidden="true" hidden={!picture.verdict}><path ref={thread} /></svg>
        </>
    }
}

fn verdict(told: &Option<Result<Told, String>>) -> Html {
    let told = match told {
        None => return html! { <p>{ "Reading the backs." }</p> },
        Some(Err(why)) => return html! { <p>{ words(why) }</p> },
        Some(Ok(told)) => &told.verdict,
    };
    let line = |line: &crate::gather::Line| {
        let places: Vec<String> = line.places.iter().map(u32::to_string).collect();
        html! {
            <li data-places={places.join(" ")}>
                <span class={if told.right { "no-stitch" } else { "stitch" }}></span>
                <h2>{ words(&line.title) }</h2>
                <p>{ words(&line.detail) }</p>
            </li>
        }
    };
    let more = told.lines.len().saturating_sub(LINES);
    html! {
        <>
            <ul>{ for told.lines.iter().take(LINES).map(line) }</ul>
            <p class="quiet" hidden={more == 0}>{ words(&format!("And {more} more.")) }</p>
            <p class="quiet caution" hidden={told.caution.is_none()}>{ told.caution.clone().unwrap_or_default() }</p>
        </>
    }
}

/// From each sentence to the backs that it points at, by where they are on the page.
fn lay_thread(thread: &NodeRef) {
    let Some(path) = thread.cast::<Element>() else { return };
    let Some(show) = path.closest(".show").ok().flatten() else { return };
    let mut d = String::new();
    let lines = show.query_selector_all(".show-verdict li[data-places]").ok();
    for i in 0..lines.as_ref().map_or(0, |l| l.length()) {
        let line = lines.as_ref().and_then(|l| l.item(i)).and_then(|n| n.dyn_into::<Element>().ok());
        let Some(line) = line else { continue };
        let Some(stitch) = line.query_selector(".stitch").ok().flatten().map(|e| e.get_bounding_client_rect()) else {
            continue;
        };
        for place in line.get_attribute("data-places").unwrap_or_default().split(' ') {
            let back = show.query_selector(&format!(".show-back[data-place=\"{place}\"] .back-paper")).ok().flatten();
            let Some(r) = back.map(|e| e.get_bounding_client_rect()) else { continue };
            let (x0, y0) = (r.right() - 12.0, r.top() + r.height() / 2.0);
            let (x1, y1) = (stitch.left(), stitch.top() + 8.0);
            let reach = (x1 - x0) * 0.5;
            d += &format!(
                "M{} {}C{} {} {} {} {} {}",
                s(x0),
                s(y0),
                s(x0 + reach),
                s(y0),
                s(x1 - reach),
                s(y1),
                s(x1),
                s(y1)
            );
        }
    }
    let _ = path.set_attribute("d", &d);
}
