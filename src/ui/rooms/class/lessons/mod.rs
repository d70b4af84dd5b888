//! Lessons on the bench: the path, and a lesson in use.
//!
//! - `list`: the path, drawn
//! - `play`: a lesson in use: what to do, what came of it, and where it leads on
//! - `laid`: what a lesson looks at, made of what lies on the page, and the other way round (no web)
//! - `show`: a step shown: its deeds done on the bench, one after another
//! - `sheet`, `book`, `run`, `causes`: what a step is done at

mod book;
mod causes;
mod laid;
mod list;
mod play;
mod run;
mod sheet;
mod show;

use super::PartProps;
use crate::class::DeskAct;
use crate::practice::lesson::lessons;
use std::rc::Rc;
use yew::prelude::*;

/// The part.
#[component]
pub fn Lessons(props: &PartProps) -> Html {
    let lessons = use_memo((), |()| Rc::new(lessons()));
    let taken = use_state_eq(|| None::<u8>);
    let take = {
        let taken = taken.setter();
        Callback::from(move |number: u8| taken.set(Some(number)))
    };
    let leave = {
        let taken = taken.setter();
        Callback::from(move |()| taken.set(None))
    };
    let finished = &props.desk.desk.lessons;
    let chosen = taken.and_then(|number| Some((number, lessons.get(usize::from(number).checked_sub(1)?)?.clone())));
    match chosen {
        None => list::list(&lessons, finished, &take),
        Some((number, lesson)) => {
            let lesson = Rc::new(lesson);
            let following = (usize::from(number) < lessons.len()).then(|| number + 1);
            html! {
                <play::Play key={number} {number} of={lessons.len() as u8} {lesson} narrow={props.room.narrow}
                    finish={props.desk.act.reform(move |()| DeskAct::Finished(number))}
                    on={take.reform(move |()| following.unwrap_or(1))} last={following.is_none()} {leave} />
            }
        }
    }
}
