//! The canvas of a bench, and what the pointer does on it.

use super::hands::Hands;
use super::pointer::Pointed;
use crate::app::Action;
use crate::fold::Face;
use crate::scene::Bench;
use wasm_bindgen::JsCast;
use web_sys::{HtmlCanvasElement, HtmlElement, PointerEvent};
use yew::prelude::*;

/// All that hands and keys can do here, for those who rest the pointer on the sheet or hear it named.
const HELP: &str = "Take an edge or a corner and fold; with Shift or a second finger it goes under. \
    Keys: arrows step, F folds elsewhere, Backspace unfolds, T turns over, R turns round, Shift with arrows tilts.";

/// What a canvas needs.
pub struct CanvasProps {
    /// Who holds the sheet on it.
    pub hands: Hands,
    /// What is happening on it.
    pub says: AttrValue,
    /// Whether a crease can be pointed at: a scheme is being made.
    pub making: bool,
    /// What was pointed at.
    pub pointed: Callback<Pointed>,
}

/// The canvas, and what the pointer does on it.
#[hook]
pub fn use_canvas(props: &CanvasProps) -> Html {
    let canvas = use_node_ref();
    {
        let (hands, canvas) = (props.hands.clone(), canvas.clone());
        use_effect_with((), move |()| {
            hands.take_canvas(canvas.cast::<HtmlCanvasElement>());
            move || hands.take_canvas(None)
        });
    }
    let press = {
        let hands = props.hands.clone();
        Callback::from(move |e: PointerEvent| {
            if let Some(target) = e.target().and_then(|t| t.dyn_into::<web_sys::Element>().ok()) {
                let _ = target.set_pointer_capture(e.pointer_id());
            }
            hands.press(&e);
        })
    };
    let moved = {
        let hands = props.hands.clone();
        Callback::from(move |e: PointerEvent| {
            let cursor = hands.moved(&e);
            if let Some(target) = e.target().and_then(|t| t.dyn_into::<HtmlElement>().ok()) {
                let _ = target.style().set_property("cursor", cursor);
            }
        })
    };
    let lifted = {
        let (hands, making, pointed) = (props.hands.clone(), props.making, props.pointed.clone());
        Callback::from(move |e: PointerEvent| {
            if let Some(at) = hands.lifted(&e, making) {
                pointed.emit(at);
            }
        })
    };
    let left = {
        let hands = props.hands.clone();
        Callback::from(move |_: PointerEvent| hands.left())
    };
    html! {
        <section class="bench" aria-label="The bench">
            <canvas ref={canvas} role="img" tabindex="0" aria-label={format!("The sheet on the bench. {}", props.says)}
                title={HELP} onpointerdown={press} onpointermove={moved} onpointerup={lifted.clone()}
                onpointercancel={lifted} onpointerout={left} />
        </section>
    }
}

/// What pointing at a face asks for: its page is followed, or let go if it was. On a slit sheet the page of another section
/// takes that one to the front.
#[must_use]
pub fn follow(bench: &Bench, face: &Face, followed: Option<u32>) -> Action {
    let page = bench.printing.landing.as_ref().and_then(|landing| landing.page_on(face));
    match (page, bench.printing.figure(face)) {
        (None, Some(figure)) => Action::FollowInBook(figure.page),
        (page, _) => Action::Follow(page.filter(|p| followed != Some(*p))),
    }
}
