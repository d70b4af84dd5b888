//! The minutes of an exercise: from when it was first seen until it is handed in, laid aside, or left.

use super::Which;
use crate::class::DeskAct;
use yew::prelude::*;

/// The seconds of the page's clock.
pub fn now() -> u64 {
    (js_sys::Date::now() / 1000.0).max(0.0) as u64
}

/// Tells the desk when an exercise comes before its learner, and when it goes.
#[hook]
pub fn use_seen(which: Option<Which>, act: &Callback<DeskAct>) {
    let act = act.clone();
    use_effect_with(which, move |which| {
        if which.is_some() {
            act.emit(DeskAct::Seen(now()));
        }
    });
}
