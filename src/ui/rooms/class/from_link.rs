//! An exercise that came in a link, and the one on the desk handed on in one.

use super::{Part, PartProps};
use crate::class::DeskAct;
use crate::practice::Kind;
use crate::ui::links::{Linked, link_of_exercise};
use crate::ui::widgets::words;
use yew::prelude::*;

/// Sets an exercise that came in a link. Where one lies on the desk that was begun, the learner is asked first.
#[hook]
pub fn use_from_link(props: &PartProps) -> Html {
    let (links, desk) = (&props.room.links, &props.desk);
    let came = match **links {
        Linked::Set(exercise) if desk.ready => Some(exercise),
        _ => None,
    };
    let came = came.and_then(|e| Some((Kind::of_number(e.kind)?, e.level, e.seed)));
    let begun = desk.desk.on_desk.as_ref().filter(|on| on.is_begun());
    // The one that lies there already goes on as it is.
    let here = begun.is_some_and(|on| came == Some((on.kind, on.level, on.seed)));
    let asks = begun.is_some() && came.is_some() && !here;
    let take = {
        let (links, act, open) = (links.setter(), desk.act.clone(), props.open.clone());
        move |set: bool| {
            if let Some((kind, level, seed)) = came.filter(|_| set) {
                act.emit(DeskAct::Set(kind, level, seed));
            }
            open.emit(Part::Practise);
            links.set(Linked::Nothing);
        }
    };
    {
        let take = take.clone();
        use_effect_with((came, asks), move |(came, asks)| {
            if came.is_some() && !asks {
                take(!here);
            }
        });
    }
    let Some((kind, level, _)) = came.filter(|_| asks) else { return Html::default() };
    let says =
        format!("A link sets the exercise “{}”, level {level}. Lay the one that you have begun aside?", kind.title());
    let (set, stay) = (take.clone(), take);
    html! {
        <div class="class-said" role="alert">
            <p>{ words(&says) }</p>
            <div class="class-row">
                <button type="button" class="button slip" onclick={Callback::from(move |_: MouseEvent| set(true))}>{ "Lay it aside" }</button>
                <button type="button" class="button" onclick={Callback::from(move |_: MouseEvent| stay(false))}>{ "Go on with mine" }</button>
            </div>
        </div>
    }
}

/// The button that hands on the exercise on the desk.
pub fn hand_on(props: &PartProps, part: Part) -> Html {
    let on_desk = props.desk.desk.on_desk.as_ref().filter(|_| part == Part::Practise);
    let onclick = {
        let (kind, level, seed) = on_desk.map_or((0, 0, 0), |on| (on.kind.number(), on.level, on.seed));
        let links = props.room.links.setter();
        Callback::from(move |_: MouseEvent| links.set(link_of_exercise(kind, level, seed)))
    };
    html! { <button type="button" class="plain" hidden={on_desk.is_none()} {onclick}>{ "Hand on" }</button> }
}
