//! Folds found on the bench: the printed sheet is folded by hand, fold after fold, and what was made is the answer.

use super::AnswerProps;
use super::blank_bench::{says, turn_over, use_stand_rule};
use super::in_step::InStep;
use crate::app::{Action, State, printed_sheet, state_of_folds};
use crate::fold::{Crease, Fold, Lands, Part, Side, fold_name};
use crate::practice::{Answer, Item, Marked, Task, fold_words, halves};
use crate::scene::svg::paint;
use crate::scene::{Printing, flat_side};
use crate::ui::rooms::class::stand::{Stand, use_stand_canvas, use_stand_printed};
use crate::ui::rooms::fold::tables::tables;
use crate::ui::widgets::{chosen, words};
use std::rc::Rc;
use yew::prelude::*;

/// The answer.
#[component]
pub fn FindFolds(props: &AnswerProps) -> Html {
    let printed = use_memo(props.exercise.clone(), |exercise| match &exercise.task {
        Task::FindFolds { side_a, side_b, .. } => Rc::new(printed_sheet(side_a, side_b)),
        _ => Rc::new(Printing::blank(1, 2)),
    });
    let count = if let Task::FindFolds { folds, .. } = &props.exercise.task { *folds } else { 0 };
    let folds: Vec<Fold> = if let Answer::Folds(folds) = &*props.answer { folds.clone() } else { Vec::new() };
    let ticket = match count {
        1 => "One fold brings the pages into order.".to_owned(),
        n => format!("{n} folds bring the pages into order."),
    };
    let left = match &props.marked {
        Some(marked) => html! {
            <InStep exercise={props.exercise.clone()} answer={props.answer.clone()} marked={marked.clone()} narrow={props.narrow} />
        },
        None => html! {
            <FoldingBench printed={(*printed).clone()} folds={folds.clone()} set={props.set.reform(Answer::Folds)} narrow={props.narrow} />
        },
    };
    let (width, height) = printed.sheet();
    let tall = height > width;
    let side = |side: Side, letter: &'static str, class: &'static str| {
        let picture = AttrValue::from(paint(&flat_side(&printed, side, false), "sheet", &|_| None));
        html! {
            <div class="flat-box">
                <p class="flat-head"><span class="letter">{ letter }</span></p>
                <div class={classes!("flat", class)}>{ Html::from_html_unchecked(picture) }</div>
            </div>
        }
    };
    html! {
        <div class={classes!("sheet-answer", "find-folds", tall.then_some("tall"))}>
            <div class="ticket">
                <h3>{ words(&ticket) }</h3>
                { made(&folds, count as usize, props.marked.as_deref()) }
            </div>
            <div class="answer-left">{ left }</div>
            <section class="flats" aria-label="The printed sheet">
                { side(Side::A, "A", "side-a") }
                { side(Side::B, "B", "side-b") }
            </section>
        </div>
    }
}

/// The folds so far, or each with its marks.
fn made(folds: &[Fold], count: usize, marked: Option<&Marked>) -> Html {
    let item = |at: usize| marked.and_then(|m| m.items.get(at));
    let one = |at: usize| {
        let name = folds.get(at).map_or("not made".into(), fold_words);
        html! { <li key={at}>{ words(&name) }{ item(at).map(marks).unwrap_or_default() }</li> }
    };
    let shown = if marked.is_some() { count.max(folds.len()) } else { folds.len() };
    html! { <ol class="steps made" aria-label="Folds made">{ for (0..shown).map(one) }</ol> }
}

fn marks(item: &Item) -> Html {
    let right =
        if item.got < item.of && item.given != item.right { format!(" Right: {}.", item.right) } else { String::new() };
    html! { <span class="at-place">{ words(&format!("{} of {}.{right}", halves(item.got), halves(item.of))) }</span> }
}

#[derive(Clone, PartialEq, Properties)]
struct FoldingProps {
    printed: Rc<Printing>,
    folds: Vec<Fold>,
    set: Callback<Vec<Fold>>,
    narrow: bool,
}

