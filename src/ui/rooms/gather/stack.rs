//! The stack with its spine facing. It is one target: slide over it or use the arrow keys to pick a row; while marks
//! are tapped, a place on a row.

use super::backs::{Shows, meant};
use super::spine::{block, numbers, row, scale};
use crate::marks::BackMarks;
use crate::scene::StackLay;
use crate::units::short as s;
use kurbo::Point;
use std::cell::RefCell;
use std::rc::Rc;
use web_sys::{Element, KeyboardEvent, PointerEvent};
use yew::prelude::*;

/// What a hand does on the stack.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Gesture {
    /// Goes to the row of a place.
    Row(u32),
    /// Chooses a place, in answer to a question.
    Choose(u32),
    /// Moves the caret: place, mm.
    Caret(u32, f64),
    /// Sets a mark or takes it away: place, mm.
    Tap(u32, f64),
}

/// The stack.
pub struct Props {
    /// Where things stand.
    pub lay: Rc<StackLay>,
    /// What each back shows.
    pub backs: Rc<[Shows]>,
    /// What each back is called.
    pub names: Rc<[AttrValue]>,
    /// Where a mark was due in vain, in mm.
    pub due: Rc<[Option<f64>]>,
    /// The marks of the book.
    pub design: BackMarks,
    /// The place of the picked row, and how far it is drawn out.
    pub picked: (u32, f64),
    /// Where the caret is, in mm, while marks are tapped.
    pub caret: Option<f64>,
    /// Whether a question waits for a row.
    pub asking: bool,
    /// Called for each gesture.
    pub hand: Callback<Gesture>,
    /// The element, so that the focus can come back to it.
    pub node: NodeRef,
}

/// The picture and what is done on it.
#[hook]
pub fn use_stack(props: &Props) -> Html {
    let node = props.node.clone();
    let at = {
        let (node, lay, design) = (node.clone(), props.lay.clone(), props.design.clone());
        move |e: &PointerEvent| {
            let r = node.cast::<Element>()?.query_selector("svg").ok()??.get_bounding_client_rect();
            let p = Point::new(f64::from(e.client_x()) - r.left(), f64::from(e.client_y()) - r.top());
            Some((lay.place_at(p.y), meant(&design, lay.mm_at(p.x))))
        }
    };
    let (tapping, asking, picked) = (props.caret.is_some(), props.asking, props.picked.0);
    let slide = {
        let (hand, at) = (props.hand.clone(), at.clone());
        move |e: &PointerEvent| match at(e) {
            Some((place, mm)) if tapping => hand.emit(Gesture::Caret(place, mm)),
            Some((place, _)) if !asking && place != picked => hand.emit(Gesture::Row(place)),
            _ => {}
        }
    };
    let press = {
        let (slide, node) = (slide.clone(), node.clone());
        Callback::from(move |e: PointerEvent| {
            if let Some(element) = node.cast::<Element>() {
                let _ = element.set_pointer_capture(e.pointer_id());
            }
            slide(&e);
        })
    };
    let moved = Callback::from(move |e: PointerEvent| {
        if e.buttons() & 1 == 1 {
            slide(&e);
        }
    });
    let lifted = {
        let hand = props.hand.clone();
        Callback::from(move |e: PointerEvent| match at(&e) {
            Some((place, mm)) if tapping => hand.emit(Gesture::Tap(place, mm)),
            Some((place, _)) if asking => hand.emit(Gesture::Choose(place)),
            _ => {}
        })
    };
    // Keys may come faster than renders; each goes on from where the last one led.
    let here = use_mut_ref(|| (picked, props.caret));
    *here.borrow_mut() = (picked, props.caret);
    let keys = on_key(props, here);
    let lay = &props.lay;
    let (w, h) = lay.size;
    let rows = (1u32..).zip(props.backs.iter().zip(props.names.iter())).map(|(place, (back, name))| {
        let out = if place == picked { props.picked.1 } else { 0.0 };
        let due = props.due.get(place as usize - 1).copied().flatten();
        row(lay, &props.design, (place, back, name), due, (out, place == picked))
    });
    let label = match props.caret {
        Some(_) => "The spine you tap marks on. Arrows move row and caret, Enter sets a mark or takes it away",
        None => "The backs of the stack, from front to back",
    };
    html! {
        <div ref={node} class={classes!("stack", tapping.then_some("tapping"))} role="listbox" tabindex="0" aria-label={label}
            aria-activedescendant={(!props.backs.is_empty()).then(|| format!("row-{picked}"))}
            onpointerdown={press} onpointermove={moved} onpointerup={lifted} onkeydown={keys}>
            <svg role="presentation" width={s(w)} height={s(h)} viewBox={format!("0 0 {} {}", s(w), s(h))}>
                <pattern id="foreign" width="8" height="8" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
                    <line class="hatch" x1="0" y1="0" x2="0" y2="8" />
                </pattern>
                { block(lay) }
                <g>{ for rows }</g>
                { numbers(lay, picked) }
                { scale(lay) }
                { marker(props) }
            </svg>
        </div>
    }
}

