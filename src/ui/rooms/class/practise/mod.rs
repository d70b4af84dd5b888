//! An exercise: what is asked, the answer, hints, marks.
//!
//! - `choose`: which exercise: by the logbook's rule, by kind and level, by a code from paper, or one that lies aside
//! - `answers`: a way of answering for each kind
//! - `hand_in`: hints, steps back and on, handing in; `marks`: what it was worth, and what comes next
//! - `keys`, `clock`: steps back by keys, and minutes

mod answers;
mod choose;
mod clock;
mod hand_in;
mod keys;
mod marks;

use super::PartProps;
use crate::class::DeskAct;
use crate::practice::lesson::{AT_A_MACHINE, BY_HAND};
use crate::practice::{Exercise, Kind};
use crate::ui::widgets::words;
use answers::AnswerProps;
use choose::Choose;
use clock::{now, use_seen};
use hand_in::HandIn;
use keys::use_steps_by_keys;
use marks::Marks;
use std::rc::Rc;
use yew::prelude::*;

/// Which exercise is meant: kind, level and seed.
type Which = (Kind, u8, u64);

/// The part.
#[component]
pub fn Practise(props: &PartProps) -> Html {
    let desk = &props.desk;
    let on_desk = desk.desk.on_desk.clone();
    let which: Option<Which> = on_desk.as_ref().map(|on| (on.kind, on.level, on.seed));
    let exercise = use_memo(which, |which| {
        which.and_then(|(kind, level, seed)| Exercise::of(kind, level, seed).ok()).map(Rc::new)
    });
    let marked = {
        let handed_in = on_desk.as_ref().filter(|on| on.handed_in).map(|on| (on.answer.clone(), on.hints));
        use_memo((handed_in, exercise.clone()), |(handed_in, exercise)| {
            let (answer, hints) = handed_in.as_ref()?;
            Some(Rc::new((**exercise).as_ref()?.mark(answer, *hints)))
        })
    };
    let set = {
        let act = desk.act.clone();
        Callback::from(move |(kind, level, seed): Which| {
            // The time of the one that lies there ends here.
            act.emit(DeskAct::Left(now()));
            act.emit(DeskAct::Set(kind, level, seed));
            act.emit(DeskAct::Seen(now()));
        })
    };
    {
        // A first visit begins with an exercise and not with a form.
        let (set, next) = (set.clone(), desk.desk.logbook.next());
        use_effect_with(which.is_none(), move |none| {
            if *none {
                set.emit((next.kind, next.level, next.seed));
            }
        });
    }
    use_seen(which, &desk.act);
    use_effect_with(which, |_| {
        // Another exercise is read from its beginning.
        if let Ok(Some(room)) = gloo_utils::document().query_selector(".room-class") {
            room.set_scroll_top(0);
        }
    });
    use_steps_by_keys(&desk.act);
    let (Some(on), Some(exercise)) = (on_desk, (*exercise).clone()) else {
        return html! { <section class="practise" aria-label="Exercise"><Choose desk={desk.clone()} {set} /></section> };
    };
    let answer = answers::view(AnswerProps {
        exercise: exercise.clone(),
        answer: Rc::new(on.answer.clone()),
        set: desk.act.reform(DeskAct::Answer),
        marked: (*marked).clone(),
        narrow: props.room.narrow,
    });
    let machine = matches!(exercise.kind, Kind::WrongSheet | Kind::WrongBook);
    html! {
        <section class="practise" aria-label="Exercise">
            <Choose desk={desk.clone()} set={set.clone()} />
            <div class="asked">
                <h2 class="asks-title unseen">{ exercise.kind.title() }</h2>
                <p class="asks">{ words(exercise.kind.asks()) }</p>
                <p class="quiet caution">{ if machine { AT_A_MACHINE } else { BY_HAND } }</p>
            </div>
            <div class="answer">{ answer }</div>
            <HandIn exercise={exercise.clone()} on={on.clone()} act={desk.act.clone()} />
            <Marks exercise={exercise.clone()} marked={(*marked).clone()} desk={desk.desk.clone()} {set} />
        </section>
    }
}
