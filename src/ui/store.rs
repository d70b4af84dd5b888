//! The state behind one reducer. Components dispatch what a person did; they never read state in a callback.
//!
//! What is done on the first screen is done at once. What else can be done needs a later part (`ui/requested.rs`): until it is
//! there, such actions wait, and all that come after them wait with them.
//!
//! While something from a link lies on the bench ([`Do::Visit`]), it is a state of its own and the person's is put by: nothing
//! of a visit is kept, and nothing in it can change what was made here.

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
    /// Look at what came in a link. One's own is put by as it is.
    Visit(Rc<State>),
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
            Do::Visit(other) => {
                let own = self.show(&other);
                // What was said last still holds, as that nothing is kept here.
                self.state.said.clone_from(&own.said);
                self.own.get_or_insert_with(|| Rc::new(own));
                self
            }
            _ => self.leave(),
        }
    }

    fn leave(mut self) -> Self {
        if let Some(own) = self.own.take() {
            self.show(&own);
        }
        self
    }

    /// Shows another state, and hands out the one before.
    fn show(&mut self, other: &State) -> State {
        self.effects.push(Effect::Settle((other.look.at.max(0.0) * 1000.0) as u32));
        self.turn += 1;
        std::mem::replace(&mut self.state, other.clone())
    }

    fn act(mut self, action: Action) -> Self {
        // The bench reports where it was brought: nobody did anything, and what was said last still holds.
        if action == Action::Moved(self.state.look.at) {
            return self;
        }
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::{BookAct, Job, Look, Spoil, update};

    fn done(store: &Rc<Store>, what: Do) -> Rc<Store> {
        store.clone().reduce(what)
    }

    /// A store in which one thing was made, and everything was performed.
    fn own() -> Rc<Store> {
        let title = |title: &str| Action::Book(BookAct::Title(title.to_owned()));
        let mut store = Store { state: update(&State::default(), title("My own")).0, ..Store::default() };
        store.state.said = None;
        Rc::new(store)
    }

    fn visit() -> Do {
        let job = Job { title: "A sheet from a link".into(), ..Job::default() };
        Do::Visit(Rc::new(State { job: Rc::new(job), ..State::default() }))
    }

    #[test]
    fn what_is_looked_at_is_never_kept_and_ones_own_comes_back_as_it_was() {
        let own = own();
        let mut store = done(&own, visit());
        assert_eq!(store.state.job.title, "A sheet from a link");
        for action in [Action::Moved(2.0), Action::Follow(Some(3)), Action::Pick(4)] {
            store = done(&store, Do::Act(action));
        }
        // Another link while the first lies there.
        store = done(&store, visit());
        assert_eq!(store.kept(), &own.state);
        assert!(!store.effects.contains(&Effect::Save), "{:?}", store.effects);
        let back = done(&store, Do::Leave);
        assert_eq!((&back.state, &back.own), (&own.state, &None));
        assert_eq!(done(&back, Do::Leave), back);
    }

    #[test]
    fn what_was_said_last_holds_until_somebody_does_something() {
        let store = done(&done(&own(), Do::Act(Action::Say("Nothing is kept here.".into()))), visit());
        let store = done(&store, Do::Act(Action::Moved(store.state.look.at)));
        assert_eq!(store.state.said.as_deref(), Some("Nothing is kept here."));
        assert_eq!(done(&store, Do::Act(Action::Moved(1.0))).state.said, None);
    }

    #[test]
    fn a_save_that_was_asked_for_before_keeps_ones_own() {
        let store = done(&done(&own(), Do::Act(Action::Moved(1.0))), visit());
        assert!(store.effects.contains(&Effect::Save));
        assert_eq!((store.kept().job.title.as_str(), store.kept().look.at), ("My own", 1.0));
    }

    #[test]
    fn a_job_that_is_opened_meanwhile_takes_the_place_of_ones_own_and_undo_brings_that_back() {
        let job = Box::new(Job { title: "Another".into(), ..Job::default() });
        let opened = Action::Opened { job, look: Look::default(), by_hand: true };
        let store = done(&done(&own(), visit()), Do::Act(opened));
        assert_eq!((store.state.job.title.as_str(), &store.own), ("Another", &None));
        assert!(store.effects.contains(&Effect::Save));
        let undone = update(&store.state, Action::Undo).0;
        assert_eq!(undone.job.title, "My own");
    }

    #[test]
    fn what_waits_for_a_part_is_done_to_what_it_was_meant_for() {
        let spoil = || Do::Act(Action::Spoil(Spoil::LeaveOut(2)));
        let sections = |store: &Store| (store.kept().job.stack.placed().len(), store.state.job.stack.placed().len());
        let waiting = [spoil(), visit(), spoil(), spoil(), Do::Leave, visit()];
        let store = waiting.into_iter().fold(own(), |store, what| done(&store, what));
        assert_eq!((sections(&store), store.waiting.len()), ((18, 18), 6));
        let store = done(&store, Do::Carry(Carry::for_tests()));
        assert_eq!(sections(&store), (17, 18));
        assert_eq!(store.state.job.title, "A sheet from a link");
    }
}