/// The sheet in hand. Its folds are the answer: what is made by hand is told, and what the answer becomes lies there.
#[component]
fn FoldingBench(props: &FoldingProps) -> Html {
    let (rows, columns) = (props.printed.rows, props.printed.columns);
    let stand = {
        let folds = props.folds.clone();
        use_stand_printed(move || state_of_folds(rows, columns, &folds), true, Some(props.printed.clone()))
    };
    let in_hand = stand.state.scheme().folds;
    {
        let (set, answered) = (props.set.clone(), props.folds.clone());
        use_effect_with(in_hand.clone(), move |folds| {
            if *folds != answered {
                set.emit(folds.clone());
            }
        });
    }
    {
        let (put, in_hand) = (stand.put.clone(), in_hand.clone());
        use_effect_with(props.folds.clone(), move |answered| {
            if *answered != in_hand {
                put.emit(state_of_folds(rows, columns, answered));
            }
        });
    }
    let says = says(&stand, "Take an edge or a corner and fold.");
    let canvas = use_stand_canvas(&stand, says.clone().into());
    let rule = use_stand_rule(&stand, props.narrow);
    let fewer = {
        let (set, folds) = (props.set.clone(), props.folds.clone());
        Callback::from(move |_: MouseEvent| {
            set.emit(folds.split_last().map(|(_, before)| before.to_vec()).unwrap_or_default())
        })
    };
    let creases = use_creases(&stand);
    html! {
        <div class="own-bench">
            { canvas }
            <div class="says-row">
                <p class="stand-says" aria-live="polite">{ words(&says) }</p>
                { turn_over(&stand) }
            </div>
            { rule }
            <div class="class-row">
                { creases }
                <button type="button" class="button take-back" aria-disabled={props.folds.is_empty().to_string()} onclick={fewer}
                    title="Key Backspace; or lead the part back by hand">{ "Take the last fold back" }</button>
            </div>
            { stand.bench.as_ref().map(|bench| tables(&stand.state, bench)).unwrap_or_default() }
        </div>
    }
}

/// The next fold by choice: a crease, and the part that moves.
#[hook]
fn use_creases(stand: &Stand) -> Html {
    let picked = use_state_eq(|| 0usize);
    let Some(bench) = &stand.bench else { return Html::default() };
    let all = State::creases(bench);
    let Some((crease, after)) = all.get(*picked).or(all.first()).copied() else {
        return html! { <span class="quiet">{ "It is down to one page." }</span> };
    };
    let lay = stand.state.look.lay;
    let r = bench.folding.last().extent();
    let size = (r.width().unsigned_abs(), r.height().unsigned_abs());
    let name = |(crease, after): (Crease, u32)| {
        let part = if crease == Crease::Vertical { Part::Left } else { Part::Top };
        let Fold { crease, after, .. } = lay.seen(&Fold::new(after, part, Lands::Over), size);
        match crease {
            Crease::Vertical => format!("upright, {after} from the left"),
            Crease::Horizontal => format!("level, {after} from the top"),
        }
    };
    let choose = {
        let picked = picked.setter();
        Callback::from(move |e: Event| picked.set(chosen(&e).and_then(|v| v.parse().ok()).unwrap_or(0)))
    };
    let options = all.iter().enumerate().map(|(i, c)| {
        html! { <option value={i.to_string()} selected={(crease, after) == *c}>{ name(*c) }</option> }
    });
    let parts = match crease {
        Crease::Vertical => [Part::Right, Part::Left],
        Crease::Horizontal => [Part::Top, Part::Bottom],
    };
    let way = |(part, lands): (Part, Lands)| {
        let fold = Fold::new(after, part, lands);
        let (act, picked) = (stand.act.clone(), picked.setter());
        let onclick = Callback::from(move |_: MouseEvent| {
            picked.set(0);
            act.emit(Action::AddFold(fold));
        });
        html! { <button type="button" class="button" {onclick}>{ fold_name(&lay.seen(&fold, size)) }</button> }
    };
    let ways = parts.into_iter().flat_map(|p| [(p, Lands::Over), (p, Lands::Under)]);
    html! {
        <span class="class-row creases">
            <label for="own-crease">{ "Crease" }</label>
            <select id="own-crease" class="field words" ~value={picked.to_string()} onchange={choose}>{ for options }</select>
            { for ways.map(way) }
        </span>
    }
}
