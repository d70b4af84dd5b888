//! Working a layout back to its folds: the two sides to write on, and the ways of folding that print them.
//!
//! - `grid`: both sides as cells to write in
//! - `ways`: what the worker found, shown on the bench one way after the other

mod grid;
mod ways;

use crate::app::State;
use crate::ui::bench::OnBench;
use crate::ui::browser::checker::Checker;
use crate::ui::later::{Later, Missing, wasm_split};
use crate::ui::store::Act;
use grid::Grid;
use std::rc::Rc;
use ways::Ways;
use yew::prelude::*;

/// What both parts need.
#[derive(Clone, PartialEq, Properties)]
pub struct Props {
    /// The state.
    pub state: Rc<State>,
    /// How to say what happened.
    pub act: Act,
    /// Who searches.
    pub checker: Checker,
    /// Puts a sheet on the bench, or the job's own again.
    pub put: Callback<Option<Rc<OnBench>>>,
}

/// The way to the cells.
#[wasm_split(more, fallible)]
pub fn grid_way() -> Result<Later<Props>, Missing> {
    Ok(|props| html! { <Grid ..props /> })
}

/// The way to what was found.
#[wasm_split(more, fallible)]
pub fn ways_way() -> Result<Later<Props>, Missing> {
    Ok(|props| html! { <Ways ..props /> })
}
