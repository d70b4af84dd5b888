//! The thread from the wrong page in hand to the cause that folds itself: over the bare bench between the two halves.

use crate::units::short;
use gloo_events::{EventListener, EventListenerOptions};
use gloo_utils::window;
use web_sys::Element;
use yew::prelude::*;

/// Heads of the two halves stand so far down; the thread keeps below them (px).
const HEADS: f64 = 48.0;

/// The thread, if `shown`; it is laid anew after each render, and while either half is scrolled.
#[hook]
pub fn use_thread(room: &NodeRef, shown: bool) -> Html {
    let node = use_node_ref();
    {
        let (room, node) = (room.clone(), node.clone());
        use_effect(move || {
            let found = room.cast::<Element>().zip(node.cast::<Element>());
            let listening = found.map(|(room, svg)| {
                lay(&room, &svg, shown);
                let again = move |room: &Element| {
                    let (room, svg) = (room.clone(), svg.clone());
                    move |_: &Event| lay(&room, &svg, shown)
                };
                let capture = EventListenerOptions::run_in_capture_phase();
                (
                    EventListener::new_with_options(&room, "scroll", capture, again(&room)),
                    EventListener::new(&window(), "resize", again(&room)),
                )
            });
            move || drop(listening)
        });
    }
    html! {
        <svg ref={node} class="trace-thread" aria-hidden="true">
            <path class="strand" /><path class="hole" />
        </svg>
    }
}

fn lay(room: &Element, svg: &Element, shown: bool) {
    let line = if shown { way(room) } else { None };
    let (strand, hole) = line.unwrap_or_default();
    for (part, d) in [(".strand", &strand), (".hole", &hole)] {
        if let Ok(Some(part)) = svg.query_selector(part) {
            let _ = part.set_attribute("d", d);
        }
    }
}

/// From the right edge of the page in hand to the stitch before the cause, where both can be seen.
fn way(room: &Element) -> Option<(String, String)> {
    let found = |css: &str| room.query_selector(css).ok().flatten().map(|e| e.get_bounding_client_rect());
    let (all, page) = (room.get_bounding_client_rect(), found(".in-hand .leaf:last-child")?);
    let stitch = found(".cause-head .stitch")?;
    let (x0, y0) = (page.right() - all.left() - 4.0, page.top() + page.height() / 2.0 - all.top());
    let (x1, y1) = (stitch.left() - all.left(), stitch.top() + stitch.height() / 2.0 - all.top());
    let inside = |y: f64| y > HEADS && y < all.height() - 8.0;
    if stitch.height() < 1.0 || x1 < x0 + 40.0 || !inside(y0) || !inside(y1) {
        return None;
    }
    let middle = f64::midpoint(x0, x1);
    let [x, y, m, to_x, to_y] = [x0, y0, middle, x1, y1].map(short);
    let strand = format!("M{x} {y}C{m} {y} {m} {to_y} {to_x} {to_y}");
    let [left, right] = [x0 - 4.0, x0 + 4.0].map(short);
    Some((strand, format!("M{left} {y}A4 4 0 0 1 {right} {y}A4 4 0 0 1 {left} {y}Z")))
}
