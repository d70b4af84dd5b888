//! The bench before a class: what can be shown is chosen here; then it fills the window.
//!
//! - `choose`: the sheet, the book, or a course, and the list of keys
//! - `begin`: with what a class begins
//! - `stage`: what fills the window: keys, taps, and what they do ([`crate::class::show`])
//! - `pictures`: what the engine knows of a picture
//! - `words`: the question, its slips, what was told, the line of keys
//! - `flats`, `spine`, `strip`: what is drawn; `ring`: the pointer; `screen`: the whole screen, and the page behind kept still

mod begin;
mod choose;
mod flats;
mod pictures;
mod ring;
mod screen;
mod spine;
mod stage;
mod strip;
mod words;

use super::PartProps;
use begin::Begin;
use choose::choose;
use stage::Stage;
use std::rc::Rc;
use yew::prelude::*;

/// The part.
#[component]
pub fn Show(props: &PartProps) -> Html {
    let begun = use_state(|| None::<Rc<Begin>>);
    // Who had the focus has it again afterwards.
    let before = use_mut_ref(|| None);
    let begin = {
        let (begun, before) = (begun.setter(), before.clone());
        Callback::from(move |begin: Begin| {
            let focused = screen::focused();
            // A second one may begin in place of the first.
            if focused.as_ref().is_none_or(|e| e.closest(".show").ok().flatten().is_none()) {
                *before.borrow_mut() = focused;
            }
            begun.set(Some(Rc::new(begin)));
        })
    };
    use_effect_with(begun.is_some(), move |going| {
        let before = if *going { None } else { before.borrow_mut().take() };
        if let Some(before) = before {
            let _ = before.focus();
        }
    });
    let leave = {
        let begun = begun.setter();
        Callback::from(move |()| begun.set(None))
    };
    html! {
        <>
            { choose(&props.room.state, &begin) }
            <div class="show-box">
                { match &*begun {
                    Some(begin) => html! {
                        <Stage key={Rc::as_ptr(begin) as usize} begin={begin.clone()} checker={props.room.checker.clone()} {leave} />
                    },
                    None => Html::default(),
                } }
            </div>
        </>
    }
}
