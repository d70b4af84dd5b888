//! A bench of its own: a state and hands beside those of the job, so that what is done here leaves the job as it is.

use crate::app::{Action, Effect, State, Task, printed_bench, state_of_folds, update};
use crate::scene::{Bench, Printing};
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
    /// Whether it is printed otherwise than for its folds: an exercise.
    pub of_exercise: bool,
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
            // Led back by hand, a fold of a way that is being made is taken back.
            Do::Act(Action::Try { folds, at }) if self.state.look.task == Task::Make => {
                let course = &self.state.sheet().course;
                let mut state = state_of_folds(course.rows, course.columns, &folds);
                (state.look.at, state.look.lay) = (at, self.state.look.lay);
                next.effects.push(Effect::Settle((at.max(0.0) * 1000.0) as u32));
                (next.state, next.turn) = (Rc::new(state), self.turn + 1);
            }
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
    use_stand_printed(begin, keys, None)
}

/// The same with a sheet that is printed otherwise than for its folds, or not at all, as exercises are: it is folded as it is told,
/// or fold after fold where a way of folding is made; steps back belong to the answer and not to the bench.
#[hook]
pub fn use_stand_printed(begin: impl FnOnce() -> State, keys: bool, printed: Option<Rc<Printing>>) -> Stand {
    let own = use_reducer_eq(|| {
        let state = Rc::new(begin());
        // It may begin folded.
        let effects = vec![Effect::Settle((state.look.at.max(0.0) * 1000.0) as u32)];
        Own { state, effects, turn: 1 }
    });
    let hands = (*use_memo((), |()| Hands::default())).clone();
    let dispatcher = own.dispatcher();
    let act: Act = use_callback((), move |action: Action, ()| dispatcher.dispatch(Do::Act(action)));
    let dispatcher = own.dispatcher();
    let put = use_callback((), move |state: State, ()| dispatcher.dispatch(Do::Put(state)));
    let state = own.state.clone();
    let of_exercise = printed.is_some();
    let deps = (state.job.clone(), state.look.task, state.look.piece, state.look.place, printed);
    let bench = {
        let state = state.clone();
        use_memo(deps, move |(.., printed)| {
            let bench = match printed {
                Some(printed) => printed_bench(&state.sheet().course, (**printed).clone()),
                None => state.bench(),
            };
            bench.map(Shared::new)
        })
    };
    {
        let hands = hands.clone();
        let mut setting = setting(&state, (*bench).clone(), true, None, None);
        setting.free &= !of_exercise;
        if of_exercise && setting.making {
            setting.tried = Some(state.scheme().folds.len());
        }
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
                    let elsewhere = |e: &KeyboardEvent| {
                        let target = e.target().and_then(|t| t.dyn_into::<web_sys::Element>().ok());
                        let cell = target.is_some_and(|t| t.closest("[data-cell]").ok().flatten().is_some());
                        cell || (of_exercise && (e.ctrl_key() || e.meta_key()))
                    };
                    if let Some(e) = e.dyn_ref::<KeyboardEvent>().filter(|e| !elsewhere(e)) {
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
    Stand { state, act, hands, bench: (*bench).clone(), put, of_exercise }
}

/// The canvas of such a bench. What is pointed at is followed, but on sheets of exercises.
#[hook]
pub fn use_stand_canvas(stand: &Stand, says: AttrValue) -> Html {
    let pointed = {
        let bench = stand.bench.clone().filter(|_| !stand.of_exercise);
        let (act, followed) = (stand.act.clone(), stand.state.look.followed);
        Callback::from(move |pointed: Pointed| match (pointed, &bench) {
            (Pointed::Face(face), Some(bench)) => act.emit(follow(bench, &face, followed)),
            (Pointed::Bench, _) => act.emit(Action::Follow(None)),
            _ => {}
        })
    };
    use_canvas(&CanvasProps { hands: stand.hands.clone(), says, making: false, pointed })
}
