//! The state behind one reducer. Components dispatch what a person did; they never read state in a callback.
//!
//! What is done on the first screen is done at once. What else can be done needs a later part (`ui/requested.rs`): until it is
//! there, such actions wait, and all that come after them wait with them.
//!
//! While something from a link lies on the bench ([`Do::Visit`]), it is a state of its own and the person's is put by: nothing
//! of a visit is kept, and nothing in it can change what was made here.

use super::requested::Carry;
use crate::app::{Action, Effect, Job, Look, State, update_at_once};
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
    /// The person's own state, while they look at what came in a link.
    pub own: Option<Rc<State>>,
    /// What waits for the part that carries out actions.
    pub waiting: Vec<Do>,
    /// That part.
    pub carry: Option<Carry>,
}

/// What the store takes.
#[derive(Clone, Debug, PartialEq)]
pub enum Do {
    /// Carry out an action.
    Act(Action),
    /// Look at a job that came in a link. One's own is put by as it is.
    Visit(Box<Job>, Look),
    /// Back to one's own.
    Leave,
    /// The part that carries out the others is there.
    Carry(Carry),
    /// It can't be had.
    NoCarry,
    /// The effects up to this turn were performed.
    Performed(u64),
}

impl Store {
    /// What is to be kept: what a person looks at from a link never is.
    pub fn kept(&self) -> &State {
        self.own.as_deref().unwrap_or(&self.state)
    }

    fn take(mut self, what: Do) -> Self {
        if !self.waiting.is_empty() {
            self.waiting.push(what);
            return self;
        }
        match what {
            Do::Act(action) => self.act(action),
            Do::Visit(job, look) => {
                let state = std::mem::take(&mut self.state);
                self.own.get_or_insert_with(|| Rc::new(state));
                self.act(Action::Opened { job, look, by_hand: false })
            }
            _ => self.leave(),
        }
    }

    fn leave(mut self) -> Self {
        if let Some(own) = self.own.take() {
            self.state = (*own).clone();
            self.effects.push(Effect::Settle((self.state.look.at.max(0.0) * 1000.0) as u32));
            self.turn += 1;
        }
        self
    }

    fn act(mut self, action: Action) -> Self {
        // A job that is opened takes the place of one's own, and not of what is only looked at.
        if matches!(action, Action::Opened { by_hand: true, .. }) {
            self = self.leave();
        }
        let done = match update_at_once(&self.state, action) {
            Ok(done) => done,
            Err(action) => match self.carry {
                Some(carry) => carry.out(&self.state, action),
                None => {
                    self.waiting.push(Do::Act(action));
                    return self;
                }
            },
        };
        let (state, mut new) = done;
        if self.own.is_some() {
            new.retain(|effect| *effect != Effect::Save);
        }
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
            Do::Carry(carry) => {
                store.carry = Some(carry);
                for waited in std::mem::take(&mut store.waiting) {
                    store = store.take(waited);
                }
            }
            Do::NoCarry => {
                store.waiting.clear();
                store.state.said = Some("The part that does this could not be loaded. Try again.".into());
                store.turn += 1;
            }
            Do::Performed(turn) if turn == store.turn && !store.effects.is_empty() => store.effects.clear(),
            Do::Performed(_) => {}
            what => store = store.take(what),
        }
        if store == *self { self } else { Rc::new(store) }
    }
}

/// How components say what happened.
pub type Act = Callback<Action>;
