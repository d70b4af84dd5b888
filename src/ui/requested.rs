//! Carrying out what is not done on the first screen: gathering and spoiling, making sheets, layouts, the book. It is a later part,
//! fetched when the first such action comes.

use super::later::{Missing, wasm_split};
use super::store::{Do, Store};
use crate::app::{Action, Effect, State, Task, update};
use wasm_bindgen_futures::spawn_local;
use yew::prelude::*;

type Carries = fn(&State, Action) -> (State, Vec<Effect>);

/// The part, once it is there.
#[derive(Clone, Copy, Debug)]
pub struct Carry(Carries);

impl PartialEq for Carry {
    fn eq(&self, _: &Self) -> bool {
        // There is one.
        true
    }
}

impl Carry {
    /// The part as it is, without fetching it.
    #[cfg(test)]
    pub fn for_tests() -> Self {
        Self(update)
    }

    /// Carries out an action.
    pub fn out(self, state: &State, action: Action) -> (State, Vec<Effect>) {
        (self.0)(state, action)
    }
}

#[wasm_split(acts, fallible)]
fn part() -> Result<Carries, Missing> {
    Ok(update)
}

/// Fetches the part while actions wait for it, and where a layout that was being written lies open at once.
#[hook]
pub fn use_requested(store: &UseReducerHandle<Store>) {
    let dispatcher = store.dispatcher();
    let writing = store.carry.is_none() && store.state.look.task == Task::WorkBack;
    use_effect_with(writing || !store.waiting.is_empty(), move |wanted| {
        if *wanted {
            spawn_local(async move {
                dispatcher.dispatch(part().await.map_or(Do::NoCarry, |part| Do::Carry(Carry(part))));
            });
        }
    });
}
