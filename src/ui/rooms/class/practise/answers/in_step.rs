//! What an answer makes, folded beside what is right; both come to rest open where they first part.

use super::blank_bench::BlankBench;
use crate::app::{beside_right, right_sheet};
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
    /// Whether the window is narrow.
    pub narrow: bool,
}

/// The two sheets, or the one where nothing is wrong with it.
#[component]
pub fn InStep(props: &InStepProps) -> Html {
    let InStepProps { exercise, answer, marked, narrow } = props;
    let beside = use_memo((), |()| {
        beside_right(exercise, answer, marked).map(|b| (Shared::new(b.right), Shared::new(b.answered), b.at))
    });
    // What is right needs nothing beside it.
    let right = use_memo((), |()| {
        let (course, printed) = beside.is_none().then(|| right_sheet(exercise, answer)).flatten()?;
        Some((Rc::new(course), Rc::new(printed)))
    });
    let alone = (*right).clone().map(|(course, printed)| {
        html! { <BlankBench {course} printed={Some(printed)} narrow={*narrow} /> }
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
            { alone.unwrap_or_default() }
        </div>
    }
}
