//! The Fold room: a sheet on the bench, its two flat sides, the rule.

mod beside;
mod by_hand;
pub(super) mod flats;
mod folder;
mod inside;
mod layout;
mod maker;
mod panes;
mod paper;
pub mod picker;
mod pieces;
pub(super) mod tables;
mod trim;

use crate::app::{Action, Pane, State, Task};
use crate::fold::{Crease, Lay, fold_name, sixteen};
use crate::scene::{Bench, Stage};
use crate::ui::bench::{CanvasProps, Hands, OnBench, Pointed, RuleProps, RuleShape, follow, use_canvas, use_rule};
use crate::ui::browser::checker::Checker;
use crate::ui::later::use_later;
use crate::ui::links::Linked;
use crate::ui::shared::Shared;
use crate::ui::store::Act;
use crate::ui::widgets::{Dialog, words};
use flats::use_flats;
use std::rc::Rc;
use tables::tables;
use wasm_bindgen::JsCast;
use web_sys::{HtmlInputElement, KeyboardEvent};
use yew::prelude::*;

/// What the room needs.
#[derive(Clone, PartialEq, Properties)]
pub struct Props {
    /// The state.
    pub state: Rc<State>,
    /// What is on the bench.
    pub bench: Shared<Bench>,
    /// Who holds it.
    pub hands: Hands,
    /// How to say what happened.
    pub act: Act,
    /// Width of the rule, px.
    pub rule_width: f64,
    /// The spine of the book.
    pub strip: Html,
    /// The crease that is being considered while one's own scheme is made.
    pub crease: UseStateHandle<Option<(Crease, u32)>>,
    /// Who works layouts back.
    pub checker: Checker,
    /// What lies on the bench in place of the job's own sheet.
    pub on_bench: Option<Rc<OnBench>>,
    /// Puts a sheet on the bench, or the job's own again.
    pub put: Callback<Option<Rc<OnBench>>>,
    /// Hands something on in a link.
    pub links: UseStateSetter<Linked>,
}

