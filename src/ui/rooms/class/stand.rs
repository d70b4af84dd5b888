//! A bench of its own: a state and hands beside those of the job, so that what is done here leaves the job as it is.

use crate::app::{Action, Effect, State, update};
use crate::scene::Bench;
use crate::ui::bench::{CanvasProps, Hands, Pointed, follow, on_key, setting, use_canvas};
use crate::ui::shared::Shared;
use crate::ui::store::Act;
use gloo_events::{EventListener, EventListenerOptions, EventListenerPhase};
use gloo_utils::document;
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::KeyboardEvent;
use yew::prelude::*;

/// A sheet on a bench of its own.
#[derive(Clone, PartialEq)]
pub struct Stand {
    /// All that is known of it: a job of which nothing is kept.
    pub state: Rc<State>,
    /// How to say what happened at it.
    pub act: Act,
    /// Who holds the sheet.
    pub hands: Hands,
    /// What lies there.
    pub bench: Option<Shared<Bench>>,
    /// Puts another state there.
    pub put: Callback<State>,
}

#[derive(Clone, PartialEq)]
struct Own {
    state: Rc<State>,
    effects: Vec<Effect>,
    turn: u64,
}

enum Do {
    Act(Action),
    Put(State),
    Performed(u64),
}

impl Reducible for Own {
    type Action = Do;

    fn reduce(self: Rc<Self>, action: Do) -> Rc<Self> {
        let mut next = (*self).clone();
        match action {
            Do::Act(action) => {
                let (state, mut effects) = update(&self.state, action);
                if state == *self.state && effects.is_empty() {
                    return self;
                }
                next.state = Rc::new(state);
                next.effects.append(&mut effects);
                next.turn += 1;
            }
            Do::Put(state) => {
                // At once, and not gliding: it is another sheet.
                let at = (state.look.at.max(0.0) * 1000.0) as u32;
                (next.state, next.turn) = (Rc::new(state), self.turn + 1);
                next.effects = vec![Effect::Settle(at)];
            }
            Do::Performed(turn) if turn == next.turn && !next.effects.is_empty() => next.effects.clear(),
            Do::Performed(_) => return self,
        }
        Rc::new(next)
    }
}

/// A bench of its own with a state to begin with. `keys` says whether keys go to it, and not to the job.
#[hook]
pub fn use_stand(begin: impl FnOnce() -> State, keys: bool) -> Stand {
    let own = use_reducer_eq(|| Own { state: Rc::new(begin()), effects: Vec::new(), turn: 0 });
    let hands = (*use_memo((), |()| Hands::default())).clone();
    let dispatcher = own.dispatcher();
    let act: Act = use_callback((), move |action: Action, ()| dispatcher.dispatch(Do::Act(action)));
    let dispatcher = own.dispatcher();
    let put = use_callback((), move |state: State, ()| dispatcher.dispatch(Do::Put(state)));
    let state = own.state.clone();
    let deps = (state.job.clone(), state.look.task, state.look.piece, state.look.place);
    let bench = {
        let state = state.clone();
        use_memo(deps, move |_| state.bench().map(Shared::new))
    };
    {
        let hands = hands.clone();
        let setting = setting(&state, (*bench).clone(), true, None, None);
        use_effect(move || hands.put(setting));
    }
    {
        let (hands, dispatcher) = (hands.clone(), own.dispatcher());
        let effects = own.effects.clone();
        use_effect_with(own.turn, move |turn| {
            for effect in effects {
                match effect {
                    Effect::Settle(at) => hands.settle(f64::from(at) / 1000.0),
                    Effect::Glide(at) => hands.glide_to(f64::from(at)),
                    Effect::Save | Effect::Download(_) => {}
                }
            }
            dispatcher.dispatch(Do::Performed(*turn));
        });
    }
    {
        let (hands, act) = (hands.clone(), act.clone());
        use_effect_with(keys, move |keys| {
            hands.tell(act.clone());
            let refit = hands.clone();
            let resized = EventListener::new(&gloo_utils::window(), "resize", move |_| refit.refit());
            // Before the keys of the job: here they are of this bench.
            let first = EventListenerOptions { phase: EventListenerPhase::Capture, passive: false };
            let listener = keys.then(|| {
                EventListener::new_with_options(&document(), "keydown", first, move |e| {
                    if let Some(e) = e.dyn_ref::<KeyboardEvent>() {
                        on_key(e, &hands, &act);
                        if e.default_prevented() {
                            e.stop_propagation();
                        }
                    }
                })
            });
            move || drop((listener, resized))
        });
    }
    Stand { state, act, hands, bench: (*bench).clone(), put }
}

/// The canvas of such a bench. What is pointed at is followed.
#[hook]
pub fn use_stand_canvas(stand: &Stand, says: AttrValue) -> Html {
    let pointed = {
        let (act, bench, followed) = (stand.act.clone(), stand.bench.clone(), stand.state.look.followed);
        Callback::from(move |pointed: Pointed| match (pointed, &bench) {
            (Pointed::Face(face), Some(bench)) => act.emit(follow(bench, &face, followed)),
            (Pointed::Bench, _) => act.emit(Action::Follow(None)),
            _ => {}
        })
    };
    use_canvas(&CanvasProps { hands: stand.hands.clone(), says, making: false, pointed })
}
