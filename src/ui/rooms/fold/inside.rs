//! Looking into the packet: cut through along a row or a column, every layer in its order.

use crate::app::{Action, Pane, State};
use crate::fold::{Crease, Face};
use crate::scene::svg::{Picked, paint};
use crate::scene::{Bench, Stage, Tag, inside, inside_count, inside_rows};
use crate::ui::shared::Shared;
use crate::ui::store::Act;
use crate::ui::widgets::words;
use std::rc::Rc;
use wasm_bindgen::JsCast;
use yew::prelude::*;

/// What it needs.
#[derive(Clone, PartialEq, Properties)]
pub struct Props {
    /// The state.
    pub state: Rc<State>,
    /// What is on the bench.
    pub bench: Shared<Bench>,
    /// How to say what happened.
    pub act: Act,
    /// The cut: its direction, and the row or column of panels.
    pub cut: (Crease, u32),
    /// Width and height of the picture, px.
    pub size: (u32, u32),
}

/// The look inside.
#[component]
pub fn Inside(props: &Props) -> Html {
    let (bench, act) = (&props.bench, &props.act);
    let folds = bench.rule.folds;
    let (step, slit) = match bench.rule.stage(props.state.look.at) {
        Stage::Fold { made, turn } => (made + usize::from(turn > 0.5), false),
        _ => (folds, true),
    };
    let (along, index) = props.cut;
    let count = inside_count(bench, step, along).max(1);
    let index = index.min(count - 1);
    let svg =
        use_memo((bench.clone(), step, slit, along, index, props.size), |(bench, step, slit, along, index, size)| {
            let size = (f64::from(size.0), f64::from(size.1));
            let scene = inside(bench, *step, *slit, *along, *index, size);
            let picked = |tag: Tag| {
                let Tag::Face(face) = tag else { return None };
                let page = bench.printing.figure(&face)?.page;
                Some(Picked { attributes: format!(" data-page=\"{page}\"") })
            };
            AttrValue::from(paint(&scene, "cut-picture", &picked))
        });
    let follow = {
        let (act, shift) = (act.clone(), bench.printing.shift);
        let followed = props.state.look.followed;
        Callback::from(move |e: MouseEvent| {
            let target = e.target().and_then(|t| t.dyn_into::<web_sys::Element>().ok());
            let page = target.and_then(|t| t.closest("[data-page]").ok()??.get_attribute("data-page")?.parse().ok());
            let page = page.and_then(|p: u32| p.checked_sub(shift));
            if page.is_some() {
                act.emit(Action::Follow(page.filter(|p| followed != Some(*p))));
            }
        })
    };
    let go = |along: Crease, index: u32| act.reform(move |_: MouseEvent| Action::Pane(Pane::Inside(along, index)));
    let way = |to: Crease, name: &'static str| {
        html! { <button type="button" class="button" aria-pressed={(along == to).to_string()} onclick={go(to, 0)}>{ name }</button> }
    };
    let line = if along == Crease::Horizontal { "row" } else { "column" };
    let place = if step == 0 {
        "One layer. Fold, and look again.".to_owned()
    } else {
        format!("{line} {} of {count}", index + 1)
    };
    html! {
        <section class="pane inside" aria-label="The packet cut through">
            <div class="inside-head">
                { way(Crease::Horizontal, "Cut level") }
                { way(Crease::Vertical, "Cut upright") }
                <button type="button" class="plain" onclick={act.reform(|_: MouseEvent| Action::Pane(Pane::Sides))}>{ "Close" }</button>
            </div>
            <div class="cut" role="img" aria-label={format!("The packet cut through {line} {}", index + 1)} onclick={follow}>
                { Html::from_html_unchecked((*svg).clone()) }
            </div>
            <div class="inside-foot">
                <button type="button" class="button" aria-disabled={(index == 0).to_string()}
                    onclick={go(along, index.saturating_sub(1))}>{ "Before" }</button>
                <p>{ words(&place) }</p>
                <button type="button" class="button" aria-disabled={(index + 1 >= count).to_string()}
                    onclick={go(along, (index + 1).min(count - 1))}>{ "Next" }</button>
            </div>
            { table(bench, step, slit, along, index) }
        </section>
    }
}

/// The same in words, for those who hear it.
fn table(bench: &Bench, step: usize, slit: bool, along: Crease, index: u32) -> Html {
    let pages = |faces: &[Face]| {
        let pages =
            faces.iter().map(|f| bench.printing.figure(f).map_or_else(|| "blank".into(), |f| f.page.to_string()));
        pages.collect::<Vec<_>>().join(", ")
    };
    let joined = |other: Option<usize>, slit: bool| match other {
        Some(row) => format!("closed with layer {}", row + 1),
        None if slit => "slit".into(),
        None => "open".into(),
    };
    let rows = inside_rows(bench, step, slit, along, index);
    let row = |(i, row): (usize, &crate::scene::InsideLayer)| {
        html! {
            <tr key={i}>
                <th scope="row">{ i + 1 }</th><td>{ pages(&row.upper) }</td><td>{ pages(&row.lower) }</td>
                <td>{ joined(row.joined_left, row.slit_left) }</td><td>{ joined(row.joined_right, row.slit_right) }</td>
            </tr>
        }
    };
    html! {
        <div class="unseen"><table>
            <caption>{ "Layers from the top" }</caption>
            <thead><tr><th>{ "layer" }</th><th>{ "above" }</th><th>{ "below" }</th><th>{ "left end" }</th><th>{ "right end" }</th></tr></thead>
            <tbody>{ for rows.iter().enumerate().map(row) }</tbody>
        </table></div>
    }
}
