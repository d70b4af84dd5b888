//! What an answer makes, folded beside what is right; both come to rest open where they first part.

use crate::app::beside_right;
use crate::practice::{Answer, Exercise, Marked};
use crate::ui::bench::{PairProps, use_pair};
use crate::ui::shared::Shared;
use crate::ui::widgets::words;
use std::rc::Rc;
use yew::prelude::*;

/// What is compared.
#[derive(Clone, PartialEq, Properties)]
pub struct InStepProps {
    /// What was set.
    pub exercise: Rc<Exercise>,
    /// What was answered.
    pub answer: Rc<Answer>,
    /// What it was worth.
    pub marked: Rc<Marked>,
}

/// The two sheets, or a sentence where they are one.
#[component]
pub fn InStep(props: &InStepProps) -> Html {
    let InStepProps { exercise, answer, marked } = props;
    let beside = use_memo((), |()| {
        beside_right(exercise, answer, marked).map(|b| (Shared::new(b.right), Shared::new(b.answered), b.at))
    });
    let departs = marked.departs.as_ref().map(|d| d.says.clone()).unwrap_or_default();
    let end = (*beside).as_ref().map_or(0, |(.., at)| *at);
    let pair = use_pair(&PairProps {
        benches: (*beside).clone().map(|(right, answered, _)| (right, answered)),
        waits: true,
        names: ["As it should be", "As you answered"],
        end,
        says: departs.clone().into(),
        note: AttrValue::default(),
        turn: 0,
        show: None,
    });
    html! {
        <div class="in-step">
            <p class="departs" hidden={departs.is_empty()}>{ words(&departs) }</p>
            { pair }
        </div>
    }
}
