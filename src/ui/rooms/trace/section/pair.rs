//! Two small benches side by side: the right way, and as it was done. They fold by themselves, in step.

use super::acted::step_says;
use super::player::Player;
use crate::scene::Bench;
use crate::ui::browser::media;
use crate::ui::shared::Shared;
use crate::ui::widgets::words;
use web_sys::{Element, HtmlCanvasElement};
use yew::prelude::*;

/// What lies on the benches.
pub struct Props {
    /// The right sheet and the other one.
    pub benches: Option<(Shared<Bench>, Shared<Bench>)>,
    /// The moment at which they come to rest.
    pub end: u32,
    /// What was done, in a sentence.
    pub says: AttrValue,
    /// What has to be said about the picture, if anything.
    pub note: AttrValue,
    /// The look-alike whose turn it is to be folded; 0 for the cause itself.
    pub turn: usize,
    /// Shows both at full size.
    pub show: Callback<()>,
}

/// The pair. It is there always, and hidden while there is nothing to show.
#[hook]
pub fn use_pair(props: &Props) -> Html {
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
        use_effect_with((benches.clone(), props.end), move |(benches, end)| {
            let (right, done) = benches.clone().unzip();
            player.put([right, done]);
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
    let last = benches.as_ref().map_or(0, |(_, done)| done.rule.end() as u32);
    let step = |by: i32| {
        let player = player.clone();
        Callback::from(move |_: MouseEvent| player.step(by, last))
    };
    let again = {
        let player = player.clone();
        Callback::from(move |_: MouseEvent| player.play(end))
    };
    let (right_says, done_says) = match &benches {
        Some((right, done)) => (step_says(right, now), step_says(done, now)),
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
    html! {
        <div ref={place} class="pair" role="group" aria-label="Folded beside the right way" hidden={benches.is_none()}>
            <div class="small-benches">
                { one(&right, "The right way", "The right way.".into(), &right_says, false) }
                { one(&done, "As it was done", format!("As it was done. {}", props.says), &done_says, differs) }
            </div>
            <p class="quiet" hidden={props.note.is_empty()}>{ words(&props.note) }</p>
            <div class="pair-tools">
                <button type="button" class="button" aria-disabled={(now == 0).to_string()} onclick={step(-1)}>{ "Step back" }</button>
                <button type="button" class="button" aria-disabled={(now >= last).to_string()} onclick={step(1)}>{ "Step on" }</button>
                <button type="button" class="button" onclick={again}>{ "Fold it again" }</button>
                <button type="button" class="button" onclick={props.show.reform(|_: MouseEvent| ())}>{ "Show on the bench" }</button>
            </div>
        </div>
    }
}