fn on_key(props: &Props, here: Rc<RefCell<(u32, Option<f64>)>>) -> Callback<KeyboardEvent> {
    let (hand, asking) = (props.hand.clone(), props.asking);
    let (count, spine, step) = (props.lay.count.max(1), props.lay.spine_mm, props.design.stairs.step_mm);
    Callback::from(move |e: KeyboardEvent| {
        let key = e.key();
        if e.ctrl_key() || e.meta_key() || e.alt_key() {
            return;
        }
        let (picked, caret) = *here.borrow();
        let by = if e.shift_key() { step } else { 1.0 };
        let gesture = match (key.as_str(), caret) {
            ("ArrowRight", Some(mm)) => Gesture::Caret(picked, (mm + by).min(spine)),
            ("ArrowLeft", Some(mm)) => Gesture::Caret(picked, (mm - by).max(0.0)),
            ("Enter" | " ", Some(mm)) => Gesture::Tap(picked, mm),
            ("Enter" | " ", None) if asking => Gesture::Choose(picked),
            _ => {
                let place = match key.as_str() {
                    "ArrowDown" | "ArrowRight" => picked + 1,
                    "ArrowUp" | "ArrowLeft" => picked.saturating_sub(1),
                    "PageDown" => picked + 10,
                    "PageUp" => picked.saturating_sub(10),
                    "Home" => 1,
                    "End" => count,
                    _ => return,
                };
                Gesture::Row(place.clamp(1, count))
            }
        };
        e.prevent_default();
        e.stop_propagation();
        match gesture {
            Gesture::Row(place) => here.borrow_mut().0 = place,
            Gesture::Caret(_, mm) => here.borrow_mut().1 = Some(mm),
            Gesture::Choose(_) | Gesture::Tap(..) => {}
        }
        hand.emit(gesture);
    })
}

/// The frame of the keyboard around the row, and the caret.
fn marker(props: &Props) -> Html {
    let (lay, (place, out)) = (&props.lay, props.picked);
    let row = lay.row(place.min(lay.count.max(1)));
    let ring = |class: &'static str, by: f64| {
        let r = (row + kurbo::Vec2::new(out, 0.0)).inflate(by, by);
        html! { <rect {class} x={s(r.x0)} y={s(r.y0)} width={s(r.width())} height={s(r.height())} /> }
    };
    // What would be set: a hollow bar, with a hair that stands out of the row at its middle.
    let (mm, half) = (props.caret.unwrap_or(0.0), props.design.stairs.length_mm / 2.0);
    let (x, from, to) = (lay.x(mm), lay.x(mm - half), lay.x(mm + half));
    let hair = format!("M{x} {}v-7M{x} {}v7", s(row.y0), s(row.y1), x = s(x));
    html! {
        <>
            { ring("ring", 4.0) }
            { ring("ring inner", 1.2) }
            <g class={classes!("caret", props.caret.is_none().then_some("gone"))}>
                <rect x={s(from)} y={s(row.y0 + 1.0)} width={s(to - from)} height={s((row.height() - 2.0).max(1.0))} />
                <path d={hair} />
            </g>
        </>
    }
}
