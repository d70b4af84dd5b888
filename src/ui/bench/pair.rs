//! Two small benches side by side: as a sheet should be, and as it is. They fold by themselves, in step.

use super::mate::matching;
use super::player::Player;
use crate::fold::fold_name;
use crate::scene::{Bench, Rule, Stage};
use crate::ui::browser::media;
use crate::ui::shared::Shared;
use crate::ui::widgets::words;
use web_sys::{Element, HtmlCanvasElement};
use yew::prelude::*;

/// What lies on the benches.
pub struct PairProps {
    /// The right sheet and the other one.
    pub benches: Option<(Shared<Bench>, Shared<Bench>)>,
    /// Whether both are opened together, however many folds each has; `end` is then a moment of the one with more.
    pub waits: bool,
    /// What they are.
    pub names: [&'static str; 2],
    /// The moment at which they come to rest.
    pub end: u32,
    /// What was done, in a sentence.
    pub says: AttrValue,
    /// What has to be said about the picture, if anything.
    pub note: AttrValue,
    /// The look-alike whose turn it is to be folded; 0 for the cause itself.
    pub turn: usize,
    /// Shows both at full size, where that can be.
    pub show: Option<Callback<()>>,
}

/// The pair. It is there always, and hidden while there is nothing to show.
#[hook]
pub fn use_pair(props: &PairProps) -> Html {
    let player = use_memo((), |()| Player::default());
    let at = use_state_eq(|| 0u32);
    let (right, done) = (use_node_ref(), use_node_ref());
    {
        let (player, right, done, at) = (player.clone(), right.clone(), done.clone(), at.setter());
        use_effect_with((), move |()| {
            player.tell(Callback::from(move |now| at.set(now)));
            player.take([&right, &done].map(|node| node.cast::<HtmlCanvasElement>()));
            let colours = {
                let player = player.clone();
                media::listen("(forced-colors: active)", move |_| player.refit_all())
            };
            move || {
                drop(colours);
                player.tell(Callback::noop());
                player.take([None, None]);
            }
        });
    }
    let benches = props.benches.clone();
    {
        let player = player.clone();
        use_effect_with((benches.clone(), props.end, props.waits), move |(benches, end, waits)| {
            let (right, done) = benches.clone().unzip();
            player.put([right, done], *waits);
            player.play(*end);
        });
    }
    let place = use_node_ref();
    {
        let place = place.clone();
        // Who chose a look-alike below wants to see it fold.
        use_effect_with(props.turn, move |turn| {
            if let Some(pair) = place.cast::<Element>().filter(|_| *turn > 0) {
                pair.scroll_into_view();
            }
        });
    }
    let (now, end) = (*at, props.end);
    // Beyond the first wrong page one may turn on to the last.
    let last = benches.as_ref().map_or(0, |(right, done)| {
        let first = if props.waits { lead(&right.rule, &done.rule).end() } else { 0.0 };
        done.rule.end().max(first) as u32
    });
    let step = |by: i32| {
        let player = player.clone();
        Callback::from(move |_: MouseEvent| player.step(by, last))
    };
    let again = {
        let player = player.clone();
        Callback::from(move |_: MouseEvent| player.play(end))
    };
    let (right_says, done_says) = match &benches {
        Some((right, done)) => {
            let lead = lead(&right.rule, &done.rule);
            let at = |bench: &Bench| if props.waits { matching(lead, bench.rule, f64::from(now)) as u32 } else { now };
            (step_says(right, at(right)), step_says(done, at(done)))
        }
        None => Default::default(),
    };
    let differs = right_says != done_says;
    let one = |node: &NodeRef, name: &'static str, what: String, says: &str, differs: bool| {
        html! {
            <figure class={classes!("small-bench", differs.then_some("differs"))}>
                <figcaption>{ name }</figcaption>
                <canvas ref={node.clone()} role="img" aria-label={format!("{what} {says}.")} />
                <p>{ words(says) }</p>
            </figure>
        }
    };
    let [first, second] = props.names;
    let show = props.show.as_ref().map(|show| {
        html! { <button type="button" class="button" onclick={show.reform(|_: MouseEvent| ())}>{ "Show on the bench" }</button> }
    });
    html! {
        <div ref={place} class="pair" role="group" aria-label="Folded side by side" hidden={benches.is_none()}>
            <div class="small-benches">
                { one(&right, first, format!("{first}."), &right_says, false) }
                { one(&done, second, format!("{second}. {}", props.says), &done_says, differs) }
            </div>
            <p class="quiet" hidden={props.note.is_empty()}>{ words(&props.note) }</p>
            <div class="pair-tools">
                <button type="button" class="button" aria-disabled={(now == 0).to_string()} onclick={step(-1)}>{ "Step back" }</button>
                <button type="button" class="button" aria-disabled={(now >= last).to_string()} onclick={step(1)}>{ "Step on" }</button>
                <button type="button" class="button" onclick={again}>{ "Fold it again" }</button>
                { show.unwrap_or_default() }
            </div>
        </div>
    }
}

/// The rule with more folds.
fn lead(one: &Rule, other: &Rule) -> Rule {
    if one.folds > other.folds { *one } else { *other }
}

/// What is done with a sheet at a whole moment.
pub fn step_says(bench: &Bench, at: u32) -> String {
    match bench.rule.stage(f64::from(at)) {
        Stage::Fold { made: 0, .. } => "Flat".into(),
        Stage::Fold { made, .. } => {
            let fold = bench.folding.steps.get(made - 1).map(|step| fold_name(&step.turn.fold));
            format!("{made}: {}", fold.unwrap_or_default().to_lowercase())
        }
        Stage::Slit { .. } => "Slit".into(),
        Stage::Offer { .. } => "Front up".into(),
        Stage::Leaf { turned, .. } => {
            let Some(section) = &bench.section else { return String::new() };
            let page = |at: Option<usize>| {
                let face = section.faces.get(at?)?;
                bench.printing.figure(&face.face).map(|f| f.page)
            };
            match (page((2 * turned).checked_sub(1)), page(Some(2 * turned))) {
                (Some(a), Some(b)) => format!("Open at {a} and {b}"),
                (None, Some(b)) => format!("In front, {b}"),
                (Some(a), None) => format!("At the back, {a}"),
                (None, None) => "Open".into(),
            }
        }
    }
}
