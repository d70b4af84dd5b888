//! The pointer: a large ring that goes with mouse and finger.

use yew::prelude::*;

/// The ring, and how it is led to a point of the window.
#[hook]
pub fn use_ring(pointing: bool) -> (Html, Callback<(f64, f64)>) {
    let node = use_node_ref();
    let lead = {
        let node = node.clone();
        use_callback((), move |(x, y): (f64, f64), ()| {
            if let Some(ring) = node.cast::<web_sys::SvgElement>() {
                let place = format!("translate({} {})", crate::units::short(x), crate::units::short(y));
                let _ = ring.set_attribute("transform", &place);
            }
        })
    };
    let ring = html! {
        <svg class="show-ring" aria-hidden="true" hidden={!pointing}>
            <g ref={node} transform="translate(-200 -200)">
                <circle r="64" class="ring-case" /><circle r="64" class="ring-line" />
            </g>
        </svg>
    };
    (ring, lead)
}
