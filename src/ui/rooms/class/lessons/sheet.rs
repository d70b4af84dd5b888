//! The bench of a lesson: the sheet, both flat sides, the rule, and what else the hands can do.

use super::show::{open_at, turn_leaf};
use crate::app::Action;
use crate::fold::{Fold, Lands, Lay, Part, fold_name};
use crate::scene::{Bench, Stage};
use crate::ui::bench::{RuleProps, RuleShape, use_rule};
use crate::ui::rooms::class::stand::{PLACES_BEYOND, Stand, use_stand_canvas};
use crate::ui::rooms::fold::flats::use_flats;
use crate::ui::rooms::fold::moment_name;
use crate::ui::rooms::fold::tables::tables;
use crate::ui::shared::Shared;
use gloo_events::EventListener;
use gloo_utils::window;
use wasm_bindgen::JsCast;
use web_sys::{HtmlElement, HtmlInputElement, KeyboardEvent};
use yew::prelude::*;

/// What the bench needs.
#[derive(Clone, PartialEq, Properties)]
pub struct Props {
    /// The bench.
    pub stand: Stand,
    /// Whether the window is narrow.
    pub narrow: bool,
    /// Whether the sheet is one of a book whose spine lies beside it.
    pub book: bool,
}

/// What hands and keys do here, for whoever has never been at this bench.
pub const KEYS: &str = "Take an edge or a corner of the sheet and fold. Keys: F and Enter choose a crease, an arrow folds the part \
     that way, with Shift under; Backspace takes the last fold back, T turns over.";

/// Where there is no sheet, which does not happen in a lesson, nothing is shown.
#[component]
pub fn SheetView(props: &Props) -> Html {
    match props.stand.bench.clone() {
        Some(bench) => html! { <OnStand bench={bench} props={props.clone()} /> },
        None => Html::default(),
    }
}

#[derive(Clone, PartialEq, Properties)]
struct WithBench {
    bench: Shared<Bench>,
    props: Props,
}

#[component]
fn OnStand(with: &WithBench) -> Html {
    let WithBench { bench, props } = with;
    let Props { stand, .. } = props;
    let state = &stand.state;
    let lay = state.look.lay;
    let canvas = use_stand_canvas(stand, moment_name(bench, state.look.at, lay).into());
    let flats = use_flats(bench, state, &stand.hands, &stand.act);
    let rule_box = use_node_ref();
    let width = use_width(&rule_box);
    let rule = use_rule(&RuleProps {
        hands: stand.hands.clone(),
        shape: RuleShape { rule: bench.rule, width },
        packets: (0..=bench.rule.folds).map(|k| bench.size_at(k)).collect(),
        marks: (0..bench.rule.folds).map(|k| bench.step_mark(k)).collect(),
        at: state.look.at,
        says: moment_name(bench, state.look.at, lay).into(),
    });
    let closed = !matches!(bench.rule.stage(state.look.at), Stage::Leaf { .. } | Stage::Offer { .. });
    let leaf = {
        let stand = stand.clone();
        Callback::from(move |_: MouseEvent| turn_leaf(&stand))
    };
    let close = {
        let stand = stand.clone();
        Callback::from(move |_: MouseEvent| open_at(&stand, 0))
    };
    let back = {
        let hands = stand.hands.clone();
        Callback::from(move |_: MouseEvent| hands.unfold())
    };
    let turn_over = stand.act.reform(move |_: MouseEvent| Action::Lay(lay.turned_over()));
    let whole = state.sheet().is_whole();
    let unfolded = state.look.at == 0.0;
    // On a phone there is no room for it beside the bench, and the thread begins at the sheet.
    let spined = props.book && !props.narrow;
    html! {
        <div class={classes!("lesson-sheet", spined.then_some("with-spine"))}>
            { if spined { spine(stand) } else { Html::default() } }
            { canvas }
            { flats }
            <div class="lesson-rule" ref={rule_box}>{ rule }</div>
            <div class="lesson-tools">
                <div class="class-row">
                    <button type="button" class="button" hidden={unfolded || !closed} onclick={back}>{ "Take a fold back" }</button>
                    <button type="button" class="button" hidden={!closed} aria-pressed={lay.over.to_string()} onclick={turn_over}>{ "Turn over" }</button>
                    <button type="button" class="button leaf" hidden={bench.rule.leaves == 0 || closed && state.look.at < bench.rule.folds as f64} onclick={leaf}>
                        { if closed { "Open it" } else { "Turn a leaf" } }
                    </button>
                    <button type="button" class="button" hidden={closed} onclick={close}>{ "Close it" }</button>
                    <PageField act={stand.act.clone()} />
                </div>
                { if whole && closed { html! { <ByWords stand={stand.clone()} bench={bench.clone()} /> } } else { Html::default() } }
            </div>
            { tables(state, bench) }
        </div>
    }
}

