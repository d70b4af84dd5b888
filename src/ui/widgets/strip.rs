//! The spine of the book: one slip a section with its back mark. It lies upright beside the bench, and across the top
//! of a narrow window. The whole strip is one target: slide over it, or use the arrow keys.

use crate::units::short as number;
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::{Element, KeyboardEvent, PointerEvent};
use yew::prelude::*;

/// What the back of one section shows.
#[derive(Clone, Debug, PartialEq)]
pub struct Back {
    /// Bars, each from and to, as shares of the spine from the head.
    pub bars: Vec<(f64, f64)>,
    /// What it is called in a list.
    pub name: AttrValue,
}

/// The strip.
#[derive(Clone, PartialEq, Properties)]
pub struct Props {
    /// The title of the book.
    pub title: AttrValue,
    /// The backs from front to back.
    pub backs: Rc<[Back]>,
    /// The place (from 1) of the section that is on the bench.
    pub picked: u32,
    /// Whether the strip lies across, for a narrow window.
    pub across: bool,
    /// Called with the place of a section that was picked.
    pub pick: Callback<u32>,
}

/// Units of the drawing across a slip, and the gap between two slips.
const PITCH: f64 = 27.0;
const GAP: f64 = 3.0;
/// Units of the drawing along a slip, the room for its number, and how far the picked one is drawn out.
const LONG: f64 = 118.0;
const NUMBERS: f64 = 24.0;
const OUT: f64 = 14.0;

/// The spine strip.
#[component]
pub fn Strip(props: &Props) -> Html {
    let node = use_node_ref();
    let count = props.backs.len().max(1) as u32;
    let at = {
        let (node, across) = (node.clone(), props.across);
        move |e: &PointerEvent| {
            let r = node.cast::<Element>()?.get_bounding_client_rect();
            let share = if across {
                (f64::from(e.client_x()) - r.left()) / r.width().max(1.0)
            } else {
                (f64::from(e.client_y()) - r.top()) / r.height().max(1.0)
            };
            Some(crate::units::between((share * f64::from(count)).floor(), 0.0, f64::from(count - 1)) as u32 + 1)
        }
    };
    let slide = {
        let (pick, picked, at) = (props.pick.clone(), props.picked, at);
        move |e: &PointerEvent| {
            if let Some(place) = at(e).filter(|p| *p != picked) {
                pick.emit(place);
            }
        }
    };
    let press = {
        let slide = slide.clone();
        Callback::from(move |e: PointerEvent| {
            if let Some(target) = e.target().and_then(|t| t.dyn_into::<Element>().ok()) {
                let _ = target.set_pointer_capture(e.pointer_id());
            }
            slide(&e);
        })
    };
    let moved = Callback::from(move |e: PointerEvent| {
        if e.buttons() & 1 == 1 {
            slide(&e);
        }
    });
    let keys = {
        let (pick, picked) = (props.pick.clone(), props.picked);
        Callback::from(move |e: KeyboardEvent| {
            let place = match e.key().as_str() {
                "ArrowDown" | "ArrowRight" => picked + 1,
                "ArrowUp" | "ArrowLeft" => picked.saturating_sub(1),
                "PageDown" => picked + 10,
                "PageUp" => picked.saturating_sub(10),
                "Home" => 1,
                "End" => count,
                _ => return,
            };
            e.prevent_default();
            e.stop_propagation();
            pick.emit(place.clamp(1, count));
        })
    };
    let n = f64::from(count);
    let (w, h) = (NUMBERS + 8.0 + LONG + OUT, PITCH * n);
    let view = if props.across { format!("0 0 {} 58", number(h)) } else { format!("0 0 {} {}", number(w), number(h)) };
    let slips = (1u32..).zip(props.backs.iter()).map(|(place, back)| slip(props, place, back, n));
    html! {
        <div ref={node} class="strip" role="listbox" tabindex="0" aria-label={format!("Spine of {}", props.title)}
            aria-activedescendant={format!("slip-{}", props.picked)}
            onpointerdown={press} onpointermove={moved} onkeydown={keys}>
            <svg viewBox={view} preserveAspectRatio="none" role="presentation">{ for slips }</svg>
        </div>
    }
}

