//! The state behind one reducer. Components dispatch what a person did; they never read state in a callback.

use crate::app::{Action, Effect, State, update};
use std::rc::Rc;
use yew::prelude::*;

/// State, and the effects that are still to be performed.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Store {
    /// The state.
    pub state: State,
    /// Effects of the actions since `performed`, in order.
    pub effects: Vec<Effect>,
    /// Counts actions, so that effects are performed once.
    pub turn: u64,
}

/// What the store takes.
#[derive(Clone, Debug)]
pub enum Do {
    /// Carry out an action.
    Act(Action),
    /// The effects up to this turn were performed.
    Performed(u64),
}

impl Reducible for Store {
    type Action = Do;

    fn reduce(self: Rc<Self>, action: Do) -> Rc<Self> {
        match action {
            Do::Act(action) => {
                let (state, mut new) = update(&self.state, action);
                if state == self.state && new.is_empty() {
                    return self;
                }
                let mut effects = self.effects.clone();
                effects.append(&mut new);
                Rc::new(Self { state, effects, turn: self.turn + 1 })
            }
            Do::Performed(turn) => {
                if turn != self.turn || self.effects.is_empty() {
                    return self;
                }
                Rc::new(Self { effects: Vec::new(), ..(*self).clone() })
            }
        }
    }
}

/// How components say what happened.
pub type Act = Callback<Action>;