/// The Fold room.
#[component]
pub fn FoldRoom(props: &Props) -> Html {
    let picking = use_state(|| false);
    let (state, act) = (&props.state, &props.act);
    let bench = props.bench.clone();
    let says = match &props.on_bench {
        Some(other) if bench.folding.steps.is_empty() => other.says.to_string(),
        Some(other) => format!("{}{}", other.says, state.moment_sentence(&bench)),
        None => state.fold_sentence(&bench),
    };
    let making = state.look.task == Task::Make;
    let packets: Rc<[(u32, u32)]> = (0..=bench.rule.folds).map(|k| bench.size_at(k)).collect();
    let shape = RuleShape { rule: bench.rule, width: props.rule_width };
    // The course that everyone begins with is known by name at once; the others' names come with the list of them.
    let sixteen = sixteen();
    let (width, height) = state.sheet().leaf();
    let other = width > height || state.sheet().course.scheme().as_ref() != Some(&sixteen.scheme);
    let scheme_name = match use_later(other, picker::name_way) {
        _ if !other => html! { sixteen.name },
        Ok(name) => name(state.clone()),
        Err(meanwhile) => meanwhile,
    };
    let lay = state.look.lay;
    let turn_over = act.reform(move |_: MouseEvent| Action::Lay(lay.turned_over()));
    // Once it was turned to its reader it lies as it is read.
    let to_reader = state.look.at > bench.rule.folds as f64 + 1.0;
    let pick = {
        let picking = picking.clone();
        Callback::from(move |_: MouseEvent| picking.set(true))
    };
    let picked = {
        let picking = picking.clone();
        Callback::from(move |()| picking.set(false))
    };
    let pointed = {
        let (act, crease, bench) = (act.clone(), props.crease.clone(), bench.clone());
        let followed = state.look.followed;
        Callback::from(move |pointed: Pointed| match pointed {
            Pointed::Crease(c, after) => crease.set(Some((c, after))),
            Pointed::Face(face) => act.emit(follow(&bench, &face, followed)),
            Pointed::Bench => act.emit(Action::Follow(None)),
        })
    };
    let bench_box = use_canvas(&CanvasProps { hands: props.hands.clone(), says: says.clone().into(), making, pointed });
    let flats = use_flats(&bench, state, &props.hands, act);
    let working_back = state.look.task == Task::WorkBack;
    let of_layout = || layout::Props {
        state: state.clone(),
        act: act.clone(),
        checker: props.checker.clone(),
        put: props.put.clone(),
    };
    let sides = match use_later(working_back, layout::grid_way) {
        _ if !working_back => flats,
        Ok(view) => view(of_layout()),
        Err(meanwhile) => meanwhile,
    };
    let ways = match use_later(working_back, layout::ways_way) {
        _ if !working_back => Html::default(),
        Ok(view) => view(of_layout()),
        Err(meanwhile) => meanwhile,
    };
    let pane = state.look.pane;
    // The pane that "More" opens: the last one there was.
    let last = use_mut_ref(|| Pane::Inside(Crease::Horizontal, 0));
    let more = pane != Pane::Sides;
    if more {
        *last.borrow_mut() = pane;
    }
    let looking = !working_back && more;
    let sides = match use_later(looking, panes::way) {
        _ if !looking => sides,
        Ok(view) => view(panes::Props {
            state: state.clone(),
            bench: bench.clone(),
            act: act.clone(),
            links: props.links.clone(),
            size: if props.rule_width < 700.0 { (340, 300) } else { (340, 430) },
        }),
        Err(meanwhile) => meanwhile,
    };
    let other = props.on_bench.as_ref().and_then(|o| o.beside.clone());
    let sides = match (use_later(other.is_some(), beside::way), other.clone()) {
        (_, None) => sides,
        (Ok(view), Some(bench)) => view(beside::Props { bench, hands: props.hands.clone(), lay: state.look.lay }),
        (Err(meanwhile), _) => meanwhile,
    };
    let comparing = state.look.compare && state.look.task == Task::Fold;
    let compare = match use_later(comparing, beside::compare_way) {
        _ if !comparing => Html::default(),
        Ok(view) => view(beside::CompareProps { state: state.clone(), act: act.clone(), put: props.put.clone() }),
        Err(meanwhile) => meanwhile,
    };
    let from_elsewhere = props.on_bench.is_some() && state.look.task == Task::Fold && !state.look.compare;
    let otherwise = state.folds_by_hand() || from_elsewhere;
    let handled = otherwise || !(state.sheet().is_whole() || working_back);
    let by_hand = match use_later(handled, by_hand::way) {
        _ if !handled => Html::default(),
        Ok(view) => view(by_hand::Props {
            state: state.clone(),
            act: act.clone(),
            otherwise,
            from_elsewhere,
            finished: bench.rule.leaves > 0,
            put: props.put.clone(),
        }),
        Err(meanwhile) => meanwhile,
    };
    let look_inside = {
        let pane = if more { Pane::Sides } else { *last.borrow() };
        act.reform(move |_: MouseEvent| Action::Pane(pane))
    };
    let rule = use_rule(&RuleProps {
        hands: props.hands.clone(),
        shape,
        packets,
        marks: (0..bench.rule.folds).map(|k| bench.step_mark(k)).collect(),
        at: state.look.at,
        says: moment_name(&bench, state.look.at, state.look.lay).into(),
    });
    let page_box = use_page_box(&PageBoxProps { state: state.clone(), bench: bench.clone(), act: act.clone() });
    let picker = match use_later(*picking, picker::way) {
        Ok(view) => view(picker::Props { state: state.clone(), act: act.clone(), close: picked.clone() }),
        Err(meanwhile) => meanwhile,
    };
    let maker = match use_later(making, maker::way) {
        _ if !making => Html::default(),
        Ok(view) => view(maker::Props {
            state: state.clone(),
            bench: bench.clone(),
            act: act.clone(),
            crease: props.crease.clone(),
        }),
        Err(meanwhile) => meanwhile,
    };
    html! {
        <>
            { props.strip.clone() }
            { bench_box }
            { sides }
            <main class={classes!("front", "fold", (making || working_back || comparing).then_some("making"))}>
                <p class="says" aria-live="polite" aria-atomic="true">{ words(&says) }</p>
                <div class="by-hand" hidden={!handled}>{ by_hand }</div>
                <div class="maker-box" hidden={!making && !working_back && !comparing}>
                    { maker }
                    { ways }
                    { compare }
                </div>
                { rule }
                <div class="tools">
                    { page_box }
                    <div class="row">
                        <button type="button" class="button" aria-pressed={lay.over.to_string()} onclick={turn_over} disabled={to_reader}
                            title="Key T, or two taps on the sheet. R, or two fingers, turns it round.">{ "Turn over" }</button>
                        <button type="button" class="button look-inside" aria-pressed={looking.to_string()} hidden={working_back || other.is_some()}
                            onclick={look_inside} title="The packet cut through, the paper, the trimmer">{ "More" }</button>
                        <button type="button" class="button slip grow" onclick={pick}>{ scheme_name }</button>
                    </div>
                </div>
                { tables(state, &bench) }
            </main>
            <Dialog open={*picking} title="How the sheet is folded" close={picked}>{ picker }</Dialog>
        </>
    }
}

