//! A step shown: its deeds are done on the bench, each once the one before has come to rest.

use super::laid::{Own, laid};
use crate::app::{Action, Spoil};
use crate::gather::Fault;
use crate::practice::lesson::{Deed, Lesson, OnBench};
use crate::scene::Stage;
use crate::ui::rooms::class::stand::Stand;
use yew::prelude::*;

/// How far the showing is: the deed, and whether it is being done.
pub type Showing = Option<(usize, bool)>;

/// What showing needs.
pub struct Props<'a> {
    /// The lesson, and its step from 0.
    pub lesson: &'a Lesson,
    /// The step.
    pub step: usize,
    /// What lies there now; `None` while the sheet moves.
    pub now: Option<&'a OnBench>,
    /// The bench.
    pub stand: &'a Stand,
    /// Changes what was said and opened.
    pub own: UseStateSetter<Own>,
    /// How far it is.
    pub showing: UseStateHandle<Showing>,
}

/// Puts the bench as the step begins, and shows it from there.
pub fn begin(lesson: &Lesson, step: usize, stand: &Stand, own: &UseStateSetter<Own>) {
    let (state, said) = laid(&lesson.before(step), lesson.title);
    own.set(said);
    stand.put.emit(state);
}

/// Goes on with the showing, whenever something has come to rest.
#[hook]
pub fn use_showing(props: &Props<'_>) {
    let way = use_memo((props.lesson.title, props.step), |_| {
        props.lesson.steps.get(props.step).map(|step| step.way(&props.lesson.before(props.step))).unwrap_or_default()
    });
    let deeds = props.lesson.steps.get(props.step).map(|step| step.deeds.clone()).unwrap_or_default();
    let deps = (*props.showing, props.now.cloned());
    let (stand, own, showing) = (props.stand.clone(), props.own.clone(), props.showing.clone());
    use_effect_with(deps, move |(at, now)| {
        let (Some((deed, begun)), Some(now)) = (*at, now) else { return };
        if begun {
            if way.get(deed + 1) == Some(now) {
                showing.set((deed + 1 < deeds.len()).then_some((deed + 1, false)));
            }
        } else if way.get(deed) == Some(now)
            && let Some(next) = deeds.get(deed)
        {
            showing.set(Some((deed, true)));
            perform(next, now, &stand, &own);
        }
    });
}

/// Does a deed on the bench.
fn perform(deed: &Deed, now: &OnBench, stand: &Stand, own: &UseStateSetter<Own>) {
    let said = |change: &dyn Fn(&mut Own)| {
        let (_, mut said) = laid(now, "");
        change(&mut said);
        own.set(said);
    };
    match deed {
        Deed::Make(fold) => stand.hands.make(*fold),
        Deed::Undo => stand.hands.unfold(),
        Deed::Step => stand.hands.step(1),
        Deed::TurnOver => stand.act.emit(Action::Lay(stand.state.look.lay.turned_over())),
        Deed::Follow(page) => stand.act.emit(Action::FollowInBook(*page)),
        Deed::OpenAt(leaf) => open_at(stand, *leaf),
        Deed::Gather(_) => {
            said(&|said| said.named = None);
            stand.act.emit(Action::Spoil(Spoil::MakeGood));
        }
        Deed::Spoil(fault) => {
            said(&|said| said.named = None);
            if let Some(spoil) = spoil(fault) {
                stand.act.emit(Action::Spoil(spoil));
            }
        }
        Deed::Name(fault) => said(&|said| said.named = Some(*fault)),
        Deed::NameCause(cause) => said(&|said| name_cause(said, cause.clone())),
        Deed::Look => said(&look),
        Deed::Open(book) => said(&|said| {
            if let Some(run) = &mut said.run {
                run.open(*book);
            }
        }),
        Deed::Hold(books) => said(&|said| said.held = Some(*books)),
    }
}

/// Opens the section at a leaf, or closes it.
pub fn open_at(stand: &Stand, leaf: u32) {
    let Some(bench) = &stand.bench else { return };
    let open = if leaf > 0 { 2 + leaf as usize } else { 0 };
    stand.hands.glide_to((bench.rule.folds + open) as f64);
}

/// One leaf on: a closed section is opened at its first leaf.
pub fn turn_leaf(stand: &Stand) {
    let Some(bench) = stand.bench.as_ref().filter(|b| b.rule.leaves > 0) else { return };
    match bench.rule.stage(stand.state.look.at) {
        Stage::Leaf { turned, .. } => open_at(stand, turned as u32 + 1),
        _ => open_at(stand, 1),
    }
}

/// Names a cause; one that was named before is named again.
pub fn name_cause(said: &mut Own, cause: crate::fold::misfold::Cause) {
    said.causes.retain(|named| *named != cause);
    said.causes.push(cause);
}

/// Looks at the lay ticks; what was named before is open again.
pub fn look(said: &mut Own) {
    said.looked = true;
    said.causes.clear();
}

/// How a right book is spoiled so.
fn spoil(fault: &Fault) -> Option<Spoil> {
    Some(match *fault {
        Fault::Missing { section } => Spoil::LeaveOut(section),
        Fault::Double { section } => Spoil::TakeTwo(section),
        Fault::WrongSection { at, section } => Spoil::PutIn(at, section),
        Fault::Exchanged { sections: [a, b] } => Spoil::Exchange(a, b),
        Fault::Lies { section, lies } => Spoil::Lay(section, lies),
        _ => return None,
    })
}
