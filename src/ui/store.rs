//! The state behind one reducer. Components dispatch what a person did; they never read state in a callback.
//!
//! What is done on the first screen is done at once. What else can be done needs a later part (`ui/requested.rs`): until it is
//! there, such actions wait, and all that come after them wait with them.

use super::requested::Carry;
use crate::app::{Action, Effect, State, update_at_once};
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
    /// Actions that wait for the part that carries them out.
    pub waiting: Vec<Action>,
    /// That part.
    pub carry: Option<Carry>,
}

/// What the store takes.
#[derive(Clone, Debug)]
pub enum Do {
    /// Carry out an action.
    Act(Action),
    /// The part that carries out the others is there.
    Carry(Carry),
    /// It can't be had.
    NoCarry,
    /// The effects up to this turn were performed.
    Performed(u64),
}

impl Store {
    fn act(mut self, action: Action) -> Self {
        let done = match update_at_once(&self.state, action) {
            Ok(done) => done,
            Err(action) => match self.carry {
                Some(carry) => carry.out(&self.state, action),
                None => {
                    self.waiting.push(action);
                    return self;
                }
            },
        };
        let (state, mut new) = done;
        if state != self.state || !new.is_empty() {
            self.effects.append(&mut new);
            (self.state, self.turn) = (state, self.turn + 1);
        }
        self
    }
}

impl Reducible for Store {
    type Action = Do;

    fn reduce(self: Rc<Self>, action: Do) -> Rc<Self> {
        let mut store = (*self).clone();
        match action {
            Do::Act(action) if !store.waiting.is_empty() => store.waiting.push(action),
            Do::Act(action) => store = store.act(action),
            Do::Carry(carry) => {
                store.carry = Some(carry);
                for action in std::mem::take(&mut store.waiting) {
                    store = store.act(action);
                }
            }
            Do::NoCarry => {
                store.waiting.clear();
                store.state.said = Some("The part that does this could not be loaded. Try again.".into());
                store.turn += 1;
            }
            Do::Performed(turn) if turn == store.turn && !store.effects.is_empty() => store.effects.clear(),
            Do::Performed(_) => {}
        }
        if store == *self { self } else { Rc::new(store) }
    }
}

/// How components say what happened.
pub type Act = Callback<Action>;
