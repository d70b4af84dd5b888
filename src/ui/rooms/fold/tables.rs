//! The tables behind the pictures: what lies uppermost and undermost, and the whole sheet.
//!
//! Each is a component, so that a large sheet's is looked through only when something in it has changed.

use crate::app::{State, outside_pages, page_name};
use crate::fold::{Face, Lay, Side};
use crate::scene::{Bench, Stage};
use crate::ui::shared::Shared;
use yew::prelude::*;

/// Tables for those who don't see the pictures.
pub fn tables(state: &State, bench: &Shared<Bench>) -> Html {
    let made = match bench.rule.stage(state.look.at) {
        Stage::Fold { made, .. } => made.min(bench.folding.steps.len()),
        _ => bench.folding.steps.len(),
    };
    html! {
        <div class="unseen">
            <Outside bench={bench.clone()} {made} lay={state.look.lay} />
            <Sides bench={bench.clone()} />
        </div>
    }
}

#[derive(Clone, PartialEq, Properties)]
struct OutsideProps {
    bench: Shared<Bench>,
    made: usize,
    lay: Lay,
}

#[component]
fn Outside(props: &OutsideProps) -> Html {
    let bench = &props.bench;
    let outside = |beneath: bool| outside_pages(&bench.folding, &bench.printing, props.made, beneath, props.lay);
    html! {
        <div>
            { table("Pages that lie uppermost", outside(false)) }
            { table("Pages that lie undermost", outside(true)) }
        </div>
    }
}

#[derive(Clone, PartialEq, Properties)]
struct SidesProps {
    bench: Shared<Bench>,
}

#[component]
fn Sides(props: &SidesProps) -> Html {
    html! {
        <div>
            { table("Side A", side(&props.bench, Side::A)) }
            { table("Side B, turned left to right", side(&props.bench, Side::B)) }
        </div>
    }
}

fn side(bench: &Bench, side: Side) -> Vec<Vec<String>> {
    let printing = &bench.printing;
    let cell = |row: u32, seen: u32| {
        let column = if side == Side::A { seen } else { printing.columns - 1 - seen };
        printing.figure(&Face { side, row, column }).map_or("blank".into(), page_name)
    };
    (0..printing.rows).map(|row| (0..printing.columns).map(|seen| cell(row, seen)).collect()).collect()
}

fn table(caption: &'static str, rows: Vec<Vec<String>>) -> Html {
    let row = |cells: Vec<String>| html! { <tr>{ for cells.into_iter().map(|c| html! { <td>{ c }</td> }) }</tr> };
    html! { <table><caption>{ caption }</caption><tbody>{ for rows.into_iter().map(row) }</tbody></table> }
}