/// What a moment is called: "fold 2, top over bottom, 45 degrees".
pub(super) fn moment_name(bench: &Bench, at: f64, lay: Lay) -> String {
    let fold = |made: usize| {
        let fold = bench.folding.steps.get(made).map(|s| fold_name(&lay.seen(&s.turn.fold, (0, 0))));
        let mut fold = fold.unwrap_or_default();
        fold.make_ascii_lowercase();
        format!("fold {}, {fold}", made + 1)
    };
    match bench.rule.stage(at) {
        Stage::Fold { made, turn } if bench.is_parted(at) => {
            bench.step_name(made.saturating_sub(usize::from(turn == 0.0)))
        }
        Stage::Fold { made: 0, turn: 0.0 } => "flat".into(),
        Stage::Fold { made, turn: 0.0 } => fold(made - 1),
        Stage::Fold { made, turn } => format!("{}, {} degrees", fold(made), (turn * 180.0).round() as u32),
        Stage::Slit { .. } => "slit".into(),
        Stage::Offer { .. } => "turning to the front".into(),
        Stage::Leaf { turned, turn: 0.0 } => format!("open, {turned} leaves turned"),
        Stage::Leaf { turned, .. } => format!("leaf {} turning", turned + 1),
    }
}

struct PageBoxProps {
    state: Rc<State>,
    bench: Shared<Bench>,
    act: Act,
}

/// The box that a page number is typed into, and what is known of that page.
#[hook]
fn use_page_box(props: &PageBoxProps) -> Html {
    let followed = props.state.look.followed.map(|p| p + props.state.shift());
    let text = use_state(String::new);
    {
        let text = text.clone();
        use_effect_with(followed, move |f| text.set(f.map(|p| p.to_string()).unwrap_or_default()));
    }
    let typed = {
        let text = text.clone();
        Callback::from(move |e: InputEvent| {
            if let Some(input) = e.target().and_then(|t| t.dyn_into::<HtmlInputElement>().ok()) {
                text.set(input.value());
            }
        })
    };
    let go = {
        let (act, text) = (props.act.clone(), text.clone());
        move || match text.trim() {
            "" => act.emit(Action::Follow(None)),
            t => match t.parse::<u32>() {
                Ok(page) => act.emit(Action::FollowInBook(page)),
                // Roman, say: a folio.
                Err(_) => act.emit(Action::FollowPrinted(t.to_owned())),
            },
        }
    };
    let entered = {
        let go = go.clone();
        Callback::from(move |e: KeyboardEvent| {
            if e.key() == "Enter" {
                go();
            }
        })
    };
    let left = Callback::from(move |_: Event| go());
    // While another number is being typed, nothing is said of the one before.
    let typed_this = followed.is_some_and(|page| text.trim() == page.to_string());
    let about = props.state.followed_sentence(&props.bench).filter(|_| typed_this).unwrap_or_default();
    html! {
        <div class="page-box">
            <label for="page">{ "page" }</label>
            <input id="page" class="field" inputmode="numeric" autocomplete="off" value={(*text).clone()} oninput={typed}
                onkeydown={entered} onchange={left} />
            <p class="about" aria-live="polite" aria-atomic="true">{ words(&about) }</p>
        </div>
    }
}
