//! What the root keeps of links: all that is there before the part is.

use super::{HandOn, Props, address, way};
use crate::app::{Action, Room};
use crate::link::Exercise;
use crate::ui::bench::OnBench;
use crate::ui::later::use_later;
use crate::ui::store::{Act, Do, Store};
use gloo_events::EventListener;
use gloo_utils::window;
use std::rc::Rc;
use yew::prelude::*;

/// What the root needs to know of links.
pub struct Links {
    /// What is said above the room, and the dialog.
    pub view: Html,
    /// Hands something on.
    pub hand_on: Callback<HandOn>,
    /// An exercise that came in a link, until the room Class has set it.
    pub set: UseStateHandle<Option<Exercise>>,
}

/// Keeps what arrives in the address and what is handed on. The part is fetched for either, and for nothing else.
#[hook]
pub fn use_links(
    store: &UseReducerHandle<Store>,
    act: &Act,
    put: &Callback<Option<Rc<OnBench>>>,
    on_bench: bool,
    ready: bool,
) -> Links {
    let arrived = use_state(address::arrived);
    let handing = use_state(|| None::<HandOn>);
    let set = use_state(|| None::<Exercise>);
    {
        let arrived = arrived.setter();
        use_effect_with((), move |()| {
            let heard = EventListener::new(&window(), "hashchange", move |_| {
                if let Some(link) = address::arrived() {
                    arrived.set(Some(link));
                }
            });
            move || drop(heard)
        });
    }
    let wanted = arrived.is_some() || handing.is_some() || store.own.is_some();
    let part = use_later(wanted, way);
    let hand_on = {
        let handing = handing.setter();
        Callback::from(move |what: HandOn| handing.set(Some(what)))
    };
    let exercise = {
        let (act, set) = (act.clone(), set.setter());
        Callback::from(move |exercise: Exercise| {
            set.set(Some(exercise));
            act.emit(Action::Go(Room::Class));
        })
    };
    let dispatcher = store.dispatcher();
    let view = match part {
        // Nothing is opened before one's own job is there.
        _ if !ready => Html::default(),
        Ok(view) => view(Props {
            state: Rc::new(store.state.clone()),
            own: store.own.clone(),
            act: act.clone(),
            tell: Callback::from(move |what: Do| dispatcher.dispatch(what)),
            arrived,
            exercise,
            handing,
            put: put.clone(),
            on_bench,
        }),
        Err(meanwhile) if wanted => meanwhile,
        Err(_) => Html::default(),
    };
    Links { view, hand_on, set }
}
