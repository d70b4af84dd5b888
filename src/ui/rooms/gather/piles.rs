//! The piles that the sections are gathered from: one row of stations above the rim.

use crate::scene::PilesLay;
use crate::units::short as s;
use std::fmt::Write;
use std::rc::Rc;
use web_sys::{Element, KeyboardEvent, PointerEvent};
use yew::prelude::*;

/// The piles.
pub struct Props {
    /// Where they stand.
    pub lay: Rc<PilesLay>,
    /// The section whose pile is picked.
    pub picked: u32,
    /// Called with a section whose pile was chosen.
    pub pick: Callback<u32>,
}

/// The row of piles. The keyboard goes along it without choosing; Enter chooses.
#[hook]
pub fn use_piles(props: &Props) -> Html {
    let node = use_node_ref();
    let cursor = use_state_eq(|| props.picked);
    {
        let cursor = cursor.setter();
        use_effect_with(props.picked, move |picked| cursor.set(*picked));
    }
    let (lay, count) = (&props.lay, props.lay.count.max(1));
    let here = (*cursor).clamp(1, count);
    let press = {
        let (node, lay, pick) = (node.clone(), lay.clone(), props.pick.clone());
        Callback::from(move |e: PointerEvent| {
            let svg = node.cast::<Element>().and_then(|n| n.query_selector("svg").ok().flatten());
            if let Some(svg) = svg {
                let x = f64::from(e.client_x()) - svg.get_bounding_client_rect().left();
                pick.emit(lay.section_at(x));
            }
        })
    };
    let keys = {
        let (pick, cursor) = (props.pick.clone(), cursor.setter());
        Callback::from(move |e: KeyboardEvent| {
            let to = match e.key().as_str() {
                "ArrowRight" | "ArrowDown" => here + 1,
                "ArrowLeft" | "ArrowUp" => here.saturating_sub(1),
                "Home" => 1,
                "End" => count,
                "Enter" | " " => {
                    pick.emit(here);
                    here
                }
                _ => return,
            };
            e.prevent_default();
            e.stop_propagation();
            cursor.set(to.clamp(1, count));
        })
    };
    let (w, h) = lay.size;
    html! {
        <div ref={node} class="piles" role="listbox" tabindex="0" aria-label="The piles, one for each section"
            aria-activedescendant={format!("pile-{here}")} onpointerup={press} onkeydown={keys}>
            <svg role="presentation" width={s(w)} height={s(h)} viewBox={format!("0 0 {} {}", s(w), s(h))}>
                { for (1..=lay.count).map(|section| pile(lay, section, props.picked, here)) }
            </svg>
        </div>
    }
}

fn pile(lay: &PilesLay, section: u32, picked: u32, here: u32) -> Html {
    let (r, d) = (lay.pile(section), lay.depth);
    let front = format!("M{} {}H{}V{}H{}z", s(r.x0), s(r.y0), s(r.x1), s(r.y1), s(r.x0));
    let top = format!("M{} {}l{} {}H{}L{} {}z", s(r.x0), s(r.y0), s(d.x), s(d.y), s(r.x1 + d.x), s(r.x1), s(r.y0));
    let side = format!("M{} {}l{} {}V{}L{} {}z", s(r.x1), s(r.y0), s(d.x), s(d.y), s(r.y1 + d.y), s(r.x1), s(r.y1));
    // Section upon section; the lines are far enough apart to be seen as paper.
    let mut sheets = String::new();
    let step = 5.2 * lay.scale;
    let mut y = r.y0 + step;
    while y < r.y1 - 1.0 {
        let _ = write!(sheets, "M{} {}H{}", s(r.x0), s(y), s(r.x1));
        y += step;
    }
    let numbered = lay.numbered(section, picked);
    let class = classes!("pile", (section == picked).then_some("on"), (section == here).then_some("here"));
    html! {
        <g key={section} id={format!("pile-{section}")} role="option" aria-selected={(section == picked).to_string()}
            aria-label={format!("pile of section {section}")} {class}>
            <path class="pile-top" d={top} /><path class="pile-side" d={side} /><path class="pile-front" d={front} />
            <path class="pile-sheets" d={sheets} />
            <rect class="ring" x={s(r.x0 - 3.0)} y={s(r.y0 - 3.0)} width={s(r.width() + 6.0)}
                height={s(r.height() + 6.0)} />
            <text aria-hidden="true" x={s(r.center().x)} y={s(r.y1 + 18.0 * lay.scale)}>
                { if numbered { section.to_string() } else { String::new() } }
            </text>
        </g>
    }
}
