//! Wrong books to begin with, for those who have none in hand.

use crate::app::{self, Action, CaseAct, Job};
use crate::trace::Case;
use crate::ui::store::Act;
use yew::prelude::*;

/// The stories to choose from.
pub fn stories(job: &Job, shown: bool, act: &Act) -> Html {
    let one = |(at, (name, case)): (usize, (&'static str, Case))| {
        let onclick = act.reform(move |_: MouseEvent| Action::Case(CaseAct::Put(Box::new(case.clone()))));
        html! { <li key={at}><button type="button" class="plain" {onclick}>{ name }</button></li> }
    };
    let all = if shown { app::stories(job) } else { Vec::new() };
    html! {
        <div class="stories" hidden={all.is_empty()}>
            <h3>{ "Or show me a wrong one" }</h3>
            <ul>{ for all.into_iter().enumerate().map(one) }</ul>
        </div>
    }
}
