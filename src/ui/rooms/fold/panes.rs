//! What lies beside the bench in place of the flat sides, under a row of tabs.

use super::{folder, inside, paper, trim};
use crate::app::{Action, Pane, State};
use crate::fold::Crease;
use crate::scene::Bench;
use crate::ui::later::{Later, Missing, wasm_split};
use crate::ui::links::{HandOn, Linked};
use crate::ui::shared::Shared;
use crate::ui::store::Act;
use std::rc::Rc;
use yew::prelude::*;

/// What the panes need.
#[derive(Clone, PartialEq, Properties)]
pub struct Props {
    /// The state.
    pub state: Rc<State>,
    /// What is on the bench.
    pub bench: Shared<Bench>,
    /// How to say what happened.
    pub act: Act,
    /// Hands on what lies on the bench.
    pub links: UseStateSetter<Linked>,
    /// Width and height of the picture of a packet that is cut through, px.
    pub size: (u32, u32),
}

/// The way to the panes.
#[wasm_split(more, fallible)]
pub fn way() -> Result<Later<Props>, Missing> {
    Ok(|props| html! { <Panes ..props /> })
}

#[component]
fn Panes(props: &Props) -> Html {
    let Props { state, bench, act, links, size } = props.clone();
    let pane = state.look.pane;
    let content = match pane {
        Pane::Inside(along, at) => {
            html! { <inside::Inside {state} {bench} act={act.clone()} cut={(along, at)} {size} /> }
        }
        Pane::Paper => html! { <paper::PaperPane {state} act={act.clone()} /> },
        Pane::Trim => html! { <trim::TrimPane {state} act={act.clone()} /> },
        Pane::Folder => html! { <folder::FolderPane {state} act={act.clone()} /> },
        Pane::Sides => Html::default(),
    };
    let tab = |to: Pane, name: &'static str| {
        let here = std::mem::discriminant(&pane) == std::mem::discriminant(&to);
        let onclick = act.reform(move |_: MouseEvent| Action::Pane(to));
        html! { <button type="button" class="plain" aria-pressed={here.to_string()} {onclick}>{ name }</button> }
    };
    html! {
        <section class="flats panes" aria-label="Beside the bench">
            <nav class="tabs" aria-label="What lies beside the bench">
                { tab(Pane::Sides, "Sides") }
                { tab(Pane::Inside(Crease::Horizontal, 0), "Inside") }
                { tab(Pane::Paper, "Paper") }
                { tab(Pane::Trim, "Trim") }
                { tab(Pane::Folder, "Folder") }
                <button type="button" class="plain apart" onclick={Callback::from(move |_: MouseEvent| links.set(Linked::HandOn(HandOn::Bench)))}>{ "Hand on" }</button>
            </nav>
            { content }
        </section>
    }
}