fn slip(props: &Props, place: u32, back: &Back, count: f64) -> Html {
    let on = place == props.picked;
    let start = f64::from(place - 1) * PITCH;
    let thick = PITCH - GAP;
    let s = number;
    // Numbers stay readable: every one, every second, every fifth … of a long book, and always the picked one.
    let every = [1u32, 2, 5, 10, 20].into_iter().find(|e| count / f64::from(*e) <= 24.0).unwrap_or(20);
    let numbered = !props.across && (on || place == 1 || place.is_multiple_of(every));
    let (shift, paper, line) = if props.across {
        let out = if on { 6.0 } else { 0.0 };
        (
            format!("translate(0 {})", number(out)),
            (start, 0.0, thick, 50.0),
            (start + thick / 2.0, 0.0, start + thick / 2.0, 50.0),
        )
    } else {
        let out = if on { OUT } else { 0.0 };
        let left = NUMBERS + 8.0;
        (
            format!("translate({} 0)", number(out)),
            (left, start, LONG, thick),
            (left, start + thick / 2.0, left + LONG, start + thick / 2.0),
        )
    };
    let bars = back.bars.iter().map(|(from, to)| {
        let (x, y, w, h) = if props.across {
            (start, from * 50.0, thick, ((to - from) * 50.0).max(2.4))
        } else {
            (NUMBERS + 8.0 + from * LONG, start, ((to - from) * LONG).max(3.0), thick)
        };
        html! { <rect class="slip-mark" x={s(x)} y={s(y)} width={s(w)} height={s(h)} /> }
    });
    // A section that stands elsewhere is called by its place as well, since that is the number beside it.
    let own = back.name.strip_prefix("section ").is_some_and(|n| n == place.to_string());
    let label = if own { back.name.clone() } else { format!("{place}, {}", back.name).into() };
    html! {
        <g key={place} id={format!("slip-{place}")} role="option" aria-selected={on.to_string()} aria-label={label}
            data-place={place.to_string()} class={classes!("slip", on.then_some("on"))}>
            { if numbered {
                html! { <text x={s(NUMBERS)} y={s(start + thick / 2.0 + 5.0)}>{ place }</text> }
            } else { html! { <text></text> } } }
            <g class="slip-group" transform={shift}>
                <rect class="slip-paper" x={s(paper.0)} y={s(paper.1)} width={s(paper.2)} height={s(paper.3)} />
                <line class="slip-line" x1={s(line.0)} y1={s(line.1)} x2={s(line.2)} y2={s(line.3)} />
                { for bars }
            </g>
        </g>
    }
}

#[cfg(all(test, not(target_arch = "wasm32")))]
mod tests {
    use super::*;

    /// The markup alone, rendered without a browser.
    #[tokio::test]
    async fn every_section_is_an_option_with_a_name_and_one_is_picked() {
        let backs = (1..=3).map(|n| Back { bars: vec![(0.1, 0.2)], name: format!("section {n}").into() });
        let backs: Rc<[Back]> = backs.collect();
        let props = Props { title: "A book".into(), backs, picked: 2, across: false, pick: Callback::noop() };
        let html = yew::LocalServerRenderer::<Strip>::with_props(props).hydratable(false).render().await;
        assert!(html.contains(r#"role="listbox""#) && html.contains(r#"aria-label="Spine of A book""#), "{html}");
        assert!(html.contains(r#"aria-activedescendant="slip-2""#), "{html}");
        assert_eq!(html.matches(r#"role="option""#).count(), 3, "{html}");
        assert_eq!(html.matches(r#"aria-selected="true""#).count(), 1, "{html}");
        assert!(html.contains(r#"aria-label="section 3""#), "{html}");
        assert!(!html.contains("style="), "the content security policy allows no style attribute: {html}");
    }
}
