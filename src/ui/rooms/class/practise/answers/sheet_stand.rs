//! A sheet on a bench of its own that can be folded by hand, and who hears how.

use super::blank_bench::{turn_over, use_stand_rule};
use crate::app::{Action, Job, Look, Sheet, State};
use crate::fold::{Course, Scheme};
use crate::gather::stack::Stack;
use crate::ui::rooms::class::stand::{use_stand, use_stand_canvas};
use crate::ui::widgets::words;
use std::rc::Rc;
use yew::prelude::*;

/// What lies there.
#[derive(Clone, PartialEq, Properties)]
pub struct SheetStandProps {
    /// How it is worked.
    pub course: Rc<Course>,
    /// The number of its first page.
    pub first_page: u32,
    /// Hears the folds whenever they are others than the course's, and when they are the course's again.
    #[prop_or_default]
    pub tried: Callback<Option<Scheme>>,
    /// Whether the window is narrow.
    pub narrow: bool,
}

/// A job that has this sheet, with the section of that first page on the bench.
pub fn state_of(course: &Course, first_page: u32) -> State {
    let sheet = Sheet::usual(course.clone());
    let pages = sheet.pages().first().copied().unwrap_or(1).max(1);
    let place = first_page.saturating_sub(1) / pages + 1;
    let sections = place.max(2);
    let job = Job { sheet, sections, stack: Stack::good(sections), ..Job::default() };
    State { job: Rc::new(job), look: Look { place, ..Look::default() }, ..State::default() }
}

/// The bench, its rule, and what happens on it in a sentence.
#[component]
pub fn SheetStand(props: &SheetStandProps) -> Html {
    // Keys go to the sheet while the focus is there, and to the page otherwise.
    let held = use_state_eq(|| false);
    let stand = {
        let (course, first_page) = (props.course.clone(), props.first_page);
        use_stand(move || state_of(&course, first_page), *held)
    };
    let state = &stand.state;
    let says = stand.bench.as_ref().map(|bench| state.moment_sentence(bench)).unwrap_or_default();
    let canvas = use_stand_canvas(&stand, says.clone().into());
    let rule = use_stand_rule(&stand, props.narrow);
    {
        let (tried, scheme) = (props.tried.clone(), state.tried_scheme());
        use_effect_with(scheme, move |scheme| tried.emit(scheme.clone()));
    }
    let focus = {
        let held = held.setter();
        Callback::from(move |_: FocusEvent| held.set(true))
    };
    let blur = {
        let held = held.setter();
        Callback::from(move |_: FocusEvent| held.set(false))
    };
    let again = stand.act.reform(|_: MouseEvent| Action::ByScheme);
    let note = state.said.clone().unwrap_or_default();
    html! {
        <div class="sheet-stand" role="group" aria-label="A bench to try it on" onfocusin={focus} onfocusout={blur}>
            { canvas }
            <p class="stand-says" aria-live="polite">{ words(&says) }</p>
            <p class="stand-note quiet" role="status">{ words(&note) }</p>
            { rule }
            <div class="class-row">
                { turn_over(&stand) }
                <button type="button" class="button" hidden={!state.folds_by_hand()} onclick={again}>{ "As it should be folded" }</button>
            </div>
        </div>
    }
}
