//! Both flat sides as they lie printed. Each page on them can be picked, and is named for those who hear it.

use crate::app::{Action, State, page_name};
use crate::fold::Side;
use crate::scene::svg::{Picked, paint};
use crate::scene::{Bench, Tag, flat_side};
use crate::ui::bench::Hands;
use crate::ui::shared::Shared;
use crate::ui::store::Act;
use wasm_bindgen::JsCast;
use web_sys::{Element, KeyboardEvent, SvgElement};
use yew::prelude::*;

/// Side A and side B.
#[hook]
pub fn use_flats(bench: &Shared<Bench>, state: &State, hands: &Hands, act: &Act) -> Html {
    // A forme is the mirror image of what it prints. Side B is seen so or through the paper, not both at once.
    let on_bed = use_state(|| false);
    let through = state.look.through && !*on_bed;
    let to_bed = {
        let on_bed = on_bed.clone();
        Callback::from(move |_: MouseEvent| on_bed.set(!*on_bed))
    };
    {
        // The thread follows a page to where it is now.
        let hands = hands.clone();
        use_effect_with(*on_bed, move |_| hands.ask_frame());
    }
    let toggle = {
        let (act, on_bed) = (act.clone(), on_bed.clone());
        Callback::from(move |_: MouseEvent| {
            on_bed.set(false);
            act.emit(Action::Through(!through));
        })
    };
    let followed = state.look.followed.map(|p| p + state.shift());
    let outer = bench.printing.landing.as_ref().map(crate::fold::Landing::outer_forme);
    let forme = |side: Side| match outer {
        Some(o) if o == side => "outer",
        Some(_) => "inner",
        None => "blank",
    };
    let props =
        |side, through| FlatProps { side, bench: bench.clone(), through, on_bed: *on_bed, followed, act: act.clone() };
    let side_a = use_flat(&props(Side::A, false));
    let side_b = use_flat(&props(Side::B, through));
    html! {
        <section class={classes!("flats", on_bed.then_some("as-forme"))} aria-label="The flat sheet">
            <div class="flat-box">
                <div class="flat-head">
                    <span class="letter">{ "A" }</span><span>{ forme(Side::A) }</span>
                    <button type="button" class="plain" aria-pressed={on_bed.to_string()} onclick={to_bed}
                        title="Both sides mirrored, as their formes lie on the beds of the press">{ "Formes" }</button>
                </div>
                { side_a }
            </div>
            <div class="flat-box">
                <div class="flat-head">
                    <span class="letter">{ "B" }</span><span>{ forme(Side::B) }</span>
                    <button type="button" class="plain" aria-pressed={through.to_string()} onclick={toggle}
                        title="Side B as it is seen through the paper from side A">{ "Through" }</button>
                </div>
                { side_b }
            </div>
        </section>
    }
}

struct FlatProps {
    side: Side,
    bench: Shared<Bench>,
    through: bool,
    on_bed: bool,
    followed: Option<u32>,
    act: Act,
}

/// One side. The picture is one string; the pages in it are buttons, of which one at a time takes the focus.
#[hook]
fn use_flat(props: &FlatProps) -> Html {
    let svg = use_memo((props.bench.clone(), props.side, props.through), |(bench, side, through)| {
        let printing = &bench.printing;
        let scene = flat_side(printing, *side, *through);
        let mut first = true;
        let first = std::cell::RefCell::new(&mut first);
        let picked = |tag: Tag| {
            let Tag::Face(face) = tag else { return None };
            let figure = printing.figure(&face)?;
            let number = figure.page;
            let stop = if std::mem::take(*first.borrow_mut()) { 0 } else { -1 };
            let name = page_name(figure);
            Some(Picked {
                attributes: format!(r#" data-page="{number}" role="button" tabindex="{stop}" aria-label="{name}""#),
            })
        };
        AttrValue::from(paint(&scene, "sheet", &picked))
    });
    let shift = props.bench.printing.shift;
    let follow = {
        let (act, followed) = (props.act.clone(), props.followed);
        move |e: &web_sys::Event| {
            if let Some(page) = page_at(e) {
                act.emit(Action::Follow((followed != Some(page)).then(|| page - shift)));
            }
        }
    };
    let click = {
        let follow = follow.clone();
        Callback::from(move |e: MouseEvent| follow(&e))
    };
    let columns = props.bench.printing.columns;
    let right = if props.on_bed { -1 } else { 1 };
    let keys = Callback::from(move |e: KeyboardEvent| {
        match e.key().as_str() {
            "Enter" | " " => follow(&e),
            "ArrowRight" => drop(move_focus(&e, right)),
            "ArrowLeft" => drop(move_focus(&e, -right)),
            "ArrowDown" => drop(move_focus(&e, columns.cast_signed())),
            "ArrowUp" => drop(move_focus(&e, -columns.cast_signed())),
            _ => return,
        }
        e.prevent_default();
        e.stop_propagation();
    });
    let side = if props.side == Side::A { "side-a" } else { "side-b" };
    let name = if props.side == Side::A { "Side A" } else { "Side B, turned left to right" };
    html! {
        <div class={classes!("flat", side, props.through.then_some("through"))} role="group" aria-label={name}
            onclick={click} onkeydown={keys}>
            { Html::from_html_unchecked((*svg).clone()) }
        </div>
    }
}

fn page_at(e: &web_sys::Event) -> Option<u32> {
    let target = e.target()?.dyn_into::<Element>().ok()?;
    target.closest("[data-page]").ok()??.get_attribute("data-page")?.parse().ok()
}

/// Moves the focus by so many pages in the order in which they lie.
fn move_focus(e: &KeyboardEvent, by: i32) -> Option<()> {
    let here = e.target()?.dyn_into::<Element>().ok()?.closest("[data-page]").ok()??;
    let side = here.closest(".flat").ok()??;
    let all = side.query_selector_all("[data-page]").ok()?;
    let pages: Vec<SvgElement> = (0..all.length()).filter_map(|i| all.item(i)?.dyn_into().ok()).collect();
    let at = pages.iter().position(|p| p.is_same_node(Some(&here)))?;
    let next = pages.get(at.checked_add_signed(by as isize)?)?;
    here.set_attribute("tabindex", "-1").ok()?;
    next.set_attribute("tabindex", "0").ok()?;
    next.focus().ok()
}
