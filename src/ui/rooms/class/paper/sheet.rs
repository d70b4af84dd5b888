//! The sheet that is printed: the job's, or another one that is chosen by its drawn dummy.

use super::Set;
use super::wishes::{Change, Settings, name_of};
use crate::app::Job;
use crate::fold::NamedCourse;
use crate::ui::later::use_later;
use crate::ui::rooms::fold::picker::{CoursesProps, courses_way};
use crate::ui::widgets::Dialog;
use std::rc::Rc;
use yew::prelude::*;

/// What the choice needs.
#[derive(Clone, PartialEq, Properties)]
pub struct Props {
    /// The job.
    pub job: Rc<Job>,
    /// The course that is chosen in place of its sheet.
    pub course: Option<NamedCourse>,
    /// Changes it.
    pub set: Set,
}

/// Which sheet, and the dialog with the others.
#[component]
pub fn SheetChoice(props: &Props) -> Html {
    let open = use_state_eq(|| false);
    let show = use_later(*open, courses_way);
    let toggle = |to: bool| {
        let open = open.setter();
        Callback::from(move |()| open.set(to))
    };
    let take = |course: Option<NamedCourse>| {
        Change::of(move |s: &mut Settings| {
            // Another sheet has other faults.
            if s.course != course {
                (s.course, s.fault) = (course.clone(), None);
            }
        })
    };
    let choose = {
        let (set, open) = (props.set.clone(), open.setter());
        Callback::from(move |named: NamedCourse| {
            set.emit(take(Some(named)));
            open.set(false);
        })
    };
    let own = props.set.reform(move |_: MouseEvent| take(None));
    let name = props.course.as_ref().map(|named| named.name);
    let content = match show {
        Ok(show) => show(CoursesProps { name, choose }),
        Err(meanwhile) => meanwhile,
    };
    html! {
        <div class="paper-field sheet-choice">
            <span id="sheet-choice">{ "Sheet" }</span>
            <div class="sheet-buttons" role="group" aria-labelledby="sheet-choice">
                <button type="button" class="button" aria-pressed={name.is_none().to_string()} onclick={own}>{ name_of(&props.job) }</button>
                <button type="button" class="button other" aria-pressed={name.is_some().to_string()}
                    onclick={toggle(true).reform(|_: MouseEvent| ())}>{ name.unwrap_or("Another sheet") }</button>
            </div>
            <Dialog open={*open} title="Which sheet" close={toggle(false)}>
                { content }
                <div class="dialog-foot">
                    <button type="button" class="button" onclick={toggle(false).reform(|_: MouseEvent| ())}>{ "Close" }</button>
                </div>
            </Dialog>
        </div>
    }
}
