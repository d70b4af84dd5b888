//! With what a class begins.

use crate::app::{Action, Evidence, Job, Look, State, Task, update};
use crate::class::show::{On, Picture};
use crate::fold::NamedCourse;
use std::rc::Rc;
use yew::AttrValue;

/// What is shown, and how it lies at first. It is a copy: whatever is done before a class leaves the job as it is.
#[derive(Clone, Debug, PartialEq)]
pub struct Begin {
    /// The job and the piece that are shown.
    pub state: Rc<State>,
    /// The picture that the class sees first.
    pub picture: Picture,
    /// What it is called.
    pub title: AttrValue,
}

impl Begin {
    /// The section of the job that lies on the bench of the Fold room.
    pub fn section(state: &State) -> Self {
        let name = state.sheet().trade_name().map_or_else(|| state.job.title.clone(), str::to_owned);
        let picture = Picture { place: state.look.place, ..Picture::default() };
        Self { state: Rc::new(copy(state)), picture, title: name.into() }
    }

    /// The gathered book: as it lies in the stack, or spoiled.
    pub fn book(state: &State, spoiled: u64) -> Self {
        let picture = Picture { on: On::Spine, place: state.look.place, spoiled, ..Picture::default() };
        Self { state: Rc::new(copy(state)), picture, title: state.job.title.clone().into() }
    }

    /// A course at hand.
    pub fn course(named: &NamedCourse) -> Self {
        let course = named.course.clone();
        let take = if named.oblong { Action::TakeOblong(course) } else { Action::Take(course) };
        let state = update(&State::default(), take).0;
        Self { state: Rc::new(copy(&state)), picture: Picture::default(), title: named.name.into() }
    }
}

/// A job to be shown: nothing of it is kept, and nothing is found in it but the stack.
fn copy(state: &State) -> State {
    let look = Look {
        task: Task::Fold,
        compare: false,
        lay: crate::app::Lay::default(),
        followed: None,
        ..state.look.clone()
    };
    let job = Job { evidence: Evidence::Stack, ..(*state.job).clone() };
    State { job: Rc::new(job), look, ..State::default() }
}