/// The width of the rule, looked up after each render and when the window changes, in whole pixels.
#[hook]
fn use_width(node: &NodeRef) -> f64 {
    let width = use_state_eq(|| 600.0);
    let (node, set) = (node.clone(), width.setter());
    use_effect(move || {
        let measure = move || {
            if let Some(element) = node.cast::<HtmlElement>() {
                set.set(f64::from(element.client_width()).max(240.0));
            }
        };
        measure();
        let resized = EventListener::new(&window(), "resize", move |_| measure());
        move || drop(resized)
    });
    *width
}

#[derive(Clone, PartialEq, Properties)]
struct WordsProps {
    stand: Stand,
    bench: Shared<Bench>,
}

/// Folds by words, for whoever can't drag: which half goes, over or under.
#[component]
fn ByWords(props: &WordsProps) -> Html {
    let under = use_state_eq(|| false);
    let lands = if *under { Lands::Under } else { Lands::Over };
    let made = props.stand.state.look.at.floor() as usize;
    let (w, h) = props.bench.size_at(made.min(props.bench.rule.folds));
    let lay = props.stand.state.look.lay;
    // What is seen across is across the packet, too, unless it was turned round by a quarter.
    let (seen_w, seen_h) = if lay.quarters % 2 == 1 { (h, w) } else { (w, h) };
    let fold = |part: Part| {
        let size = if matches!(part, Part::Left | Part::Right) { seen_w } else { seen_h };
        let seen = Fold::new(size / 2, part, lands);
        let fold = unseen(lay, &seen, (seen_w, seen_h));
        let hands = props.stand.hands.clone();
        let onclick = Callback::from(move |_: MouseEvent| hands.make(fold));
        let hidden = size < 2 || size % 2 == 1;
        html! { <button type="button" class="plain" {hidden} {onclick}>{ fold_name(&seen) }</button> }
    };
    let toggle = {
        let under = under.clone();
        Callback::from(move |_: MouseEvent| under.set(!*under))
    };
    html! {
        <div class="class-row by-words" hidden={w * h < 2}>
            { for [Part::Right, Part::Left, Part::Top, Part::Bottom].into_iter().map(fold) }
            <button type="button" class="plain" aria-pressed={under.to_string()} onclick={toggle}>{ "Under" }</button>
        </div>
    }
}

/// The fold of the packet that is seen so.
fn unseen(lay: Lay, seen: &Fold, size: (u32, u32)) -> Fold {
    lay.back().seen(seen, size)
}

#[derive(Clone, PartialEq, Properties)]
struct FieldProps {
    act: crate::ui::store::Act,
}

/// A page that is typed is followed.
#[component]
fn PageField(props: &FieldProps) -> Html {
    let act = props.act.clone();
    let follow = move |input: &HtmlInputElement| {
        let page = input.value();
        match page.trim().parse::<u32>() {
            Ok(page) => act.emit(Action::FollowInBook(page)),
            Err(_) => act.emit(Action::Follow(None)),
        }
    };
    let field = |e: &web_sys::Event| e.target().and_then(|t| t.dyn_into::<HtmlInputElement>().ok());
    let entered = {
        let follow = follow.clone();
        Callback::from(move |e: KeyboardEvent| {
            if e.key() == "Enter"
                && let Some(input) = field(&e)
            {
                follow(&input);
            }
        })
    };
    let left = Callback::from(move |e: Event| {
        if let Some(input) = field(&e) {
            follow(&input);
        }
    });
    html! {
        <label class="page-typed" for="lesson-page">{ "page" }
            <input id="lesson-page" class="field" inputmode="numeric" autocomplete="off" onkeydown={entered} onchange={left} />
        </label>
    }
}

/// The spine of the lesson's book: a slip for each section. The thread begins at the one whose sheet lies on the bench.
fn spine(stand: &Stand) -> Html {
    let job = &stand.state.job;
    let number = crate::units::short;
    let seen = job.seen();
    let count = seen.len().max(1) as f64;
    let half = job.design.stairs.length_mm / 2.0;
    let long = job.design.stairs.spine_mm.max(1.0);
    let slip = |(place, back): (u32, &crate::marks::SeenBack)| {
        let (y, high) = (f64::from(place - 1) * 27.0, 24.0);
        let on = place == stand.state.look.place;
        let out = if on { 14.0 } else { 0.0 };
        let bar = |middle: &f64| {
            let x = 8.0 + out + (middle - half) / long * 118.0;
            html! { <rect class="slip-mark" x={number(x)} y={number(y)} width={number(2.0 * half / long * 118.0)} height="24" /> }
        };
        html! {
            <g key={place} data-place={(PLACES_BEYOND + place).to_string()} class={on.then_some("on")}>
                <rect class="slip-paper" x={number(8.0 + out)} y={number(y)} width="118" height={number(high)} />
                { for back.marks_mm.iter().flatten().map(bar) }
            </g>
        }
    };
    html! {
        <div class="strip lesson-spine">
            <svg viewBox={format!("0 0 140 {}", number(27.0 * count))} role="img" aria-label="The spine of this book"
                preserveAspectRatio="none">
                { for (1u32..).zip(&seen).map(slip) }
            </svg>
        </div>
    }
}
