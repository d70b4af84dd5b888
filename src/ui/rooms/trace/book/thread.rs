//! The thread: from the section on the spine of the book, round its slip among the finds, to the cause that is looked at.

use crate::units::short;
use gloo_events::{EventListener, EventListenerOptions};
use gloo_utils::{document, window};
use web_sys::Element;
use yew::prelude::*;

/// The thread from the slip at a place of the spine, if one is meant; laid anew after each render, and while anything is
/// scrolled.
#[hook]
pub fn use_thread(room: &NodeRef, from: Option<u32>) -> Html {
    let node = use_node_ref();
    {
        let (room, node) = (room.clone(), node.clone());
        use_effect(move || {
            let found = room.cast::<Element>().zip(node.cast::<Element>());
            let listening = found.map(|(room, svg)| {
                lay(&room, &svg, from);
                let again = move |room: &Element| {
                    let (room, svg) = (room.clone(), svg.clone());
                    move |_: &Event| lay(&room, &svg, from)
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
        <svg ref={node} class="trace-thread book-thread" aria-hidden="true">
            <path class="strand" /><path class="hole" />
        </svg>
    }
}

fn lay(room: &Element, svg: &Element, from: Option<u32>) {
    let (strand, hole) = from.and_then(|place| way(room, place)).unwrap_or_default();
    for (part, d) in [(".strand", &strand), (".hole", &hole)] {
        if let Ok(Some(part)) = svg.query_selector(part) {
            let _ = part.set_attribute("d", d);
        }
    }
}

/// A box on the page, from the left upper corner of the room.
#[derive(Clone, Copy)]
struct Place {
    left: f64,
    top: f64,
    right: f64,
    bottom: f64,
}

impl Place {
    fn middle(&self) -> f64 {
        f64::midpoint(self.top, self.bottom)
    }
}

/// How far below the upper edge of the room, where its heads stand, the thread keeps (px).
const HEADS: f64 = 46.0;
/// The height of the lane above a row of slips (px).
const LANE: f64 = 11.0;

fn way(room: &Element, place: u32) -> Option<(String, String)> {
    let all = room.get_bounding_client_rect();
    let at = |e: Element| {
        let r = e.get_bounding_client_rect();
        let (x, y) = (all.left(), all.top());
        Place { left: r.left() - x, top: r.top() - y, right: r.right() - x, bottom: r.bottom() - y }
    };
    let find = |css: &str| room.query_selector(css).ok().flatten().map(at);
    let slip = at(document().query_selector(&format!("#slip-{place} .slip-paper")).ok().flatten()?);
    let (finds, causes) = (find(".finds")?, find(".causes")?);
    let picture = find(".book-cause.on .cause-picture > *")?;
    let seen = |y: f64| y > HEADS && y < all.height() - 4.0;
    let (y0, y1) = (slip.middle(), picture.middle());
    if !seen(y1) || picture.left < finds.right - 40.0 {
        return None;
    }
    // Out of the spine, down or up in the joint between the spine and the finds, and along the lane.
    let (x0, gutter) = (slip.right - 5.0, finds.left + 14.0);
    let on_spine = find(".find[data-find=\"spine\"] .found-slip.on .slip-paper");
    let looped = on_spine.filter(|s| s.top > HEADS + LANE + 6.0 && seen(s.bottom));
    // What is scrolled away has no thread; nor may it cross finds that were scrolled beneath the head.
    let scrolled = room.query_selector(".finds").ok().flatten().is_some_and(|finds| finds.scroll_top() > 0);
    if looped.is_none() && (on_spine.is_some_and(|s| s.bottom > s.top) || scrolled) {
        return None;
    }
    let lane = looped.map_or(HEADS + 2.0, |s| s.top - LANE);
    // Both halves keep clear of the joint between them; the number of a cause stands above the thread.
    let (end, enter) = (causes.left - 20.0, causes.left + 36.0);
    let mut d = format!(
        "M{} {}C{} {} {} {} ",
        short(x0),
        short(y0),
        short(gutter + 8.0),
        short(y0),
        short(gutter - 8.0),
        short(lane)
    );
    d.push_str(&format!("{} {}", short(gutter + 18.0), short(lane)));
    if let Some(s) = looped {
        let r = 8.0_f64.min(LANE);
        let half = f64::midpoint(s.left, s.right) - s.left + 1.5;
        d.push_str(&format!(
            "H{}q{r} 0 {r} {r}V{}a{h} {h} 0 0 0 {} 0V{}q0 {} {r} {}",
            short((s.left - 1.5 - r).max(gutter + 18.0)),
            short(s.bottom - half),
            short(2.0 * half),
            short(lane + r),
            short(-r),
            short(-r),
            r = short(r),
            h = short(half),
        ));
    }
    // Across the joint to the other half, and down or up in it to the picture.
    let (x1, bend) = (picture.left - 3.0, f64::midpoint(end, enter));
    d.push_str(&format!(
        "H{}C{} {} {} {} {} {}H{}",
        short(end),
        short(bend),
        short(lane),
        short(bend),
        short(y1),
        short(enter),
        short(y1),
        short(x1)
    ));
    let circle = |x: f64, y: f64| format!("M{} {}m-4 0a4 4 0 1 0 8 0a4 4 0 1 0 -8 0", short(x), short(y));
    Some((d, circle(x0, y0) + &circle(x1, y1)))
}
