//! With what a class begins.

use crate::app::{Action, Evidence, Job, Look, State, Task, look_at_scene, update};
use crate::class::show::{On, Picture};
use crate::fold::NamedCourse;
use crate::link::Scene;
use std::cell::RefCell;
use std::rc::Rc;
use yew::{AttrValue, Callback, hook, use_effect_with};

/// What is shown, and how it lies at first. It is a copy: whatever is done before a class leaves the job as it is.
#[derive(Clone, Debug, PartialEq)]
pub struct Begin {
    /// The job and the piece that are shown.
    pub state: Rc<State>,
    /// The picture that the class sees first.
    pub picture: Picture,
    /// What it is called.
    pub title: AttrValue,
    /// Whether all figures are covered at first.
    pub covered: bool,
}

impl Begin {
    /// The section of the job that lies on the bench of the Fold room.
    pub fn section(state: &State) -> Self {
        let name = state.sheet().trade_name().map_or_else(|| state.job.title.clone(), str::to_owned);
        let picture = Picture { place: state.look.place, ..Picture::default() };
        Self { state: Rc::new(copy(state)), picture, title: name.into(), covered: false }
    }

    /// The gathered book: as it lies in the stack, or spoiled.
    pub fn book(state: &State, spoiled: u64) -> Self {
        let picture = Picture { on: On::Spine, place: state.look.place, spoiled, ..Picture::default() };
        Self { state: Rc::new(copy(state)), picture, title: state.job.title.clone().into(), covered: false }
    }

    /// A course at hand.
    pub fn course(named: &NamedCourse) -> Self {
        let course = named.course.clone();
        let take = if named.oblong { Action::TakeOblong(course) } else { Action::Take(course) };
        let state = update(&State::default(), take).0;
        Self { state: Rc::new(copy(&state)), picture: Picture::default(), title: named.name.into(), covered: false }
    }

    /// What a link holds.
    pub fn scene(scene: &Scene) -> Option<Self> {
        let course = scene.sheet.course()?;
        let look = look_at_scene(scene);
        let taken = update(&State::default(), Action::Take(course)).0;
        let state = State { look: look.clone(), ..taken };
        let picture =
            Picture { place: look.place, at: look.at.max(0.0) as u32, over: look.lay.over, ..Picture::default() };
        let title = state.sheet().trade_name().unwrap_or("A sheet");
        let followed = state.followed_face(&state.bench()?).map(|face| state.printing().index(&face) as u32);
        let picture = Picture { followed, ..picture };
        Some(Self { state: Rc::new(copy(&state)), picture, title: title.into(), covered: !scene.figures })
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

thread_local! {
    /// What waits for the part to be there.
    static WAITING: RefCell<Option<Begin>> = const { RefCell::new(None) };
    /// Who hears of it, while the part is there.
    static HEARS: RefCell<Option<Callback<Begin>>> = const { RefCell::new(None) };
    /// Who opens the part, while the room is there.
    static OPENS: RefCell<Option<Callback<()>>> = const { RefCell::new(None) };
}

/// Shows what a link holds before a class: at once if the room Class is open, otherwise as soon as it is (the caller goes there with
/// [`Action::Go`]). Says whether there is anything to show.
#[allow(dead_code, reason = "for links, which begin a class with a scene")]
pub fn show(scene: &Scene) -> bool {
    let Some(begin) = Begin::scene(scene) else { return false };
    let hears = HEARS.with_borrow(Clone::clone);
    match hears {
        Some(hears) => hears.emit(begin),
        None => {
            WAITING.set(Some(begin));
            if let Some(opens) = OPENS.with_borrow(Clone::clone) {
                opens.emit(());
            }
        }
    }
    true
}

/// Whether something waits to be shown.
pub fn waits() -> bool {
    WAITING.with_borrow(Option::is_some)
}

/// What waits to be shown.
pub fn take_begun() -> Option<Begin> {
    WAITING.take()
}

/// Hears of what is to be shown while the part is there.
#[hook]
pub fn use_begun(hears: impl Fn(Begin) + 'static) {
    use_effect_with((), move |()| {
        HEARS.set(Some(Callback::from(hears)));
        || HEARS.set(None)
    });
}

/// Opens the part when something is to be shown, while the room is there.
#[hook]
pub fn use_opening(opens: Callback<()>) {
    use_effect_with((), move |()| {
        OPENS.set(Some(opens));
        || OPENS.set(None)
    });
}
