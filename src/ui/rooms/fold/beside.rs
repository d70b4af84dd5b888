//! A second bench beside the first, which folds along; and the two ways of folding one sheet on them.

use crate::app::{Action, State};
use crate::fold::Lay;
use crate::scene::Bench;
use crate::ui::bench::{Hands, OnBench, Setting};
use crate::ui::later::{Later, Missing, wasm_split};
use crate::ui::shared::Shared;
use crate::ui::store::Act;
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::{HtmlCanvasElement, HtmlSelectElement};
use yew::prelude::*;

/// What the second bench needs.
#[derive(Clone, PartialEq, Properties)]
pub struct Props {
    /// What lies on it.
    pub bench: Shared<Bench>,
    /// Who leads.
    pub hands: Hands,
    /// How the sheets lie.
    pub lay: Lay,
}

/// The way to the second bench.
#[wasm_split(more, fallible)]
pub fn way() -> Result<Later<Props>, Missing> {
    Ok(|props| html! { <Beside ..props /> })
}

#[component]
fn Beside(props: &Props) -> Html {
    let canvas = use_node_ref();
    let mate = use_memo((), |()| Hands::default());
    {
        let (mate, leader, canvas) = (mate.clone(), props.hands.clone(), canvas.clone());
        use_effect_with((), move |()| {
            mate.take_canvas(canvas.cast::<HtmlCanvasElement>());
            leader.lead(Some((*mate).clone()));
            move || {
                leader.lead(None);
                mate.take_canvas(None);
            }
        });
    }
    {
        let (mate, leader) = (mate.clone(), props.hands.clone());
        use_effect_with((props.bench.clone(), props.lay), move |(bench, lay)| {
            mate.put(Setting { bench: Some(bench.clone()), open: true, lay: *lay, ..Setting::default() });
            leader.ask_frame();
        });
    }
    html! {
        <section class="bench beside" aria-label="The other bench">
            <p class="bench-name">{ "As it should be" }</p>
            <canvas ref={canvas} role="img" aria-label="The same sheet as it should be; it folds along" />
        </section>
    }
}

/// What the choice of two ways needs.
#[derive(Clone, PartialEq, Properties)]
pub struct CompareProps {
    /// The state.
    pub state: Rc<State>,
    /// How to say what happened.
    pub act: Act,
    /// Puts both on the bench, or the job's own again.
    pub put: Callback<Option<Rc<OnBench>>>,
}

/// The way to the choice of two ways.
#[wasm_split(more, fallible)]
pub fn compare_way() -> Result<Later<CompareProps>, Missing> {
    Ok(|props| html! { <Compare ..props /> })
}

#[component]
fn Compare(props: &CompareProps) -> Html {
    let state = &props.state;
    // What differs is marked when the sheets have come to rest.
    let rested = use_mut_ref(|| 0.0);
    if state.look.at.fract() == 0.0 {
        *rested.borrow_mut() = state.look.at;
    }
    let step = *rested.borrow();
    let says = use_state(String::new);
    {
        let (state, put, says) = (state.clone(), props.put.clone(), says.setter());
        use_effect_with((state.job.clone(), state.look.place, step.to_bits()), move |_| {
            let compared = state.compared(step);
            says.set(compared.as_ref().map(|c| c.says.clone()).unwrap_or_default());
            put.emit(compared.map(|c| {
                let beside = Some(Shared::new(c.by_scheme));
                Rc::new(OnBench { bench: Shared::new(c.in_hand), beside, says: AttrValue::default(), free: true })
            }));
        });
    }
    {
        let put = props.put.clone();
        use_effect_with((), move |()| move || put.emit(None));
    }
    let ways = state.other_ways();
    let folds = state.folded_scheme().folds;
    let chosen = ways.iter().position(|(_, way)| *way == folds);
    let choose = {
        let (act, ways) = (props.act.clone(), ways.clone());
        Callback::from(move |e: Event| {
            let select = e.target().and_then(|t| t.dyn_into::<HtmlSelectElement>().ok());
            let way = select.and_then(|s| s.value().parse::<usize>().ok()).and_then(|i| ways.get(i));
            act.emit(way.map_or(Action::ByScheme, |(_, folds)| Action::Try { folds: folds.clone(), at: 0.0 }));
        })
    };
    let option = |(i, (name, _)): (usize, &(String, Vec<crate::fold::Fold>))| {
        html! { <option value={i.to_string()} selected={chosen == Some(i)}>{ name.clone() }</option> }
    };
    let first = if state.job.tried.is_some() && chosen.is_none() { "as folded by hand" } else { "by the scheme" };
    html! {
        <div class="compare">
            <label for="other-way">{ "In hand" }
                <select id="other-way" class="field words" onchange={choose}>
                    <option value="" selected={chosen.is_none()}>{ first }</option>
                    { for ways.iter().enumerate().map(option) }
                </select>
            </label>
            <p class="differs" aria-live="polite">{ crate::ui::widgets::words(&says) }</p>
            <button type="button" class="plain" onclick={props.act.reform(|_: MouseEvent| Action::Compare(false))}>{ "Done" }</button>
        </div>
    }
}
