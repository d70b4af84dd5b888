//! The thread of this room: looks up where words and pictures are on the page, and sets the paths, without the
//! framework.

use super::route::{Ends, Ground, lay};
use crate::scene::svg::path_data;
use crate::scene::{PilesLay, StackLay};
use crate::units::short;
use gloo_events::{EventListener, EventListenerOptions};
use gloo_utils::{document, window};
use kurbo::{Point, Rect, Vec2};
use std::rc::Rc;
use web_sys::Element;
use yew::prelude::*;

/// What the thread joins.
#[derive(Clone)]
pub struct Props {
    /// For each line of the verdict the places it points at, and the section whose pile is left over.
    pub lines: Rc<[(Vec<u32>, Option<u32>)]>,
    /// The stack.
    pub stack: Rc<StackLay>,
    /// From where to where each row bears anything.
    pub extents: Rc<[Option<(f64, f64)>]>,
    /// The piles.
    pub piles: Rc<PilesLay>,
    /// The pile whose number is always written.
    pub picked: u32,
    /// Whether the words stand below the stack.
    pub narrow: bool,
}

/// The thread.
#[hook]
pub fn use_thread(props: &Props) -> Html {
    {
        // After each render of this room things may lie elsewhere.
        let props = props.clone();
        use_effect(move || {
            draw(&props);
            let again = props.clone();
            let resized = EventListener::new(&window(), "resize", move |_| draw(&again));
            // The words scroll by themselves in a wide window; that is heard on the way down only.
            let options = EventListenerOptions::run_in_capture_phase();
            let scrolled = EventListener::new_with_options(&document(), "scroll", options, move |_| draw(&props));
            move || drop((resized, scrolled))
        });
    }
    html! {
        <svg class="gather-thread" aria-hidden="true"><path class="casing" /><path class="strand" /><path class="hole" /></svg>
    }
}

fn find(css: &str) -> Option<Element> {
    document().query_selector(css).ok().flatten()
}

fn all(css: &str) -> Vec<Element> {
    use wasm_bindgen::JsCast;
    let Ok(list) = document().query_selector_all(css) else { return Vec::new() };
    (0..list.length()).filter_map(|i| list.item(i)?.dyn_into::<Element>().ok()).collect()
}

fn draw(props: &Props) {
    let thread = thread(props).unwrap_or_default();
    let d = path_data(&thread.strands);
    for css in [".gather-thread .casing", ".gather-thread .strand"] {
        if let Some(path) = find(css) {
            let _ = path.set_attribute("d", &d);
        }
    }
    let circle = |p: &Point| format!("M{} {}m-3 0a3 3 0 1 0 6 0a3 3 0 1 0 -6 0", short(p.x), short(p.y));
    if let Some(holes) = find(".gather-thread .hole") {
        let _ = holes.set_attribute("d", &thread.holes.iter().map(circle).collect::<String>());
    }
}

fn thread(props: &Props) -> Option<crate::scene::thread::Thread> {
    let origin = find(".gather-thread")?.get_bounding_client_rect();
    let origin = Vec2::new(origin.left(), origin.top());
    let rect = |e: &Element| {
        let r = e.get_bounding_client_rect();
        Rect::new(r.left(), r.top(), r.right(), r.bottom()) - origin
    };
    let stack_at = rect(&find(".stack svg")?).origin().to_vec2();
    let piles_at = rect(&find(".piles svg")?).origin().to_vec2();
    let rim = rect(&find(".station")?).y1 - 1.0;
    let view = rect(&find(".verdict")?);
    let words: Vec<Rect> = all(".stack-title *, .room-gather .words").iter().map(rect).collect();
    let narrow = props.narrow;
    let stitches = all(".verdict .stitch");
    let ends: Vec<Ends> = stitches
        .iter()
        .zip(props.lines.iter())
        .map(|(stitch, (places, pile))| Ends { places: places.clone(), pile: *pile, stitch: rect(stitch) })
        // A line that is scrolled away has no thread.
        .filter(|ends| narrow || ends.stitch.y0 >= view.y0 - 4.0 && ends.stitch.y1 <= view.y1 + 4.0)
        .collect();
    let ground = Ground {
        stack: &props.stack,
        stack_at,
        extents: &props.extents,
        piles: &props.piles,
        piles_at,
        picked: props.picked,
        rim,
        words: &words,
        narrow: props.narrow,
    };
    Some(lay(&ground, &ends))
}
